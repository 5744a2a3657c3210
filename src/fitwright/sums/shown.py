"""Figures as text: in the units of the reader's shop, with those of the other kind of shop behind."""

from __future__ import annotations

import re
from decimal import Context, Decimal

from fitwright.sums.declaration import Figure, Value
from fitwright.units import format_value, shop_unit
from fitwright.units.families import Family
from fitwright.units.rounding import in_unit
from fitwright.units.spellings import definition_of

_LENGTH_DECIMALS = {"mm": 4, "in": 5, "thou": 2}
_DIGITS = 5
LEAST_SHOWN = Decimal("1e-9")
"""A smaller number is what is left of a zero."""
LEAST_STRESS = 1e7
"""A pressure [Pa] from which on it is read as a stress."""
_CONVERTED = Context(prec=8)
_FEWEST_DIGITS = 3
_MOST_DECIMALS = 7
_ZEROS = re.compile(r"^([^.]*\.\d*?)0+(?!\d)")


def number_text(value: float, dimension: str, family: Family) -> str:
    """A number in SI in the unit in which a shop reads it, with digits enough to redo the sum.

    >>> number_text(5.35e-5, "length", "inch")
    '2.11 thou'
    """
    if dimension == "ratio":
        return f"{value:.{_DIGITS}g}"
    unit = unit_shown(value, dimension, family)
    number = in_unit(value, unit, dimension)
    if abs(number) < LEAST_SHOWN:
        number = Decimal(0)
    if dimension == "length":
        enough = min(_FEWEST_DIGITS - 1 - number.adjusted(), _MOST_DECIMALS) if number else 0
        return format_value(value, unit, max(_LENGTH_DECIMALS.get(unit, 4), enough))
    decimals = max(0, _DIGITS - 1 - number.adjusted()) if number else 0
    text = format_value(value, unit, min(decimals, _MOST_DECIMALS), dimension=dimension)
    return _ZEROS.sub(lambda found: found[1].rstrip("."), text)


def unit_shown(value: float, dimension: str, family: Family) -> str:
    """The unit in which a number is read; where pressures are stresses, not that of an oil gauge.

    >>> unit_shown(8e7, "pressure", "mm"), unit_shown(4e5, "pressure", "mm")
    ('MPa', 'bar')
    """
    if dimension == "pressure" and family == "mm" and abs(value) >= LEAST_STRESS:
        return "MPa"
    return shop_unit(dimension, family, value)


def converted_text(number: Decimal) -> str:
    """A converted number to eight significant digits, without the zeros and nines behind them.

    >>> converted_text(Decimal("17.7777777777778")), converted_text(Decimal("0.0635"))
    ('17.777778', '0.0635')
    """
    return f"{number.normalize(_CONVERTED):f}"


def value_text(value: Value, dimension: str | None, family: Family) -> str:
    """A value of a figure or of a step: a number with its unit, words, or several of either.

    >>> value_text((4.0e-5, None), "length", "mm")
    '0.0400 mm, open'
    """
    if value is None:
        return "–"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return ", ".join("open" if each is None else value_text(each, dimension, family) for each in value)
    if isinstance(value, str) or dimension is None:
        return str(value)
    return number_text(float(value), dimension, family)


def interval_text(value: Value, dimension: str | None, family: Family) -> str:
    """Both ends of an interval, or the one that is bounded.

    >>> interval_text((4.0e-5, None), "length", "mm"), interval_text((4.0e-5, 6.0e-5), "length", "mm")
    ('above 0.0400 mm', '0.0400 mm to 0.0600 mm')
    """
    low, high = value if isinstance(value, tuple) else (None, None)
    ends = [value_text(each, dimension, family) for each in (low, high)]
    if low is None or high is None:
        return f"below {ends[1]}" if low is None else f"above {ends[0]}"
    return " to ".join(ends)


def figure_text(figure: Figure | None, family: Family, *, interval: bool = False) -> str:
    """A figure in the reader's units, with the other kind of shop's behind where they differ."""
    if figure is None or figure.value is None:
        return "–"
    value: Value = figure.value  # type: ignore[assignment]  # rows are shown as tables
    if figure.unit is not None and figure.dimension is not None and not _in_si(figure):
        number = converted_text(Decimal(repr(value))) if isinstance(value, float) else str(value)
        return f"{number} {definition_of(figure.unit, figure.dimension).shown}"
    other: Family = "inch" if family == "mm" else "mm"
    shown = interval_text if interval else value_text
    first, second = (shown(value, figure.dimension, each) for each in (family, other))
    return first if first == second else f"{first} ({second})"


def _in_si(figure: Figure) -> bool:
    definition = definition_of(figure.unit or "", figure.dimension)
    return definition.factor == 1 and definition.offset == 0
