"""The measured clearances of a rotor set: what they are called, how they read, how large they are drawn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Final

from fitwright.units import format_value
from fitwright.units.families import Family
from fitwright.units.rounding import in_unit


class Place(StrEnum):
    """Which clearance it is."""

    TIP = "tip"
    BODY = "body"
    END = "end"
    BACKLASH = "backlash"

    @property
    def letter(self) -> str:
        """Its letter on the drawing; no drawing has both body and backlash."""
        return {"tip": "A", "end": "C"}.get(self.value, "B")


@dataclass(frozen=True, slots=True)
class ShownClearance:
    """A measured clearance [m], in the sense in which it was measured; None where it was not."""

    place: Place
    title: str
    size: float | None


@dataclass(frozen=True, slots=True)
class Clearances:
    """Measured clearances [m] of a rotor set.

    Tip clearance is the gap between two lobes, or between the tips of a spur gear and the body; body
    clearance that of the outer rotor on diameter; end clearance that of both faces together; backlash is
    along the pitch circle.
    """

    tip: float | None = None
    body: float | None = None
    end: float | None = None
    backlash: float | None = None


ROTOR_TITLES: Final = {
    Place.TIP: "between the tips",
    Place.BODY: "outer rotor in the body, on diameter",
    Place.END: "end clearance, both faces together",
}
GEAR_TITLES: Final = {
    Place.TIP: "tips to the body, on the radius",
    Place.BACKLASH: "backlash",
    Place.END: "end clearance, both faces together",
}
NOT_MEASURED: Final = "not measured"
_MM, _THOU = (3, 5), (1, 3)


def shown(clearances: Clearances, titles: dict[Place, str]) -> Iterator[ShownClearance]:
    """Each clearance of a set with its title, measured or not."""
    sizes = {
        Place.TIP: clearances.tip,
        Place.BODY: clearances.body,
        Place.END: clearances.end,
        Place.BACKLASH: clearances.backlash,
    }
    for place, title in titles.items():
        yield ShownClearance(place, title, sizes[place])


def as_drawn(
    measured: Sequence[float | None], most: Sequence[float], factor: float
) -> tuple[list[float], bool]:
    """Clearances times the factor, as far as there is room for them; whether one has less than it wants."""
    wanted = [factor * (each or 0.0) for each in measured]
    sizes = [min(each) for each in zip(wanted, most, strict=True)]
    return sizes, sizes != wanted


def described(clearances: Clearances, titles: dict[Place, str], family: Family) -> str:
    """All of them in a sentence, for who cannot see the drawing."""
    said = (
        f"{each.title} {' or '.join(filter(None, in_both_units(each.size, family)))}"
        for each in shown(clearances, titles)
    )
    return f"Seen from the face. {'; '.join(said).capitalize()}."


def in_both_units(size: float | None, family: Family) -> tuple[str, str]:
    """A clearance in the reader's unit and in the other one; no digit of the first is lost.

    >>> in_both_units(5.35e-5, "mm"), in_both_units(None, "mm")
    (('0.0535 mm', '2.11 thou'), ('not measured', ''))
    """
    if size is None:
        return NOT_MEASURED, ""
    millimetres, thou = _text(size, "mm", *_MM), _text(size, "thou", *_THOU)
    return (millimetres, thou) if family == "mm" else (thou, millimetres)


def _text(size: float, unit: str, fewest: int, most: int) -> str:
    number = in_unit(size, unit, "length")
    decimals = next(
        (count for count in range(fewest, most) if abs(round(number, count) - number) < Decimal("1e-9")),
        most - 1,
    )
    return format_value(size, unit, decimals)
