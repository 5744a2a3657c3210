"""How the slip guard's questions read in the units of whoever typed the value."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal
from typing import Final

from fitwright.units.display import approximately, at_resolution, format_number, format_value
from fitwright.units.families import Family, shop_unit
from fitwright.units.quantity import Quantity
from fitwright.units.rounding import in_unit
from fitwright.units.spellings import definition_of, units_of

SMALLEST_IN_MM: Final = 1e-6
"""Below a micrometre [m] a length is worded in micrometres, not in zeros of a millimetre."""

_USUAL_UNITS: Final = {
    "length": ("mm", "in", "thou", "um"),
    "torque": ("N m", "lbf ft", "lbf in", "kgf m"),
    "pressure": ("bar", "psi", "kPa", "kgf/cm2"),
    "volume": ("cc", "cu in"),
}


@dataclass(frozen=True, slots=True)
class SlipWording:
    """Words one typed amount; fits the `Wording` that `model.slips` asks for."""

    quantity: Quantity

    @property
    def typed(self) -> str:
        """The amount as typed: `0.0022 thou`."""
        quantity = self.quantity
        return format_value(quantity.si, quantity.unit, quantity.decimals, dimension=quantity.dimension)

    @property
    def elsewhere(self) -> str:
        """The amount in the other family's unit: `0.056 µm` for an amount typed in thou."""
        quantity = self.quantity
        unit = self._other_unit()
        return at_resolution(quantity.si, unit, quantity.dimension, quantity.resolution)

    def same_digits(self, value: float) -> str | None:
        """The typed digits in another unit, else with the point moved, else both; None if neither."""
        quantity = self.quantity
        usual = _USUAL_UNITS.get(quantity.dimension) or units_of(quantity.dimension)
        others = [unit for unit in usual if unit != quantity.unit]
        shifts = (-1, 1, -2, 2, -3, 3)
        tries = [(unit, 0) for unit in (quantity.unit, *others)]
        tries += [(unit, shift) for unit in (quantity.unit, *others) for shift in shifts]
        for unit, shift in tries:
            number = in_unit(value, unit, quantity.dimension)
            moved = quantity.magnitude * 10.0**shift
            if math.isclose(abs(number), abs(moved), rel_tol=1e-12):
                return self._text(number, unit, max(0, quantity.decimals - shift))
        return None

    def in_full(self, value: float) -> str:
        """A value [SI] in the unit typed, with one more digit than typed where it needs it (half)."""
        quantity = self.quantity
        number = in_unit(value, quantity.unit, quantity.dimension)
        decimals = quantity.decimals
        if not math.isclose(round(number, decimals), number, rel_tol=1e-12):
            decimals += 1
        return self._text(number, quantity.unit, decimals)

    def about(self, value: float) -> str:
        """A value [SI] in the unit typed, to about three digits."""
        return approximately(value, self.quantity.unit, self.quantity.dimension)

    def _other_unit(self) -> str:
        quantity = self.quantity
        metric = shop_unit(quantity.dimension, "mm", quantity.si)
        family: Family = "inch" if quantity.unit in {metric, "um", "cm", "m"} else "mm"
        unit = shop_unit(quantity.dimension, family, quantity.si)
        return "um" if unit == "mm" and abs(quantity.si) < SMALLEST_IN_MM else unit

    def _text(self, number: Decimal, unit: str, decimals: int) -> str:
        shown = definition_of(unit, self.quantity.dimension).shown
        return f"{format_number(number, decimals)} {shown}"
