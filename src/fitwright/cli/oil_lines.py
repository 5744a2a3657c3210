"""A prediction of the oil system as lines of text: what `check` says in short and `oil` in full."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from fitwright.assess.oil.results import Band, Cost, PointState, Prediction
from fitwright.assess.oil.sizes import KnownSize
from fitwright.assess.results import State, Verdict
from fitwright.cli.report import in_rows
from fitwright.drawing.charts.costs import NO_NUMBER, per_step, step_words
from fitwright.drawing.figures import MARKS
from fitwright.drawing.oil_figures import OilReader
from fitwright.drawing.oil_words import (
    NOBODY,
    findings_together,
    oil_words,
    size_words,
    stop_words,
    where_words,
)

COSTLIEST = 3
SAME = "the same"
AS_RECEIVED = ", as received"
RECEIVED = "received "
"""Begins the ids of costs that tell a size as received."""


def heading(out: Console, words: str) -> None:
    """A heading with a line of air above it."""
    out.print()
    out.print(Text(words, style="bold"))


def plain_table(*headings: str) -> Table:
    """A table without lines, indented by two."""
    table = Table(box=None, pad_edge=False, show_header=any(headings))
    for each in headings:
        table.add_column(each, overflow="fold")
    return table


def print_oil_used(out: Console, found: Prediction, reader: OilReader) -> None:
    """The oil that the prediction is for."""
    if found.oil is not None:
        out.print(f"{found.oil.title}: {oil_words(found.oil, reader.family)}.")


def print_pressures(
    out: Console,
    points: Sequence[PointState],
    reader: OilReader,
    base: Sequence[PointState] = (),
) -> None:
    """The pressure at the gauge at each point, with its band, and its difference to `base`."""
    changed = ("as measured", "change") if base else ()
    table = plain_table("", "", "at the gauge", "95 % band", *changed)
    for at, point in enumerate(points):
        band = point.gauge_pressure
        row = [
            f"  {point.title}",
            where_words(point, reader),
            reader.pressure(band),
            pressure_edges(band, reader),
        ]
        if base:
            before = base[at].gauge_pressure
            as_fine = Band(before.best, band.low, band.high)
            row += [reader.pressure(as_fine), change_words(band, before, reader)]
        table.add_row(*row)
    out.print(table)


def pressure_edges(band: Band, reader: OilReader) -> str:
    """The 95 % band with its unit; empty where it is not known."""
    edges = reader.edges(band)
    return f"{edges} {reader.pressure_unit}" if edges else ""


def change_words(band: Band, base: Band, reader: OilReader) -> str:
    """By how much a pressure differs from another; nothing where either has no number."""
    if band.best is None or base.best is None:
        return ""
    text = reader.change(band.best - base.best)
    return text if text.strip(f"0. {reader.pressure_unit}") else SAME


def print_stops(out: Console, found: Prediction, reader: OilReader, *, crossed_only: bool = False) -> None:
    """Stop values with who says so; what the prediction lies below is said first."""
    for each in sorted(found.stops, key=lambda one: not one.crossed):
        words = f"{stop_words(each, reader)}: {each.who or NOBODY}"
        if each.crossed:
            out.print(Text(f"  {MARKS[Verdict.OUTSIDE]} {each.crossed}", style="bold red"))
            out.print(f"    {words}")
        elif not crossed_only:
            out.print(f"  – {words}")


def findings(found: Prediction, points: Sequence[PointState]) -> list[str]:
    """What stands out, each once with where it holds."""
    return [*(f"{where}: {words}" for where, words in findings_together(points)), *found.falls]


def cost_words(each: Cost, reader: OilReader) -> str:
    """What one thing costs: solved anew, and by derivative."""
    said = []
    if each.difference is not None:
        said.append(f"{reader.change(each.difference)} against {each.against}")
    change = per_step(each, reader)
    if change is not None:
        said.append(f"{reader.change(change)} {step_words(each, reader)}")
    return "; ".join(said) or NO_NUMBER


def costliest(found: Prediction) -> list[Cost]:
    """What lowers the pressure most of all that is as it is now."""
    mine = [each for each in found.costs if not each.id.startswith(RECEIVED)]
    return [each for each in mine if each.difference is not None and each.difference < 0.0][:COSTLIEST]


def print_list(out: Console, title: str, lines: Sequence[str]) -> None:
    """Lines below what they are; without lines nothing."""
    if lines and title:
        out.print(title)
    for each in lines:
        out.print(f"  – {each}")


def unmeasured(sizes: Sequence[KnownSize], reader: OilReader) -> list[str]:
    """Sizes that are not measured, critical ones first, with what enters instead."""
    return in_rows(_unmeasured(sorted(sizes, key=lambda each: not each.critical), reader))


def _unmeasured(sizes: Iterable[KnownSize], reader: OilReader) -> Iterator[str]:
    for each in sizes:
        critical = " (critical)" if each.critical else ""
        yield f"{each.title}{critical}: {size_words(each, reader.family)}"


def rests_on_words(found: Prediction) -> str:
    """How many sizes it rests on, and how many of them are not measured."""
    every, open_ = len(found.sizes), len(found.unmeasured)
    rest = f"{open_} of them not measured" if open_ else "all measured"
    return f"It rests on {every} sizes, {rest}."


def print_cautions(out: Console, found: Prediction) -> None:
    """What whoever reads the figures must know."""
    for each in found.cautions:
        out.print(f"Caution: {each}")


def print_section(out: Console, found: Prediction, build: str, state: State, reader: OilReader) -> None:
    """The oil system in short, below the fits."""
    heading(out, f"{found.title}{AS_RECEIVED if state is State.AS_RECEIVED else ''}")
    if found.problem:
        out.print(found.problem)
        return
    print_oil_used(out, found, reader)
    print_pressures(out, found.points, reader)
    print_stops(out, found, reader, crossed_only=True)
    print_list(out, "What stands out:", findings(found, found.points))
    ranked = costliest(found)
    costs = [f"{each.title}: {cost_words(each, reader)}" for each in ranked]
    print_list(out, f"Costs most at {found.points[0].title}:", costs)
    print_list(out, f"Not measured ({len(found.unmeasured)}):", unmeasured(found.unmeasured, reader))
    print_cautions(out, found)
    as_asked = " --state as-received" if state is State.AS_RECEIVED else ""
    out.print(f"All of it: fitwright oil {build}{as_asked}")
