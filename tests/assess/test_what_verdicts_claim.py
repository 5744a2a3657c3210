"""What a verdict may claim, and what its readings may not be used for."""

from __future__ import annotations

import re

import pytest

from fitwright.assess.results import Reason, State, Verdict
from fitwright.assess.words import verdict_words
from fitwright.assess.working import working_of
from fitwright.bench.taking import Taking, take_value
from fitwright.records.kinds import (
    Calibration,
    CheckBack,
    Choice,
    Fitting,
    Instrument,
    LimitAdopted,
    Part,
    Reading,
    Setting,
    StatedSize,
    TakingOut,
    Typed,
    ValueObservation,
    Withdrawal,
)
from fitwright.records.kinds import State as StateChange
from tests.support.small_sheet import MICROMETER, SHEET, read_clearance, sitting, small_story
from tests.support.story import Story

PRAISE = re.compile(r"\b(good|ok|okay|safe|fine|perfect|healthy|pass(es|ed)?)\b", re.IGNORECASE)


def mm(text):
    return Typed(typed=text, unit="mm", decimals=3, si=round(float(text) * 1e-3, 9))


def tried(story, *answers):
    return [story.tries("gap", None, f"F:{blade}", answer) for blade, answer in answers]


def whys(found):
    return [each.why for each in found.unused]


# ------------------------------------------------------------------------------------------ words


@pytest.mark.parametrize("example", ["corrie-five", "brackengill-eleven"])
@pytest.mark.parametrize("state", list(State))
def test_no_verdict_praises_an_engine(example, state):
    verdicts = Story.of(example).verdicts(state)
    assert len(verdicts) > 50
    for found in verdicts.values():
        assert not PRAISE.search(found.words), found.words
        assert found.verdict is not Verdict.UNPROVEN or found.reason is not None, found.id
        assert found.words == verdict_words(found)


def test_a_rule_of_thumb_is_never_worded_like_a_limit():
    story = small_story()
    tried(story, ("0.05", "goes"), ("0.06", "does not go"))
    found = story.verdict("side")
    assert (found.verdict, found.words) == (Verdict.WITHIN, "within a rule of thumb")


def test_a_critical_fit_needs_a_limit_that_a_named_person_adopted():
    story = small_story()
    tried(story, ("0.05", "goes"), ("0.06", "does not go"))
    found = story.verdict("end_float")
    assert (found.verdict, found.reason) == (Verdict.UNPROVEN, Reason.NO_LIMIT_ADOPTED)
    assert found.words == "unproven, no limit adopted"
    assert not any(bound.governs for bound in found.bounds)
    adopted = story.says(
        LimitAdopted(subject="end_float", source="trade", adopted_by="builder", reason="as last year's")
    )
    after = story.verdict("end_float")
    assert (after.verdict, after.words) == (Verdict.WITHIN, "within a rule of thumb")
    assert {bound.adopted_by for bound in after.bounds if bound.governs} == {"builder"}
    story.says(Withdrawal(entry=adopted, reason="too early"))
    assert story.verdict("end_float").reason is Reason.NO_LIMIT_ADOPTED


def test_a_limit_may_be_adopted_from_a_source_that_the_sheet_does_not_have():
    story = small_story()
    tried(story, ("0.05", "goes"), ("0.06", "does not go"))
    story.says(
        LimitAdopted(
            subject="end_float",
            source="letter of the maker, 3 May",
            lower=mm("0.030"),
            upper=mm("0.080"),
            adopted_by="builder",
            reason="asked",
        )
    )
    found = story.verdict("end_float")
    assert found.words == "within"
    assert {b.source for b in found.bounds if b.governs} == {"letter of the maker, 3 May"}


