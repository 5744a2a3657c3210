"""Feed flow by a second way each: quadrature, images, a Laplace grid, elliptic integrals."""

import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.sparse import lil_matrix
from scipy.sparse.linalg import spsolve
from scipy.special import ellipk

from fitwright.physics.bearings.feed import (
    groove_end_factor,
    groove_flow,
    hole_shape_factor,
    local_feed_flow,
    partial_groove_flow,
    pocket_shape_factor,
)
from fitwright.physics.bearings.film import film_solution
from fitwright.physics.bearings.geometry import Bearing, Feed, JournalMotion, JournalPosition
from fitwright.physics.bearings.grids import FilmGrid
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import verified

SIZES = {
    "journal_diameter": 0.056,
    "radial_clearance": 27.5e-6,
    "land_length": 9e-3,
    "dynamic_viscosity": 0.012,
}


@pytest.mark.parametrize("e", [0.0, 0.3, 0.6, 0.95])
def test_a_full_groove_is_the_gap_cubed_all_round(e):
    around, _ = quad(lambda t: (1.0 + e * math.cos(t)) ** 3, 0.0, 2.0 * math.pi)
    radius, gap = 0.028, 27.5e-6
    expected = 2.0 * 3e5 * gap**3 * radius * around / (12.0 * 0.012 * 9e-3)
    verified(groove_flow(3e5, **SIZES, eccentricity_ratio=e), expected, by="quadrature", tolerance=1e-12)


@pytest.mark.parametrize(
    "e, arc, middle", [(0.0, math.pi, 0.0), (0.5, math.pi, -0.9), (0.8, 2.4, 2.0), (0.95, 6.0, -3.0)]
)
def test_a_partial_groove_is_the_gap_cubed_along_it(e, arc, middle):
    along, _ = quad(lambda t: (1.0 + e * math.cos(t)) ** 3, middle - 0.5 * arc, middle + 0.5 * arc)
    expected = 2.0 * 3e5 * 27.5e-6**3 * 0.028 * along / (12.0 * 0.012 * 9e-3)
    got = partial_groove_flow(
        3e5, **SIZES, groove_arc=arc, eccentricity_ratio=e, angle_from_widest_gap=middle
    )
    verified(got, expected, by="quadrature", tolerance=1e-12)


def test_a_half_groove_about_the_widest_gap_has_the_form_of_the_standard():
    e = np.array([0.1, 0.5, 0.9])
    got = partial_groove_flow(3e5, **SIZES, groove_arc=math.pi, eccentricity_ratio=e)
    ratio = got / groove_flow(3e5, **SIZES)
    closed = (math.pi * (1.0 + 1.5 * e**2) + 6.0 * e + 4.0 / 3.0 * e**3) / (2.0 * math.pi)
    verified(ratio, closed, by="closed form of a half turn", tolerance=1e-12)


@pytest.mark.parametrize("share, tolerance", [(0.05, 1e-4), (0.3, 2e-4), (0.6, 3e-4)])
def test_a_hole_is_a_source_between_its_images(share, tolerance):
    """Mean pressure round the rim of a source of strength one, by pairs of images of changing sign."""
    around = np.linspace(0.0, 2.0 * math.pi, 721)[:-1]
    x, y = 0.5 * share * np.cos(around), 0.5 * share * np.sin(around)
    k = np.arange(-4000, 4001)[:, None]
    # Sources at y = 2 k, sinks at y = 2 k + 1: a pair is zero midway, on both open edges in the sum.
    pairs = 0.5 * np.log((x**2 + (y - 2 * k - 1) ** 2) / (x**2 + (y - 2 * k) ** 2))
    others = 0.5 * np.log((x**2 + (y - 2 * k + 1) ** 2) / (x**2 + (y - 2 * k) ** 2))
    pressure = 0.5 * (pairs + others).sum(axis=0) / (2.0 * math.pi)
    spread = np.ptp(pressure) / pressure.mean()
    print(f"rim of a hole of {share} of the length: pressure uneven by {spread:.2%}")
    verified(
        hole_shape_factor(share, bearing_length=1.0), 1.0 / pressure.mean(), by="images", tolerance=tolerance
    )


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_a_pocket_by_elliptic_integrals_of_another_library(share):
    k = math.tan(0.25 * math.pi * share) ** 2
    expected = 8.0 * ellipk(k**2) / ellipk(1.0 - k**2)
    verified(pocket_shape_factor(share, bearing_length=1.0), expected, by="scipy ellipk", tolerance=1e-12)


