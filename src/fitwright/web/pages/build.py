"""One build: every fit with its limit scale and verdict, station by station."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.assess.results import Assessment, NotRecorded, State
from fitwright.assess.words import BEFORE_METAL, HOT_NOT_JUDGED
from fitwright.drawing.figures import Reader
from fitwright.drawing.sentences import summary_sentence
from fitwright.units.families import Family
from fitwright.web.fits import FitLine, fit_line
from fitwright.web.hands import family_of, hands_of, state_of
from fitwright.web.pages.problem import problem_page
from fitwright.web.rendering import page
from fitwright.web.shop import ShopForWeb


@dataclass(frozen=True, slots=True)
class StationPart:
    """The fits of one station, with the caution for its work."""

    title: str
    caution: str | None
    fits: tuple[FitLine, ...]


@dataclass(frozen=True, slots=True)
class Option:
    """One choice of a row of choices."""

    label: str
    address: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class BuildContext:
    """The page of one build."""

    template: ClassVar[str] = "build.html"
    title: str
    code: str
    facts: str
    owner_words: str | None
    summary: str
    states: tuple[Option, ...]
    units: tuple[Option, ...]
    stations: tuple[StationPart, ...]
    not_recorded: tuple[NotRecorded, ...]
    before_metal: str
    hot_note: str


async def show(request: Request) -> Response:
    """Answer with the page of one build."""
    shop = hands_of(request).shop
    code = request.path_params["build"]
    if code not in shop.builds():
        return problem_page(f'No build "{code}" in this shop.', "Choose one of the builds.", status=404)
    family, state = family_of(request, code), state_of(request)
    return page(await run_in_threadpool(_context, shop, code, state, family))


def _context(shop: ShopForWeb, code: str, state: State, family: Family) -> BuildContext:
    started, found = shop.builds()[code], shop.assessment(code, state)
    engine = shop.bench(code).sheet.engine
    facts = [
        f"job {started.job_number}" if started.job_number else "",
        f"engine {started.engine_number}" if started.engine_number else "",
        started.duty or engine.duty or "",
        f"sheet {engine.id} revision {engine.revision}",
    ]
    return BuildContext(
        title=started.title,
        code=code,
        facts=", ".join(fact for fact in facts if fact),
        owner_words=started.owner_words,
        summary=summary_sentence(found),
        states=_states(code, state, family),
        units=_units(code, state, family),
        stations=tuple(_stations(shop, code, found, state, family)),
        not_recorded=found.not_recorded,
        before_metal=BEFORE_METAL,
        hot_note=HOT_NOT_JUDGED,
    )


def _states(code: str, state: State, family: Family) -> tuple[Option, ...]:
    labels = {State.CURRENT: "current", State.AS_RECEIVED: "as received"}
    return tuple(
        Option(label, address(code, each, family), each is state) for each, label in labels.items()
    )


def _units(code: str, state: State, family: Family) -> tuple[Option, ...]:
    families: tuple[Family, ...] = ("mm", "inch")
    return tuple(Option(each, address(code, state, each), each == family) for each in families)


def address(code: str, state: State, family: Family, subject: str | None = None) -> str:
    """The address of a build, or of one of its fits, in a state and in units."""
    path = f"/builds/{code}" if subject is None else f"/builds/{code}/fits/{subject}"
    return f"{path}?state={state.value}&units={family}"


def _stations(
    shop: ShopForWeb, code: str, found: Assessment, state: State, family: Family
) -> Iterator[StationPart]:
    sheet = shop.bench(code).sheet
    assessor, reader = shop.assessor(code, state), Reader(family)
    groups: dict[str | None, list[FitLine]] = {}
    for each in found.verdicts.values():
        line = fit_line(assessor, each, reader, address(code, state, family, each.id))
        groups.setdefault(each.station if each.station in sheet.stations else None, []).append(line)
    for station in sheet.stations.values():
        if station.id in groups:
            yield StationPart(station.title, station.caution, tuple(groups[station.id]))
    if None in groups:
        yield StationPart("Elsewhere", None, tuple(groups[None]))