def test_a_grip_that_was_computed_is_no_adopted_limit():
    text = SHEET.replace("[fits.seat_grip]\n", '[fits.seat_grip]\nclass = "critical"\n').replace(
        '{ source = "manual", lower = "0.060 mm", upper = "0.120 mm", governs = true',
        '{ source = "trade", lower = "0.060 mm", upper = "0.120 mm", depends_on = "diameter"',
    )
    story = small_story(text)
    story.reads("seat_bore", None, "40.000", instrument="B", setting="S-BR")
    story.reads("seat_diameter", None, "40.090", instrument="M", setting="S-M")
    found = story.verdict("seat_grip")
    grip = next(bound for bound in found.bounds if bound.source_kind == "computed")
    assert grip.verdict is Verdict.WITHIN
    assert (found.verdict, found.reason) == (Verdict.UNPROVEN, Reason.NO_LIMIT_ADOPTED)


# -------------------------------------------------------------------------------- limits that govern


def test_wear_limits_govern_only_where_a_part_is_declared_used():
    story = small_story()
    read_clearance(story, fitted="55.525")
    assert story.verdict("clearance").verdict is Verdict.OUTSIDE
    used = story.says(Part(code="crank", title="Crank", position="crank", used=True))
    worn = story.verdict("clearance")
    assert worn.verdict is Verdict.WITHIN
    assert {(b.limit, b.applies_to) for b in worn.bounds if b.governs and b.side == "upper"} == {
        (90e-6, "used")
    }
    story.says(Withdrawal(entry=used, reason="another crank"))
    assert story.verdict("clearance").verdict is Verdict.OUTSIDE


def test_a_part_used_behind_a_fitted_bore_counts():
    story = small_story()
    read_clearance(story, fitted="55.525")
    story.says(Part(code="block", title="Block", position="block", used=True))
    assert story.verdict("clearance").verdict is Verdict.WITHIN


def test_each_state_asks_whether_its_own_parts_are_used():
    story = small_story()
    read_clearance(story, fitted="55.525")
    story.says(Part(code="crank", title="Crank", used=True))
    story.says(TakingOut(part="crank", position="crank"))
    story.says(Part(code="crank-2", title="New crank", position="crank"))
    for place in ("front", "rear"):
        story.reads("journal", place, "55.450", instrument="M", setting="S-M")
    assert story.verdict("clearance", State.AS_RECEIVED).verdict is Verdict.WITHIN
    assert story.verdict("clearance").verdict is Verdict.OUTSIDE


def test_the_hot_line_is_judged_only_by_a_hot_limit():
    story = small_story()
    read_clearance(story)
    found = story.verdict("clearance")
    assert found.hot
    assert not any(state.judged for state in found.hot)
    assert all(bound.temperature_case is None for bound in found.bounds)
    tried(story, ("0.07", "goes"), ("0.08", "does not go"))
    hot = story.verdict("hot_gap")
    assert {state.case for state in hot.hot if state.judged} == {"hot"}
    assert {bound.temperature_case for bound in hot.bounds} == {"hot"}
    state = next(each for each in hot.hot if each.case == "hot")
    assert state.change == pytest.approx(0.1 * (23e-6 - 11.5e-6) * 70.0)
    assert hot.bounds[0].value == pytest.approx(state.value)


def test_the_grip_is_judged_where_it_is_loosest():
    story = small_story()
    story.reads("seat_bore", None, "40.000", instrument="B", setting="S-BR")
    story.reads("seat_diameter", None, "40.070", instrument="M", setting="S-M")
    held = story.verdict("seat_grip")
    bound = next(bound for bound in held.bounds if bound.source_kind == "computed")
    assert (bound.governs, bound.temperature_case) == (True, "load")
    assert [grip.case for grip in held.grip] == ["cold", "hot", "load"]
    assert held.grip[0].pressure > held.grip[2].pressure > 0.0
    looser = small_story(SHEET.replace('lower = "0.060 mm", upper = "0.120 mm"', 'lower = "0.010 mm"'))
    looser.reads("seat_bore", None, "40.000", instrument="B", setting="S-BR")
    looser.reads("seat_diameter", None, "40.040", instrument="M", setting="S-M")
    lost = looser.verdict("seat_grip")
    assert lost.verdict is Verdict.OUTSIDE
    assert [b.verdict for b in lost.bounds] == [Verdict.WITHIN, Verdict.OUTSIDE]


