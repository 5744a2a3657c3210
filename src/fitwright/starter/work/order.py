"""The assembly of a starter sheet as a section: consumables, groups, and the steps tied to one another."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fitwright.starter.blocks import Section
from fitwright.starter.plan import Plan
from fitwright.starter.work.bottom_end import bottom_end
from fitwright.starter.work.consumables import consumables
from fitwright.starter.work.found import Found, literal, there
from fitwright.starter.work.joints import joints
from fitwright.starter.work.measuring import measuring
from fitwright.starter.work.oil_system import oil_system
from fitwright.starter.work.outside import outside
from fitwright.starter.work.running import running
from fitwright.starter.work.step_block import StepBlock
from fitwright.starter.work.top_end import top_end


def assembly(plan: Plan, sections: tuple[Section, ...]) -> tuple[Section, ...]:
    """Consumables and groups, then the order of work, for what these sections measure."""
    found = Found(plan, sections)
    return (
        Section(
            title="Consumables and tightening groups",
            comment=(
                "Which joints there are, and where their fasteners sit. No thread and no torque is stated",
                "here: they are the maker's. Until you type them a group is shown with no value yet, and the",
                "steps that tighten it wait.",
            ),
            tables=(*consumables(), *joints(plan, found)),
        ),
        Section(
            title="Order of work",
            comment=(
                "Each step waits for the steps, fits and groups that it names. A hold point stops the work",
                "until a named person releases it. Change, add and take out steps as your job goes.",
            ),
            tables=tuple(step.table() for step in steps_of(plan, found)),
        ),
    )


def steps_of(plan: Plan, found: Found) -> Iterator[StepBlock]:
    """All steps of an engine in the order of the job, each after those that are there."""
    steps = [
        step
        for stage in (measuring, bottom_end, oil_system, top_end, outside, running)
        for step in stage(plan, found)
    ]
    known = {literal(step.family.key(step.key)) for step in steps}
    for step in steps:
        yield replace(step, after=there(step.after, known))
