"""The condition that a one-time part is new: a part in its position, or a fastener of a group."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.one_time import fastener_renewed, renewed
from fitwright.assess.assembly.results import Condition, ConditionKind
from fitwright.assess.assembly.then import Happened, Then
from fitwright.assess.assembly.tightness import rules_at
from fitwright.model.fastener import TighteningGroup, fastener_title
from fitwright.model.step import Step
from fitwright.records import kinds
from fitwright.records.kinds import Body


@dataclass(frozen=True, slots=True)
class Renewal:
    """What is named is new since it was last loosened or taken out: a position, or `group/fastener`."""

    job: Job

    def condition(self, step: Step, subject: str, then: Then) -> Condition:  # noqa: ARG002 - as for others
        """The condition as it holds, or held."""
        group = self._group(subject)
        if group is None:
            new, words, _ = renewed(self.job, subject, then.upto)
            return Condition(ConditionKind.REPLACED, subject, self.job.title(subject), new, words)
        fastener = subject.partition("/")[2]
        found, words, _ = fastener_renewed(self.job, rules_at(self.job, then), group, fastener)
        title = fastener_title(group, fastener)
        return Condition(ConditionKind.REPLACED, subject, title, found is True, words)

    def _group(self, subject: str) -> TighteningGroup | None:
        named, _, fastener = subject.partition("/")
        return self.job.sheet.tightening_groups.get(named) if fastener else None

    def events(self, subject: str) -> list[Happened]:
        """What happened at the position, and to the part in it; or to the group."""
        job, group = self.job, self._group(subject)
        if group is not None:
            return job.tightenings.happened(group)
        part = job.build.occupant(subject) or ""
        found = [(event.seq, event.entry) for event in job.build.arrangement_events(subject)]
        found += [(change.order, change.entry) for change in job.build.changes(part)]
        recorded = job.build.ledger.recorded
        loosened = (recorded[entry].entry for _, entry in job.loosened_parts.get(part, ()))
        return found + [(job.order(entry), entry) for entry in loosened]

    def rests_on(self, step: Step, subject: str, target: Body) -> bool:  # noqa: ARG002 - as for others
        """Whether it rests on what an entry said."""
        match target:
            case kinds.Fitting() | kinds.TakingOut() | kinds.Part():
                return target.position == subject
            case kinds.State():
                return target.part == self.job.build.occupant(subject)
            case kinds.Tightening() | kinds.Loosening():
                named, _, fastener = subject.partition("/")
                return target.group == named and fastener in target.fasteners
        return False
