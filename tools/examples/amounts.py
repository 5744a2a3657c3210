"""Amounts as they were typed at the bench."""

from __future__ import annotations

from decimal import Decimal

from fitwright.records.kinds import Typed
from fitwright.units import parse_quantity


def typed(text: str, unit: str | None = None) -> Typed:
    """An amount as typed, with its unit in the text or given."""
    found = parse_quantity(text, default_unit=unit)
    return Typed(typed=text, unit=found.unit, decimals=found.decimals, si=found.si)


def si(text: str) -> float:
    """The value of an amount in SI."""
    return parse_quantity(text).si


def plus(text: str, zero: str) -> str:
    """What a gauge shows for a size when it shows `zero` for nothing; decimals stay."""
    return str(Decimal(text) + Decimal(zero))


def digits(start: str, ends: str) -> tuple[str, ...]:
    """Sizes written down by their last digits: `digits("55.", "992 991")` are 55.992 and 55.991."""
    return tuple(start + end for end in ends.split())
