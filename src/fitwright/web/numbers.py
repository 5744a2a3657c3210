"""Whole numbers in addresses and forms, of entries, rows, labels: anybody may type anything there."""

from __future__ import annotations

from typing import Final

MOST_DIGITS: Final = 15
"""Nothing that is counted here has a number as long; the record's own end at 18 digits."""


def whole_number(text: str) -> int | None:
    """The number that a text is; None where it is none, or longer than any that is meant."""
    return int(text) if text.isdecimal() and len(text) <= MOST_DIGITS else None
