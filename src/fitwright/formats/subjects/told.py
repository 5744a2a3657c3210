"""What the tables of a build are told of, and how amounts and moments stand in them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from fitwright.assess.assembly.results import Standing
from fitwright.assess.results import Assessment
from fitwright.bench.context import Bench
from fitwright.records.kinds import Typed
from fitwright.units.display import format_number
from fitwright.units.families import Family
from fitwright.units.rounding import in_unit

Row = tuple[str, ...]

DIGITS = {"mm": 5, "in": 6, "thou": 3, "N m": 2, "lbf ft": 2, "kN": 2, "lbf": 0, "bar": 3, "psi": 1}


@dataclass(frozen=True, slots=True)
class Told:
    """What the tables are told of: a build as it stands, in one family of units."""

    bench: Bench
    assessment: Assessment
    standing: Standing
    family: Family

    def number(self, value: float | None, unit: str, dimension: str) -> str:
        """A value [SI] as a plain number in a unit; empty where there is none."""
        if value is None:
            return ""
        return format_number(in_unit(value, unit, dimension), DIGITS.get(unit, 6)).replace("\u2212", "-")


def force_unit(told: Told) -> str:
    """The unit of preloads."""
    return "kN" if told.family == "mm" else "lbf"


def typed(amount: Typed) -> tuple[str, str]:
    """An amount as it was typed, and its unit."""
    return amount.typed, amount.unit


def plain(value: float) -> str:
    """A number without an exponent."""
    return format(Decimal(repr(value)), "f")


def yes(answer: bool) -> str:  # noqa: FBT001 - a word for it
    """Yes or no."""
    return "yes" if answer else "no"


def moment(moment: datetime | None) -> str:
    """A moment as ISO 8601 writes it; empty where there is none."""
    return moment.isoformat() if moment is not None else ""
