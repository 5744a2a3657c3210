"""Fasteners a second way: numerical integration, springs, draws, geometry, figures of the bench."""

import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from fitwright.data.fasteners import lubricant_of, property_class_of, usual_bearing
from fitwright.data.threads import thread_of
from fitwright.physics.fasteners.angle import (
    castle_nut_window,
    largest_slot_angle,
    preload_after_angle,
    preload_by_angle,
)
from fitwright.physics.fasteners.band import (
    FrictionRange,
    PreloadBand,
    equal_preload_torque,
    friction_range,
    preload_band,
)
from fitwright.physics.fasteners.friction import (
    Bearing,
    Friction,
    friction_from_torque,
    loosening_torque,
    nut_factor,
    preload_from_torque,
    tightening_torque,
    torque_shares,
)
from fitwright.physics.fasteners.group import Oddness, TightenedFastener, judge_group
from fitwright.physics.fasteners.resilience import (
    Anchor,
    ClampedLayer,
    Head,
    ShankSection,
    bolt_resilience,
    clamped_resilience,
    cone_slope,
    grip_resilience,
)
from fitwright.physics.fasteners.seat import seat_pressure
from fitwright.physics.fasteners.stress import (
    preload_at_onset_of_yield,
    preload_at_utilisation,
    utilisation,
)
from fitwright.physics.fasteners.stretch import (
    permanent_set,
    preload_from_stretch,
    stretch_by_warming,
    stretch_from_preload,
)
from fitwright.physics.fasteners.warm import preload_at_temperature
from fitwright.physics.fasteners.wrench import is_possible_torque, wrench_setting
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import absolute, verified
from tests.support.tables import rows

M10 = thread_of("M10x1.25")
SEAT = Bearing(0.01463, 0.011)
ROD_BOLT = thread_of("M9x1")
ROD_SHANK = [ShankSection(0.026, 0.0078)]
ROD_THREAD = 0.012


# Thread


def test_every_size_and_area_of_the_listed_metric_threads():
    listed = rows("fasteners/iso724_thread_geometry.csv")
    threads = [thread_of(row["thread"]) for row in listed]
    for column, scale, attribute in (
        ("d2_mm", 1e3, "pitch_diameter"),
        ("d1_mm", 1e3, "internal_minor_diameter"),
        ("d3_mm", 1e3, "root_diameter"),
        ("As_mm2", 1e6, "stress_area"),
        ("A3_mm2", 1e6, "root_area"),
    ):
        verified(
            [getattr(thread, attribute) * scale for thread in threads],
            [float(row[column]) for row in listed],
            by=f"{column} worked elsewhere from ISO 68-1, four decimals",
            tolerance=2e-5,
        )


def test_stress_areas_that_the_bench_knows():
    verified(
        [thread_of(each).stress_area * 1e6 for each in ("M8", "M10", "M10x1.25", "M12", "M12x1.25")],
        [36.6, 58.0, 61.2, 84.3, 92.1],
        by="As = pi/4 (d - 0.9382 p)^2 as shops write it",
        tolerance=1e-3,
    )


def test_a_left_hand_thread_is_the_same_but_for_its_hand():
    left, right = thread_of("M10x1.25 LH"), thread_of("M10x1.25")
    assert left.left_hand
    assert not right.left_hand
    assert left.stress_area == right.stress_area
    friction = Friction(0.12, 0.12)
    assert tightening_torque(left, SEAT, friction, 40e3) == tightening_torque(right, SEAT, friction, 40e3)


# Torque and preload


@pytest.mark.parametrize(
    "friction,torque,preload",
    [
        (0.08, 46.5, 51.6),
        (0.10, 56.2, 42.7),
        (0.12, 65.8, 36.5),
        (0.14, 75.5, 31.8),
        (0.16, 85.1, 28.2),
        (0.20, 104.4, 23.0),
    ],
)
def test_the_bench_table_of_torque_by_friction(friction, torque, preload):
    seat = Bearing(0.016, 0.011)
    coefficients = Friction(friction, friction)
    verified(
        tightening_torque(M10, seat, coefficients, 40e3),
        torque,
        by="40 kN on M10x1.25, worked by hand with Dm 13.5 mm",
        tolerance=1e-3,
    )
    verified(
        preload_from_torque(M10, seat, coefficients, 60.0) / 1e3,
        preload,
        by="60 N m on M10x1.25, worked by hand with Dm 13.5 mm",
        tolerance=2e-3,
    )
    share = torque_shares(M10, seat, coefficients, 40e3)
    assert 0.07 < share.stretching / share.total < 0.18


