"""What a line means that is typed with the keys of a numeric keypad alone.

| typed | means |
| --- | --- |
| `92`, `55.992`, `+3`, `-12` | a reading (`short_entries` says which size) |
| `0.06+`, `0.06-`, `0.06+-` | a blade goes, does not go, drags; `4/1.5+` two blades together |
| `+`, `-`, `+-` | the same of the blade that is proposed |
| `*`, `*7` | on to the next place, without a reading; to place 7 |
| `*.`, `*.3` | on to the next station where something is left to read; to station 3 |
| `**` | not measured: asks why |
| `/`, `/92` | take the last entry back; 92 instead of the last reading |

Words work as well: `back`, `on`, `0.06 goes`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

_BLADE: Final = re.compile(r"(?P<blades>[^\s+\-*]*?)\s*(?P<sign>\+-|-\+|\+|-)")
_ANSWERS: Final = {"+": "goes", "-": "does not go", "+-": "drags", "-+": "drags"}
_TO_PLACE: Final = re.compile(r"\*\s*(?P<number>\d{1,4})")
_TO_STATION: Final = re.compile(r"\*\s*\.\s*(?P<number>\d{1,3})?")


@dataclass(frozen=True, slots=True)
class Entered:
    """A reading: a size in short or in full, or a blade in words."""

    text: str


@dataclass(frozen=True, slots=True)
class BladeDid:
    """What a blade did; without blades named, the one proposed."""

    blades: str
    answer: str


@dataclass(frozen=True, slots=True)
class On:
    """On to another place without a reading: the next one, or the one of that number."""

    number: int | None = None


@dataclass(frozen=True, slots=True)
class ToStation:
    """On to another station: the next one where something is left to read, or the one of that number."""

    number: int | None = None


@dataclass(frozen=True, slots=True)
class TakeBack:
    """The last entry is taken back; with a text, that reading is corrected to it."""

    instead: str = ""


@dataclass(frozen=True, slots=True)
class Because:
    """The dimension is not measured; why is still to be said."""


Line = Entered | BladeDid | On | ToStation | TakeBack | Because


def read_line(text: str, *, by_blades: bool = False) -> Line | None:
    """What a line means; None for an empty one. A sign alone or behind a number is a blade's answer.

    At a place that is read by a gauge (`by_blades` false) a number with a sign behind it is left to
    whoever reads sizes.
    """
    text = text.strip()
    if not text:
        return None
    command = _command(text)
    if command is not None:
        return command
    blade = _BLADE.fullmatch(text) if by_blades else None
    if blade is not None:
        return BladeDid("+".join(filter(None, blade["blades"].split("/"))), _ANSWERS[blade["sign"]])
    return Entered(text)


def _command(text: str) -> Line | None:
    if text in ("*", "on"):
        return On()
    if text == "**":
        return Because()
    if text[0] == "/" or text in ("back", "undo"):
        return TakeBack(text[1:].strip() if text[0] == "/" else "")
    to_station = _TO_STATION.fullmatch(text)
    if to_station is not None:
        return ToStation(int(to_station["number"]) if to_station["number"] else None)
    to_place = _TO_PLACE.fullmatch(text)
    return On(int(to_place["number"])) if to_place is not None else None
