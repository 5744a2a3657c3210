"""Builds: each build in a line: what is outside, what comes next, what is new since one looked."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar
from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.bench.telling import counted
from fitwright.records.kinds import BuildStarted, State
from fitwright.records.search import Search
from fitwright.web.addresses import engine_address, record_address
from fitwright.web.build_lines import BuildLine, build_line
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, hands_of, is_known
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page
from fitwright.web.seen import mark_of, seen_by
from fitwright.web.shop import ShopForWeb


@dataclass(frozen=True, slots=True)
class BuildCard:
    """One build: what is known of it at once, and its line, where that is ready or was waited for."""

    address: str
    title: str
    facts: str
    last: str
    news: str
    news_address: str
    line: BuildLine | None
    line_address: str


@dataclass(frozen=True, slots=True)
class BuildsContext:
    """The page Builds."""

    template: ClassVar[str] = "builds.html"
    frame: Frame
    builds: tuple[BuildCard, ...]
    waiting: bool


@dataclass(frozen=True, slots=True)
class LineContext:
    """The line of one build by itself, for a page that did not wait for it."""

    template: ClassVar[str] = "build_line_alone.html"
    alone: BuildLine


async def show(request: Request) -> Response:
    """Answer with the page Builds; it waits for no verdicts unless it is asked to."""
    hands = hands_of(request)
    whole = request.query_params.get("whole") == "yes"
    return page(await run_in_threadpool(_context, hands, seen_by(request), whole=whole))


async def show_line(request: Request) -> Response:
    """Answer with the line of one build."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    return page(LineContext(await run_in_threadpool(_line, hands.shop, code)))


def facts_of(started: BuildStarted, *more: str | None) -> str:
    """Job, engine number and what else is told of a build, in one line."""
    facts = [
        f"job {started.job_number}" if started.job_number else None,
        f"engine {started.engine_number}" if started.engine_number else None,
        *more,
    ]
    return ", ".join(fact for fact in facts if fact)


def _line(shop: ShopForWeb, code: str) -> BuildLine:
    with shop.held():
        return build_line(shop, code)


def _context(hands: Hands, seen: Mapping[str, int], *, whole: bool) -> BuildsContext:
    shop = hands.shop
    with shop.held():
        ready = [code for code in shop.builds() if whole or shop.is_ready(code)]
        cards = {code: _card(shop, code, seen, code in ready) for code in shop.builds()}
        last = {code: entry.seq for code in cards if (entry := shop.record.last_of(code)) is not None}
        lines = sorted(cards, key=lambda code: last.get(code, 0), reverse=True)
        frame = frame_of(hands, "Builds", "Builds", help_page="builds", styles=("builds.css",))
        return BuildsContext(frame, tuple(cards[code] for code in lines), len(ready) < len(cards))


def _card(shop: ShopForWeb, code: str, seen: Mapping[str, int], is_ready: bool) -> BuildCard:  # noqa: FBT001
    started, last = shop.builds()[code], shop.record.last_of(code)
    seq = seen.get(mark_of(code))
    return BuildCard(
        address=engine_address(code),
        title=started.title,
        facts=facts_of(started, started.duty),
        last=f"last entry {last.committed_at[:10]}" if last is not None else "",
        news=_news(shop, code, seq) if seq is not None else "",
        news_address=record_address(code, {"after": seq or 0}),
        line=build_line(shop, code) if is_ready else None,
        line_address=f"/builds/{quote(code)}/line",
    )


def _news(shop: ShopForWeb, code: str, seq: int) -> str:
    """What was written for a build since an entry, in words."""
    counts = Counter(shop.record.counts(code, after=seq))
    changes = counts.pop(State.kind, 0)
    if changes:
        search = Search(build=code, kinds=(State.kind,), after=seq, limit=changes)
        counts.update(str(each.entry.body["change"]) for each in shop.record.search(search))
    return counted(counts)


ROUTES: list[BaseRoute] = [
    Route("/", show, name="builds"),
    Route("/builds/{build}/line", show_line, name="line"),
]
