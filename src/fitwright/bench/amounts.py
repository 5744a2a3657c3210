"""Amounts that a person types into a form or behind an option, read once; and said again as typed."""

from __future__ import annotations

from fitwright.records.kinds import Typed
from fitwright.units import definition_of, format_value, parse_quantity


def amount(text: str, unit: str, *, dimension: str | None = None) -> float:
    """An amount in SI; a number without a unit is in the one given, and any other must be of its kind."""
    wanted = dimension or definition_of(unit).dimension
    return parse_quantity(text, default_unit=unit, dimension=wanted).si


def optional(text: str | None, unit: str, *, dimension: str | None = None) -> float | None:
    """An amount in SI, where one was given."""
    return None if text is None else amount(text, unit, dimension=dimension)


def amount_words(amount: Typed) -> str:
    """An amount as it was typed, with its unit."""
    return format_value(amount.si, amount.unit, amount.decimals)
