"""A reading of a first start in one line: speed, oil temperature, gauge, perhaps a time, perhaps words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from fitwright.bench.errors import CannotEnterError
from fitwright.units import Family, QuantityError, parse_quantity

_IN_ORDER: Final = (("speed", "angular_speed"), ("temperature", "temperature"), ("gauge", "pressure"))
_SECONDS: Final = re.compile(r"\d+(?:[.,]\d+)?(?:s|sec|seconds?)")
_NUMBER: Final = re.compile(r"[+−-]?[\d.,]")

EXAMPLES: Final[Mapping[Family, str]] = {"mm": "900 42 3.9 warm", "inch": "900 108 57 warm"}


@dataclass(frozen=True, slots=True)
class LineTyped:
    """The texts of one line; `seconds` and `step` are empty where they were not typed."""

    speed: str
    temperature: str
    gauge: str
    seconds: str = ""
    step: str = ""


def read_line(text: str) -> LineTyped:
    """The amounts of a line in their order, each with its unit if one was typed, then the rest.

    Raises
    ------
    CannotEnterError
        If the line has fewer than three amounts.

    Examples
    --------
    >>> read_line("900 42 3.9 6s reference idle")
    LineTyped(speed='900', temperature='42', gauge='3.9', seconds='6s', step='reference idle')
    >>> read_line("2500 rpm 212 F 57psi").gauge
    '57psi'
    """
    words = text.split()
    found: dict[str, str] = {}
    for name, dimension in _IN_ORDER:
        if not words or _NUMBER.match(words[0]) is None:
            wrong = f'"{text.strip()[:60]}" has no {_MISSING[name]}'
            raise CannotEnterError(wrong, "type speed, oil temperature and gauge in a line, ? for help")
        found[name] = words.pop(0)
        if words and _is_unit(words[0], dimension):
            found[name] += f" {words.pop(0)}"
    seconds = ""
    if words and _SECONDS.fullmatch(words[0]):
        seconds = words.pop(0)
    elif len(words) > 1 and _SECONDS.fullmatch(words[0] + words[1]):
        seconds = f"{words.pop(0)} {words.pop(0)}"
    return LineTyped(found["speed"], found["temperature"], found["gauge"], seconds, " ".join(words))


_MISSING: Final = {"speed": "speed", "temperature": "oil temperature", "gauge": "gauge reading"}


def _is_unit(word: str, dimension: str) -> bool:
    """Whether a word that follows a number is its unit."""
    if _NUMBER.match(word) is not None:
        return False
    try:
        parse_quantity(f"1 {word}", dimension=dimension)
    except QuantityError:
        return False
    return True
