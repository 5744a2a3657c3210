"""The tables against the solver that made them, and against places between their nodes."""

import numpy as np
import pytest

from fitwright.data.bearing_tables import bearing_tables
from fitwright.physics.bearings.curves import curve_coefficients, regular_functions, short_bearing_curves
from fitwright.physics.bearings.direct import direct_curves, direct_mobility
from fitwright.physics.bearings.grids import FilmGrid
from fitwright.physics.bearings.kernels.curves import curve_values
from fitwright.physics.bearings.kernels.mobility import mobility_at
from fitwright.physics.bearings.steady import steady_point
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import absolute, verified
from tools import bearing_tables as making

TABLES = bearing_tables()
SIZES = {
    "journal_diameter": 0.05,
    "bearing_length": 0.025,
    "radial_clearance": 25e-6,
    "dynamic_viscosity": 0.01,
    "angular_speed": 300.0,
}


def test_they_say_how_they_were_made():
    assert TABLES.mass_residual < 1e-9
    assert TABLES.solver == making.SOLVER
    steps = [(grid.around, grid.along) for grid in (making.STEADY_GRID, making.MOBILITY_GRID)]
    assert TABLES.grids.tolist() == [list(each) for each in steps]
    # Powers differ in their last digit from one processor to another, and the tables came from one.
    np.testing.assert_allclose(TABLES.length_ratio, making.LENGTH_RATIOS, rtol=1e-14)
    np.testing.assert_allclose(TABLES.eccentricity_ratio, making.ECCENTRICITY_RATIOS, rtol=1e-14)
    np.testing.assert_allclose(TABLES.mobility_depth, making.DEPTHS, rtol=1e-14)
    assert np.isfinite(TABLES.steady).all()
    assert np.isfinite(TABLES.mobility).all()


@pytest.mark.parametrize("length", [0, 4, -1])
@pytest.mark.parametrize("place", [0, 20, 40, -1])
def test_steady_points_made_again(length, place):
    ratio, e = making.LENGTH_RATIOS[length], making.ECCENTRICITY_RATIOS[place]
    again = regular_functions(direct_curves(ratio, [e], grid=making.STEADY_GRID))[0]
    verified(TABLES.steady[length, place], again, by="the solver again", tolerance=absolute(1e-7))


@pytest.mark.parametrize(
    "length, depth, angle", [(0, 3, 5), (4, 12, 20), (6, 30, 2), (-1, 20, 35), (-1, 36, 0)]
)
def test_mobility_made_again(length, depth, angle):
    place = making.LENGTH_RATIOS[length], making.DEPTHS[depth], making.LOAD_ANGLES[angle]
    again, _ = making.mobility_planes(*place)
    stored = TABLES.mobility[length, depth, angle]
    verified(stored, again, by="the solver again; stored to seven figures", tolerance=absolute(1e-5))


@pytest.mark.parametrize("step", [0, 5, 9])
def test_between_the_nodes(step):
    """Half way between the nodes in both directions, on the grid of the tables."""
    ratio = float(np.sqrt(TABLES.length_ratio[step] * TABLES.length_ratio[step + 1]))
    middles = 0.5 * (TABLES.eccentricity_ratio[1:] + TABLES.eccentricity_ratio[:-1])
    places = middles[[0, 3, 12, 24, 36, 44, 47]]
    coefficients = curve_coefficients(TABLES.curves(ratio))
    read = np.array([curve_values(coefficients, e) for e in places])
    direct = direct_curves(ratio, places, grid=making.STEADY_GRID)
    wanted = (
        1.0 / direct.sommerfeld_number,
        direct.attitude_angle,
        direct.side_flow,
        direct.friction_variable / direct.sommerfeld_number,
        direct.friction_variable_full_film / direct.sommerfeld_number,
        direct.pressure_ratio,
    )
    for got, want in zip(read.T, wanted, strict=True):
        verified(got, want, by=f"direct solution, L/D {ratio:.3f}", tolerance=5e-4)


@pytest.mark.parametrize("ratio, e", [(0.2, 0.3), (0.5, 0.8), (1.0, 0.95)])
def test_a_grid_twice_as_fine_changes_little(ratio, e):
    coefficients = curve_coefficients(TABLES.curves(ratio))
    fine = direct_curves(ratio, [e], grid=FilmGrid(576, 64))
    read = curve_values(coefficients, e)
    by = "direct solution on 576 x 64"
    verified(read[0], 1.0 / fine.sommerfeld_number[0], by=by, tolerance=1e-3)
    verified(read[1], fine.attitude_angle[0], by=by, tolerance=1e-3)
    verified(read[2], fine.side_flow[0], by=by, tolerance=1e-3)
    verified(read[5], fine.pressure_ratio[0], by=by, tolerance=1e-3)


def test_smooth_across_the_nodes():
    """Value and slope do not jump where one interval meets the next, in either direction."""
    at, step = float(TABLES.length_ratio[4]), 1e-7
    sides = [TABLES.curves(at * (1.0 + k * step)).sommerfeld_number for k in (-2, -1, 0, 1, 2)]
    left, right = sides[1] - sides[0], sides[4] - sides[3]
    verified(left, right, by="slopes on both sides of a length ratio", tolerance=1e-4)


