"""Somebody who does the whole order of work of a sheet, step by step, as the record sees it."""

from __future__ import annotations

from dataclasses import replace

from fitwright.assess.assembly.results import Condition, ConditionKind, Standing, StepStanding, StepState
from fitwright.assess.assembly.standing import standing_of
from fitwright.model.amount import Written
from fitwright.model.fastener import Pass
from fitwright.model.sheet import Sheet
from fitwright.model.step import PointKind
from fitwright.records.kinds import (
    BuildStarted,
    ConsumableUsed,
    EyeCheck,
    Part,
    Person,
    Photo,
    StepDone,
    StepReleased,
    Tightening,
    Typed,
)
from tests.support.story import Story

TORQUE = 20.0
"""What the fasteners of a sheet without values are tightened to here [N m]."""


def with_values(sheet: Sheet) -> Sheet:
    """The sheet with one torque for each group, and steps that wait for no fit: only the work is walked."""
    value = Pass(torque=Written(f"{TORQUE:g} N m", TORQUE, "N m"))
    return replace(
        sheet,
        tightening_groups={
            name: replace(group, passes=(value,)) for name, group in sheet.tightening_groups.items()
        },
        steps={name: replace(step, fits=()) for name, step in sheet.steps.items()},
    )


class Walker(Story):
    """A person alone who does one step after the other."""

    def begins(self) -> None:
        """The shop's only person, and the build."""
        self.says(Person(code="builder", name="Builder"), shop=True)
        self.says(BuildStarted(code=self.build, title="Whole", sheet=self.sheet.digest))

    def standing(self) -> Standing:
        """How everything stands."""
        return standing_of(self.assessor())

    def walks(self) -> list[str]:
        """All that can be done, in turn; the steps in the order in which they were done."""
        walked: list[str] = []
        while True:
            ready = [each for each in self.standing().steps.values() if each.state is StepState.CAN_BE_DONE]
            if not ready:
                return walked
            for step in ready:
                self.does(step)
                walked.append(step.id)

    def does(self, step: StepStanding) -> None:
        """Everything that a step asks for, the step itself, and its release."""
        for condition in step.missing:
            self.meets(step, condition)
        self.says(StepDone(step=step.id, done_by="builder"))
        if step.point is PointKind.HOLD:
            self.says(StepReleased(step=step.id, released_by="builder", later=True))

    def meets(self, step: StepStanding, condition: Condition) -> None:
        """What one condition asks for."""
        subject = condition.subject
        match condition.kind:
            case ConditionKind.TIGHTENS:
                self.tightens(subject)
            case ConditionKind.EYE_CHECK:
                self.says(EyeCheck(check=subject, answer=True))
            case ConditionKind.REPLACED:
                self.says(Part(code=f"new-{subject.replace('.', '-')}", title="New", position=subject))
            case ConditionKind.PHOTO:
                self.says(Photo(digest="0" * 64, media_type="image/jpeg", subject=subject))
            case ConditionKind.USED:
                self.says(ConsumableUsed(consumable=subject, step=step.id, batch="B-1"))
            case _:
                raise AssertionError(condition)

    def tightens(self, group: str) -> None:
        """All fasteners of a group to the sheet's torque."""
        names = tuple(each.id for each in self.sheet.tightening_groups[group].fasteners)
        torque = Typed(typed=f"{TORQUE:g}", unit="N m", decimals=0, si=TORQUE)
        self.says(Tightening(group=group, fasteners=names, number=1, torque=torque, performed_by="builder"))
