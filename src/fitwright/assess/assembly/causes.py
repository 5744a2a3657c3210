"""Why a step waits: the first cause at the beginning of the chain."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from fitwright.assess.assembly.results import Cause, Condition, ConditionKind, StepStanding, StepState
from fitwright.model.step import Step


def cause_of(
    step: Step, conditions: Iterable[Condition], standings: Mapping[str, StepStanding]
) -> Cause | None:
    """The first cause of a step's waiting: what is really in the way, before what simply is not done yet."""
    missing = [each for each in conditions if not each.holds and each.kind.to_begin]
    before = [_through(each, standings) for each in missing if each.kind is ConditionKind.AFTER]
    own = {
        each.kind: Cause(step.id, step.title, each, f"{each.title}: {each.words}", ())
        for each in reversed(missing)
        if each.kind is not ConditionKind.AFTER
    }
    fit = own.pop(ConditionKind.FIT, None)
    in_the_way = [each for each in before if each.condition is not None]
    # A group is tightened and a sealant put on by the steps before: those are named before these.
    every = [*in_the_way, *([fit] if fit is not None else []), *before, *own.values()]
    return every[0] if every else None


def _through(condition: Condition, standings: Mapping[str, StepStanding]) -> Cause:
    """The cause that lies at or before a step that this one waits for."""
    before = standings.get(condition.subject)
    if before is None:
        words = f"{condition.title}: {condition.words}"
        return Cause(condition.subject, condition.title, condition, words, ())
    nearest = (before.id,)
    if before.state is StepState.WAITS_FOR and before.waits_for is not None:
        first = before.waits_for
        steps = nearest if first.step == before.id else (*nearest, *first.steps)
        words = first.words if first.step != before.id else f"{before.title}: {first.words}"
        return Cause(first.step, first.title, first.condition, words, steps)
    if before.state is StepState.CHANGED_SINCE:
        return _changed(before, standings)
    blocked = next((each for each in before.missing if before.state is StepState.HELD), None)
    words = f"{before.title}: {_to_do(before)}"
    return Cause(before.id, before.title, blocked, words, nearest)


def _changed(before: StepStanding, standings: Mapping[str, StepStanding]) -> Cause:
    """A step that changed since may only have changed because one before it did."""
    for change in before.changes:
        if change.kind is ConditionKind.AFTER and change.subject in standings:
            named = Condition(change.kind, change.subject, "", holds=False, words="")
            first = _through(named, standings)
            return Cause(first.step, first.title, first.condition, first.words, (before.id, *first.steps))
    missing = next((each for each in before.missing if each.kind is not ConditionKind.AFTER), None)
    return Cause(before.id, before.title, missing, f"{before.title}: {before.state.value}", (before.id,))


def _to_do(before: StepStanding) -> str:
    return "not released" if before.state is StepState.HELD else "not done yet"
