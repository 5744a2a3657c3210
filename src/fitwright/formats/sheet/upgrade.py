"""Older format versions, raised one step at a time to the one that this program writes.

A step takes the raw document of its version and returns that of the next; the reader itself knows
the newest version only.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, Final

from fitwright.formats.sheet.document import FORMAT
from fitwright.model.problem import Problem

Step = Callable[[dict[str, Any]], dict[str, Any]]

STEPS: Final[Mapping[int, Step]] = MappingProxyType({})
"""The step out of each older version, by its number. Version 1 is the first."""


def version_problem(document: dict[str, Any], newest: int = FORMAT) -> Problem | None:
    """What is wrong with the format version that a document states, if anything."""
    version = document.get("format")
    write = f"write format = {newest}"
    if version is None:
        return Problem(("format",), "the format version is missing", f"{write} as the first line")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        return Problem(("format",), "this is no format version", write)
    if version > newest:
        what = f"this sheet is written in format {version}, and this fitwright reads up to format {newest}"
        return Problem(("format",), what, "install a newer fitwright")
    return None


def upgraded(
    document: dict[str, Any], steps: Mapping[int, Step] = STEPS, newest: int = FORMAT
) -> dict[str, Any]:
    """A document of a known version, raised to the newest."""
    for version in range(document["format"], newest):
        document = {**steps[version](document), "format": version + 1}
    return document
