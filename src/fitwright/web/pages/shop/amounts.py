"""Amounts of the shop in words: in the gauge's own unit first, in the other family's beside it."""

from __future__ import annotations

from decimal import ROUND_CEILING, Decimal
from typing import Final

from fitwright.records.kinds import Instrument, Typed
from fitwright.units import (
    Family,
    QuantityError,
    approximately,
    decimals_for,
    definition_of,
    echo,
    format_number,
    parse_quantity,
    shop_unit,
)
from fitwright.units.rounding import in_unit

BAND_STEP = 1e-7
"""A band that can be proven is said to a tenth of a micrometre [m], rounded up."""
MASTER_STEP = 1e-6
"""The size of a master is said to a micrometre [m], however few digits were typed of it."""
USUAL = {"0.003 mm": "0.12 thou", "0.002 mm": "0.08 thou", "0.001 mm": "0.04 thou"}
"""What is usual in millimetres, as an inch shop writes it."""


SMALL_UNIT: Final[dict[Family, str]] = {"mm": "mm", "inch": "thou"}
"""The unit in which a shop says small lengths."""


def usual_in(family: Family, millimetres: str) -> str:
    """A usual amount in the units of a shop."""
    return USUAL[millimetres] if family == "inch" else millimetres


def family_of_unit(unit: str) -> Family:
    """The family that a unit belongs to."""
    dimension = definition_of(unit).dimension
    inch = {shop_unit(dimension, "inch"), shop_unit(dimension, "inch", 1.0)}
    metric = {shop_unit(dimension, "mm"), shop_unit(dimension, "mm", 1.0)}
    return "inch" if unit in inch - metric else "mm"


def small(value: float, unit: str) -> str:
    """A small amount to three digits in a unit, to two in the other family's: `0.0011 mm (0.043 thou)`."""
    dimension = definition_of(unit).dimension
    other: Family = "mm" if family_of_unit(unit) == "inch" else "inch"
    second = shop_unit(dimension, other, value)
    first = approximately(value, unit, dimension)
    if second == unit or not value:
        return first
    return f"{first} ({exact(value, second, dimension, digits=2)} {definition_of(second, dimension).shown})"


def typed_words(typed: Typed, resolution: float | None = None) -> str:
    """An amount as it was typed, in both units as finely as it was typed, or as given [m]."""
    dimension = definition_of(typed.unit).dimension
    try:
        found = parse_quantity(typed.typed, default_unit=typed.unit, dimension=dimension)
    except QuantityError:  # typed where the program read more than it does now
        return f"{typed.typed} {typed.unit}"
    return echo(found, resolution if dimension == "length" else None)


def band_words(band: float, unit: str) -> str:
    """The narrowest band that can be proven, rounded up, in a unit and in the other family's."""
    dimension = definition_of(unit).dimension
    if dimension != "length":
        return small(band, unit)
    own = family_of_unit(unit)
    families: tuple[Family, Family] = ("inch", "mm") if own == "inch" else ("mm", "inch")
    first, second = (_rounded_up(band, shop_unit(dimension, family, band)) for family in families)
    return f"{first} ({second})"


def _rounded_up(value: float, unit: str) -> str:
    decimals = decimals_for(BAND_STEP, unit, "length")
    step = Decimal(1).scaleb(-decimals)
    number = in_unit(value, unit, "length").quantize(step, ROUND_CEILING)
    return f"{format_number(number, decimals)} {definition_of(unit, 'length').shown}"


def limits_words(lower: float | None, upper: float | None, family: Family, dimension: str = "length") -> str:
    """Limits in a family of units: `0.045 to 0.065 mm`."""
    largest = max(abs(each) for each in (lower, upper) if each is not None)
    unit = shop_unit(dimension, family, largest)
    low, high = (None if each is None else exact(each, unit, dimension) for each in (lower, upper))
    shown = definition_of(unit, dimension).shown
    if low is None:
        return f"up to {high} {shown}"
    return f"from {low} {shown}" if high is None else f"{low} to {high} {shown}"


def exact(value: float, unit: str, dimension: str | None = None, *, digits: int = 6) -> str:
    """An amount's number in a unit with so many digits at most, and no zeros behind.

    >>> exact(0.0000612, "mm"), exact(0.0000381, "in")
    ('0.0612', '0.0015')
    """
    number = in_unit(value, unit, dimension)
    if not number:
        return "0"
    text = f"{number.quantize(Decimal(1).scaleb(number.adjusted() - digits + 1)):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def as_typed(value: float | None, unit: str) -> str:
    """An amount as one would type it, in a unit; nothing where there is none."""
    return "" if value is None else f"{exact(value, unit)} {unit}"


def in_unit_shown(text: str | None, unit: str) -> str | None:
    """A number with the unit that its field showed, where none was typed."""
    try:
        parse_quantity(text or "0 mm")
    except QuantityError as error:
        return f"{text} {unit}" if error.key == "no_unit" and unit else text
    return text


def gauge_words(instrument: Instrument) -> str:
    """A gauge by its code and title."""
    return f"{instrument.code}, {instrument.title}"
