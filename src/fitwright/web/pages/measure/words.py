"""Places, sizes and gauges in words, as the page Measure says them."""

from __future__ import annotations

from fitwright.bench.context import Bench
from fitwright.bench.expected import expected_of
from fitwright.bench.expected import limits_words as words_of_limits
from fitwright.bench.short_entries import AtPlace
from fitwright.drawing.part_place.spots import spots_of
from fitwright.model.dimension import Dimension
from fitwright.model.sheet import Sheet


def place_words(sheet: Sheet, dimension: Dimension, place: str) -> str:
    """A place in words, `front plane, 45°`; empty where a size is taken in one place only."""
    spot = next((each for each in spots_of(dimension) if each.id == place), None)
    return spot.words(sheet.engine.directions) if spot is not None else place


def limits_words(bench: Bench, at: AtPlace) -> str:
    """What the sheet asks of the size itself, in the unit of its gauge, and whose limit it is."""
    expected = expected_of(bench.sheet, at.dimension)
    return words_of_limits(expected, at.unit, at.quantity_dimension, at.resolution or _finest(at))


def _finest(at: AtPlace) -> float | None:
    return 1e-6 if at.quantity_dimension == "length" else None


def gauge_words(at: AtPlace) -> str:
    """The gauge and what it is set to."""
    if at.instrument is None:
        return ""
    name = f"{at.instrument.title} ({at.instrument.code})"
    if at.setting is not None:
        return f"{name} in setting {at.setting.code}"
    return f"{name}, not set yet" if at.instrument.comparison else name
