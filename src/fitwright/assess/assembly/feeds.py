"""What else a dimension feeds: everything that has to be looked at once metal has come off."""

from __future__ import annotations

from collections.abc import Iterable

from fitwright.assess.evidence import members_of
from fitwright.assess.subjects import Subject, subjects_of
from fitwright.model.sheet import Sheet


def feeds_of(sheet: Sheet, dimensions: Iterable[str], part: str | None = None) -> tuple[str, ...]:
    """The fits and dimensions that use some dimensions, nearest first, in the order of the sheet.

    Fits that have one of them in their chain, also through the clearance that a centring rests on; dimensions
    that are taken through one of them (a fitted bore through its housing), and what those feed in turn.
    `part` is a position: dimensions that are taken through the whole of it are fed as well.
    """
    subjects = list(subjects_of(sheet).values())
    given = tuple(dict.fromkeys(dimensions))
    found: dict[str, None] = {}
    ahead = list(given)
    if part is not None:
        ahead.extend(_through_part(sheet, part))
        found.update((name, None) for name in ahead if name not in given)
    while ahead:
        name = ahead.pop(0)
        for fed in (*_fits_on(sheet, subjects, name), *_through(sheet, name)):
            if fed not in found and fed not in given:
                found[fed] = None
                ahead.append(fed)
    known = set(sheet.dimensions) | set(sheet.fits)
    return tuple(name for name in found if name in known)


def _fits_on(sheet: Sheet, subjects: Iterable[Subject], name: str) -> list[str]:
    return [each.id for each in subjects if each.fit is not None and name in _rests_on(sheet, each)]


def _rests_on(sheet: Sheet, subject: Subject) -> set[str]:
    names = set(subject.dimensions())
    centring = subject.fit.centring if subject.fit is not None else None
    if centring is not None and centring.clearance is not None:
        names.add(centring.clearance)
        clearance = sheet.fits.get(centring.clearance)
        if clearance is not None:
            names |= {term.dimension for route in clearance.routes for term in route.chain}
    return names


def _through(sheet: Sheet, name: str) -> list[str]:
    """The dimensions that are taken through another one, or through the feature of its part."""
    dimension = sheet.dimensions.get(name)
    if dimension is None:
        return []
    return [each.id for each in sheet.dimensions.values() if name in each.through and each.id != name]


def _through_part(sheet: Sheet, part: str) -> list[str]:
    return [
        each.id
        for each in sheet.dimensions.values()
        if each.part is None
        and any(member.position == part and member.feature is None for member in members_of(sheet, each))
    ]
