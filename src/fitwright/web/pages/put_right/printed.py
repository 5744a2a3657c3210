"""A rework order as the machinist gets it: one page with boxes to write in."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.assembly.results import ReworkStanding
from fitwright.assess.words import BEFORE_METAL
from fitwright.bench.parts import position_of
from fitwright.bench.progress import reading_words
from fitwright.data.cautions import Caution, cautions_of
from fitwright.drawing.figures import Reader
from fitwright.model.dimension import Dimension
from fitwright.web.addresses import order_address
from fitwright.web.entering.asked import asking_of
from fitwright.web.entering.controls import Asking
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.pages.bench_forms import PaperChoice, paper_of, papers
from fitwright.web.pages.put_right.order import CAUTIONS, order_there, size_words, target_words
from fitwright.web.rendering import page
from fitwright.web.visit import Visit, visit_of
from fitwright.web.whose import at_the_shop
from fitwright.web.writing import Sent

MOST_PLACES: Final = 16
"""With more places than this, each size has one box: the order stays on one page."""


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """One place of a size: what it was, and a box for what it is afterwards."""

    size: str
    place: str
    before: str
    limits: str


@dataclass(frozen=True, slots=True)
class FedRow:
    """Something that the work feeds, with its limits, to be looked at afterwards."""

    title: str
    limits: str


@dataclass(frozen=True, slots=True)
class PrintedContext:
    """The printed order."""

    template: ClassVar[str] = "put_right/printed.html"
    frame: Frame
    back: str
    papers: tuple[PaperChoice, ...]
    code: str
    change: str
    facts: tuple[tuple[str, str], ...]
    words: str
    target: str
    rows: tuple[PlaceRow, ...]
    fed: tuple[FedRow, ...]
    cautions: tuple[Caution, ...]
    before_metal: str
    foot: str


async def show(request: Request) -> Response:
    """Answer with the order to print."""
    return page(await run_in_threadpool(_context, await visit_of(request), paper_of(request)))


def _context(visit: Visit, paper: str) -> PrintedContext:
    _, hands, code, family = visit
    with hands.shop.held():
        asking = asking_of(visit, Sent({"order": visit.named("order")}))
        order = order_there(asking)
        here = order_address(code, order.code, family, printed=True)
        started = hands.shop.builds()[code]
        job = f"job {started.job_number}" if started.job_number else f"build {code}"
        return PrintedContext(
            frame=frame_of(
                hands,
                f"{order.code} {order.part_title}",
                "Put right",
                build=code,
                family=family,
                help_page="put-right",
                live=False,
                styles=("put_right.css", f"paper_{paper}.css"),
                scripts=("bench_forms.js",),
            ),
            back=order_address(code, order.code, family),
            papers=papers(here, paper),
            code=order.code,
            change=order.change,
            facts=tuple(_facts(hands, asking, order)),
            words=order.order_words,
            target=target_words(asking.bench, order, family),
            rows=tuple(_rows(asking, order)),
            fed=tuple(_fed(asking, order)),
            cautions=tuple(cautions_of(CAUTIONS)) if order.change != "replacement" else (),
            before_metal=BEFORE_METAL if order.change != "replacement" else "",
            foot=f"{order.code}; {job}; {started.title}",
        )


def _facts(hands: Hands, asking: Asking, order: ReworkStanding) -> Iterator[tuple[str, str]]:
    bench = asking.bench
    started = hands.shop.builds()[asking.code]
    held = bench.build.parts.get(order.part)
    at = position_of(bench, order.part)
    who = bench.shop.people.get(order.ordered.person or "")
    when = at_the_shop(bench.shop, order.ordered.at.isoformat()) if order.ordered.at is not None else ""
    engine = f"engine {started.engine_number}" if started.engine_number else ""
    job = f"job {started.job_number}" if started.job_number else ""
    serial = held.body.serial if held is not None else None
    found = {
        "Part": ", ".join(each for each in (order.part_title, order.part) if each),
        "Serial": serial or "",
        "Position": bench.sheet.parts[at].title if at is not None else "",
        "For": ", ".join(each for each in (started.title, engine, job) if each),
        "Ordered by": ", ".join(each for each in (who.body.name if who is not None else "", when) if each),
    }
    yield from ((name, words) for name, words in found.items() if words)


def _rows(asking: Asking, order: ReworkStanding) -> Iterator[PlaceRow]:
    sheet = asking.bench.sheet
    sizes = [
        sheet.dimensions[each.dimension] for each in order.dimensions if each.dimension in sheet.dimensions
    ]
    each_place = sum(len(size.places) for size in sizes) <= MOST_PLACES
    before = {each.dimension: each for each in order.dimensions}
    for size in sizes:
        limits = _limits(asking, size.id)
        if each_place and order.carried_out is None:
            yield from _places(asking, size, limits)
            continue
        known = before[size.id]
        words = size_words(asking.bench, size.id, known.before, known.before_uncertainty, asking.family)
        yield PlaceRow(size.title, "", words or "not read", limits)


def _places(asking: Asking, size: Dimension, limits: str) -> Iterator[PlaceRow]:
    read = {each.place: reading_words(each) for each in asking.judge.member(size.id).evidence.used}
    for number, place in enumerate(size.places):
        shown = "" if place.id == "whole" else place.id.replace("/", " ")
        first = number == 0
        yield PlaceRow(size.title if first else "", shown, read.get(place.id, ""), limits if first else "")


def _limits(asking: Asking, name: str) -> str:
    """The limits of a size or fit with their source, as one reads them."""
    if name not in asking.judge.subjects:
        return ""
    found, reader = asking.assessor.verdict(name), Reader(asking.family)
    text = reader.limits_alone(found)
    return f"{text} ({reader.source(found)})" if text else ""


def _fed(asking: Asking, order: ReworkStanding) -> Iterator[FedRow]:
    for item in order.items:
        yield FedRow(item.title, _limits(asking, item.item))
