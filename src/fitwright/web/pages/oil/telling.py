"""Figures of a prediction as text: the value, its 95 % band, and by how much it differs from another."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.oil.results import Band
from fitwright.drawing.oil_figures import NOT_CONVERGED, OilReader
from fitwright.units.display import MINUS, format_number, format_value
from fitwright.units.families import Family, shop_unit
from fitwright.units.rounding import in_unit
from fitwright.units.spellings import definition_of


@dataclass(frozen=True, slots=True)
class FigureLine:
    """One figure: what it is, its value, its band, and the difference to what it is held against.

    `address` leads to where it can be looked at more closely; `chosen` is the line that is open.
    """

    name: str
    note: str
    value: str
    band: str
    change: str
    address: str = ""
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class FigureTable:
    """Figures under one heading; `against` says what the differences are held against, if anything."""

    id: str
    title: str
    note: str
    first: str
    against: str
    bands: bool
    lines: tuple[FigureLine, ...]


@dataclass(frozen=True, slots=True)
class Teller:
    """Writes figures in one reader's units; `waits` stands for bands that are still being worked out."""

    family: Family
    waits: bool = False

    @property
    def reader(self) -> OilReader:
        """The reader of the drawings: the same figures read the same everywhere."""
        return OilReader(self.family)

    def pressure(
        self, name: str, band: Band, base: Band | None = None, note: str = "", address: str = ""
    ) -> FigureLine:
        """A pressure at the gauge or elsewhere."""
        edges = self.reader.edges(band)
        unit = definition_of(self.reader.pressure_unit, "pressure").shown
        return FigureLine(
            name,
            note,
            self.reader.pressure(band),
            f"{edges} {unit}" if edges else self._no_band(band),
            self._change(band.best, base, "pressure"),
            address,
        )

    def flow(self, name: str, band: Band, base: Band | None = None, note: str = "") -> FigureLine:
        """A flow."""
        return FigureLine(
            name,
            note,
            self.reader.flow(band.best),
            self._flow_edges(band),
            self._change(band.best, base, "volume_flow"),
        )

    def film(self, name: str, band: Band, base: Band | None = None, note: str = "") -> FigureLine:
        """A film that has a thickness."""
        value = NOT_CONVERGED if band.best is None else self.reader.film(band.best)
        edges = self.reader.film_edges(band)
        change = (
            "" if base is None or base.best is None or band.best is None else self._film_change(band, base)
        )
        return FigureLine(name, note, value, edges or self._no_band(band), change)

    def plain(
        self,
        name: str,
        value: float | None,
        dimension: str,
        base: float | None = None,
        *,
        decimals: int,
        note: str = "",
    ) -> FigureLine:
        """A figure that has no band."""
        unit = shop_unit(dimension, self.family)
        text = NOT_CONVERGED if value is None else format_value(value, unit, decimals, dimension=dimension)
        return FigureLine(name, note, text, "", self._by(value, base, dimension, unit, decimals))

    def share(self, name: str, value: float | None, base: float | None = None, note: str = "") -> FigureLine:
        """A share, in per cent."""
        text = NOT_CONVERGED if value is None else f"{100.0 * value:.0f} %"
        change = ""
        if value is not None and base is not None:
            change = _signed(f"{100.0 * (value - base):.0f}", "%")
        return FigureLine(name, note, text, "", change)

    def _no_band(self, band: Band) -> str:
        return "being worked out" if self.waits and band.best is not None else ""

    def _flow_edges(self, band: Band) -> str:
        if band.low is None or band.high is None or band.best is None:
            return self._no_band(band)
        decimals = 2 if abs(float(in_unit(band.best, "L/min", "volume_flow"))) < 9.995 else 1
        ends = sorted((abs(band.low), abs(band.high)))
        words = (format_number(in_unit(each, "L/min", "volume_flow"), decimals) for each in ends)
        return f"{' to '.join(dict.fromkeys(words))} L/min"

    def _change(self, value: float | None, base: Band | None, dimension: str) -> str:
        unit = shop_unit(dimension, self.family)
        decimals = 1 if unit == "psi" else 2
        return self._by(value, None if base is None else base.best, dimension, unit, decimals)

    def _film_change(self, band: Band, base: Band) -> str:
        unit = self.reader.film_unit
        return self._by(band.best, base.best, "length", unit, 1 if self.family == "mm" else 0)

    @staticmethod
    def _by(value: float | None, base: float | None, dimension: str, unit: str, decimals: int) -> str:
        if value is None or base is None:
            return ""
        definition = definition_of(unit, dimension)
        number = (value - base) / float(definition.factor)
        return _signed(f"{number:.{decimals}f}", definition.shown)


def _signed(number: str, unit: str) -> str:
    """A difference with its sign; one that rounds to nothing says so."""
    if not number.strip("-0."):
        return "the same"
    sign = MINUS if number.startswith("-") else "+"
    return f"{sign}{number.lstrip('-')} {unit}"
