"""Films over the cycle of the five-cylinder example, as command and page ask for them."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi

from benchmarks.figure import Figure, quantile, timed
from fitwright.assess.oil.desk import OilDesk, oil_case
from fitwright.assess.oil.points import OilPoint
from fitwright.assess.results import State
from tests.support.story import Story

SPEEDS = (900.0, 4000.0, 6000.0)
HOT = 383.15


def figures() -> Iterator[Figure]:
    """The slowest of three operating points: circuit solved, loads, six mains and five big ends."""
    desk = OilDesk(oil_case(Story.of("corrie-five").assessor(State.CURRENT).judge))
    taken = []
    for speed in SPEEDS:
        point = OilPoint("", speed * pi / 30.0, HOT)
        taken.append(quantile(timed(lambda point=point: desk.films_over_cycle(point), 15), 0.5))
    yield Figure(
        "films over the cycle of the Corrie Five, one operating point",
        1e3 * max(taken),
        "ms",
        "circuit, loads, 6 mains and 5 big ends with measured clearances; median of 15, slowest of 3 speeds",
        most=100.0,
    )
