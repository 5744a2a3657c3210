"""Each sum against a number that somebody else printed, or that was worked a second way."""

import csv
import math
from pathlib import Path

import numpy as np
import pytest

from fitwright.sums import SUMS, SumError, run
from fitwright.sums.shown import figure_text
from tests.support.compare import absolute, published, verified

AIAG = Path(__file__).resolve().parents[1] / "data" / "aiag_msa_grr_data.csv"


def value(result, key):
    figure = result.results[key]
    return None if figure is None else figure.value


# convert


@pytest.mark.parametrize(
    "amount,to,expected",
    [
        ("2 1/2 in", "mm", 63.5),
        ("90 ft-lb", "N m", 90 * 0.45359237 * 9.80665 * 0.3048),
        ("230 F", "degC", 110.0),
        ("4.5 kgf/cm2", "bar", 4.5 * 0.980665),
        ("1 oz in", "g mm", 28.349523125 * 25.4),
        ("3 lb", "N", 3 * 0.45359237 * 9.80665),
        ("2.5 thou", "um", 63.5),
    ],
)
def test_conversions(amount, to, expected):
    verified(
        value(run("convert", {"amount": amount, "to": to}), "converted"),
        expected,
        by="from the definitions of inch, pound, standard gravity and degree, by hand",
        tolerance=1e-14,
    )


def test_conversion_into_both_kinds_of_shop():
    result = run("convert", {"amount": "0.0022 in"})
    assert value(result, "converted") is None
    assert (value(result, "in_millimetre_shop"), value(result, "in_inch_shop")) == (0.05588, 2.2)
    assert result.results["in_inch_shop"].unit == "thou"


def test_a_converted_number_is_shown_without_the_digits_behind_its_eight():
    result = run("convert", {"amount": "64 degF", "to": "degC"})
    assert figure_text(result.results["converted"], "inch") == "17.777778 \u00b0C"
    assert result.working[-1].result.value == "17.777778 \u00b0C"
    assert (
        figure_text(run("convert", {"amount": "2.5 thou", "to": "mm"}).results["converted"], "mm")
        == "0.0635 mm"
    )


def test_a_unit_used_in_two_dimensions():
    cold = run("convert", {"amount": "10 degC", "dimension": "temperature_difference", "to": "degF"})
    warm = run("convert", {"amount": "10 degC", "to": "degF"})
    assert (value(cold, "converted"), value(warm, "converted")) == (18.0, 50.0)


def test_a_bare_number_needs_its_dimension():
    assert value(run("convert", {"amount": 0.0254, "dimension": "length", "to": "in"}), "converted") == 1.0
    with pytest.raises(SumError, match="number without a unit"):
        run("convert", {"amount": 0.0254})
    with pytest.raises(SumError, match="no unit of length"):
        run("convert", {"amount": "1 mm", "to": "bar"})


# blades


def test_blades_on_both_sides_against_plain_integration():
    result = run(
        "blades",
        {
            "answers": ["0.06 mm goes", "0.07 mm does not go"],
            "lower_limit": "0.040 mm",
            "upper_limit": "0.075 mm",
        },
    )
    gap = np.linspace(0.04, 0.09, 20_001)
    above = np.array([0.5 * math.erfc((0.06 - each) / (0.002 * math.sqrt(2.0))) for each in gap])
    below = np.array([0.5 * math.erfc((each - 0.07) / (0.002 * math.sqrt(2.0))) for each in gap])
    density = above * below / np.sum(above * below)
    mean = float(density @ gap)
    spread = math.sqrt(float(density @ (gap - mean) ** 2))
    by = "both likelihoods summed on an even grid"
    verified(value(result, "value") * 1e3, mean, by=by, tolerance=1e-6)
    verified(value(result, "standard_uncertainty") * 1e3, spread, by=by, tolerance=1e-4)
    verified(
        value(result, "upper_limit_probability"),
        float(density[gap <= 0.075].sum()),
        by=by,
        tolerance=absolute(1e-5),
    )
    assert value(result, "verdict") == "within"
    assert (value(result, "largest_that_goes"), value(result, "smallest_that_does_not_go")) == (6e-5, 7e-5)


def test_a_blade_on_one_side_leaves_the_other_open():
    result = run("blades", {"answers": ["0.10 mm goes"], "lower_limit": "0.05 mm", "upper_limit": "0.15 mm"})
    assert value(result, "lower_limit_verdict") == "within"
    assert value(result, "upper_limit_probability") is None
    assert (value(result, "verdict"), value(result, "reason")) == ("unproven", "nothing bounds it")
    assert value(result, "interval")[1] is None


