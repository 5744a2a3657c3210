"""Stations on paper: chosen, and printed as sheets with a blank box for every place."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, Final
from urllib.parse import urlencode

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route

from fitwright.bench.context import Bench
from fitwright.bench.order import stops
from fitwright.bench.paper import TRIED, gauge_kinds, paper_groups
from fitwright.model.station import Station
from fitwright.units.families import Family
from fitwright.web.addresses import forms_address, labels_address, paper_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.pages.problem import no_build, problem_page
from fitwright.web.paper_tables import TablePart, tables_of
from fitwright.web.rendering import page

PAPERS: Final = {"a4": "A4", "letter": "Letter"}
"""Sizes of paper, as addresses and people say them."""
CHOSEN: Final = "-chosen"
"""In an address, instead of one station: those that the form names."""


@dataclass(frozen=True, slots=True)
class PaperChoice:
    """A size of paper to print on."""

    value: str
    label: str
    address: str
    here: bool


@dataclass(frozen=True, slots=True)
class StationRow:
    """A station that can be printed: how many boxes it has, how many of its places are read."""

    id: str
    title: str
    boxes: str
    sheet: str
    entry: str


@dataclass(frozen=True, slots=True)
class FormsContext:
    """The stations to choose from."""

    template: ClassVar[str] = "forms.html"
    frame: Frame
    action: str
    family: Family
    papers: tuple[PaperChoice, ...]
    stations: tuple[StationRow, ...]
    labels: str


@dataclass(frozen=True, slots=True)
class GaugeLine:
    """A gauge that the station asks for, which the last sitting used, and whether it is set to something."""

    kind: str
    code: str
    is_set: bool


@dataclass(frozen=True, slots=True)
class SheetPart:
    """One station as it is printed."""

    title: str
    about: str
    foot: str
    caution: str
    gauges: tuple[GaugeLine, ...]
    tables: tuple[TablePart, ...]
    checks: tuple[str, ...]
    entry: str


@dataclass(frozen=True, slots=True)
class FormSheetContext:
    """The sheets of one or several stations."""

    template: ClassVar[str] = "form_sheet.html"
    frame: Frame
    back: str
    papers: tuple[PaperChoice, ...]
    sheets: tuple[SheetPart, ...]


async def choose(request: Request) -> Response:
    """Show the stations to choose from."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    family, paper = family_of(request, code), paper_of(request)
    return page(await run_in_threadpool(_choosing, hands, code, family, paper))


def _choosing(hands: Hands, code: str, family: Family, paper: str) -> FormsContext:
    with hands.shop.held():
        bench = hands.shop.bench(code)
        return FormsContext(
            frame=frame_of(
                hands,
                "Paper",
                "Paper",
                build=code,
                family=family,
                help_page="paper",
                styles=("bench_forms.css",),
            ),
            action=forms_address(code, family, station=CHOSEN).partition("?")[0],
            family=family,
            papers=papers(forms_address(code, family), paper),
            stations=tuple(_station_row(bench, code, family, each) for each in bench.sheet.stations.values()),
            labels=labels_address(code, family),
        )


def _station_row(bench: Bench, code: str, family: Family, station: Station) -> StationRow:
    order = stops(bench.sheet, station.id)
    read = {(each.dimension, each.place) for each in bench.build.readings.values() if each.effective}
    count = sum((stop.dimension, stop.place) in read for stop in order)
    return StationRow(
        id=station.id,
        title=station.title,
        boxes=f"{len(order)} {'place' if len(order) == 1 else 'places'}, {count} read",
        sheet=forms_address(code, family, station=station.id),
        entry=paper_address(code, station.id, family),
    )


async def show(request: Request) -> Response:
    """Show a station, or several, as sheets to print."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    named = request.path_params["station"]
    wanted = request.query_params.getlist("station") if named == CHOSEN else [named]
    family, paper = family_of(request, code), paper_of(request)
    context = await run_in_threadpool(_sheets, hands, code, tuple(wanted), family, paper)
    if context is None:
        known = (
            "Choose at least one station to print." if not wanted else "There is no such station to print."
        )
        return problem_page(request, known, "Go back to Paper, and choose a station.", status=404)
    return page(context)


def _sheets(
    hands: Hands, code: str, wanted: tuple[str, ...], family: Family, paper: str
) -> FormSheetContext | None:
    with hands.shop.held():
        bench = hands.shop.bench(code)
        stations = [bench.sheet.stations[name] for name in wanted if name in bench.sheet.stations]
        if not stations or len(stations) < len(wanted):
            return None
        here = forms_address(code, family, station=wanted[0] if len(wanted) == 1 else CHOSEN)
        if len(wanted) > 1:
            here = f"{here}&{urlencode([('station', name) for name in wanted])}"
        title = ", ".join(each.title for each in stations)
        return FormSheetContext(
            frame=frame_of(
                hands,
                title,
                "Paper",
                build=code,
                family=family,
                help_page="paper",
                live=False,
                styles=("place.css", "bench_forms.css", f"paper_{paper}.css"),
                scripts=("bench_forms.js",),
            ),
            back=forms_address(code, family),
            papers=papers(here, paper),
            sheets=tuple(_sheet(hands, bench, code, each, family) for each in stations),
        )


def _sheet(hands: Hands, bench: Bench, code: str, station: Station, family: Family) -> SheetPart:
    sitting = bench.sitting(None)
    groups = paper_groups(bench, station.id, sitting)
    started = hands.shop.builds()[code]
    job = f"job {started.job_number}" if started.job_number else f"build {code}"
    revision = f"sheet {bench.sheet.engine.name}, revision {bench.sheet.engine.revision}"
    chosen = sitting.instruments if sitting is not None else {}
    return SheetPart(
        title=station.title,
        about=f"{started.title}; {revision}",
        foot=f"{station.title}; {job}; {revision}",
        caution=station.caution or "",
        gauges=tuple(
            GaugeLine(kind, chosen.get(kind, ""), kind not in TRIED) for kind in gauge_kinds(groups)
        ),
        tables=tables_of(bench, groups),
        checks=tuple(each.question for each in station.eye_checks),
        entry=paper_address(code, station.id, family),
    )


def paper_of(request: Request) -> str:
    """The size of paper asked for; A4 unless the address says otherwise."""
    wanted = request.query_params.get("paper", "")
    return wanted if wanted in PAPERS else "a4"


def papers(address: str, here: str) -> tuple[PaperChoice, ...]:
    """The sizes of paper, each with its address."""
    return tuple(
        PaperChoice(value, label, f"{address}&{urlencode({'paper': value})}", value == here)
        for value, label in PAPERS.items()
    )


ROUTES: Final[list[BaseRoute]] = [
    Route("/builds/{build}/forms", choose, name="forms"),
    Route("/builds/{build}/forms/{station}", show, name="form_sheet"),
]
