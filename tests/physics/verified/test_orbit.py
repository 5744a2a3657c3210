"""The orbit against a second integrator, steady curves, laws of the motion; and the film over roughness."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from fitwright.data.bearing_tables import bearing_tables
from fitwright.physics.bearings.curves import curve_coefficients, short_bearing_curves
from fitwright.physics.bearings.kernels.curves import curve_values, eccentricity_for
from fitwright.physics.bearings.mobility import short_bearing_map, short_bearing_mobility
from fitwright.physics.bearings.orbit import orbit
from fitwright.physics.bearings.touching import PredictedFilm, Touching, film_over_roughness
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from tests.support.compare import absolute, verified

SPEED = 400.0
CASE = {
    "relative_speed": SPEED,
    "crank_speed": SPEED,
    "journal_diameter": 0.05,
    "radial_clearance": 25e-6,
    "dynamic_viscosity": 0.01,
}
MAP = short_bearing_map(0.4)


def big_end_load(angle):
    fire = 20_000.0 * np.exp(-(((angle - 2.0 * np.pi - 0.3) / 0.3) ** 2))
    return np.stack([4000.0 * np.sin(angle) + 500.0, fire - 4000.0 * np.cos(angle)], axis=-1)


def even(n):
    return np.arange(n) / n * 4.0 * np.pi


@pytest.mark.parametrize("load", [200.0, 3000.0, 20_000.0])
def test_a_steady_load_ends_where_the_steady_curves_say(load):
    found = orbit(MAP, np.tile([0.0, -load], (180, 1)), **CASE)
    e = math.hypot(*found.eccentricity_ratio[0])
    steady = short_bearing_curves(0.4, [e])
    number = 0.01 * SPEED / (2 * math.pi) * 0.02 * 0.05 / load * (0.025 / 25e-6) ** 2
    verified(number, steady.sommerfeld_number[0], by="closed form of the steady bearing", tolerance=1e-4)
    x, y = found.eccentricity_ratio[0]
    attitude = math.atan2(x, -y)  # from the load, which points down, in the direction of rotation
    verified(attitude, steady.attitude_angle[0], by="closed form of the steady bearing", tolerance=1e-4)
    flow = steady.side_flow[0] * 0.025 * 25e-6 * SPEED / (2 * math.pi) * 0.02
    verified(found.mean_flow, flow, by="closed form of the steady bearing", tolerance=1e-3)
    ratio = load / (0.02 * 0.05) / found.peak_film_pressure
    verified(ratio, steady.pressure_ratio[0], by="closed form of the steady bearing", tolerance=1e-3)


def test_a_load_that_turns_with_the_journal_is_a_steady_one():
    """Seen from the load the bearing turns instead; the mean speed against the load is minus a half."""
    angle = even(720)
    turning = 3000.0 * np.stack([np.cos(angle), np.sin(angle)], axis=-1)
    found = orbit(MAP, turning, **CASE)
    still = orbit(MAP, np.tile([3000.0, 0.0], (720, 1)), **CASE)
    verified(
        found.minimum_film_thickness,
        still.minimum_film_thickness,
        by="the same bearing seen from the load",
        tolerance=1e-5,
    )


def test_a_load_at_half_speed_is_carried_by_squeezing_alone():
    """No wedge is left: under such a load the film thins cycle by cycle, so that the path never closes."""
    angle = even(720)
    load = 3000.0 * np.stack([np.cos(0.5 * angle), np.sin(0.5 * angle)], axis=-1)
    with pytest.raises(NotConvergedError) as error:
        orbit(MAP, load, **CASE, largest_cycles=4)
    assert error.value.iterations == 4
    assert error.value.residual > 1e-3


def test_a_second_integrator_on_the_exact_mobility():
    angle = even(1440)
    load = big_end_load(angle)
    found = orbit(MAP, load, **CASE)
    pace = (25e-6 / 0.025) ** 2 / (0.01 * 0.02 * 0.05 * SPEED)

    def rate(theta, place):
        force = big_end_load(np.array(theta % (4 * np.pi)))
        size = math.hypot(*force)
        c, s = force / size
        x, y = place
        along, across = short_bearing_mobility(x * c + y * s, y * c - x * s, length_ratio=0.4)
        u, v = along * c - across * s, along * s + across * c
        return [pace * size * float(u) - 0.5 * y, pace * size * float(v) + 0.5 * x]

    done = solve_ivp(rate, (0.0, 4 * np.pi), found.eccentricity_ratio[0], rtol=1e-7, atol=1e-9, t_eval=angle)
    off = np.abs(done.y.T - found.eccentricity_ratio).max()
    verified(off, 0.0, by="scipy solve_ivp (RK45), exact mobility", tolerance=absolute(2e-4))
    film = 25e-6 * (1.0 - np.hypot(*done.y)).min()
    verified(found.minimum_film_thickness, film, by="scipy solve_ivp (RK45)", tolerance=2e-3)
    end = done.y[:, -1] + np.array(rate(angle[-1], done.y[:, -1])) * angle[1]
    verified(end, found.eccentricity_ratio[0], by="one cycle later", tolerance=absolute(1e-3))


def test_a_tighter_tolerance_changes_little():
    load = big_end_load(even(720))
    usual, tight = orbit(MAP, load, **CASE), orbit(MAP, load, **CASE, tolerance=1e-8)
    verified(usual.minimum_film_thickness, tight.minimum_film_thickness, by="1e-8 a step", tolerance=1e-5)
    verified(usual.mean_power, tight.mean_power, by="1e-8 a step", tolerance=1e-5)


def test_turning_the_engine_round_mirrors_the_path():
    angle = even(720)
    load = big_end_load(angle)
    there = orbit(MAP, load, **CASE)
    mirrored = load * np.array([-1.0, 1.0])
    back = orbit(MAP, mirrored, **CASE | {"relative_speed": -SPEED})
    verified(
        back.eccentricity_ratio * [-1.0, 1.0],
        there.eccentricity_ratio,
        by="the mirrored engine",
        tolerance=absolute(1e-6),
    )


def test_two_films_carry_half_each():
    load = big_end_load(even(360))
    two = orbit(MAP, 2.0 * load, **CASE, film_count=2)
    one = orbit(MAP, load, **CASE)
    verified(two.minimum_film_thickness, one.minimum_film_thickness, by="one of two films", tolerance=1e-12)
    verified(two.mean_power, 2.0 * one.mean_power, by="one of two films", tolerance=1e-12)


def test_work_of_load_and_journal_is_the_loss():
    """Over a closed path the work of load and turning journal is what the film turns into heat."""
    load = big_end_load(even(1440))
    found = orbit(MAP, load, **CASE)
    e = found.eccentricity_ratio
    # Torque on the journal: shear, and half of the couple of load and eccentricity.
    couple = 0.5 * 25e-6 * (e[:, 0] * load[:, 1] - e[:, 1] * load[:, 0])
    shear = 2 * np.pi * 0.01 * 0.025**3 * 0.02 / 25e-6 * SPEED / np.sqrt(1 - (e**2).sum(axis=1))
    moved = (np.roll(e, -1, axis=0) - np.roll(e, 1, axis=0)) * 25e-6 / (2 * (4 * np.pi / 1440))
    work = ((shear - couple) * SPEED).mean() + (load * moved).sum(axis=1).mean() * SPEED
    verified(found.mean_power, work, by="work over the cycle", tolerance=1e-3)


def test_a_path_that_does_not_close_is_an_error():
    with pytest.raises(NotConvergedError) as error:
        orbit(MAP, big_end_load(even(360)), **CASE, largest_cycles=1)
    assert error.value.iterations == 1


@pytest.mark.parametrize("load", [np.zeros((4, 2)), np.zeros(40), np.full((40, 2), np.nan)])
def test_loads_that_are_none_are_refused(load):
    with pytest.raises(OutOfDomainError):
        orbit(MAP, load, **CASE)


@pytest.mark.parametrize("length_ratio", [0.18, 0.4, 0.8])
@pytest.mark.parametrize("load", [3000.0, 15_000.0])
def test_a_steady_load_on_the_maps_of_the_finite_bearing_ends_on_its_curves(length_ratio, load):
    """Maps and curves of the tables come from different films: squeezed ones and turning ones."""
    curves = bearing_tables().curves(length_ratio)
    found = orbit(
        bearing_tables().mobility_map(length_ratio),
        np.tile([0.0, -load], (180, 1)),
        **CASE,
        curves=curves,
    )
    length = 0.05 * length_ratio
    number = 0.01 * SPEED / (2 * math.pi) * length * 0.05 / load * (0.025 / 25e-6) ** 2
    coefficients = curve_coefficients(curves)
    e, inside = eccentricity_for(coefficients, 1.0 / number)
    steady = curve_values(coefficients, e)
    assert inside
    x, y = found.eccentricity_ratio[0]
    verified(1.0 - math.hypot(x, y), 1.0 - e, by="steady curves of the tables", tolerance=5e-3)
    # 2 degrees: under a light load a turning film forms anew where the wedge begins, a squeezed one does not.
    verified(math.atan2(x, -y), steady[1], by="steady curves of the tables", tolerance=absolute(0.035))
    ratio = load / (length * 0.05) / found.peak_film_pressure
    verified(ratio, steady[5], by="steady curves of the tables", tolerance=5e-3)
    flow = steady[2] * 0.025 * 25e-6 * SPEED / (2 * math.pi) * length
    verified(found.mean_flow, flow, by="steady curves of the tables", tolerance=5e-3)


def test_a_film_below_three_times_the_roughness_has_no_number():
    rough = {"journal_roughness": 0.3e-6, "bearing_roughness": 0.4e-6}
    touching = film_over_roughness(1.49e-6, **rough)
    assert isinstance(touching, Touching)
    assert str(touching) == "touching: no film predicted"
    assert not hasattr(touching, "thickness")
    with pytest.raises(TypeError):
        float(touching)
    film = film_over_roughness(1.51e-6, **rough)
    assert isinstance(film, PredictedFilm)
    verified(film.film_parameter, 3.02, by="hand working", tolerance=1e-12)


def test_a_load_that_changes_slowly_is_a_steady_one_at_every_moment():
    """The journal turns a thousand times while the load swells and sinks once by half."""
    angle = even(72)
    size = 3000.0 * (1.0 + 0.5 * np.sin(0.5 * angle))
    load = np.stack([0.0 * angle, -size], axis=-1)
    found = orbit(MAP, load, **CASE | {"crank_speed": SPEED / 500.0})
    curve = short_bearing_curves(0.4, np.linspace(0.02, 0.98, 400))
    coefficients = curve_coefficients(curve)
    numbers = 0.01 * SPEED / (2 * math.pi) * 0.02 * 0.05 / size * (0.025 / 25e-6) ** 2
    steady = np.array([25e-6 * (1.0 - eccentricity_for(coefficients, 1.0 / number)[0]) for number in numbers])
    verified(found.film_thickness, steady, by="steady curves at every load", tolerance=5e-3)