def test_a_coarse_set_cannot_prove_a_narrow_limit_and_a_fine_one_can():
    coarse = [f"{thickness} mm" for thickness in ("0.05", "0.10", "0.15", "0.20", "0.25", "0.30", "0.40")]
    limits = {"lower_limit": "0.040 mm", "upper_limit": "0.075 mm"}
    result = run("blades", {**limits, "blade_set": coarse})
    assert value(result, "verdict") == "not measured"
    assert value(result, "set_can_prove") is False
    thinnest, thickest = value(result, "missing_blade")
    assert 0.050e-3 <= thinnest < 0.06e-3
    assert 0.07e-3 < thickest < 0.0765e-3
    assert value(result, "missing_blade_answer") == "does not go"
    fine = [f"0.0{step} mm" for step in range(2, 10)]
    assert value(run("blades", {**limits, "blade_set": fine}), "set_can_prove") is True


def test_an_open_limit_names_the_blades_that_would_settle_it():
    result = run(
        "blades",
        {
            "answers": ["0.05 mm goes"],
            "lower_limit": "0.040 mm",
            "upper_limit": "0.075 mm",
            "blade_set": ["0.05 mm", "0.06 mm", "0.07 mm", "0.08 mm"],
        },
    )
    rows = value(result, "what_would_settle")
    assert {row["limit"].value for row in rows} == {"upper"}
    likelihoods = [row["likelihood"].value for row in rows]
    assert likelihoods == sorted(likelihoods, reverse=True)
    assert 0.0 < likelihoods[0] <= 1.0


def test_contradictory_blades_are_never_averaged():
    result = run("blades", {"answers": ["0.05 mm does not go", "0.08 mm goes"], "upper_limit": "0.1 mm"})
    assert (value(result, "verdict"), value(result, "reason")) == ("unproven", "contradictory")
    assert value(result, "interval") is None
    assert value(result, "value") is None
    assert value(result, "contradictory_answers") == ("answer 1", "answer 2")
    weights = [row["weight"].value for row in value(result, "explanations")]
    verified(sum(weights), 1.0, by="shares of one whole", tolerance=1e-12)
    assert any("read again" in caution for caution in result.cautions)


def test_a_stack_is_thicker_than_its_blades():
    result = run("blades", {"answers": [{"stack": ["0.40 mm", "0.05 mm"], "answer": "goes"}]})
    verified(
        value(result, "largest_that_goes") * 1e3,
        0.452,
        by="sum of the blades and 0.002 mm for their interface",
        tolerance=1e-12,
    )


def test_blades_need_something_to_say():
    with pytest.raises(SumError, match="give answers, or limits and a blade_set"):
        run("blades", {})
    with pytest.raises(SumError, match="missing; give thickness, or stack"):
        run("blades", {"answers": [{"answer": "goes"}]})
    with pytest.raises(SumError, match="above the upper limit"):
        run("blades", {"answers": ["0.1 mm goes"], "lower_limit": "2 mm", "upper_limit": "1 mm"})


# blade-stack


def test_the_stack_nearest_a_thickness():
    result = run(
        "blade-stack",
        {"wanted_thickness": "0.45 mm", "blades": ["0.05 mm", "0.10 mm", "0.15 mm", "0.30 mm", "0.40 mm"]},
    )
    verified(
        [value(result, key) * 1e6 for key in ("thickness", "standard_uncertainty", "difference")],
        [452.0, math.sqrt(12.0), 2.0],
        by="0.40 + 0.05 + one interface of 0.002; three uncertainties of 0.002",
        tolerance=1e-9,
    )
    assert value(result, "blades") == (0.4e-3, 0.05e-3)
    assert value(result, "cross_check") == (0.3e-3, 0.15e-3)


def test_the_stack_against_every_stack():
    thicknesses = (0.04, 0.05, 0.07, 0.11, 0.13, 0.19, 0.23)
    wanted = 0.341
    sums = [
        sum(t for bit, t in enumerate(thicknesses) if mask >> bit & 1) + 0.002 * (mask.bit_count() - 1)
        for mask in range(1, 1 << len(thicknesses))
        if mask.bit_count() <= 3
    ]
    best = min(sums, key=lambda total: abs(total - wanted))
    result = run(
        "blade-stack", {"wanted_thickness": f"{wanted} mm", "blades": [t * 1e-3 for t in thicknesses]}
    )
    verified(
        abs(value(result, "difference")) * 1e3,
        abs(best - wanted),
        by="every subset by bit mask",
        tolerance=absolute(1e-9),
    )


