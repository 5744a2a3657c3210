"""In which order the places of a station are measured, from either end."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Literal

from fitwright.model.dimension import Dimension
from fitwright.model.sheet import Sheet

Way = Literal["places", "planes"]


@dataclass(frozen=True, slots=True)
class Stop:
    """One place to measure: a dimension and one of its places."""

    dimension: str
    place: str


def stops(sheet: Sheet, station_id: str, *, from_the_end: bool = False, way: Way = "places") -> list[Stop]:
    """All places of a station in measuring order.

    `way` "places" finishes one dimension before the next; "planes" goes along all dimensions of a
    family plane by plane. From the end (flywheel first), the same order backwards.
    """
    order = [sheet.dimensions[name] for name in sheet.stations[station_id].order]
    found = list(_by_place(order) if way == "places" else _by_plane(order))
    return found[::-1] if from_the_end else found


def _by_place(order: list[Dimension]) -> Iterator[Stop]:
    for dimension in order:
        for place in dimension.places:
            yield Stop(dimension.id, place.id)


def _by_plane(order: list[Dimension]) -> Iterator[Stop]:
    done: set[str] = set()
    for dimension in order:
        family = dimension.family or dimension.id
        if family in done:
            continue
        done.add(family)
        members = [each for each in order if (each.family or each.id) == family]
        for plane in dict.fromkeys(place.plane for place in dimension.places):
            for member in members:
                for place in member.places:
                    if place.plane == plane:
                        yield Stop(member.id, place.id)


def next_stop(order: list[Stop], done: Collection[tuple[str, str]], after: Stop | None) -> Stop | None:
    """The next place without a reading, going on from where one is, then from the start."""
    start = order.index(after) + 1 if after in order else 0
    for stop in (*order[start:], *order[:start]):
        if (stop.dimension, stop.place) not in done:
            return stop
    return None
