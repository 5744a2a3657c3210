"""The entries of a build, or of the whole shop, the newest first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.web.addresses import record_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, hands_of, is_known
from fitwright.web.pages.problem import no_build
from fitwright.web.pages.record.filters import PAGE, Filters, filters, search_for
from fitwright.web.pages.record.lines import RecordLine, bench_of, lines
from fitwright.web.rendering import page

ASKED = ("kind", "person", "sitting", "about", "words", "after")
"""What an address may narrow the list by."""


@dataclass(frozen=True, slots=True)
class RecordContext:
    """The page Record; without an address there is nothing older, or nothing newer."""

    template: ClassVar[str] = "record.html"
    frame: Frame
    whole_shop: bool
    total: str
    filtering: Filters
    entries: tuple[RecordLine, ...]
    clear: str
    newest: str
    older: str
    export: str
    bring_in: str


async def show(request: Request) -> Response:
    """Answer with the page Record."""
    hands, code = hands_of(request), request.path_params.get("build")
    if code is not None and not await is_known(hands, code):
        return no_build(request, code)
    return page(await run_in_threadpool(_context, hands, code, request.query_params))


def record_frame(hands: Hands, title: str, code: str | None) -> Frame:
    """The frame of a page of the record."""
    here = "Record" if code is not None else "Shop"
    return frame_of(hands, title, here, build=code, help_page="record", styles=("new.css", "record.css"))


def _context(hands: Hands, code: str | None, asked: Mapping[str, str]) -> RecordContext:
    search = search_for(asked, code)
    with hands.shop.held():
        bench = bench_of(hands, code)
        counts = hands.shop.record.counts(code) if code is not None else {}
        found = hands.shop.record.search(search)
        shown = lines(hands, found[:PAGE], code)
        narrowed: dict[str, str | int] = {name: asked[name] for name in ASKED if asked.get(name)}
        more = len(found) > PAGE
        return RecordContext(
            frame=record_frame(hands, "Record", code),
            whole_shop=code is None,
            total=_total(hands, counts, code),
            filtering=filters(asked, search, hands.shop.state, bench, counts),
            entries=shown,
            clear=record_address(code),
            newest=record_address(code, narrowed) if search.before is not None else "",
            older=record_address(code, narrowed | {"before": shown[-1].seq}) if more else "",
            export=record_address(code),
            bring_in=f"{record_address(code)}/import",
        )


def _total(hands: Hands, counts: Mapping[str, int], code: str | None) -> str:
    number = sum(counts.values()) if code is not None else hands.shop.position
    entries = "1 entry" if number == 1 else f"{number:,} entries".replace(",", " ")
    return f"{entries} of this build" if code is not None else f"{entries} of this shop and its builds"


ROUTES: list[BaseRoute] = [
    Route("/builds/{build}/record", show, name="record"),
    Route("/shop/record", show, name="record of the shop"),
]
