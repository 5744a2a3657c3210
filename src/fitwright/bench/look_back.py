"""What is asked once a reading is durable: a repeat that differs, a run too alike, or one place off.

Each is asked once. Until it is answered all readings count, and the answer is kept beside the reading.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.bench.alike import alike_in
from fitwright.bench.asking import Answered, answer_entry
from fitwright.bench.context import Bench
from fitwright.bench.errors import UnknownNameError
from fitwright.bench.moving import moved_by, off_by_one, run_of
from fitwright.bench.order import Stop
from fitwright.bench.repeats import REPEAT_ANSWERS, RepeatQuestion, repeat_answer, repeat_question
from fitwright.model.run_slips import MoveQuestion
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry

YES_OR_NO: Final = ("yes", "no")


@dataclass(frozen=True, slots=True)
class Going:
    """Along which places one goes, in which sitting, and what was taken on the way (entry ids)."""

    order: tuple[Stop, ...]
    sitting: str | None
    taken: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LookBack:
    """A question about a reading that is kept, with the answers that it takes."""

    question: Question
    answers: tuple[str, ...]
    reading: str
    repeat: RepeatQuestion | None = None
    move: MoveQuestion | None = None


def look_back(bench: Bench, going: Going, reading: str) -> LookBack | None:
    """The first open question that a reading just taken raises; None where it raises none."""
    return next((each for each in _raised(bench, going, reading) if not _was_asked(bench, going, each)), None)


def look_back_answer(
    bench: Bench,
    going: Going,
    asked: LookBack,
    answer: str,
    *,
    person: str | None = None,
    device: str | None = None,
) -> list[NewEntry]:
    """The entries of an answer, what it changes first.

    Raises
    ------
    UnknownNameError
        If it is none of the answers offered.
    """
    if answer not in asked.answers:
        raise UnknownNameError("such answer", answer, asked.answers)
    if asked.repeat is not None:
        return repeat_answer(bench, asked.repeat, answer, person=person)
    answered = Answered(asked.question, "", answer)
    kept = answer_entry(
        answered, build=bench.build.build, entry_id=asked.reading, person=person, device=device
    )
    run = run_of(bench, going.order, going.sitting) if asked.move is not None else None
    if run is None or asked.move is None or answer != "yes":
        return [kept]
    return [moved_by(bench, run, asked.move.move, person=person), kept]


def _raised(bench: Bench, going: Going, reading: str) -> Iterator[LookBack]:
    repeat = repeat_question(bench, reading)
    if repeat is not None:
        yield LookBack(repeat.question, REPEAT_ANSWERS, reading, repeat=repeat)
    alike = alike_in(bench, going.taken)
    if alike is not None:
        yield LookBack(alike, YES_OR_NO, reading)
    run = run_of(bench, going.order, going.sitting)
    off = off_by_one(run) if run is not None else None
    if off is not None:
        yield LookBack(Question(off.key, off.text), YES_OR_NO, reading, move=off)


def _was_asked(bench: Bench, going: Going, asked: LookBack) -> bool:
    """Whether it was asked before; of a run too alike, about the same value in this sitting."""
    wanted = _once(asked.question.key)
    return any(
        _once(held.body.question) == wanted and _in_sitting(bench, held.body.entry, going.sitting)
        for held in bench.build.questions
    )


def _in_sitting(bench: Bench, reading: str | None, sitting: str | None) -> bool:
    held = bench.build.readings.get(reading or "")
    return held is not None and held.body.sitting == sitting


def _once(key: str) -> str:
    kind, _, rest = key.partition(":")
    return f"{kind}:{rest.rpartition(':')[2]}" if kind == "alike" else key
