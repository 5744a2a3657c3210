"""Centring from blade readings: polygon, contradictions and chances, each worked a second way."""

import itertools
import math

import numpy as np
import pytest
from scipy import special
from scipy.optimize import linprog

from fitwright.physics.fits.blade_polygon import GapBounds, offset_polygon
from fitwright.physics.fits.centring import centre_from_gaps, gap_design
from fitwright.physics.fits.offset_posterior import GapValue, offset_posterior
from fitwright.physics.fits.offset_probability import probability_within_radius
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.numerics.half_planes import polygon_area
from tests.support.compare import absolute, verified

MM = 1e-3
COMPASS = np.radians([0.0, 90.0, 180.0, 270.0])
LOW = (0.06, 0.15, 0.25, 0.20)
HIGH = (0.08, 0.20, 0.30, 0.25)


def blades(low, high, *, shaft_angle=0.0, stations=COMPASS, uncertainty=0.0):
    return [
        GapBounds(float(angle), shaft_angle, lo * MM, hi * MM, uncertainty * MM, uncertainty * MM)
        for angle, lo, hi in zip(stations, low, high, strict=True)
    ]


def polygon_by_elimination(bounds):
    """Corners of the polygon by eliminating the mean gap: every lower bound meets every upper bound."""
    theta = [b.station_angle for b in bounds]
    cuts = []
    for i, j in itertools.product(range(len(bounds)), repeat=2):
        normal = np.array([np.sin(theta[j]) - np.sin(theta[i]), np.cos(theta[j]) - np.cos(theta[i])])
        cuts.append((-normal, bounds[i].at_most - bounds[j].at_least))
    corners = []
    for (n1, b1), (n2, b2) in itertools.combinations(cuts, 2):
        matrix = np.array([n1, n2])
        if abs(np.linalg.det(matrix)) > 1e-9:
            corner = np.linalg.solve(matrix, [b1, b2])
            if all(n @ corner <= b + 1e-12 for n, b in cuts):
                corners.append(corner)
    return np.array(corners)


@pytest.mark.parametrize(
    "stations,low,high",
    [
        (COMPASS, LOW, HIGH),
        (np.radians([0, 120, 240]), (0.05, 0.15, 0.2), (0.10, 0.20, 0.30)),
        (
            np.radians([10, 75, 130, 200, 250, 330]),
            (0.08, 0.1, 0.15, 0.2, 0.15, 0.1),
            (0.15, 0.2, 0.25, 0.3, 0.3, 0.2),
        ),
    ],
)
def test_polygon_is_that_of_elimination_by_hand(stations, low, high):
    bounds = blades(low, high, stations=stations)
    found = offset_polygon(bounds)
    corners = polygon_by_elimination(bounds)
    for direction in np.radians(np.arange(0.0, 360.0, 7.0)):
        unit = np.array([np.sin(direction), np.cos(direction)])
        got, want = (found.vertices @ unit).max(), (corners @ unit).max()
        verified(
            got / MM, want / MM, by="elimination of the mean gap, all corners tried", tolerance=absolute(1e-6)
        )
    want = np.hypot(corners[:, 0], corners[:, 1]).max()
    verified(found.greatest_offset / MM, want / MM, by="farthest corner", tolerance=1e-5)
    assert polygon_area(found.vertices) > 0.0


def test_least_offset_is_the_nearest_point_of_the_polygon():
    found = offset_polygon(blades(LOW, HIGH))
    rng = np.random.default_rng(3)
    shares = rng.dirichlet(np.ones(len(found.vertices)) * 0.3, size=200_000)
    points = shares @ found.vertices
    nearest = np.hypot(points[:, 0], points[:, 1]).min()
    verified(found.least_offset / MM, nearest / MM, by="200,000 points inside", tolerance=absolute(2e-4))
    around_zero = offset_polygon(blades([0.15] * 4, [0.20] * 4))
    assert around_zero.least_offset == 0.0