@pytest.mark.parametrize("designation", ["M6", "M10x1.25", "M14x1.5", "1/2-20 UNF", "3/8 BSW"])
@pytest.mark.parametrize("friction", [0.08, 0.14, 0.20])
def test_torque_against_the_wedge_on_a_helix(designation, friction):
    thread = thread_of(designation)
    seat = usual_bearing(thread).bearing
    rise = math.atan(thread.pitch / (math.pi * thread.pitch_diameter))
    # A 60 degree flank seen in the plane of the force: the friction angle of a wedge.
    wedge = math.atan(friction / math.cos(math.atan(math.tan(thread.flank_angle) * math.cos(rise))))
    turning = 0.5 * thread.pitch_diameter * math.tan(rise + wedge)
    backing = 0.5 * thread.pitch_diameter * math.tan(wedge - rise)
    under_head = 0.5 * friction * seat.mean_diameter
    coefficients = Friction(friction, friction)
    by = "exact equilibrium on the helix; the formula leaves out products of small angles"
    verified(
        tightening_torque(thread, seat, coefficients, 1e4),
        1e4 * (turning + under_head),
        by=by,
        tolerance=0.008,
    )
    verified(
        loosening_torque(thread, seat, coefficients, 1e4),
        1e4 * (backing + under_head),
        by=by,
        tolerance=0.008,
    )


def test_friction_is_found_again_and_the_nut_factor_is_torque_over_force_and_diameter():
    friction = Friction(0.113, 0.113)
    torque = tightening_torque(M10, SEAT, friction, 40e3)
    verified(
        friction_from_torque(M10, SEAT, torque=torque, preload=40e3),
        0.113,
        by="there and back",
        tolerance=1e-12,
    )
    verified(nut_factor(M10, SEAT, friction), torque / 40e3 / 0.010, by="T / (F d)", tolerance=1e-12)


# Band


@pytest.mark.parametrize("least,most", [(0.85, 1.15), (0.78, 1.22), (0.67, 1.4)])
def test_the_band_holds_nineteen_of_twenty_draws(least, most):
    friction = FrictionRange(Friction(0.12, 0.13), least, most)
    band = preload_band(M10, SEAT, friction, 60.0, wrench_spread=0.04)
    draws = np.random.default_rng(2230)
    count = 200_000
    torque = 60.0 * (1.0 + 0.04 / 1.96 * draws.standard_normal(count))
    normal = draws.standard_normal(count)
    factor = 1.0 + np.where(normal < 0.0, 1.0 - least, most - 1.0) / 1.96 * normal
    each = tightening_torque(M10, SEAT, Friction(0.12, 0.13), 1.0) - M10.pitch / (2.0 * math.pi)
    preload = torque / (M10.pitch / (2.0 * math.pi) + factor * each)
    inside = np.mean((preload >= band.preload_low) & (preload <= band.preload_high))
    verified(inside, 0.95, by="200000 draws, each input normal on both sides", tolerance=absolute(0.012))


def test_without_friction_range_only_the_wrench_is_left():
    band = preload_band(M10, SEAT, FrictionRange(Friction(0.12, 0.12), 1.0, 1.0), 60.0, wrench_spread=0.06)
    verified(
        [band.preload_low / band.preload, band.preload_high / band.preload],
        [0.94, 1.06],
        by="preload is proportional to torque",
        tolerance=1e-12,
    )


def test_the_wider_of_fifteen_percent_and_the_class_counts():
    assert friction_range(Friction(0.12, 0.12), least=0.115, most=0.125).least_factor == 0.85
    wide = friction_range(Friction(0.12, 0.12), least=0.08, most=0.16)
    verified([wide.least.thread, wide.most.head], [0.08, 0.16], by="ends of class B", tolerance=1e-12)


