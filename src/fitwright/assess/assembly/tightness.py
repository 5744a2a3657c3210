"""The condition that a group is tight."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from fitwright.assess.assembly import figures
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.reckoning import Rules
from fitwright.assess.assembly.results import Condition, ConditionKind
from fitwright.assess.assembly.steps_before import StepsBefore
from fitwright.assess.assembly.then import Happened, Then
from fitwright.model.fastener import TighteningGroup, position_of_fastener, readable_names
from fitwright.model.step import Step
from fitwright.records import kinds
from fitwright.records.kinds import Body

NEVER: Final = -1
"""No heat cycle stands so early in the record."""


@dataclass(frozen=True, slots=True)
class Tightness:
    """A group is complete: before a step begins, or by the step itself."""

    job: Job
    steps: StepsBefore
    kind: ConditionKind

    def condition(self, step: Step, subject: str, then: Then) -> Condition:
        """The condition as it holds, or held."""
        group = self.job.sheet.tightening_groups.get(subject)
        if group is None:
            return Condition(self.kind, subject, subject, holds=False, words="the sheet has no such group")
        rules = self._rules(step, subject, then)
        reckoned = {each.id: rules.reckon(group, each.id) for each in group.fasteners}
        missing = [name for name, each in reckoned.items() if not each.complete]
        under = next((each.under for each in reckoned.values() if each.under is not None), None)
        if missing:
            words = _incomplete(group, missing)
            return Condition(self.kind, subject, group.title, holds=False, words=words)
        words = "complete" if under is None else f"complete, under {under}"
        return Condition(self.kind, subject, group.title, holds=True, words=words, under=under)

    def _rules(self, step: Step, subject: str, then: Then) -> Rules:
        """The first step that tightens a group is not the one for its passes after heat; a later one is."""
        if self.kind is not ConditionKind.TIGHTENS:
            return rules_at(self.job, then)
        steps = self.job.sheet.steps
        again = any(subject in steps[name].tightens for name in self.steps.of(step) if name in steps)
        return replace(rules_at(self.job, then), heats_upto=NEVER, hot_wanted=again)

    def events(self, subject: str) -> list[Happened]:
        """Tightenings, loosenings and checks of the group, its fasteners exchanged or permitted."""
        group = self.job.sheet.tightening_groups.get(subject)
        found = self.job.tightenings.happened(group) if group is not None else []
        permitted = self.job.permissions.of_group(subject)
        return found + [(each.order, each.entry) for each in permitted]

    def rests_on(self, step: Step, subject: str, target: Body) -> bool:  # noqa: ARG002 - as for others
        """Whether it rests on what an entry said."""
        match target:
            case kinds.Tightening() | kinds.Loosening():
                return target.group == subject
            case kinds.Concession() | kinds.DeviationPermit():
                return _group_of(target) == subject
            case kinds.Part() | kinds.Fitting() | kinds.TakingOut():
                return target.position in self._positions(subject)
        return False

    def _positions(self, subject: str) -> frozenset[str | None]:
        """The positions in which the fasteners of a group sit."""
        group, parts = self.job.sheet.tightening_groups.get(subject), self.job.sheet.parts
        if group is None:
            return frozenset()
        return frozenset(position_of_fastener(group, each.id, parts) for each in group.fasteners) - {None}


def rules_at(job: Job, then: Then) -> Rules:
    """What fasteners are reckoned by at a moment."""
    return Rules(
        job.tightenings,
        job.permissions,
        job.build,
        now=then.at or job.now,
        upto=then.upto,
        heats_upto=then.heats_upto,
        known=job.reckoned,
    )


def _group_of(permission: kinds.Concession | kinds.DeviationPermit) -> str:
    return permission.subject.partition("/")[0]


def _incomplete(group: TighteningGroup, missing: list[str]) -> str:
    """How many are complete, and which are not where some are."""
    count, called = len(group.fasteners), readable_names(group)
    words = f"{count - len(missing)} of {count} complete"
    if len(missing) == count:
        return words
    verb = "is" if len(missing) == 1 else "are"
    return f"{words}; {figures.listed([called[each] for each in missing])} {verb} not"
