"""Films over the cycle: of mains and big ends at one operating point, under the loads of the crank train."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Final

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.oil.points import OilPoint, named_points
from fitwright.assess.oil.results import CycleFilms
from fitwright.assess.oil.words import CAUTIONS
from fitwright.drawing.charts.film_over_cycle import film_over_cycle
from fitwright.drawing.cycle_words import CYCLE_HEADINGS, CycleRow, cycle_rows, gas_words
from fitwright.drawing.oil_figures import OilReader
from fitwright.web.addresses import sheet_address
from fitwright.web.cycle_work import CycleWork
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.oil.asked import OilQuestion
from fitwright.web.pages.oil.pictures import PAGE, PHONE, Pictures
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page

SOON: Final = 1.5
"""Seconds that the page waits before it says that it is getting ready."""

HERE: Final = "/cycle"
_WORK: Final = CycleWork()


@dataclass(frozen=True, slots=True)
class CyclePart:
    """What was found at the point: the chart, a row for each bearing, and what it rests on."""

    where: str
    chart: Pictures
    rows: tuple[CycleRow, ...]
    gas: str
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CycleContext:
    """The page; `problem` says why there are no films, `preparing` that they come."""

    template: ClassVar[str] = "oil/cycle.html"
    frame: Frame
    title: str
    back: str
    what_if: str
    caution: str
    points: tuple[Choice, ...]
    preparing: bool
    again: str
    problem: str
    sheet: str
    headings: tuple[str, ...]
    cycle: CyclePart | None


async def show(request: Request) -> Response:
    """Answer with the page."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    question = OilQuestion.of(code, family_of(request, code), hands.shop.oil(code), request.query_params)
    return page(await run_in_threadpool(_context, hands, question))


def _context(hands: Hands, question: OilQuestion) -> CycleContext:
    desk, point = question.desk, _point(question)
    found = _WORK.answer(desk, point, question.what_if, wait=SOON) if point is not None else None
    problem = desk.case.problem if point is None else (found.problem if found is not None else "")
    return CycleContext(
        frame=_frame(hands, question),
        title=f"Films over the cycle of {desk.engine_name}",
        back=question.address(anchor="bearing-films"),
        what_if="" if question.moved.is_nothing else question.words(),
        caution=CAUTIONS[0],
        points=_choices(question),
        preparing=point is not None and found is None,
        again=question.address(HERE),
        problem=problem,
        sheet=sheet_address(question.code),
        headings=CYCLE_HEADINGS,
        cycle=_part(question, found) if found is not None and not found.problem else None,
    )


def _frame(hands: Hands, question: OilQuestion) -> Frame:
    return frame_of(
        hands,
        "Films over the cycle",
        "Oil",
        build=question.code,
        family=question.family,
        help_page="oil",
        live=False,
        styles=("oil_pictures.css", "oil.css"),
    )


def _point(question: OilQuestion) -> OilPoint | None:
    """The operating point that is looked at; None without a circuit."""
    circuit = question.desk.circuit
    if circuit is None:
        return None
    return (*named_points(circuit), *question.also)[question.row]


def _choices(question: OilQuestion) -> tuple[Choice, ...]:
    """The named operating points as links."""
    circuit = question.desk.circuit
    titles = [each.title for each in named_points(circuit)] if circuit is not None else []
    return tuple(
        Choice(title, question.address(HERE, at=slug), row == question.row)
        for row, (title, slug) in enumerate(zip(titles, question.slugs, strict=True))
    )


def _part(question: OilQuestion, found: CycleFilms) -> CyclePart:
    family, reader = question.family, OilReader(question.family)

    def drawn(width: float) -> Markup:
        svg = film_over_cycle(found, family=family, width=width).svg
        return Markup(svg)  # noqa: S704  (our own drawing, all text in it escaped)

    return CyclePart(
        where=f"{reader.speed(found.angular_speed)}, oil {reader.temperature(found.oil_temperature)}",
        chart=Pictures(drawn(PAGE), drawn(PHONE)),
        rows=tuple(cycle_rows(found, reader)),
        gas=gas_words(found, family),
        rests_on=found.cautions,
    )