def test_one_torque_gives_most_preload_with_paste_and_least_dry():
    def band(lubricant):
        return preload_band(M10, SEAT, lubricant_of(lubricant).friction, 50.0)

    paste, oil, locker, dry = map(band, ("assembly paste", "engine oil", "medium threadlocker, wet", "dry"))
    assert paste.preload > max(oil.preload, locker.preload)
    assert min(oil.preload, locker.preload) > dry.preload
    for each in (paste, oil, locker, dry):
        assert each.preload_low < 0.9 * each.preload
        assert each.preload_high > 1.12 * each.preload


def test_equal_preload_with_another_lubricant():
    oil, paste = lubricant_of("engine oil").friction.usual, lubricant_of("assembly paste").friction.usual
    torque = equal_preload_torque(M10, SEAT, 60.0, friction=oil, other_friction=paste)
    verified(
        preload_from_torque(M10, SEAT, paste, torque),
        preload_from_torque(M10, SEAT, oil, 60.0),
        by="the preload of both",
        tolerance=1e-12,
    )
    verified(
        torque / 60.0,
        nut_factor(M10, SEAT, paste) / nut_factor(M10, SEAT, oil),
        by="ratio of nut factors",
        tolerance=1e-12,
    )


# Stress


def test_torsion_against_a_section_integrated_ring_by_ring():
    preload, friction = 46e3, 0.12
    found = utilisation(M10, property_class_of("10.9", M10).strength, friction, preload)
    radius = 0.5 * M10.stress_diameter
    moment, _ = quad(lambda r: found.torsion * r * 2.0 * math.pi * r, 0.0, radius)
    shares = torque_shares(M10, SEAT, Friction(friction, friction), preload)
    verified(moment, shares.in_thread, by="one shear stress over the whole section", tolerance=1e-9)
    assert found.equivalent_stress > found.tension


def test_preload_at_a_utilisation_against_a_search():
    strength = property_class_of("12.9", M10).strength
    found = brentq(lambda force: utilisation(M10, strength, 0.1, force).yield_utilisation - 0.75, 1.0, 1e6)
    verified(
        preload_at_utilisation(M10, strength.yield_strength, 0.1, 0.75),
        found,
        by="bracketed search",
        tolerance=1e-9,
    )


def test_a_waisted_shank_carries_less_and_a_thick_one_changes_nothing():
    thin = preload_at_utilisation(M10, 940e6, 0.12, 0.9, shank_diameter=0.0075)
    thick = preload_at_utilisation(M10, 940e6, 0.12, 0.9, shank_diameter=0.010)
    assert thin < thick == preload_at_utilisation(M10, 940e6, 0.12, 0.9)


def test_onset_of_yield_spans_strength_and_friction():
    band = preload_at_onset_of_yield(
        M10, 940e6, FrictionRange(Friction(0.1, 0.1), 0.8, 1.2), largest_yield_strength=1e9
    )
    assert band.preload_low == preload_at_utilisation(M10, 940e6, 0.12, 1.0)
    assert band.preload_high == preload_at_utilisation(M10, 1e9, 0.08, 1.0)


# Resilience, stretch, angle, temperature


@pytest.mark.parametrize("anchor", Anchor)
@pytest.mark.parametrize("outside", [0.0135, 0.016, 0.022, 0.060])
def test_clamped_parts_against_quadrature(anchor, outside):
    layers = [ClampedLayer(0.003, 205e9), ClampedLayer(0.018, 72e9), ClampedLayer(0.009, 110e9)]
    slope = cone_slope(0.030, SEAT, outside, anchor)
    start = min(SEAT.outer_diameter, outside)

    def compliance(depth):
        reach = min(depth, 0.030 - depth) if anchor is Anchor.NUT else depth
        diameter = min(start + 2.0 * slope * reach, outside)
        modulus = 205e9 if depth < 0.003 else 72e9 if depth < 0.021 else 110e9
        return 4.0 / (modulus * math.pi * (diameter**2 - SEAT.hole_diameter**2))

    corners = [
        0.003,
        0.021,
        0.015,
        (outside - start) / (2.0 * slope),
        0.030 - (outside - start) / (2.0 * slope),
    ]
    found, _ = quad(compliance, 0.0, 0.030, points=sorted(z for z in corners if 0.0 < z < 0.030), limit=400)
    verified(
        clamped_resilience(layers, SEAT, outside_diameter=outside, anchor=anchor),
        found,
        by="lengths over areas integrated numerically",
        tolerance=1e-8,
    )


