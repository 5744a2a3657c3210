"""The notebook face of assembly: guarded like pages and commands."""

from __future__ import annotations

import pytest

from fitwright import api
from fitwright.assess.assembly.results import StepState
from fitwright.bench.errors import BenchError
from fitwright.model.slips import Question
from fitwright.records import kinds
from tests.support.assembly import ASSEMBLY
from tests.support.guarded_shop import BUILD, BUILDER, PINS, SECOND
from tests.support.new_set_sheet import POSITIONS
from tests.support.small_sheet import SHEET


@pytest.fixture
def build(lone):
    """The small engine at its hold point, as a notebook sees it."""
    lone.comes_to_hold()
    return api.Build(lone.wired, BUILD)


def test_a_hold_point_is_not_passed_from_a_notebook(build):
    with pytest.raises(api.GuardError, match="is done and not released"):
        build.done("cover_on")
    assert build.release("bottom_end", person="Builder").state is StepState.RELEASED
    with pytest.raises(api.GuardError, match="Cover gasket"):
        build.done("cover_on", person=BUILDER)


def test_a_release_takes_a_pin_there_too(build, lone):
    lone.says(kinds.Person(code=SECOND, name="Second"), build=None)
    lone.set_pins()
    for pin in (None, "0000"):
        with pytest.raises(api.PinError):
            build.release("bottom_end", person=BUILDER, pin=pin)
    assert build.release("bottom_end", person=BUILDER, pin=PINS[BUILDER]).released.person == BUILDER


def test_tightenings_and_consumables_are_entered_and_asked_about(build):
    found = build.tighten("head", torque="30 N m")
    assert found.fastener("h1").passes[0].torque == 30.0
    question = build.tighten("head", torque="30 lbf ft", number="1")
    assert isinstance(question, Question)
    found = build.loosen("caps", "c1", because="to look")
    assert not found.complete
    assert build.work().steps["crank_in"].state is StepState.CHANGED_SINCE
    question = build.use("sealant", batch="A", expires="2030-01")
    assert isinstance(question, Question)
    used = build.use("sealant", batch="A", expires="2030-01", answers={question.key: "keep"})
    assert used.uses[0].expired


def test_a_new_set_is_entered_where_the_fasteners_are_positions(build, lone):
    with pytest.raises(BenchError, match="no position for all 4 of Main caps"):
        build.new_set("caps", stem="RB2")
    started = kinds.BuildStarted(code="bolts", title="Bolts", sheet="")
    lone.wired.start_build("bolts", SHEET + ASSEMBLY + POSITIONS, started)
    found = api.Build(lone.wired, "bolts").new_set("caps", "c2 c3", stem="RB2", person=BUILDER)
    assert [each.part for each in found.fasteners] == [None, "RB2-1", "RB2-2", None]


def test_a_concession_keeps_what_it_leads_to(build):
    found = build.concede("clearance", highest="0.065 mm", because="short run", person=BUILDER)
    assert (found.code, found.granted_by) == ("C-1", "Builder")
    assert found.consequence
    assert isinstance(build.concede("clearance", because="short run", person=BUILDER), Question)
