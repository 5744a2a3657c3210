"""What is open, in full view: nothing of it keeps a dossier from being written."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from fitwright.assess.assembly.results import OpenKind
from fitwright.assess.assembly.results import OpenPoint as Open
from fitwright.dossier.sections.teller import Teller, counted
from fitwright.dossier.tree import Block, Column, OpenPoint, Section, Table, Words
from fitwright.drawing.sentences import settle_sentence, titles_in

MOST_ALONE: Final = 8
"""So many points of a small kind stand line by line in the owner's copy; more stand together."""

_SMALL: Final = frozenset(
    {
        OpenKind.NOT_RECORDED,
        OpenKind.FIT_NOT_MEASURED,
        OpenKind.PHOTO,
        OpenKind.STEP_NOT_DONE,
        OpenKind.EYE_CHECK,
        OpenKind.GROUP_INCOMPLETE,
        OpenKind.ONE_TIME_PART,
        OpenKind.CONSUMABLE,
        OpenKind.NOT_CHECKED,
        OpenKind.HOLD_NOT_RELEASED,
    }
)


def points_of(teller: Teller) -> tuple[OpenPoint, ...]:
    """All open points, the gravest first, each with what would settle it."""
    return tuple(
        OpenPoint(each.kind.value, each.title, _why(each), _settle(teller, each))
        for each in teller.standing.open_points
    )


def _why(point: Open) -> str:
    because = f" (because: {point.because})" if point.because else ""
    return f"{point.words}{because}"


def _settle(teller: Teller, point: Open) -> str:
    found = teller.known.assessment.verdicts.get(point.subject)
    if found is None:
        return ""
    settling = teller.known.current.settling(found.id)
    return settle_sentence(found, settling, teller.reader, titles_in(teller.known.sheet))


def open_points(teller: Teller) -> Section:
    """The chapter of the open points, on the first page behind the cover."""
    points = points_of(teller)
    if not points:
        words = "Nothing that the sheet asks for is open. What the sheet does not ask for was not looked at."
        return Section("open-points", "Open points: none", (Words(words),))
    shown = points if teller.complete else list(_together(teller.standing.open_points, points))
    blocks: list[Block] = [
        Words(
            "What is outside its limits, unproven, not recorded or accepted by somebody stands here first. "
            "An open point is no judgement of the engine; it says what nobody has shown.",
            "lead",
        ),
        Table(
            "Open points, the gravest first",
            (
                Column("Kind", 1.1),
                Column("What", 1.8),
                Column("How it stands", 2.4),
                Column("What would settle it", 2.0),
            ),
            tuple((each.kind, each.title, each.why, each.settle or "–") for each in shown),
        ),
    ]
    title = f"Open points: {len(points)}"
    return Section("open-points", title, tuple(blocks))


def _together(standing: Sequence[Open], points: Sequence[OpenPoint]) -> Iterator[OpenPoint]:
    """The points, those of small kinds together where there are many; none is left out."""
    kinds = dict.fromkeys(each.kind for each in standing)
    for kind in kinds:
        mine = [point for point in points if point.kind == kind.value]
        if kind not in _SMALL or len(mine) <= MOST_ALONE:
            yield from mine
            continue
        yield OpenPoint(kind.value, counted(len(mine), "thing", "things"), _names(mine), "")


def _names(points: Iterable[OpenPoint]) -> str:
    return "; ".join(dict.fromkeys(each.title for each in points))
