"""What was given, before it is read: numbers, words, lists written as one text."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from fitwright.sums.errors import InputError
from fitwright.units import Quantity, QuantityError, parse_quantity


class Repeated:
    """Stands for a key that one JSON object has twice: which value was meant cannot be known."""


def finite(raw: object, place: str, wanted: str) -> float:
    """A finite number, or an error that says what is wanted."""
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        raise InputError(place, f"{kind_of(raw)} is no number; write {wanted}")
    try:
        number = float(raw)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise InputError(place, f"not a finite number; write {wanted}")
    return number


def items_in(text: str) -> list[str]:
    """The items of a list written as one text.

    >>> items_in("0.05 mm; 0.10 mm")
    ['0.05 mm', '0.10 mm']
    """
    return [item.strip() for item in re.split(r"[;\n]", text) if item.strip()]


def plain(text: str) -> str:
    """A word without regard to capitals, hyphens and underscores."""
    return " ".join(text.casefold().replace("-", " ").replace("_", " ").split())


def quantity(text: str, place: str, dimension: str | None = None) -> Quantity:
    """An amount of which the unit matters as well, or an error that says what to write."""
    try:
        return parse_quantity(text, dimension=dimension)
    except QuantityError as error:
        raise InputError(place, str(error)) from None


def kind_of(raw: object) -> str:
    """What was given, in a word, for an error."""
    if raw is None:
        return "nothing"
    if isinstance(raw, bool):
        return "true" if raw else "false"
    if isinstance(raw, str):
        return f'"{raw[:40]}"'
    if isinstance(raw, Mapping):
        return "an object"
    return "a list" if isinstance(raw, list | tuple) else f"{raw}"[:40]
