"""Laws that fasteners keep whatever the size, the friction and the unit."""

import math
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.data.threads import listed_threads, thread_of
from fitwright.physics.fasteners.band import FrictionRange, equal_preload_torque, preload_band
from fitwright.physics.fasteners.engagement import shear_areas
from fitwright.physics.fasteners.friction import (
    Bearing,
    Friction,
    loosening_torque,
    preload_from_torque,
    tightening_torque,
)
from fitwright.physics.fasteners.group import TightenedFastener, judge_group
from fitwright.physics.fasteners.resilience import (
    Anchor,
    ClampedLayer,
    ShankSection,
    clamped_resilience,
    grip_resilience,
)
from fitwright.physics.fasteners.strength import Strength
from fitwright.physics.fasteners.stress import preload_at_utilisation, utilisation
from fitwright.physics.fasteners.stretch import preload_from_stretch, stretch_from_preload
from fitwright.physics.fasteners.thread import coarsest_fit, thread_by_sizes
from fitwright.physics.fasteners.wrench import wrench_setting

FEW = settings(max_examples=60, deadline=None)

threads = st.sampled_from(list(listed_threads())).map(thread_of)
coefficients = st.floats(0.04, 0.4)
frictions = st.builds(Friction, coefficients, coefficients)
torques = st.floats(1.0, 300.0)
preloads = st.floats(500.0, 2e5)
STRENGTH = Strength(1040e6, 940e6, 830e6)


def seat(thread):
    return Bearing(1.5 * thread.nominal_diameter, 1.1 * thread.nominal_diameter)


@FEW
@given(thread=threads, friction=frictions, preload=preloads)
def test_torque_and_preload_go_there_and_back(thread, friction, preload):
    torque = tightening_torque(thread, seat(thread), friction, preload)
    assert math.isclose(preload_from_torque(thread, seat(thread), friction, torque), preload, rel_tol=1e-12)
    assert loosening_torque(thread, seat(thread), friction, preload) < torque


@FEW
@given(thread=threads, friction=frictions, torque=torques, more=st.floats(1.01, 2.0))
def test_more_torque_is_more_preload_and_more_friction_is_less(thread, friction, torque, more):
    preload = preload_from_torque(thread, seat(thread), friction, torque)
    assert preload_from_torque(thread, seat(thread), friction, more * torque) > preload
    assert preload_from_torque(thread, seat(thread), friction.scaled(more), torque) < preload


@FEW
@given(thread=threads, friction=coefficients, share=st.floats(0.1, 1.0))
def test_utilisation_goes_there_and_back(thread, friction, share):
    preload = preload_at_utilisation(thread, STRENGTH.yield_strength, friction, share)
    found = utilisation(thread, STRENGTH, friction, preload)
    assert math.isclose(found.yield_utilisation, share, rel_tol=1e-12)
    assert found.tension < found.equivalent_stress


@FEW
@given(thread=threads, friction=frictions, torque=torques, low=st.floats(0.5, 1.0), high=st.floats(1.0, 2.0))
def test_a_wider_range_never_narrows_the_band(thread, friction, torque, low, high):
    narrow = preload_band(thread, seat(thread), FrictionRange(friction, low, high), torque)
    wide = preload_band(
        thread, seat(thread), FrictionRange(friction, 0.9 * low, min(1.1 * high, 2.2)), torque
    )
    assert 0.0 < wide.preload_low <= narrow.preload_low <= narrow.preload <= narrow.preload_high
    assert narrow.preload_high <= wide.preload_high
    worn = preload_band(thread, seat(thread), FrictionRange(friction, low, high), torque, wrench_spread=0.1)
    assert worn.preload_low <= narrow.preload_low
    assert worn.preload_high >= narrow.preload_high


@FEW
@given(thread=threads, friction=frictions, torque=torques)
def test_the_hand_changes_no_number(thread, friction, torque):
    left = replace(thread, left_hand=not thread.left_hand)
    ranged = FrictionRange(friction)
    assert preload_band(thread, seat(thread), ranged, torque) == preload_band(
        left, seat(thread), ranged, torque
    )