# ------------------------------------------------------------------ contradictions, repeats, choices


def test_contradictory_blades_give_no_figure_until_one_is_withdrawn():
    story = small_story()
    wrong, _, _ = tried(story, ("0.05", "does not go"), ("0.06", "goes"), ("0.07", "does not go"))
    found = story.verdict("side")
    assert (found.verdict, found.reason) == (Verdict.UNPROVEN, Reason.CONTRADICTORY)
    assert found.value is None
    assert found.contradictions
    assert wrong in found.contradictions[0].readings
    assert sum(each.weight for each in found.contradictions[0].explanations) == pytest.approx(1.0)
    story.says(Withdrawal(entry=wrong, reason="mistyped"))
    assert story.verdict("side").verdict is Verdict.WITHIN


def test_contradictory_blades_come_back_by_a_choice():
    story = small_story()
    wrong, goes, _ = tried(story, ("0.05", "does not go"), ("0.06", "goes"), ("0.07", "does not go"))
    story.says(Choice(choice="use instead", entries=(goes,), instead_of=(wrong,), reason="burr"))
    found = story.verdict("side")
    assert found.verdict is Verdict.WITHIN
    assert "another reading was chosen instead" in whys(found)
    story.says(Choice(choice="use again", entries=(wrong,), reason="no burr after all"))
    story.says(Choice(choice="use instead", entries=(wrong,), instead_of=(goes,), reason="no burr after all"))
    assert goes not in story.verdict("side").readings


def test_contradictory_blades_around_a_shaft_are_told_at_their_station():
    story = Story.of("corrie-five")
    before = story.verdict("pump.housing_offset")
    assert before.verdict is Verdict.WITHIN
    clash = story.tries("pump.spigot_gap", "right@0", "F3:0.21", "goes")
    found = story.verdict("pump.housing_offset")
    assert (found.verdict, found.reason) == (Verdict.UNPROVEN, Reason.CONTRADICTORY)
    assert found.value is None
    assert found.centring is None
    assert "right@0" in found.contradictions[0].place
    story.says(Withdrawal(entry=clash, reason="burr"))
    after = story.verdict("pump.housing_offset")
    assert (after.value, after.verdict) == (before.value, before.verdict)


def disagreeing():
    story = small_story()
    read_clearance(story)
    first = story.bench().build.readings_of("journal")[0].entry.id
    second = story.reads("journal", "front", "55.458", instrument="M", setting="S-M")
    return story, first, second


def test_repeats_that_disagree_are_unproven():
    story, _, _ = disagreeing()
    found = story.verdict("clearance")
    assert (found.verdict, found.reason) == (Verdict.UNPROVEN, Reason.CONTRADICTORY)


def test_repeats_come_back_by_withdrawal():
    story, _, second = disagreeing()
    story.says(Withdrawal(entry=second, reason="dirt"))
    assert story.verdict("clearance").verdict is Verdict.WITHIN


def test_repeats_come_back_by_using_one_instead():
    story, first, second = disagreeing()
    story.says(Choice(choice="use instead", entries=(second,), instead_of=(first,), reason="dirt at first"))
    found = story.verdict("clearance")
    assert found.reason is not Reason.CONTRADICTORY
    assert first not in found.readings


def test_repeats_that_are_kept_speak_with_the_scatter_that_they_show():
    story, first, second = disagreeing()
    alone = story.verdict("clearance").standard_uncertainty
    story.says(Choice(choice="keep both", entries=(first, second), reason="the journal is oval there"))
    kept = story.verdict("clearance")
    assert kept.reason is not Reason.CONTRADICTORY
    front = [bound for bound in kept.bounds if any("front" in place for place in bound.places)]
    assert front
    # Two readings 8 um apart: their mean is known to half of that, whatever the micrometer is worth.
    assert max(bound.standard_uncertainty for bound in front) > 4e-6 > alone
    third = story.reads("journal", "front", "55.440", instrument="M", setting="S-M")
    again = story.verdict("clearance")
    assert third in again.readings
    assert again.reason is Reason.CONTRADICTORY, "a later one is asked about anew"


