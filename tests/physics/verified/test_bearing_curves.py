"""Curves of bearings: shear and peak pressure by integration, and what the kernels read out of them."""

import numpy as np
import pytest

from fitwright.physics.bearings.curves import curve_coefficients, short_bearing_curves
from fitwright.physics.bearings.kernels.curves import (
    curve_values,
    curve_values_and_slopes,
    eccentricity_for,
)
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.numerics.splines import spline_slopes
from tests.support.compare import absolute, verified

NODES = 1.0 - (1.0 - np.linspace(0.002, 0.9, 40) ** 1.2) ** 2
CURVES = short_bearing_curves(0.4, NODES)
COEFFICIENTS = curve_coefficients(CURVES)
BETWEEN = np.concatenate(((1e-6, 0.001), 0.5 * (NODES[1:] + NODES[:-1])))


def test_peak_pressure_and_film_friction_of_the_short_bearing_by_integration():
    e = NODES[:, np.newaxis]
    angle = np.linspace(0.0, np.pi, 40001)
    peak = np.max(e * np.sin(angle) / (1.0 + e * np.cos(angle)) ** 3, axis=1)
    # p = 3 mu omega / c^2 (L^2/4 - z^2) shape; P = W / (L D); S with N = omega / (2 pi).
    ratio = 1.0 / (CURVES.sommerfeld_number * 2.0 * np.pi) / (0.75 * 4.0 * 0.4**2 * peak)
    verified(CURVES.pressure_ratio, ratio, by="largest of 40001 points", tolerance=1e-6)
    gap = 1.0 + e * np.cos(angle)
    share = np.trapezoid(1.0 / gap + (1.0 - e) / gap**2, angle, axis=1) / np.trapezoid(
        2.0 / gap, angle, axis=1
    )
    film = CURVES.friction_variable / CURVES.friction_variable_full_film
    verified(film, share, by="shear integrated, the diverging half filled by h_min / h", tolerance=1e-8)


def test_kernel_reads_the_closed_form_between_the_nodes():
    read = np.array([curve_values(COEFFICIENTS, e) for e in BETWEEN])
    exact = short_bearing_curves(0.4, BETWEEN)
    wanted = (
        1.0 / exact.sommerfeld_number,
        exact.attitude_angle,
        exact.side_flow,
        exact.friction_variable / exact.sommerfeld_number,
        exact.friction_variable_full_film / exact.sommerfeld_number,
        exact.pressure_ratio,
    )
    for got, want in zip(read.T, wanted, strict=True):
        verified(got, want, by="closed form between 40 nodes", tolerance=2e-5)


def test_slopes_are_those_of_the_values():
    step = 1e-6
    for e in BETWEEN[1:]:
        above, below = curve_values(COEFFICIENTS, e + step), curve_values(COEFFICIENTS, e - step)
        slopes = curve_values_and_slopes(COEFFICIENTS, e)[1::2]
        difference = (np.array(above) - np.array(below)) / (2.0 * step)
        verified(
            slopes, difference, by="central difference", tolerance=absolute(1e-5 * abs(difference).max())
        )


def test_eccentricity_for_a_load_undoes_the_load_at_an_eccentricity():
    for e in (*BETWEEN, *NODES):
        found, inside = eccentricity_for(COEFFICIENTS, curve_values(COEFFICIENTS, e)[0] * (1.0 - 1e-15))
        assert inside
        verified(found, e, by="the load at that eccentricity", tolerance=1e-12)


def test_eccentricity_without_load_and_beyond_the_curves():
    assert eccentricity_for(COEFFICIENTS, 0.0) == (0.0, True)
    beyond = 1.01 / CURVES.sommerfeld_number[-1]
    assert eccentricity_for(COEFFICIENTS, beyond) == (NODES[-1], False)
    assert not eccentricity_for(COEFFICIENTS, float("nan"))[1]
    assert not eccentricity_for(COEFFICIENTS, -1.0)[1]


def test_splines_give_cubics_exactly():
    nodes = np.array([0.0, 0.3, 0.4, 1.0, 1.7])
    values = np.stack((nodes**3, 2.0 - nodes**2), axis=-1)
    slopes = np.stack((3.0 * nodes**2, -2.0 * nodes), axis=-1)
    verified(spline_slopes(nodes, values), slopes, by="derivative", tolerance=absolute(1e-12))


@pytest.mark.parametrize("eccentricities", [[0.0, 0.5], [0.5, 0.4], [0.5, 1.0], [], [float("nan")]])
def test_eccentricities_that_mean_nothing(eccentricities):
    with pytest.raises(OutOfDomainError):
        short_bearing_curves(0.5, eccentricities)


def test_too_little_to_read_from():
    with pytest.raises(OutOfDomainError):
        short_bearing_curves(0.0, [0.5])
    with pytest.raises(OutOfDomainError):
        curve_coefficients(short_bearing_curves(0.5, [0.2, 0.5, 0.7]))
    with pytest.raises(OutOfDomainError):
        spline_slopes(np.array([0.0, 1.0, 1.0, 2.0]), np.zeros(4))