def test_run_out_at_two_shaft_angles_is_projected_out():
    bounds = blades(LOW, HIGH) + blades(
        (0.08, 0.15, 0.25, 0.20), (0.10, 0.20, 0.30, 0.25), shaft_angle=math.pi
    )
    found = offset_polygon(bounds)
    assert found.run_out_included
    design = gap_design([b.station_angle for b in bounds], [b.shaft_angle for b in bounds])
    low, high = (np.array([getattr(b, name) for b in bounds]) for name in ("at_least", "at_most"))
    for direction in np.radians(np.arange(0.0, 360.0, 30.0)):
        c = np.array([0.0, np.sin(direction), np.cos(direction), 0.0, 0.0])
        # The dual problem: least bound on the direction that the readings prove.
        dual = linprog(
            np.concatenate([high, -low]) / MM,
            A_eq=np.hstack([design.T, -design.T]),
            b_eq=c,
            bounds=(0.0, None),
            method="highs",
        )
        got = (found.vertices @ c[1:3]).max() / MM
        verified(got, dual.fun, by="the dual linear programme", tolerance=absolute(1e-6))


def test_blades_that_all_go_leave_the_offset_open():
    found = offset_polygon(blades(LOW, [math.inf] * 4))
    assert len(found.open_towards) == 4
    assert found.greatest_offset == math.inf
    assert offset_posterior(0.05 * MM, bounds=blades(LOW, [math.inf] * 4, uncertainty=0.003)) is None


def test_contradiction_names_the_readings_that_cannot_all_be_right():
    # Top and bottom add up to at most 0.16, right and left to at least 0.50.
    bounds = blades((0.06, 0.25, 0.06, 0.25, 0.0), (0.08, 0.30, 0.08, 0.30, 0.9), stations=[*COMPASS, 0.4])
    found = offset_polygon(bounds)
    assert found.contradicting == (0, 1, 2, 3)
    verified(
        found.widening / MM,
        (0.50 - 0.16) / 4.0,
        by="hand working: 0.34 shared by four bounds",
        tolerance=1e-6,
    )
    for i in found.contradicting:
        rest = [b for k, b in enumerate(bounds) if k != i]
        assert not offset_polygon(rest).contradicting
    assert math.isnan(found.greatest_offset)


@pytest.fixture(scope="module")
def grid_of_chances():
    """Sums over mean gap and offset: offsets on a grid, their distance from zero, their weight."""
    bounds = blades(LOW, HIGH, uncertainty=0.004)
    design = gap_design([b.station_angle for b in bounds], 0.0)[:, :3]
    axes = [
        np.linspace(low, high, 2 * steps + 1)[1::2]
        for low, high, steps in ((0.13, 0.22, 48), (-0.08, 0.03, 400), (-0.16, -0.05, 400))
    ]
    right, up = np.meshgrid(axes[1], axes[2], indexing="ij")
    weight = np.zeros_like(right)
    for mean in axes[0]:
        part = np.ones_like(right)
        for row, b in zip(design, bounds, strict=True):
            gap = row[0] * mean + row[1] * right + row[2] * up
            u = b.at_least_standard_uncertainty / MM
            part *= special.ndtr((gap - b.at_least / MM) / u) - special.ndtr((gap - b.at_most / MM) / u)
        weight += part
    return np.hypot(right, up), weight / weight.sum()


def test_stations_at_which_every_blade_goes_are_bounded_by_the_others():
    # Top and bottom fix the mean gap, which ends how far the offset can lie to the right and left.
    bounds = blades((0.20, 0.15, 0.20, 0.15), (0.25, math.inf, 0.25, math.inf), uncertainty=0.003)
    found = offset_posterior(0.05 * MM, bounds=bounds)
    design = gap_design(COMPASS, 0.0)[:, :3]
    mean, right, up = np.meshgrid(
        np.linspace(0.18, 0.27, 91),
        np.linspace(-0.14, 0.14, 281),
        np.linspace(-0.05, 0.05, 101),
        indexing="ij",
    )
    weight = np.ones_like(mean)
    for row, low, high in zip(
        design, (0.20, 0.15, 0.20, 0.15), (0.25, math.inf, 0.25, math.inf), strict=True
    ):
        gap = row[0] * mean + row[1] * right + row[2] * up
        weight *= special.ndtr((gap - low) / 0.003) - special.ndtr((gap - high) / 0.003)
    want = [weight[np.hypot(right, up) <= 0.05].sum() / weight.sum(), np.average(right**2, weights=weight)]
    got = [found.probability, found.covariance[0, 0] / MM**2]
    verified(got[0], want[0], by="sum over 2.6 million cells", tolerance=absolute(0.005))
    verified(got[1], want[1], by="sum over 2.6 million cells", tolerance=0.01)
    assert offset_polygon(bounds).greatest_offset < 0.11 * MM


