"""Amounts as a shop writes them: in its own unit, rounded as that unit is read."""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import ROUND_HALF_EVEN, Decimal

from fitwright.quantity import Metre, Radian
from fitwright.units.rounding import in_unit

_COARSE: dict[str, tuple[tuple[Metre, str, str], ...]] = {
    "mm": ((0.1e-3, "mm", "0.001"), (1e-3, "mm", "0.01"), (math.inf, "mm", "0.1")),
    "inch": (
        (0.1e-3, "thou", "0.1"),
        (0.4e-3, "thou", "0.5"),
        (1e-3, "thou", "1"),
        (25e-3, "thou", "5"),
        (math.inf, "in", "0.01"),
    ),
}
"""Below which length which unit, and to which step a bound is rounded in it."""

_FINE = {"mm": ("mm", "0.001"), "inch": ("in", "0.0001")}


def bounds(values: Iterable[Metre | None], units: str) -> tuple[str | None, ...]:
    """The bounds of a limit, to one step: a rule of thumb is given no more digits than it has.

    Examples
    --------
    >>> bounds((0.0448e-3, 0.0616e-3), "mm"), bounds((0.0448e-3, 0.0616e-3), "inch")
    (('0.045 mm', '0.062 mm'), ('1.8 thou', '2.4 thou'))
    >>> bounds((0.0, 0.15e-3), "mm"), bounds((None, 0.15e-3), "inch")
    (('0 mm', '0.15 mm'), (None, '6.0 thou'))
    """
    values = tuple(values)
    least = min((abs(value) for value in values if value), default=0.0)
    unit, step = next((unit, step) for below, unit, step in _COARSE[units] if least < below)
    return tuple(None if value is None else _bound(value, unit, step) for value in values)


def _bound(value: Metre, unit: str, step: str) -> str:
    return _written(value, unit, step) if value else f"0 {unit}"


def size(value: Metre, units: str) -> str:
    """A size: to a micrometre, or to a tenth of a thou.

    Examples
    --------
    >>> size(0.056, "mm"), size(0.0508, "inch")
    ('56.000 mm', '2.0000 in')
    """
    return _written(value, *_FINE[units])


def length(value: Metre, units: str) -> str:
    """A length that is only known roughly: to half a millimetre, or to a hundredth of an inch.

    Examples
    --------
    >>> length(0.26232, "mm"), length(0.0254, "inch")
    ('262.5 mm', '1.00 in')
    """
    return _written(value, *(("mm", "0.5") if units == "mm" else ("in", "0.01")))


def rough(value: Metre, units: str) -> str:
    """An assumed size: to a step that says that nobody measured it.

    Examples
    --------
    >>> rough(0.00598, "mm"), rough(0.00598, "inch"), rough(0.0000451, "mm")
    ('6.0 mm', '235 thou', '0.045 mm')
    """
    written = bounds((value,), units)[0]
    return written if written is not None else ""


def degrees(value: Radian) -> str:
    """An angle in whole degrees."""
    return f"{round(math.degrees(value))} deg"


def grams(value: float) -> str:
    """A mass [kg] in grams, in which both kinds of shop weigh parts.

    Examples
    --------
    >>> grams(-0.001)
    '-1.0 g'
    """
    return f"{value * 1000:.1f} g"


def millilitres(value: float) -> str:
    """A volume [m3] in millilitres, in which burettes are read.

    Examples
    --------
    >>> millilitres(1e-6)
    '1.0 mL'
    """
    return f"{value * 1e6:.1f} mL"


def _written(value: Metre, unit: str, step: str) -> str:
    """A value in a unit, to a step of that unit."""
    grain = Decimal(step)
    number = (in_unit(value, unit) / grain).quantize(Decimal(1), ROUND_HALF_EVEN) * grain
    return f"{number + 0:f} {unit}"