def test_repeats_that_agree_are_used_together():
    story = small_story()
    read_clearance(story)
    before = story.verdict("clearance")
    for place in ("front", "rear"):
        story.reads("journal", place, "55.451", instrument="M", setting="S-M")
    after = story.verdict("clearance")
    assert after.verdict is Verdict.WITHIN
    assert after.standard_uncertainty < before.standard_uncertainty


def by_device(story, device, text):
    taken = take_value(
        story.bench(), "journal", "front", text, Taking(instrument="M", setting="S-M", device=device)
    )
    story.new.extend(taken.entries)
    return taken.reading.id


def test_two_devices_at_one_place_are_both_kept_and_asked_about():
    story = small_story()
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    story.reads("journal", "rear", "55.450", instrument="M", setting="S-M")
    one = by_device(story, "tablet", "55.450")
    other = by_device(story, "telephone", "55.451")
    found = story.verdict("clearance")
    assert (found.verdict, found.reason) == (Verdict.UNPROVEN, Reason.TWO_DEVICES)
    assert {one, other} <= set(found.readings)
    story.says(Choice(choice="keep both", entries=(one, other), reason="read twice"))
    assert story.verdict("clearance").verdict is Verdict.WITHIN


def test_two_devices_in_two_sittings_have_read_twice():
    story = small_story()
    read_clearance(story)
    story.says(sitting("T-2"))
    by_device(story, "telephone", "55.451")
    assert story.verdict("clearance").verdict is Verdict.WITHIN


# ----------------------------------------------------------------------------- routes and members


def test_the_route_that_governs_has_to_be_read():
    story = small_story()
    story.reads("housing", None, "60.000", instrument="B", setting="S-BM")
    story.reads("shell.wall", None, "2.250", instrument="W", setting="S-W")
    for place in ("front", "rear"):
        story.reads("journal", place, "55.450", instrument="M", setting="S-M")
    found = story.verdict("clearance")
    assert (found.verdict, found.reason) == (Verdict.UNPROVEN, Reason.ROUTE_NOT_READ)
    by_parts = next(route for route in found.routes if not route.governs)
    assert by_parts.result.value == pytest.approx(50e-6)
    assert found.size_wanted.dimension == "fitted"


def test_routes_disagree_by_their_means_and_not_by_taper():
    story = small_story()
    story.reads("housing", None, "60.000", instrument="B", setting="S-BM")
    story.reads("shell.wall", None, "2.250", instrument="W", setting="S-W")
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    story.reads("journal", "front", "55.444", instrument="M", setting="S-M")
    story.reads("journal", "rear", "55.456", instrument="M", setting="S-M")
    assert story.verdict("clearance").comparison.agree
    unseated = small_story()
    unseated.reads("housing", None, "60.000", instrument="B", setting="S-BM")
    unseated.reads("shell.wall", None, "2.250", instrument="W", setting="S-W")
    read_clearance(unseated, fitted="55.485")
    found = unseated.verdict("clearance")
    assert not found.comparison.agree
    assert "not seated" in found.comparison.words
    assert found.value == pytest.approx(35e-6), "never averaged"


def state_size(story, feature, text, members):
    story.says(
        StatedSize(
            dimension=feature,
            feature=feature,
            members=members,
            size=mm(text),
            tolerance=mm("0.002"),
            stated_by="box label",
        )
    )


def test_stated_sizes_are_no_readings():
    story = small_story()
    state_size(story, "journal", "55.450", {"crank": "crank"})
    state_size(story, "fitted", "55.500", {"block": "block", "shell": "shell"})
    found = story.verdict("clearance")
    assert (found.verdict, found.readings) == (Verdict.NOT_MEASURED, ())
    assert set(found.rests_on_stated) == {"journal", "fitted"}
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    half = story.verdict("clearance")
    assert half.verdict in (Verdict.WITHIN, Verdict.UNPROVEN)
    assert half.rests_on_stated == ("journal",)


