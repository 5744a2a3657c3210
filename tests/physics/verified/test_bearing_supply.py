"""The heat balance of a fed bearing by a second way, its derivatives, its ends."""

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from scipy.optimize import brentq

from fitwright.data.bearing_tables import bearing_tables
from fitwright.physics.bearings.curves import curve_coefficients, short_bearing_curves
from fitwright.physics.bearings.equilibrium import bearing_equilibrium
from fitwright.physics.bearings.fed_bearing import (
    AxialPocket,
    FedBearing,
    FeedHole,
    FullGroove,
    PartialGroove,
    bearing_parameters,
    film_length,
    film_length_ratio,
)
from fitwright.physics.bearings.feed import groove_flow
from fitwright.physics.bearings.film import film_solution
from fitwright.physics.bearings.geometry import Bearing, Feed, JournalMotion, JournalPosition
from fitwright.physics.bearings.grids import FilmGrid
from fitwright.physics.bearings.kernels.curves import curve_values
from fitwright.physics.bearings.supply import bearing_supply
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.oil.oil import Oil, dynamic_viscosity, oil_parameters
from tests.support.compare import absolute, verified

OIL = Oil(105e-6, 11.4e-6, 880.0)
MULTIGRADE = Oil(110e-6, 15.0e-6, 860.0, 3.7e-3)
FEEDS = [FullGroove(0.004), PartialGroove(0.004), FeedHole(0.006), AxialPocket(0.012)]
CASE = {
    "gauge_pressure": 3e5,
    "supply_temperature": 373.15,
    "angular_speed": 400.0,
    "load": 4000.0,
    "radial_clearance": 27.5e-6,
}
GRID = np.concatenate([np.linspace(0.01, 0.9, 90), np.linspace(0.905, 0.99, 35)])


def bearing_with(feed, **changes):
    return FedBearing(0.056, 0.022, feed, **changes)


@cache
def curves_of(bearing):
    return short_bearing_curves(film_length_ratio(bearing), GRID)


def supply(bearing, oil=OIL, **changes):
    return bearing_supply(bearing, curves_of(bearing), oil, **CASE | changes)


def by_hand(bearing, oil, case):
    """Film temperature of a fully grooved short bearing: closed forms, nested root finding."""
    length, radius, gap = film_length(bearing), 0.5 * bearing.journal_diameter, case["radial_clearance"]
    speed = case["angular_speed"]

    def eccentricity(mu):
        def excess(e):
            root = math.sqrt(math.pi**2 * (1 - e * e) + 16 * e * e)
            carried = mu * speed * radius * length**3 / gap**2 * e * root / (4 * (1 - e * e) ** 2)
            return math.log(carried / (0.5 * case["load"]))

        return brentq(excess, 1e-9, 1 - 1e-9, xtol=1e-14, rtol=1e-14)

    def state(temperature):
        mu = float(dynamic_viscosity(oil, temperature, shear_rate=speed * radius / gap))
        e = eccentricity(mu)
        pushed = groove_flow(
            case["gauge_pressure"],
            journal_diameter=2 * radius,
            radial_clearance=gap,
            land_length=length,
            dynamic_viscosity=mu,
            eccentricity_ratio=e,
        )
        friction = 2 * 2 * math.pi * mu * speed**2 * radius**3 * length / gap / math.sqrt(1 - e * e)
        return e, pushed, friction

    def excess(temperature):
        _, flow, friction = state(temperature)
        rise = friction / (bearing.heat_capacity * flow)
        return temperature - case["supply_temperature"] - 0.5 * (rise**-4 + 200.0**-4) ** -0.25

    temperature = brentq(excess, case["supply_temperature"], case["supply_temperature"] + 90, xtol=1e-11)
    return temperature, *state(temperature)


