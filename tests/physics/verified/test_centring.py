"""Centring from gaps with values: hand working, invented truth, and chances against two other methods."""

import numpy as np
import pytest
from scipy import special

from fitwright.physics.fits.centring import Vector, centre_from_gaps, gap_design
from fitwright.physics.fits.closure import closure_of_gaps
from fitwright.physics.fits.offset_probability import chance_of_offset, probability_within_radius
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import absolute, verified

MM = 1e-3
COMPASS = np.radians([0.0, 90.0, 180.0, 270.0])
HAND = "hand working: half the difference of opposite gaps"


def four_gaps(top, right, bottom, left):
    return np.array([top, right, bottom, left]) * MM


OLD_DOWELS_0 = four_gaps(0.07, 0.15, 0.30, 0.21)
OLD_DOWELS_180 = four_gaps(0.09, 0.15, 0.28, 0.21)


def both_shaft_angles(first, second, deviation=0.005 * MM):
    return centre_from_gaps(
        np.concatenate([first, second]),
        station_angles=np.tile(COMPASS, 2),
        shaft_angles=np.repeat([0.0, np.pi], 4),
        covariance=np.eye(8) * deviation**2,
    )


def test_one_shaft_angle_gives_half_differences_and_says_that_run_out_is_unknown():
    found = centre_from_gaps(
        OLD_DOWELS_0, station_angles=COMPASS, shaft_angles=0.0, covariance=np.eye(4) * (0.005 * MM) ** 2
    )
    assert not found.run_out_identified
    verified(
        [found.offset.right / MM, found.offset.up / MM, found.mean_gap / MM],
        [-0.030, -0.115, 0.1825],
        by=HAND,
        tolerance=1e-12,
    )
    verified(
        np.sqrt(np.diag(found.offset_covariance)) / MM, [0.005 / np.sqrt(2.0)] * 2, by=HAND, tolerance=1e-12
    )


def test_two_shaft_angles_split_offset_from_run_out():
    found = both_shaft_angles(OLD_DOWELS_0, OLD_DOWELS_180)
    verified(
        [found.offset.right / MM, found.offset.up / MM, found.offset.magnitude / MM],
        [-0.030, -0.105, np.hypot(0.030, 0.105)],
        by="hand working: mean over half a turn",
        tolerance=1e-12,
    )
    verified(
        [found.run_out.right / MM, found.run_out.up / MM],
        [0.0, 0.010],
        by="hand working: half the difference between shaft angles",
        tolerance=absolute(1e-12),
    )
    seen, _ = found.apparent_offset(0.0)
    verified(
        [seen.right / MM, seen.up / MM], [-0.030, -0.115], by="the readings at angle zero", tolerance=1e-12
    )


def test_invented_truth_comes_back_from_three_stations_and_three_shaft_angles():
    theta = np.tile(np.radians([20.0, 130.0, 255.0]), 3)
    phi = np.repeat(np.radians([0.0, 100.0, 210.0]), 3)
    truth = np.array([0.18, 0.031, -0.022, 0.007, -0.012]) * MM
    # Written out a second way: distance between two circles' points along a ray, first order.
    housing = truth[1] * np.sin(theta) + truth[2] * np.cos(theta)
    amplitude, phase = np.hypot(truth[3], truth[4]), np.arctan2(truth[3], truth[4])
    gaps = truth[0] + housing - amplitude * np.cos(theta - phi - phase)
    found = centre_from_gaps(gaps, station_angles=theta, shaft_angles=phi, covariance=np.eye(9) * 1e-12)
    got = [found.mean_gap, found.offset.right, found.offset.up, found.run_out.right, found.run_out.up]
    verified(got, truth, by="the truth that the gaps were made from", tolerance=1e-10)
    assert found.degrees_of_freedom == 4
    assert found.chi_square < 1e-15


def test_linear_model_agrees_with_the_exact_gap_between_two_circles():
    bore, shaft, e = 19.30 * MM, 19.12 * MM, Vector(0.06 * MM, -0.09 * MM)
    theta = np.radians(np.arange(0.0, 360.0, 15.0))
    along = e.right * np.sin(theta) + e.up * np.cos(theta)
    exact = along + np.sqrt(bore**2 - e.magnitude**2 + along**2) - shaft
    model = gap_design(theta, 0.0)[:, :3] @ np.array([bore - shaft, e.right, e.up])
    verified(model, exact, by="exact distance between circles", tolerance=absolute(0.0004 * MM))


