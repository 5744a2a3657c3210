"""The journal found under a load carries that load, whatever feeds the film."""

import numpy as np
import pytest

from fitwright.physics.bearings.direct import direct_curves
from fitwright.physics.bearings.equilibrium import bearing_equilibrium
from fitwright.physics.bearings.film import film_solution
from fitwright.physics.bearings.geometry import Bearing, Feed, JournalMotion
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from tests.support.compare import absolute, verified

TURNING = JournalMotion(300.0)
FEEDS = {
    "line": Feed(np.pi, half_width=np.inf),
    "hole": Feed(np.pi - 1.0, 0.1, 0.0, 0.0025, 3e5, is_round=True),
    "groove": Feed(0.0, np.inf, 0.0, 0.002, 3e5),
    "half groove": Feed(np.pi, 0.5 * np.pi, 0.0, 0.002, 3e5),
}


def bearing(feed, length_ratio=0.5):
    return Bearing(0.05, 0.05 * length_ratio, 25e-6, feeds=(FEEDS[feed],))


@pytest.mark.parametrize("feed", FEEDS)
@pytest.mark.parametrize("load", [10.0, 1e3, 2e4])
def test_the_film_carries_the_load(feed, load):
    found = bearing_equilibrium(bearing(feed), TURNING, load=load, dynamic_viscosity=0.01, load_angle=0.4)
    print(f"{feed}, {load:g} N: {found.position.eccentricity_ratio:.4f} after {found.solutions} films")
    film = film_solution(
        bearing(feed), found.position, TURNING, dynamic_viscosity=0.01, start=found.film, keep_nodes=True
    )
    verified(film.load, load, by="the film solved anew there", tolerance=1e-6)
    verified(film.load_angle, 0.4, by="the film solved anew there", tolerance=absolute(1e-6))


def test_a_load_turns_the_place_with_it():
    ahead, behind = (
        bearing_equilibrium(
            bearing("groove"), JournalMotion(speed), load=2e3, dynamic_viscosity=0.01, load_angle=angle
        )
        for speed, angle in ((300.0, 0.0), (-300.0, 0.0))
    )
    verified(ahead.position.angle, -behind.position.angle, by="mirror image", tolerance=2e-3)
    e = ahead.position.eccentricity_ratio
    verified(e, behind.position.eccentricity_ratio, by="mirror image", tolerance=2e-4)


def test_fed_at_the_widest_gap_it_is_where_the_curves_say():
    """With the line across where the film widens anyway, the place is that of the flooded bearing."""
    load = 3e3
    found = bearing_equilibrium(bearing("line"), TURNING, load=load, dynamic_viscosity=0.01)
    curves = direct_curves(0.5, [found.position.eccentricity_ratio])
    sommerfeld = 0.01 * 300.0 / (2.0 * np.pi) / (load / (0.05 * 0.025)) * 1e6
    # The line lies opposite the load, not opposite the thinnest film: the film begins elsewhere.
    verified(sommerfeld, curves.sommerfeld_number[0], by="film fed at its widest gap", tolerance=0.03)


def test_says_when_it_finds_nothing():
    with pytest.raises(NotConvergedError):
        bearing_equilibrium(bearing("line"), TURNING, load=1e3, dynamic_viscosity=0.01, most_solutions=2)


@pytest.mark.parametrize(
    "load, motion",
    [(0.0, TURNING), (np.inf, TURNING), (1e3, JournalMotion()), (1e3, JournalMotion(300.0, whirl_speed=1.0))],
)
def test_loads_and_motions_without_a_place(load, motion):
    with pytest.raises(OutOfDomainError):
        bearing_equilibrium(bearing("line"), motion, load=load, dynamic_viscosity=0.01)
