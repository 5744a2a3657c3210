"""The parts of the page Oil that follow from a prediction: what answers at once, and what follows later."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fitwright.assess.oil.results import PointState, Prediction
from fitwright.assess.oil.words import BAND_MEANS
from fitwright.assess.results import State
from fitwright.drawing.charts.shown import StartReading
from fitwright.drawing.oil_figures import OilReader
from fitwright.drawing.oil_words import stop_words
from fitwright.web.addresses import fit_address, measure_address
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.oil.asked import NOTHING_MOVED, OilQuestion
from fitwright.web.pages.oil.figures import Held, headline, tables
from fitwright.web.pages.oil.pictures import (
    Pictures,
    budget_pictures,
    circuit_pictures,
    cost_pictures,
    fault_pictures,
    film_pictures,
    pressure_pictures,
)
from fitwright.web.pages.oil.telling import FigureLine, FigureTable, Teller
from fitwright.web.pages.oil.worked import Worked

AS_MEASURED = "the build as measured"
FIRST = "A"


@dataclass(frozen=True, slots=True)
class Compared:
    """One operating point: as measured, by the first what-if, by the second, and what lies between."""

    name: str
    measured: str
    first: str
    second: str
    change: str


@dataclass(frozen=True, slots=True)
class StopLine:
    """A stop value in words, who says so, and what it means that the prediction lies below it."""

    words: str
    who: str
    crossed: str


@dataclass(frozen=True, slots=True)
class NowPart:
    """What answers at once: figures and pressure over speed, with what they are held against.

    `waits` is the address at which the bands come, empty where they are here; `again` how soon to ask.
    """

    address: str
    changed: str
    against: str
    headline: FigureLine
    converged: bool
    band_means: str
    waits: str
    pressure: Pictures
    findings: tuple[str, ...]
    stops: tuple[StopLine, ...]
    tables: tuple[FigureTable, ...]
    reset: str
    keep: str
    drop: str
    first_words: str
    compared: tuple[Compared, ...]


@dataclass(frozen=True, slots=True)
class WorkingLink:
    """A size that costs something, with the way to its working."""

    title: str
    address: str


@dataclass(frozen=True, slots=True)
class RestPart:
    """What follows when nothing moves: the circuit, the budget, the films, what each size and fault costs."""

    where: str
    circuit: Pictures
    budget: Pictures
    films: Pictures | None
    cycle: str
    costs: Pictures | None
    costs_where: str
    workings: tuple[WorkingLink, ...]
    faults: Pictures | None
    filling_limit: str


def now_part(question: OilQuestion, found: Worked, readings: tuple[StartReading, ...], waits: str) -> NowPart:
    """What answers at once."""
    assert found.shown is not None  # noqa: S101 - asked only where there is something
    assert found.measured is not None  # noqa: S101
    held = _held(question, found)
    shown, family = found.shown, question.family
    point = shown.points[question.row]
    moved = not question.moved.is_nothing
    return NowPart(
        address=question.address(),
        changed=question.words() if moved else "",
        against=held.against if held.base is not None else "",
        headline=headline(question, held, waits=bool(waits)),
        converged=point.converged,
        band_means=BAND_MEANS if found.banded else "",
        waits=waits,
        pressure=_pressure(question, found, held, readings),
        findings=(*point.findings, *shown.falls),
        stops=tuple(_stops(shown, OilReader(family))),
        tables=tables(question, held, waits=bool(waits)),
        reset=question.address(moved=NOTHING_MOVED, keeps=False) if moved or found.first else "",
        keep=question.address(held=question.moved),
        drop=question.address(keeps=False) if found.first is not None else "",
        first_words=_first_words(question),
        compared=tuple(_compared(question, found)) if found.first is not None else (),
    )


def _held(question: OilQuestion, found: Worked) -> Held:
    assert found.shown is not None  # noqa: S101 - asked only where there is something
    if found.first is not None:
        return Held(found.shown, found.first, FIRST)
    if question.moved.is_nothing:
        return Held(found.shown, None, "")
    return Held(found.shown, found.measured, AS_MEASURED)


def _pressure(
    question: OilQuestion, found: Worked, held: Held, readings: tuple[StartReading, ...]
) -> Pictures:
    base = held.base or held.shown
    point = held.shown.points[question.row]
    return pressure_pictures(
        base,
        point,
        question.family,
        what_if=held.shown if held.base is not None and base is not held.shown else None,
        solid=f"what-if {FIRST}" if found.first is not None else AS_MEASURED,
        stops=held.shown.stops,
        readings=readings,
    )


def _first_words(question: OilQuestion) -> str:
    if question.held_moved is None:
        return ""
    return AS_MEASURED if question.held_moved.is_nothing else question.words(question.held_moved)


def _compared(question: OilQuestion, found: Worked) -> Iterator[Compared]:
    assert found.shown is not None  # noqa: S101 - asked only where there is something
    assert found.measured is not None  # noqa: S101
    assert found.first is not None  # noqa: S101
    teller = Teller(question.family)
    rows = zip(
        found.measured.points[: len(found.shown.points)],
        found.first.points,
        found.shown.points,
        strict=False,
    )
    for measured, first, second in rows:
        line = teller.pressure(second.title, second.gauge_pressure, first.gauge_pressure)
        reader = teller.reader
        before = (reader.pressure(measured.gauge_pressure), reader.pressure(first.gauge_pressure))
        yield Compared(line.name, *before, line.value, line.change)


def _stops(found: Prediction, reader: OilReader) -> Iterator[StopLine]:
    for each in found.stops:
        yield StopLine(stop_words(each, reader), each.who, each.crossed)


def rest_part(question: OilQuestion, shown: Prediction, subjects: frozenset[str]) -> RestPart:
    """What follows when nothing moves."""
    point, family = shown.points[question.row], question.family
    reader = OilReader(family)
    limit = shown.filling_limit
    return RestPart(
        where=f"{reader.speed(point.angular_speed)}, oil {reader.temperature(point.oil_temperature)}",
        circuit=_circuit(question, point),
        budget=budget_pictures(point, family),
        films=film_pictures(point, family) if point.bearings else None,
        cycle=question.address("/cycle"),
        costs=cost_pictures(shown, family) if shown.costs else None,
        costs_where=shown.points[0].title,
        workings=tuple(_workings(question, shown, subjects)),
        faults=fault_pictures(shown, family) if shown.faults else None,
        filling_limit=reader.speed(limit) if limit is not None else "",
    )


def _circuit(question: OilQuestion, point: PointState) -> Pictures:
    assert question.desk.circuit is not None  # noqa: S101 - there is a prediction
    return circuit_pictures(question.desk.circuit, point, question.family, {})


def _workings(question: OilQuestion, shown: Prediction, subjects: frozenset[str]) -> Iterator[WorkingLink]:
    """The fits among the sizes that cost something, the costliest first; dimensions lead to their station."""
    stations = question.desk.case.sheet.stations
    seen: set[str] = set()
    for each in shown.costs:
        name = each.id.removeprefix("received ")
        if name in seen:
            continue
        seen.add(name)
        if name in subjects:
            yield WorkingLink(each.title, fit_address(question.code, name, State.CURRENT, question.family))
        elif each.station in stations and name in shown.sizes:
            where = measure_address(question.code, question.family, station=each.station or "")
            yield WorkingLink(each.title, where)


def point_choices(question: OilQuestion, shown: Prediction) -> tuple[Choice, ...]:
    """The named operating points as links."""
    return tuple(
        Choice(shown.points[row].title, question.address(at=slug), row == question.row)
        for row, slug in enumerate(question.slugs)
    )
