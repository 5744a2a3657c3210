"""Which tightenings would count no longer because other parts sit in the positions of their fasteners."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.assess.assembly.tightened import Life
from fitwright.assess.assembly.tightenings import Tightenings
from fitwright.model.sheet import Sheet
from fitwright.records.projection import BuildState


@dataclass(frozen=True, slots=True)
class Untightened:
    """Fasteners of a group, in the order of tightening, whose tightening was of a part that is out."""

    group: str
    fasteners: tuple[str, ...]


def untightened_between(sheet: Sheet, before: BuildState, after: BuildState) -> Iterator[Untightened]:
    """What was tightened before and is not after, group by group, as far as parts were exchanged."""
    now, then = Tightenings(sheet, before), Tightenings(sheet, after)
    for group in sheet.tightening_groups.values():
        if now.exchanges(group) == then.exchanges(group):
            continue
        lives, later = now.lives(group).by_id, then.lives(group).by_id
        names = tuple(name for name in lives if _is_lost(lives[name], later[name]))
        if names:
            yield Untightened(group.id, names)


def _is_lost(before: Life, after: Life) -> bool:
    return bool(before.records) and not after.records
