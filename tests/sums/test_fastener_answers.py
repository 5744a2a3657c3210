"""Sums of fasteners against figures of the bench, each other, and what people type."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.sums import SumError, run
from fitwright.units import QuantityError, parse_quantity
from tests.support.compare import absolute, verified

MAIN_CAP = {"thread": "M10x1.25", "property_class": "10.9", "lubricant": "assembly paste"}
FRICTION = {"thread": "M10x1.25", "property_class": "10.9", "thread_friction": 0.12, "head_friction": 0.12}
ROD_BOLT = {"thread": "M9x1", "sections": "26 mm x 7.8 mm", "thread_length": "12 mm"}
POUND_FOOT = 0.45359237 * 9.80665 * 0.3048


def value(result, key):
    figure = result.results[key]
    return None if figure is None else figure.value


def said(result):
    return " ".join(result.cautions)


# Tightening


def test_the_table_of_the_standard_at_nine_tenths_of_yield():
    found = run("tightening", FRICTION | {"yield_utilisation": "90 %"})
    verified(value(found, "preload"), 46.4e3, by="VDI 2230 table, M10x1.25 10.9 at 0.12", tolerance=5e-3)
    verified(value(found, "tightening_torque"), 75.0, by="the same table", tolerance=13e-3)
    verified(value(found, "yield_utilisation"), 0.9, by="what was asked for", tolerance=1e-12)


@pytest.mark.parametrize("key", ["tightening_torque", "preload", "yield_utilisation"])
def test_any_one_gives_the_others(key):
    first = run("tightening", FRICTION | {"tightening_torque": "60 N m"})
    again = run("tightening", FRICTION | {key: value(first, key)})
    for each in (
        "tightening_torque",
        "preload",
        "preload_low",
        "preload_high",
        "yield_utilisation",
        "proof_utilisation",
    ):
        verified(value(again, each), value(first, each), by=f"there and back by {key}", tolerance=1e-12)


def test_a_main_cap_with_paste():
    found = run("tightening", MAIN_CAP | {"tightening_torque": "52 N m"})
    assert value(found, "preload_low") < 40e3 < value(found, "preload_high")
    verified(value(found, "preload"), 40e3, by="52 N m over 0.13 times 10 mm", tolerance=0.05)
    shares = [value(found, f"{each}_share") for each in ("stretching", "thread_friction", "head_friction")]
    verified(sum(shares), 1.0, by="shares of one torque", tolerance=1e-12)
    assert value(found, "loosening_torque") < 52.0


def test_what_stands_beside_a_calculated_torque():
    found = said(run("tightening", MAIN_CAP | {"tightening_torque": "52 N m"}))
    assert "Calculated from friction you chose; preload between 34.8 kN and 51.2 kN (" in found
    assert "lbf)" in found
    assert "The maker's figure, lubricant and method govern." in found
    assert "Not for fasteners tightened by angle or to yield." in found
    assert "breaking fastener" in found


def test_the_same_torque_gives_less_with_oil_and_least_dry():
    found = [
        value(run("tightening", MAIN_CAP | {"lubricant": each, "tightening_torque": "50 N m"}), "preload")
        for each in ("assembly paste", "engine oil", "dry")
    ]
    assert found == sorted(found, reverse=True)
    locker = run("tightening", MAIN_CAP | {"lubricant": "medium locker", "tightening_torque": "50 N m"})
    assert found[2] < value(locker, "preload") < found[0]
    assert "cures" in said(locker)


def test_the_wrench_and_the_bearing_of_the_shop_count():
    plain = run("tightening", FRICTION | {"tightening_torque": "60 N m"})
    worse = run("tightening", FRICTION | {"tightening_torque": "60 N m", "wrench_spread": "10 %"})
    assert value(worse, "preload_low") < value(plain, "preload_low")
    seat = {"bearing_diameter_outer": "16 mm", "bearing_diameter_hole": "11 mm"}
    found = run("tightening", FRICTION | seat | {"tightening_torque": "60 N m"})
    verified(value(found, "preload"), 36.5e3, by="by hand with Dm 13.5 mm", tolerance=2e-3)
    flange = run("tightening", FRICTION | {"bearing_diameter_outer": "20 mm", "tightening_torque": "60 N m"})
    assert value(flange, "preload") < value(found, "preload")


def test_a_torque_in_the_wrong_pounds_is_said():
    m6 = {"thread": "M6", "property_class": "8.8", "lubricant": "engine oil"}
    feet = said(run("tightening", m6 | {"tightening_torque": "90 lbf ft"}))
    assert "No M6 fastener stands this torque" in feet
    assert "beyond its yield strength" in feet
    inches = said(run("tightening", m6 | {"tightening_torque": "90 lbf in"}))
    assert "stands this torque" not in inches
    assert "beyond its yield" not in inches


def test_friction_outside_of_every_class_is_said():
    odd = run("tightening", FRICTION | {"thread_friction": 0.02, "tightening_torque": "40 N m"})
    assert "No friction class" in said(odd)


@pytest.mark.parametrize(
    "change,words",
    [
        ({"thread": "M10x1.3"}, 'thread: thread "M10x1.3" is not known; write "M10", "M10x1.25"'),
        ({"property_class": "11.9"}, "property_class: .*12.9"),
        ({"lubricant": "soap"}, 'lubricant: lubricant "soap" is not known'),
        ({"thread_friction": 0.1}, "lubricant: give either the lubricant or coefficients"),
        ({"lubricant": None}, "lubricant: missing; give lubricant, or thread_friction and head_friction"),
        ({"lubricant": None, "thread_friction": 0.1}, "head_friction: missing; give both"),
        ({"preload": "40 kN"}, "preload: give either tightening_torque or preload"),
        ({"tightening_torque": None}, "tightening_torque: missing; give tightening_torque, preload or yield"),
        ({"tightening_torque": "52"}, "without a unit"),
        ({"tightening_torque": "52 mm"}, "is a length where a torque is wanted"),
        ({"bearing_diameter_outer": "10 mm"}, "bearing_diameter_outer: not above the hole within it"),
    ],
)
def test_what_is_wrong_is_one_sentence(change, words):
    with pytest.raises(SumError, match=words):
        run("tightening", MAIN_CAP | {"tightening_torque": "52 N m"} | change)


# Another lubricant, an extension


def test_equal_preload_is_equal():
    asked = {
        "thread": "M10x1.25",
        "tightening_torque": "60 N m",
        "lubricant": "dry",
        "other_lubricant": "engine oil",
    }
    found = run("equal-preload", asked)
    old = run("tightening", MAIN_CAP | {"lubricant": "dry", "tightening_torque": "60 N m"})
    new = run(
        "tightening",
        MAIN_CAP | {"lubricant": "engine oil", "tightening_torque": value(found, "equal_torque")},
    )
    verified(
        value(new, "preload"), value(old, "preload"), by="both by the sum of one torque", tolerance=1e-12
    )
    assert value(found, "equal_torque") < 60.0
    kept = run("tightening", MAIN_CAP | {"lubricant": "engine oil", "tightening_torque": "60 N m"})
    verified(
        value(found, "preload_at_unchanged_torque"),
        value(kept, "preload"),
        by="the old torque kept",
        tolerance=1e-12,
    )
    assert "Where the maker gives a torque for the lubricant at hand" in said(found)


@pytest.mark.parametrize(
    "angle,setting",
    [(None, 53.333), ("in line", 53.333), ("across", 60.0), ("90 deg", 60.0), ("backwards", 68.571)],
)
def test_the_crow_foot(angle, setting):
    asked = {"tightening_torque": "60 N m", "wrench_length": "400 mm", "extension_length": "50 mm"}
    found = run("wrench-extension", asked | {"extension_angle": angle})
    verified(
        value(found, "wrench_setting"), setting, by="60 × 400 / (400 ± 50), by hand", tolerance=absolute(6e-4)
    )


# Stretch


def test_the_rod_bolt_both_ways():
    found = run(
        "stretch", ROD_BOLT | {"stretch": "0.150 mm", "tightening_torque": "46 N m", "property_class": "12.9"}
    )
    verified(value(found, "preload"), 39.4e3, by="by hand", tolerance=3e-3)
    verified(value(found, "apparent_friction"), 0.095, by="46 N m at 39.4 kN", tolerance=absolute(0.003))
    back = run("stretch", ROD_BOLT | {"preload": value(found, "preload")})
    verified(value(back, "stretch"), 0.150e-3, by="there and back", tolerance=1e-12)
    verified(
        value(found, "proof_utilisation"), 39.4e3 / (math.pi / 4 * 7.8**2) / 970, by="by hand", tolerance=3e-3
    )


def test_the_dry_rod_bolt_shows_its_friction():
    wet, dry = (
        value(
            run("stretch", ROD_BOLT | {"stretch": stretch, "tightening_torque": torque}), "apparent_friction"
        )
        for stretch, torque in (("0.150 mm", "46 N m"), ("0.118 mm", "50 N m"))
    )
    assert dry > 1.3 * wet


def test_warmth_is_taken_off():
    warm = run("stretch", ROD_BOLT | {"stretch": "0.157 mm", "warming": "10 K", "measured_length": "60 mm"})
    verified(
        value(warm, "stretch") * 1e3, 0.150, by="7 thousandths for 10 K on 60 mm", tolerance=absolute(2e-4)
    )


def test_too_much_stretch_for_its_torque_is_said():
    found = run("stretch", ROD_BOLT | {"stretch": "0.40 mm", "tightening_torque": "10 N m"})
    assert "the fastener yields, or a length is wrong" in said(found)


def test_a_fastener_without_lengths_asks_for_them():
    with pytest.raises(SumError, match="give sections, thread_length or both"):
        run("stretch", {"thread": "M9x1", "stretch": "0.1 mm"})


# Stripping

HOLE = {
    "thread": "M10",
    "property_class": "10.9",
    "parent_metal": "cast_aluminium",
    "engagement_length": "20 mm",
}


def test_the_needed_engagement_is_just_enough():
    needed = value(run("stripping", HOLE), "needed_engagement")
    enough = run("stripping", HOLE | {"engagement_length": needed * 1.0001})
    short = run("stripping", HOLE | {"engagement_length": needed * 0.999})
    assert value(enough, "bolt_breaks_first")
    assert not value(short, "bolt_breaks_first")
    assert "strips before the bolt breaks" in said(short)
    assert "For a sound, clean, full-depth thread" in said(enough)


def test_an_insert_a_boss_and_a_countersink_each_count():
    plain = value(run("stripping", HOLE), "stripping_force")
    insert = run("stripping", HOLE | {"insert_outside_diameter": "12 mm"})
    assert value(insert, "stripping_force") > plain
    assert value(run("stripping", HOLE | {"boss_diameter": "15 mm"}), "stripping_force") < plain
    assert value(run("stripping", HOLE | {"countersink_depth": "3 mm"}), "stripping_force") < plain


@pytest.mark.parametrize(
    "change,words",
    [
        ({"parent_metal": "cheese"}, 'parent metal "cheese" is not known'),
        ({"parent_metal": None}, "give parent_metal or parent_shear_strength"),
        ({"insert_outside_diameter": "9 mm"}, "not above the thread within it"),
        ({"boss_diameter": "13 mm"}, "less than 1.4 times the thread"),
    ],
)
def test_a_hole_that_cannot_be(change, words):
    with pytest.raises(SumError, match=words):
        run("stripping", HOLE | change)


def test_a_preload_beyond_what_holds_is_said():
    found = run("stripping", HOLE | {"engagement_length": "8 mm", "preload_high": "40 kN"})
    assert value(found, "stripping_margin") < 1.0
    assert "strips below the largest preload" in said(found)


# What people type


@pytest.mark.parametrize(
    "text,newton_metres",
    [
        *(
            (f"90 {unit}", 90 * POUND_FOOT)
            for unit in ("lbf ft", "ft-lb", "ft-lbs", "ftlb", "lb-ft", "lbft", "foot-pounds")
        ),
        *(
            (f"90 {unit}", 90 * POUND_FOOT / 12)
            for unit in ("lbf in", "in-lb", "in-lbs", "inlb", "lb.in", "inch-pounds")
        ),
        *((f"6 {unit}", 6 * 9.80665) for unit in ("kgf m", "mkg", "kg-m", "kgfm", "kgm")),
        ("52 Nm", 52.0),
        ("5.2 daNm", 52.0),
        ("5200 N mm", 5.2),
    ],
)
def test_torques_as_they_are_written(text, newton_metres):
    verified(
        parse_quantity(text, dimension="torque").si, newton_metres, by="from the definitions", tolerance=1e-14
    )


@pytest.mark.parametrize("text", ["52", "52 nm", "90 ft/lb", "90 lb", "90 ft", "45 foot"])
def test_a_torque_that_could_be_another_is_refused(text):
    with pytest.raises(QuantityError):
        parse_quantity(text, dimension="torque")


@given(torque=st.integers(10, 200), outer=st.integers(1300, 2500))
def test_inches_and_millimetres_give_the_same(torque, outer):
    """Sizes of a hundredth of a millimetre are whole in millionths of an inch times 2.54."""
    metric = {"bearing_diameter_outer": f"{outer * 254 / 10000} mm", "bearing_diameter_hole": "11.43 mm"}
    inch = {"bearing_diameter_outer": f"{outer / 1000} in", "bearing_diameter_hole": "0.45 in"}
    found = [
        run("tightening", FRICTION | sizes | {"tightening_torque": f"{torque} lbf ft"})
        for sizes in (metric, inch)
    ]
    assert found[0].results == found[1].results