@FEW
@given(diameter=st.integers(200, 1000), pitch=st.integers(25, 100), friction=frictions, torque=torques)
def test_a_thread_in_inches_is_the_same_thread_in_millimetres(diameter, pitch, friction, torque):
    inch = thread_by_sizes(diameter / 1000 * 0.0254, pitch / 1000 * 0.0254)
    metric = thread_by_sizes(diameter * 25.4 / 1000 / 1000, pitch * 25.4 / 1000 / 1000)
    found = [preload_from_torque(each, seat(each), friction, torque) for each in (inch, metric)]
    assert math.isclose(*found, rel_tol=1e-12)


@FEW
@given(thread=threads)
def test_a_thread_lies_within_itself(thread):
    assert (
        thread.root_diameter
        <= thread.internal_minor_diameter
        < thread.pitch_diameter
        < thread.nominal_diameter
    )
    assert thread.root_area <= thread.stress_area < 0.25 * math.pi * thread.nominal_diameter**2
    fit = coarsest_fit(thread)
    assert fit.external_major_diameter < thread.nominal_diameter
    assert fit.internal_pitch_diameter > thread.pitch_diameter > fit.external_pitch_diameter
    areas = shear_areas(thread, thread.nominal_diameter)
    assert 0.0 < areas.external < areas.internal


@FEW
@given(thread=threads, torque=torques, one=frictions, other=frictions)
def test_another_lubricant_and_back_is_the_torque(thread, torque, one, other):
    there = equal_preload_torque(thread, seat(thread), torque, friction=one, other_friction=other)
    back = equal_preload_torque(thread, seat(thread), there, friction=other, other_friction=one)
    assert math.isclose(back, torque, rel_tol=1e-12)


@FEW
@given(
    preload=preloads,
    lengths=st.lists(st.floats(1e-3, 0.1), min_size=1, max_size=4),
    diameter=st.floats(5e-3, 0.02),
)
def test_stretch_goes_there_and_back_and_sections_add(preload, lengths, diameter):
    thread = thread_of("M10")
    sections = [ShankSection(length, diameter) for length in lengths]
    stretch = stretch_from_preload(thread, sections, preload)
    one = stretch_from_preload(thread, [ShankSection(sum(lengths), diameter)], preload)
    assert math.isclose(stretch, one, rel_tol=1e-9)
    band = preload_from_stretch(stretch, grip_resilience(thread, sections))
    assert math.isclose(band.preload, preload, rel_tol=1e-9)
    assert band.preload_low <= band.preload <= band.preload_high


@FEW
@given(
    split=st.floats(0.05, 0.95),
    outside=st.floats(0.012, 0.08),
    grip=st.floats(4e-3, 0.1),
    anchor=st.sampled_from(Anchor),
)
def test_a_part_cut_in_two_gives_the_same(split, outside, grip, anchor):
    bearing = Bearing(0.01463, 0.011)
    whole = clamped_resilience([ClampedLayer(grip, 1e11)], bearing, outside_diameter=outside, anchor=anchor)
    halves = [ClampedLayer(split * grip, 1e11), ClampedLayer((1.0 - split) * grip, 1e11)]
    cut = clamped_resilience(halves, bearing, outside_diameter=outside, anchor=anchor)
    assert math.isclose(whole, cut, rel_tol=1e-9)


@FEW
@given(
    ratios=st.lists(st.floats(0.985, 1.015), min_size=5, max_size=12),
    bad=st.integers(0, 4),
    factor=st.floats(0.5, 0.75),
)
def test_one_bad_fastener_is_found_in_any_place_and_order(ratios, bad, factor):
    rows = [
        TightenedFastener(str(number), 46.0, 0.15e-3 * ratio * (factor if number == bad else 1.0))
        for number, ratio in enumerate(ratios)
    ]
    assert {each.name for each in judge_group(rows).odd} == {str(bad)}
    assert {each.name for each in judge_group(rows[::-1]).odd} == {str(bad)}


@FEW
@given(
    torque=torques, length=st.floats(0.2, 1.0), extension=st.floats(0.0, 0.15), angle=st.floats(0.0, math.pi)
)
def test_the_setting_is_at_most_the_torque_in_front_and_at_least_it_behind(torque, length, extension, angle):
    setting = wrench_setting(torque, wrench_length=length, extension_length=extension, extension_angle=angle)
    ahead = angle <= math.pi / 2.0
    assert setting <= torque * (1.0 + 1e-12) if ahead else setting >= torque * (1.0 - 1e-12)
