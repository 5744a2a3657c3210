"""A limit adopted for a fit or dimension, by a named person and with a reason."""

from __future__ import annotations

from fitwright.assess.subjects import Subject, subjects_of
from fitwright.bench.context import Bench, near
from fitwright.bench.errors import BenchError, NoBoundsError, UnknownNameError
from fitwright.bench.sittings import person_named
from fitwright.bench.taking import typed
from fitwright.records.kinds import LimitAdopted
from fitwright.units import parse_quantity
from fitwright.units.senses import DIMENSION_OF


class NoReasonError(BenchError):
    """A decision that needs a reason, and none was given."""

    def __init__(self, what: str) -> None:
        """Say what needs it."""
        super().__init__(f"{what} needs a reason: say why in a few words.")


class BoundsExchangedError(BenchError):
    """A lower bound above the upper one."""

    def __init__(self, lower: str, upper: str) -> None:
        """Say both."""
        super().__init__(f"The lower bound {lower} is above the upper bound {upper}: exchange the two.")


def limit_adopted(
    bench: Bench,
    subject: str,
    source: str,
    *,
    by: str | None,
    reason: str | None,
    lower: str | None = None,
    upper: str | None = None,
    unit: str | None = None,
) -> LimitAdopted:
    """The entry's body by which somebody adopts a limit; bounds may be stated anew, with their units.

    `unit` is that of a bound typed without one, where a form says which it is.

    Raises
    ------
    NoReasonError, NoBoundsError, BoundsExchangedError, UnknownNameError, UnknownPersonError
        In words for the person who adopts.
    """
    if not (reason or "").strip():
        raise NoReasonError("Adopting a limit")
    subjects = subjects_of(bench.sheet)
    if subject not in subjects:
        raise UnknownNameError("fit or limited dimension", subject, near(subject, subjects))
    if source not in bench.sheet.sources:
        raise UnknownNameError("source", source, list(bench.sheet.sources))
    kind = DIMENSION_OF[subjects[subject].sense]
    who = person_named(bench.shop, by)
    low = parse_quantity(lower, default_unit=unit, dimension=kind) if lower is not None else None
    high = parse_quantity(upper, default_unit=unit, dimension=kind) if upper is not None else None
    if low is None and high is None and not _states(subjects[subject], source):
        raise NoBoundsError(subject, source)
    if low is not None and high is not None and low.si > high.si:
        raise BoundsExchangedError(str(lower), str(upper))
    return LimitAdopted(
        subject=subject,
        source=source,
        lower=typed(low) if low is not None else None,
        upper=typed(high) if high is not None else None,
        adopted_by=who,
        reason=reason,
    )


def _states(found: Subject, source: str) -> bool:
    """Whether a source states a limit of a subject in the cold: that is what is adopted."""
    return any(limit.source == source and limit.temperature_case is None for limit in found.limits)
