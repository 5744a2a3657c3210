"""Consumables with their batch, pot life and curing; parts that may be used once; parts that moved."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from fitwright.assess.assembly.results import ConditionKind, StepState
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import ConsumableUsed, Fitting, Part, State, TakingOut
from tests.support.assembly import assembling

NOON = datetime(2031, 5, 4, 12, tzinfo=UTC)


@pytest.fixture
def story():
    return assembling()


def put_on(story, **more):
    given = {
        "consumable": "sealant",
        "step": "cover_on",
        "batch": "B-7",
        "applied_at": "2031-05-04T12:00:00Z",
    }
    return story.says(ConsumableUsed(**(given | more)))


@pytest.mark.parametrize(
    "given, in_order, says",
    [
        ({}, True, "in order"),
        ({"batch": None}, False, "no batch recorded"),
        ({"batch": " "}, False, "no batch recorded"),
        ({"expires": "2031-05-03"}, False, "past its day (2031-05-03)"),
        ({"expires": "2031-05-04"}, True, "in order"),
        ({"expires": "2031-05"}, True, "in order"),
        ({"mixed_at": "2031-05-04T11:51:00Z"}, True, "in order"),
        ({"mixed_at": "2031-05-04T11:40:00Z"}, False, "put on 10 min after its pot life was over"),
        ({"mixed_at": "2031-05-04T13:40:00+02:00"}, False, "put on 10 min after its pot life was over"),
    ],
)
def test_each_use_says_what_is_wrong_with_it(story, given, in_order, says):
    put_on(story, **given)
    found = story.standing(NOON + timedelta(days=2)).consumables["sealant"].uses[0]
    assert found.in_order is in_order
    assert says in found.words


def test_what_cures_counts_down_to_when_it_has_cured(story):
    put_on(story)
    after = story.standing(NOON + timedelta(hours=20, minutes=30))
    found = after.consumables["sealant"]
    assert (found.cured, found.cured_from) == (False, NOON + timedelta(hours=24))
    assert found.uses[0].words == "cured in 3 h 30 min"
    condition = next(each for each in after.steps["fill"].conditions if each.kind is ConditionKind.CURED)
    assert (condition.holds, condition.until) == (False, NOON + timedelta(hours=24))
    then = story.standing(NOON + timedelta(hours=24))
    assert then.consumables["sealant"].cured
    assert next(each for each in then.steps["fill"].conditions if each.kind is ConditionKind.CURED).holds


def test_the_clock_of_a_device_cures_nothing(story):
    body = ConsumableUsed(consumable="sealant", step="cover_on", batch="B-7")
    sent = NewEntry(
        "e" * 32, story.build, body.kind, body.model_dump(mode="json"), client_time="2001-01-01T00:00:00Z"
    )
    story.new.append(sent)
    assert not story.standing().consumables["sealant"].cured


def test_a_use_in_another_branch_is_not_waited_for(story):
    put_on(story, step="head_again")
    condition = next(each for each in story.step("fill").conditions if each.kind is ConditionKind.CURED)
    assert condition.words == "not recorded as used"


def test_a_use_out_of_order_keeps_its_step_from_being_done(story):
    story.closes()
    put_on(story, batch=None)
    assert story.step("cover_on").state is StepState.CHANGED_SINCE


def test_a_gasket_is_new_once_it_was_put_in_and_no_longer_once_it_came_out(story):
    def gasket():
        return story.standing().one_time_parts[0]

    assert (gasket().new, gasket().words) == (False, "no new one is recorded")
    story.says(Part(code="g-2", title="Gasket", position="gasket"))
    assert (gasket().new, gasket().part) == (True, "g-2")
    story.says(TakingOut(part="g-2", position="gasket"))
    assert (gasket().new, gasket().words) == (False, "taken out")
    story.says(Fitting(part="g-2", position="gasket"))
    assert (gasket().new, gasket().words) == (False, "it sat somewhere before")
    entry = story.says(
        State(code="N1", change="replacement", part="g-2", dimensions=(), words="another of the same kit")
    )
    assert (gasket().new, gasket().since) == (True, entry)


def test_parts_that_moved_keep_their_way(story):
    story.says(Part(code="g-2", title="Gasket, thick", position="gasket"))
    story.says(Part(code="g-3", title="Gasket, thin", position="gasket"))
    story.says(Fitting(part="g-2", position="gasket"))
    moves = {each.part: each for each in story.standing().moves}
    assert [each.position for each in moves["g-2"].history] == ["gasket", None, "gasket"]
    assert moves["g-2"].now_at == "gasket"
    assert [each.position for each in moves["g-3"].history] == ["gasket", None]
    assert moves["g-3"].now_at is None


def test_a_step_may_ask_for_new_fasteners_of_a_group(story):
    steps = dict(story.sheet.steps)
    steps["head_again"] = replace(steps["head_again"], after=(), replaces=("flywheel/f1",))
    story.sheet = replace(story.sheet, steps=steps)

    def new():
        every = story.step("head_again").conditions
        return next(each for each in every if each.kind is ConditionKind.REPLACED)

    assert (new().holds, new().words) == (False, "not tightened yet")
    story.tightens("flywheel", "f1", number=1, torque=65.0)
    assert (new().holds, new().words) == (False, "nobody recorded which one it is, and that it is new")
    story.tightens("flywheel", "f1", number=1, torque=65.0, members={"f1": "FB-1"})
    assert (new().holds, new().words) == (True, "new: FB-1")
    parts = {each.subject: each for each in story.standing().one_time_parts}
    assert (parts["flywheel/f1"].new, parts["flywheel/f1"].part) == (True, "FB-1")
    story.loosens("flywheel", "f1")
    story.tightens("flywheel", "f1", number=1, torque=65.0)
    assert (new().holds, new().words) == (False, "made for one use, and tightened before")
