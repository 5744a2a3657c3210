"""Steps of the order of work as a person says it: done, witnessed, released.

Whether a step can be done or released is held against the record when it is written (`guarding`).
"""

from __future__ import annotations

from typing import Final, Literal, get_args

from fitwright.bench.context import Bench
from fitwright.bench.errors import CannotEnterError, UnknownNameError
from fitwright.bench.sittings import person_named
from fitwright.bench.work_taking import (
    WorkTaken,
    WorkTaking,
    step_named,
    who_did,
    words_wanted,
    work_taken,
)
from fitwright.bench.work_words import work_words
from fitwright.model.step import PointKind
from fitwright.records.kinds import StepDone, StepReleased, WitnessInvited

WitnessAnswer = Literal["invited", "was present", "did not come"]
WITNESS_ANSWERS: Final[tuple[WitnessAnswer, ...]] = get_args(WitnessAnswer)


def step_done(
    bench: Bench, step: str, taking: WorkTaking, *, done_by: str = "", words: str = ""
) -> WorkTaken:
    """The work of a step was done."""
    found = step_named(bench, step)
    body = StepDone(step=found.id, done_by=who_did(bench, done_by, taking), words=words.strip() or None)
    return work_taken(bench, body, work_words(body, bench.sheet), taking)


def step_released(
    bench: Bench,
    step: str,
    taking: WorkTaking,
    *,
    released_by: str = "",
    later: bool = False,
    words: str = "",
) -> WorkTaken:
    """A named person releases a hold point; `later` where the only person of a shop looked again later."""
    found = step_named(bench, step)
    if found.point is not PointKind.HOLD:
        raise CannotEnterError(f"{found.title} is no hold point", "say that it is done")
    who = person_named(bench.shop, released_by or taking.person)
    body = StepReleased(step=found.id, released_by=who, later=later, words=words.strip() or None)
    return work_taken(bench, body, work_words(body, bench.sheet), taking, signed_by=who)


def witness_invited(
    bench: Bench,
    step: str,
    taking: WorkTaking,
    *,
    invited: str = "",
    answer: str = "invited",
    words: str = "",
) -> WorkTaken:
    """Somebody was invited to a witness point, was present or did not come; the work goes on.

    Without a name it is whom the sheet has invited.
    """
    found = step_named(bench, step)
    if found.point is not PointKind.WITNESS:
        raise CannotEnterError(f"{found.title} is no witness point", "nobody needs to be invited")
    known = next((each for each in WITNESS_ANSWERS if each == answer), None)
    if known is None:
        raise UnknownNameError("answer of a witness", answer, list(WITNESS_ANSWERS))
    whom = words_wanted(invited or found.invited or "", f"A witness of {found.title}", "who was invited")
    body = WitnessInvited(step=found.id, invited=whom, answer=known, words=words.strip() or None)
    return work_taken(bench, body, work_words(body, bench.sheet), taking)
