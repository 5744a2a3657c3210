"""Concessions, deviation permits and rework orders as they stand."""

from __future__ import annotations

from datetime import UTC, datetime

import pytest

from fitwright.assess.assembly.consequence import consequence_of, consequences_of
from fitwright.assess.assembly.feeds import feeds_of
from fitwright.assess.assembly.fits import permitted
from fitwright.assess.assembly.results import StepState
from fitwright.assess.results import Verdict
from fitwright.records.kinds import (
    Concession,
    DeviationPermit,
    Fitting,
    ReworkChecked,
    ReworkOrder,
    State,
    TakingOut,
    Withdrawal,
)
from tests.support.assembly import assembling, millimetres, newton_metres
from tests.support.small_sheet import read_clearance


@pytest.fixture
def story():
    """The clearance is 0.070 where it may be 0.060."""
    found = assembling()
    read_clearance(found, fitted="55.520")
    return found


def concession(kind=Concession, **more):
    given = {
        "code": "C-3",
        "subject": "clearance",
        "granted_by": "builder",
        "because": "race engine, thick oil",
        "lowest": millimetres(0.040),
        "highest": millimetres(0.070),
        "parts": {"block": "block", "shell": "shell", "crank": "crank"},
    }
    return kind(**(given | more))


@pytest.mark.parametrize("kind", [Concession, DeviationPermit])
def test_a_fit_under_concession_stays_outside_and_lets_work_go_on(story, kind):
    assert story.step("crank_in").state is StepState.WAITS_FOR
    story.says(concession(kind))
    standing = story.standing()
    step = standing.steps["crank_in"]
    assert story.verdict("clearance").verdict is Verdict.OUTSIDE
    assert step.state is StepState.CAN_BE_DONE
    assert step.conditions[0].under == "C-3"
    assert "outside" in step.conditions[0].words
    assert f"accepted under {kind.kind} C-3" in step.conditions[0].words
    found = standing.concessions[0]
    assert (found.kind, found.in_force, found.needed) == (kind.kind, True, True)
    assert found.value == pytest.approx(70e-6, abs=1e-9)
    assert standing.permitted == {"clearance": found}
    assert permitted(story.assessor(), "clearance").body.code == "C-3"


def test_what_is_hidden_under_a_concession_stays_in_view(story):
    story.says(concession())
    hidden = {each.subject: each for each in story.step("cover_on").hides}
    assert hidden["clearance"].open
    assert [each.subject for each in story.open("under concession")] == ["clearance"]
    assert story.open("fit outside") == []


@pytest.mark.parametrize(
    "given, why",
    [
        ({"highest": millimetres(0.069)}, "above the 0.069 mm that was accepted"),
        ({"lowest": millimetres(0.071), "highest": None}, "below the 0.071 mm that was accepted"),
        ({"until": "2031-05-03"}, "it was for until 2031-05-03"),
        ({"parts": {"shell": "shell-9"}}, "another part since, in shell"),
    ],
)
def test_why_a_concession_does_not_hold_is_said(story, given, why):
    story.says(concession(**given))
    found = story.standing().concessions[0]
    assert not found.in_force
    assert why in found.why_not
    assert story.step("crank_in").state is StepState.WAITS_FOR
    assert story.open("permission no longer in force")[0].subject == "clearance"


def test_a_day_ends_a_concession_and_the_first_strip_down_does_not(story):
    story.says(concession(until="2031-05-04"))
    on_the_day, after = datetime(2031, 5, 4, 23, tzinfo=UTC), datetime(2031, 5, 5, 1, tzinfo=UTC)
    assert story.standing(on_the_day).concessions[0].in_force
    assert not story.standing(after).concessions[0].in_force
    story.says(concession(until="the first strip-down"))
    assert story.standing(after).concessions[0].in_force


def test_the_last_digit_typed_is_what_was_meant(story):
    story.reads("journal", "rear", "55.4497", instrument="M", setting="S-M")
    assert story.verdict("clearance").value > 70e-6
    story.says(concession())
    assert story.standing().concessions[0].in_force


def test_another_shell_ends_it_and_a_done_step_says_so(story):
    story.says(concession())
    story.caps()
    story.uses("paste", "crank_in")
    story.answers("bench.turns", yes=True)
    story.photographs("crank_in/arrows")
    story.does("crank_in")
    assert story.step("crank_in").state is StepState.DONE
    story.says(TakingOut(part="shell", position="shell"))
    entry = story.says(Fitting(part="shell-2", position="shell"))
    found = story.standing()
    assert not found.concessions[0].in_force
    assert found.steps["crank_in"].state is StepState.CHANGED_SINCE
    assert found.steps["crank_in"].changes[0].entry < entry


def test_a_concession_taken_back_reopens_the_step(story):
    granted = story.says(concession())
    story.caps()
    story.uses("paste", "crank_in")
    story.answers("bench.turns", yes=True)
    story.photographs("crank_in/arrows")
    story.does("crank_in")
    taken_back = story.says(Withdrawal(entry=granted, reason="not mine to grant"))
    step = story.step("crank_in")
    assert step.state is StepState.CHANGED_SINCE
    assert step.changes[0].entry == taken_back


def test_a_concession_that_nothing_needs_any_more_says_so(story):
    story.says(concession())
    story.says(
        State(code="R1", change="rework", part="block", dimensions=("fitted", "housing"), words="honed")
    )
    story.reads("fitted", None, "55.500", instrument="B", setting="S-BM")
    found = story.standing().concessions[0]
    assert (found.in_force, found.needed) == (True, False)
    assert "not needed" in found.words


