"""The working of one fit in the terminal: every step with its figures and where they came from."""

from __future__ import annotations

import difflib
import json
import sys
from dataclasses import asdict

from rich.table import Table
from rich.text import Text

from fitwright.assess.results import State
from fitwright.assess.working import Figure, Step, working_of
from fitwright.cli.console import console
from fitwright.cli.errors import UsageError
from fitwright.drawing.accepted import accepted_words
from fitwright.drawing.figures import Reader
from fitwright.drawing.sentences import (
    coarse_set_sentences,
    hot_sentences,
    settle_sentence,
    verdict_sentence,
)
from fitwright.drawing.workings import figure_text
from fitwright.units.families import Family
from fitwright.wiring import Shop


def print_working(
    shop: Shop, build: str, state: State, subject: str, family: Family, *, as_json: bool
) -> None:
    """Print the working of one fit or limited dimension."""
    assessor = shop.assessor(build, state)
    known = assessor.judge.subjects
    if subject not in known:
        near = difflib.get_close_matches(subject, known, n=3, cutoff=0.4)
        hint = f" Did you mean {' or '.join(near)}?" if near else ""
        raise UsageError(f'No fit or limited dimension "{subject}" in {build}.{hint}')
    found = working_of(assessor.judge, assessor.verdict(subject))
    if as_json:
        json.dump([asdict(step) for step in found.steps], sys.stdout, ensure_ascii=False, indent=1)
        sys.stdout.write("\n")
        return
    reader = Reader(family)
    out = console()
    out.print(Text(f"{found.title} ({found.subject})", style="bold"))
    out.print(verdict_sentence(found.verdict, reader))
    accepted = accepted_words(assessor, found.verdict, shop.clock())
    if accepted:
        out.print(f"It stands {accepted}, and stays outside its limits.")
    settle = settle_sentence(found.verdict, assessor.settling(subject), reader)
    if settle:
        out.print(settle)
    for sentence in coarse_set_sentences(found.verdict, assessor.settling(subject), reader):
        out.print(sentence)
    for sentence in hot_sentences(found.verdict, reader):
        out.print(sentence)
    for step in found.steps:
        out.print()
        out.print(Text(step.title, style="bold"))
        if step.formula:
            out.print(f"  {step.formula}")
        out.print(_table(step, family))


def _table(step: Step, family: Family) -> Table:
    table = Table(box=None, pad_edge=False, show_header=False)
    for _ in range(4):
        table.add_column(overflow="fold")
    for figure in step.figures:
        table.add_row("  " + figure.name, *_columns(figure, family))
    if step.result is not None:
        table.add_row("= " + step.result.name, *_columns(step.result, family))
    return table


def _columns(figure: Figure, family: Family) -> tuple[str, str, str]:
    origin = figure.origin[:8] if len(figure.origin) == 32 else figure.origin
    return figure_text(figure, family), figure.words, origin