def test_clamped_parts_against_the_closed_form_of_one_metal():
    w, grip, d_w, d_h = 1.0, 0.030, SEAT.outer_diameter, SEAT.hole_diameter
    outside, modulus = 0.060, 205e9
    tan = cone_slope(grip, SEAT, outside, Anchor.NUT)
    spread = (d_w + d_h) * (d_w + w * grip * tan - d_h) / ((d_w - d_h) * (d_w + w * grip * tan + d_h))
    verified(
        clamped_resilience([ClampedLayer(grip, modulus)], SEAT, outside_diameter=outside),
        2.0 * math.log(spread) / (w * modulus * math.pi * d_h * tan),
        by="the formula of two cones of one metal",
        tolerance=1e-12,
    )


def test_a_whole_bolt_is_its_parts_in_series():
    d, e = 0.010, 205e9
    area, root = 0.25 * math.pi * d**2, M10.root_area
    by_hand = (0.4 * d / area + 0.020 / area + 0.010 / root + 0.5 * d / root) / e + 0.33 * d / (72e9 * area)
    verified(
        bolt_resilience(
            M10,
            [ShankSection(0.020, d)],
            free_thread_length=0.010,
            head=Head.SOCKET,
            anchor=Anchor.TAPPED_HOLE,
            anchor_modulus=72e9,
        ),
        by_hand,
        by="springs in series, by hand",
        tolerance=1e-12,
    )


def test_the_rod_bolt_of_the_bench():
    verified(
        stretch_from_preload(ROD_BOLT, ROD_SHANK, 39.4e3, free_thread_length=ROD_THREAD) * 1e3,
        0.150,
        by="26 mm of 7.8 mm and 12 mm of M9x1 at 39.4 kN, by hand",
        tolerance=absolute(0.0005),
    )
    resilience = grip_resilience(ROD_BOLT, ROD_SHANK, free_thread_length=ROD_THREAD)
    verified(
        preload_from_stretch(0.150e-3, resilience).preload,
        39.4e3,
        by="the same the other way",
        tolerance=3e-3,
    )


def test_ten_kelvin_are_seven_thousandths_of_a_millimetre():
    verified(
        stretch_by_warming(0.060, 10.0) * 1e3, 0.007, by="60 mm of steel, by hand", tolerance=absolute(0.0002)
    )
    grown = 0.060 * (1.0 + 11.5e-6 * 10.0)
    verified(permanent_set(0.060, grown, warming=10.0), 0.0, by="warmth is no set", tolerance=absolute(1e-15))


def test_preload_from_stretch_against_draws():
    resilience = grip_resilience(ROD_BOLT, ROD_SHANK, free_thread_length=ROD_THREAD)
    band = preload_from_stretch(0.150e-3, resilience, length=0.060, temperature_spread=4.0)
    draws = np.random.default_rng(9)

    def normal(half):
        return half / 1.96 * draws.standard_normal(200_000)

    preload = (0.150e-3 + normal(5e-6) + 11.5e-6 * 0.060 * normal(4.0)) / (resilience * (1.0 + normal(0.03)))
    verified(
        [band.preload_low, band.preload_high],
        np.quantile(preload, [0.025, 0.975]),
        by="200000 draws",
        tolerance=3e-3,
    )


def springs(bolt, clamped, gap):
    """Force in two springs that close on each other by `gap`."""
    matrix = np.array([[1.0, -1.0 / bolt, 0.0], [1.0, 0.0, -1.0 / clamped], [0.0, 1.0, 1.0]])
    return float(np.linalg.solve(matrix, [0.0, 0.0, gap])[0])


def test_turning_closes_two_springs():
    bolt, clamped = 4e-9, 1.5e-9
    verified(
        preload_by_angle(M10, math.radians(50.0), bolt + clamped),
        springs(bolt, clamped, M10.pitch * 50.0 / 360.0),
        by="two springs solved as linear equations",
        tolerance=1e-12,
    )


