"""`fitwright put-right`: concessions and deviation permits by name, rework ordered and followed up."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import Annotated, Literal

from cyclopts import App, Parameter

from fitwright.cli.entering import Reason
from fitwright.cli.errors import OK, UsageError
from fitwright.cli.shop import DEFAULT_DATA, Data, opened
from fitwright.cli.work_entering import Answer, By, Entering, InsteadOf, Units, Words

app = App(name="put-right", help="Grant concessions and permits; order rework, follow it up.")

Lowest = Annotated[str | None, Parameter(help="Accepted from this value on.", allow_leading_hyphen=True)]
Highest = Annotated[str | None, Parameter(help="Accepted up to this value.", allow_leading_hyphen=True)]
Because = Annotated[str, Parameter(name="--because", help="Why it is accepted.")]
Until = Annotated[str | None, Parameter(help="For how long: the first strip-down, or a date.")]
_ANSWERS = {"holds": "holds", "put-right": "put right", "not-touched": "not touched"}


@app.command
def concession(
    build: str,
    subject: Annotated[str, Parameter(help="A fit, a dimension, or GROUP/FASTENER.")],
    /,
    *,
    because: Because,
    lowest: Lowest = None,
    highest: Highest = None,
    until: Until = None,
    by: By = None,
    instead_of: InsteadOf = None,
    reason: Reason = None,
    answer: Answer = None,
    units: Units = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Accept, afterwards and by name, what does not meet a limit; what it leads to is shown and kept.

    Once a shop has two people it takes the PIN of whoever grants it: asked for, in FITWRIGHT_PIN, or a
    line of standard input.

    Example: fitwright put-right concession corrie-five rod.4.running_clearance --highest "0.068 mm"
    --because "short first run, then stripped" --by builder --data demo
    """
    entering = {"by": by, "units": units, "answer": answer, "instead_of": instead_of, "reason": reason}
    said = {"subject": subject, "lowest": lowest, "highest": highest, "because": because, "until": until}
    return _granted(build, said, data, entering, beforehand=False)


@app.command
def permit(
    build: str,
    subject: Annotated[str, Parameter(help="A fit, a dimension, or GROUP/FASTENER.")],
    /,
    *,
    because: Because,
    lowest: Lowest = None,
    highest: Highest = None,
    until: Until = None,
    by: By = None,
    instead_of: InsteadOf = None,
    reason: Reason = None,
    answer: Answer = None,
    units: Units = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Permit, beforehand and by name, to depart from a limit or a stated value; else like a concession.

    Example: fitwright put-right permit corrie-five deck.height --lowest "0.40 mm"
    --because "block decked once before" --by builder --data demo
    """
    entering = {"by": by, "units": units, "answer": answer, "instead_of": instead_of, "reason": reason}
    said = {"subject": subject, "lowest": lowest, "highest": highest, "because": because, "until": until}
    return _granted(build, said, data, entering, beforehand=True)


@app.command
def rework(
    build: str,
    part: str,
    words: Annotated[str, Parameter(help="What is to be done.")],
    /,
    *,
    dimension: Annotated[tuple[str, ...], Parameter(help="A dimension that changes.")] = (),
    change: Annotated[Literal["rework", "repair", "replacement"], Parameter()] = "rework",
    target: Annotated[str | None, Parameter(help="The size wanted, of one dimension.")] = None,
    by: By = None,
    units: Units = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Order rework of a part; everything that its dimensions feed is listed, to be looked at afterwards.

    Example: fitwright put-right rework corrie-five crank "polish main 4" --dimension main.4.journal
    --target "54.982 mm" --data demo
    """
    from fitwright.assess.words import BEFORE_METAL
    from fitwright.bench.entry_words import title_of
    from fitwright.bench.reworking import OrderTyped, order_named, order_rework
    from fitwright.cli.report import in_rows

    typed = OrderTyped(part=part, dimensions=dimension, words=words, change=change, target=target or "")
    with opened(data) as shop:
        entering = Entering(shop, build, by=by, units=units)
        taken = order_rework(entering.bench, typed, entering.taking())
        entering.write(taken, also=(BEFORE_METAL,) if change != "replacement" else ())
        fed = order_named(entering.bench, str(taken.entries[0].body["code"])).feeds
        rows = in_rows(title_of(entering.bench, each) for each in fed)
        sys.stdout.writelines(f"  to look at afterwards: {each}\n" for each in rows)
    return OK


@app.command
def rework_done(
    build: str, order: str, /, *, by: By = None, words: Words = None, data: Data = DEFAULT_DATA
) -> int:
    """Say that an order was carried out: the readings of its dimensions no longer count.

    Example: fitwright put-right rework-done corrie-five R-1 --by builder --data demo
    """
    from fitwright.bench import reworking

    with opened(data) as shop:
        entering = Entering(shop, build, by=by)
        return entering.write(
            reworking.rework_done(entering.bench, order, entering.taking(), words=words or "")
        )


@app.command
def rework_checked(
    build: str,
    order: str,
    item: Annotated[str, Parameter(help="A fit or dimension that the order feeds.")],
    answer: Annotated[Literal["holds", "put-right", "not-touched"], Parameter(help="What came of it.")],
    /,
    *,
    by: By = None,
    words: Words = None,
    data: Data = DEFAULT_DATA,
) -> int:
    """Check off one thing that a rework order feeds.

    Example: fitwright put-right rework-checked corrie-five R-1 main.4.running_clearance holds --data demo
    """
    from fitwright.bench import reworking

    with opened(data) as shop:
        entering = Entering(shop, build, by=by)
        return entering.write(
            reworking.rework_checked(
                entering.bench, order, item, _ANSWERS[answer], entering.taking(), words=words or ""
            )
        )


def _granted(
    build: str,
    said: dict[str, str | None],
    data: Data,
    entering_as: dict[str, str | None],
    *,
    beforehand: bool,
) -> int:
    from fitwright.bench.permissions import PermissionTyped, accepted_of, grant_concession, grant_permit

    typed = PermissionTyped(**{name: text or "" for name, text in said.items()})
    with opened(data) as shop:
        entering = Entering(shop, build, **entering_as)
        if entering.person is None:
            raise UsageError("Nobody is named: say who grants it with --by.")
        grant = grant_permit if beforehand else grant_concession
        about = accepted_of(entering.bench, typed.subject, entering.family).subject
        shown = _consequence(entering, about)
        taken = entering.asked(lambda taking: grant(entering.bench, typed, taking, consequence=shown))
        return entering.write(taken, signed_by=taken.entries[0].person)


def _consequence(entering: Entering, subject: str) -> Sequence[str]:
    """What it would lead to, said before a PIN is asked for."""
    from fitwright.assess.assembly.consequence import consequence_of

    with entering.shop.held():
        assessor = entering.shop.assessor(entering.build)
        found = consequence_of(assessor, subject, now=entering.shop.clock())
    sys.stdout.writelines(f"  {each}\n" for each in found)
    sys.stdout.flush()
    return found