@pytest.mark.parametrize(
    "changes",
    [
        {},
        {"angular_speed": 94.0, "load": 500.0},
        {"angular_speed": 838.0, "load": 9000.0, "gauge_pressure": 5.5e5},
    ],
)
@pytest.mark.parametrize("oil", [OIL, MULTIGRADE])
def test_the_heat_balance_by_closed_forms_and_another_root_finder(changes, oil):
    bearing = bearing_with(FullGroove(0.004))
    found = supply(bearing, oil, **changes)
    temperature, e, flow, friction = by_hand(bearing, oil, CASE | changes)
    verified(found.film_temperature, temperature, by="nested brentq", tolerance=absolute(1e-3))
    verified(found.eccentricity_ratio, e, by="nested brentq", tolerance=absolute(2e-5))
    # 3e-5: the supply pressure is rounded at zero by 1 kPa; the rest is interpolation of the curves.
    verified(found.flow, flow, by="nested brentq", tolerance=1e-4)
    verified(found.friction_power, friction, by="nested brentq", tolerance=1e-4)


DIRECT_FEEDS = {
    "full groove": (FullGroove(0.004), Feed(0.0, half_arc=math.pi, half_width=0.002), 0.01),
    "half groove": (PartialGroove(0.004), Feed(0.0, half_arc=0.5 * math.pi, half_width=0.002), 0.16),
    "hole": (FeedHole(0.006), Feed(0.0, half_arc=0.003 / 0.028, half_width=0.003, is_round=True), 0.25),
    "pocket": (AxialPocket(0.012), Feed(0.0, half_arc=0.001 / 0.028, half_width=0.006), 0.12),
}


@pytest.mark.parametrize("kind", DIRECT_FEEDS)
@pytest.mark.parametrize("speed, load", [(94.0, 600.0), (400.0, 3000.0), (800.0, 8000.0)])
def test_the_flow_against_direct_solutions_of_the_film(kind, speed, load):
    """One viscosity; the feed opposite the load holds its pressure, the film ruptures and keeps its oil."""
    feed, held, tolerance = DIRECT_FEEDS[kind]
    bearing = bearing_with(feed, carried_share=0.0)
    curves = bearing_tables().curves(film_length_ratio(bearing))
    ratios = []
    for pressure in (5e4, 5e5):
        case = CASE | {"angular_speed": speed, "load": load, "gauge_pressure": pressure}
        found = bearing_supply(bearing, curves, OIL, **case)
        direct = bearing_equilibrium(
            Bearing(0.056, 0.022, 27.5e-6, feeds=(replace(held, gauge_pressure=pressure),)),
            JournalMotion(speed),
            load=load,
            dynamic_viscosity=float(dynamic_viscosity(OIL, 373.15)),
            load_angle=-math.pi,
            grid=FilmGrid(96, 32),
        )
        ratios.append(found.flow / direct.film.supply_flow)
        off = abs(found.eccentricity_ratio - direct.position.eccentricity_ratio)
        assert off < (0.08 if kind == "half groove" else 0.025), off
    verified(ratios, [1.0, 1.0], by="direct solution of the film", tolerance=tolerance)


@pytest.mark.parametrize("feed", FEEDS, ids=lambda feed: type(feed).__name__)
def test_the_warming_is_the_power_over_the_flow(feed):
    bearing = bearing_with(feed, carried_share=0.8, mean_weight=0.6)
    found = supply(bearing)
    rise = 0.8 * found.friction_power / (bearing.heat_capacity * found.flow)
    rise = (rise**-4 + 200.0**-4) ** -0.25
    verified(found.outlet_temperature - 373.15, rise, by="power over flow", tolerance=1e-10)
    verified(found.film_temperature - 373.15, 0.6 * rise, by="power over flow", tolerance=1e-9)


DERIVATIVE_CASES = [
    {},
    {"angular_speed": 838.0, "load": 9000.0},
    {"gauge_pressure": 300.0},
    {"gauge_pressure": -500.0},
    {"angular_speed": 0.0},
    {"load": 0.0},
    {"load": 60_000.0, "angular_speed": 700.0},
]


