"""Values in SI as text for people: their unit, the resolution of the original, a true minus sign."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Context, Decimal
from typing import Final

from fitwright.units.families import Family, shop_unit, usual_resolution
from fitwright.units.quantity import Quantity, decimals_for
from fitwright.units.rounding import difference_in_unit, in_unit, quantized
from fitwright.units.spellings import definition_of

MINUS: Final = "\u2212"
MOST_EXTRA_DIGITS: Final = 4
AT_A_LIMIT: Final = 1000
"""A value within this fraction of its uncertainty from a limit is at it."""

_TWO_DIGITS: Final = Context(prec=2, rounding=ROUND_HALF_EVEN)


@dataclass(frozen=True, slots=True)
class Shown:
    """A value with its standard uncertainty, as text, rounded alike."""

    value: str
    uncertainty: str
    unit: str

    def __str__(self) -> str:
        """`0.0535 mm (u 0.0012 mm)`."""
        return f"{_with_unit(self.value, self.unit)} (u {_with_unit(self.uncertainty, self.unit)})"


def format_number(number: Decimal, decimals: int) -> str:
    """A number rounded half to even, with a true minus sign and never a negative zero.

    >>> format_number(Decimal("-0.0125"), 3)
    '−0.012'
    """
    short = quantized(number, decimals)
    text = f"{abs(short):.{max(decimals, 0)}f}"
    return f"{MINUS}{text}" if short < 0 else text


def format_value(
    value: float, unit: str, decimals: int | None = None, *, dimension: str | None = None
) -> str:
    """A value in a unit.

    Parameters
    ----------
    value : float [SI]
        The value.
    unit : str
        Unit to show it in.
    decimals : int, optional
        Decimals to show; without it those of the usual resolution of the dimension.
    dimension : str, optional
        Where a unit name is used in two dimensions (`degC`), the one that is meant.

    Returns
    -------
    str
        Number and unit.

    Examples
    --------
    >>> format_value(0.0000535, "mm", 4)
    '0.0535 mm'
    """
    definition = definition_of(unit, dimension)
    number = in_unit(value, unit, dimension)
    if decimals is None:
        resolution = usual_resolution(definition.dimension)
        decimals = _three_digits(number) if resolution is None else decimals_for(resolution, unit, dimension)
    return _with_unit(format_number(number, decimals), definition.shown)


def format_with_uncertainty(
    value: float,
    standard_uncertainty: float,
    unit: str,
    *,
    limits: Iterable[float] = (),
    dimension: str | None = None,
) -> Shown:
    """A value with its uncertainty to two digits, the value to match.

    Where the rounded value would read as being at a limit, or on its other side, both get one more
    digit (and another, until the text tells the truth). A value nearer to a limit than a thousandth
    of its uncertainty is at that limit, and reads so.

    Parameters
    ----------
    value, standard_uncertainty : float [SI]
        What is known.
    unit : str
        Unit to show it in.
    limits : iterable of float [SI]
        Limits that the value is held against.
    dimension : str, optional
        Where a unit name is used in two dimensions, the one that is meant.

    Returns
    -------
    Shown
        The two numbers and the unit.

    Examples
    --------
    >>> str(format_with_uncertainty(0.0000535, 0.0000012, "mm"))
    '0.0535 mm (u 0.0012 mm)'
    >>> format_with_uncertainty(0.00006996, 0.0000012, "mm", limits=[0.00007]).value
    '0.06996'
    >>> format_with_uncertainty(0.3 * 2.54e-5 + 1e-16, 1.4e-6, "thou", limits=[0.3 * 2.54e-5]).value
    '0.300'
    """
    number = in_unit(value, unit, dimension)
    uncertainty = difference_in_unit(standard_uncertainty, unit, dimension)
    decimals = 1 - _TWO_DIGITS.plus(uncertainty).adjusted() if uncertainty else _three_digits(number)
    bounds = [in_unit(limit, unit, dimension) for limit in limits]
    bounds = [bound for bound in bounds if abs(number - bound) > uncertainty / AT_A_LIMIT]
    for _ in range(MOST_EXTRA_DIGITS):
        if not _reaches(number, decimals, bounds):
            break
        decimals += 1
    shown = definition_of(unit, dimension).shown
    return Shown(format_number(number, decimals), format_number(uncertainty, decimals), shown)


def both_units(value: float, dimension: str, *, prefer: Family, resolution: float | None = None) -> str:
    """A value in the units of both families, the preferred one first.

    Parameters
    ----------
    value : float [SI]
        The value.
    dimension : str
        Its dimension.
    prefer : {"mm", "inch"}
        Which family comes first.
    resolution : float [SI], optional
        Resolution of the original, at which both are shown.

    Returns
    -------
    str
        One text, or a single unit where both families read the same.

    Examples
    --------
    >>> both_units(0.0000535, "length", prefer="mm", resolution=1e-7)
    '0.0535 mm (2.11 thou)'
    """
    other: Family = "inch" if prefer == "mm" else "mm"
    units = dict.fromkeys(shop_unit(dimension, family, value) for family in (prefer, other))
    texts = [at_resolution(value, unit, dimension, resolution) for unit in units]
    return texts[0] if len(texts) == 1 else f"{texts[0]} ({texts[1]})"


def at_resolution(value: float, unit: str, dimension: str, resolution: float | None) -> str:
    """A value [SI] in a unit, to the decimals nearest to a resolution [SI]."""
    decimals = None if resolution is None else decimals_for(resolution, unit, dimension)
    return format_value(value, unit, decimals, dimension=dimension)


def echo(quantity: Quantity, resolution: float | None = None) -> str:
    """An amount as it will be taken, shown before it is: as typed, then in both shop units.

    With the resolution [SI] of the gauge that said it, the others are shown as finely as the gauge says.

    >>> from fitwright.units.quantity import parse_quantity
    >>> echo(parse_quantity("55.992 mm")), echo(parse_quantity(".0022 in"))
    ('55.992 mm (2.2044 in)', '0.0022 in (0.056 mm, 2.2 thou)')
    >>> echo(parse_quantity("0.001 mm"))
    '0.001 mm (0.04 thou)'
    >>> echo(parse_quantity("2.5 in"), resolution=2.54e-6)
    '2.5 in (63.500 mm)'
    """
    first = format_value(quantity.si, quantity.unit, quantity.decimals, dimension=quantity.dimension)
    families: tuple[Family, Family] = ("mm", "inch")
    units = dict.fromkeys(shop_unit(quantity.dimension, family, quantity.si) for family in families)
    half = abs(quantity.si) / 2.0
    finest = min(quantity.resolution, resolution or quantity.resolution)
    step = min(finest, half) if half else finest  # never shown as nothing
    others = [
        at_resolution(quantity.si, unit, quantity.dimension, step) for unit in units if unit != quantity.unit
    ]
    return f"{first} ({', '.join(others)})" if others else first


def approximately(value: float, unit: str, dimension: str | None = None) -> str:
    """A value [SI] in a unit to about three digits, without trailing zeros, for a sentence."""
    number = in_unit(value, unit, dimension)
    text = format_number(number, max(0, _three_digits(number)))
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return _with_unit(text, definition_of(unit, dimension).shown)


def _three_digits(number: Decimal) -> int:
    return 2 - number.adjusted() if number else 0


def _reaches(number: Decimal, decimals: int, bounds: list[Decimal]) -> bool:
    """Whether the rounded number stands to some limit otherwise than the number itself."""
    short = quantized(number, decimals)
    return any(short.compare(bound) != number.compare(bound) for bound in bounds)


def _with_unit(number: str, shown_unit: str) -> str:
    if shown_unit == "1":
        return number
    return f"{number}{shown_unit}" if shown_unit == "\u00b0" else f"{number} {shown_unit}"
