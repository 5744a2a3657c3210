"""What holds for every fed bearing and every orbit."""

import math
from functools import cache

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.physics.bearings.curves import curve_coefficients, short_bearing_curves
from fitwright.physics.bearings.fed_bearing import (
    AxialPocket,
    FedBearing,
    FeedHole,
    FullGroove,
    PartialGroove,
    bearing_parameters,
    film_length_ratio,
)
from fitwright.physics.bearings.kernels.supply import bearing_supply
from fitwright.physics.bearings.mobility import short_bearing_map
from fitwright.physics.bearings.orbit import orbit
from fitwright.physics.oil.oil import Oil, oil_parameters

OIL = oil_parameters(Oil(110e-6, 15e-6, 860.0, 3.7e-3))
GRID = np.concatenate([np.linspace(0.02, 0.9, 45), np.linspace(0.91, 0.99, 12)])
feeds = st.sampled_from([FullGroove(0.004), PartialGroove(0.004), FeedHole(0.006), AxialPocket(0.012)])
pressures = st.floats(-9e4, 1.2e6)
speeds = st.floats(0.0, 1200.0)
loads = st.floats(0.0, 60_000.0)
clearances = st.floats(10e-6, 80e-6)
temperatures = st.floats(273.15, 423.15)


@cache
def compiled(feed):
    bearing = FedBearing(0.056, 0.022, feed)
    curves = short_bearing_curves(film_length_ratio(bearing), GRID)
    return bearing_parameters(bearing), curve_coefficients(curves)


def drawn(feed, pressure, temperature, speed, load, clearance):
    return bearing_supply(pressure, temperature, speed, load, clearance, *compiled(feed), OIL, 60)


@given(feeds, pressures, temperatures, speeds, loads, clearances)
def test_it_closes_and_no_oil_comes_from_nowhere(feed, pressure, temperature, speed, load, clearance):
    found = drawn(feed, pressure, temperature, speed, load, clearance)
    flow, by_pressure, _, film, outlet, e, thinnest, power, pushed = found[:9]
    assert found[11]
    assert flow >= pushed > 0.0
    assert by_pressure > 0.0
    assert temperature <= film <= outlet <= temperature + 200.0
    assert 0.0 <= e <= GRID[-1]
    assert 0.0 < thinnest <= clearance
    assert power >= 0.0


@given(feeds, pressures, st.floats(1.0, 5e4), speeds, loads, clearances)
def test_more_pressure_draws_more_and_warms_less(feed, pressure, more, speed, load, clearance):
    low = drawn(feed, pressure, 363.15, speed, load, clearance)
    high = drawn(feed, pressure + more, 363.15, speed, load, clearance)
    assert high[0] > low[0]
    assert high[4] <= low[4] + 1e-8


@given(feeds, temperatures, st.floats(0.0, 1200.0), loads, clearances, st.floats(-1e5, -3e4))
def test_suction_draws_next_to_nothing(feed, temperature, speed, load, clearance, pressure):
    pulled = drawn(feed, pressure, temperature, speed, load, clearance)
    # At ten bar in the same film; 8 Pa are what the rounding leaves.
    pushed = drawn(feed, 1e6, temperature + 100.0, speed, load, clearance)
    assert pulled[0] < 0.02 * pushed[0]


@settings(max_examples=15)
@given(st.lists(st.floats(-2e4, 2e4), min_size=6, max_size=6), st.floats(100.0, 900.0))
def test_no_load_cycle_drives_the_journal_through_the_wall(sizes, speed):
    angle = np.arange(360) * 4.0 * math.pi / 360
    waves = np.array([np.sin(angle), np.cos(angle), np.sin(2 * angle)])
    load = (np.reshape(sizes, (2, 3)) @ waves).T + np.array([0.0, -2000.0])
    found = orbit(
        short_bearing_map(0.4),
        load,
        relative_speed=speed,
        crank_speed=speed,
        journal_diameter=0.05,
        radial_clearance=25e-6,
        dynamic_viscosity=0.01,
    )
    assert 0.0 < found.minimum_film_thickness < 25e-6
    assert (np.hypot(*found.eccentricity_ratio.T) < 1.0).all()
    assert found.closing_distance <= 1e-6
