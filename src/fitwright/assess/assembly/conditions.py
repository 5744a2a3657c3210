"""What a step asks for, kind by kind, but for the steps and fits it waits for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from fitwright.assess.assembly.curing import Curing, Use
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.renewal import Renewal
from fitwright.assess.assembly.results import Condition, ConditionKind
from fitwright.assess.assembly.seen import Answered, Photographed
from fitwright.assess.assembly.steps_before import StepsBefore
from fitwright.assess.assembly.then import Asks, Then
from fitwright.assess.assembly.tightness import Tightness
from fitwright.model.step import Step


class Conditions:
    """The conditions of the steps of a build."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.steps = StepsBefore(job.sheet.steps)
        self.ways: Mapping[ConditionKind, Asks] = {
            ConditionKind.TIGHTENED: Tightness(job, self.steps, ConditionKind.TIGHTENED),
            ConditionKind.TIGHTENS: Tightness(job, self.steps, ConditionKind.TIGHTENS),
            ConditionKind.CURED: Curing(job, self.steps),
            ConditionKind.EYE_CHECK: Answered(job),
            ConditionKind.REPLACED: Renewal(job),
            ConditionKind.USED: Use(job),
            ConditionKind.PHOTO: Photographed(job),
        }

    def holds(self, step: Step, kind: ConditionKind, subject: str, then: Then) -> Condition:
        """One condition as it holds, or held."""
        absent = self.job.not_here(subject)
        if absent is not None:
            words = f"no part of this job: {absent}"
            return Condition(kind, subject, self.job.title(subject), holds=True, words=words)
        return self.ways[kind].condition(step, subject, then)


def conditions_of(step: Step) -> Iterator[tuple[ConditionKind, str]]:
    """Every condition of a step by kind and subject, in the order of the work."""
    for kind, subjects in (
        (ConditionKind.AFTER, step.after),
        (ConditionKind.FIT, step.fits),
        (ConditionKind.TIGHTENED, step.tightened),
        (ConditionKind.CURED, step.cured),
        (ConditionKind.TIGHTENS, step.tightens),
        (ConditionKind.EYE_CHECK, step.eye_checks),
        (ConditionKind.REPLACED, step.replaces),
        (ConditionKind.USED, step.uses),
        (ConditionKind.PHOTO, tuple(f"{step.id}/{photo.id}" for photo in step.photos)),
    ):
        yield from ((kind, subject) for subject in dict.fromkeys(subjects))
