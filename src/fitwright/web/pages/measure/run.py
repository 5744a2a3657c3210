"""All places of a station, with what was read at each in this sitting; each can be gone to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from fitwright.bench.order import Stop
from fitwright.bench.progress import reading_words
from fitwright.web.addresses import measure_address, parts_address
from fitwright.web.pages.measure.here import Here
from fitwright.web.pages.measure.place import address_of
from fitwright.web.pages.measure.words import place_words


@dataclass(frozen=True, slots=True)
class PlaceLine:
    """A place with its number, what was read there, and whether one is there."""

    number: int
    words: str
    address: str
    shown: str
    here: bool


@dataclass(frozen=True, slots=True)
class DimensionPart:
    """The places of one dimension that follow each other; why it is not measured, if it is not."""

    title: str
    because: str
    here: bool
    places: tuple[PlaceLine, ...]


@dataclass(frozen=True, slots=True)
class EyeLine:
    """An eye check of this station, its last answer, and where it is answered."""

    question: str
    answer: str
    address: str


@dataclass(frozen=True, slots=True)
class RunPart:
    """All places, how many of them are read, the ways to go along them, and what is only looked at."""

    count: str
    eye_checks: tuple[EyeLine, ...]
    groups: tuple[DimensionPart, ...]
    forwards: str
    backwards: str
    by_planes: str
    from_the_end: bool
    planes: bool


def run_part(here: Here) -> RunPart:
    """The places of a station in the order in which one goes along them."""
    done = here.done()
    read = sum((stop.dimension, stop.place) in done for stop in here.order)
    return RunPart(
        count=f"{read} of {len(here.order)} places read in this sitting",
        eye_checks=tuple(_eye_checks(here)),
        groups=tuple(_groups(here)),
        forwards=_in_order(here, from_the_end=False, planes=here.way == "planes"),
        backwards=_in_order(here, from_the_end=True, planes=here.way == "planes"),
        by_planes=_in_order(here, from_the_end=here.from_the_end, planes=here.way != "planes"),
        from_the_end=here.from_the_end,
        planes=here.way == "planes",
    )


def _eye_checks(here: Here) -> Iterator[EyeLine]:
    answers = {held.body.check: held.body for held in here.bench.build.eye_checks}
    for check in here.station.eye_checks:
        given = answers.get(check.id)
        words = f", {given.words}" if given is not None and given.words else ""
        yield EyeLine(
            question=check.question,
            answer=f"{'yes' if given.answer else 'no'}{words}" if given is not None else "",
            address=parts_address(here.code, here.family, do="eye", check=check.id),
        )


def _in_order(here: Here, *, from_the_end: bool, planes: bool) -> str:
    """The station from its beginning in another order."""
    return measure_address(
        here.code,
        here.family,
        station=here.station.id,
        sitting=here.sitting or "",
        from_="end" if from_the_end else "",
        way="planes" if planes else "",
    )


def _groups(here: Here) -> Iterator[DimensionPart]:
    bench = here.bench
    shown = _shown(here)
    for name, group in groupby(enumerate(here.order, start=1), key=lambda each: each[1].dimension):
        dimension, stops = bench.dimension(name), list(group)
        read = any(shown.get(stop) for _, stop in stops)
        yield DimensionPart(
            title=dimension.title,
            here=here.stop is not None and here.stop.dimension == name,
            because="" if read else bench.build.not_measured_because(name) or "",
            places=tuple(
                PlaceLine(
                    number=number,
                    words=place_words(bench.sheet, dimension, stop.place),
                    address=address_of(here, stop, here.family),
                    shown=", ".join(shown.get(stop, ())),
                    here=stop == here.stop,
                )
                for number, stop in stops
            ),
        )


def _shown(here: Here) -> dict[Stop, list[str]]:
    """What was read at each place in this sitting."""
    found: dict[Stop, list[str]] = {}
    for record in here.bench.build.readings.values():
        if record.effective and record.body.sitting == here.sitting:
            found.setdefault(Stop(record.dimension or "", record.place), []).append(reading_words(record))
    return found
