"""Quick sums: every sum with its picture and what it answers, and a search among them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.data.trade_words import wanted_in
from fitwright.sums.declaration import Sum
from fitwright.sums.registry import SUMS
from fitwright.units.families import Family
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, hands_of
from fitwright.web.own_units import own_family, remember_family
from fitwright.web.pages.sums.page import example_picture
from fitwright.web.pages.sums.query import sum_address
from fitwright.web.rendering import page
from fitwright.web.searching import answers, spread


@dataclass(frozen=True, slots=True)
class SumLine:
    """A sum: its title, what it answers, its picture, where it is."""

    title: str
    text: str
    picture: Markup
    address: str


@dataclass(frozen=True, slots=True)
class SumsContext:
    """The page Quick sums."""

    template: ClassVar[str] = "sums.html"
    frame: Frame
    find: str
    sums: tuple[SumLine, ...]


async def show(request: Request) -> Response:
    """Answer with all sums, or with those that are looked for."""
    find = request.query_params.get("find", "").strip()[:100]
    found = page(await run_in_threadpool(_context, hands_of(request), find, own_family(request)))
    remember_family(found, request)
    return found


def _context(hands: Hands, find: str, family: Family) -> SumsContext:
    frame = frame_of(hands, "Quick sums", "Quick sums", help_page="sums", live=False, styles=("sums.css",))
    return SumsContext(frame, find, tuple(_lines(find, family)))


def _lines(find: str, family: Family) -> Iterator[SumLine]:
    wanted = tuple(wanted_in(find))
    for each in sorted(SUMS.values(), key=lambda one: one.title):
        if answers(wanted, spread(iter(_texts(each)))):
            address = sum_address(each.name, {})
            yield SumLine(each.title, each.text, example_picture(each.name, family), address)


def _texts(asked: Sum) -> tuple[str, ...]:
    """Everything that a sum may be looked for by."""
    keys = [each.key for each in asked.inputs] + [each.key for each in asked.outputs]
    figures = (key.replace("_", " ") for key in keys)
    return (" ".join((asked.name, asked.title, asked.text, *asked.words, *figures)),)