def test_a_size_stated_before_a_rework_speaks_for_the_engine_as_received():
    story = small_story()
    state_size(story, "journal", "55.450", {"crank": "crank"})
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    change = StateChange(code="R1", change="rework", part="crank", dimensions=("journal",), words="polished")
    story.says(change)
    assert story.verdict("clearance", State.AS_RECEIVED).rests_on_stated == ("journal",)
    assert story.verdict("clearance").missing == ("journal",)


def test_a_fit_read_at_some_of_its_places_says_so():
    story = small_story()
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    story.reads("journal", "front", "55.450", instrument="M", setting="S-M")
    found = story.verdict("clearance")
    assert found.words == "within at the places read"
    assert found.unread == ("journal @ rear",)
    absent = [each.id for each in story.assessor().assessment().not_recorded]
    assert "journal @ rear" in absent
    story.reads("journal", "rear", "55.450", instrument="M", setting="S-M")
    assert story.verdict("clearance").words == "within"


def test_a_place_that_lost_its_readings_unproves_though_others_still_speak():
    story = small_story()
    story.says(Setting(code="S-M2", instrument="M", standard_uncertainty=0.5e-6), shop=True)
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    story.reads("journal", "front", "55.450", instrument="M", setting="S-M2")
    story.reads("journal", "rear", "55.450", instrument="M", setting="S-M")
    assert story.verdict("clearance").verdict is Verdict.WITHIN
    story.says(CheckBack(setting="S-M2", drift=mm("0.020")), shop=True)
    found = story.verdict("clearance")
    assert (found.verdict, found.reason) == (Verdict.UNPROVEN, Reason.CHANGED_SINCE)
    assert whys(found) == ["setting S-M2 found drifted since"]


# --------------------------------------------------------------------------------- gauges and parts


def test_a_comparison_gauge_without_a_setting_is_not_used_and_says_so():
    story = small_story()
    story.reads("fitted", None, "55.500", instrument="B")
    found = story.verdict("clearance")
    assert found.verdict is Verdict.NOT_MEASURED
    assert whys(found) == ["Bore gauge has no setting recorded"]


def test_a_reading_that_names_what_the_shop_does_not_have_fails_nothing():
    story = small_story()
    read_clearance(story)
    members = {"crank": "crank"}
    for observation in (
        ValueObservation(value=mm("55.470"), instrument="Z"),
        ValueObservation(value=mm("55.470"), instrument="M", setting="S-Z"),
        ValueObservation(value=mm("55.470"), instrument="M", setting="S-N"),
        ValueObservation(value=mm("55.470")),
    ):
        story.says(
            Reading(
                dimension="journal",
                feature="journal",
                place="front",
                members=members,
                observation=observation,
            )
        )
    found = story.verdict("clearance")
    assert found.verdict is Verdict.WITHIN
    assert whys(found) == [
        "instrument Z is not in the shop: enter it there",
        "setting S-Z is not in the shop: enter it there",
        "setting S-N is one of N",
        "its instrument is not in the shop: enter it there",
    ]


def test_a_reading_at_a_place_that_the_sheet_no_longer_has_stays_visible():
    story = small_story()
    read_clearance(story)
    observation = ValueObservation(value=mm("55.470"), instrument="M", setting="S-M")
    story.says(
        Reading(
            dimension="journal",
            feature="journal",
            place="middle",
            members={"crank": "crank"},
            observation=observation,
        )
    )
    assert whys(story.verdict("clearance")) == ["the sheet has no place middle here any more"]


