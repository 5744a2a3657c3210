"""The condition that a one-time part is new."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.one_time import renewed
from fitwright.assess.assembly.results import Condition, ConditionKind
from fitwright.assess.assembly.then import Happened, Then
from fitwright.model.step import Step
from fitwright.records import kinds
from fitwright.records.kinds import Body


@dataclass(frozen=True, slots=True)
class Renewal:
    """The part in a position is new since it was last loosened or taken out."""

    job: Job

    def condition(self, step: Step, subject: str, then: Then) -> Condition:  # noqa: ARG002 - as for others
        """The condition as it holds, or held."""
        new, words, _ = renewed(self.job, subject, then.upto)
        return Condition(ConditionKind.REPLACED, subject, self.job.title(subject), new, words)

    def events(self, subject: str) -> list[Happened]:
        """What happened at the position, and to the part in it."""
        job = self.job
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
        return False
