"""A place read again: used with the earlier readings if they agree, else a question.

Agreement is judged with each reading's own repeatability; what readings share (one setting, one
calibration) cannot make them differ. Two that are kept though they differ speak with the scatter that
they show, not with the gauge's. `repeat_question` asks after the new reading is durable;
`repeat_answer` makes the entries of the answer. Until it is answered, all of them count.
"""

from __future__ import annotations

import uuid
from dataclasses import dataclass
from typing import Final, Literal, get_args

from fitwright.assess.evidence import gather
from fitwright.assess.gauges import Gauges
from fitwright.assess.results import State
from fitwright.bench.asking import Answered, answer_entry
from fitwright.bench.context import Bench
from fitwright.bench.errors import UnknownNameError
from fitwright.bench.withdrawing import withdrawal
from fitwright.model.slips import Question
from fitwright.physics.metrology.repeats import repeats_agree
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Choice, ValueObservation
from fitwright.records.projection import ReadingRecord
from fitwright.units import format_value

RepeatAnswer = Literal["keep both", "use instead", "withdraw"]
REPEAT_ANSWERS: Final[tuple[RepeatAnswer, ...]] = get_args(RepeatAnswer)


@dataclass(frozen=True, slots=True)
class RepeatQuestion:
    """Readings at one place that differ by more than their gauges explain."""

    question: Question
    reading: str
    earlier: tuple[str, ...]
    dimension: str


def repeat_question(bench: Bench, reading_id: str) -> RepeatQuestion | None:
    """What to ask about a reading just taken; None where it is the first at its place, or agrees."""
    record = bench.build.readings.get(reading_id)
    if record is None or record.dimension is None or not _is_value(record):
        return None
    dimension = bench.dimension(record.dimension)
    gauges = Gauges(bench.shop, bench.sheet, bench.build)
    used = {each.entry.id: each for each in gather(gauges, dimension, State.CURRENT).used if _is_value(each)}
    earlier = [each for each in used.values() if each.place == record.place and each.entry.id != reading_id]
    if not earlier or reading_id not in used:
        return None
    # All places together, as the verdict sees them: what a setting adds shows at the other places too.
    agreement = repeats_agree([gauges.value_reading(each, dimension) for each in used.values()])
    if agreement.agree or used[agreement.odd_one].place != record.place:
        return None
    shown = " and ".join(_shown(each) for each in earlier[-3:])
    text = (
        f"{_shown(record)} does not agree with {shown} read here before: they differ by more than the "
        f"gauge explains (by chance {_odds(agreement.probability)}). "
        "Keep both, use this one instead, or withdraw it?"
    )
    question = Question(f"repeat:{reading_id}", text)
    return RepeatQuestion(question, reading_id, tuple(each.entry.id for each in earlier), dimension.id)


def repeat_answer(
    bench: Bench, asked: RepeatQuestion, answer: str, *, person: str | None = None, reason: str | None = None
) -> list[NewEntry]:
    """The entries of an answer: a choice or a withdrawal, and the question with its answer.

    Raises
    ------
    UnknownNameError
        If it is none of the three answers.
    """
    answered = answer_entry(
        Answered(asked.question, "", answer),
        build=bench.build.build,
        entry_id=asked.reading,
        dimension=asked.dimension,
        person=person,
    )
    match answer:
        case "withdraw":
            return [
                withdrawal(bench, asked.reading, person=person, reason=reason or "repeat differs"),
                answered,
            ]
        case "keep both":
            choice = Choice(
                choice="keep both",
                entries=(*asked.earlier, asked.reading),
                dimension=asked.dimension,
                reason=reason,
            )
        case "use instead":
            choice = Choice(
                choice="use instead",
                entries=(asked.reading,),
                instead_of=asked.earlier,
                dimension=asked.dimension,
                reason=reason,
            )
        case _:
            raise UnknownNameError("such answer", answer, REPEAT_ANSWERS)
    return [_choice_entry(bench, choice, person), answered]


def _choice_entry(bench: Bench, choice: Choice, person: str | None) -> NewEntry:
    return NewEntry(
        id=uuid.uuid4().hex,
        build=bench.build.build,
        kind=Choice.kind,
        body=choice.model_dump(mode="json"),
        person=person,
    )


def _is_value(record: ReadingRecord) -> bool:
    return isinstance(record.body.observation, ValueObservation)


def _shown(record: ReadingRecord) -> str:
    observation = record.body.observation
    assert isinstance(observation, ValueObservation)  # noqa: S101  (only values repeat by number)
    return format_value(observation.value.si, observation.value.unit, observation.value.decimals)


def _odds(probability: float) -> str:
    if probability < 1e-6:
        return "less than once in a million times"
    return f"once in {1.0 / probability:.0f} times"
