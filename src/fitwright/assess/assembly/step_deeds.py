"""What is recorded of each step: done, released, and from which entry on it must have held."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.results import Deed, Witness
from fitwright.assess.assembly.then import Then
from fitwright.assess.assembly.times import moment
from fitwright.model.step import PointKind, Step
from fitwright.records.kinds import StepDone, StepReleased
from fitwright.records.projection import Recorded


@dataclass(frozen=True)
class StepDeeds:
    """The latest entries that say that a step was done and released.

    A release that is older than the last "done" does not count: what it was for has been done again.

    Attributes
    ----------
    job : Job
        The build at a moment.
    step : Step
        The step.
    """

    job: Job
    step: Step

    @cached_property
    def done(self) -> Recorded[StepDone] | None:
        """The latest "done"."""
        held = self.job.work.steps_done.get(self.step.id, ())
        return max(held, key=lambda each: self.job.order(each.entry), default=None)

    @cached_property
    def released(self) -> Recorded[StepReleased] | None:
        """The latest release, whether it counts or not."""
        held = self.job.work.steps_released.get(self.step.id, ())
        return max(held, key=lambda each: self.job.order(each.entry), default=None)

    @property
    def release_counts(self) -> bool:
        """Whether it is a hold point that was released after it was done."""
        if self.done is None or self.released is None or self.step.point is not PointKind.HOLD:
            return False
        return self.job.order(self.released.entry) > self.job.order(self.done.entry)

    @property
    def anchor(self) -> int | None:
        """From which entry on everything must have held; None where it was not done."""
        if self.done is None:
            return None
        last = self.released if self.release_counts and self.released is not None else self.done
        return self.job.order(last.entry)

    @property
    def then(self) -> Then:
        """The moment of that entry."""
        anchor = self.anchor
        assert anchor is not None  # noqa: S101 - asked of steps that were done
        return Then(anchor, moment(self.job.by_seq[anchor].committed_at), anchor)

    def was_done(self, seq: int) -> bool:
        """Whether it had been done (and released) by an entry of the record, taken back later or not."""
        kinds = {StepDone.kind, StepReleased.kind} if self.step.point is PointKind.HOLD else {StepDone.kind}
        return kinds <= {kind for kind, order in self._ever if order <= seq}

    @cached_property
    def _ever(self) -> list[tuple[str, int]]:
        return self.job.step_entries.get(self.step.id, [])

    # As the standing shows them.

    def done_deed(self) -> Deed | None:
        """Who did it."""
        if self.done is None:
            return None
        return self.job.deed(self.done.entry, self.done.body.done_by, self.done.body.words)

    def released_deed(self) -> Deed | None:
        """Who released it."""
        if self.released is None:
            return None
        return self.job.deed(self.released.entry, self.released.body.released_by, self.released.body.words)

    def witness(self) -> Witness | None:
        """Who was invited to see it, and what came of that."""
        held = self.job.work.witnesses.get(self.step.id, ())
        if not held:
            return None
        entry, body = held[-1]
        return Witness(self.job.deed(entry, None, body.words), body.invited, body.answer)
