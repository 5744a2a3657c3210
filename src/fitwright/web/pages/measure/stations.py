"""Measure, to begin with: the stations, how far each is, and where to go on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fitwright.bench.order import stops
from fitwright.units.families import Family
from fitwright.web.addresses import measure_address
from fitwright.web.frame import Frame, frame_of
from fitwright.web.hands import Hands, family_of, hands_of, is_known
from fitwright.web.pages.measure.here import left_at
from fitwright.web.pages.problem import no_build
from fitwright.web.rendering import page


@dataclass(frozen=True, slots=True)
class StationToMeasure:
    """A station with its places read so far, at any time."""

    title: str
    address: str
    count: str
    left: int


@dataclass(frozen=True, slots=True)
class StationsContext:
    """The page Measure without a station."""

    template: ClassVar[str] = "measure/stations.html"
    frame: Frame
    stations: tuple[StationToMeasure, ...]
    following: str


async def show(request: Request) -> Response:
    """Answer with the stations."""
    hands, code = hands_of(request), request.path_params["build"]
    if not await is_known(hands, code):
        return no_build(request, code)
    return page(await run_in_threadpool(_context, hands, code, family_of(request, code)))


def _context(hands: Hands, code: str, family: Family) -> StationsContext:
    with hands.shop.held():
        stations = tuple(_stations(hands, code, family))
        return StationsContext(
            frame=frame_of(
                hands,
                "Measure",
                "Measure",
                build=code,
                family=family,
                help_page="measure",
                styles=("measure.css",),
            ),
            stations=stations,
            following=next((each.address for each in stations if each.left), ""),
        )


def _stations(hands: Hands, code: str, family: Family) -> Iterator[StationToMeasure]:
    bench = hands.shop.bench(code)
    read = {
        (record.dimension or "", record.place) for record in bench.build.readings.values() if record.effective
    }
    for station in bench.sheet.stations.values():
        order = stops(bench.sheet, station.id)
        count = sum((stop.dimension, stop.place) in read for stop in order)
        address = measure_address(code, family, station=station.id)
        yield StationToMeasure(
            station.title, address, f"{count} of {len(order)} places read", left_at(bench, station)
        )
