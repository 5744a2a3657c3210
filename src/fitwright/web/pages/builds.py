"""Builds: each build in a line, what is outside, what is unproven."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.results import State, Verdict
from fitwright.drawing.sentences import summary_sentence
from fitwright.records.kinds import BuildStarted
from fitwright.units.families import Family
from fitwright.web.addresses import fit_address, fits_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import hands_of
from fitwright.web.rendering import page
from fitwright.web.shop import ShopForWeb


@dataclass(frozen=True, slots=True)
class FitLink:
    """A fit by name, with the way to it."""

    name: str
    address: str


@dataclass(frozen=True, slots=True)
class BuildLine:
    """One build in a line."""

    address: str
    title: str
    facts: str
    summary: str
    outside: tuple[FitLink, ...]
    unproven: tuple[FitLink, ...]


@dataclass(frozen=True, slots=True)
class BuildsContext:
    """The page Builds."""

    template: ClassVar[str] = "builds.html"
    frame: Frame
    builds: tuple[BuildLine, ...]


async def show(request: Request) -> Response:
    """Answer with the page Builds."""
    hands = hands_of(request)
    lines = await run_in_threadpool(_lines, hands.shop)
    return page(BuildsContext(frame_of(hands, "Builds", "Builds"), lines))


def facts_of(started: BuildStarted, *more: str | None) -> str:
    """Job, engine number and what else is told of a build, in one line."""
    facts = [
        f"job {started.job_number}" if started.job_number else None,
        f"engine {started.engine_number}" if started.engine_number else None,
        *more,
    ]
    return ", ".join(fact for fact in facts if fact)


def _lines(shop: ShopForWeb) -> tuple[BuildLine, ...]:
    with shop.held():
        return tuple(_line(shop, code, started) for code, started in shop.builds().items())


def _line(shop: ShopForWeb, code: str, started: BuildStarted) -> BuildLine:
    found = shop.assessment(code, State.CURRENT)
    engine = shop.bench(code).sheet.engine
    family: Family = "inch" if engine.unit_family == "inch" else "mm"

    def links(verdict: Verdict) -> tuple[FitLink, ...]:
        return tuple(
            FitLink(each.name, fit_address(code, each.id, State.CURRENT, family))
            for each in found.verdicts.values()
            if each.verdict is verdict
        )

    return BuildLine(
        fits_address(code, State.CURRENT, family),
        started.title,
        facts_of(started, started.duty or engine.duty),
        summary_sentence(found),
        links(Verdict.OUTSIDE),
        links(Verdict.UNPROVEN)[:MOST_LINKS],
    )


MOST_LINKS = 8
"""So many unproven fits are named on the page Builds; all are on the page of the build."""