def test_too_many_blades_are_refused():
    blades = [f"{1 + number / 1000} mm" for number in range(300)]
    with pytest.raises(SumError, match="use fewer blades"):
        run("blade-stack", {"wanted_thickness": "2 mm", "blades": blades})


# missing-part

HOUSING = {"name": "housing", "size": "54.020 mm", "standard_uncertainty": "0.0015 mm"}
JOURNAL = {"name": "journal", "coefficient": -1, "size": "49.992 mm", "standard_uncertainty": "0.0015 mm"}
LIMITS = {"lower_limit": "0.030 mm", "upper_limit": "0.060 mm"}


def test_the_wall_wanted_of_a_shell():
    wall = {"coefficient": -2, "standard_uncertainty": "0.001 mm"}
    result = run("missing-part", {"members": [HOUSING, JOURNAL, wall], **LIMITS})
    u = math.sqrt(1.5**2 + 1.5**2 + 2.0**2) * 1e-3
    guard = 1.6448536269514722 * u
    verified(
        [
            value(result, key) * 1e3
            for key in ("smallest_size", "largest_size", "aim", "standard_uncertainty")
        ],
        [(4.028 - 0.060 + guard) / 2.0, (4.028 - 0.030 - guard) / 2.0, 1.9915, u],
        by="limits moved in by 1.645 u, by hand",
        tolerance=1e-9,
    )


def test_a_shared_master_widens_the_sizes_that_will_do():
    apart = run("missing-part", {"members": [HOUSING, {"coefficient": -1}], **LIMITS})
    shared = {"master": "micrometer 2", "master_standard_uncertainty": "0.0012 mm"}
    own = {"standard_uncertainty": "0.0009 mm", **shared}
    together = run("missing-part", {"members": [{**HOUSING, **own}, {"coefficient": -1, **own}], **LIMITS})
    verified(
        value(together, "standard_uncertainty") * 1e6,
        0.9 * math.sqrt(2.0),
        by="what both share cancels in their difference",
        tolerance=1e-9,
    )
    assert value(together, "smallest_size") < value(apart, "smallest_size")


def test_gauges_too_coarse_for_any_size():
    members = [{**HOUSING, "standard_uncertainty": "0.02 mm"}, {"coefficient": -1}]
    result = run("missing-part", {"members": members, **LIMITS})
    assert value(result, "is_possible") is False
    assert value(result, "aim") is None
    assert result.cautions


def test_exactly_one_part_is_missing():
    with pytest.raises(SumError, match="0 have no size"):
        run("missing-part", {"members": [HOUSING, JOURNAL], **LIMITS})
    with pytest.raises(SumError, match="lower_limit, upper_limit or both"):
        run("missing-part", {"members": [HOUSING, {"coefficient": -1}]})


def test_one_limit_leaves_the_other_side_open():
    members = [HOUSING, {"coefficient": -1}]
    result = run("missing-part", {"members": members, "lower_limit": "0.03 mm"})
    assert value(result, "smallest_size") is None
    assert value(result, "aim") is None
    assert value(result, "largest_size") < 53.99e-3


# expansion

POCKET = {"name": "pocket", "size": "84.105 mm", "expansion_coefficient": "23e-6 /K", "part": "pump"}
ROTOR = {
    "name": "rotor",
    "coefficient": -1,
    "size": "83.965 mm",
    "expansion_coefficient": "11.5e-6 /K",
    "part": "pump",
}


def test_a_clearance_at_temperature():
    result = run("expansion", {"members": [POCKET, ROTOR], "temperature": "110 degC"})
    change = 90.0 * (84.105 * 23e-6 - 83.965 * 11.5e-6)
    shared = 5.0 * (84.105 * 23e-6 - 83.965 * 11.5e-6)
    thermal = math.sqrt((84.105 * 90e-6) ** 2 + (83.965 * 90e-6) ** 2 + shared**2)
    verified(
        [
            value(result, key) * 1e3
            for key in ("cold_size", "size_at_temperature", "thermal_standard_uncertainty")
        ],
        [0.140, 0.140 + change, thermal],
        by="size times coefficient times warming, by hand; the temperature of one part is one unknown",
        tolerance=1e-9,
    )
    low, high = value(result, "interval")
    verified((high - low) * 1e3, 2 * 1.959964 * thermal, by="two-sided 95 %", tolerance=1e-6)