def test_never_calibrated_is_an_answer_and_is_said():
    story = small_story()
    story.says(
        Instrument(code="V", title="Old micrometer", calibration_uncertainty=3e-6, **MICROMETER), shop=True
    )
    never = Calibration(code="C-V", instrument="V", standard_uncertainty=3e-6, never=True, reason="never")
    story.says(never, shop=True)
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    for place in ("front", "rear"):
        story.reads("journal", place, "55.450", instrument="V")
    assessor = story.assessor()
    steps = working_of(assessor.judge, assessor.verdict("clearance")).steps
    words = " ".join(figure.words for step in steps for figure in step.figures)
    assert "never calibrated: typical uncertainty" in words


def test_a_calibration_entered_anew_is_the_newer_state_of_it():
    story = small_story()
    read_clearance(story)
    before = story.verdict("clearance")
    story.says(Calibration(code="C-M", instrument="M", standard_uncertainty=2e-6), shop=True)
    story.reads("journal", "front", "55.450", instrument="M", setting="S-M")
    after = story.verdict("clearance")
    assert after.verdict is before.verdict
    shared = [part for key, part, _ in after.budget if key.startswith("calibration:M")]
    assert all(abs(part) < 1e-12 for part in shared)


def test_readings_during_a_rework_are_kept_and_not_used():
    story = small_story()
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM", during_rework=True)
    found = story.verdict("clearance")
    assert found.verdict is Verdict.NOT_MEASURED
    assert whys(found) == ["read during rework"]


def test_a_shell_read_on_the_shelf_counts_where_it_is_fitted():
    story = small_story()
    story.reads("housing", None, "60.000", instrument="B", setting="S-BM")
    for place in ("front", "rear"):
        story.reads("journal", place, "55.450", instrument="M", setting="S-M")
    story.says(Part(code="spare", title="Spare shell"))
    wall = story.reads("shell.wall", None, "2.247", instrument="W", setting="S-W", members={"": "spare"})
    assert wall not in story.verdict("clearance").readings
    story.says(Fitting(part="spare", position="shell"))
    found = story.verdict("clearance")
    assert wall in found.readings
    by_parts = next(route for route in found.routes if not route.governs)
    assert by_parts.result.value == pytest.approx(56e-6)


def test_a_correction_takes_the_place_of_what_it_corrects():
    story = small_story()
    read_clearance(story)
    wrong = story.bench().build.readings_of("journal")[0].entry.id
    right = story.reads(
        "journal", "front", "55.449", instrument="M", setting="S-M", supersedes=wrong, reason="misread"
    )
    found = story.verdict("clearance")
    assert right in found.readings
    assert wrong not in found.readings
    assert [(each.entry, each.why) for each in found.unused] == [(wrong, "superseded by a later entry")]


def test_gaps_on_one_side_of_a_shaft_only_are_incomplete():
    story = Story.of("corrie-five")
    records = story.bench().build.readings.values()
    for record in [each for each in records if each.dimension == "pump.spigot_gap"]:
        story.says(Withdrawal(entry=record.entry.id, reason="read anew"))
    for place in ("top@0", "top@180", "right@0"):
        story.reads("pump.spigot_gap", place, "0.18", instrument="J1")
    found = story.verdict("pump.housing_offset")
    assert (found.verdict, found.reason, found.value) == (Verdict.UNPROVEN, Reason.INCOMPLETE, None)
    story.reads("pump.spigot_gap", "bottom@0", "0.18", instrument="J1")
    assert story.verdict("pump.housing_offset").value == pytest.approx(0.0, abs=2e-6)


def test_an_engine_that_hangs_sump_up_has_its_crank_at_the_other_end():
    def running(attitude):
        story = Story.of("corrie-five")
        for entry in story.new:
            if entry.kind == "sitting" and entry.body["code"] == "T-32":
                entry.body["attitude"] = attitude
        found = story.verdict("pump.housing_offset").centring
        return found.running_offset.up - found.offset.up

    assert running("deck up") < 0.0 < running("sump up") == running("upside down")


def test_what_is_said_of_a_fit_explains_what_it_lacks(corrie):
    listed = corrie.assessor().assessment().not_recorded
    because = {each.id: each.because for each in listed}
    assert because["flywheel.face_indicator"]
