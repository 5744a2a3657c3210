"""What is open, in full view: nothing of it keeps a dossier from being written."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitwright.assess.assembly.results import OpenKind
from fitwright.assess.assembly.results import OpenPoint as Open
from fitwright.dossier.sections.families import named_families
from fitwright.dossier.sections.teller import Teller
from fitwright.dossier.tree import Block, Column, Heading, OpenPoint, Section, Table, Words
from fitwright.drawing.sentences import settle_sentence, titles_in

SAYS: Final = (
    "What is outside its limits, unproven, not recorded or accepted by somebody stands here first. "
    "An open point is no judgement of the engine; it says what nobody has shown."
)
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
    alone, together = (points, ()) if teller.complete else _parted(teller.standing.open_points, points)
    blocks: list[Block] = [Words(SAYS, "lead")]
    if alone:
        columns = (
            Column("Kind", 1.1),
            Column("What", 1.8),
            Column("How it stands", 2.4),
            Column("What would settle it", 2.0),
        )
        rows = tuple((each.kind, each.title, each.why, each.settle or "–") for each in alone)
        blocks.append(Table("Open points, the gravest first", columns, rows))
    for kind, names in together:
        blocks += [Heading(f"{kind.capitalize()}: {len(names)}"), Words("; ".join(named_families(names)))]
    return Section("open-points", f"Open points: {len(points)}", tuple(blocks))


_Together = tuple[tuple[str, tuple[str, ...]], ...]


def _parted(standing: Sequence[Open], points: Sequence[OpenPoint]) -> tuple[tuple[OpenPoint, ...], _Together]:
    """The points told one by one, and those of small kinds of which there are many; none is left out."""
    alone: list[OpenPoint] = []
    together: list[tuple[str, tuple[str, ...]]] = []
    for kind in dict.fromkeys(each.kind for each in standing):
        mine = [point for point in points if point.kind == kind.value]
        if kind in _SMALL and len(mine) > MOST_ALONE:
            together.append((kind.value, tuple(each.title for each in mine)))
        else:
            alone += mine
    return tuple(alone), tuple(together)
