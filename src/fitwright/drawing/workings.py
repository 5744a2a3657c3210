"""Figures of a working in the reader's unit."""

from __future__ import annotations

from fitwright.assess.working import Figure
from fitwright.units.display import approximately, format_value
from fitwright.units.families import Family, shop_unit

_DIMENSIONS = {
    "m": "length",
    "rad": "angle",
    "m3": "volume",
    "N": "force",
    "N m": "torque",
    "Pa": "pressure",
    "N/m": "spring_rate",
    "kg": "mass",
    "m3/s": "volume_flow",
}


def figure_text(figure: Figure, family: Family) -> str:
    """The number of a figure with its unit and uncertainty; nothing where it has no number."""
    if figure.value is None:
        return ""
    text = _number(figure.value, figure.unit, family)
    if figure.standard_uncertainty is None:
        return text
    return f"{text} (u {_number(figure.standard_uncertainty, figure.unit, family)})"


def _number(value: float, si_unit: str, family: Family) -> str:
    dimension = _DIMENSIONS.get(si_unit)
    if dimension is None:
        return f"{value:.4g}"
    unit = shop_unit(dimension, family, value)
    if dimension == "length":
        return _length(value, unit)
    return approximately(value, unit, dimension)


def _length(value: float, unit: str) -> str:
    """A length with digits enough to redo the sum: a hundredth of a micrometre."""
    decimals = {"mm": 5, "in": 6, "thou": 3}.get(unit)
    return format_value(value, unit, decimals)
