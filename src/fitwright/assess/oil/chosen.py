"""Operating points besides those that a sheet names: one of a reader's own, and those of the card."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi
from typing import Final

from fitwright.assess.oil.points import OilPoint, curve_temperatures
from fitwright.model.circuit import Circuit

COLDEST, HOTTEST = 243.15, 423.15
"""Between these oil temperatures a point of one's own may lie [K]."""

FASTEST: Final = 1.2
"""It may be so many times as fast as the top speed."""

STEPS: Final = (1000, 1500, 2000, 2500, 3000, 4000, 5000, 6000, 7000, 8000, 9000, 10000, 12000)
"""Speeds of the card's rows besides idle and what lies below it [rev/min]."""

SLOW_STEPS: Final = (750, 1000, 1250, 1500, 1750, 2000, 2250, 2500, 3000)
"""The same for engines that turn no faster than the last of them."""

MOST_ROWS: Final = 10
MOST_TEMPERATURES: Final = 4
NEAR: Final = 0.15
"""A row is left out where idle is nearer than this share of it."""

RPM: Final = pi / 30.0


def is_within(circuit: Circuit, point: OilPoint) -> bool:
    """Whether a point of one's own lies where the circuit can be asked about."""
    fast = FASTEST * circuit.top_speed.si
    return 0.0 < point.angular_speed <= fast and COLDEST <= point.oil_temperature <= HOTTEST


def card_temperatures(circuit: Circuit) -> tuple[float, ...]:
    """Oil temperatures of the card's columns [K], the hottest always among them."""
    return curve_temperatures(circuit)[-MOST_TEMPERATURES:]


def card_speeds(circuit: Circuit) -> tuple[float, ...]:
    """Speeds of the card's rows [rad/s]: cranking, idle, then round ones up to the top."""
    idle, top = circuit.idle_speed.si, circuit.top_speed.si
    slow = {each.speed.si for each in circuit.operating_points if each.speed.si < (1.0 - NEAR) * idle}
    steps = SLOW_STEPS if top <= SLOW_STEPS[-1] * RPM else STEPS
    round_ones = [each * RPM for each in steps if (1.0 + NEAR) * idle < each * RPM <= 1.0001 * top]
    return (*sorted(slow)[-1:], idle, *_thinned(round_ones, MOST_ROWS - 2))


def _thinned(speeds: Sequence[float], most: int) -> Sequence[float]:
    """At most so many of them, the last always among them."""
    if len(speeds) <= most:
        return speeds
    return [*speeds[: most - 1], speeds[-1]]


def card_points(circuit: Circuit) -> tuple[OilPoint, ...]:
    """The points of the card, row by row."""
    return tuple(
        OilPoint("card", speed, each) for speed in card_speeds(circuit) for each in card_temperatures(circuit)
    )
