"""Leaks of pumps: lands and drag worked a second way, and what the cube law promises."""

import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import spsolve

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.pump.crescent import CrescentPair
from fitwright.physics.pump.gear_leaks import crescent_leaks, spur_leaks, tip_thickness
from fitwright.physics.pump.kernels.pump import flow_by_clearance, pump_flow
from fitwright.physics.pump.leakage import Gap, LeakagePath, both_faces, leakage_cautions, leakage_flow
from fitwright.physics.pump.rotor_leaks import inner_curvature, rotor_leaks, shaft_leak
from fitwright.physics.pump.spur import SpurPair
from fitwright.physics.pump.trochoid import RotorPair, inner_profile, outer_profile, profile_points
from tests.support.compare import absolute, verified

MM = 1e-3
FOUR = RotorPair(4, 3.0 * MM, 25.0 * MM, 9.0 * MM, 10.0 * MM)
EIGHT = RotorPair(8, 2.5 * MM, 30.0 * MM, 6.5 * MM, 12.0 * MM)
SPUR = SpurPair(11, 3.5 * MM, math.radians(20.0), 25.0 * MM, 45.5 * MM, 38.5 * MM)
CRESCENT = CrescentPair(19, 27, 3 * MM, math.radians(20), 12 * MM, 62.4 * MM, 76.2 * MM, 12 * MM)
EIGHT_BODY = {"outer_rotor_diameter": 68.0 * MM, "hub_diameter": 28.0 * MM}
each_pair = pytest.mark.parametrize("pair", [FOUR, EIGHT], ids=["four lobes", "eight lobes"])


def by_gap(leaks):
    return {leak.gap: leak for leak in leaks}


@each_pair
@pytest.mark.parametrize("share", [0.0, 0.3, 0.7, 1.0])
def test_curvature_of_the_inner_rotor(pair, share):
    at = share * math.pi / pair.inner_lobes
    step = 1e-4
    before, here, after = profile_points(pair, [at - step, at, at + step])
    first, second = (after - before) / (2.0 * step), (after - 2.0 * here + before) / step**2
    want = (first.conjugate() * second).imag / abs(first) ** 3
    got = inner_curvature(pair, at)
    verified(got * MM, want * MM, by="differences of the outline", tolerance=absolute(2e-5))


@each_pair
def test_tips_leak_as_the_gap_of_two_circles(pair):
    """Integrate the laminar resistance of the true gap, both sides of the pump."""
    gap, total = 0.08 * MM, 0.0
    for parameter in (0.0, math.pi / pair.inner_lobes):
        bend = inner_curvature(pair, parameter)

        def height(x, bend=bend):
            lobe = (1.0 - math.sqrt(1.0 - (bend * x) ** 2)) / bend
            return gap + pair.tooth_radius - math.sqrt(pair.tooth_radius**2 - x**2) + lobe

        reach = 0.6 * min(pair.tooth_radius, 1.0 / abs(bend))
        resistance = quad(lambda x, h=height: (gap / h(x)) ** 3, -reach, reach, epsrel=1e-10)[0]
        total += pair.width / resistance / 12.0
    leaks = rotor_leaks(pair, outer_rotor_diameter=70 * MM, hub_diameter=20 * MM, tip_clearance=gap)
    tips = by_gap(leaks)[Gap.TIP].pressure_coefficient
    verified(tips, total, by="quadrature over the gap of two circles", tolerance=0.03)
    two = rotor_leaks(
        pair, outer_rotor_diameter=70 * MM, hub_diameter=20 * MM, tip_clearance=gap, tips_in_series=2
    )
    verified(2.0 * by_gap(two)[Gap.TIP].pressure_coefficient, tips, by="two in series", tolerance=1e-12)