def test_a_blade_that_both_goes_and_does_not_leaves_no_probability():
    bounds = blades((0.20, 0.15, 0.15, 0.15), (0.20, 0.25, 0.25, 0.25))
    assert offset_posterior(0.05 * MM, bounds=bounds) is None


@pytest.mark.parametrize("limit", [0.10, 0.11, 0.12])
def test_chance_from_blades_is_that_of_a_grid(grid_of_chances, limit):
    distance, weight = grid_of_chances
    found = offset_posterior(limit * MM, bounds=blades(LOW, HIGH, uncertainty=0.004))
    want = weight[distance <= limit].sum()
    verified(found.probability, want, by="midpoint sum over 8 million cells", tolerance=absolute(0.002))
    assert abs(found.probability - want) < 5.0 * found.numerical_uncertainty


def test_sharp_blades_give_the_share_of_the_volume():
    # Three stations, three unknowns: the box of gaps is all there is, and its moments are known.
    stations = np.radians([0, 120, 240])
    bounds = blades((0.10, 0.10, 0.10), (0.14, 0.14, 0.14), stations=stations)
    found = offset_posterior(0.01 * MM, bounds=bounds)
    design = gap_design(stations, 0.0)[:, :3]
    to_offset = np.linalg.inv(design)[1:]
    variance = to_offset @ to_offset.T * (0.04 * MM) ** 2 / 12.0
    by = "variance of a box of independent uniform gaps"
    verified(found.covariance / MM**2, variance / MM**2, by=by, tolerance=absolute(2e-7))
    verified([found.mean.right / MM, found.mean.up / MM], [0.0, 0.0], by="symmetry", tolerance=absolute(2e-5))


def test_values_alone_agree_with_least_squares():
    gaps = np.array([0.14, 0.15, 0.22, 0.19]) * MM
    values = [GapValue(float(a), 0.0, float(g), 0.006 * MM) for a, g in zip(COMPASS, gaps, strict=True)]
    found = offset_posterior(0.05 * MM, values=values)
    exact = centre_from_gaps(
        gaps, station_angles=COMPASS, shaft_angles=0.0, covariance=np.eye(4) * (0.006 * MM) ** 2
    )
    want = probability_within_radius(exact.offset, exact.offset_covariance, 0.05 * MM)
    verified(
        found.probability, want, by="least squares and the normal distribution", tolerance=absolute(0.002)
    )
    by = "least squares"
    verified(
        [found.mean.right / MM, found.mean.up / MM],
        [exact.offset.right / MM, exact.offset.up / MM],
        by=by,
        tolerance=absolute(2e-5),
    )
    verified(found.covariance / MM**2, exact.offset_covariance / MM**2, by=by, tolerance=absolute(3e-7))


def test_a_value_joins_blades():
    bounds = blades(LOW, HIGH, uncertainty=0.003)
    alone = offset_posterior(0.11 * MM, bounds=bounds)
    joined = offset_posterior(
        0.11 * MM, bounds=bounds, values=[GapValue(math.pi, 0.0, 0.27 * MM, 0.003 * MM)]
    )
    assert joined.covariance[1, 1] < alone.covariance[1, 1]


def test_equal_inputs_give_equal_digits():
    bounds = blades(LOW, HIGH, uncertainty=0.003)
    assert (
        offset_posterior(0.1 * MM, bounds=bounds).probability
        == offset_posterior(0.1 * MM, bounds=bounds).probability
    )


@pytest.mark.parametrize(
    "readings,words",
    [
        ([], "at least one reading"),
        (blades([0.2], [0.1], stations=[0.0]), "a lower bound of zero or more"),
        (blades([0.1], [0.2], stations=[math.nan]), "finite, in radians"),
        (blades([0.1], [0.2], stations=[0.0], uncertainty=-0.001), "finite and not negative"),
    ],
)
def test_readings_that_mean_nothing_are_refused(readings, words):
    with pytest.raises(OutOfDomainError, match=words):
        offset_polygon(readings)
    if readings:
        with pytest.raises(OutOfDomainError, match=words):
            offset_posterior(0.05 * MM, bounds=readings)
