"""What is said of a prediction of the oil system, in one reader's units, wherever it is read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from fitwright.assess.oil.results import Band, BearingState, FilmState, OilUsed, PointState, StopValue
from fitwright.assess.oil.sizes import Basis, KnownSize
from fitwright.drawing.oil_figures import OilReader
from fitwright.units.display import format_number, format_value
from fitwright.units.families import Family, shop_unit
from fitwright.units.rounding import in_unit
from fitwright.units.spellings import definition_of

NOBODY: Final = "nobody is named for it"
"""Stands for who says a stop value where nobody does."""

CARD_LINES: Final = (
    "No pressure within {seconds} seconds of turning: stop.",
    "A knock, or any noise that was not there: stop.",
    "Pressure that falls in a step, not smoothly as the oil warms: stop.",
)
"""What stops a first start, whatever was predicted."""

CARD_CAUTION: Final = (
    "Oil is hot and under pressure: keep skin and eyes away from joints and jets; oil under the skin is a "
    "medical emergency. A tested stop for fuel and ignition within reach."
)

_LENGTH_DECIMALS: Final = {"mm": 3, "thou": 2, "in": 4}


def where_words(point: PointState, reader: OilReader) -> str:
    """Speed and oil temperature of a point: `900 rev/min, oil 110 °C`."""
    return f"{reader.speed(point.angular_speed)}, oil {reader.temperature(point.oil_temperature)}"


def oil_words(oil: OilUsed, family: Family = "mm") -> str:
    """The viscosities of an oil and what they rest on."""
    unit = definition_of("mm2/s", "kinematic_viscosity").shown
    at_40, at_100 = (
        format_number(in_unit(each, "mm2/s", "kinematic_viscosity"), 1)
        for each in (oil.kinematic_viscosity_40, oil.kinematic_viscosity_100)
    )
    warm, hot = (OilReader(family).temperature(each) for each in (313.15, 373.15))
    return f"{at_40} {unit} at {warm}, {at_100} {unit} at {hot}; {oil.basis}"


def stop_words(stop: StopValue, reader: OilReader) -> str:
    """A stop value as a sentence without its source."""
    where = [reader.speed(stop.angular_speed)] if stop.angular_speed is not None else []
    where += [f"oil {reader.temperature(stop.oil_temperature)}"] if stop.oil_temperature is not None else []
    at = f" at {', '.join(where)}" if where else ""
    said = []
    if stop.lowest_pressure is not None:
        said.append(f"no less than {reader.pressure(Band(stop.lowest_pressure))}{at}")
    if stop.seconds is not None:
        said.append(f"first pressure within {stop.seconds:g} s")
    words = "; ".join(said)
    note = f" ({stop.words.rstrip('.')})" if stop.words else ""
    return f"{words[:1].upper()}{words[1:]}{note}"


def size_words(size: KnownSize, family: Family) -> str:
    """Why a size is not measured, and what enters instead."""
    if size.basis is Basis.NOT_KNOWN:
        return size.reason or "nothing is known of it"
    if size.basis is Basis.STATED:
        return f"{size.reason or 'stated, not measured'}: {length_words(size.value, family)}"
    if size.band is None:
        return size.reason
    low, high = size.band
    unit = shop_unit("length", family, high)
    first = format_number(in_unit(low, unit, "length"), _LENGTH_DECIMALS[unit])
    return f"{size.reason}: anywhere from {first} to {length_words(high, family)}"


def length_words(value: float, family: Family) -> str:
    """A size [m] in mm, or in thou and inches."""
    unit = shop_unit("length", family, value)
    return format_value(value, unit, _LENGTH_DECIMALS[unit])


def flow_edges(band: Band) -> str:
    """The 95 % band of a flow with its unit; empty where it is not known."""
    if band.low is None or band.high is None or band.best is None:
        return ""
    decimals = 2 if abs(float(in_unit(band.best, "L/min", "volume_flow"))) < 9.995 else 1
    ends = sorted((abs(band.low), abs(band.high)))
    words = (format_number(in_unit(each, "L/min", "volume_flow"), decimals) for each in ends)
    return f"{' to '.join(dict.fromkeys(words))} L/min"


def film_words(bearing: BearingState, reader: OilReader) -> str:
    """The film of a bearing, or the word that stands for it: a film that touches has no number."""
    if bearing.state is FilmState.FILM and bearing.film_thickness.best is not None:
        return reader.film(bearing.film_thickness.best)
    return bearing.state.value


def findings_together(points: Sequence[PointState]) -> Iterator[tuple[str, str]]:
    """Each finding once, with the points at which it holds."""
    found: dict[str, list[str]] = {}
    for point in points:
        for words in point.findings:
            found.setdefault(words, []).append(point.title)
    for words, titles in found.items():
        yield "; ".join(titles), words
