"""Where one is on the page Measure: build, station, order of places, sitting, place, browser."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from fitwright.bench.context import Bench
from fitwright.bench.errors import BenchError
from fitwright.bench.look_back import Going
from fitwright.bench.order import Stop, Way, next_stop, stops
from fitwright.bench.progress import done, taken_by
from fitwright.bench.short_entries import AtPlace, at_place
from fitwright.model.station import Station
from fitwright.records.kinds import Instrument, Sitting
from fitwright.units.families import Family
from fitwright.web.hands import Hands, family_of

DEVICE: Final = "device"
"""The cookie by which a browser knows its own entries again: undo takes back what was entered there."""


@dataclass(frozen=True, slots=True)
class Here:
    """A place of a station, in a sitting, at one browser."""

    hands: Hands
    code: str
    family: Family
    station: Station
    way: Way
    from_the_end: bool
    order: tuple[Stop, ...]
    sitting: str | None
    stop: Stop | None
    device: str

    @property
    def bench(self) -> Bench:
        """What is open on the bench."""
        return self.hands.shop.bench(self.code)

    @property
    def held(self) -> Sitting | None:
        """The sitting, where one was begun."""
        return self.bench.sitting(self.sitting) if self.sitting is not None else None

    @property
    def person(self) -> str | None:
        """Who types."""
        sitting = self.held
        return (sitting.typed_by or sitting.measured_by) if sitting is not None else None

    def going(self) -> Going:
        """The way along the places, with what this browser took on it."""
        taken = taken_by(self.bench, self.device, self.sitting, self.order)
        return Going(self.order, self.sitting, tuple(record.entry.id for record in taken))

    def done(self) -> set[tuple[str, str]]:
        """The places read in this sitting."""
        return done(self.bench, self.sitting)

    def next(self) -> Stop | None:
        """The next place without a reading, going on from here."""
        return next_stop(list(self.order), self.done(), self.stop)

    def at(self, stop: Stop) -> AtPlace:
        """What is known at a place before anything is typed."""
        bench, sitting = self.bench, self.held
        dimension = bench.dimension(stop.dimension)
        instrument: Instrument | None
        try:
            instrument = bench.instrument(dimension, sitting, None)
        except BenchError:
            instrument = None  # which gauge it is, is asked at the place
        place = bench.place(dimension, stop.place)
        return at_place(bench, dimension, place, instrument=instrument, sitting=sitting)


def at_station(here: Here, station: Station) -> Here:
    """At another station in the same order and sitting, at its first place without a reading."""
    order = tuple(stops(here.bench.sheet, station.id, from_the_end=here.from_the_end, way=here.way))
    stop = next_stop(list(order), here.done(), None) or (order[0] if order else None)
    return replace(here, station=station, order=order, stop=stop)


def left_at(bench: Bench, station: Station) -> int:
    """How many places of a station nobody read yet, and nobody said why not."""
    read = {(each.dimension or "", each.place) for each in bench.build.readings.values() if each.effective}
    return sum(
        (stop.dimension, stop.place) not in read and bench.build.not_measured_because(stop.dimension) is None
        for stop in stops(bench.sheet, station.id)
    )


def here_of(request: Request, hands: Hands, code: str, asked: Mapping[str, str]) -> Here | None:
    """Where a request is, from its address or form; None where there is no such station."""
    bench = hands.shop.bench(code)
    station = bench.sheet.stations.get(request.path_params["station"])
    if station is None:
        return None
    way: Way = "planes" if asked.get("way") == "planes" else "places"
    from_the_end = asked.get("from") == "end"
    order = tuple(stops(bench.sheet, station.id, from_the_end=from_the_end, way=way))
    device = device_of(request)
    sitting = _sitting(bench, asked.get("sitting"), device)
    dimension, _, place = asked.get("at", "").partition("|")
    named = Stop(dimension, place)
    stop = named if named in order else next_stop(list(order), done(bench, sitting), None)
    return Here(
        hands=hands,
        code=code,
        family=family_of(request, code),
        station=station,
        way=way,
        from_the_end=from_the_end,
        order=order,
        sitting=sitting,
        stop=stop or (order[0] if order else None),
        device=device,
    )


def _sitting(bench: Bench, named: str | None, device: str) -> str | None:
    """The sitting named; else the last begun at this browser; else the last of the build."""
    if named in bench.build.sittings:
        return named
    own = [code for code, held in bench.build.sittings.items() if held.entry.device == device]
    return next(reversed(own), next(reversed(bench.build.sittings), None))


def device_of(request: Request) -> str:
    """The name of this browser; a new one where it has none yet."""
    known = request.cookies.get(DEVICE, "")
    if (
        known.startswith("browser-")
        and known.removeprefix("browser-").isalnum()
        and len(known) <= MOST_LETTERS
    ):
        return known
    return f"browser-{secrets.token_hex(4)}"


MOST_LETTERS: Final = 24


def remember_device(answer: Response, here: Here) -> None:
    """Let the browser keep its name."""
    answer.set_cookie(DEVICE, here.device, max_age=400 * 24 * 3600, httponly=True, samesite="strict")
