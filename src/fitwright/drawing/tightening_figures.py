"""Figures of a tightening as one reads them: torques, angles, stretches, preloads, shares of strength."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from typing import Final, Protocol

from fitwright.model.fastener import Pass
from fitwright.units.display import MOST_EXTRA_DIGITS, at_resolution, format_number, format_value
from fitwright.units.families import Family, shop_unit
from fitwright.units.quantity import decimals_for
from fitwright.units.rounding import in_unit, quantized
from fitwright.units.spellings import definition_of

_PRELOAD_STEP: Final = {"kN": 100.0, "lbf": 44.482216}
"""Preloads are read to a tenth of a kilonewton, or to ten pounds."""
_OF_FAMILY: Final = {"inch": frozenset({"lbf ft", "lbf in", "ozf in", "thou", "in", "lbf"})}


TRUE_TO: Final = Decimal("0.0025")
"""A figure in another unit stays within this share of the one that was written: a wrench is set to it."""
_TAIL: Final = re.compile(r"(\d)(?:\.0+|(\.\d*[1-9])0+)(?=\D|$)")


class AsWritten(Protocol):
    """An amount as somebody wrote it: of the sheet, or typed at the bench."""

    @property
    def si(self) -> float:
        """Its value [SI]."""
        ...

    @property
    def unit(self) -> str:
        """The unit it was written in."""
        ...

    @property
    def decimals(self) -> int:
        """Its decimals."""
        ...


@cache
def _size(unit: str, dimension: str) -> float:
    return float(definition_of(unit, dimension).factor)


@dataclass(frozen=True, slots=True)
class TighteningReader:
    """Writes the figures of fasteners for one reader: `mm` or `inch`.

    >>> from fitwright.model.amount import Written
    >>> torque = Written("61 N m", 61.0, "N m", 0)
    >>> TighteningReader("mm").torque(torque), TighteningReader("inch").torque(torque)
    ('61 N·m', '45 lbf·ft')
    >>> TighteningReader("inch").torque(Written("25 N m", 25.0, "N m", 0))
    '18.4 lbf·ft'
    """

    family: Family = "mm"

    def torque(self, amount: AsWritten) -> str:
        """A torque: as written in a unit of this reader, else in the reader's own."""
        return self._amount(amount, "torque")

    def angle(self, amount: AsWritten) -> str:
        """An angle."""
        return self._amount(amount, "angle")

    def length(self, amount: AsWritten) -> str:
        """A stretch, or a length of a fastener."""
        return self._amount(amount, "length")

    def torque_of(self, value: float) -> str:
        """A torque [N m], its figure without a tail of zeros."""
        unit = shop_unit("torque", self.family)
        return _plain(at_resolution(value, unit, "torque", 0.1))

    def angle_of(self, value: float) -> str:
        """An angle [rad], its figure without a tail of zeros."""
        return _plain(format_value(value, "deg", 1))

    def stretch_of(self, value: float) -> str:
        """A computed stretch [m]."""
        unit = shop_unit("length", self.family, value)
        return at_resolution(value, unit, "length", 1e-6 if self.family == "mm" else 2.54e-6)

    @property
    def force_unit(self) -> str:
        """Kilonewton or pounds."""
        return "kN" if self.family == "mm" else "lbf"

    def preload(self, value: float) -> str:
        """A preload [N]."""
        return at_resolution(value, self.force_unit, "force", _PRELOAD_STEP[self.force_unit])

    def preload_between(self, low: float, high: float) -> str:
        """A band of preload [N], `32.1 to 47.0 kN`."""
        return " to ".join(self.preload_ends(low, high))

    def preload_ends(self, low: float, high: float) -> tuple[str, str]:
        """The ends of a band of preload [N], the second with the unit of both."""
        unit = self.force_unit
        decimals = decimals_for(_PRELOAD_STEP[unit], unit, "force")
        first = format_number(in_unit(low, unit, "force"), decimals)
        return first, format_value(high, unit, decimals, dimension="force")

    def share(self, value: float) -> str:
        """A share of a strength [1], in per cent."""
        return f"{100.0 * value:.0f} %"

    def in_torque(self, value: float) -> float:
        """A torque [N m] in the reader's unit, for a place on a picture."""
        return value / _size(shop_unit("torque", self.family), "torque")

    @property
    def stretch_unit(self) -> str:
        """Millimetre or thou."""
        return "mm" if self.family == "mm" else "thou"

    def in_stretch(self, value: float) -> float:
        """A stretch [m] in the reader's unit, for a place on a picture."""
        return value / _size(self.stretch_unit, "length")

    def pass_words(self, wanted: Pass) -> str:
        """What a pass asks for: `to 60 N·m`, `by a further 90°`, `to a stretch of 0.14 to 0.16 mm`."""
        torque = self._torque_words(wanted)
        if wanted.stretch_low is not None or wanted.stretch_high is not None:
            check = f", cross-check {torque}" if torque else ""
            return f"to a stretch {self._stretch_words(wanted)}{check}"
        if wanted.angle is not None:
            after = f"to {torque}, then " if torque else ""
            return f"{after}by a further {self.angle(wanted.angle)}"
        return f"to {torque}" if torque else "not stated"

    def _torque_words(self, wanted: Pass) -> str:
        if wanted.torque is None:
            return ""
        torque = self.torque(wanted.torque)
        return f"{torque}, up to {self.torque(wanted.upto)}" if wanted.upto is not None else torque

    def _stretch_words(self, wanted: Pass) -> str:
        low, high = wanted.stretch_low, wanted.stretch_high
        if low is None:
            assert high is not None  # noqa: S101  (one of them is there)
            return f"up to {self.length(high)}"
        if high is None:
            return f"of at least {self.length(low)}"
        unit = self.length(high).rpartition(" ")[2]
        return f"of {self.length(low).removesuffix(f' {unit}')} to {self.length(high)}"

    def _amount(self, amount: AsWritten, dimension: str) -> str:
        """As written where this reader writes in that unit; else in the reader's, as finely as written."""
        if self._is_own(amount.unit, dimension):
            return format_value(amount.si, amount.unit, amount.decimals, dimension=dimension)
        unit = shop_unit(dimension, self.family, amount.si)
        resolution = 10.0**-amount.decimals * _size(amount.unit, dimension)
        return format_value(amount.si, unit, _true_decimals(amount.si, unit, dimension, resolution))

    def _is_own(self, unit: str, dimension: str) -> bool:
        if dimension == "angle":
            return True
        return (unit in _OF_FAMILY["inch"]) == (self.family == "inch")


def _plain(text: str) -> str:
    """A figure with its unit, without zeros that say nothing after the point."""
    return _TAIL.sub(lambda found: found[1] + (found[2] or ""), text)


def _true_decimals(value: float, unit: str, dimension: str, resolution: float) -> int:
    """As many decimals as were written, or more where so few would say another value."""
    decimals, exact = decimals_for(resolution, unit, dimension), in_unit(value, unit, dimension)
    for more in range(MOST_EXTRA_DIGITS):
        if abs(quantized(exact, decimals + more) - exact) <= TRUE_TO * abs(exact):
            return decimals + more
    return decimals + MOST_EXTRA_DIGITS
