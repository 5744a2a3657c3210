"""The steps of the order of work: what each waits for, how it stands, what changed since it was done."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.assembly.causes import cause_of
from fitwright.assess.assembly.conditions import Conditions, conditions_of
from fitwright.assess.assembly.hidden import hidden_by
from fitwright.assess.assembly.holding import Holding
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.past import Past
from fitwright.assess.assembly.results import Cause, Change, Condition, ConditionKind, StepStanding, StepState
from fitwright.assess.assembly.step_deeds import StepDeeds
from fitwright.assess.assembly.step_words import step_words
from fitwright.assess.assembly.then import NOW
from fitwright.model.step import PointKind, Step


def steps_of(job: Job, past: Past) -> dict[str, StepStanding]:
    """All steps of this job, in the order of the sheet."""
    return _Order(job, past).standings()


@dataclass(frozen=True, slots=True)
class _Found:
    """A step before it is put into words."""

    state: StepState
    conditions: tuple[Condition, ...]
    changes: tuple[Change, ...]
    out_of_order: tuple[str, ...]


class _Order:
    """Works out the steps one after another, each once."""

    def __init__(self, job: Job, past: Past) -> None:
        self._job = job
        self._steps = {name: step for name, step in job.sheet.steps.items() if job.not_here(name) is None}
        self._deeds = {name: StepDeeds(job, step) for name, step in self._steps.items()}
        self._conditions = Conditions(job)
        self._holding = Holding(self._conditions, self._deeds, past)
        self._standings: dict[str, StepStanding] = {}
        self._open: set[str] = set()

    def standings(self) -> dict[str, StepStanding]:
        """All of them."""
        return {name: self._standing(name) for name in self._steps}

    def _standing(self, name: str) -> StepStanding:
        if name not in self._standings:
            self._open.add(name)
            step, deeds = self._steps[name], self._deeds[name]
            found = self._found(step, deeds)
            cause = self._cause(step, found)
            self._standings[name] = self._put_together(step, deeds, found, cause)
            self._open.discard(name)
        return self._standings[name]

    def _found(self, step: Step, deeds: StepDeeds) -> _Found:
        conditions = tuple(self._condition(step, *each) for each in conditions_of(step))
        if deeds.anchor is None:
            begins = all(each.holds for each in conditions if each.kind.to_begin)
            state = StepState.CAN_BE_DONE if begins else StepState.WAITS_FOR
            odd = ("it was released without having been recorded as done",) if deeds.released else ()
            return _Found(state, conditions, (), odd)
        held = self._holding.of(deeds)
        changes = (*held.changes, *self._changes_before(step, deeds.anchor))
        not_so = (*held.not_so_then, *self._not_done_then(step, deeds.anchor))
        return _Found(self._state(step, deeds, changes, not_so), conditions, changes, not_so)

    def _state(
        self, step: Step, deeds: StepDeeds, changes: tuple[Change, ...], not_so: tuple[str, ...]
    ) -> StepState:
        if changes or not_so:
            return StepState.CHANGED_SINCE
        if step.point is not PointKind.HOLD:
            return StepState.DONE
        return StepState.RELEASED if deeds.release_counts else StepState.HELD

    def _condition(self, step: Step, kind: ConditionKind, subject: str) -> Condition:
        if kind is ConditionKind.AFTER:
            return self._after(subject)
        if kind is ConditionKind.FIT:
            held = self._job.fit(subject)
            return Condition(kind, subject, self._job.title(subject), held.holds, held.words, held.under)
        return self._conditions.holds(step, kind, subject, NOW)

    # Other steps.

    def _after(self, name: str) -> Condition:
        kind, title = ConditionKind.AFTER, self._job.title(name)
        absent = self._job.not_here(name)
        if absent is not None:
            return Condition(kind, name, title, holds=True, words=f"no part of this job: {absent}")
        if name not in self._steps:
            return Condition(kind, name, title, holds=False, words="the sheet has no such step")
        if name in self._open:
            return Condition(kind, name, title, holds=False, words="it waits for this step in turn")
        before = self._standing(name)
        return Condition(kind, name, title, before.counts, before.state.value)

    def _changes_before(self, step: Step, anchor: int) -> list[Change]:
        """A step before it does not count any more; once that is mended, this one counts again."""
        found = []
        for name in step.after:
            condition = self._after(name)
            if condition.holds or not self._was_done(name, anchor):
                continue
            first = next(iter(self._standings[name].changes), None) if name in self._standings else None
            words = f"{condition.title}: {condition.words}"
            entry, seq = (first.entry, first.seq) if first is not None else (None, None)
            found.append(Change(ConditionKind.AFTER, name, words, entry, seq))
        return found

    def _not_done_then(self, step: Step, anchor: int) -> list[str]:
        return [
            f"{self._job.title(name)} was not {self._wanted(name)} yet"
            for name in step.after
            if name in self._steps and not self._was_done(name, anchor)
        ]

    def _was_done(self, name: str, anchor: int) -> bool:
        return name in self._deeds and self._deeds[name].was_done(anchor)

    def _wanted(self, name: str) -> str:
        return "released" if self._steps[name].point is PointKind.HOLD else "done"

    def _cause(self, step: Step, found: _Found) -> Cause | None:
        if found.state is not StepState.WAITS_FOR:
            return None
        return cause_of(step, found.conditions, self._standings)

    # Put together.

    def _put_together(self, step: Step, deeds: StepDeeds, found: _Found, cause: Cause | None) -> StepStanding:
        missing = [each for each in found.conditions if not each.holds]
        hold = step.point is PointKind.HOLD
        seq = deeds.released.entry.seq if deeds.released is not None else None
        before = self._conditions.steps.of(step)
        said = (*(each.words for each in found.changes), *_out_of_order(found.out_of_order))
        return StepStanding(
            id=step.id,
            title=step.title,
            stage=step.stage,
            point=step.point,
            state=found.state,
            words=step_words(deeds, found.state, cause, said, missing),
            conditions=found.conditions,
            waits_for=cause,
            done=deeds.done_deed(),
            released=deeds.released_deed(),
            lone=deeds.release_counts and seq is not None and self._job.was_alone(seq),
            later=deeds.release_counts and deeds.released is not None and deeds.released.body.later,
            invited=step.invited,
            witness=deeds.witness(),
            changes=found.changes,
            out_of_order=found.out_of_order,
            hides=tuple(hidden_by(self._job, self._conditions, step)),
            before=tuple(name for name in self._steps if name in before),
            photos=step.photos,
            cautions=step.cautions,
            note=step.note,
            may_be_done=not missing,
            may_be_released=hold and deeds.done is not None and not missing,
        )


def _out_of_order(not_so: tuple[str, ...]) -> list[str]:
    return [f"done out of order: {each}" for each in not_so]
