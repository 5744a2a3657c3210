"""What of this job has no reading, stated size or answer: the list that one reads before closing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from fitwright.assess.results import FitVerdict, NotRecorded

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


def not_recorded(judge: Judge, verdicts: Mapping[str, FitVerdict]) -> tuple[NotRecorded, ...]:
    """Dimensions without a reading, or without one at some place, and eye checks without an answer.

    In the order of the sheet. A dimension that is only one way to a fit counts only while no other way
    to it was read.
    """
    spared = set(_spared(verdicts))
    return (*_dimensions(judge, spared), *_eye_checks(judge))


def _spared(verdicts: Mapping[str, FitVerdict]) -> Iterator[str]:
    """Dimensions that some fit could use but need not, because its other route is complete."""
    wanted: set[str] = set()
    spared: set[str] = set()
    for verdict in verdicts.values():
        complete = [route for route in verdict.routes if not route.missing]
        for route in verdict.routes:
            (spared if complete and route.missing else wanted).update(route.missing)
    yield from spared - wanted


def _dimensions(judge: Judge, spared: set[str]) -> Iterator[NotRecorded]:
    build = judge.build
    said_of_fits = _said_of_fits(judge)
    for dimension in judge.sheet.dimensions.values():
        member = judge.member(dimension.id)
        if build.not_in_this_job(dimension.id) is not None:
            continue
        because = build.not_measured_because(dimension.id) or said_of_fits.get(dimension.id)
        if not member.known and dimension.id not in spared:
            yield NotRecorded(dimension.id, dimension.title, dimension.station, because)
        for place in member.unread:
            title = f"{dimension.title}, {place.removeprefix(f'{dimension.id} @ ')}"
            yield NotRecorded(place, title, dimension.station, because)


def _said_of_fits(judge: Judge) -> dict[str, str]:
    """Why dimensions were not measured, where somebody said it of the fit that they make up."""
    found: dict[str, str] = {}
    for subject in judge.subjects.values():
        because = judge.build.not_measured_because(subject.id)
        if because is not None:
            found.update((name, because) for name in subject.dimensions())
    return found


def _eye_checks(judge: Judge) -> Iterator[NotRecorded]:
    build = judge.build
    answered = {held.body.check for held in build.eye_checks}
    for station in judge.sheet.stations.values():
        for check in station.eye_checks:
            if check.id in answered:
                continue
            if build.not_in_this_job(check.id) is not None:
                continue
            because = build.not_measured_because(check.id)
            yield NotRecorded(check.id, check.question, station.id, because)
