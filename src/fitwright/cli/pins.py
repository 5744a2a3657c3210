"""PINs typed without being shown; scripts give them in the environment or as lines of input."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from fitwright.cli.errors import UsageError

if TYPE_CHECKING:
    from fitwright.wiring import Shop

VARIABLE: Final = "FITWRIGHT_PIN"


def pins_for(shop: Shop, person: str) -> Mapping[str, str]:
    """The PIN of whoever signs, where it takes one: from the environment, typed, or a line of input."""
    from fitwright.bench.pins import has_pin, needs_pin

    if not needs_pin(shop.state, person) or not has_pin(shop.state, person):
        return {}  # without one that was set, the record says what comes first
    name = shop.state.people[person].body.name
    return {person: os.environ.get(VARIABLE) or typed_pin(f"PIN of {name}: ")}


def typed_pin(prompt: str) -> str:
    """A PIN typed without being shown; from a pipe its next line.

    Raises
    ------
    UsageError
        If there is no line.
    """
    if sys.stdin.isatty():
        from getpass import getpass

        return getpass(prompt).strip()
    line = sys.stdin.readline()
    if not line:
        raise UsageError(f"No PIN was given: set {VARIABLE}, or give it as a line of standard input.")
    return line.strip()
