"""What oil pressure is to be expected, with bands, and what was read when the engine first turned."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.assess.oil.chosen import card_points, card_speeds, card_temperatures
from fitwright.assess.oil.points import named_points
from fitwright.assess.oil.results import Band, PointState, Prediction
from fitwright.assess.oil.words import BAND_MEANS, VALIDATED
from fitwright.bench.first_start_branches import outside_words, stands
from fitwright.bench.first_start_view import PressureLine
from fitwright.dossier.sections.teller import Teller, counted, listed
from fitwright.dossier.tree import Block, Column, Drawing, Heading, Points, Section, Table, Words
from fitwright.drawing.charts.costs import costs
from fitwright.drawing.charts.pressure_speed import pressure_speed
from fitwright.drawing.charts.shown import StartReading
from fitwright.drawing.oil_words import (
    CARD_CAUTION,
    CARD_LINES,
    NOBODY,
    film_words,
    findings_together,
    oil_words,
    stop_words,
)
from fitwright.model.circuit import Circuit

FILM_SAYS = "A film is for the load stated; it is no load or speed limit."
MOST_COSTS = 12
MOST_UNMEASURED = 12


def oil(teller: Teller) -> Section:
    """The chapter of the oil system before the first start."""
    found = teller.known.prediction
    circuit = teller.known.oil.circuit
    if found.problem or circuit is None:
        return Section(
            "oil", "Oil pressure to be expected", (Words(found.problem or "Nothing is predicted."),)
        )
    blocks = [*_rests_on(teller, found), *_card(teller, found, circuit), *_lines(teller, found)]
    blocks += list(_chart(teller, found))
    if teller.complete:
        blocks += list(_points(teller, found, circuit))
        blocks += [Points(found.not_modelled), Words(VALIDATED, "small")]
    return Section("oil", f"Oil pressure to be expected: {found.title}", tuple(blocks))


def _rests_on(teller: Teller, found: Prediction) -> Iterator[Block]:
    for words in found.cautions:
        yield Words(words, "caution")
    if found.oil is not None:
        yield Words(f"Oil: {found.oil.title}. {oil_words(found.oil, teller.asked.units)}.")
    count, every = len(found.unmeasured), len(found.sizes)
    if not count:
        yield Words(f"It rests on {every} sizes, all measured.", "small")
        return
    names = listed((each.title for each in found.unmeasured), None if teller.complete else MOST_UNMEASURED)
    yield Words(f"It rests on {every} sizes; {count} of them not measured: {names}.", "small")


def _card(teller: Teller, found: Prediction, circuit: Circuit) -> Iterator[Block]:
    across = len(card_temperatures(circuit))
    first = len(named_points(circuit))
    states = found.points[first : first + len(card_points(circuit))]
    warm = [f"oil {teller.oil_reader.temperature(each)}" for each in card_temperatures(circuit)]
    rows = tuple(
        (
            teller.oil_reader.speed(speed),
            *(_cell(teller, each) for each in states[row * across : (row + 1) * across]),
        )
        for row, speed in enumerate(card_speeds(circuit))
    )
    columns = (Column("Crank", 1.0, mono=True), *(Column(each, 1.3, mono=True) for each in warm))
    note = f"Best estimate, in brackets its 95 % band. {BAND_MEANS}"
    yield Table("Expected pressure at the gauge", columns, rows, note)


def _cell(teller: Teller, point: PointState) -> str:
    band = point.gauge_pressure
    if band.best is None:
        return "no number: not converged"
    edges = teller.oil_reader.edges(band)
    return f"{teller.oil_reader.pressure(band)} ({edges})" if edges else teller.oil_reader.pressure(band)


def _lines(teller: Teller, found: Prediction) -> Iterator[Block]:
    """What stops a first start: stated by people, never predicted."""
    stated = [each.seconds for each in found.stops if each.seconds is not None]
    seconds = f"{min(stated):g}" if stated else "the engine maker's"
    lines = [each.format(seconds=seconds) for each in CARD_LINES]
    lines += [f"{stop_words(each, teller.oil_reader)}: {each.who or NOBODY}" for each in found.stops]
    crossed = [each.crossed for each in found.stops if each.crossed]
    yield Heading("What stops a first start")
    yield Points((*lines, *crossed))
    yield Words(CARD_CAUTION, "caution")


def _chart(teller: Teller, found: Prediction) -> Iterator[Block]:
    readings = tuple(
        StartReading(
            each.angular_speed,
            each.oil_temperature,
            each.gauge_reading,
            each.gauge_reading - each.gauge_pressure,
            each.body.step or "",
        )
        for each in (teller.known.start_lines if teller.complete else ())
    )
    picture = pressure_speed(
        found.curves, family=teller.asked.units, width=780.0, stops=found.stops, readings=readings
    )
    share = 1.0 if teller.complete else 0.55
    yield Drawing(picture.svg, picture.label, "Pressure at the gauge over the speed of the crank", share)
    yield from (Words(each) for each in found.falls)
    if teller.complete and found.costs:
        picture = costs(found.costs, family=teller.asked.units, width=780.0, most=MOST_COSTS)
        yield Drawing(picture.svg, picture.label, "What each size costs of the pressure at hot idle", 1.0)


def _points(teller: Teller, found: Prediction, circuit: Circuit) -> Iterator[Block]:
    """Pressure and smallest film at each point that the sheet names; every film at the first of them."""
    named = found.points[: len(named_points(circuit))]
    columns = (
        Column("Point", 1.6),
        Column("Crank, oil", 1.7, mono=True),
        Column("At the gauge", 1.7, mono=True),
        Column("Smallest film", 1.0, mono=True),
        Column("In", 1.2),
    )
    yield Table(
        "Points that the sheet names", columns, tuple(_point(teller, each) for each in named), FILM_SAYS
    )
    if named and named[0].bearings:
        films = tuple(
            (each.title, film_words(each, teller.oil_reader), teller.oil_reader.flow(each.flow.best))
            for each in named[0].bearings
        )
        heads = (Column("Bearing", 2.0), Column("Film", 2.0, mono=True), Column("Flow", 1.0, mono=True))
        yield Table(f"Films, {named[0].title}", heads, films, FILM_SAYS)
    together = tuple(f"{where}: {words}" for where, words in findings_together(named))
    if together:
        yield Points(together)


def _point(teller: Teller, point: PointState) -> tuple[str, ...]:
    reader = teller.oil_reader
    films = [each for each in point.bearings if each.film_thickness.best is not None]
    least = min(films, key=lambda each: each.film_thickness.best or 0.0) if films else None
    where = f"{reader.speed(point.angular_speed)}, {reader.temperature(point.oil_temperature)}"
    film = film_words(least, reader) if least is not None else "none"
    return point.title, where, _cell(teller, point), film, least.title if least is not None else "–"


def first_start(teller: Teller) -> Section | None:
    """The chapter of the readings of the first start; none where nothing was read."""
    lines = teller.known.start_lines
    if not lines:
        return None
    found, circuit = teller.known.prediction, teller.known.oil.circuit
    points = _start_points(found, circuit, len(lines))
    rows: list[tuple[str, ...]] = []
    look: dict[str, list[str]] = {}
    for line, point in zip(lines, points, strict=True):
        band = point.gauge_pressure if point is not None else Band(None)
        place = _place(teller, line)
        stand = stands(line, band)
        read = teller.oil_reader.pressure(Band(line.gauge_pressure))
        edges = teller.oil_reader.edges(band)
        expected = f"{teller.oil_reader.pressure(band)} ({edges})" if edges else "–"
        told = (place, read, expected, stand.value if stand is not None else "no band there")
        rows.append((*told, line.words) if teller.complete else told)
        outside = outside_words(line, band, circuit) if circuit is not None else ()
        for words in (*outside, *((line.caution,) if line.caution else ())):
            look.setdefault(words, []).append(place)
    columns = (
        Column("Where", 1.6),
        Column("Read", 0.9, mono=True),
        Column("Expected", 1.7, mono=True),
        Column("Stands", 1.3),
        *((Column("As entered", 2.6),) if teller.complete else ()),
    )
    count = counted(len(lines), "reading", "readings")
    blocks: list[Block] = [
        Words(f"{count}, each held against the band of its own speed and oil temperature."),
        Table("Pressures as the engine turned", columns, tuple(rows)),
    ]
    if look:
        blocks.append(Points(tuple(f"{'; '.join(places)}: {words}" for words, places in look.items())))
    return Section("first-start", "First start", tuple(blocks))


def _place(teller: Teller, line: PressureLine) -> str:
    speed = teller.oil_reader.speed(line.angular_speed)
    return f"{speed}, oil {teller.oil_reader.temperature(line.oil_temperature)}"


def _start_points(found: Prediction, circuit: Circuit | None, count: int) -> Sequence[PointState | None]:
    if circuit is None or not found.points:
        return [None] * count
    return found.points[-count:]
