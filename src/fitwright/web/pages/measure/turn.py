"""What one line does: where one is then, what is said and asked; writing what is no reading."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from fitwright.bench.order import Stop
from fitwright.bench.taking import Taken
from fitwright.bench.together import ids_from, written_together
from fitwright.records.entry import NewEntry, same_again
from fitwright.records.ids import is_entry_id
from fitwright.web.pages.measure.asked import AskedPart
from fitwright.web.pages.measure.here import Here
from fitwright.web.pages.measure.parts import SaidPart
from fitwright.web.writing import NOT_KEPT, Came, Kept, Refused, Sent, written


@dataclass(frozen=True, slots=True)
class Turn:
    """What came of one line: where one is then, what is said, what is asked."""

    here: Here
    said: SaidPart
    asked: AskedPart | None = None
    about: str = ""
    status: int = 200


@dataclass(slots=True)
class Made:
    """What a line made, noted while it is written."""

    taken: Taken | None = None
    words: str = ""
    stop: Stop | None = None


def moved_to(here: Here, stop: Stop | None) -> Here:
    """The same at another place; nowhere else where there is none."""
    return replace(here, stop=stop) if stop is not None else here


def own(here: Here, form: Sent, entry: NewEntry) -> NewEntry:
    """An entry under the id of its form, from this browser."""
    return replace(entry, id=form.get("entry_id") or entry.id, device=here.device)


def own_together(here: Here, form: Sent, entries: Sequence[NewEntry]) -> list[NewEntry]:
    """Entries of one form, from this browser, with ids that follow from that of the form."""
    ids = (
        ids_from(form.get("entry_id")) if is_entry_id(form.get("entry_id")) else (each.id for each in entries)
    )
    return [replace(each, id=name, device=here.device) for each, name in zip(entries, ids, strict=False)]


def refused(here: Here, came: Refused, text: str) -> Turn:
    """Nothing was kept; what was typed goes back to who typed it."""
    title = "Not kept" if came.status == NOT_KEPT else "Not taken"
    return Turn(here, SaidPart("refused", title, came.words, text), status=came.status)


def write(
    here: Here,
    form: Sent,
    kind: str,
    make: Callable[[], Sequence[NewEntry]],
    words: Callable[[], str],
    then: Callable[[], Here],
) -> Turn:
    """Write what is no reading, and say so; `kind` is the last of its entries.

    What was sent before, its answer lost on the way, is not made anew: the record has gone on since, and
    a second "/" would take back one entry more.
    """
    before = written_together(here.bench.build.ledger, form.get("entry_id"))
    again = [same_again(each) for each in before] if before and before[-1].kind == kind else None
    came: Came = written(here.hands, form, make if again is None else lambda: again)
    if isinstance(came, Kept):
        told = words() if again is None else "This had reached the record already."
        return Turn(then(), SaidPart("kept", "Kept", f"{told} {came.words}", ""))
    assert isinstance(came, Refused)  # noqa: S101  (none of these raises a question)
    return refused(here, came, form.get("text"))
