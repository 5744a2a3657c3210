"""Films of journal bearings: one direct solution, the journal under a load, points out of the tables."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from benchmarks.figure import Figure, quantile, timed
from fitwright.data.bearing_tables import bearing_tables
from fitwright.physics.bearings.equilibrium import bearing_equilibrium
from fitwright.physics.bearings.film import film_solution
from fitwright.physics.bearings.geometry import Bearing, Feed, JournalMotion, JournalPosition
from fitwright.physics.bearings.grids import FilmGrid
from fitwright.physics.bearings.steady import SteadyPoint, steady_point

BEARING = Bearing(0.05, 0.025, 25e-6, feeds=(Feed(np.pi, half_width=np.inf, gauge_pressure=3e5),))
MOTION = JournalMotion(journal_speed=314.0)
VISCOSITY = 0.01
LOADS = (300.0, 1e3, 3e3, 1e4, 3e4)
POINTS = 1_000_000
GRID = FilmGrid(96, 32)


def figures() -> Iterator[Figure]:
    """Times of direct solutions and of the tables, and their ratio."""
    # A tilt too small to matter keeps the solver from halving the bearing.
    films = [
        film_solution(BEARING, JournalPosition(e, 0.4, 1e-12), MOTION, dynamic_viscosity=VISCOSITY, grid=GRID)
        for e in (0.3, 0.7, 0.95)
    ]
    residual = max(film.mass_residual for film in films)
    yield Figure(
        "film solved directly, 96 x 32, whole width",
        1e3 * max(_of_film(e, 1e-12) for e in (0.3, 0.7, 0.95)),
        "ms",
        f"median of 21, slowest of three eccentricities; relative L1 of the mass balance {residual:.0e}",
        most=20.0,
    )
    yield Figure(
        "the same, symmetric half",
        1e3 * max(_of_film(e, 0.0) for e in (0.3, 0.7, 0.95)),
        "ms",
        "median of 21, slowest of three eccentricities",
        most=20.0,
    )
    direct = [quantile(timed(lambda load=load: _equilibrium(load), 11), 0.5) for load in LOADS]
    yield Figure(
        "journal under a load, by direct solution",
        1e3 * max(direct),
        "ms",
        f"median of 11, slowest of loads from {LOADS[0]:g} to {LOADS[-1]:g} N; 96 x 32, load met to 1e-6",
        most=50.0,
    )
    many = _arguments()
    seconds = quantile(timed(lambda: steady_point(bearing_tables(), **many), 5), 0.5)
    inside = float(np.mean(_points(many).inside))
    yield Figure(
        "steady points out of the tables",
        POINTS / seconds,
        "/s",
        f"median of 5 batches of a million, no two alike in size, oil or load; {inside:.2%} inside",
        least=1e6,
    )
    yield Figure(
        "tables faster than direct solution",
        float(np.median(direct)) / (seconds / POINTS),
        "x",
        "median time of the journal under a load over the time of one steady point",
        least=1000.0,
    )


def _of_film(eccentricity_ratio: float, tilt: float) -> float:
    position = JournalPosition(eccentricity_ratio, 0.4, tilt)

    def solve():
        film_solution(BEARING, position, MOTION, dynamic_viscosity=VISCOSITY, grid=GRID)

    return quantile(timed(solve, 21), 0.5)


def _equilibrium(load: float) -> None:
    bearing_equilibrium(BEARING, MOTION, load=load, dynamic_viscosity=VISCOSITY, grid=GRID)


def _arguments() -> dict[str, np.ndarray]:
    chance = np.random.default_rng(1)
    return {
        "journal_diameter": np.full(POINTS, 0.05),
        "bearing_length": chance.uniform(0.01, 0.05, POINTS),
        "radial_clearance": chance.uniform(15e-6, 40e-6, POINTS),
        "dynamic_viscosity": chance.uniform(0.004, 0.05, POINTS),
        "angular_speed": chance.uniform(60.0, 700.0, POINTS),
        "load": 10.0 ** chance.uniform(1.5, 4.0, POINTS),
    }


def _points(many: dict[str, np.ndarray]) -> SteadyPoint:
    return steady_point(bearing_tables(), **many)
