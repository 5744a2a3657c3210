"""Engine: the section of this engine with the state of every station on it; where one begins with a build."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import ClassVar, Literal
from urllib.parse import urlencode

from markupsafe import Markup
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.assess.results import Assessment, FitVerdict, State, Verdict
from fitwright.assess.words import HOT_NOT_JUDGED
from fitwright.drawing.accepted import accepted_in, accepted_sentence
from fitwright.drawing.engine_section import Section, StationState, section_drawing, station_states
from fitwright.drawing.sentences import summary_sentence
from fitwright.model.sheet import Sheet
from fitwright.units.families import Family
from fitwright.web.addresses import engine_address, measure_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.pages.builds import facts_of
from fitwright.web.pages.choices import Choice
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page
from fitwright.web.work_line import WorkLine, work_line


@dataclass(frozen=True, slots=True)
class Look:
    """How the section is looked at: along or across, cold or hot, upright or as on the stand."""

    view: Literal["along", "across"] = "along"
    hot: bool = False
    inverted: bool = False


@dataclass(frozen=True, slots=True)
class StationLine:
    """A station: how many of its fits are in which state, the way to measure there and to its fits."""

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
    work: WorkLine | None
    begin: str
    views: tuple[Choice, ...]
    temperatures: tuple[Choice, ...]
    attitudes: tuple[Choice, ...]
    drawing: Markup
    hot_note: str
    stations: tuple[StationLine, ...]


async def show(request: Request) -> Response:
    """Answer with the page Engine."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    asked = request.query_params
    look = Look(
        view="across" if asked.get("view") == "across" else "along",
        hot=asked.get("temperature") == "hot",
        inverted=asked.get("attitude") == "stand",
    )
    return page(await run_in_threadpool(_context, hands, code, family_of(request, code), look))


ROUTES: list[BaseRoute] = [Route("/builds/{build}", show, name="engine")]


def _context(hands: Hands, code: str, family: Family, look: Look) -> EngineContext:
    with hands.shop.held():
        started, found = hands.shop.builds()[code], hands.shop.assessment(code, State.CURRENT)
        sheet = hands.shop.bench(code).sheet
        assessor, now = hands.shop.assessor(code), datetime.now(UTC)
        states = station_states(
            sheet,
            found.verdicts.values(),
            lambda station: measure_address(code, family, station=station),
            accepted=accepted_in(assessor, found.verdicts.values(), now),
        )
        section = _section(sheet, found, states, look)
        revision = f"sheet {sheet.engine.id} revision {sheet.engine.revision}"
        return EngineContext(
            frame=frame_of(
                hands,
                "Engine",
                "Engine",
                build=code,
                family=family,
                help_page="engine",
                styles=("section.css", "engine.css"),
            ),
            title=started.title,
            facts=facts_of(started, started.duty or sheet.engine.duty, revision),
            owner_words=started.owner_words,
            summary=f"{summary_sentence(found)} {accepted_sentence(assessor, found, now)}".strip(),
            work=work_line(hands.shop.assembly(code), code, family) if sheet.steps else None,
            begin="" if hands.shop.bench(code).build.readings else measure_address(code, family),
            views=_views(code, family, look),
            temperatures=_temperatures(code, family, look),
            attitudes=_attitudes(code, family, look),
            drawing=Markup(section.svg),  # noqa: S704  (our own drawing, all text in it escaped)
            hot_note=HOT_NOT_JUDGED if look.hot else "",
            stations=tuple(StationLine(each.title, each.href or "", each.said()) for each in states.values()),
        )


def _section(sheet: Sheet, found: Assessment, states: Mapping[str, StationState], look: Look) -> Section:
    hot = {each.id: each for each in _hot_states(found, states.values())} if look.hot else None
    return section_drawing(
        sheet, states, view=look.view, hot=look.hot, hot_states=hot, inverted=look.inverted
    )


def _hot_states(found: Assessment, states: Iterable[StationState]) -> Iterator[StationState]:
    """What is judged hot, and how many fits are only estimated."""
    for state in states:
        here = list(_of_station(found, state.id))
        judged = [
            bound.verdict for each in here for bound in each.bounds if bound.temperature_case is not None
        ]
        estimated = sum(any(not hot.judged for hot in each.hot) for each in here)
        hot = StationState(
            id=state.id,
            title=state.title,
            within=judged.count(Verdict.WITHIN),
            unproven=judged.count(Verdict.UNPROVEN),
            outside=judged.count(Verdict.OUTSIDE),
            href=state.href,
        )
        words = [hot.said()] if judged else []
        words += [f"{estimated} estimated"] if estimated else []
        yield StationState(
            id=hot.id,
            title=hot.title,
            within=hot.within,
            unproven=hot.unproven,
            outside=hot.outside,
            words=", ".join(words) or "nothing known hot",
            href=hot.href,
        )


def _of_station(found: Assessment, station: str) -> Iterator[FitVerdict]:
    return (each for each in found.verdicts.values() if each.station == station)


def _address(code: str, family: Family, look: Look) -> str:
    asked = {
        "view": look.view if look.view != "along" else "",
        "temperature": "hot" if look.hot else "",
        "attitude": "stand" if look.inverted else "",
    }
    said = urlencode({name: value for name, value in asked.items() if value})
    return engine_address(code, family) + (f"&{said}" if said else "")


def _views(code: str, family: Family, look: Look) -> tuple[Choice, ...]:
    along = Look("along", look.hot, look.inverted)
    across = Look("across", look.hot, look.inverted)
    return (
        Choice("along the crank", _address(code, family, along), look.view == "along"),
        Choice("across it", _address(code, family, across), look.view == "across"),
    )


def _temperatures(code: str, family: Family, look: Look) -> tuple[Choice, ...]:
    cold, hot = (
        Look(look.view, hot=False, inverted=look.inverted),
        Look(look.view, hot=True, inverted=look.inverted),
    )
    return (
        Choice("cold", _address(code, family, cold), not look.hot),
        Choice("hot", _address(code, family, hot), look.hot),
    )


def _attitudes(code: str, family: Family, look: Look) -> tuple[Choice, ...]:
    upright, stand = Look(look.view, look.hot, inverted=False), Look(look.view, look.hot, inverted=True)
    return (
        Choice("upright", _address(code, family, upright), not look.inverted),
        Choice("sump up, as on the stand", _address(code, family, stand), look.inverted),
    )