def test_faces_of_the_rotors_term_by_term():
    leaks = by_gap(rotor_leaks(EIGHT, **EIGHT_BODY))
    arc = math.pi
    lobe = 1.0 / inner_curvature(EIGHT, 0.0)

    def wedge(radius):
        """Streams across a circular lobe, each as long as its chord."""
        return quad(lambda y: 1.0 / (2.0 * math.sqrt(2.0 * radius * y - y * y)), 0.0, 5.0 * MM)[0]

    lands = wedge(lobe) + 2.0 * wedge(6.5 * MM)
    rings = 0.5 * arc / math.log(21.0 / 14.0) + 0.5 * arc / math.log(34.0 / 28.5)
    want = 0.25 * (lands + rings) / 12.0
    got = leaks[Gap.END].pressure_coefficient
    verified(got, want, by="chords by quadrature, rings by hand", tolerance=1e-7)


def pressure_field(pair, body, angle, size):
    """Flow over length out of the outlet's chambers, by finite differences over a face of both rotors.

    Polar cells about the outer rotor's centre; chambers, hub and rim are at given pressures, metal lies
    between. Cells of two chambers side by side are at a contact: that is the tips' leak, not counted.
    """
    hub, rim = 0.5 * body["hub_diameter"], 0.5 * body["outer_rotor_diameter"]
    log_radius = np.linspace(math.log(hub), math.log(rim), size[0])
    turn = (np.arange(size[1]) + 0.5) * 2.0 * math.pi / size[1]
    radius, theta = np.meshgrid(np.exp(log_radius), turn, indexing="ij")
    turned = angle * pair.inner_lobes / pair.outer_teeth

    def inside(outline):
        order = np.argsort(np.arctan2(outline[:, 1], outline[:, 0]) % (2.0 * math.pi))
        at = (np.arctan2(outline[:, 1], outline[:, 0]) % (2.0 * math.pi))[order]
        return radius < np.interp(theta, at, np.hypot(*outline.T)[order], period=2.0 * math.pi)

    inner = inner_profile(pair, count=4000) @ rotation(angle).T - np.array([pair.eccentricity, 0.0])
    chamber = inside(outer_profile(pair, count=4000) @ rotation(turned).T) & ~inside(inner)
    pitch = 2.0 * math.pi / pair.outer_teeth
    middle = turned + (np.floor(((theta - turned) % (2.0 * math.pi)) / pitch) + 0.5) * pitch
    given = np.where(chamber, np.where(np.sin(middle) > 0.0, 1.0, 0.0), np.nan)
    given[np.hypot(radius * np.cos(theta) + pair.eccentricity, radius * np.sin(theta)) < hub] = 0.5
    given[0], given[-1] = 0.5, 0.5
    return flow_out(given.ravel(), size, (log_radius[1] - log_radius[0], turn[1] - turn[0]))


def rotation(angle):
    return np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])


def flow_out(given, size, step):
    cell = np.arange(given.size).reshape(size)
    first = np.concatenate([cell[:-1].ravel(), cell.ravel()])
    second = np.concatenate([cell[1:].ravel(), np.roll(cell, -1, axis=1).ravel()])
    weight = np.full(first.size, step[0] / step[1])
    weight[: cell[:-1].size] = step[1] / step[0]
    free = np.isnan(given)
    between = free[first] | free[second]
    first, second, weight = first[between], second[between], weight[between]
    matrix = coo_matrix(
        (
            np.concatenate([weight] * 2 + [-weight] * 2),
            (np.concatenate([first, second, first, second]), np.concatenate([first, second, second, first])),
        ),
        shape=(given.size, given.size),
    ).tocsr()
    pressure = np.where(free, 0.0, given)
    pressure[free] = spsolve(matrix[free][:, free].tocsc(), -(matrix @ pressure)[free])
    return float((matrix @ pressure)[(given == 1.0)].sum())