def five_points(function, x, h):
    near, far = function(x + h) - function(x - h), function(x + 2 * h) - function(x - 2 * h)
    return (8.0 * near - far) / (12.0 * h)


@pytest.mark.parametrize("oil", [OIL, MULTIGRADE], ids=["straight", "multigrade"])
@pytest.mark.parametrize("feed", FEEDS, ids=lambda feed: type(feed).__name__)
def test_the_derivatives_against_central_differences(feed, oil):
    bearing = bearing_with(feed, feed_angle=0.4)
    worst = 0.0
    for changes in DERIVATIVE_CASES:
        case = CASE | changes
        found = supply(bearing, oil, **changes)
        h = max(20.0, 1e-3 * abs(case["gauge_pressure"]))
        pressure = five_points(
            lambda p, case=case: supply(bearing, oil, **case | {"gauge_pressure": p}).flow,
            case["gauge_pressure"],
            h,
        )
        clearance = five_points(
            lambda c, case=case: supply(bearing, oil, **case | {"radial_clearance": c}).flow,
            case["radial_clearance"],
            5e-9,
        )
        worst = max(worst, abs(found.flow_by_pressure / pressure - 1.0))
        worst = max(worst, abs(found.flow_by_clearance / clearance - 1.0))
    verified(worst, 0.0, by="five-point differences, relative", tolerance=absolute(1e-7))


@pytest.mark.parametrize("feed", FEEDS, ids=lambda feed: type(feed).__name__)
def test_flow_and_slope_are_smooth_across_zero_pressure_and_never_turn(feed):
    bearing = bearing_with(feed)
    steps = np.concatenate([np.linspace(-5e4, -4e3, 20), np.arange(-3.98e3, 4e3, 20.0), [5e4]])
    found = [supply(bearing, gauge_pressure=p) for p in steps]
    flows = np.array([each.flow for each in found])
    slopes = np.array([each.flow_by_pressure for each in found])
    assert (flows > 0.0).all()
    assert (np.diff(flows) > 0.0).all()
    jump = np.abs(np.diff(slopes[20:-1])).max() / slopes.max()
    print(f"largest step of the slope over 20 Pa: {jump:.3g} of its maximum")
    assert jump < 0.03
    assert flows[0] < 2e-3 * supply(bearing).flow


def test_at_rest_nothing_warms_and_only_pressure_pushes():
    found = supply(bearing_with(FullGroove(0.004)), angular_speed=0.0)
    assert found.film_temperature == found.outlet_temperature == CASE["supply_temperature"]
    assert found.friction_power == found.hydrodynamic_demand == 0.0
    assert found.flow == found.pressure_flow
    assert not found.inside_curves
    assert any("no film thickness" in caution for caution in found.cautions)


def test_without_load_the_friction_is_that_of_concentric_cylinders():
    bearing = bearing_with(FeedHole(0.006))
    found = supply(bearing, load=0.0)
    mu = float(dynamic_viscosity(OIL, found.film_temperature))
    radius, length = 0.028, 0.022
    petroff = 2.0 * math.pi * mu * 400.0**2 * radius**3 * length / 27.5e-6
    # The curves begin at 0.01 and go on to zero in a straight line.
    verified(found.friction_power, petroff, by="Petroff", tolerance=1e-4)


def test_a_groove_without_pressure_starves_a_fast_bearing():
    fast = {"angular_speed": 838.0, "load": 9000.0}
    starved = supply(bearing_with(FullGroove(0.004)), **fast, gauge_pressure=1e4)
    assert starved.starved
    assert any("Starved" in caution for caution in starved.cautions)
    assert starved.flow < 0.25 * starved.hydrodynamic_demand
    fed = supply(bearing_with(FullGroove(0.004)), angular_speed=94.0, load=500.0)
    assert not fed.starved
    assert fed.cautions == ()


