"""The conditions on consumables: cured before a step begins, recorded and good when the step uses them."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.assembly.consumables import uses_of
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.part_results import ConsumableUse
from fitwright.assess.assembly.results import Condition, ConditionKind
from fitwright.assess.assembly.steps_before import StepsBefore
from fitwright.assess.assembly.then import Happened, Then
from fitwright.model.step import Step
from fitwright.records import kinds
from fitwright.records.kinds import Body


@dataclass(frozen=True, slots=True)
class Curing:
    """What was put on in the steps before has cured."""

    job: Job
    steps: StepsBefore

    def condition(self, step: Step, subject: str, then: Then) -> Condition:
        """The condition as it holds, or held."""
        kind, title = ConditionKind.CURED, self.job.title(subject)
        near = self.steps.of(step) | {step.id, None}
        uses = [use for use in _uses(self.job, subject, then) if use.step in near]
        if not uses:
            return Condition(kind, subject, title, holds=False, words="not recorded as used")
        curing = [each for each in uses if not each.cured]
        until = max((each.cured_from for each in curing if each.cured_from is not None), default=None)
        words = curing[-1].words if curing else "cured"
        return Condition(kind, subject, title, not curing, words, until=until)

    def events(self, subject: str) -> list[Happened]:
        """The uses of the consumable."""
        return _events(self.job, subject)

    def rests_on(self, step: Step, subject: str, target: Body) -> bool:
        """Whether it rests on what an entry said."""
        near = self.steps.of(step) | {step.id, None}
        return _is_use(target, subject) and getattr(target, "step", None) in near


@dataclass(frozen=True, slots=True)
class Use:
    """A consumable was used in the step: with its batch, in date, within its pot life."""

    job: Job

    def condition(self, step: Step, subject: str, then: Then) -> Condition:
        """The condition as it holds, or held; the latest use counts."""
        kind, title = ConditionKind.USED, self.job.title(subject)
        uses = [use for use in _uses(self.job, subject, then) if use.step in (None, step.id)]
        if not uses:
            return Condition(kind, subject, title, holds=False, words="not recorded as used")
        return Condition(kind, subject, title, uses[-1].in_order, uses[-1].words)

    def events(self, subject: str) -> list[Happened]:
        """The uses of the consumable."""
        return _events(self.job, subject)

    def rests_on(self, step: Step, subject: str, target: Body) -> bool:
        """Whether it rests on what an entry said."""
        return _is_use(target, subject) and getattr(target, "step", None) in (None, step.id)


def _uses(job: Job, subject: str, then: Then) -> list[ConsumableUse]:
    consumable = job.sheet.consumables.get(subject)
    if consumable is None:
        return []
    every = uses_of(job, consumable, then.at or job.now)
    return [use for order, use in every if then.includes(order)]


def _events(job: Job, subject: str) -> list[Happened]:
    uses = job.work.consumables_used.get(subject, ())
    return [(job.order(held.entry), held.entry) for held in uses]


def _is_use(target: Body, subject: str) -> bool:
    return isinstance(target, kinds.ConsumableUsed) and target.consumable == subject
