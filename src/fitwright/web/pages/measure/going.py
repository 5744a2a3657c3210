"""From place to place, and from station to station, without a reading."""

from __future__ import annotations

from dataclasses import replace

from fitwright.bench.order import Stop
from fitwright.web.pages.measure.here import Here, at_station, left_at
from fitwright.web.pages.measure.parts import NOTHING_SAID, SaidPart
from fitwright.web.pages.measure.turn import Turn, moved_to


def pass_on(here: Here, stop: Stop) -> Turn:
    """An empty line goes on where something was read here; else it does nothing."""
    tried = any(
        each.effective and (each.dimension, each.place) == (stop.dimension, stop.place)
        for each in here.bench.build.readings.values()
        if each.body.sitting == here.sitting
    )
    if not tried:
        return Turn(here, SaidPart("", "", "Type what the gauge says. * goes on without a reading.", ""))
    return go_on(here, None)


def go_on(here: Here, number: int | None) -> Turn:
    """On to the next place without a reading, or to the place of that number."""
    if number is None:
        following = here.next()
        onwards = following if following not in (None, here.stop) else _after(here)
        return Turn(moved_to(here, onwards), NOTHING_SAID)
    if not 1 <= number <= len(here.order):
        words = f"There is no place {number}: this station has places 1 to {len(here.order)}."
        return Turn(here, SaidPart("refused", "Not understood", words, ""), status=422)
    return Turn(replace(here, stop=here.order[number - 1]), NOTHING_SAID)


def to_station(here: Here, number: int | None) -> Turn:
    """To the next station with places that nobody read, or to the one of that number."""
    bench = here.bench
    stations = list(bench.sheet.stations.values())
    if number is None:
        index = stations.index(here.station) + 1
        onwards = (*stations[index:], *stations[:index])
        following = next((each for each in onwards if left_at(bench, each)), None)
        if following is None:
            words = "Every place of every station was read. *.3 goes to station 3 all the same."
            return Turn(here, SaidPart("", "", words, ""))
    elif not 1 <= number <= len(stations):
        words = f"There is no station {number}: this engine has stations 1 to {len(stations)}."
        return Turn(here, SaidPart("refused", "Not understood", words, ""), status=422)
    else:
        following = stations[number - 1]
    return Turn(at_station(here, following), SaidPart("", "", f"At {following.title}.", ""))


def _after(here: Here) -> Stop | None:
    """The place that follows, read or not."""
    if here.stop is None:
        return None
    index = here.order.index(here.stop) + 1
    return here.order[index % len(here.order)]
