"""Steps: what each waits for, what changed since it was done, and what brings it back."""

from __future__ import annotations

import pytest

from fitwright.assess.assembly.past import Past
from fitwright.assess.assembly.results import ConditionKind, StepState
from fitwright.assess.results import Verdict
from fitwright.records.kinds import (
    Choice,
    Fitting,
    HeatCycle,
    NotInThisJob,
    Part,
    Person,
    State,
    StepDone,
    TakingOut,
    Withdrawal,
    WitnessInvited,
)
from tests.support.assembly import assembling
from tests.support.small_sheet import read_clearance

DONE, CHANGED, WAITS = StepState.DONE, StepState.CHANGED_SINCE, StepState.WAITS_FOR


@pytest.fixture
def story():
    return assembling()


@pytest.fixture
def closed(story):
    story.closes()
    return story


def take_back(story, entry):
    return story.says(Withdrawal(entry=entry, reason="a slip"))


def last_entry(story, dimension):
    build = story.bench().build
    return [each.entry.id for each in build.readings.values() if each.dimension == dimension][-1]


def test_at_the_beginning_everything_waits_for_what_is_really_in_the_way(story):
    steps = story.standing().steps
    assert {each.state for each in steps.values()} == {WAITS}
    cause = steps["cover_on"].waits_for
    assert (cause.step, cause.condition.kind, cause.condition.subject) == (
        "crank_in",
        ConditionKind.FIT,
        "clearance",
    )
    assert cause.steps == ("bottom_end", "rods_on", "crank_in")
    assert "not measured" in steps["cover_on"].words


def test_what_is_really_in_the_way_is_named_before_what_is_only_not_done_yet(story):
    read_clearance(story)
    fill = story.step("fill")
    assert fill.waits_for.step == "head_on"
    assert fill.waits_for.condition.subject == "deck"
    assert story.step("cover_on").waits_for.condition is None
    assert "not done yet" in story.step("cover_on").words


def test_a_step_can_be_done_once_its_fit_is_within_and_says_what_doing_it_takes(story):
    read_clearance(story)
    step = story.step("crank_in")
    assert step.state is StepState.CAN_BE_DONE
    assert not step.may_be_done
    assert {each.kind for each in step.missing} == {
        ConditionKind.TIGHTENS,
        ConditionKind.EYE_CHECK,
        ConditionKind.USED,
        ConditionKind.PHOTO,
    }
    assert story.standing().can_be_done == (step,)


def test_the_whole_way_to_the_closed_cover(closed):
    standing = closed.standing()
    states = {name: each.state for name, each in standing.steps.items()}
    assert states == {
        "crank_in": DONE,
        "rods_on": DONE,
        "bottom_end": StepState.RELEASED,
        "cover_on": DONE,
        "head_on": WAITS,
        "fill": WAITS,
        "head_again": WAITS,
    }
    release = standing.steps["bottom_end"]
    assert standing.alone
    assert release.lone
    assert "only person" in release.words


def test_who_looks_again_later_is_said_to_have_done_so(story):
    story.lays_crank_in()
    story.rods()
    story.does("rods_on")
    story.answers("bench.leaks", yes=False)
    story.does("bottom_end")
    story.releases("bottom_end", later=True)
    step = story.step("bottom_end")
    assert step.later
    assert "again later" in step.words


def test_a_second_person_makes_a_release_no_lone_one(closed):
    closed.says(Person(code="second", name="Second"), shop=True)
    assert closed.step("bottom_end").lone  # then there was one person only
    closed.does("bottom_end")
    assert closed.step("bottom_end").state is StepState.HELD
    closed.releases("bottom_end", by="second")
    step = closed.step("bottom_end")
    assert step.state is StepState.RELEASED
    assert not step.lone


def test_a_hold_point_stops_what_comes_after_until_it_is_released(story):
    story.lays_crank_in()
    story.rods()
    story.does("rods_on")
    story.answers("bench.leaks", yes=False)
    story.does("bottom_end")
    standing = story.standing()
    assert standing.steps["bottom_end"].state is StepState.HELD
    assert standing.steps["bottom_end"].may_be_released
    assert standing.steps["cover_on"].state is WAITS
    assert standing.steps["cover_on"].waits_for.step == "bottom_end"
    assert "not released" in standing.steps["cover_on"].words


def test_a_release_that_is_older_than_the_work_does_not_count(story):
    story.lays_crank_in()
    story.rods()
    story.does("rods_on")
    story.answers("bench.leaks", yes=False)
    story.releases("bottom_end")
    assert story.step("bottom_end").out_of_order
    story.does("bottom_end")
    assert story.step("bottom_end").state is StepState.HELD


def test_branches_do_not_wait_for_each_other(story):
    story.reads("deck", None, "200.000", instrument="M", setting="S-M")
    assert story.step("head_on").state is StepState.CAN_BE_DONE
    assert story.step("crank_in").state is WAITS


