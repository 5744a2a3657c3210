"""The usual slips of unit, digit and sign, by dimension, as factors between SI values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

ICE_POINT: Final = 273.15


@dataclass(frozen=True, slots=True)
class Slip:
    """A slip: what was meant is `value * factor + shift` [SI].

    A rare one counts only where the digits typed make sense of it (2 mm for 2 thou, but not
    0.0787 mm for 0.002 mm), and never outdoes a usual one.
    """

    name: str
    factor: float
    shift: float = 0.0
    rare: bool = False

    def mended(self, value: float) -> float:
        """What was meant if this slip was made."""
        return value * self.factor + self.shift


def _both_ways(name: str, factor: float) -> tuple[Slip, Slip]:
    return Slip(f"{name}:up", factor), Slip(f"{name}:down", 1 / factor)


_DIGIT: Final = _both_ways("digit", 10.0)
_SIGN: Final = Slip("sign", -1.0)
_LENGTH: Final = (
    *_both_ways("thousand", 1000.0),  # thou for inches, micrometres for millimetres
    *_both_ways("inch", 25.4),  # inches for millimetres, thou for micrometres
    *_DIGIT,
    Slip("thou:up", 1000 / 25.4, rare=True),  # thou for millimetres
    Slip("thou:down", 25.4 / 1000, rare=True),
    Slip("half-thou", 25.4 / 100, rare=True),  # half a thou (0.0005 in) written as 0.05 mm
    _SIGN,
)
_POUND_FEET: Final = 1.3558179483314004
_TORQUE: Final = (
    *_both_ways("feet", 12.0),
    *_both_ways("pound-feet", _POUND_FEET),
    *_both_ways("kilogram-force", 9.80665),
    *_DIGIT,
)
_PRESSURE: Final = (
    *_both_ways("psi", 14.503773773020923),
    *_both_ways("hundred", 100.0),  # kPa for bar
    *_DIGIT,
    _SIGN,
)
_TEMPERATURE: Final = (
    Slip("fahrenheit", 5 / 9, ICE_POINT - (ICE_POINT + 32) * 5 / 9),
    Slip("celsius", 9 / 5, ICE_POINT + 32 - ICE_POINT * 9 / 5),
    Slip("kelvin", 1.0, -ICE_POINT),
)
_FORCE: Final = (
    *_both_ways("pound-force", 4.4482216152605),
    *_both_ways("kilogram-force", 9.80665),
    *_DIGIT,
)
_SPRING: Final = (*_both_ways("pound-force", 5.710147162769201), *_DIGIT)
ANY_SLIPS: Final = (*_DIGIT, _SIGN)
SLIPS: Final[Mapping[str, tuple[Slip, ...]]] = MappingProxyType(
    {
        "length": _LENGTH,
        "torque": _TORQUE,
        "pressure": _PRESSURE,
        "temperature": _TEMPERATURE,
        "force": _FORCE,
        "spring_rate": _SPRING,
        "volume": (*_both_ways("cubic inch", 16.387064), *_DIGIT, _SIGN),
        "mass": (*_both_ways("thousand", 1000.0), *_both_ways("ounce", 28.349523125), *_DIGIT),
        "imbalance": (*_both_ways("ounce-inch", 720.0778873750), *_DIGIT, _SIGN),
        "density": (*_both_ways("thousand", 1000.0), *_DIGIT),
        "angular_speed": (*_both_ways("cam", 2.0), *_DIGIT),
    }
)
"""Slips looked for in each dimension; `ANY_SLIPS` in those not named."""

_POUND_FEET_ASKED: Final = "Is {typed} in the wrong unit? {label} would be inside the limits."
CLOSE_SLIPS: Final[Mapping[str, tuple[tuple[Slip, str], ...]]] = MappingProxyType(
    {
        "length": (
            (Slip("radial", 2.0), "Is {typed} radial, or one side of two? Then the whole is {label}."),
            (Slip("total", 0.5), "Is {typed} a total reading, or both sides together? Then one is {label}."),
        ),
        "torque": (
            (Slip("pound-feet:up", _POUND_FEET, rare=True), _POUND_FEET_ASKED),
            (Slip("pound-feet:down", 1 / _POUND_FEET, rare=True), _POUND_FEET_ASKED),
        ),
    }
)
"""Slips by so little that the window cannot show them; asked only where the limits are narrower."""
