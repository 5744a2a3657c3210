"""Engine: where one begins with a build; every station with its state."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.results import Assessment, State, Verdict
from fitwright.drawing.sentences import summary_sentence
from fitwright.model.sheet import Sheet
from fitwright.units.families import Family
from fitwright.web.addresses import measure_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.pages.builds import facts_of
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page


@dataclass(frozen=True, slots=True)
class StationLine:
    """A station: how many of its fits are in which state, and the way to measure there."""

    title: str
    address: str
    words: str


@dataclass(frozen=True, slots=True)
class EngineContext:
    """The page Engine."""

    template: ClassVar[str] = "engine.html"
    frame: Frame
    title: str
    facts: str
    owner_words: str | None
    summary: str
    stations: tuple[StationLine, ...]


async def show(request: Request) -> Response:
    """Answer with the page Engine."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    return page(await run_in_threadpool(_context, hands, code, family_of(request, code)))


def _context(hands: Hands, code: str, family: Family) -> EngineContext:
    with hands.shop.held():
        started, found = hands.shop.builds()[code], hands.shop.assessment(code, State.CURRENT)
        sheet = hands.shop.bench(code).sheet
        revision = f"sheet {sheet.engine.id} revision {sheet.engine.revision}"
        return EngineContext(
            frame=frame_of(hands, "Engine", "Engine", build=code, family=family, help_page="engine"),
            title=started.title,
            facts=facts_of(started, started.duty or sheet.engine.duty, revision),
            owner_words=started.owner_words,
            summary=summary_sentence(found),
            stations=tuple(_stations(code, family, sheet, found)),
        )


def _stations(code: str, family: Family, sheet: Sheet, found: Assessment) -> Iterator[StationLine]:
    for station in sheet.stations.values():
        here = [each.verdict for each in found.verdicts.values() if each.station == station.id]
        counts = ", ".join(f"{here.count(verdict)} {verdict.value}" for verdict in Verdict if verdict in here)
        address = measure_address(code, family, station=station.id)
        yield StationLine(station.title, address, counts or "nothing to judge here")
