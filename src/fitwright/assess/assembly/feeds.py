"""What else a dimension feeds: everything that has to be looked at once metal has come off."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from fitwright.assess.evidence import members_of
from fitwright.assess.subjects import Subject, subjects_of
from fitwright.model.sheet import Sheet


def feeds_of(sheet: Sheet, dimensions: Iterable[str], part: str | None = None) -> tuple[str, ...]:
    """The fits and dimensions that use some dimensions, nearest first.

    Fits that have one of them in their chain, also through the clearance that a centring rests on; dimensions
    that are taken through one of them (a fitted bore through its housing), and what those feed in turn.
    `part` is a position: dimensions that are taken through the whole of it are fed as well.
    """
    return Feeding(sheet, subjects_of(sheet)).of(dimensions, part)


class Feeding:
    """For each dimension of a sheet what rests on it, looked up once."""

    def __init__(self, sheet: Sheet, subjects: Mapping[str, Subject]) -> None:
        self._sheet = sheet
        self._fits: dict[str, list[str]] = {}
        self._taken_through: dict[str, list[str]] = {}
        for subject in subjects.values():
            if subject.fit is not None:
                for name in self._rests_on(subject):
                    self._fits.setdefault(name, []).append(subject.id)
        for dimension in sheet.dimensions.values():
            for name in dimension.through:
                self._taken_through.setdefault(name, []).append(dimension.id)

    def of(self, dimensions: Iterable[str], part: str | None = None) -> tuple[str, ...]:
        """Everything that some dimensions feed, nearest first."""
        given = tuple(dict.fromkeys(dimensions))
        found: dict[str, None] = {}
        ahead = [*given, *(self._through_whole(part) if part is not None else ())]
        found.update((name, None) for name in ahead if name not in given)
        while ahead:
            name = ahead.pop(0)
            for fed in (*self._fits.get(name, ()), *self._taken_through.get(name, ())):
                if fed not in found and fed not in given:
                    found[fed] = None
                    ahead.append(fed)
        return tuple(found)

    def _rests_on(self, subject: Subject) -> set[str]:
        names = set(subject.dimensions())
        centring = subject.fit.centring if subject.fit is not None else None
        clearance = self._sheet.fits.get(centring.clearance or "") if centring is not None else None
        if clearance is not None:
            names.add(clearance.id)
            names |= {term.dimension for route in clearance.routes for term in route.chain}
        return names

    def _through_whole(self, part: str) -> list[str]:
        return [
            each.id
            for each in self._sheet.dimensions.values()
            if each.part is None
            and any(m.position == part and m.feature is None for m in members_of(self._sheet, each))
        ]