def laplace_pocket(share, cells):
    """Flow out of a slit in a strip on a quarter of it, second order but at the tip."""
    h = 0.5 / cells
    columns = 4 * cells
    number = np.arange(columns * cells).reshape(columns, cells)  # the open edge itself is zero
    matrix, right = lil_matrix((columns * cells, columns * cells)), np.zeros(columns * cells)
    slit = np.arange(cells) * h <= 0.5 * share + 1e-12
    for i in range(columns):
        for j in range(cells):
            here = number[i, j]
            if i == 0 and slit[j]:
                matrix[here, here], right[here] = 1.0, 1.0
                continue
            matrix[here, here] = 4.0
            # Mirrored in both axes.
            for a, b in ((abs(i - 1), j), (i + 1, j), (i, abs(j - 1)), (i, j + 1)):
                if b < cells and a < columns:
                    matrix[here, number[a, b]] -= 1.0
    pressure = spsolve(matrix.tocsr(), right).reshape(columns, cells)
    edge = pressure[:, -1].copy()
    edge[0] *= 0.5
    return 4.0 * edge.sum()


def test_a_pocket_on_a_grid():
    coarse, fine = laplace_pocket(0.5, 16), laplace_pocket(0.5, 32)
    verified(
        pocket_shape_factor(0.5, bearing_length=1.0),
        2.0 * fine - coarse,
        by="Laplace's equation on two grids, extrapolated",
        tolerance=5e-3,
    )


def test_a_short_pocket_is_a_hole_of_half_its_length():
    verified(
        pocket_shape_factor(0.02, bearing_length=1.0),
        hole_shape_factor(0.01, bearing_length=1.0),
        by="a slit has the logarithmic capacity of a circle of half its length",
        tolerance=1e-4,
    )


@pytest.mark.parametrize("width", [0.002, 0.008])
@pytest.mark.parametrize("e", [0.0, 0.6])
def test_a_half_groove_with_its_ends_against_the_film_at_rest(width, e):
    feed = Feed(0.0, half_arc=0.5 * math.pi, half_width=0.5 * width, gauge_pressure=3e5)
    film = film_solution(
        Bearing(0.056, 0.022, 27.5e-6, feeds=(feed,)),
        JournalPosition(e, math.pi),
        JournalMotion(0.0),
        dynamic_viscosity=0.012,
        grid=FilmGrid(192, 48),
    )
    sizes = SIZES | {"land_length": 0.5 * (0.022 - width)}
    flow = partial_groove_flow(3e5, **sizes, groove_arc=math.pi, eccentricity_ratio=e)
    flow += 2.0 * local_feed_flow(
        3e5,
        radial_clearance=27.5e-6,
        shape_factor=groove_end_factor(width, bearing_length=0.022),
        dynamic_viscosity=0.012,
        eccentricity_ratio=e,
        angle_from_widest_gap=0.5 * math.pi,
    )
    verified(flow, film.supply_flow, by="direct solution of the film", tolerance=0.012)


def test_a_local_feed_takes_the_gap_where_it_sits():
    got = local_feed_flow(
        2e5,
        radial_clearance=30e-6,
        shape_factor=4.0,
        dynamic_viscosity=0.01,
        eccentricity_ratio=0.5,
        angle_from_widest_gap=math.pi / 3.0,
    )
    verified(got, 4.0 * (37.5e-6) ** 3 * 2e5 / 0.12, by="hand working", tolerance=1e-12)


@pytest.mark.parametrize("share", [0.0, -0.1, 0.7])
def test_no_hole_without_size_nor_as_long_as_the_bearing(share):
    with pytest.raises(OutOfDomainError):
        hole_shape_factor(share, bearing_length=1.0)


def test_an_eccentricity_of_one_is_refused():
    with pytest.raises(OutOfDomainError):
        groove_flow(3e5, **SIZES, eccentricity_ratio=1.0)
