"""Fasteners and groups: what was recorded, what lies outside, what is odd, what is missing."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from fitwright.assess.assembly.results import FastenerState, PreloadBy, Side
from fitwright.records.kinds import (
    Calibration,
    Concession,
    EyeCheck,
    HeatCycle,
    Instrument,
    Part,
    TighteningCheck,
    Typed,
)
from tests.support.assembly import STRETCHES, assembling, millimetres, newton_metres
from tests.support.compare import golden, verified


@pytest.fixture
def story():
    return assembling()


@pytest.fixture
def capped(story):
    story.caps()
    return story


def wrench(story, code="TW1", calibrated="2031-02-01", **more):
    about = {"type": "torque wrench", "unit": "N m", "resolution": 0.5, "repeatability": 0.2}
    story.says(Instrument(code=code, title="Wrench 20 to 100", **(about | more)), shop=True)
    if calibrated is not None:
        kind = {"never": True} if calibrated == "never" else {"date": calibrated or None}
        story.says(
            Calibration(code=f"C-{code}", instrument=code, standard_uncertainty=0.5, **kind), shop=True
        )


# Passes.


def test_a_group_says_which_pass_and_which_fastener_comes_next(story):
    group = story.standing().groups["caps"]
    assert (group.next_pass, group.next_fastener, group.started) == (1, "c1", False)
    story.tightens("caps", "c1", "c2", "c3", "c4", number=1, torque=25.0)
    story.tightens("caps", "c1", number=2, torque=45.0)
    group = story.standing().groups["caps"]
    assert (group.next_pass, group.next_fastener) == (2, "c2")
    assert group.words == "pass 2: 1 of 4"
    assert group.missing[0].startswith("fastener 1 of 4 (c1) is not confirmed: part way")


def test_a_pass_before_the_one_before_was_complete_is_said(story):
    story.tightens("caps", "c1", "c2", "c3", number=1, torque=25.0)
    story.tightens("caps", "c1", number=2, torque=45.0)
    story.tightens("caps", "c4", number=1, torque=25.0)
    story.tightens("caps", "c2", "c3", "c4", number=2, torque=45.0)
    group = story.standing().groups["caps"]
    assert group.passes[1].early == ("c1",)
    assert "before pass 1 was complete" in group.fastener("c1").remarks[0]
    assert group.fastener("c2").remarks == ()


def test_another_order_than_the_sheet_s_is_said(story):
    for name in ("c2", "c1", "c3", "c4"):
        story.tightens("caps", name, number=1, torque=25.0)
    assert any("another order" in words for words in story.standing().groups["caps"].remarks)


def test_one_tightened_again_by_itself_is_in_no_other_order(capped):
    capped.loosens("caps", "c1")
    for number, torque in enumerate((25.0, 45.0, 52.0), 1):
        capped.tightens("caps", "c1", number=number, torque=torque)
    group = capped.standing().groups["caps"]
    assert group.complete
    assert group.remarks == ()


def test_the_later_record_of_a_fastener_and_pass_counts(capped):
    capped.tightens("caps", "c3", number=3, torque=58.0)
    assert capped.fastener("caps", "c3").state is FastenerState.OUTSIDE
    capped.tightens("caps", "c3", number=3, torque=52.0)
    assert capped.fastener("caps", "c3").complete


def test_an_intermediate_pass_off_its_figure_is_said_but_the_last_decides(story):
    story.tightens("caps", "c1", "c2", "c3", "c4", number=1, torque=30.0)
    story.tightens("caps", "c1", "c2", "c3", "c4", number=2, torque=45.0)
    story.tightens("caps", "c1", "c2", "c3", "c4", number=3, torque=52.0)
    found = story.fastener("caps", "c1")
    assert found.complete
    assert found.remarks == ("pass 1 lies above the sheet's figure",)


def test_once_above_every_torque_of_the_sheet_stays_outside_whatever_comes_after(story):
    story.tightens("caps", "c1", "c2", "c3", "c4", number=1, torque=25.0)
    story.tightens("caps", "c2", number=2, torque=66.0)
    story.tightens("caps", "c1", "c3", "c4", number=2, torque=45.0)
    story.tightens("caps", "c1", "c2", "c3", "c4", number=3, torque=52.0)
    found = story.fastener("caps", "c2")
    assert found.state is FastenerState.OUTSIDE
    assert "above every torque" in found.words


@pytest.mark.parametrize(
    "torque, read, side",
    [
        (52.0, "set", None),
        (53.0, "set", None),
        (53.2, "set", Side.ABOVE),
        (50.9, "set", Side.BELOW),
        (54.0, "peak", None),
        (54.2, "peak", Side.ABOVE),
    ],
)
def test_how_near_to_the_sheet_s_torque_counts_as_it(story, torque, read, side):
    story.tightens("caps", "c1", "c2", "c3", "c4", number=1, torque=25.0)
    story.tightens("caps", "c1", "c2", "c3", "c4", number=2, torque=45.0)
    story.tightens("caps", "c1", "c2", "c3", "c4", number=3, torque=torque, read=read)
    found = story.fastener("caps", "c1")
    assert found.passes[-1].outside is side
    assert found.complete is (side is None)


def test_a_loosened_fastener_begins_anew_and_its_tightenings_are_counted(capped):
    capped.loosens("caps", "c1")
    assert capped.fastener("caps", "c1").state is FastenerState.LOOSENED
    assert capped.standing().groups["caps"].next_pass == 1
    capped.tightens("caps", "c1", number=1, torque=25.0)
    found = capped.fastener("caps", "c1")
    assert (found.state, found.times) == (FastenerState.PART_WAY, 2)


# Preload.


def test_preload_of_a_torque_has_a_band_and_says_what_governs(capped):
    found = capped.fastener("caps", "c1").preload
    assert found.by is PreloadBy.TORQUE
    assert found.low < found.preload < found.high
    golden(found.preload, 41.5e3, name="preload of M10x1.25 at 52 N m with assembly paste", tolerance=1e-3)
    assert found.words[0].startswith("Calculated from friction you chose; preload between ")
    assert found.words[0].endswith(
        "The maker's figure, lubricant and method govern. Not for fasteners tightened by angle or to yield."
    )
    assert any("sound, clean, full-depth thread" in words for words in found.words)
    assert found.stripping_margin > 1.0


def test_stretch_is_taken_from_both_lengths_and_gives_the_preload(story):
    story.tightens("rods", *STRETCHES, number=1, torque=25.0)
    lengths = {"free_length": millimetres(55.2), "tightened_length": millimetres(55.35)}
    story.tightens("rods", "1a", number=2, torque=46.0, **lengths)
    found = story.fastener("rods", "1a")
    assert found.complete
    assert found.passes[-1].stretch == pytest.approx(0.150e-3, rel=1e-9)
    assert found.preload.by is PreloadBy.STRETCH
    by_hand = 205e9 * 0.150e-3 / (26e-3 / (math.pi / 4 * 7.8e-3**2) + 12e-3 / 51.0e-6)
    verified(found.preload.preload, by_hand, by="Hooke's law over both lengths", tolerance=1e-3)
    assert any("10 K" in words for words in found.preload.words)


def test_preload_after_an_angle_is_an_estimate_that_says_so():
    from fitwright.assess.assembly.torque_effect import torque_effect

    story = assembling()
    group = story.sheet.tightening_groups["head"]
    turned = torque_effect(story.sheet, group, torque=30.0, angle=math.radians(60.0))
    snug = torque_effect(story.sheet, group, torque=30.0)
    assert turned.preload.by is PreloadBy.TORQUE_AND_ANGLE
    assert turned.preload.preload > snug.preload.preload
    assert turned.preload.words[0].startswith("Estimated")


def test_preload_at_temperature_follows_what_is_clamped(capped):
    warm = {each.case: each for each in capped.standing().groups["head"].warm}
    assert warm["load"].preload > warm["hot"].preload > capped.standing().groups["head"].intended.preload


# The odd one out.


def test_the_dry_rod_bolt_is_the_odd_one_and_nothing_else(story):
    story.rods(b4b=(50.0, 0.118))
    group = story.standing().groups["rods"]
    assert [each.id for each in group.odd] == ["4b"]
    assert "little stretch for its torque" in group.fastener("4b").odd
    assert [each.id for each in group.fasteners if each.state is FastenerState.OUTSIDE] == ["4b"]
    assert not group.complete
    assert story.open("odd fastener")[0].subject == "rods/4b"


def test_after_it_was_lubricated_again_nothing_is_odd(story):
    story.rods(b4b=(50.0, 0.118))
    story.loosens("rods", "4b")
    story.tightens("rods", "4b", number=1, torque=25.0)
    story.tightens("rods", "4b", number=2, torque=46.0, stretch=millimetres(0.149))
    group = story.standing().groups["rods"]
    assert group.odd == ()
    assert group.complete


def test_who_looked_at_an_odd_one_may_let_it_stand(story):
    story.rods(b5a=(40.0, 0.158))
    assert story.fastener("rods", "5a").odd is not None
    story.says(
        TighteningCheck(group="rods", fasteners=("5a",), check="stands as it is", checked_by="builder")
    )
    assert story.fastener("rods", "5a").odd is None


def test_the_torque_beside_a_stretch_is_a_cross_check_only(story):
    story.rods(b5a=(40.0, 0.151))
    found = story.fastener("rods", "5a")
    assert found.complete
    assert "cross-check" in found.remarks[0]


# Lubricant, wrench, checks.


def test_another_lubricant_reads_outside_with_the_torque_that_would_equal_it(story):
    story.tightens("caps", "c1", "c2", "c3", "c4", number=1, torque=25.0, lubricant="engine oil")
    story.tightens("caps", "c1", "c2", "c3", "c4", number=2, torque=45.0, lubricant="engine oil")
    story.tightens("caps", "c1", "c2", "c3", "c4", number=3, torque=52.0, lubricant="engine oil")
    found = story.fastener("caps", "c1")
    assert found.state is FastenerState.OUTSIDE
    assert found.passes[-1].outside is Side.OTHERWISE
    assert found.passes[-1].equal_torque > 60.0
    assert found.preload.preload < story.standing().groups["caps"].intended.preload
    assert any("goes before it" in words for words in found.remarks)


def test_the_same_lubricant_by_its_other_name_is_no_other(story):
    for number, torque in enumerate((25.0, 45.0, 52.0), 1):
        story.tightens(
            "caps", "c1", "c2", "c3", "c4", number=number, torque=torque, lubricant="assembly paste"
        )
    assert story.standing().groups["caps"].complete


@pytest.mark.parametrize(
    "calibrated, says, in_order",
    [
        ("2031-02-01", "", True),
        (None, "no calibration recorded", False),
        ("never", "never calibrated", False),
        ("", "nobody said when", False),
        ("2029-01-01", "2.3 years before", False),
        ("2032-01-01", "only after it was used", False),
    ],
)
def test_the_calibration_of_the_wrench_is_said(story, calibrated, says, in_order):
    wrench(story, calibrated=calibrated, range_low=20.0, range_high=100.0)
    story.tightens("caps", "c1", number=1, torque=25.0, wrench="TW1")
    found = story.fastener("caps", "c1").passes[0].wrench
    assert found.in_order is in_order
    assert says in "; ".join(found.words)


def test_a_torque_outside_the_usable_range_of_the_wrench_is_said(story):
    wrench(story, range_high=200.0)
    story.tightens("caps", "c1", number=1, torque=25.0, wrench="TW1")
    used = story.fastener("caps", "c1").passes[0].wrench
    assert (used.in_range, used.by_rule_of_thumb) == (False, True)
    assert "rule of thumb" in used.words[0]
    assert [each.words for each in story.open("wrench")] == [f"Wrench 20 to 100: {used.words[0]}"]


def test_marks_and_a_second_person_s_check_stand_until_it_is_tightened_again(capped):
    capped.says(TighteningCheck(group="caps", fasteners=("c1",), check="marked"))
    capped.says(TighteningCheck(group="caps", fasteners=("c1",), check="checked", checked_by="second"))
    capped.says(TighteningCheck(group="caps", fasteners=("c2",), check="checked", checked_by="builder"))
    first, other = capped.fastener("caps", "c1"), capped.fastener("caps", "c2")
    assert (first.marked, first.checked_by, first.second_person) == (True, ("second",), True)
    assert (other.marked, other.second_person) == (False, False)
    capped.tightens("caps", "c1", number=3, torque=52.0)
    assert not capped.fastener("caps", "c1").marked
    assert capped.fastener("caps", "c1").checked_by == ()


# Which bolt, how often, how long.


def test_tightenings_are_counted_by_the_bolt_wherever_it_sits(story):
    for _ in range(3):
        story.tightens("rods", "1a", number=1, torque=25.0, members={"1a": "bolt-7"})
        story.loosens("rods", "1a")
    story.tightens("rods", "2a", number=1, torque=25.0, members={"2a": "bolt-7"})
    found = story.fastener("rods", "2a")
    assert (found.part, found.times) == ("bolt-7", 4)
    assert found.state is FastenerState.OUTSIDE
    assert "4 times, and the sheet allows 3" in found.words


def test_what_was_recorded_of_one_bolt_does_not_speak_for_another_in_its_place(story):
    story.tightens("rods", *STRETCHES, number=1, torque=25.0, members={"1a": "bolt-1"})
    story.tightens("rods", "1a", number=2, torque=46.0, stretch=millimetres(0.150), members={"1a": "bolt-2"})
    found = story.fastener("rods", "1a")
    assert found.state is FastenerState.PART_WAY
    assert found.missing == ("pass 1 of 2 is not recorded",)


def test_a_bolt_that_stayed_longer_than_allowed_is_outside_when_it_is_used_again(story):
    both = {"free_length": millimetres(55.200), "tightened_length": millimetres(55.350)}
    story.tightens("rods", *STRETCHES, number=1, torque=25.0)
    story.tightens("rods", "1a", number=2, torque=46.0, **both)
    story.loosens("rods", "1a", length_after=millimetres(55.214))
    found = story.fastener("rods", "1a")
    assert found.permanent_set == pytest.approx(14e-6, rel=1e-6)
    assert found.set_beyond
    story.tightens("rods", "1a", number=1, torque=25.0)
    assert story.fastener("rods", "1a").state is FastenerState.OUTSIDE
    story.loosens("rods", "1a")
    story.tightens("rods", "1a", number=1, torque=25.0, members={"1a": "bolt-new"})
    assert story.fastener("rods", "1a").permanent_set is None


def test_a_one_time_fastener_that_is_not_new_is_outside(story):
    story.says(Part(code="fb-1", title="Flywheel bolt", used=True))
    story.tightens("flywheel", "f1", number=1, torque=65.0, members={"f1": "fb-1"})
    story.tightens("flywheel", "f2", number=1, torque=65.0, members={"f2": "fb-2"})
    assert story.fastener("flywheel", "f1").state is FastenerState.OUTSIDE
    assert story.fastener("flywheel", "f2").complete
    story.loosens("flywheel", "f2")
    story.tightens("flywheel", "f2", number=1, torque=65.0)
    assert story.fastener("flywheel", "f2").new is False


def test_nobody_saying_which_bolt_leaves_newness_open(story):
    story.tightens("flywheel", "f1", "f2", number=1, torque=65.0)
    found = story.fastener("flywheel", "f1")
    assert (found.complete, found.new) == (True, None)
    assert [each.subject for each in story.open("one-time part not new")] == [
        "gasket",
        "flywheel/f1",
        "flywheel/f2",
    ]


def test_a_group_whose_values_are_not_stated_yet_is_not_complete(story):
    group = story.sheet.tightening_groups["flywheel"]
    bare = replace(group, thread="not stated yet", passes=(), lubricant=None, one_time_use=False)
    story.sheet = replace(story.sheet, tightening_groups={**story.sheet.tightening_groups, "flywheel": bare})
    story.tightens("flywheel", "f1", "f2", number=1, torque=65.0)
    found = story.standing().groups["flywheel"]
    assert not found.complete
    assert found.fastener("f1").words == "outside: tightened, and the sheet states no value for it"
    story.says(Concession(code="C-9", subject="flywheel", granted_by="builder", because="shop figure"))
    assert story.standing().groups["flywheel"].complete


def test_blind_holes_are_seen_dry_first_or_it_is_said(story):
    story.tightens("head", "h1", number=1, torque=30.0)
    assert any("blind" in words for words in story.standing().groups["head"].remarks)
    story.says(EyeCheck(check="bench.holes_dry", answer=True))
    assert not any("blind" in words for words in story.standing().groups["head"].remarks)


def test_a_pass_after_heat_before_any_heat_is_said(story):
    for number, torque in enumerate((30.0, 75.0, 75.0), 1):
        story.tightens("head", "h1", "h2", number=number, torque=torque)
    found = story.fastener("head", "h1")
    assert found.complete
    assert any("none was recorded before it" in words for words in found.remarks)


def test_tightened_again_after_heat_needs_no_further_round_for_a_second_heat(story):
    for number, torque in enumerate((30.0, 75.0), 1):
        story.tightens("head", "h1", "h2", number=number, torque=torque)
    story.says(HeatCycle(words="first"))
    assert story.fastener("head", "h1").state is FastenerState.TO_TIGHTEN_AGAIN
    story.tightens("head", "h1", "h2", number=3, torque=75.0)
    story.says(HeatCycle(words="second"))
    assert story.standing().groups["head"].complete


# Accepted by name.


def over_tightened(story):
    story.tightens("caps", "c1", "c2", "c3", "c4", number=1, torque=25.0)
    story.tightens("caps", "c1", "c2", "c3", "c4", number=2, torque=45.0)
    story.tightens("caps", "c1", "c2", "c3", number=3, torque=52.0)
    return story.tightens("caps", "c4", number=3, torque=58.0)


def concession(**more):
    given = {
        "code": "C-1",
        "subject": "caps/c4",
        "granted_by": "builder",
        "because": "wrench slipped",
        "highest": newton_metres(58.0),
        "lowest": newton_metres(52.0),
    }
    return Concession(**(given | more))


def test_a_fastener_outside_completes_its_group_only_under_a_concession(story):
    over_tightened(story)
    assert not story.standing().groups["caps"].complete
    story.says(concession())
    group = story.standing().groups["caps"]
    found = group.fastener("c4")
    assert group.complete
    assert (found.complete, found.under) == (True, "C-1")
    assert found.words.startswith("outside, accepted under C-1")
    assert [each.subject for each in story.open("under concession")] == ["caps/c4"]


@pytest.mark.parametrize(
    "given",
    [
        {"subject": "caps/c3"},
        {"highest": newton_metres(56.0)},
        {"lowest": None, "highest": Typed(typed="0.16", unit="mm", decimals=2, si=1.6e-4)},
        {"parts": {"caps/c4": "another-bolt"}},
        {"until": "2031-05-03"},
    ],
)
def test_a_concession_covers_nothing_but_what_it_names(story, given):
    over_tightened(story)
    story.says(concession(**given))
    assert story.fastener("caps", "c4").state is FastenerState.OUTSIDE