def test_what_was_not_measured_cannot_be_accepted(story):
    story.says(concession(subject="deck", parts={}, lowest=None, highest=None))
    assert story.step("head_on").state is StepState.WAITS_FOR


def test_consequences_say_how_far_beyond_whose_limit_and_what_rests_on_it(story):
    found = consequences_of(story.assessor(), "clearance", highest=millimetres(0.072))
    words = [each.words for each in found]
    assert words[0].startswith("0.010 mm (0.39 thou) above the upper limit of 0.060 mm")
    assert "engine maker: Small works manual" in words[0]
    assert any("0.012 mm (0.47 thou) beyond the upper limit" in each for each in words)
    assert any("estimated, part temperatures assumed; not judged" in each for each in words)
    assert any("Lay the crank in" in each for each in words)
    assert found[0].figures[0].value == pytest.approx(10e-6, abs=1e-9)
    assert consequence_of(story.assessor(), "deck")[0].startswith("There is no value")


def test_consequences_for_a_fastener_show_utilisation_and_stripping(story):
    story.tightens("caps", "c1", "c2", "c3", "c4", number=1, torque=25.0)
    story.tightens("caps", "c1", "c2", "c3", "c4", number=2, torque=45.0)
    story.tightens("caps", "c4", number=3, torque=60.0)
    words = " ".join(consequence_of(story.assessor(), "caps/c4"))
    for said in ("above the sheet's", "% of yield", "The thread strips at", "more than the sheet's"):
        assert said in words


def test_consequences_of_a_permit_beforehand_say_what_its_ends_would_do(story):
    ends = {"lowest": newton_metres(52.0), "highest": newton_metres(60.0)}
    words = [each.words for each in consequences_of(story.assessor(), "caps/c4", **ends)]
    assert words[0].startswith("At 52 N m: 78 % of yield")
    assert words[1].startswith("At 60 N m: 90 % of yield")
    assert "more than the sheet's" in words[1]
    assert len(words) == 2


# Rework.


def test_a_housing_feeds_its_fit_and_the_bore_taken_through_it(story):
    assert set(feeds_of(story.sheet, ["housing"])) == {"clearance", "fitted"}
    assert feeds_of(story.sheet, ["deck"]) == ()
    assert "gap" in feeds_of(story.sheet, ["housing"], part="block")


@pytest.fixture
def ordered(story):
    story.says(
        ReworkOrder(
            code="R1",
            part="block",
            dimensions=("housing", "fitted"),
            words="hone the tunnel",
            feeds=("clearance",),
            ordered_by="builder",
        )
    )
    return story


def test_a_rework_order_is_open_until_done_read_again_and_looked_at(ordered):
    order = ordered.standing().reworks[0]
    assert (order.carried_out, order.closed, order.open_items) == (None, False, ())
    assert order.dimensions[1].before == pytest.approx(55.52e-3, abs=1e-6)
    done = ordered.says(
        State(code="R1", change="rework", part="block", dimensions=("housing", "fitted"), words="honed")
    )
    order = ordered.standing().reworks[0]
    assert order.carried_out.entry == done
    assert [each.item for each in order.open_items] == ["clearance"]
    assert [each.read_again for each in order.dimensions] == [False, False]
    ordered.reads("fitted", None, "55.505", instrument="B", setting="S-BM")
    ordered.reads("housing", None, "60.005", instrument="B", setting="S-BM")
    order = ordered.standing().reworks[0]
    fitted = order.dimensions[1]
    assert (round(fitted.before * 1e3, 3), round(fitted.after * 1e3, 3)) == (55.520, 55.505)
    assert 0.0 < fitted.after_uncertainty < 5e-6
    assert not order.closed
    ordered.says(ReworkChecked(order="R1", item="clearance", answer="holds"))
    order = ordered.standing().reworks[0]
    assert order.closed
    assert ordered.open("rework not followed up") == []


def test_checking_off_before_the_work_was_done_does_not_count(ordered):
    ordered.says(ReworkChecked(order="R1", item="clearance", answer="holds"))
    ordered.says(
        State(code="R1", change="rework", part="block", dimensions=("housing", "fitted"), words="honed")
    )
    assert [each.item for each in ordered.standing().reworks[0].open_items] == ["clearance"]
    assert any("not looked at" in each.words for each in ordered.open("rework not followed up"))


def test_what_feeds_on_it_and_was_not_on_the_order_is_added(story):
    story.says(ReworkOrder(code="R2", part="block", dimensions=("housing",), words="hone"))
    items = story.standing().reworks[0].items
    assert {(each.item, each.since_ordered) for each in items} == {("clearance", True), ("fitted", True)}


def test_a_dimension_read_again_stays_so_when_a_later_order_retires_that_reading(ordered):
    both = ("housing", "fitted")
    ordered.says(State(code="R1", change="rework", part="block", dimensions=both, words="honed"))
    ordered.reads("fitted", None, "55.505", instrument="B", setting="S-BM")
    ordered.says(ReworkOrder(code="R7", part="block", dimensions=("fitted",), words="hone again"))
    ordered.says(State(code="R7", change="rework", part="block", dimensions=both, words="honed again"))
    first, later = ordered.standing().reworks
    assert first.dimensions[1].read_again
    assert round(first.dimensions[1].after * 1e3, 3) == 55.505
    assert not later.dimensions[0].read_again
    assert round(later.dimensions[0].before * 1e3, 3) == 55.505
