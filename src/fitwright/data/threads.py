"""Threads by their designation: `M10x1.25`, `M6`, `1/2-20 UNF`, `#10-24`, `3/8 BSF`, `M10 LH`."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, Final

from fitwright.data.errors import UnknownNameError
from fitwright.physics.fasteners.thread import Thread, ThreadForm, thread_by_sizes

_INCH: Final = Fraction(254, 10000)
_LEFT: Final = re.compile(r"[\s-]*(?:LH|left[\s-]?hand(?:ed)?)\s*$", re.IGNORECASE)
_TOLERANCE: Final = re.compile(r"[\s-]+(?:[4-8][gGhHeE](?:[4-8][gGhHeE])?|[123][AB])$")
_METRIC: Final = re.compile(r"M\s*(\d+(?:\.\d+)?)(?:\s*[x*\u00d7-]\s*(\d*\.?\d+))?(?:\s*mm)?", re.IGNORECASE)
_INCHES: Final = re.compile(
    r"(?P<size>(?:#|no\.?\s*|number\s*)?\d+(?:/\d+)?)\s*(?:in\b|inch\b|\")?"
    r"(?:\s*[-x\u00d7\s]\s*(?P<threads>\d+)(?:\s*tpi)?)?\s*[-,]?\s*(?P<series>[A-Za-z]+)?",
    re.IGNORECASE,
)
_EXAMPLES: Final = ("M10x1.25", "M6", "1/2-20 UNF", "3/8 BSF")
_SERIES: Final = {"WHITWORTH": "BSW", "WHIT": "BSW", "NC": "UNC", "NF": "UNF", "NEF": "UNEF"}


@dataclass(frozen=True, slots=True)
class ListedThread:
    """One thread of the tables: as one writes it, its size and pitch [m], profile and source."""

    designation: str
    nominal_diameter: Fraction
    pitch: Fraction
    form: ThreadForm
    source: str


@cache
def listed_threads() -> Mapping[str, ListedThread]:
    """All threads by designation.

    >>> float(listed_threads()["M10x1.25"].pitch)
    0.00125
    """
    table = tomllib.loads(files("fitwright.data").joinpath("threads.toml").read_text(encoding="utf-8"))
    found = [*_metric_rows(table["metric"]), *_inch_rows(table["inch"])]
    return MappingProxyType({each.designation: each for each in found})


def thread_of(designation: str) -> Thread:
    """The thread that somebody wrote.

    >>> thread_of("m10 x 1.25 LH").left_hand, thread_of("M6").pitch, thread_of("1/2-20").designation
    (True, 0.001, '1/2-20 UNF')

    Raises
    ------
    UnknownNameError
        If there is none, with the nearest designations.
    """
    text = " ".join(designation.replace(",", ".").replace("\u201d", '"').split())
    bare = _LEFT.sub("", text)
    named = _found(_TOLERANCE.sub("", bare))
    if named is None:
        raise UnknownNameError("thread", designation.strip(), listed_threads(), _near(bare))
    hand = " LH" if bare != text else ""
    return thread_by_sizes(
        float(named.nominal_diameter),
        float(named.pitch),
        form=named.form,
        left_hand=bool(hand),
        designation=f"{named.designation}{hand}",
    )


def _found(text: str) -> ListedThread | None:
    if metric := _METRIC.fullmatch(text):
        return _metric(metric[1], metric[2])
    if inches := _INCHES.fullmatch(text):
        return _inch(inches["size"], inches["threads"], inches["series"])
    return None


def _metric(size: str, pitch: str | None) -> ListedThread | None:
    diameter = Fraction(size) / 1000
    of_size = [
        each
        for each in listed_threads().values()
        if each.form is ThreadForm.ISO_METRIC and each.nominal_diameter == diameter
    ]
    if pitch is None:
        return of_size[0] if of_size else None
    return next((each for each in of_size if each.pitch == Fraction(pitch) / 1000), None)


def _inch(size: str, threads: str | None, series: str | None) -> ListedThread | None:
    """The thread of a size, told apart by its number to the inch, its series, or both."""
    wanted = None if series is None else _SERIES.get(series.upper(), series.upper())
    name = re.sub(r"^(?:no\.?|number)\s*", "#", size, flags=re.IGNORECASE)
    # 10-24 is the number 10 screw; ten inches it is not.
    names = {name, f"#{name}"} if "/" not in name else {name}
    # A size and a number without a series are how one writes a unified thread.
    forms = {ThreadForm.UNIFIED} if wanted is None else {ThreadForm.UNIFIED, ThreadForm.WHITWORTH}
    found = [
        each
        for each in listed_threads().values()
        if each.form in forms
        and each.designation.partition("-")[0] in names
        and wanted in (None, each.designation.rpartition(" ")[2])
        and threads in (None, str(round(_INCH / each.pitch)))
    ]
    sizes = {(each.nominal_diameter, each.pitch, each.form) for each in found}
    return found[0] if len(sizes) == 1 else None


def _near(text: str) -> list[str]:
    """The designations of the size that was written or of the nearest, else an example of each series."""
    size = re.match(r"M\s*(\d+(?:\.\d+)?)|(#?\d+(?:/\d+)?)", text, re.IGNORECASE)
    if size is None:
        return list(_EXAMPLES)
    if size[2]:
        starts = (f"{size[2]}-", f"#{size[2]}-")
        return [each for each in listed_threads() if each.startswith(starts)] or list(_EXAMPLES)
    metric = [each for each in listed_threads().values() if each.form is ThreadForm.ISO_METRIC]
    wanted = Fraction(size[1]) / 1000
    nearest = min((each.nominal_diameter for each in metric), key=lambda diameter: abs(diameter - wanted))
    return [each.designation for each in metric if each.nominal_diameter == nearest]


def _metric_rows(table: Mapping[str, Any]) -> list[ListedThread]:
    return [
        ListedThread(
            # The coarse pitch, which is named first, goes without saying.
            f"M{size}" if number == 0 else f"M{size}x{pitch}",
            Fraction(size) / 1000,
            Fraction(str(pitch)) / 1000,
            ThreadForm.ISO_METRIC,
            table["source"],
        )
        for size, pitches in table["pitches"].items()
        for number, pitch in enumerate(pitches)
    ]


def _inch_rows(table: Mapping[str, Any]) -> list[ListedThread]:
    return [
        ListedThread(
            f"{size}-{threads} {series}",
            _inch_size(size),
            _INCH / threads,
            ThreadForm(row["form"]),
            row["source"],
        )
        for series, row in table.items()
        for size, threads in row["threads"].items()
    ]


def _inch_size(size: str) -> Fraction:
    """A size in metres; numbered screws start at 0.060 in and grow by 0.013 in."""
    if size.startswith("#"):
        return (Fraction(60, 1000) + Fraction(13, 1000) * int(size[1:])) * _INCH
    return Fraction(size) * _INCH