def test_a_material_by_name_is_that_of_its_source():
    by_name = {"size": "50 mm", "material": "Cast Aluminium", "temperature": "120 degC"}
    result = run("expansion", {"members": [by_name]})
    published(
        value(result, "change") / 50e-3 / 100.0,
        21.5e-6,
        source="callister2007",
        place="Table B.6, alloy 356.0",
        tolerance=1e-9,
        why="the table's own three figures",
    )
    with pytest.raises(SumError, match='no material "aluminum"; did you mean'):
        run("expansion", {"members": [{**by_name, "material": "aluminum"}]})


def test_temperature_and_coefficient_have_to_come_from_somewhere():
    with pytest.raises(SumError, match="temperature of item 1 of members: missing"):
        run("expansion", {"members": [POCKET]})
    with pytest.raises(SumError, match="expansion_coefficient of item 1 of members: missing"):
        run("expansion", {"members": [{"size": "1 mm"}], "temperature": 300})


# interference

JACKET = {
    "shaft_diameter": "40 mm",
    "interference": "0.031711 mm",
    "hub_outer_diameter": "60 mm",
    "shaft_bore_diameter": "20 mm",
    **{f"{part}_elastic_modulus": "207 GPa" for part in ("hub", "shaft")},
    **{f"{part}_poisson_ratio": 0.3 for part in ("hub", "shaft")},
    **{f"{part}_expansion_coefficient": "11e-6 /K" for part in ("hub", "shaft")},
}


def test_a_jacketed_tube_of_a_textbook():
    result = run("interference", JACKET)
    published(
        value(result, "hub_hoop_stress"),
        100e6,
        source="bhandari2010",
        place="example 22.6, largest principal stress of the jacket",
        tolerance=1e-4,
        why="six figures of the diameter, so two or three of the interference",
    )


def test_bore_or_interference_but_not_both():
    inputs = {**JACKET, "hub_bore_diameter": "39.968289 mm"}
    with pytest.raises(SumError, match="either hub_bore_diameter or interference"):
        run("interference", inputs)
    del inputs["interference"]
    verified(
        value(run("interference", inputs), "contact_pressure"),
        value(run("interference", JACKET), "contact_pressure"),
        by="the same interference, given the other way",
        tolerance=1e-9,
    )


def test_forces_and_temperatures_of_a_press_fit():
    result = run(
        "interference",
        {
            "shaft_diameter": "35 mm",
            "interference": "0.10 mm",
            "hub_outer_diameter": "60 mm",
            "length": "8 mm",
            "friction_coefficient": 0.1,
            "hub_material": "cast_aluminium",
            "hub_expansion_coefficient": "23e-6 /K",
            "shaft_material": "steel",
            "shaft_expansion_coefficient": "12e-6 /K",
            "hub_temperature": "170 degC",
        },
    )
    pressure = value(result, "contact_pressure")
    verified(
        [
            value(result, "interference_at_temperature") * 1e3,
            value(result, "temperature_without_grip") - 293.15,
            value(result, "assembly_temperature") - 293.15,
            value(result, "holding_force"),
        ],
        [
            0.10 - 35.0 * 11e-6 * 150.0,
            0.10 / (35.0 * 11e-6),
            0.13 / (35.0 * 23e-6),
            0.1 * pressure * math.pi * 35e-3 * 8e-3,
        ],
        by="difference of expansions, by hand",
        tolerance=1e-9,
    )
    assert value(result, "grips_at_temperature") is True


def test_a_grip_that_is_lost_and_a_hub_that_yields_are_said():
    inputs = {**JACKET, "hub_expansion_coefficient": "23e-6 /K", "hub_temperature": "250 degC"}
    lost = run("interference", {**inputs, "hub_yield_strength": "90 MPa"})
    assert value(lost, "grips_at_temperature") is False
    assert value(lost, "hub_strength_share") > 1.0
    assert {"lost at these", "beyond its yield"} == {
        words
        for words in ("lost at these", "beyond its yield")
        if any(words in each for each in lost.cautions)
    }


