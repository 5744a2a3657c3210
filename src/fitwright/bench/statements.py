"""What a person says about a build without a gauge: stated sizes, eye checks, what is left out, notes."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.bench.context import Bench, near
from fitwright.bench.errors import NoWordsError, UnknownNameError
from fitwright.bench.taking import typed
from fitwright.model.station import EyeCheck as AskedCheck
from fitwright.records.kinds import EyeCheck, Note, NotInThisJob, NotMeasured, StatedSize
from fitwright.units import parse_quantity
from fitwright.units.senses import DIMENSION_OF


def stated_size(
    bench: Bench,
    dimension: str,
    size: str,
    *,
    by: str,
    tolerance: str = "",
    place: str = "whole",
    unit: str | None = None,
) -> StatedSize:
    """A size that somebody states, with its tolerance either way; it never counts as a reading.

    `unit` is the unit of a number typed without one; without it, a unit must be typed.
    """
    found = bench.dimension(dimension)
    if not by.strip():
        raise NoWordsError("A stated size", "who states it (drawing, box label, certificate)")
    if place != "whole":
        bench.place(found, place)
    kind = DIMENSION_OF[found.sense]
    amount = parse_quantity(size, default_unit=unit, dimension=kind)
    either_way = parse_quantity(tolerance, default_unit=unit, dimension=kind) if tolerance else None
    return StatedSize(
        dimension=found.id,
        feature=found.feature,
        place=place,
        members=bench.members(found),
        size=typed(amount),
        tolerance=typed(either_way) if either_way is not None else None,
        stated_by=by,
    )


def eye_checks_of(bench: Bench) -> dict[str, AskedCheck]:
    """Every eye check that the sheet asks for, by id."""
    return {each.id: each for station in bench.sheet.stations.values() for each in station.eye_checks}


def eye_check(
    bench: Bench, check: str, *, answer: bool, words: str | None = None, photo: str | None = None
) -> EyeCheck:
    """The answer to an eye check."""
    known = eye_checks_of(bench)
    if check not in known:
        raise UnknownNameError("eye check", check, list(known))
    return EyeCheck(check=check, answer=answer, words=words or None, photo=photo or None)


def not_measured_of(bench: Bench, subject: str, because: str) -> NotMeasured:
    """Why a dimension, a fit or an eye check has no reading."""
    if not because.strip():
        raise NoWordsError("Not measured", "its because")
    known = [*bench.sheet.dimensions, *bench.sheet.fits, *eye_checks_of(bench)]
    if subject not in known:
        raise UnknownNameError("dimension, fit or eye check", subject, near(subject, known))
    return NotMeasured(subject=subject, because=because)


def not_in_this_job(bench: Bench, subject: str, reason: str | None = None) -> NotInThisJob:
    """That whatever begins with a name is no part of this job.

    A name that begins nothing in the sheet is refused: leaving it out would leave out nothing.
    """
    known = dict.fromkeys(_beginnings(bench))
    if subject not in known:
        raise UnknownNameError(
            "dimension, fit, step or eye check that begins with", subject, near(subject, known)
        )
    return NotInThisJob(subject=subject, reason=reason or None)


def note_of(text: str, subject: str | None = None) -> Note:
    """Words about anything; a note changes no digit."""
    if not text.strip():
        raise NoWordsError("A note", "its text")
    return Note(text=text, subject=subject or None)


def _beginnings(bench: Bench) -> Iterator[str]:
    sheet = bench.sheet
    things = (sheet.dimensions, sheet.fits, eye_checks_of(bench), sheet.steps, sheet.tightening_groups)
    for name in (name for each in things for name in each):
        steps = name.split(".")
        yield from (".".join(steps[:length]) for length in range(1, len(steps) + 1))
