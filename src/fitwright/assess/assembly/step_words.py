"""The state of a step in one phrase."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.assess.assembly.results import Cause, Condition, StepState
from fitwright.assess.assembly.step_deeds import StepDeeds


def step_words(
    deeds: StepDeeds,
    state: StepState,
    cause: Cause | None,
    changed: Sequence[str],
    missing: Sequence[Condition],
) -> str:
    """How a step stands, with the first thing that a reader wants to know."""
    match state:
        case StepState.WAITS_FOR:
            return f"waits for {cause.words}" if cause is not None else "waits"
        case StepState.HELD:
            return _held(missing)
        case StepState.DONE:
            return f"done by {deeds.job.person(_by(deeds))}"
        case StepState.RELEASED:
            return _released(deeds)
        case StepState.CHANGED_SINCE:
            more = f" (and {len(changed) - 1} more)" if len(changed) > 1 else ""
            return f"changed since: {changed[0]}{more}"
    return state.value


def _held(missing: Sequence[Condition]) -> str:
    if not missing:
        return "held: done, and not released yet"
    return f"held: {missing[0].title}: {missing[0].words}"


def _by(deeds: StepDeeds) -> str | None:
    deed = deeds.done_deed()
    return deed.person if deed is not None else None


def _released(deeds: StepDeeds) -> str:
    assert deeds.released is not None  # noqa: S101 - asked of released steps
    entry, body = deeds.released
    job = deeds.job
    words = f"released by {job.person(body.released_by)}"
    if job.was_alone(entry.seq):
        later = ", looking again later" if body.later else ""
        return f"{words}, the shop's only person{later}"
    own = ", who did it" if _by(deeds) == body.released_by else ""
    return f"{words}{own}"
