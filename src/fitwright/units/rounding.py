"""From SI floats back to decimal numbers in a unit, rounded half to even on decimals.

A float holds a typed decimal to about sixteen digits. So the exact quotient is first taken to
fifteen significant digits, which gives back what was typed, and only then rounded: 0.0535 mm
stays a tie and does not become 0.05349999 mm.
"""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction
from typing import Final

from fitwright.units.spellings import definition_of

_SHORT: Final = Context(prec=15, rounding=ROUND_HALF_EVEN)
_LONG: Final = Context(prec=60, rounding=ROUND_HALF_EVEN)


def in_unit(value: float, unit: str, dimension: str | None = None) -> Decimal:
    """A value [SI] in a unit, to fifteen significant digits."""
    definition = definition_of(unit, dimension)
    exact = (Fraction(repr(float(value))) - definition.offset) / definition.factor
    return _SHORT.divide(Decimal(exact.numerator), Decimal(exact.denominator)).normalize(_SHORT)


def difference_in_unit(value: float, unit: str, dimension: str | None = None) -> Decimal:
    """A difference or uncertainty [SI] in a unit: as `in_unit`, without a temperature's offset."""
    exact = Fraction(repr(float(value))) / definition_of(unit, dimension).factor
    return _SHORT.divide(Decimal(exact.numerator), Decimal(exact.denominator)).normalize(_SHORT)


def rounded(value: float, unit: str, decimals: int, dimension: str | None = None) -> Decimal:
    """A value [SI] in a unit, rounded half to even to so many decimals."""
    return quantized(in_unit(value, unit, dimension), decimals)


def quantized(number: Decimal, decimals: int) -> Decimal:
    """A decimal number rounded half to even to so many decimals (negative: to tens, hundreds)."""
    return number.quantize(Decimal(1).scaleb(-decimals), context=_LONG)
