"""Amounts of a sheet: read through the units, every fault collected with its path."""

from __future__ import annotations

import math

from fitwright.formats.sheet.findings import Findings
from fitwright.model.amount import Written
from fitwright.model.problem import Path
from fitwright.units import DIMENSIONS, QuantityError, parse_quantity

RawAmount = str | int | float


class AmountReader:
    """Reads amounts; one that cannot be read is reported and stands as NaN in a sheet never given out."""

    def __init__(self, findings: Findings, unit_family: str) -> None:
        """Report to `findings`; `unit_family` is the one that examples are written in."""
        self._findings = findings
        self._inches = unit_family == "inch"

    def written(self, value: RawAmount, dimension: str, path: Path, *, positive: bool = False) -> Written:
        """The amount as written, in SI beside it; `positive` refuses zero and less."""
        if not isinstance(value, str):
            return self._bare(value, dimension, path)
        try:
            read = parse_quantity(value, dimension=dimension)
        except QuantityError as error:
            number = error.key == "no_unit" and dimension != "length"
            what = "a number without a unit" if error.key == "no_unit" else f'"{value}" {error.problem}'
            mend = error.write if number or error.key != "no_unit" else self._with_unit(value, dimension)
            self._findings.add(path, what, f"write {mend}")
            return Written(value, math.nan, "")
        if positive and read.si <= 0.0:
            self._findings.add(path, f'"{value}" is not above zero', "write what it really is")
        return Written(value, read.si, read.unit, read.decimals)

    def optional(
        self, value: RawAmount | None, dimension: str, path: Path, *, positive: bool = False
    ) -> Written | None:
        """The same for a key that may be left out."""
        return None if value is None else self.written(value, dimension, path, positive=positive)

    def si(self, value: RawAmount, dimension: str, path: Path, *, positive: bool = False) -> float:
        """The value in SI alone."""
        return self.written(value, dimension, path, positive=positive).si

    def optional_si(
        self, value: RawAmount | None, dimension: str, path: Path, *, positive: bool = False
    ) -> float | None:
        """The same for a key that may be left out."""
        return None if value is None else self.si(value, dimension, path, positive=positive)

    def _bare(self, value: float, dimension: str, path: Path) -> Written:
        if dimension == "ratio" and math.isfinite(value):
            text = repr(value)
            return Written(text, float(value), "1", len(text.partition(".")[2]))
        self._findings.add(path, "a number without a unit", f"write {self._with_unit(value, dimension)}")
        return Written(str(value), math.nan, "")

    def _with_unit(self, value: RawAmount, dimension: str) -> str:
        unit = DIMENSIONS[dimension].example.partition(" ")[2]
        if dimension == "length" and self._inches:
            unit = "in"
        return f'"{value} {unit}"'
