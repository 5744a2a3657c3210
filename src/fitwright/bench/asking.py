"""Questions about a value just typed: each asked once, settled by an answer that is kept.

An answer is the label of a guess, which is then taken instead, or any other words: the value is
kept as typed. What was kept once at a dimension is not asked again there for the same value.
"""

from __future__ import annotations

import uuid
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from fitwright.bench.context import Bench
from fitwright.bench.expected import Expected, expected_of
from fitwright.bench.sizes import size_expected, size_read
from fitwright.model.dimension import Dimension
from fitwright.model.slips import NOMINAL_SHARE, Guess, Question, Window, question_for, range_question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import Instrument, QuestionAnswered
from fitwright.units import Quantity, parse_quantity
from fitwright.units.grammar import plain_text
from fitwright.units.wording import SlipWording

KEEP = "keep"
KNOWN_SHARE = 0.1
"""A size that no sheet states is expected within a tenth of what was read of it or its like."""
A_SIZE = 200
"""What is smaller than so many divisions of its gauge is a gap, and may differ from place to place."""


@dataclass(frozen=True, slots=True)
class Answered:
    """A question that was asked, about which text, and what was answered."""

    question: Question
    typed: str
    answer: str


@dataclass(frozen=True, slots=True)
class Settled:
    """A value with no question open, and the answers that it took."""

    quantity: Quantity
    answered: tuple[Answered, ...] = ()


def settle(
    bench: Bench,
    dimension: Dimension,
    instrument: Instrument | None,
    quantity: Quantity,
    answers: Mapping[str, str],
) -> Settled | Question:
    """The value that is meant, once its questions are answered; else the first that is open."""
    return settled(
        quantity,
        lambda typed: _questions(bench, dimension, instrument, typed),
        answers,
        kept=lambda key: kept_before(bench, dimension.id, key),
    )


def settled(
    quantity: Quantity,
    asks: Callable[[Quantity], Iterable[Question]],
    answers: Mapping[str, str],
    *,
    kept: Callable[[str], bool] = lambda key: False,  # noqa: ARG005  (nothing was kept before)
) -> Settled | Question:
    """An amount with all that is asked about it answered; else the first question that is open.

    `asks` gives the questions about an amount, `kept` says by a question's key whether it was kept
    as typed before.
    """
    answered: list[Answered] = []
    passed: set[str] = set()
    while True:
        question = next((each for each in asks(quantity) if each.key not in passed), None)
        if question is None:
            return Settled(quantity, tuple(answered))
        passed.add(question.key)
        answer = answers.get(question.key)
        if answer is None:
            if kept(question.key):
                continue
            return question
        answered.append(Answered(question, quantity.typed, answer))
        guess = guess_named(question, answer)
        if guess is not None:
            quantity = parse_quantity(guess.label, dimension=quantity.dimension)


def guess_named(question: Question, answer: str) -> Guess | None:
    """The guess that an answer takes, however its sign and its spaces are typed."""
    wanted = plain_text(answer).removeprefix("+") if answer.strip() else ""
    return next((guess for guess in question.guesses if plain_text(guess.label) == wanted), None)


def kept_before(bench: Bench, dimension: str, key: str) -> bool:
    """Whether this question was asked at this dimension before, and the value kept as typed."""
    return any(
        held.body.question == key and held.body.dimension == dimension and held.body.answer == KEEP
        for held in bench.build.questions
    )


def answer_entry(
    answered: Answered,
    *,
    build: str | None,
    entry_id: str,
    dimension: str | None = None,
    person: str | None = None,
    device: str | None = None,
) -> NewEntry:
    """The answer to a question as an entry of its own, beside the entry that it is about.

    Its id follows from the entry and the question, so that sending both again changes nothing.
    """
    body = QuestionAnswered(
        question=answered.question.key,
        text=answered.question.text,
        answer=answered.answer,
        dimension=dimension,
        typed=answered.typed or None,
        entry=entry_id,
    )
    return NewEntry(
        id=uuid.uuid5(uuid.UUID(hex=entry_id), answered.question.key).hex,
        build=build,
        kind=QuestionAnswered.kind,
        body=body.model_dump(mode="json"),
        person=person,
        device=device,
    )


def _window(
    bench: Bench, dimension: Dimension, instrument: Instrument | None, expected: Expected
) -> Window | None:
    """Where a value is expected: as the sheet says, and around what was read and kept here before.

    Where the sheet says nothing, around the size that the bench knows of, if it is a size and no gap.
    """
    window, read = expected.window, size_read(bench, dimension)
    if window is not None:
        return window if read is None or window.holds(read) else _joined(window, _around(read, NOMINAL_SHARE))
    size = size_expected(bench, dimension)
    if size is None or instrument is None or abs(size) < A_SIZE * instrument.resolution:
        return None
    return _around(size, KNOWN_SHARE)


def _around(size: float, share: float) -> Window:
    return Window(size - share * abs(size), size + share * abs(size))


def _joined(one: Window, other: Window) -> Window:
    return Window(min(one.low, other.low), max(one.high, other.high))


def _questions(
    bench: Bench, dimension: Dimension, instrument: Instrument | None, quantity: Quantity
) -> Iterator[Question]:
    expected = expected_of(bench.sheet, dimension)
    wording = SlipWording(quantity)
    slip = question_for(
        quantity.si,
        wording=wording,
        dimension=quantity.dimension,
        lower=expected.lower,
        upper=expected.upper,
        nominal=expected.nominal,
        window=_window(bench, dimension, instrument, expected),
    )
    if slip is not None:
        yield slip
    if instrument is not None and not instrument.comparison:
        low, high = instrument.range_low, instrument.range_high
        outside = range_question(quantity.si, low=low, high=high, wording=wording)
        if outside is not None:
            yield outside
