"""Builds: each build in a line, what is outside, what is unproven."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.results import State, Verdict
from fitwright.drawing.sentences import summary_sentence
from fitwright.web.hands import hands_of
from fitwright.web.rendering import page
from fitwright.web.shop import ShopForWeb


@dataclass(frozen=True, slots=True)
class BuildLine:
    """One build in a line."""

    code: str
    title: str
    facts: str
    summary: str
    outside: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BuildsContext:
    """The page Builds."""

    template: ClassVar[str] = "builds.html"
    title: str
    builds: tuple[BuildLine, ...]


async def show(request: Request) -> Response:
    """Answer with the page Builds."""
    shop = hands_of(request).shop
    lines = await run_in_threadpool(_lines, shop)
    return page(BuildsContext("Builds", lines))


def _lines(shop: ShopForWeb) -> tuple[BuildLine, ...]:
    return tuple(_line(shop, code) for code in shop.builds())


def _line(shop: ShopForWeb, code: str) -> BuildLine:
    started = shop.builds()[code]
    found = shop.assessment(code, State.CURRENT)
    outside = tuple(each.name for each in found.verdicts.values() if each.verdict is Verdict.OUTSIDE)
    facts = [
        f"job {started.job_number}" if started.job_number else "",
        f"engine {started.engine_number}" if started.engine_number else "",
        started.duty or "",
    ]
    return BuildLine(
        code,
        started.title,
        ", ".join(fact for fact in facts if fact),
        summary_sentence(found),
        outside,
    )