def test_warming_closes_two_springs():
    layers = [ClampedLayer(0.040, 72e9, 21.5e-6), ClampedLayer(0.002, 205e9, 11.5e-6)]
    bolt, clamped = 4e-9, 1.5e-9
    gap = 0.040 * 21.5e-6 * 90.0 + 0.002 * 11.5e-6 * 80.0 - 0.042 * 12.0e-6 * 70.0
    found = preload_at_temperature(
        30e3, layers, [90.0, 80.0], bolt_expansion=12.0e-6, bolt_warming=70.0, resilience=bolt + clamped
    )
    verified(found.preload, 30e3 + springs(bolt, clamped, gap), by="two springs", tolerance=1e-12)
    assert found.clamps


def test_a_cold_joint_with_an_aluminium_bolt_comes_loose():
    layers = [ClampedLayer(0.050, 205e9, 11.5e-6)]
    found = preload_at_temperature(
        5e3, layers, [120.0], bolt_expansion=23e-6, bolt_warming=120.0, resilience=4e-9
    )
    assert (found.preload, found.clamps) == (0.0, False)
    assert found.change < -5e3


def test_after_yield_the_bolt_sets_the_preload():
    snug = PreloadBand(10e3, 8e3, 12e3)
    onset = PreloadBand(50e3, 49e3, 60e3)
    elastic = preload_after_angle(M10, snug, math.radians(30.0), 6e-9, onset_of_yield=onset)
    yielded = preload_after_angle(M10, snug, math.radians(120.0), 6e-9, onset_of_yield=onset)
    assert not elastic.yields
    assert elastic.band.preload == snug.preload + elastic.by_angle
    assert yielded.yields
    assert yielded.band == onset


@pytest.mark.parametrize("slots,holes", [(6, 1), (6, 2), (6, 3), (8, 1), (8, 2), (10, 1), (10, 3)])
def test_castle_nuts_by_turning_them(slots, holes):
    fine = 3600 * 4
    turn = np.arange(fine) / fine

    def opens(at):
        """Whether a slot stands at both mouths of a hole."""
        nut = np.arange(slots) / slots + at
        for hole in range(holes):
            distance = np.abs((nut - hole / (2 * holes) + 0.5) % 1.0 - 0.5)
            other = np.abs((nut - hole / (2 * holes)) % 1.0 - 0.5)
            if distance.min() < 1e-6 and other.min() < 1e-6:
                return True
        return False

    places = np.array([at for at in turn if opens(at)])
    steps = np.diff([*places, places[0] + 1.0])
    verified(
        math.degrees(largest_slot_angle(slots, holes)),
        360.0 * steps.max(),
        by="turning a nut in steps of a fortieth of a degree",
        tolerance=absolute(0.05),
    )


def test_what_a_castle_nut_gains_up_to_its_slot():
    found = castle_nut_window(M10, PreloadBand(20e3, 17e3, 24e3), 5.5e-9, slots=6, holes=2)
    rise = springs(4e-9, 1.5e-9, M10.pitch * 30.0 / 360.0)
    verified(found.preload_rise, rise, by="a twelfth of a turn closes two springs", tolerance=1e-12)
    verified(found.preload_high, 24e3 + rise, by="on top of the torque's band", tolerance=1e-12)


def test_a_pin_needs_an_even_number_of_slots():
    with pytest.raises(OutOfDomainError, match="slots is 5"):
        largest_slot_angle(5, 1)


# Groups

STRETCHES = {
    "1a": 0.152,
    "1b": 0.149,
    "2a": 0.151,
    "2b": 0.150,
    "3a": 0.148,
    "3b": 0.153,
    "4a": 0.150,
    "4b": 0.118,
    "5a": 0.151,
    "5b": 0.150,
}


def group(**other):
    return [
        TightenedFastener(name, 50.0 if name == "4b" else 46.0, 1e-3 * other.get(f"_{name}", stretch))
        for name, stretch in STRETCHES.items()
    ]