def test_a_later_reading_that_is_outside_reopens_everything_that_rested_on_it(closed):
    entry = closed.reads("fitted", None, "55.700", instrument="B", setting="S-BM")
    assert closed.verdict("clearance").verdict is not Verdict.WITHIN
    standing = closed.standing()
    step = standing.steps["crank_in"]
    assert step.state is CHANGED
    assert [(each.kind, each.entry) for each in step.changes] == [(ConditionKind.FIT, entry)]
    assert {standing.steps[name].state for name in ("rods_on", "bottom_end", "cover_on")} == {CHANGED}
    assert standing.steps["fill"].waits_for.step in ("crank_in", "head_on")


def test_taking_that_reading_back_does_not_restore_the_step_but_doing_it_anew_does(closed):
    take_back(closed, closed.reads("fitted", None, "55.700", instrument="B", setting="S-BM"))
    assert closed.verdict("clearance").verdict is Verdict.WITHIN
    assert closed.step("crank_in").state is CHANGED
    assert closed.step("crank_in").may_be_done
    closed.does("crank_in")
    states = closed.states()
    assert states["crank_in"] is DONE
    assert states["bottom_end"] is StepState.RELEASED
    assert states["cover_on"] is DONE


def test_a_corrected_done_is_not_done_anew(closed):
    take_back(closed, closed.reads("fitted", None, "55.700", instrument="B", setting="S-BM"))
    done = closed.step("crank_in").done.entry
    closed.says(StepDone(step="crank_in", done_by="builder", supersedes=done, reason="name"))
    assert closed.step("crank_in").state is CHANGED


def test_a_reading_that_keeps_the_fit_within_changes_nothing(closed):
    before = closed.states()
    closed.reads("fitted", None, "55.501", instrument="B", setting="S-BM")
    closed.reads("journal", "front", "55.450", instrument="M", setting="S-M")
    assert closed.verdict("clearance").verdict is Verdict.WITHIN
    assert closed.states() == before


def test_a_reading_corrected_afterwards_is_something_that_the_step_rested_on(closed):
    wrong = last_entry(closed, "fitted")
    body = closed.bench().build.readings[wrong].body
    entry = closed.says(body.model_copy(update={"supersedes": wrong, "reason": "misread"}))
    step = closed.step("crank_in")
    assert closed.verdict("clearance").verdict is Verdict.WITHIN
    assert step.state is CHANGED
    assert step.changes[0].entry == entry
    assert "corrected" in step.changes[0].words


def test_correcting_a_reading_that_no_longer_counted_changes_nothing(story):
    read_clearance(story, fitted="55.490")
    old = last_entry(story, "fitted")
    story.says(
        State(code="R1", change="rework", part="block", dimensions=("housing", "fitted"), words="honed")
    )
    story.closes()
    before = story.states()
    body = story.bench().build.readings[old].body
    story.says(body.model_copy(update={"supersedes": old, "reason": "misread", "note": "as received"}))
    assert before["crank_in"] is DONE
    assert story.states() == before


def test_a_shell_moved_afterwards_unreleases_and_names_the_move(closed):
    entry = closed.says(TakingOut(part="shell", position="shell"))
    closed.says(Fitting(part="shell", position="shell"))
    readings = [
        each.entry.id for each in closed.bench().build.readings.values() if each.dimension == "fitted"
    ]
    closed.says(Choice(choice="use again", entries=tuple(readings), reason="same shells"))
    assert closed.verdict("clearance").verdict is Verdict.WITHIN
    step = closed.step("crank_in")
    assert step.state is CHANGED
    assert step.changes[0].entry == entry


@pytest.mark.parametrize(
    "happens, step, kind",
    [
        (lambda s: s.loosens("caps", "c2"), "crank_in", ConditionKind.TIGHTENS),
        (lambda s: s.answers("bench.turns", yes=False), "crank_in", ConditionKind.EYE_CHECK),
        (lambda s: s.answers("bench.leaks", yes=True), "bottom_end", ConditionKind.EYE_CHECK),
        (lambda s: s.tightens("caps", "c1", number=3, torque=70.0), "crank_in", ConditionKind.TIGHTENS),
        (
            lambda s: s.says(TakingOut(part="gasket-2", position="gasket")),
            "cover_on",
            ConditionKind.REPLACED,
        ),
    ],
)
def test_what_ends_a_condition_is_named_with_its_entry(closed, happens, step, kind):
    entry = happens(closed)
    found = closed.step(step)
    assert found.state is CHANGED
    assert [(each.kind, each.entry) for each in found.changes if each.kind is not ConditionKind.AFTER] == [
        (kind, entry)
    ]


@pytest.mark.parametrize("what", ["photo", "consumable used", "tightening", "eye check"])
def test_evidence_taken_back_under_a_done_step_is_said(closed, what):
    target = next(each.id for each in closed.new if each.kind == what)
    entry = take_back(closed, target)
    step = closed.step("crank_in")
    assert step.state is CHANGED
    assert step.changes[0].entry == entry
    assert "withdrawn" in step.changes[0].words


