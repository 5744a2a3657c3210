"""The operating points at which the oil system is looked at."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import Final

import numpy as np

from fitwright.model.circuit import Circuit
from fitwright.quantity import FloatArray

SPEEDS: Final = 22
"""Speeds on each curve."""

CLOSER: Final = 1.7
"""Exponent by which slow speeds stand closer on a curve, where it bends most."""

SLOWEST: Final = 200.0 * pi / 30.0
"""The slowest speed on a curve: cranking [rad/s]."""

COLD, WARM, WORKING = 293.15, 333.15, 363.15
"""Oil temperatures at which a curve is drawn besides those of hot oil [K]."""

NEAR: Final = 8.0
"""A curve is left out where one of hot oil is nearer than this [K]."""


@dataclass(frozen=True, slots=True)
class OilPoint:
    """A speed of the crank [rad/s] and a temperature of the oil that the pump delivers [K], with a name."""

    title: str
    angular_speed: float
    oil_temperature: float


def curve_temperatures(circuit: Circuit) -> tuple[float, ...]:
    """Oil temperatures at which a curve is drawn [K], from cold to hot."""
    hot = [each.si for each in circuit.oil_temperatures]
    others = [each for each in (COLD, WARM, WORKING) if all(abs(each - one) > NEAR for one in hot)]
    return tuple(sorted({*hot, *others}))


def curve_speeds(circuit: Circuit) -> FloatArray:
    """Speeds of the crank on a curve [rad/s]: cranking to top, closer where slow, idle among them."""
    slowest, top = min(SLOWEST, circuit.idle_speed.si), circuit.top_speed.si
    speeds = slowest + (top - slowest) * np.linspace(0.0, 1.0, SPEEDS) ** CLOSER
    speeds[np.argmin(np.abs(speeds - circuit.idle_speed.si))] = circuit.idle_speed.si
    return np.asarray(speeds)


def named_points(circuit: Circuit) -> tuple[OilPoint, ...]:
    """Hot idle first, then those that the sheet names, then those of its stop values; each once."""
    hottest = max(each.si for each in circuit.oil_temperatures)
    found = [OilPoint("hot idle", circuit.idle_speed.si, hottest)]
    found.extend(
        OilPoint(each.title, each.speed.si, each.oil_temperature.si) for each in circuit.operating_points
    )
    found.extend(
        OilPoint("stop value", each.speed.si, each.oil_temperature.si)
        for each in circuit.stops
        if each.lowest_pressure is not None and each.speed is not None and each.oil_temperature is not None
    )
    states = {_state(each): each for each in reversed(found)}
    return tuple(each for each in found if states[_state(each)] is each)


def _state(point: OilPoint) -> tuple[float, float]:
    return round(point.angular_speed, 6), round(point.oil_temperature, 6)