def test_the_one_dry_rod_bolt_is_found():
    bearing = usual_bearing(ROD_BOLT).bearing
    resilience = grip_resilience(ROD_BOLT, ROD_SHANK, free_thread_length=ROD_THREAD)
    found = judge_group(group(), thread=ROD_BOLT, bearing=bearing, resilience=resilience)
    assert [(each.name, each.oddness) for each in found.odd] == [("4b", Oddness.STIFF_TO_TURN)]
    friction = {each.name: each.apparent_friction for each in found.fasteners}
    others = [value for name, value in friction.items() if name != "4b"]
    assert friction["4b"] > 1.3 * max(others)
    verified(
        np.mean(others),
        0.095,
        by="46 N m at 39.4 kN, by hand, to half a hundredth",
        tolerance=absolute(0.005),
    )
    assert not judge_group([each for each in group() if each.name != "4b"]).odd


def test_a_yielding_bolt_is_found_the_other_way():
    found = judge_group(
        [TightenedFastener(name, 46.0, 1e-3 * size) for name, size in {**STRETCHES, "4b": 0.205}.items()]
    )
    assert [(each.name, each.oddness) for each in found.odd] == [("4b", Oddness.EASY_TO_TURN)]


def test_two_odd_ones_do_not_hide_each_other():
    several = [
        TightenedFastener(name, 46.0, 1e-3 * size) for name, size in {**STRETCHES, "2a": 0.110}.items()
    ]
    assert {each.name for each in judge_group(several).odd} == {"2a", "4b"}


def test_what_measuring_explains_is_not_odd():
    several = [TightenedFastener(str(number), 46.0, 0.150e-3) for number in range(9)]
    several.append(TightenedFastener("10", 46.0, 0.143e-3))
    assert not judge_group(several).odd


def test_three_fasteners_are_too_few():
    found = judge_group(group()[6:9])
    assert not found.enough
    assert not found.odd
    assert judge_group([]).fasteners == ()


# Seat, wrench


def test_pressure_under_a_head():
    found = seat_pressure(SEAT, 40e3, 350e6)
    area, _ = quad(lambda r: 2.0 * math.pi * r, SEAT.hole_diameter / 2, SEAT.outer_diameter / 2)
    verified(found.pressure, 40e3 / area, by="the ring integrated", tolerance=1e-12)
    verified(found.utilisation, 40e3 / area / 350e6, by="over its limit", tolerance=1e-12)


@pytest.mark.parametrize("degrees", [0.0, 30.0, 90.0, 120.0, 180.0])
def test_the_setting_at_an_extension_by_moments(degrees):
    """The hand pulls across the wrench; its moment about the fastener is the torque there."""
    length, extension, beta = 0.400, 0.050, math.radians(degrees)
    setting = wrench_setting(60.0, wrench_length=length, extension_length=extension, extension_angle=beta)
    force = setting / length
    hand = np.array([-length, 0.0])
    fastener = extension * np.array([math.cos(beta), math.sin(beta)])
    arm, pull = hand - fastener, np.array([0.0, -force])
    verified(arm[0] * pull[1] - arm[1] * pull[0], 60.0, by="moment of the hand's pull", tolerance=1e-12)


def test_the_crow_foot_of_the_bench():
    in_line = wrench_setting(60.0, wrench_length=0.400, extension_length=0.050)
    across = wrench_setting(60.0, wrench_length=0.400, extension_length=0.050, extension_angle=math.pi / 2.0)
    verified([in_line, across], [53.3, 60.0], by="60 L / (L + E), by hand", tolerance=absolute(0.05))


def test_inch_pounds_taken_for_foot_pounds_are_impossible():
    m6 = thread_of("M6")
    pound_foot = 0.45359237 * 9.80665 * 0.3048
    feet, inches = is_possible_torque(m6, 90.0 * pound_foot), is_possible_torque(m6, 90.0 * pound_foot / 12.0)
    assert not feet.is_possible
    assert feet.is_too_large
    assert inches.is_possible
    verified(feet.utilisation / inches.utilisation, 12.0, by="twelve inches to a foot", tolerance=1e-12)
    assert not is_possible_torque(thread_of("M14x1.5"), 1.0).is_possible


@pytest.mark.parametrize(
    "thread,torque",
    [
        ("M10x1.25", 52.0),
        ("M9x1", 46.0),
        ("M11", 75.0),
        ("M6", 10.0),
        ("M14x1.5", 180.0),
        ("M5", 5.0),
        ("M8x1", 16.0),
    ],
)
def test_what_engines_ask_for_is_possible(thread, torque):
    assert is_possible_torque(thread_of(thread), torque).is_possible
