"""Laws that every solved film keeps, whatever its bearing, feed and motion."""

import dataclasses

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.physics.bearings.film import film_solution
from fitwright.physics.bearings.geometry import Bearing, Feed, JournalMotion, JournalPosition
from fitwright.physics.bearings.grids import FilmGrid
from tests.support.compare import absolute, verified

CLEARANCE = 1e-3
GRID = FilmGrid(48, 8)
ANGLES = st.floats(0.0, 6.28)
PRESSURES = st.floats(1e4, 1e7)
LINES = st.builds(Feed, angle=ANGLES, half_width=st.just(np.inf), gauge_pressure=st.just(0.0) | PRESSURES)
GROOVES = st.builds(
    Feed, angle=ANGLES, half_arc=st.floats(0.1, 4.0), half_width=st.just(0.03), gauge_pressure=PRESSURES
)
HOLES = st.builds(
    Feed,
    angle=ANGLES,
    half_arc=st.floats(0.1, 0.3),
    place=st.sampled_from([0.0, 0.05]),
    half_width=st.floats(0.03, 0.05),
    gauge_pressure=PRESSURES,
    is_round=st.booleans().map(lambda _: True),
)
BEARINGS = st.builds(
    Bearing,
    journal_diameter=st.just(2.0),
    bearing_length=st.floats(0.3, 2.4),
    radial_clearance=st.just(CLEARANCE),
    taper=st.sampled_from([0.0, 1e-6]),
    feeds=st.tuples(LINES | GROOVES | HOLES),
)
POSITIONS = st.builds(
    JournalPosition, eccentricity_ratio=st.floats(0.02, 0.97), angle=ANGLES, tilt=st.sampled_from([0.0, 0.02])
)
TURNING = st.sampled_from([JournalMotion(10.0), JournalMotion(-10.0), JournalMotion(0.0, 5.0, -2.0)])


@settings(max_examples=40, deadline=None)
@given(bearing=BEARINGS, position=POSITIONS, motion=TURNING)
def test_full_or_ruptured_and_nothing_lost(bearing, position, motion):
    film = film_solution(bearing, position, motion, dynamic_viscosity=1.0, grid=GRID)
    largest = max(film.maximum_pressure, 1.0)
    assert film.gauge_pressure.min() >= -1e-9 * largest
    assert -1e-9 <= film.film_fraction.min() <= film.film_fraction.max() <= 1.0 + 1e-9
    assert not (film.gauge_pressure[film.ruptured] != 0.0).any()
    assert film.mass_residual < 1e-9
    scale = absolute(1e-8 * (abs(film.side_flow) + CLEARANCE))
    verified(film.supply_flow, film.side_flow, by="what enters leaves", tolerance=scale)
    verified(sum(film.end_flows), film.side_flow, by="both ends", tolerance=scale)


@settings(max_examples=15, deadline=None)
@given(bearing=BEARINGS, position=POSITIONS, factor=st.floats(0.01, 100.0))
def test_pressure_grows_with_viscosity_and_feed(bearing, position, factor):
    motion = JournalMotion(10.0)
    thicker = dataclasses.replace(
        bearing,
        feeds=tuple(
            dataclasses.replace(feed, gauge_pressure=factor * feed.gauge_pressure) for feed in bearing.feeds
        ),
    )
    film = film_solution(bearing, position, motion, dynamic_viscosity=1.0, grid=GRID)
    scaled = film_solution(thicker, position, motion, dynamic_viscosity=factor, grid=GRID)
    for name, expected in (
        ("load", factor * film.load),
        ("side_flow", film.side_flow),
        ("friction_torque", factor * film.friction_torque),
    ):
        # A line where the film is thinnest feeds next to nothing: not a number to compare relatively.
        allowed = absolute(1e-9 * abs(expected) + 1e-12)
        verified(getattr(scaled, name), expected, by="similarity", tolerance=allowed)


@settings(max_examples=15, deadline=None)
@given(
    bearing=BEARINGS,
    position=POSITIONS,
    rate=st.floats(-1.0, 1.0),
    whirl=st.floats(0.1, 1.0) | st.floats(-1.0, -0.1),
)
def test_squeezed_films_carry_where_they_are_pressed(bearing, position, rate, whirl):
    motion = JournalMotion(eccentricity_rate=rate, whirl_speed=whirl)
    unfed = dataclasses.replace(bearing, feeds=())
    film = film_solution(unfed, position, motion, dynamic_viscosity=1.0, grid=GRID)
    assert film.gauge_pressure.min() >= -1e-9 * film.maximum_pressure
    assert film.maximum_pressure > 0.0
    # The film resists: its force on the journal, minus the load, opposes the motion.
    away = np.array([np.cos(position.angle), np.sin(position.angle)])
    across = np.array([-away[1], away[0]])
    moving = rate * away + whirl * position.eccentricity_ratio * across
    load = film.load * np.array([np.cos(film.load_angle), np.sin(film.load_angle)])
    assert load @ moving > 0.0
