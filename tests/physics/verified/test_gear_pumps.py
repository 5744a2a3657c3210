"""Gear pumps: displacement from flanks that touch, found numerically, and laws of stages."""

import math

import numpy as np
import pytest

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.pump.crescent import CrescentPair, crescent_displacement
from fitwright.physics.pump.gear_profile import gear_profile
from fitwright.physics.pump.spur import SpurPair, spur_displacement
from fitwright.physics.pump.stages import Purpose, Stage, stage_balance
from tests.support.compare import verified

MM = 1e-3
DEGREES = math.pi / 180.0
SPUR = SpurPair(11, 3.5 * MM, 20.0 * DEGREES, 25.0 * MM, 45.5 * MM, 38.5 * MM)
WIDE = SpurPair(13, 3.0 * MM, 20.0 * DEGREES, 20.0 * MM, 45.4 * MM, 39.4 * MM)
CRESCENT = CrescentPair(19, 27, 3.0 * MM, 20.0 * DEGREES, 12.0 * MM, 62.4 * MM, 76.2 * MM, 12.0 * MM)


def involute(base, roll):
    """Point of the involute of a base circle at an angle of roll, as a complex number."""
    return base * np.exp(1j * roll) * (1.0 - 1j * roll)


@pytest.mark.parametrize("pair", [SPUR, WIDE], ids=["standard", "spread centres"])
def test_external_displacement_is_that_of_flanks_that_touch(pair):
    base, centre, tip = 0.5 * pair.base_diameter, pair.centre_distance, 0.5 * pair.outside_diameter
    # The contact lies on the common tangent of the base circles; its roll grows with the turn.
    working = math.acos(pair.base_diameter / centre)
    roll_at_pitch = math.tan(working)
    pitch_angle = 2.0 * math.pi / pair.teeth
    nodes, weights = np.polynomial.legendre.leggauss(12)
    flows = []
    for node in nodes:
        roll = roll_at_pitch + 0.5 * pitch_angle * node
        turn = -roll + working  # so that the normal stays the line of action
        point = involute(base, roll) * np.exp(1j * turn)
        normal = np.exp(1j * (roll + turn - math.pi / 2.0))
        offset = abs(((centre - point) * np.conj(normal)).imag)
        assert abs(offset - base) < 1e-12  # the same line touches the other base circle: the flanks touch
        flows.append(0.5 * pair.width * (2.0 * tip**2 - abs(point) ** 2 - abs(point - centre) ** 2))
    want = math.pi * float(np.dot(weights, flows))
    by = "contact of two involutes, Gauss mean over a base pitch"
    verified(spur_displacement(pair).displacement / MM**3, want / MM**3, by=by, tolerance=1e-9)


def test_internal_displacement_is_that_of_flanks_that_touch():
    pair = CRESCENT
    base, i = pair.inner_base_radius, pair.inner_teeth / pair.outer_teeth
    working = math.acos(base / pair.inner_working_radius)
    nodes, weights = np.polynomial.legendre.leggauss(12)
    flows = []
    for node in nodes:
        roll = math.tan(working) + 0.5 * 2.0 * math.pi / pair.inner_teeth * node
        point = involute(base, roll) * np.exp(1j * (working - roll))
        ring_centre = -pair.centre_distance  # both centres on one side of the pitch point
        normal = np.exp(1j * (working - math.pi / 2.0))
        offset = abs(((ring_centre - point) * np.conj(normal)).imag)
        assert abs(offset - pair.outer_base_radius) < 1e-12
        inner = (0.5 * pair.inner_tip_diameter) ** 2 - abs(point) ** 2
        outer = abs(point - ring_centre) ** 2 - (0.5 * pair.outer_tip_diameter) ** 2
        flows.append(0.5 * pair.width * (inner + i * outer))
    want = math.pi * float(np.dot(weights, flows))
    by = "contact of two involutes, Gauss mean over a base pitch"
    verified(crescent_displacement(pair).displacement / MM**3, want / MM**3, by=by, tolerance=1e-9)


