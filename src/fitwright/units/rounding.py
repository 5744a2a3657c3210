"""From SI floats back to decimal numbers in a unit, rounded half to even on decimals.

A float holds a typed decimal to about sixteen digits. So the exact quotient is first taken to
fifteen significant digits, which gives back what was typed, and only then rounded: 0.0535 mm
stays a tie and does not become 0.05349999 mm.
"""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal, Inexact
from functools import lru_cache
from math import isfinite
from typing import Final

from fitwright.units.spellings import definition_of

_SHORT: Final = Context(prec=15, rounding=ROUND_HALF_EVEN)
_LONG: Final = Context(prec=60, rounding=ROUND_HALF_EVEN)
_EXACT: Final = Context(prec=1500, traps=[Inexact])
"""Holds every float times a unit's whole numbers; should it not, that is an error and no wrong digit."""


def in_unit(value: float, unit: str, dimension: str | None = None) -> Decimal:
    """A value [SI] in a unit, to fifteen significant digits."""
    times, plus, by = _whole_numbers(unit, dimension)
    return _SHORT.divide(_EXACT.add(_times(value, times), plus), by).normalize(_SHORT)


def difference_in_unit(value: float, unit: str, dimension: str | None = None) -> Decimal:
    """A difference or uncertainty [SI] in a unit: as `in_unit`, without a temperature's offset."""
    times, _, by = _whole_numbers(unit, dimension)
    return _SHORT.divide(_EXACT.add(_times(value, times), Decimal(0)), by).normalize(_SHORT)


@lru_cache(maxsize=512)
def _whole_numbers(unit: str, dimension: str | None) -> tuple[Decimal, Decimal, Decimal]:
    """Whole numbers t, p and b with which a value v [SI] is (t v + p) / b in a unit, exactly."""
    definition = definition_of(unit, dimension)
    factor, offset = definition.factor, definition.offset
    return (
        Decimal(factor.denominator * offset.denominator),
        Decimal(-factor.denominator * offset.numerator),
        Decimal(factor.numerator * offset.denominator),
    )


def _times(value: float, times: Decimal) -> Decimal:
    """An exact product; adding nothing to it takes the sign from a zero."""
    if not isfinite(value):
        raise ValueError(f"{value!r} is no value in any unit")
    return _EXACT.multiply(Decimal(repr(float(value))), times)


def rounded(value: float, unit: str, decimals: int, dimension: str | None = None) -> Decimal:
    """A value [SI] in a unit, rounded half to even to so many decimals."""
    return quantized(in_unit(value, unit, dimension), decimals)


def quantized(number: Decimal, decimals: int) -> Decimal:
    """A decimal number rounded half to even to so many decimals (negative: to tens, hundreds)."""
    return number.quantize(Decimal(1).scaleb(-decimals), context=_LONG)