def test_what_was_taken_back_before_and_is_brought_back_under_a_done_step_is_said(story):
    no = story.answers("bench.turns", yes=False)
    withdrawn = take_back(story, no)
    story.closes()
    assert story.step("crank_in").state is DONE
    entry = take_back(story, withdrawn)
    step = story.step("crank_in")
    assert step.state is CHANGED
    assert step.changes[0].entry == entry
    assert "brought back" in step.changes[0].words


def test_loosened_and_tightened_again_in_between_is_still_changed(closed):
    closed.loosens("caps", "c1")
    for number, torque in enumerate((25.0, 45.0, 52.0), 1):
        closed.tightens("caps", "c1", number=number, torque=torque)
    step = closed.step("crank_in")
    assert closed.standing().groups["caps"].complete
    assert step.state is CHANGED
    closed.does("crank_in")
    assert closed.step("crank_in").state is DONE


def test_what_came_in_out_of_order_reads_so(story):
    early = story.does("rods_on")
    story.closes()
    fresh = next(
        each
        for each in story.new
        if each.kind == "step done" and each.body["step"] == "rods_on" and each.id != early
    )
    story.new.remove(fresh)
    step = story.step("rods_on")
    assert step.done.entry == early
    assert step.state is CHANGED
    assert "out of order" in step.words
    assert "Lay the crank in was not done yet" in step.out_of_order


def test_a_step_done_before_its_reading_counts_only_once_done_again(story):
    story.caps()
    story.uses("paste", "crank_in")
    story.answers("bench.turns", yes=True)
    story.photographs("crank_in/arrows")
    story.does("crank_in")
    read_clearance(story)
    step = story.step("crank_in")
    assert step.state is CHANGED
    assert step.changes == ()
    assert step.out_of_order == ("Running clearance was not measured",)
    assert story.step("rods_on").state is WAITS
    story.does("crank_in")
    assert story.step("crank_in").state is DONE


def test_a_witness_point_lets_work_go_on_and_keeps_who_was_asked(closed):
    closed.reads("deck", None, "200.000", instrument="M", setting="S-M")
    closed.answers("bench.holes_dry", yes=True)
    for number, torque in enumerate((30.0, 75.0), 1):
        closed.tightens("head", "h1", "h2", number=number, torque=torque)
    closed.does("head_on")
    closed.says(WitnessInvited(step="fill", invited="the customer", answer="did not come"))
    witness = closed.step("fill").witness
    assert (witness.invited, witness.answer) == ("the customer", "did not come")
    assert closed.step("head_on").state is DONE


def test_what_is_no_part_of_the_job_is_waited_for_by_nobody(story):
    story.says(NotInThisJob(subject="crank_in", reason="the crank is in already"))
    standing = story.standing()
    assert standing.not_in_this_job == {"crank_in": "the crank is in already"}
    assert "crank_in" not in standing.steps
    assert standing.steps["rods_on"].state is StepState.CAN_BE_DONE


def test_a_closing_step_says_what_it_hides_that_is_not_in_order(story):
    story.caps()
    hides = {each.subject: each for each in story.step("cover_on").hides}
    assert hides["clearance"].open
    assert hides["clearance"].words == "not measured"
    assert not hides["caps"].open
    assert "0 of 10" in hides["rods"].words
    assert hides["crank_in/arrows"].words == "not photographed"
    assert hides["crank"].open


def test_what_fits_were_is_worked_out_once(closed):
    closed.reads("fitted", None, "55.501", instrument="B", setting="S-BM")
    closed.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    past = Past()
    first = closed.standing(past=past)
    assert first.steps["crank_in"].state is DONE
    known = dict(past._held)
    assert known
    assert closed.standing(past=past) == first
    assert past._held == known


def tight(step):
    return next(each for each in step.conditions if each.kind is ConditionKind.TIGHTENS)


def test_a_heat_cycle_asks_for_the_pass_after_heat_without_undoing_the_step(closed):
    closed.reads("deck", None, "200.000", instrument="M", setting="S-M")
    closed.answers("bench.holes_dry", yes=True)
    for number, torque in enumerate((30.0, 75.0), 1):
        closed.tightens("head", "h1", "h2", number=number, torque=torque)
    closed.does("head_on")
    assert closed.standing().groups["head"].complete
    closed.says(HeatCycle(words="run to 90 degrees and cooled"))
    standing = closed.standing()
    assert standing.steps["head_on"].state is DONE
    assert not standing.groups["head"].complete
    assert standing.groups["head"].words == "to be tightened again after the heat cycle"
    again = next(
        each for each in standing.steps["head_again"].conditions if each.kind is ConditionKind.TIGHTENS
    )
    assert not again.holds
    closed.tightens("head", "h1", "h2", number=3, torque=75.0)
    standing = closed.standing()
    assert standing.groups["head"].complete
    again = next(
        each for each in standing.steps["head_again"].conditions if each.kind is ConditionKind.TIGHTENS
    )
    assert again.holds


def test_a_part_without_a_place_before_is_new_and_one_declared_used_is_not(story):
    story.says(Part(code="g-2", title="Gasket", position="gasket"))
    assert story.standing().one_time_parts[0].new
    story.says(Part(code="g-3", title="Gasket", position="gasket", used=True))
    assert not story.standing().one_time_parts[0].new
