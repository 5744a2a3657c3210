"""A sheet's text looked at: its problems by line, or what is in it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from markupsafe import Markup

from fitwright.drawing.engine_section import engine_section
from fitwright.formats.sheet import SheetProblem, check_sheet
from fitwright.model.sheet import Sheet

MOST_PROBLEMS: Final = 100
"""So many problems are listed; mending these shows the others."""


@dataclass(frozen=True, slots=True)
class ProblemLine:
    """One problem of a text: where it is, what is wrong, what to write instead."""

    line: int
    column: int
    place: str
    what: str
    accepted: str


@dataclass(frozen=True, slots=True)
class Findings:
    """What looking at a text found. `counts` says what is in a sound sheet, and is empty for others."""

    counts: str
    problems: tuple[ProblemLine, ...]
    more: int


@dataclass(frozen=True, slots=True)
class Station:
    """A station, and how many fits and dimensions are taken there."""

    title: str
    words: str


def looked_at(text: str) -> tuple[Sheet | None, Findings]:
    """The sheet in a text, and what was found."""
    sheet, problems = check_sheet(text, name="sheet")
    if sheet is not None:
        return sheet, Findings(counts_of(sheet), (), 0)
    shown = tuple(map(_line, problems[:MOST_PROBLEMS]))
    return None, Findings("", shown, len(problems) - len(shown))


def counts_of(sheet: Sheet) -> str:
    """How much is in a sheet."""
    counts = {"fit": len(sheet.fits), "dimension": len(sheet.dimensions), "station": len(sheet.stations)}
    return ", ".join(_counted(number, thing) for thing, number in counts.items())


def _counted(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def stations_of(sheet: Sheet) -> tuple[Station, ...]:
    """The stations of a sheet, in the order of the job."""
    return tuple(
        Station(
            station.title,
            f"{_counted(len(sizes), 'size')}, {_counted(sum(len(each.places) for each in sizes), 'place')}",
        )
        for station in sheet.stations.values()
        for sizes in [[sheet.dimensions[name] for name in station.order]]
    )


@lru_cache(maxsize=16)
def drawn(text: str) -> Markup:
    """The section of the engine without its stations, of which nothing is judged yet; drawn once."""
    sheet, _ = check_sheet(text)
    if sheet is None:
        return Markup()
    bare = replace(sheet, stations={})
    return Markup(engine_section(bare, {}))  # noqa: S704  (our own drawing, all text in it escaped)


def _line(problem: SheetProblem) -> ProblemLine:
    return ProblemLine(problem.line, problem.column, problem.place, problem.what, problem.accepted)
