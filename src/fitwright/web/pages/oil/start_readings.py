"""Readings of a first start on the page: each held against the band of its own speed and warmth."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.results import Band, PointState, Prediction
from fitwright.bench.context import Bench
from fitwright.bench.first_start_branches import Stands, outside_words, stands
from fitwright.bench.first_start_view import PressureLine, pressure_lines
from fitwright.drawing.charts.shown import StartReading
from fitwright.units.families import Family
from fitwright.web.addresses import oil_address, record_address
from fitwright.web.pages.oil.asked import OilQuestion
from fitwright.web.pages.oil.telling import Teller

MOST_HELD: Final = 24
"""So many readings are held against bands of their own, those entered last."""

NOT_HELD: Final = "not held against the band: it was read on another oil"


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """One reading: where, what it came to, the band there, how it stands to it, and where to look."""

    number: int
    where: str
    pressure: str
    typed: str
    band: str
    stands: str
    outside: bool
    look: tuple[str, ...]
    caution: str
    record: str
    correct: str


@dataclass(frozen=True, slots=True)
class Started:
    """The readings of a build with what is asked of the prediction for them."""

    lines: tuple[PressureLine, ...]
    held: tuple[PressureLine, ...]

    @classmethod
    def of(cls, bench: Bench, oil: str) -> Started:
        """The readings that count; those on the oil that the build is filled with are held against bands."""
        lines = pressure_lines(bench)
        mine = [each for each in lines if not each.oil or each.oil == oil]
        mine.sort(key=lambda each: each.entry.seq)
        return cls(lines, tuple(mine[-MOST_HELD:]))

    @property
    def points(self) -> tuple[OilPoint, ...]:
        """The points at which bands are asked for."""
        return tuple(OilPoint("first start", each.angular_speed, each.oil_temperature) for each in self.held)

    def marks(self) -> tuple[StartReading, ...]:
        """The marks on the chart, numbered as the lines are."""
        return tuple(
            StartReading(
                each.angular_speed,
                each.oil_temperature,
                each.gauge_reading,
                each.gauge_reading - each.gauge_pressure,
                each.body.step or "",
            )
            for each in self.lines
        )


def reading_lines(
    question: OilQuestion, started: Started, measured: Prediction | None, *, banded: bool
) -> tuple[ReadingLine, ...]:
    """Every reading, by oil temperature, then speed."""
    points = _points(question, started, measured)
    return tuple(_lines(question, started.lines, points, banded=banded))


def _points(question: OilQuestion, started: Started, measured: Prediction | None) -> dict[str, PointState]:
    """The points of the prediction at each reading, by entry."""
    if measured is None or not measured.points:
        return {}
    mine = measured.points[len(question.slugs) + len(question.also) :]
    return {each.entry.id: point for each, point in zip(started.held, mine, strict=False)}


def _lines(
    question: OilQuestion, lines: Sequence[PressureLine], points: dict[str, PointState], *, banded: bool
) -> Iterator[ReadingLine]:
    family, circuit = question.family, question.desk.circuit
    teller = Teller(family)
    for number, each in enumerate(lines, start=1):
        point = points.get(each.entry.id)
        band = point.gauge_pressure if point is not None else Band(None)
        look = outside_words(each, band, circuit) if circuit is not None else ()
        stands, outside = _stands(each, point, banded=banded)
        yield ReadingLine(
            number=number,
            where=_where(teller, each),
            pressure=teller.reader.pressure(Band(each.gauge_pressure)),
            typed=each.words,
            band=_band(teller, band),
            stands=stands,
            outside=outside,
            look=look,
            caution=each.caution,
            record=record_address(question.code, entry=each.entry.seq),
            correct=_correct(question, each, family),
        )


def _where(teller: Teller, line: PressureLine) -> str:
    reader = teller.reader
    return f"{reader.speed(line.angular_speed)}, oil {reader.temperature(line.oil_temperature)}"


def _correct(question: OilQuestion, line: PressureLine, family: Family) -> str:
    return oil_address(question.code, family, "", {"correct": line.entry.id}, anchor="first-start")


def _band(teller: Teller, band: Band) -> str:
    if band.best is None:
        return ""
    edges = teller.reader.edges(band)
    best = teller.reader.pressure(band)
    return f"{best} predicted, band {edges}" if edges else f"{best} predicted"


def _stands(line: PressureLine, point: PointState | None, *, banded: bool) -> tuple[str, bool]:
    if point is None:
        return NOT_HELD, False
    band = point.gauge_pressure
    if band.best is None:
        return "no prediction there: not converged", False
    found = stands(line, band)
    if found is None:
        return ("no band there" if banded else "the band is being worked out"), False
    return found.value, found in {Stands.BELOW, Stands.ABOVE}
