"""Which values a concession would accept as far as is known: from what was read to the other limit."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import NamedTuple

from fitwright.assess.results import BoundVerdict, FitVerdict, Verdict
from fitwright.drawing.figures import Reader
from fitwright.units.display import format_number
from fitwright.units.families import usual_resolution
from fitwright.units.quantity import decimals_for
from fitwright.units.rounding import in_unit


class Range(NamedTuple):
    """The least and the largest value accepted, as a form shows them; empty where nothing is known."""

    lowest: str
    highest: str


def range_to_accept(found: FitVerdict, reader: Reader, unit: str) -> Range:
    """What was read, rounded outwards, on the side that is outside; the limit on the other."""
    low, high = found.interval
    lower, upper = _limit(found, "lower"), _limit(found, "upper")
    below = lower is not None and lower.verdict is Verdict.OUTSIDE
    above = upper is not None and upper.verdict is Verdict.OUTSIDE
    return Range(
        _text(low, found, reader, unit, ROUND_FLOOR) if below else _as_written(lower, unit),
        _text(high, found, reader, unit, ROUND_CEILING) if above else _as_written(upper, unit),
    )


def _as_written(bound: BoundVerdict | None, unit: str) -> str:
    """A limit as its source writes it: never rounded into another unit."""
    return bound.written.removesuffix(f" {unit}") if bound is not None else ""


def _limit(found: FitVerdict, side: str) -> BoundVerdict | None:
    """The limit that governs on a side in the cold."""
    bounds = (each for each in found.bounds if each.side == side and each.governs)
    return next((each for each in bounds if each.temperature_case is None), None)


def _text(value: float | None, found: FitVerdict, reader: Reader, unit: str, rounding: str) -> str:
    if value is None:
        return ""
    dimension = reader.dimension(found)
    resolution = usual_resolution(dimension)
    number = in_unit(value, unit, dimension)
    if resolution is None:
        return str(number)
    decimals = decimals_for(resolution, unit, dimension)
    return format_number(number.quantize(Decimal(1).scaleb(-decimals), rounding), decimals)
