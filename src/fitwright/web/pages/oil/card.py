"""The card of expected pressures, printed for the first start: rev/min by oil temperature, with blanks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.oil.chosen import card_points, card_speeds, card_temperatures
from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.oil.points import named_points
from fitwright.assess.oil.results import Band, PointState, Prediction
from fitwright.assess.oil.words import BAND_MEANS
from fitwright.drawing.oil_figures import OilReader
from fitwright.drawing.oil_words import stop_words
from fitwright.units.families import Family
from fitwright.web.addresses import oil_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.oil_work import OilAsked
from fitwright.web.pages.bench_forms import PaperChoice, paper_of, papers
from fitwright.web.pages.oil.known import OilLine, oil_line
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page

WAIT: Final = 1.0


@dataclass(frozen=True, slots=True)
class CardCell:
    """A pressure in the reader's unit and in the other one, with its band; `none` says why there is none."""

    best: str
    other: str
    band: str
    none: str


@dataclass(frozen=True, slots=True)
class CardRow:
    """One speed of the crank."""

    speed: str
    cells: tuple[CardCell, ...]


@dataclass(frozen=True, slots=True)
class CardStop:
    """A stop value with who says so."""

    words: str
    other: str
    who: str
    crossed: str


@dataclass(frozen=True, slots=True)
class CardContext:
    """The card as it is printed; `problem` says why there is none, `preparing` that it comes."""

    template: ClassVar[str] = "oil/card.html"
    frame: Frame
    back: str
    papers: tuple[PaperChoice, ...]
    title: str
    facts: str
    problem: str
    preparing: bool
    again: str
    unit: str
    other_unit: str
    temperatures: tuple[str, ...]
    rows: tuple[CardRow, ...]
    stops: tuple[CardStop, ...]
    seconds: str
    oil: OilLine | None
    rests_on: str
    band_means: str
    foot: str


async def show(request: Request) -> Response:
    """Answer with the card."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    family, paper = family_of(request, code), paper_of(request)
    return page(await run_in_threadpool(_context, hands, code, family, paper))


@dataclass(frozen=True, slots=True)
class _Card:
    """Puts the card together from a prediction, which may not be there yet."""

    desk: OilDesk
    found: Prediction | None
    family: Family

    @property
    def reader(self) -> OilReader:
        return OilReader(self.family)

    @property
    def other(self) -> OilReader:
        return OilReader("inch" if self.family == "mm" else "mm")

    def title(self) -> str:
        """What it may be called: without the engine's name while a critical size is unmeasured."""
        return self.found.title if self.found is not None else ""

    def temperatures(self) -> tuple[str, ...]:
        circuit = self.desk.circuit
        if circuit is None:
            return ()
        return tuple(
            f"{self.reader.temperature(each)} ({self.other.temperature(each)})"
            for each in card_temperatures(circuit)
        )

    def rows(self) -> Iterator[CardRow]:
        circuit, found = self.desk.circuit, self.found
        if circuit is None or found is None or not found.points:
            return
        states = list(found.points[len(named_points(circuit)) :])
        across = len(card_temperatures(circuit))
        for row, speed in enumerate(card_speeds(circuit)):
            mine = states[row * across : (row + 1) * across]
            yield CardRow(self.reader.speed(speed), tuple(self._cell(each) for each in mine))

    def _cell(self, point: PointState) -> CardCell:
        band = point.gauge_pressure
        if band.best is None:
            return CardCell("", "", "", "no number: not converged")
        return CardCell(self.reader.pressure(band), self.other.pressure(band), self.reader.edges(band), "")

    def stops(self) -> Iterator[CardStop]:
        for each in self.found.stops if self.found is not None else ():
            lowest = each.lowest_pressure
            other = self.other.pressure(Band(lowest)) if lowest is not None else ""
            yield CardStop(stop_words(each, self.reader), other, each.who, each.crossed)

    def seconds(self) -> str:
        """The stated seconds within which pressure comes; empty where nobody stated them."""
        stated = [each.seconds for each in (self.found.stops if self.found else ()) if each.seconds]
        return f"{min(stated):g}" if stated else ""

    def rests_on(self) -> str:
        if self.found is None:
            return ""
        count, every = len(self.found.unmeasured), len(self.found.sizes)
        if not count:
            return f"It rests on {every} sizes, all measured."
        names = ", ".join(each.title for each in self.found.unmeasured[:6])
        more = f" and {count - 6} more" if count > 6 else ""
        return f"It rests on {every} sizes; {count} of them not measured: {names}{more}."


def _context(hands: Hands, code: str, family: Family, paper: str) -> CardContext:
    with hands.shop.held():
        desk, started = hands.shop.oil(code), hands.shop.builds()[code]
        head, sheet = hands.shop.record.head(), desk.case.sheet
    grid = card_points(desk.circuit) if desk.circuit is not None else ()
    found = hands.oil.answer(desk, OilAsked(also=grid, banded=True), wait=WAIT)
    card, here = _Card(desk, found, family), oil_address(code, family, "/card")
    job = f"job {started.job_number}" if started.job_number else f"build {code}"
    up_to = f", record up to entry {head.seq} ({head.hash[:12]})" if head is not None else ""
    facts = f"{job}, sheet {sheet.engine.id} revision {sheet.engine.revision}{up_to}"
    return CardContext(
        frame=_frame(hands, code, family, paper),
        back=oil_address(code, family),
        papers=papers(here, paper),
        title=card.title(),
        facts=facts,
        problem=found.problem if found is not None else "",
        preparing=found is None,
        again=f"{here}&paper={paper}",
        unit=card.reader.pressure_unit,
        other_unit=card.other.pressure_unit,
        temperatures=card.temperatures(),
        rows=tuple(card.rows()),
        stops=tuple(card.stops()),
        seconds=card.seconds(),
        oil=oil_line(found.oil) if found is not None and found.oil is not None else None,
        rests_on=card.rests_on(),
        band_means=BAND_MEANS,
        foot=f"fitwright, {facts}, printed {datetime.now(UTC):%Y-%m-%d}",
    )


def _frame(hands: Hands, code: str, family: Family, paper: str) -> Frame:
    return frame_of(
        hands,
        "Expected pressures",
        "Oil",
        build=code,
        family=family,
        help_page="oil",
        live=False,
        styles=("bench_forms.css", "oil_card.css", f"paper_{paper}.css"),
        scripts=("bench_forms.js",),
    )
