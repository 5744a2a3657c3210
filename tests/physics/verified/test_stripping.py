"""Threads that strip, against their own geometry and against the rules of the bench."""

import math
from itertools import pairwise

import numpy as np
import pytest

from fitwright.data.fasteners import parent_metal_of, property_class_of
from fitwright.data.threads import thread_of
from fitwright.physics.fasteners.engagement import effective_engagement, shear_areas
from fitwright.physics.fasteners.stripping import (
    bolt_bending_factor,
    hole_bending_factor,
    needed_engagement,
    ring_factor,
    stripping,
)
from fitwright.physics.fasteners.thread import CoarsestFit, thread_by_sizes
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import verified

M10 = thread_of("M10")


def strengths(property_class, metal, thread=M10):
    held = property_class_of(property_class, thread)
    return {
        "bolt_tensile_strength": held.strength.tensile_strength,
        "bolt_shear_strength": held.shear_strength,
        "parent_shear_strength": parent_metal_of(metal).shear_strength,
    }


def share_of_metal(thread, pitch_diameter, diameter, *, internal):
    """Share of a pitch that is metal at a diameter, by sampling the sharp profile of one pitch."""
    along = (np.arange(400_000) + 0.5) / 400_000 * thread.pitch
    # The flank of the bolt's tooth: at the pitch diameter half of the pitch is tooth.
    distance = np.abs(along - 0.5 * thread.pitch)
    flank = 0.5 * pitch_diameter + (0.25 * thread.pitch - distance) / math.tan(thread.flank_angle)
    is_bolt = flank > 0.5 * diameter
    return float(np.mean(~is_bolt if internal else is_bolt))


@pytest.mark.parametrize("designation", ["M6", "M10", "M10x1.25", "1/2-20 UNF", "3/8 BSF"])
def test_areas_against_a_sampled_profile(designation):
    thread = thread_of(designation)
    d, p = thread.nominal_diameter, thread.pitch
    fit = CoarsestFit(
        d - 0.05 * p, thread.pitch_diameter - 0.03 * p, thread.pitch_diameter + 0.04 * p, d - 1.0 * p
    )
    areas = shear_areas(thread, 10.0 * p, fit=fit)
    internal = share_of_metal(thread, fit.internal_pitch_diameter, fit.external_major_diameter, internal=True)
    external = share_of_metal(
        thread, fit.external_pitch_diameter, fit.internal_minor_diameter, internal=False
    )
    verified(
        [areas.internal, areas.external],
        [
            math.pi * fit.external_major_diameter * 10.0 * p * internal,
            math.pi * fit.internal_minor_diameter * 10.0 * p * external,
        ],
        by="metal counted along one pitch of the sharp profile",
        tolerance=1e-4,
    )


def test_what_the_end_and_the_countersink_take():
    verified(
        effective_engagement(M10, 0.020, countersink_depth=0.0015),
        0.020 - 0.0015 - 0.8 * 0.0015,
        by="by hand",
        tolerance=1e-12,
    )
    assert effective_engagement(M10, 0.002, countersink_depth=0.002) == 0.0
    assert effective_engagement(M10, 0.020, bolt_end_within=False) == 0.020


@pytest.mark.parametrize(
    "property_class,metal,least,most",
    [
        ("8.8", "cast aluminium", 1.1, 1.8),
        ("10.9", "cast aluminium", 1.5, 2.1),
        ("10.9", "steel", 0.5, 1.0),
        ("8.8", "mild steel", 0.6, 1.0),
        ("10.9", "cast iron", 0.9, 1.6),
    ],
)
def test_needed_engagement_is_that_of_the_bench(property_class, metal, least, most):
    given = strengths(property_class, metal)
    needed = needed_engagement(M10, given["bolt_tensile_strength"] * M10.stress_area, **given)
    print(
        f"verified: {metal} under {property_class} needs {needed / 0.010:.2f} d, {least} to {most} d wanted"
    )
    assert least < needed / 0.010 < most


def test_needed_engagement_holds_exactly_what_was_asked():
    given = strengths("10.9", "cast aluminium")
    needed = needed_engagement(M10, 45e3, **given)
    verified(stripping(M10, needed, **given).stripping_force, 45e3, by="there and back", tolerance=1e-12)


def test_an_insert_takes_the_load_to_a_larger_thread():
    given = strengths("10.9", "cast aluminium")
    outside = thread_by_sizes(0.012, 0.0015)
    plain, with_insert = (stripping(M10, 0.015, **given, insert_thread=each) for each in (None, outside))
    assert with_insert.internal_force > 1.15 * plain.internal_force
    assert with_insert.bolt_breaking_force == plain.bolt_breaking_force


def test_a_strong_nut_strips_the_bolt_and_a_weak_one_itself():
    weak = stripping(M10, 0.008, **strengths("12.9", "cast aluminium"))
    assert weak.stripping_force == weak.internal_force < weak.external_force
    strong = stripping(
        M10, 0.004, bolt_tensile_strength=400e6, bolt_shear_strength=280e6, parent_shear_strength=500e6
    )
    assert strong.stripping_force == strong.external_force < strong.internal_force


def test_nothing_engaged_holds_nothing():
    assert stripping(M10, 0.0, **strengths("8.8", "steel")).stripping_force == 0.0


def test_factors_have_no_jumps():
    ratios = np.linspace(0.05, 3.0, 20_000)
    for factor in (hole_bending_factor, bolt_bending_factor):
        values = [factor(ratio) for ratio in ratios]
        assert max(abs(a - b) for a, b in pairwise(values)) < 0.003
    rings = [ring_factor(0.010 * ratio, 0.010) for ratio in np.linspace(1.4, 2.2, 2000)]
    assert max(abs(a - b) for a, b in pairwise(rings)) < 0.003
    assert rings == sorted(rings)


def test_a_ring_too_narrow_is_refused():
    with pytest.raises(OutOfDomainError, match="1\\.4 diameters"):
        ring_factor(0.013, 0.010)
