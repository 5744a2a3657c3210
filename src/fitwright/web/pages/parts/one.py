"""The page of one position with what sits there, or of one part: sizes, photos, what happened to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.judging import Judge
from fitwright.bench.amounts import amount_words
from fitwright.bench.context import Bench
from fitwright.bench.entry_words import title_of
from fitwright.bench.parts import dimensions_of, known_parts, position_of
from fitwright.model.dimension import Dimension
from fitwright.units.families import Family
from fitwright.web.addresses import measure_address, parts_address
from fitwright.web.entering.offers import Offer
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands
from fitwright.web.pages.parts.happened import HistoryLine, concerns, history
from fitwright.web.pages.parts.pictures import PhotoLine, photo_lines
from fitwright.web.pages.parts.positions import PositionLine, position_line, shelf_lines
from fitwright.web.rendering import page
from fitwright.web.visit import NotThereError, Visit, visit_of


@dataclass(frozen=True, slots=True)
class SizeLine:
    """A size that rests on the part: what is known of it, where it is measured or stated."""

    title: str
    known: str
    measure: str
    state: str


@dataclass(frozen=True, slots=True)
class OneContext:
    """The page of one position or part."""

    template: ClassVar[str] = "parts/one.html"
    frame: Frame
    heading: str
    part: PositionLine
    place: str
    offers: tuple[Offer, ...]
    own: tuple[SizeLine, ...]
    through: tuple[SizeLine, ...]
    photos: tuple[PhotoLine, ...]
    happened: tuple[HistoryLine, ...]
    back: str


async def show(request: Request) -> Response:
    """Answer with the page of a position or part."""
    return page(await run_in_threadpool(_context, await visit_of(request)))


def _context(visit: Visit) -> OneContext:
    request, hands, code, family = visit
    position, part = (request.query_params.get(each, "") for each in ("position", "part"))
    with hands.shop.held():
        bench = hands.shop.bench(code)
        if position not in bench.sheet.parts:
            if part not in known_parts(bench):
                raise NotThereError("No such part in this build.", "Choose one on the page Parts.")
            position = position_of(bench, part) or ""
        return _of(hands, bench, family, position, part)


def _of(hands: Hands, bench: Bench, family: Family, position: str, part: str) -> OneContext:
    code, judge = bench.build.build, hands.shop.assessor(bench.build.build).judge
    inside = bench.build.occupant(position) if position else part
    line = (
        position_line(bench, code, family, position)
        if position
        else next(each for each in shelf_lines(bench, code, family) if each.part == part)
    )
    sizes = dimensions_of(bench, position) if position else ()
    names = frozenset(
        {each for each in (position, inside, *(each.id for each in sizes if each.part == position)) if each}
    )
    title = title_of(bench, position) if position else line.title
    return OneContext(
        frame=frame_of(
            hands,
            title,
            "Parts",
            build=code,
            family=family,
            help_page="parts",
            styles=("entering.css", "photos.css", "parts.css"),
        ),
        heading=title,
        part=line,
        place="" if position else "On the shelf, in no position.",
        offers=tuple(_offers(code, family, position, inside or "")),
        own=tuple(_size(bench, judge, family, each) for each in sizes if each.part == position),
        through=tuple(_size(bench, judge, family, each) for each in sizes if each.part != position),
        photos=photo_lines(bench, family, names),
        happened=history(bench, family, concerns(names)),
        back=parts_address(code, family),
    )


def _offers(code: str, family: Family, position: str, inside: str) -> Iterator[Offer]:
    if position and inside:
        yield Offer("Swap it", parts_address(code, family, do="swap", one=position), open=False)
        yield Offer("Take it out", parts_address(code, family, do="out", position=position), open=False)
    if position:
        yield Offer("Fit another", parts_address(code, family, do="fit", position=position), open=False)
        yield Offer("Code and serial", parts_address(code, family, do="part", position=position), open=False)
    else:
        yield Offer("Fit it", parts_address(code, family, do="fit", part=inside), open=False)
    if inside:
        yield Offer("Rework, repair", parts_address(code, family, do="rework", part=inside), open=False)
    about = position or inside
    yield Offer("Note", parts_address(code, family, do="note", subject=about), open=False)
    yield Offer("Photo", parts_address(code, family, do="photo", subject=about), open=False)


def _size(bench: Bench, judge: Judge, family: Family, dimension: Dimension) -> SizeLine:
    code = bench.build.build
    measure = (
        measure_address(
            code,
            family,
            station=dimension.station,
            dimension=dimension.id,
            place=dimension.places[0].id,
        )
        if dimension.station is not None
        else ""
    )
    state = parts_address(code, family, do="stated", dimension=dimension.id)
    return SizeLine(dimension.title, "; ".join(_known(judge, dimension)) or "not read", measure, state)


def _known(judge: Judge, dimension: Dimension) -> Iterator[str]:
    evidence = judge.member(dimension.id).evidence
    places = {record.place for record in evidence.used}
    if places:
        count = f"{len(places)} of {len(dimension.places)} places"
        yield "read" if len(dimension.places) == 1 else f"read at {count}"
    changed = dict.fromkeys(each.why for each in evidence.unused if each.changed and each.place not in places)
    yield from changed
    for held in evidence.stated[-1:]:
        yield f"stated {amount_words(held.body.size)} by {held.body.stated_by}"