@pytest.mark.parametrize("ratio", [0.17, 0.45, 1.1])
def test_mobility_between_the_nodes(ratio):
    chart = TABLES.mobility_map(ratio)
    chance = np.random.default_rng(2)
    worst = 0.0
    for _ in range(12):
        e, angle = 1.0 - 10.0 ** -chance.uniform(0.05, 2.5), chance.uniform(0.03, 3.1)
        along, across, pressure = direct_mobility(ratio, e, angle, grid=making.MOBILITY_GRID)
        xi, eta = e * np.cos(angle), -e * np.sin(angle)
        got = mobility_at(chart.planes, chart.largest_depth, ratio, xi, eta)
        size = np.hypot(along, across)
        worst = max(
            worst, abs(got[0] - along) / size, abs(got[1] - across) / size, abs(got[2] / pressure - 1.0)
        )
    print(f"mobility at L/D {ratio}: off by {worst:.2e} of its size at most")
    assert worst < 0.01


@pytest.mark.parametrize("ratio", [0.2, 0.5, 1.0])
@pytest.mark.parametrize("e", [0.3, 0.6, 0.9])
def test_mobility_carries_a_steady_load_where_the_steady_curves_do(ratio, e):
    """Where mobility is what half the speed turns back: S = |M| / (pi e), the motion across the eccentricity.

    Films of the mobility begin where they would, up to 3 degrees before the widest gap of long bearings.
    """
    chart = TABLES.mobility_map(ratio)

    def outward(angle):
        """Mobility away from the centre, and its size, with the load ahead of the eccentricity or behind."""
        along, across, _ = mobility_at(
            chart.planes, chart.largest_depth, ratio, e * np.cos(angle), e * np.sin(angle)
        )
        return along * np.cos(angle) + across * np.sin(angle), float(np.hypot(along, across))

    low, high = 0.0, np.pi
    for _ in range(50):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if outward(middle)[0] > 0.0 else (low, middle)
    steady = curve_values(curve_coefficients(TABLES.curves(ratio)), e)
    by = "steady films, which begin at the widest gap"
    verified(outward(low)[1] / (np.pi * e), 1.0 / steady[0], by=by, tolerance=0.02)
    verified(low, steady[1], by=by, tolerance=absolute(0.06))


def test_length_ratios_outside():
    for ratio in (0.149, 1.21, 0.0, -1.0, np.nan):
        with pytest.raises(OutOfDomainError):
            TABLES.curves(ratio)
        with pytest.raises(OutOfDomainError):
            TABLES.mobility_map(ratio)
    for length in (0.007, 0.061):
        with pytest.raises(OutOfDomainError):
            steady_point(TABLES, **{**SIZES, "bearing_length": length}, load=1e3)


def test_steady_points_are_those_of_the_curves():
    chance = np.random.default_rng(3)
    ratios = 0.15 * 8.0 ** chance.uniform(0.0, 1.0, 40)
    loads = 10.0 ** chance.uniform(0.0, 4.5, 40)
    point = steady_point(TABLES, **{**SIZES, "bearing_length": 0.05 * ratios}, load=loads)
    for k in np.flatnonzero(point.inside):
        read = curve_values(curve_coefficients(TABLES.curves(ratios[k])), point.eccentricity_ratio[k])
        verified(read[0] * point.sommerfeld_number[k], 1.0, by="curves at its length ratio", tolerance=1e-9)
        verified(read[1], point.attitude_angle[k], by="curves at its length ratio", tolerance=1e-9)
        flow = read[2] * 0.025 * 25e-6 * 300.0 / (2.0 * np.pi) * 0.05 * ratios[k]
        verified(flow, point.side_flow[k], by="curves at its length ratio", tolerance=1e-9)
        friction = read[3] / read[0] * loads[k] * 25e-6
        verified(friction, point.friction_torque[k], by="curves at its length ratio", tolerance=1e-9)
        peak = loads[k] / (0.05**2 * ratios[k]) / read[5]
        verified(peak, point.maximum_film_pressure[k], by="curves at its length ratio", tolerance=1e-9)
    assert point.inside.all()


def test_where_the_tables_end_there_is_no_number():
    point = steady_point(TABLES, **SIZES, load=[0.0, 1e3, 1e7])
    assert point.inside.tolist() == [True, True, False]
    assert len(point.cautions) == 1
    for name in ("eccentricity_ratio", "minimum_film_thickness", "side_flow", "maximum_film_pressure"):
        assert np.isnan(getattr(point, name)).tolist() == [False, False, True]
    assert point.eccentricity_ratio[0] == 0.0
    assert point.maximum_film_pressure[0] == 0.0
    petroff = 2.0 * np.pi * 0.01 * 300.0 * 0.025**3 * 0.025 / 25e-6
    verified(point.friction_torque[0], petroff, by="shear of a centred journal", tolerance=0.01)
    assert not steady_point(TABLES, **{**SIZES, "angular_speed": 0.0}, load=1e3).inside


@pytest.mark.parametrize(
    "name, value",
    [("journal_diameter", 0.0), ("radial_clearance", -1e-6), ("dynamic_viscosity", np.nan), ("load", -1.0)],
)
def test_sizes_that_mean_nothing(name, value):
    with pytest.raises(OutOfDomainError):
        steady_point(TABLES, **{**SIZES, "load": 1e3, name: value})


def test_the_shortest_is_nearly_the_short_bearing():
    finite, short = TABLES.curves(0.15), short_bearing_curves(0.15, TABLES.eccentricity_ratio)
    middle = (TABLES.eccentricity_ratio > 0.1) & (TABLES.eccentricity_ratio < 0.6)
    by = "closed form of the short bearing"
    verified(finite.sommerfeld_number[middle], short.sommerfeld_number[middle], by=by, tolerance=0.06)
    verified(finite.side_flow[middle], short.side_flow[middle], by=by, tolerance=0.02)
