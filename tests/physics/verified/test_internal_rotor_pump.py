"""Internal rotor pumps: displacement, ripple and profiles, each worked a second way."""

import math

import numpy as np
import pytest

from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.pump.chambers import (
    chamber_areas,
    contact_points,
    instantaneous_flow,
    rotor_displacement,
)
from fitwright.physics.pump.tooth_sizes import tooth_data
from fitwright.physics.pump.trochoid import (
    RotorPair,
    inner_profile,
    is_undercut,
    outer_profile,
    smallest_radius_of_curvature,
)
from tests.support.compare import absolute, verified

MM = 1e-3
FOUR = RotorPair(4, 3.0 * MM, 25.0 * MM, 9.0 * MM, 10.0 * MM)
EIGHT = RotorPair(8, 2.5 * MM, 30.0 * MM, 6.5 * MM, 12.0 * MM)
# Computed apart from this package: displacement [mm3], estimate from tips and roots [mm3], ripple,
# smallest radius of curvature [mm], area of the inner rotor [mm2].
COMPUTED = [
    pytest.param(FOUR, (5726.133, 6031.858, 0.0925, 14.1421, 815.2202), id="four lobes"),
    pytest.param(EIGHT, (8729.357, 8859.291, 0.0263, 9.2223, 1732.189), id="eight lobes"),
]
each_pair = pytest.mark.parametrize("pair", [FOUR, EIGHT], ids=["four lobes", "eight lobes"])


def area(points):
    x, y = points.T
    return 0.5 * np.sum(x * np.roll(y, -1) - y * np.roll(x, -1))


@pytest.mark.parametrize("pair,row", COMPUTED)
def test_displacement_and_ripple(pair, row):
    found = rotor_displacement(pair)
    by = "exact contact-point integration, computed elsewhere"
    verified(found.displacement / MM**3, row[0], by=by, tolerance=1e-6)
    verified(found.flow_ripple, row[2], by=f"{by}, printed to 4 decimals", tolerance=absolute(5e-5))
    estimate = math.pi * pair.width * (pair.inner_tip_radius**2 - pair.inner_root_radius**2)
    verified(estimate / MM**3, row[1], by="tips and roots", tolerance=1e-6)
    assert found.displacement < estimate
    assert not found.cautions


@pytest.mark.parametrize("pair,row", COMPUTED)
def test_curvature_and_area_of_the_inner_rotor(pair, row):
    verified(smallest_radius_of_curvature(pair) / MM, row[3], by="curvature of the trochoid", tolerance=1e-5)
    verified(area(inner_profile(pair, count=20000)) / MM**2, row[4], by="polygon", tolerance=1e-6)


@each_pair
def test_displacement_is_the_mean_flow_of_the_contact_points(pair):
    turn = np.linspace(0.0, 2.0 * math.pi, 40_000, endpoint=False)
    want = 2.0 * math.pi * instantaneous_flow(pair, turn).mean()
    by = "contact-point formula, mean over a turn"
    verified(rotor_displacement(pair).displacement, want, by=by, tolerance=1e-7)


@each_pair
def test_chambers_are_those_of_polygons(pair):
    """Cut the space between both outlines into chambers at the contacts."""
    angle = 0.37
    inner = inner_profile(pair, count=60_000) @ rotation(angle).T
    outer = outer_profile(pair, count=120_000) @ rotation(angle * pair.inner_lobes / pair.outer_teeth).T
    outer += np.array([pair.eccentricity, 0.0])
    contacts = contact_points(pair, [angle])[0]
    found = []
    for k in range(pair.outer_teeth):
        ends = contacts[k], contacts[(k + 1) % pair.outer_teeth]
        way_out, way_back = between(outer, *ends), between(inner, *ends)
        found.append(area(np.concatenate([way_out, way_back[::-1]])))
    got = chamber_areas(pair, [angle])[0]
    verified(got / MM**2, np.array(found) / MM**2, by="polygons cut at the contacts", tolerance=2e-4)


def rotation(angle):
    return np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])


def between(outline, start, end):
    """Points of a closed outline from the one nearest to `start` on to the one nearest to `end`."""
    first, last = (int(np.argmin(np.hypot(*(outline - each).T))) for each in (start, end))
    ring = np.roll(outline, -first, axis=0)
    return ring[: (last - first) % len(outline) + 1]


