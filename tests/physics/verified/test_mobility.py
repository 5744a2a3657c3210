"""Mobility of the short bearing: quadrature, a table of places, the map between its nodes."""

import csv
import math
from pathlib import Path

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import minimize_scalar

from fitwright.physics.bearings.kernels.mobility import mobility_at, short_mobility
from fitwright.physics.bearings.mobility import (
    booker_mobility,
    short_bearing_map,
    short_bearing_mobility,
)
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import absolute, verified

POINTS = Path(__file__).resolve().parents[2] / "data" / "mobility_short_bearing_points.csv"


def points():
    with POINTS.open(encoding="utf-8") as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    return {name: np.array([float(row[name]) for row in rows]) for name in rows[0]}


def test_exact_at_the_places_of_the_table():
    table = points()
    along, across = short_bearing_mobility(table["xi"], table["eta"], length_ratio=1.0)
    by = "numerical integration elsewhere, 6 decimals"
    verified(along, table["M_xi_times_LD2_exact"], by=by, tolerance=absolute(1e-6))
    verified(across, table["M_eta_times_LD2_exact"], by=by, tolerance=absolute(1e-6))


def test_the_fit_at_the_places_of_the_table():
    table = points()
    along, across = booker_mobility(table["xi"], table["eta"], length_ratio=1.0)
    by = "the fit evaluated elsewhere, 6 decimals"
    verified(along, table["M_xi_times_LD2_booker_fit"], by=by, tolerance=absolute(1e-6))
    verified(across, table["M_eta_times_LD2_booker_fit"], by=by, tolerance=absolute(1e-6))


def test_the_fit_is_within_a_tenth_of_the_exact_mobility():
    rng = np.random.default_rng(5)
    e, angle = 0.95 * np.sqrt(rng.uniform(size=300)), rng.uniform(-math.pi, math.pi, size=300)
    xi, eta = e * np.cos(angle), e * np.sin(angle)
    exact = np.array(short_bearing_mobility(xi, eta, length_ratio=0.5))
    fit = np.array(booker_mobility(xi, eta, length_ratio=0.5))
    off = np.hypot(*(fit - exact)) / np.hypot(*exact)
    print(f"the fit is off by {off.mean():.1%} in the mean, {off.max():.1%} at most up to 0.95")
    assert off.max() < 0.15


@pytest.mark.parametrize("e", [0.1, 0.5, 0.9])
@pytest.mark.parametrize("angle", [0.3, 1.5, 2.8])
def test_the_squeeze_carries_the_load(e, angle):
    """The squeeze found presses with the load that was asked for, by quadrature of the pressure."""
    along, across, ratio = short_mobility(e, angle)
    turned = math.cos(angle), math.sin(angle)  # the load, from the eccentricity
    vr = along * turned[0] - across * turned[1]
    vt = along * turned[1] + across * turned[0]
    way = math.atan2(vt, vr)

    def pressure(psi):
        return (vr * math.cos(psi) + vt * math.sin(psi)) / (1.0 - e * math.cos(psi)) ** 3

    ends = way - 0.5 * math.pi, way + 0.5 * math.pi
    options = {"epsabs": 1e-12, "epsrel": 1e-12, "limit": 400}
    force_r = 2.0 * quad(lambda psi: pressure(psi) * math.cos(psi), *ends, **options)[0]
    force_t = 2.0 * quad(lambda psi: pressure(psi) * math.sin(psi), *ends, **options)[0]
    verified([force_r, force_t], turned, by="quadrature of the pressure", tolerance=absolute(1e-9))
    peak = minimize_scalar(lambda psi: -pressure(psi), bounds=ends, method="bounded", options={"xatol": 1e-9})
    verified(ratio, -1.0 / (6.0 * peak.fun), by="largest pressure by search", tolerance=1e-8)


def test_the_map_between_its_nodes():
    chart = short_bearing_map(0.4)
    rng = np.random.default_rng(11)
    worst = np.zeros(3)
    for _ in range(3000):
        e, angle = 1.0 - 10.0 ** -rng.uniform(0.0, 3.0), math.pi * rng.uniform() ** 3
        exact = np.array(short_mobility(e, angle))
        exact[:2] /= 0.16
        xi, eta = e * math.cos(angle), -e * math.sin(angle)
        got = np.array(mobility_at(chart.planes, chart.largest_depth, 0.4, xi, eta))
        size = np.array([math.hypot(*exact[:2])] * 2 + [exact[2]])
        worst = np.maximum(worst, np.abs(got - exact) / size)
    verified(worst[:2], [0.0, 0.0], by="exact mobility, share of its size", tolerance=absolute(5e-4))
    verified(worst[2], 0.0, by="exact pressure ratio", tolerance=absolute(0.01))


def test_the_mirrored_place_has_the_mirrored_mobility():
    chart = short_bearing_map(0.5)
    up = mobility_at(chart.planes, chart.largest_depth, 0.5, 0.4, 0.3)
    down = mobility_at(chart.planes, chart.largest_depth, 0.5, 0.4, -0.3)
    assert down == (up[0], -up[1], up[2])


def test_outside_the_clearance_there_is_none():
    with pytest.raises(OutOfDomainError):
        short_bearing_mobility(0.8, 0.7, length_ratio=0.5)