def test_a_ring_of_many_teeth_is_half_a_rack():
    """With i near 1 the ripple vanishes; with standard addenda the gear pushes out its working depth."""
    pair = CrescentPair(200, 202, MM, 20.0 * DEGREES, MM, 202.0 * MM, 200.0 * MM, MM)
    found = crescent_displacement(pair)
    assert found.flow_ripple < 1e-4
    verified(found.displacement / found.estimate, 1.0, by="two addenda deep", tolerance=0.01)


@pytest.mark.parametrize("teeth,largest", [(8, 1.04), (11, 1.03), (20, 1.02)])
def test_the_estimate_is_near_for_standard_gears(teeth, largest):
    module = 3.0 * MM
    pair = SpurPair(teeth, module, 20.0 * DEGREES, 20 * MM, module * (teeth + 2), module * teeth)
    found = spur_displacement(pair)
    assert 1.0 < found.displacement / found.estimate < largest


def test_longer_teeth_give_more_than_the_estimate():
    """Tips 1.25 modules beyond the pitch circle, at spread centres: the true figure is well above."""
    found = spur_displacement(SpurPair(10, 4 * MM, 20.0 * DEGREES, 20 * MM, 50 * MM, 40 * MM))
    assert 1.25 < found.displacement / found.estimate < 1.35
    assert found.contact_ratio > 1.0


def test_gears_that_lose_contact_are_cautioned():
    found = spur_displacement(SpurPair(10, 4 * MM, 20.0 * DEGREES, 20 * MM, 44 * MM, 42 * MM))
    assert found.contact_ratio < 1.0
    assert "contact" in found.cautions[0]


def test_scavenge_and_pressure_stages():
    stages = [
        Stage("pressure", Purpose.PRESSURE, 10e-6, 0.5),
        Stage("front", Purpose.SCAVENGE, 8e-6, 0.5),
        Stage("rear", Purpose.SCAVENGE, 4e-6, 1.0),
    ]
    found = stage_balance(stages)
    verified(found.ratio, (8 * 0.5 + 4 * 1.0) / (10 * 0.5), by="hand working", tolerance=1e-12)
    verified(found.share, [1.0, 0.5, 0.5], by="hand working", tolerance=1e-12)
    assert not found.cautions
    few = stage_balance(stages[:2])
    assert "sump would fill" in few.cautions[0]
    assert math.isnan(stage_balance(stages[:1]).ratio)
    with pytest.raises(OutOfDomainError, match="pressure stage"):
        stage_balance(stages[1:])


@pytest.mark.parametrize(
    "change,words",
    [
        ({"teeth": 4}, "5 or more"),
        ({"pressure_angle": 20.0}, "in radians"),
        ({"centre_distance": 46 * MM}, "below the outside diameter"),
        ({"width": 0.0}, "greater than zero"),
    ],
)
def test_gears_that_mean_nothing_are_refused(change, words):
    sizes = {name: getattr(SPUR, name) for name in SPUR.__slots__}
    with pytest.raises(OutOfDomainError, match=words):
        SpurPair(**{**sizes, **change})


@pytest.mark.parametrize("pair", [SPUR, WIDE], ids=["standard", "spread centres"])
@pytest.mark.parametrize("backlash", [0.0, 0.3 * MM])
def test_outlines_of_two_gears_touch_or_keep_their_backlash(pair, backlash):
    """Turn both gears together and look how far their flanks come apart."""
    pitch = 2.0 * math.pi / pair.teeth
    want = backlash * math.cos(math.acos(pair.base_diameter / pair.centre_distance))
    for share in (0.0, 0.2, 0.45):
        one = gear_profile(pair, backlash=backlash, turned=share * pitch)
        other = gear_profile(pair, backlash=backlash, turned=math.pi - (share - 0.5) * pitch)
        flank = one[:, 0] + 1j * one[:, 1]
        across = pair.centre_distance + other[:, 0] + 1j * other[:, 1]
        ends = np.roll(across, -1)
        along = ends - across
        t = np.clip(((flank[:, None] - across) / along).real, 0.0, 1.0)
        nearest = np.abs(flank[:, None] - across - t * along).min()
        assert abs(nearest - 0.5 * want) < 0.02 * MM, (share, nearest / MM)


def test_a_backlash_of_a_whole_tooth_is_refused():
    with pytest.raises(OutOfDomainError, match="smaller than a tooth"):
        gear_profile(SPUR, backlash=12.0 * MM)
