"""Torque wrenches and angle gauges as somebody names them, and what is asked about their calibration."""

from __future__ import annotations

import calendar
from collections.abc import Iterator
from datetime import date, datetime
from typing import Final

from fitwright.bench.context import Bench
from fitwright.bench.errors import CannotEnterError
from fitwright.bench.settings import instrument_named
from fitwright.model.slips import Question
from fitwright.records.kinds import Instrument
from fitwright.units import definition_of

USABLE_FROM: Final = 0.2
"""A torque wrench is tested from a fifth of its largest torque on (ISO 6789); below, its error is unknown."""
CALIBRATED_FOR_MONTHS: Final = 12
"""After so long, or 5000 turns, a torque wrench is to be calibrated again (ISO 6789)."""
OF_A_GAUGE: Final = "calibration:"
"""Begins the keys of questions about a gauge: what was kept of it once holds for all that is done with it."""
NO_WRENCH: Final = "No wrench was named: how far off its torque may be is not known."


def gauge_of(bench: Bench, code: str, dimension: str, what: str) -> Instrument | None:
    """A gauge by its code, which must read the dimension asked for; None where none is named."""
    if not code:
        return None
    gauge = instrument_named(bench.shop, code)
    if definition_of(gauge.unit).dimension != dimension:
        raise CannotEnterError(f"{gauge.code} reads {gauge.unit}", f"name {what}")
    return gauge


def usable_range(wrench: Instrument) -> Instrument:
    """The wrench with the lower end of its scale where nobody entered one: a fifth of the upper end."""
    if wrench.range_low is not None or wrench.range_high is None:
        return wrench
    return wrench.model_copy(update={"range_low": USABLE_FROM * wrench.range_high})


def calibration_questions(bench: Bench, gauge: Instrument, now: datetime) -> Iterator[Question]:
    """What is asked of a gauge that was never calibrated, or too long ago."""
    held = bench.shop.calibration_of(gauge.code)
    last = _day(held.body.date) if held is not None and not held.body.never else None
    name = f"{gauge.title} ({gauge.code})"
    if last is None:
        wrong = "was never calibrated" if held is not None and held.body.never else "has no dated calibration"
        yield Question(
            f"{OF_A_GAUGE}{gauge.code}:none", f"{name} {wrong} in the shop's book. Use it all the same?"
        )
    elif _months_on(last, CALIBRATED_FOR_MONTHS) < now.date():
        text = f"{name} was calibrated on {last.isoformat()}, more than a year ago. Use it all the same?"
        yield Question(f"{OF_A_GAUGE}{gauge.code}:{last.isoformat()}", text)


def _day(text: str | None) -> date | None:
    try:
        return date.fromisoformat((text or "")[:10])
    except ValueError:
        return None


def _months_on(day: date, months: int) -> date:
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