def test_a_clearance_does_not_grip():
    loose = run("interference", {**JACKET, "interference": "-0.01 mm"})
    assert value(loose, "contact_pressure") == 0.0
    assert value(loose, "temperature_without_grip") is None


# centring

COMPASS = ["top 0.07 mm", "right 0.15 mm", "bottom 0.30 mm", "left 0.21 mm"]
NAMES = {"top_name": "the deck", "right_name": "the exhaust side"}


def test_four_gaps_give_the_offset_and_the_move():
    result = run("centring", {"gaps": COMPASS, "upper_limit": "0.05 mm", **NAMES})
    verified(
        [value(result, key) * 1e3 for key in ("offset_right", "offset_up", "mean_gap", "closure_difference")],
        [(0.15 - 0.21) / 2.0, (0.07 - 0.30) / 2.0, 0.1825, 0.01],
        by="half the differences of opposite gaps",
        tolerance=absolute(1e-12),
    )
    assert value(result, "verdict") == "outside"
    assert value(result, "run_out") is None
    assert value(result, "move_words") == (
        "0.115 mm (4.5 thou) towards the deck, 0.030 mm (1.2 thou) towards the exhaust side"
    )
    after = [row["gap"].value * 1e3 for row in value(result, "gaps_after")]
    verified(after, [0.185, 0.18, 0.185, 0.18], by="gaps plus the move, by hand", tolerance=1e-9)


def test_upside_down_the_move_is_drawn_as_it_hangs_and_sag_turns_round():
    upright = run("centring", {"gaps": COMPASS, "running_clearance": "0.060 mm"})
    hung = run("centring", {"gaps": COMPASS, "running_clearance": "0.060 mm", "attitude": "upside down"})
    verified(
        [value(upright, "running_offset_up") * 1e3, value(hung, "running_offset_up") * 1e3],
        [-0.115 - 0.7 * 0.03, -0.115 + 0.03 + 0.3 * 0.03],
        by="shaft rests 0.03 low in the room and runs at 0.7 of that above its rest",
        tolerance=1e-9,
    )
    verified(
        [value(hung, "move_as_hung_up"), value(hung, "move_as_hung_right")],
        [-value(hung, "move_up"), -value(hung, "move_right")],
        by="half a turn reverses both directions",
        tolerance=1e-9,
    )


def test_shaft_angles_tell_the_run_out_from_the_offset():
    gaps = []
    for turned in (0.0, 0.5 * math.pi, math.pi, 1.5 * math.pi):
        for theta in (0.0, 0.5 * math.pi, math.pi, 1.5 * math.pi):
            size = (
                0.2 + 0.02 * math.sin(theta) - 0.03 * math.cos(theta) - 0.01 * math.cos(theta - turned - 0.4)
            )
            gaps.append({"angle": theta, "shaft_angle": turned, "gap": size * 1e-3})
    result = run("centring", {"gaps": gaps})
    verified(
        [value(result, key) * 1e3 for key in ("offset_right", "offset_up", "eccentricity", "run_out")],
        [0.02, -0.03, 0.01, 0.02],
        by="gaps made from the model",
        tolerance=1e-9,
    )
    verified(value(result, "eccentricity_direction"), 0.4, by="the angle it was made with", tolerance=1e-9)


def bracket(angle, low, high):
    return {"angle": angle, "at_least": f"{low} mm", "less_than": f"{high} mm"}


def test_blades_give_a_polygon_round_the_offset():
    gaps = [
        bracket("top", 0.06, 0.08),
        bracket("right", 0.14, 0.16),
        bracket("bottom", 0.29, 0.31),
        bracket("left", 0.20, 0.22),
    ]
    result = run("centring", {"gaps": gaps, "upper_limit": "0.05 mm"})
    verified(
        [value(result, "offset_right") * 1e3, value(result, "offset_up") * 1e3],
        [-0.03, -0.115],
        by="brackets centred on the gaps of the values",
        tolerance=absolute(0.002),
    )
    corners = [(row["right"].value, row["up"].value) for row in value(result, "possible_offsets")]
    reach = [math.hypot(*corner) for corner in corners]
    verified(max(reach), value(result, "greatest_offset"), by="farthest corner", tolerance=1e-6)
    assert value(result, "verdict") == "outside"
    assert value(result, "mean_gap") is None


