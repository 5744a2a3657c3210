"""A sum with its answer, as a picture reads it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from fitwright.sums.declaration import SumResult
from fitwright.sums.forms import Given
from fitwright.sums.shown import number_text
from fitwright.units import shop_unit
from fitwright.units.families import Family


@dataclass(frozen=True, slots=True)
class Seen:
    """A sum with its answer, as a picture reads it."""

    given: Given
    result: SumResult
    family: Family

    def value(self, key: str) -> Any:  # noqa: ANN401  (numbers, words, or several)
        """The value of a figure [SI]; None where it does not exist."""
        figure = self.result.results[key]
        return None if figure is None else figure.value

    def words(self, value: float, dimension: str = "length") -> str:
        """A number as short as it is exact."""
        number, _, unit = number_text(value, dimension, self.family).partition(" ")
        number = number.rstrip("0").rstrip(".") if "." in number else number
        return f"{number} {unit}".rstrip()

    def unit(self, largest: float) -> str:
        """The unit of an axis of lengths."""
        return shop_unit("length", self.family, largest)
