"""What of this job has no reading, stated size or answer: the list that one reads before closing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from fitwright.assess.results import FitVerdict, NotRecorded

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


def not_recorded(judge: Judge, verdicts: Mapping[str, FitVerdict]) -> tuple[NotRecorded, ...]:
    """Dimensions without a reading and eye checks without an answer, in order of the stations.

    A dimension that is only one way to a fit counts only while no other way to it was read.
    """
    needed = set(_spared(verdicts))
    return (*_dimensions(judge, needed), *_eye_checks(judge))


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
    for dimension in judge.sheet.dimensions.values():
        member = judge.member(dimension.id)
        if member.known or dimension.id in spared:
            continue
        if build.not_in_this_job(dimension.id) is not None:
            continue
        because = build.not_measured_because(dimension.id)
        yield NotRecorded(dimension.id, dimension.title, dimension.station, because)


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
