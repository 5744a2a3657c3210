"""The command line: one file per command group, imported only when its command runs.

Only this package knows exit codes: 0 done, 1 something is outside or unproven where asked to fail,
2 usage or input error. Errors are one sentence that names the file, the place in it and the mend.
`--help` loads no numbers and no web.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

from cyclopts import App

from fitwright import __version__
from fitwright.cli.errors import mistyped, run

_COMMANDS = (
    ("demo", "fitwright.cli.serving:demo", "Serve a complete demo shop on this machine."),
    ("serve", "fitwright.cli.serving:serve", "Serve your own shop on this machine."),
    ("new", "fitwright.cli.new:new", "Write an engine sheet from a few questions."),
    ("sheet", "fitwright.cli.sheet:app", "Check, compare and show engine sheets."),
    ("build", "fitwright.cli.build:app", "Start a build to a sheet, list builds, take a revision over."),
    ("shop", "fitwright.cli.shop_things:app", "Enter people, gauges, settings, parts, decisions; list them."),
    ("measure", "fitwright.cli.measure:measure", "Take readings in the terminal, in measuring order."),
    ("first-start", "fitwright.cli.first_start:first_start", "Enter the oil pressures of a first start."),
    ("check", "fitwright.cli.check:check", "Say what the readings of a build prove."),
    ("work", "fitwright.cli.work:app", "Show the order of work; enter steps, tightenings, consumables."),
    (
        "put-right",
        "fitwright.cli.put_right:app",
        "Grant concessions and permits; order rework, follow it up.",
    ),
    ("sign", "fitwright.cli.signing:sign", "Sign a build, a step or a group by name and PIN."),
    ("oil", "fitwright.cli.oil:oil", "Predict the oil pressure of a build, and what if."),
    ("sum", "fitwright.cli.sum:sum_", "Do one computation on its own."),
    ("import", "fitwright.cli.exchange:import_", "Take readings in from CSV or XLSX."),
    ("export", "fitwright.cli.exchange:export", "Write readings or a whole build to a file."),
    ("dossier", "fitwright.cli.dossier:dossier", "Write the handover document of a build as PDF."),
    ("signing-key", "fitwright.cli.dossier:signing_key", "Show the key that signs dossiers, or make it."),
    ("verify", "fitwright.cli.keeping:verify", "Check a record, or a dossier against its record."),
    ("backup", "fitwright.cli.keeping:backup", "Copy a shop to a new folder, with a manifest."),
    ("restore", "fitwright.cli.keeping:restore", "Bring a backup back into an empty folder."),
)


def make_app(chosen: str | None = None) -> App:
    """The application with every command registered, none of them imported.

    The chosen command tells its own story, with its example; all others are listed by one line.
    """
    app = App(
        name="fitwright",
        version=__version__,
        help="A bench book that computes, for people who build engines.",
        error_formatter=mistyped,
    )
    for name, target, text in _COMMANDS:
        if name == chosen:
            app.command(target, name=name)
        else:
            app.command(target, name=name, help=text)
    return app


def main(arguments: Sequence[str] | None = None) -> None:
    """Run a command and leave with its exit code."""
    words = sys.argv[1:] if arguments is None else list(arguments)
    sys.exit(run(make_app(words[0] if words else None), words))