@pytest.mark.parametrize(
    "pair,body",
    [
        (FOUR, {"outer_rotor_diameter": 54 * MM, "hub_diameter": 14 * MM}),
        (EIGHT, {"outer_rotor_diameter": 66 * MM, "hub_diameter": 28 * MM}),
    ],
    ids=["four lobes", "eight lobes"],
)
def test_lands_of_the_faces_are_near_those_of_a_pressure_field(pair, body):
    step = math.pi / pair.inner_lobes
    want = np.mean([pressure_field(pair, body, 0.02 + k * step, (100, 720)) for k in range(2)])
    got = 48.0 * by_gap(rotor_leaks(pair, **body))[Gap.END].pressure_coefficient
    verified(got, want, by="Laplace's equation over the faces", tolerance=0.2)


def test_faces_carry_oil_by_what_crosses_both_lands():
    """Couette flow in both gaps through the line of centres: what goes in less what goes out."""
    end = by_gap(rotor_leaks(EIGHT, **EIGHT_BODY))[Gap.END]
    gap, ratio, e = 0.06 * MM, 8.0 / 9.0, EIGHT.eccentricity

    def carried(contact):
        inner = quad(lambda r: 0.5 * r, 14.0 * MM, contact)[0]
        outer = quad(lambda r: 0.5 * ratio * r, EIGHT.outer_tip_radius, 34.0 * MM)[0]
        return gap * (inner + outer)

    want = carried(EIGHT.outer_tip_radius + e) - carried(EIGHT.outer_tip_radius - e)
    by = "Couette flow across the line of centres"
    verified(-end.drag_coefficient * gap / MM**3, want / MM**3, by=by, tolerance=1e-9)


def test_a_drained_hub_leaks_to_the_sump():
    closed, drained = (rotor_leaks(EIGHT, **EIGHT_BODY, hub_drained=each) for each in (False, True))
    assert len(drained) == len(closed) + 1
    assert [leak.to_sump for leak in drained] == [False, True, False, False]
    to_sump, rest = drained[1].pressure_coefficient, drained[0].pressure_coefficient
    verified(rest + 0.5 * to_sump, closed[0].pressure_coefficient, by="lands in series", tolerance=1e-12)


def test_an_equal_share_of_both_faces_leaks_least():
    shares = np.linspace(0.0, 1.0, 101)
    factors = [both_faces(each) for each in shares]
    assert min(factors) == both_faces(0.5) == 0.25
    verified(both_faces(1.0) / both_faces(0.5), 4.0, by="one gap twice as high for two", tolerance=1e-12)
    with pytest.raises(OutOfDomainError, match="from 0 to 1"):
        both_faces(1.2)


def test_shaft_and_bush_by_hand():
    want = 0.5 * math.pi * 14.0 / (12.0 * 25.0) * 2.5
    got = shaft_leak(14 * MM, 25 * MM, eccentricity_ratio=1.0).pressure_coefficient
    verified(got, want, by="annulus against the wall", tolerance=1e-12)


def test_leaks_of_spur_gears_by_hand():
    leaks = by_gap(spur_leaks(SPUR, shaft_diameter=14 * MM))
    faces = math.pi / math.log(14.875 / 7.0) + (38.5 - 2 * 14.875) / (math.pi * 3.5 * math.cos(math.pi / 9))
    verified(leaks[Gap.END].pressure_coefficient, 0.25 * faces / 12.0, by="hand", tolerance=1e-9)
    thickness = tip_thickness(11, 3.5 * MM, math.radians(20.0), 22.75 * MM)
    want = 2.0 * 25.0 * MM / (12.0 * 5.5 * thickness)
    verified(leaks[Gap.TIP].pressure_coefficient, want, by="hand", tolerance=1e-12)
    verified(leaks[Gap.TIP].drag_coefficient, -25.0 * 22.75 * MM**2, by="hand", tolerance=1e-12)


