"""Figures of the oil system as one reads them: bar or psi, L/min, rev/min, films; else a word."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

from fitwright.assess.oil.results import Band
from fitwright.units.display import MINUS, format_number, format_value
from fitwright.units.families import Family, shop_unit
from fitwright.units.rounding import in_unit
from fitwright.units.spellings import definition_of

NOT_CONVERGED: Final = "not converged"
"""Stands for a number where no solution was found."""

_COARSE: Final = {"bar": 0.1, "psi": 1.0}
"""Half a band so wide is read with one decimal less."""


@cache
def unit_size(unit: str, dimension: str) -> float:
    """How large a unit is [SI]: for places on a picture, where exact decimals do not matter.

    >>> round(unit_size("psi", "pressure"), 3)
    6894.757
    """
    return float(definition_of(unit, dimension).factor)


@dataclass(frozen=True, slots=True)
class OilReader:
    """Writes figures of the oil system for one reader: `mm` or `inch`."""

    family: Family = "mm"

    @property
    def pressure_unit(self) -> str:
        """Bar or psi."""
        return shop_unit("pressure", self.family)

    def in_pressure(self, value: float) -> float:
        """A pressure [Pa] in the reader's unit."""
        return value / unit_size(self.pressure_unit, "pressure")

    def pressure(self, band: Band, missing: str = NOT_CONVERGED) -> str:
        """The best estimate, `2.45 bar`."""
        if band.best is None:
            return missing
        return format_value(band.best, self.pressure_unit, self._decimals(band))

    def edges(self, band: Band) -> str:
        """The 95 % band without its unit, `2.31 to 2.60`; empty where it is not known."""
        if band.low is None or band.high is None:
            return ""
        return self.between(band.low, band.high, self._decimals(band))

    def between(self, low: float, high: float, decimals: int | None = None) -> str:
        """Two pressures [Pa] without unit, or one of them where they read alike."""
        decimals = self._decimals(Band(None)) if decimals is None else decimals
        ends = dict.fromkeys(
            format_number(in_unit(each, self.pressure_unit, "pressure"), decimals) for each in (low, high)
        )
        return " to ".join(ends)

    def change(self, value: float) -> str:
        """A change of pressure [Pa] with its sign, `−0.120 bar`."""
        number = in_unit(value, self.pressure_unit, "pressure")
        digits = (2 if abs(number) >= 1 else 3) - (self.pressure_unit == "psi")
        text = format_number(number, digits)
        signed = text if text.startswith(MINUS) or not text.strip("0.") else f"+{text}"
        return f"{signed} {self.pressure_unit}"

    def _decimals(self, band: Band) -> int:
        fine = 2 if self.pressure_unit == "bar" else 1
        if band.low is None or band.high is None:
            return fine
        half = self.in_pressure(band.high - band.low) / 2.0
        return fine - 1 if half >= _COARSE[self.pressure_unit] else fine

    def flow(self, value: float | None, missing: str = NOT_CONVERGED) -> str:
        """A flow [m3/s], always positive: which way it goes is drawn."""
        if value is None:
            return missing
        litres = abs(value) / unit_size("L/min", "volume_flow")
        return format_value(abs(value), "L/min", 2 if litres < 9.995 else 1)

    def speed(self, angular_speed: float) -> str:
        """A speed [rad/s] in rev/min."""
        return format_value(angular_speed, "rpm", 0)

    def temperature(self, kelvin: float) -> str:
        """A temperature [K] in °C or °F."""
        return format_value(kelvin, shop_unit("temperature", self.family), 0, dimension="temperature")

    @property
    def film_unit(self) -> str:
        """µm or millionths of an inch, as finishes are read."""
        return "um" if self.family == "mm" else "uin"

    def in_film(self, thickness: float) -> float:
        """A film or finish [m] in the reader's unit."""
        return thickness / unit_size(self.film_unit, "length")

    def film(self, thickness: float) -> str:
        """A film or finish [m], `2.4 µm`."""
        return format_value(thickness, self.film_unit, self._film_decimals)

    def film_edges(self, band: Band) -> str:
        """The band of a film with its unit; empty where it is not known."""
        if band.low is None or band.high is None:
            return ""
        numbers = (
            format_number(in_unit(each, self.film_unit, "length"), self._film_decimals)
            for each in (band.low, band.high)
        )
        return f"{' to '.join(dict.fromkeys(numbers))} {definition_of(self.film_unit, 'length').shown}"

    @property
    def _film_decimals(self) -> int:
        return 1 if self.family == "mm" else 0

    def step(self) -> tuple[float, str]:
        """By how much a clearance is imagined to grow [m], and in words."""
        return (1e-5, "0.01 mm") if self.family == "mm" else (0.4 * 2.54e-5, "0.4 thou")