def test_a_film_at_the_starved_share_carries_somewhat_less():
    """What the flag stands for: at its share the direct solution has begun to lose load."""
    curves = bearing_tables().curves(9.0 / 56.0)
    speed, viscosity, e = 800.0, 0.0075, 0.6
    turns = speed / (2.0 * math.pi)
    inverse, attitude, side_flow = curve_values(curve_coefficients(curves), e)[:3]
    full = 2.0 * inverse * viscosity * turns * 0.009 * 0.056 * (0.028 / 27.5e-6) ** 2
    demand = side_flow * 0.028 * 27.5e-6 * turns * 0.009
    pressure = (
        0.25
        * demand
        / float(
            groove_flow(
                1.0,
                journal_diameter=0.056,
                radial_clearance=27.5e-6,
                land_length=0.009,
                dynamic_viscosity=viscosity,
                eccentricity_ratio=e,
            )
        )
    )
    held = Feed(0.0, half_arc=math.pi, half_width=0.002, gauge_pressure=pressure)
    film = film_solution(
        Bearing(0.056, 0.022, 27.5e-6, feeds=(held,)),
        JournalPosition(e, -attitude),
        JournalMotion(speed),
        dynamic_viscosity=viscosity,
        grid=FilmGrid(96, 32),
    )
    print(f"at a quarter of the demand the film carries {film.load / full:.3f} of what it carries in plenty")
    assert 0.85 < film.load / full < 0.97


def test_a_full_groove_is_two_bearings_side_by_side():
    grooved = bearing_with(FullGroove(0.004))
    vector = bearing_parameters(grooved)
    assert (vector[1], vector[2]) == (pytest.approx(0.009), 2.0)
    # At the same viscosity each film of half the load sits as the whole does.
    found = supply(replace(grooved, carried_share=0.0))
    lone = FedBearing(0.056, 0.009, FeedHole(0.003), carried_share=0.0)
    half = supply(lone, load=0.5 * CASE["load"])
    verified(found.eccentricity_ratio, half.eccentricity_ratio, by="one film of it", tolerance=1e-12)


def test_a_heat_balance_that_did_not_close_is_an_error():
    with pytest.raises(NotConvergedError) as error:
        supply(bearing_with(FullGroove(0.004)), largest_iterations=1)
    assert error.value.iterations == 1


def test_curves_of_another_length_ratio_are_refused():
    bearing = bearing_with(FeedHole(0.006))
    with pytest.raises(OutOfDomainError, match="length_ratio"):
        bearing_supply(bearing, short_bearing_curves(0.9, GRID), OIL, **CASE)


def test_the_kernel_says_itself_whether_it_closed():
    from fitwright.physics.bearings.kernels.supply import bearing_supply as kernel

    bearing = bearing_with(FullGroove(0.004))
    coefficients = curve_coefficients(curves_of(bearing))
    arguments = (3e5, 373.15, 400.0, 4000.0, 27.5e-6, bearing_parameters(bearing), coefficients)
    assert kernel(*arguments, oil_parameters(OIL), 60)[11]
    assert not kernel(*arguments, oil_parameters(OIL), 2)[11]


@pytest.mark.parametrize("feed", FEEDS, ids=lambda feed: type(feed).__name__)
@pytest.mark.parametrize("guess", [373.15, 384.0, 420.0, 1000.0])
def test_where_the_search_begins_does_not_matter(feed, guess):
    from fitwright.physics.bearings.kernels.supply import bearing_supply as kernel

    bearing = bearing_with(feed)
    coefficients = curve_coefficients(curves_of(bearing))
    arguments = (3e5, 373.15, 400.0, 4000.0, 27.5e-6, bearing_parameters(bearing), coefficients)
    usual = kernel(*arguments, oil_parameters(MULTIGRADE), 60)
    guessed = kernel(*arguments, oil_parameters(MULTIGRADE), 60, guess)
    verified(guessed[:10], usual[:10], by="from the supply's temperature", tolerance=2e-9)