def test_tooth_thickness_is_that_of_two_involutes():
    """Draw both flanks from the base circle and measure between them at the tip."""
    teeth, module, angle, tip = 11, 3.5 * MM, math.radians(20.0), 23.2 * MM
    reference = 0.5 * teeth * module
    shift = (tip - reference) / module - 1.0
    base = reference * math.cos(angle)

    def polar(radius):
        roll = math.sqrt((radius / base) ** 2 - 1.0)
        x, y = math.cos(roll) + roll * math.sin(roll), math.sin(roll) - roll * math.cos(roll)
        return math.atan2(y, x)

    at_reference = module * (math.pi / 2.0 + 2.0 * shift * math.tan(angle)) / reference
    want = tip * (at_reference - 2.0 * (polar(tip) - polar(reference)))
    got = tip_thickness(teeth, module, angle, tip)
    verified(got / MM, want / MM, by="flanks point by point", tolerance=1e-9)
    with pytest.raises(OutOfDomainError, match="pointed"):
        tip_thickness(11, 3.5 * MM, angle, 26.0 * MM)


def test_leaks_of_a_crescent_pump_have_their_gaps():
    leaks = by_gap(crescent_leaks(CRESCENT, ring_diameter=100 * MM, hub_diameter=38 * MM))
    assert set(leaks) == {Gap.END, Gap.TIP, Gap.BODY}
    shorter = by_gap(
        crescent_leaks(CRESCENT, ring_diameter=100 * MM, hub_diameter=38 * MM, crescent_angle=1.0)
    )
    got = shorter[Gap.TIP].pressure_coefficient / leaks[Gap.TIP].pressure_coefficient
    verified(got, math.radians(120.0), by="fewer teeth in series", tolerance=1e-9)


def test_the_compiled_pump_adds_up_its_leaks():
    leaks = rotor_leaks(EIGHT, **EIGHT_BODY)
    clearances = np.array([0.06, 0.08, 0.07]) * MM
    each = leakage_flow(leaks, clearances, pressure_rise=3.1e5, angular_speed=200.0, dynamic_viscosity=0.0146)
    a = np.array([leak.pressure_coefficient for leak in leaks])
    b = np.array([leak.drag_coefficient for leak in leaks])
    filling = np.array([-70e3, 400e-6, 0.0])
    swept = 1.39e-6
    flow, by_out, by_in, leak = pump_flow(3e5, -1e4, 200.0, 0.0146, 850.0, swept, filling, a, b, clearances)
    verified(leak, each.sum(), by="path by path", tolerance=1e-12)
    verified(flow, swept * 200.0 - each.sum(), by="swept less leaks, chambers full", tolerance=1e-5)
    slopes = flow_by_clearance(3.1e5, 200.0, 0.0146, a, b, clearances)
    for k in range(3):
        step = np.zeros(3)
        step[k] = 1e-9
        above, below = (
            pump_flow(3e5, -1e4, 200.0, 0.0146, 850.0, swept, filling, a, b, clearances + way * step)[0]
            for way in (1.0, -1.0)
        )
        verified(slopes[k], (above - below) / 2e-9, by="central differences", tolerance=1e-4)
    assert by_out < 0.0 < by_in


def test_a_leak_that_is_not_laminar_is_named():
    path = LeakagePath("tips of the rotors", 1.0, 0.0, Gap.TIP, width=0.02)
    assert leakage_cautions([path], [1e-5], density=850.0, dynamic_viscosity=0.012) == ()
    said = leakage_cautions([path], [4e-4], density=850.0, dynamic_viscosity=0.012)
    assert said[0].startswith("Tips of the rotors: no longer laminar")


@pytest.mark.parametrize(
    "change,words",
    [
        ({"hub_diameter": 43 * MM}, "hub_diameter"),
        ({"outer_rotor_diameter": 56 * MM}, "beyond the outer rotor's roots"),
        ({"tips_in_series": 0}, "one or more tips"),
    ],
)
def test_bodies_without_lands_are_refused(change, words):
    with pytest.raises(OutOfDomainError, match=words):
        rotor_leaks(EIGHT, **{**EIGHT_BODY, **change})
    with pytest.raises(OutOfDomainError, match="one for each path"):
        leakage_flow([], [1e-4], pressure_rise=1e5, angular_speed=0.0, dynamic_viscosity=0.01)
