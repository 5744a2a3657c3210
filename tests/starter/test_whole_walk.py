"""The order of work of a new sheet, done by a person: every step comes to be done, every hold released."""

import pytest

from fitwright.assess.assembly.results import ConditionKind, StepState
from fitwright.formats.sheet.reader import read_sheet
from fitwright.starter.sheet import write_sheet
from tests.starter.grid import ENGINES
from tests.support.whole_walk import Walker, with_values


@pytest.mark.parametrize("engine", ENGINES)
def test_every_step_is_done_and_every_hold_released(engine):
    sheet = with_values(read_sheet(write_sheet(ENGINES[engine])))
    walker = Walker(sheet, "whole")
    walker.begins()
    walked = walker.walks()
    print(f"{engine}: {len(walked)} steps, {len(walker.new)} entries")
    assert sorted(walked) == sorted(sheet.steps)
    standing = walker.standing()
    assert {each.state for each in standing.steps.values()} == {StepState.DONE, StepState.RELEASED}
    assert all(group.complete for group in standing.groups.values())


@pytest.mark.parametrize("engine", ["iron four", "two-stroke twin"])
def test_without_the_maker_s_values_every_joint_is_a_gap(engine):
    walker = Walker(read_sheet(write_sheet(ENGINES[engine])), "whole")
    walker.begins()
    standing = walker.standing()
    assert [each.id for each in standing.can_be_done] == ["washed"]
    asked = [
        condition
        for step in standing.steps.values()
        for condition in step.conditions
        if condition.kind is ConditionKind.TIGHTENS
    ]
    assert len(asked) == len(standing.groups)
    assert not any(condition.holds for condition in asked)
    for group in standing.groups.values():
        assert not group.complete
        assert group.words == "no value yet, not tightened"
        assert group.not_computed == "no preload: the sheet states no value yet"
