"""Which unit a shop reads each dimension in: millimetre shops and inch shops.

A display choice only; nothing stored is converted. In an inch shop small lengths are read in thou
and larger ones in inches. Masses and volumes are metric in both: scales and burettes are.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, Literal

from fitwright.units.spellings import definition_of
from fitwright.units.table import DIMENSIONS

Family = Literal["mm", "inch"]

LARGEST_IN_THOU: Final = 0.00254
"""Lengths below a tenth of an inch [m] are shown in thou, others in inches."""

_SHOP_UNITS: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "length": ("mm", "in"),
        "area": ("mm2", "in2"),
        "volume": ("cc", "cc"),
        "angle": ("deg", "deg"),
        "mass": ("g", "g"),
        "force": ("N", "lbf"),
        "torque": ("N m", "lbf ft"),
        "pressure": ("bar", "psi"),
        "temperature": ("degC", "degF"),
        "temperature_difference": ("K", "degF"),
        "thermal_expansion": ("ppm/K", "ppm/K"),
        "spring_rate": ("N/mm", "lbf/in"),
        "angular_speed": ("rpm", "rpm"),
        "speed": ("m/s", "m/s"),
        "volume_flow": ("L/min", "L/min"),
        "displacement": ("cc/rev", "cc/rev"),
        "kinematic_viscosity": ("mm2/s", "mm2/s"),
        "dynamic_viscosity": ("mPa s", "mPa s"),
        "density": ("kg/m3", "kg/m3"),
        "power": ("kW", "hp"),
        "imbalance": ("g mm", "g mm"),
        "time": ("s", "s"),
        "ratio": ("1", "1"),
    }
)
_RESOLUTIONS: Final[Mapping[str, float]] = MappingProxyType(
    {
        "length": 1e-6,
        "volume": 1e-7,
        "angle": 1.8e-3,
        "mass": 1e-4,
        "force": 1.0,
        "torque": 0.1,
        "pressure": 1e3,
        "temperature": 1.0,
        "temperature_difference": 1.0,
        "thermal_expansion": 1e-7,
        "spring_rate": 10.0,
        "angular_speed": 0.1,
        "volume_flow": 1e-6,
        "power": 100.0,
        "ratio": 0.01,
    }
)


def shop_unit(dimension: str, family: Family, largest: float = 0.0) -> str:
    """The unit in which a shop reads a dimension.

    Parameters
    ----------
    dimension : str
        A key of `DIMENSIONS`.
    family : {"mm", "inch"}
        Which family of units the shop (or this place) reads.
    largest : float [SI]
        The largest value to be shown, which decides between thou and inches.

    Returns
    -------
    str
        Canonical spelling of the unit.

    Examples
    --------
    >>> shop_unit("length", "inch", 5e-5), shop_unit("length", "inch", 0.06)
    ('thou', 'in')
    """
    if dimension == "length" and family == "inch" and abs(largest) < LARGEST_IN_THOU:
        return "thou"
    if dimension not in _SHOP_UNITS:
        return definition_of(DIMENSIONS[dimension].example.partition(" ")[2], dimension).name
    return _SHOP_UNITS[dimension][family == "inch"]


def usual_resolution(dimension: str) -> float | None:
    """The resolution [SI] at which a computed value is shown where nothing else sets one."""
    return _RESOLUTIONS.get(dimension)
