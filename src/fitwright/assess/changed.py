"""What a change of parts, a rework or a drifted setting un-proved and nobody has read again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.model.dimension import Dimension

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


@dataclass(frozen=True, slots=True)
class ChangedSince:
    """A dimension whose readings no longer speak at some places.

    `readings` are the entries kept and not used, `by_choice` those among them that a person may
    choose to use again, `subjects` the fits and limited dimensions that rest on it.
    """

    dimension: Dimension
    places: tuple[str, ...]
    why: tuple[str, ...]
    readings: tuple[str, ...]
    by_choice: tuple[str, ...]
    subjects: tuple[str, ...]


def changed_since(judge: Judge) -> tuple[ChangedSince, ...]:
    """Every such dimension of this job, in the order of the sheet."""
    return tuple(_changed(judge))


def _changed(judge: Judge) -> Iterator[ChangedSince]:
    for dimension in judge.sheet.dimensions.values():
        evidence = judge.member(dimension.id).evidence
        if not evidence.changed or judge.build.not_in_this_job(dimension.id) is not None:
            continue
        read = {record.place for record in evidence.used}
        lost = [each for each in evidence.unused if each.changed and each.place not in read]
        places = [place.id for place in dimension.places if any(each.place == place.id for each in lost)]
        yield ChangedSince(
            dimension=dimension,
            places=tuple(places or dict.fromkeys(each.place for each in lost)),
            why=tuple(dict.fromkeys(each.why for each in lost)),
            readings=tuple(each.entry for each in lost),
            by_choice=tuple(each.entry for each in lost if each.by_choice),
            subjects=subjects_on(judge, dimension.id),
        )


def subjects_on(judge: Judge, dimension: str) -> tuple[str, ...]:
    """The fits and limited dimensions that rest on a dimension."""
    return tuple(each.id for each in judge.subjects.values() if dimension in each.dimensions())
