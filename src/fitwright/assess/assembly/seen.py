"""The conditions that somebody looked: an eye check answered, a photo taken."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.results import Condition, ConditionKind
from fitwright.assess.assembly.then import Happened, Then
from fitwright.model.step import Step
from fitwright.records import kinds
from fitwright.records.kinds import Body


@dataclass(frozen=True, slots=True)
class Answered:
    """An eye check is answered as wanted; the latest answer counts."""

    job: Job

    def condition(self, step: Step, subject: str, then: Then) -> Condition:  # noqa: ARG002 - as for others
        """The condition as it holds, or held."""
        question, wanted = self.job.questions.get(subject, (subject, True))
        found = [
            (order, held.body)
            for order, held in ((self.job.order(each.entry), each) for each in self.job.answers(subject))
            if then.includes(order)
        ]
        if not found:
            return Condition(ConditionKind.EYE_CHECK, subject, question, holds=False, words="not answered")
        body = max(found, key=lambda each: each[0])[1]
        said = "yes" if body.answer else "no"
        words = f"{said}: {body.words}" if body.words else said
        return Condition(ConditionKind.EYE_CHECK, subject, question, body.answer is wanted, words)

    def events(self, subject: str) -> list[Happened]:
        """The answers."""
        return [(self.job.order(held.entry), held.entry) for held in self.job.answers(subject)]

    def rests_on(self, step: Step, subject: str, target: Body) -> bool:  # noqa: ARG002 - as for others
        """Whether it rests on what an entry said."""
        return isinstance(target, kinds.EyeCheck) and target.check == subject


@dataclass(frozen=True, slots=True)
class Photographed:
    """A photo is there, filed under `step/photo`."""

    job: Job

    def condition(self, step: Step, subject: str, then: Then) -> Condition:
        """The condition as it holds, or held."""
        title = next((each.words for each in step.photos if f"{step.id}/{each.id}" == subject), subject)
        taken = any(then.includes(order) for order, _ in self.events(subject))
        words = "taken" if taken else "not taken"
        return Condition(ConditionKind.PHOTO, subject, title, taken, words)

    def events(self, subject: str) -> list[Happened]:
        """The photos."""
        photos = self.job.photos.get(subject, ())
        return [(self.job.order(held.entry), held.entry) for held in photos]

    def rests_on(self, step: Step, subject: str, target: Body) -> bool:  # noqa: ARG002 - as for others
        """Whether it rests on what an entry said."""
        return isinstance(target, kinds.Photo) and target.subject == subject