@each_pair
def test_the_inner_rotor_is_what_the_teeth_leave_standing(pair):
    """Sweep the teeth round the inner rotor and take what is cut away in each direction."""
    directions = np.linspace(0.0, 2.0 * math.pi / pair.inner_lobes, 21)
    theta = np.linspace(0.0, 2.0 * math.pi, 200_001)
    centre = pair.generating_radius * np.exp(1j * theta)
    centre = centre + pair.eccentricity * np.exp(1j * pair.outer_teeth * theta)
    left = []
    for direction in directions:
        turned = centre * np.exp(-1j * direction)
        hit = (np.abs(turned.imag) < pair.tooth_radius) & (turned.real > 0.0)
        near = turned.real[hit] - np.sqrt(pair.tooth_radius**2 - turned.imag[hit] ** 2)
        left.append(near.min())
    outline = inner_profile(pair, count=100_000)
    at = np.arctan2(outline[:, 1], outline[:, 0]) % (2.0 * math.pi)
    order = np.argsort(at)
    got = np.interp(directions, at[order], np.hypot(*outline.T)[order], period=2.0 * math.pi)
    verified(got / MM, np.array(left) / MM, by="teeth swept round, direction by direction", tolerance=1e-6)


@each_pair
def test_nothing_overlaps_at_any_angle(pair):
    """No point of the inner rotor lies inside a tooth or beyond a root."""
    outline = inner_profile(pair, count=2000)
    pitch = 2.0 * math.pi / pair.outer_teeth
    for angle in np.linspace(0.0, 1.3, 9):
        x, y = (outline @ rotation(angle).T - [pair.eccentricity, 0.0]).T
        points = x + 1j * y
        assert np.abs(points).max() < pair.outer_root_radius + 1e-12
        for k in range(pair.outer_teeth):
            tooth = pair.generating_radius * np.exp(
                1j * (k * pitch + angle * pair.inner_lobes / pair.outer_teeth)
            )
            assert np.abs(points - tooth).min() > pair.tooth_radius - 1e-9


def test_tooth_data_come_back_from_measured_sizes():
    found = tooth_data(
        8,
        inner_tip_diameter=2.0 * EIGHT.inner_tip_radius,
        inner_root_diameter=2.0 * EIGHT.inner_root_radius,
        width=EIGHT.width,
        tooth_radius=EIGHT.tooth_radius,
        outer_bore_diameter=2.0 * EIGHT.outer_tip_radius + 0.12 * MM,
    )
    got = [found.pair.eccentricity, found.pair.generating_radius, found.pair.tooth_radius]
    want = [EIGHT.eccentricity, EIGHT.generating_radius, EIGHT.tooth_radius]
    verified(got, want, by="the sizes that they were made from", tolerance=1e-12)
    verified(found.bore_difference / MM, 0.12, by="the clearance added", tolerance=1e-9)
    assert found.smallest_tooth_radius < EIGHT.tooth_radius < found.largest_tooth_radius
    assert not found.cautions


def test_without_a_tooth_radius_the_displacement_is_a_narrow_range():
    found = tooth_data(4, inner_tip_diameter=38 * MM, inner_root_diameter=26 * MM, width=10 * MM)
    exact = rotor_displacement(FOUR).displacement
    assert found.smallest_displacement <= exact <= found.largest_displacement
    assert (found.largest_displacement - found.smallest_displacement) / exact < 0.005
    assert "range" in found.cautions[0]
    just, beyond = found.largest_tooth_radius, found.largest_tooth_radius * (1.0 + 1e-6)
    assert not is_undercut(RotorPair(4, 3 * MM, 16 * MM + just, just, MM))
    assert is_undercut(RotorPair(4, 3 * MM, 16 * MM + beyond, beyond, MM))


def test_sizes_that_mean_nothing_are_refused():
    sizes = {"inner_tip_diameter": 38 * MM, "inner_root_diameter": 26 * MM, "width": 10 * MM}
    with pytest.raises(NotConvergedError, match="largest tooth radius"):
        tooth_data(4, **sizes, most_iterations=5)
    with pytest.raises(OutOfDomainError, match="tooth_radius"):
        tooth_data(4, **sizes, tooth_radius=40 * MM)
    with pytest.raises(OutOfDomainError, match="above the root"):
        tooth_data(4, inner_tip_diameter=26 * MM, inner_root_diameter=38 * MM, width=10 * MM)
    with pytest.raises(OutOfDomainError, match="generating_radius"):
        RotorPair(4, 6 * MM, 25 * MM, 9 * MM, 10 * MM)
    with pytest.raises(OutOfDomainError, match="at most"):
        inner_profile(RotorPair(4, 3 * MM, 25 * MM, 14.5 * MM, 10 * MM))


def test_an_undercut_pair_is_cautioned():
    assert "undercut" in rotor_displacement(RotorPair(4, 3 * MM, 25 * MM, 14.5 * MM, 10 * MM)).cautions[0]