def test_blades_that_leave_it_open_or_clash_are_said():
    some = [bracket("right", 0.14, 0.16), bracket("left", 0.20, 0.22), {"angle": "top", "at_least": "0.1 mm"}]
    found = run("centring", {"gaps": some, "upper_limit": "0.05 mm"})
    assert "top" in value(found, "open_towards")
    assert value(found, "verdict") == "unproven"
    clash = [bracket("top", 0.1, 0.2), bracket("top", 0.3, 0.4), bracket("left", 0.1, 0.2)]
    found = run("centring", {"gaps": clash})
    assert value(found, "contradictory_gaps") == (1, 2)
    assert value(found, "move_words") is None


def test_a_joint_face_holds_the_move_back():
    result = run(
        "centring",
        {
            "gaps": ["top 0.1 mm", "right 0.2 mm", "bottom 0.3 mm", "left 0.2 mm"],
            "upper_limit": "0.05 mm",
            "joint_heights": [
                {"position": "-40 mm", "height": "-0.03 mm"},
                {"position": "40 mm", "height": "-0.03 mm"},
            ],
            "joint_step_limit": "0.04 mm",
        },
    )
    verified(
        [value(result, "joint_move_up") * 1e3, value(result, "joint_offset_left") * 1e3],
        [0.07, 0.03],
        by="the face may rise by 0.03 + 0.04 of the 0.10 wanted",
        tolerance=1e-9,
    )
    assert value(result, "joint_possible") is True


def test_a_gap_is_a_value_or_a_bracket():
    with pytest.raises(SumError, match="missing; give gap, or at_least and less_than"):
        run("centring", {"gaps": [{"angle": "top"}, *COMPASS]})
    with pytest.raises(SumError, match=r"angle of item 1 of gaps: .* must be at most 720"):
        run("centring", {"gaps": [{"angle": 90, "gap": 1e-4}, *COMPASS]})
    with pytest.raises(SumError, match="thicker than at_least"):
        run("centring", {"gaps": [bracket("top", 0.2, 0.1), *COMPASS]})


# gauge-study, five-lift


def test_the_crossed_study_of_the_reference_manual():
    lines = [line for line in AIAG.read_text().splitlines() if not line.startswith("#")]
    readings = [
        {"person": row["appraiser"], "part": int(row["part"]), "indication": float(row["value"])}
        for row in csv.DictReader(lines)
    ]
    result = run("gauge-study", {"readings": readings})
    sources = ("repeatability", "reproducibility", "gauge", "parts", "total")
    published(
        [value(result, f"{name}_by_variance") for name in sources],
        [0.199933, 0.226838, 0.302372, 1.042327, 1.085300],
        source="aiag_msa_2010",
        place="chapter III section B, analysis of variance report of the crossed example",
        tolerance=absolute(0.6e-6),
        why="printed to six decimals",
    )
    published(
        [value(result, "gauge_by_ranges"), value(result, "total_by_ranges")],
        [0.3058, 1.1461],
        source="aiag_msa_2010",
        place="chapter III section B, average and range report of the crossed example",
        tolerance=absolute(1e-4),
        why="printed to four decimals, from constants of four figures",
    )
    assert value(result, "interaction_pooled") is True
    categories = [value(result, f"distinct_categories_by_{method}") for method in ("variance", "ranges")]
    assert categories == [4, 5]


def test_a_study_with_a_reading_too_few_is_refused():
    readings = [
        {"person": person, "part": part, "indication": 0.01}
        for person in ("a", "b")
        for part in (1, 2)
        for _ in range(2)
    ]
    readings[-1] = {"person": "a", "part": 1, "indication": 0.01}
    with pytest.raises(SumError, match="every person measures every part equally often"):
        run("gauge-study", {"readings": readings})


def test_five_lifts():
    lifts = [56.001, 56.000, 56.002, 56.001, 56.001]
    result = run("five-lift", {"indications": [f"{each} mm" for each in lifts], "limit_band": "0.025 mm"})
    verified(
        [value(result, "mean") * 1e3, value(result, "repeatability_standard_deviation") * 1e3],
        [56.001, math.sqrt(2e-6 / 4.0)],
        by="by hand",
        tolerance=1e-6,
    )
    published(
        np.array(value(result, "repeatability_interval")) / value(result, "repeatability_standard_deviation"),
        [math.sqrt(4.0 / 11.143), math.sqrt(4.0 / 0.484)],
        source="duncan1986",
        place="table of chi square, 4 degrees of freedom, 0.975 and 0.025",
        tolerance=1e-3,
        why="chi square printed to three decimals",
    )


