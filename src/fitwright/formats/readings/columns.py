"""The columns of a table of readings, and what each accepts."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import Final

ACCEPTED: Final[Mapping[str, str]] = MappingProxyType(
    {
        "part": "the code of the part it was read on; POSITION=CODE + POSITION=CODE for several; "
        "empty for the parts in place",
        "dimension": "the id of a dimension of the sheet, such as main.4.housing_bore",
        "place": "one of the dimension's places; may be empty where there is only one",
        "condition": "the condition that the sheet gives for the dimension, or empty",
        "value": "a number, or what a blade did: F2:0.06 goes | drags | does not go",
        "unit": "the unit of the value (mm, in, thou, bar, ...); empty for the gauge's own, and for blades",
        "instrument": "the code of an instrument of the shop; may be empty where only one will do",
        "setting": "the code of a setting of that instrument, or empty",
        "part_temperature": "degrees Celsius, or with a unit: 68 degF",
        "measured_by": "the code or name of a person of the shop",
        "typed_by": "the code or name of a person of the shop",
        "taken_at": "a date or a time as 2031-05-04 or 2031-05-04T09:30",
        "origin": "bench, paper, told or file",
        "note": "any words",
    }
)
"""What each column accepts, in the order of the file."""

COLUMNS: Final = tuple(ACCEPTED)
NEEDED: Final = ("dimension", "value")
DELIMITERS: Final = (",", ";", "\t")


def column_of(heading: str) -> str | None:
    """The column that a heading means: case, spaces and underscores do not matter."""
    name = re.sub(r"[\s_-]+", "_", heading.strip().lower())
    return name if name in ACCEPTED else None


def nearest(heading: str) -> str:
    """What a mistyped heading may mean, or all there are."""
    found = difflib.get_close_matches(heading.strip().lower(), COLUMNS, n=1, cutoff=0.6)
    return f"write {found[0]}" if found else f"use only: {', '.join(COLUMNS)}"


def delimiter_of(line: str) -> str:
    """What separates the headings of a CSV file: whatever makes most of them known."""
    return max(DELIMITERS, key=lambda each: _known(line.split(each)))


def _known(headings: Iterable[str]) -> int:
    return sum(column_of(heading.strip().strip('"')) is not None for heading in headings)


def missing(headings: Sequence[str]) -> list[str]:
    """The columns that a file cannot do without and that are not there."""
    found = {column_of(heading) for heading in headings}
    return [name for name in NEEDED if name not in found]