def test_correlated_readings_are_weighed():
    rng = np.random.default_rng(5)
    root = rng.normal(size=(8, 8))
    covariance = (root @ root.T + np.eye(8)) * 1e-12
    theta = np.radians(np.arange(0.0, 360.0, 45.0))
    gaps = 0.2 * MM + 0.01 * MM * rng.normal(size=8)
    found = centre_from_gaps(gaps, station_angles=theta, shaft_angles=0.0, covariance=covariance)
    design = gap_design(theta, 0.0)[:, :3]
    weights = np.linalg.inv(covariance)
    normal = design.T @ weights @ design
    want = np.linalg.solve(normal, design.T @ weights @ gaps)
    by = "normal equations"
    verified([found.mean_gap, found.offset.right, found.offset.up], want, by=by, tolerance=1e-8)
    verified(found.covariance, np.linalg.inv(normal), by=by, tolerance=1e-6)


def test_closure_names_the_pair_that_is_out():
    good = closure_of_gaps(
        OLD_DOWELS_0, station_angles=COMPASS, shaft_angles=0.0, covariance=np.eye(4) * (0.005 * MM) ** 2
    )
    verified(
        [good.largest_difference / MM, good.standard_uncertainty / MM],
        [0.01, 0.01],
        by="hand working: 0.37 less 0.36; four readings of 0.005",
        tolerance=1e-9,
    )
    assert good.agrees
    bad = closure_of_gaps(
        four_gaps(0.07, 0.20, 0.30, 0.21),
        station_angles=COMPASS,
        shaft_angles=0.0,
        covariance=np.eye(4) * (0.005 * MM) ** 2,
    )
    assert not bad.agrees
    three = closure_of_gaps(
        [1.0, 1.0, 1.0], station_angles=np.radians([0, 120, 240]), shaft_angles=0.0, covariance=np.eye(3)
    )
    assert three is None


@pytest.mark.parametrize("stations", [[0.0, 180.0], [0.0, 180.0, 180.0], [0.0, 90.0]])
def test_stations_that_do_not_surround_the_shaft_are_refused(stations):
    with pytest.raises(OutOfDomainError, match="spread round the shaft"):
        centre_from_gaps(
            np.full(len(stations), 0.2 * MM),
            station_angles=np.radians(stations),
            shaft_angles=0.0,
            covariance=np.eye(len(stations)) * 1e-12,
        )


@pytest.mark.parametrize("deviation", [1e-3, 0.01, 0.05, 0.3])
@pytest.mark.parametrize("distance", [0.0, 0.03, 0.049, 0.051, 0.2])
def test_round_distribution_is_the_non_central_chi_square(deviation, distance):
    got = probability_within_radius(Vector(0.6 * distance, -0.8 * distance), np.eye(2) * deviation**2, 0.05)
    want = special.chndtr((0.05 / deviation) ** 2, 2, (distance / deviation) ** 2)
    verified(got, want, by="non-central chi square (scipy.special.chndtr)", tolerance=absolute(1e-11))


@pytest.mark.parametrize(
    "covariance",
    [
        [[1e-4, 0.0], [0.0, 4e-4]],
        [[4e-4, 3.9e-4], [3.9e-4, 4e-4]],
        [[9e-4, 1e-5], [1e-5, 1e-6]],
        [[1e-4, 1e-4], [1e-4, 1e-4]],
    ],
)
def test_any_distribution_against_random_draws(covariance):
    draws = np.random.default_rng(1).multivariate_normal([0.02, -0.03], covariance, size=400_000)
    want = np.mean(np.hypot(draws[:, 0], draws[:, 1]) <= 0.05)
    got = probability_within_radius(Vector(0.02, -0.03), covariance, 0.05)
    verified(got, want, by="400,000 random draws", tolerance=absolute(0.003))


def test_no_uncertainty_gives_a_plain_answer():
    for distance, want in ((0.049, 1.0), (0.051, 0.0)):
        assert probability_within_radius(Vector(0.0, distance), np.zeros((2, 2)), 0.05) == want


def test_limit_is_judged_at_the_worst_shaft_angle():
    found = both_shaft_angles(OLD_DOWELS_0, OLD_DOWELS_180, deviation=0.004 * MM)
    chance = chance_of_offset(found, 0.115 * MM)
    assert chance.worst_probability < chance.probability
    # Run-out of 0.010 adds to an offset of 0.109 at most.
    assert chance.worst_offset.magnitude <= (found.offset.magnitude + found.run_out.magnitude) * (1 + 1e-12)
    verified(
        chance.worst_offset.magnitude,
        found.offset.magnitude + found.run_out.magnitude,
        by="offset plus run-out in line",
        tolerance=1e-3,
    )