# pumps


def test_a_rotor_pump_is_that_of_the_contact_points():
    result = run(
        "rotor-pump",
        {
            "inner_lobes": 8,
            "eccentricity": "2.5 mm",
            "generating_radius": "30 mm",
            "tooth_radius": "6.5 mm",
            "width": "12 mm",
            "pump_speed": "1000 rpm",
        },
    )
    by = "exact contact-point integration, computed elsewhere"
    verified(value(result, "displacement"), 8729.357e-9, by=by, tolerance=1e-6)
    verified(value(result, "flow_ripple"), 0.0263, by=f"{by}, 4 decimals", tolerance=absolute(5e-5))
    verified(value(result, "theoretical_flow"), 8729.357e-6 / 60.0, by="times the speed", tolerance=1e-6)
    assert (
        value(run("rotor-pump", SUMS["rotor-pump"].example | {"pump_speed": None}), "theoretical_flow")
        is None
    )


def test_a_standard_gear_pump_needs_no_diameters():
    short = {"teeth": 11, "module": "3.5 mm", "width": "25 mm"}
    whole = short | {"outside_diameter": "45.5 mm", "centre_distance": "38.5 mm"}
    answers = [run("spur-pump", inputs) for inputs in (short, whole)]
    assert answers[0].results == answers[1].results
    origins = {each.origin for step in answers[0].working for each in step.put_in}
    assert "standard gear" in origins
    pitch = math.pi * 3.5 * math.cos(math.radians(20.0))
    want = 2.0 * math.pi * 25.0 * (22.75**2 - 19.25**2 - pitch**2 / 12.0) * 1e-9
    verified(value(answers[0], "displacement"), want, by="hand", tolerance=1e-12)


def test_a_relief_valve_by_hand():
    result = run("relief", SUMS["relief"].example)
    area = math.pi / 4.0 * 12e-3**2
    verified(value(result, "cracking_pressure"), 8e3 * 7e-3 / area, by="k x / A", tolerance=1e-12)
    verified(value(result, "pressure_by_shim"), 8e3 * 0.5e-3 / area, by="k t / A", tolerance=1e-12)
    want = (5.5e5 - 8e3 * 7e-3 / area) * area / 8e3
    verified(value(result, "shim_to_wanted_pressure"), want, by="p A / k - x", tolerance=1e-9)
    verified(value(result, "coil_bind_margin"), 3e-3, by="46 - 30 - 7 - 5 - 1", tolerance=1e-9)
    lift, pressure = value(result, "lift_at_flow"), value(result, "pressure_at_flow")
    verified(8e3 * (7e-3 + lift) / area, pressure, by="balance of spring and pressure", tolerance=1e-9)
    shimmed = run("relief", SUMS["relief"].example | {"shim_thickness": want})
    verified(value(shimmed, "cracking_pressure"), 5.5e5, by="the pressure wanted", tolerance=1e-9)


def test_a_relief_valve_cautions_where_it_has_to():
    example = SUMS["relief"].example
    said = " ".join(run("relief", example).cautions)
    assert "never mend a leak" in said
    bound = " ".join(run("relief", example | {"coil_bind_length": "34 mm"}).cautions)
    assert "binds before full lift" in bound
    lower = " ".join(run("relief", example | {"wanted_pressure": "4 bar"}).cautions)
    assert "never mend a leak" not in lower
    small = " ".join(run("relief", example | {"flow": "900 L/min"}).cautions)
    assert "stands at its stop" in small
    alone = run("relief", example | {"flow": None, "wanted_pressure": None, "free_length": None})
    assert value(alone, "override") is value(alone, "coil_bind_margin") is None


def test_a_worn_relief_valve_leaks_while_closed():
    tight, worn = (
        run("relief", SUMS["relief"].example | {"plunger_clearance": clearance, "seat_leak_lift": lift})
        for clearance, lift in (("0.04 mm", "0 mm"), ("0.08 mm", "0.02 mm"))
    )
    pressure = 0.8 * value(tight, "cracking_pressure")
    want = math.pi * 12e-3 * 20e-6**3 * pressure / (12.0 * 0.015 * 0.01)
    verified(value(tight, "closed_leakage"), want, by="annulus by hand", tolerance=1e-9)
    assert value(worn, "closed_leakage") > 8.0 * want
