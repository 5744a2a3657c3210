"""Bearings: what a fed one draws, and all journals of a five-cylinder over the cycle."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import cache

import numpy as np

from benchmarks.figure import Figure, quantile, timed
from fitwright.data.bearing_tables import bearing_tables
from fitwright.physics.bearings.curves import curve_coefficients
from fitwright.physics.bearings.fed_bearing import (
    FedBearing,
    FullGroove,
    bearing_parameters,
    film_length_ratio,
)
from fitwright.physics.bearings.mobility import MobilityMap
from fitwright.physics.bearings.orbit import Orbit, orbit
from fitwright.physics.oil.oil import Oil, oil_parameters
from fitwright.physics.train.bearing_loads import (
    CylinderPlace,
    MovingMasses,
    TrainLoads,
    cylinder_loads,
    train_loads,
)
from fitwright.physics.train.gas_force import StatedCycle, gas_force, stated_pressure
from fitwright.physics.train.kinematics import CrankGeometry

SPEED = 600.0
ANGLES = 720
CRANK = CrankGeometry(0.046, 0.148)
FIRING = (0.0, 576.0, 144.0, 432.0, 288.0)


def figures() -> Iterator[Figure]:
    """Time of one fed bearing, and of eleven orbits with their loads."""
    calls = 20_000
    for name, guess in (("", 0.0), (", begun nearby", 1.0)):
        seconds = quantile(timed(_draws(calls, guess), 9), 0.5)
        yield Figure(
            f"fed bearing: flow, heat balance, slopes{name}",
            1e6 * seconds / calls,
            "us",
            f"median of 9 runs of {calls} calls at different pressures, multigrade oil",
        )
    orbits = five_cylinder()
    seconds = quantile(timed(five_cylinder, 9), 0.5)
    thinnest = min(each.minimum_film_thickness for each in orbits)
    yield Figure(
        "orbits of 6 mains and 5 big ends, one operating point",
        1e3 * seconds,
        "ms",
        f"median of 9; loads included, 1 degree, closed to 1e-6; thinnest film {thinnest * 1e6:.2f} um",
        most=100.0,
    )


def five_cylinder() -> list[Orbit]:
    """Orbits of all bearings of a five-cylinder engine at one speed."""
    loads = five_cylinder_loads()
    big_end, main = _maps()
    usual = {"crank_speed": SPEED, "dynamic_viscosity": 0.008}
    rods = [
        orbit(
            big_end,
            loads.big_end[k],
            relative_speed=loads.relative_speed[k],
            journal_diameter=0.050,
            radial_clearance=26e-6,
            **usual,
        )
        for k in range(5)
    ]
    mains = [
        orbit(
            main,
            loads.main[k],
            relative_speed=SPEED,
            journal_diameter=0.056,
            radial_clearance=27.5e-6,
            film_count=2,
            **usual,
        )
        for k in range(6)
    ]
    return rods + mains


@cache
def _maps() -> tuple[MobilityMap, MobilityMap]:
    """Maps of the big ends and of one land of the mains."""
    return bearing_tables().mobility_map(0.36), bearing_tables().mobility_map(0.16)


def five_cylinder_loads() -> TrainLoads:
    """Loads of that engine."""
    theta = np.arange(ANGLES) * 4.0 * math.pi / ANGLES
    pressure = stated_pressure(CRANK, StatedCycle(7.5e6, math.radians(13.0), 10.5), theta)
    masses = MovingMasses(0.40, 0.52, 0.040)
    one = cylinder_loads(CRANK, masses, gas_force(pressure, bore=0.081), angular_speed=SPEED)
    places = [CylinderPlace(k, math.radians(angle)) for k, angle in enumerate(FIRING)]
    return train_loads(CRANK, one, places, angular_speed=SPEED, rotating_masses=[0.2] * 5)


def _draws(calls: int, guess: float) -> Callable[[], float]:
    """So many calls, each begun at the film temperature of the last one or at the supply's."""
    from numba import njit

    from fitwright.physics.bearings.kernels.supply import bearing_supply

    bearing = FedBearing(0.056, 0.022, FullGroove(0.004))
    vector = bearing_parameters(bearing)
    curves = curve_coefficients(bearing_tables().curves(film_length_ratio(bearing)))
    oil = oil_parameters(Oil(110e-6, 15e-6, 860.0, 3.7e-3))

    @njit
    def loop(calls, vector, curves, oil, share):
        total, film = 0.0, 0.0
        for i in range(calls):
            found = bearing_supply(
                2e5 + i, 373.15, 400.0, 3000.0, 27.5e-6, vector, curves, oil, 60, share * film
            )
            total, film = total + found[0], found[3]
        return total

    return lambda: loop(calls, vector, curves, oil, guess)
