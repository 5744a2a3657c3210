"""The order of work in one line: what changed, what is held, what comes next; for pages that show a build."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fitwright.assess.assembly.results import Standing, StepStanding, StepState
from fitwright.units.families import Family
from fitwright.web.addresses import assembly_address

IN_FRONT: Final = (StepState.CHANGED_SINCE, StepState.CAN_BE_DONE, StepState.HELD, StepState.WAITS_FOR)
"""What somebody sees to first: what was undone, what can be done, what waits for a release, or for more."""


@dataclass(frozen=True, slots=True)
class WorkLine:
    """How far the order of work is, and the step in front with the way to it."""

    done: str
    step: str
    words: str
    more: str
    address: str
    assembly: str


def work_line(standing: Standing, code: str, family: Family) -> WorkLine | None:
    """The line of an order of work; none where the sheet has no steps."""
    if not standing.steps:
        return None
    done = sum(each.state in (StepState.DONE, StepState.RELEASED) for each in standing.steps.values())
    step = _in_front(standing)
    held = standing.count(StepState.HELD)
    more = f"{held} held" if held and step is not None and step.state is not StepState.HELD else ""
    return WorkLine(
        done=f"{done} of {len(standing.steps)} steps done",
        step=step.title if step is not None else "",
        words=step.words if step is not None else "",
        more=more,
        address=assembly_address(code, family, step=step.id) if step is not None else "",
        assembly=assembly_address(code, family),
    )


def _in_front(standing: Standing) -> StepStanding | None:
    for state in IN_FRONT:
        found = next((each for each in standing.steps.values() if each.state is state), None)
        if found is not None:
            return found
    return None
