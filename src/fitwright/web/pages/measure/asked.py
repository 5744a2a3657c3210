"""Questions of the page Measure: each with its answers numbered, so that a keypad can give them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.bench.asking import KEEP
from fitwright.bench.look_back import LookBack
from fitwright.model.slips import Question
from fitwright.web.forms import EARLIER

REASONS = ("the part is not here", "no gauge for it here", "not taken apart", "measured by the machinist")
"""Why something is usually not measured; any other words can be typed."""
ANSWER_WORDS = {
    "keep both": "both count: keep both",
    "use instead": "the new one instead of what was read before",
    "withdraw": "the new one was wrong: take it back",
    "yes": "yes",
    "no": "no",
}


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer: its number on the keypad, what is sent, and the words."""

    number: int
    value: str
    words: str


@dataclass(frozen=True, slots=True)
class Earlier:
    """An answer that was given before to another question about the same text."""

    name: str
    answer: str


@dataclass(frozen=True, slots=True)
class AskedPart:
    """A question that waits for its answer.

    `kind` says what it is about: the text just typed (`slip`), the reading just kept (`reading`), or why
    something is not measured (`because`), which one's own words answer too (`own_words`). `none` says
    what comes of taking none of the answers, where one may.
    """

    kind: str
    key: str
    words: str
    text: str
    about: str
    answers: tuple[Answer, ...]
    earlier: tuple[Earlier, ...]
    own_words: bool
    none: str = ""


def slip_asked(question: Question, text: str, answered: Mapping[str, str], *, about: str = "") -> AskedPart:
    """A doubt about a text that is held back until it is answered; `about` is the reading it corrects."""
    values = [*((guess.label, f"take {guess.label}") for guess in question.guesses)]
    values.append((KEEP, f"keep {text} as typed"))
    return AskedPart(
        kind="slip",
        key=question.key,
        words=question.text,
        text=text,
        about=about,
        answers=_numbered(values),
        earlier=tuple(Earlier(EARLIER + key, words) for key, words in answered.items()),
        own_words=False,
        none="no, type it again",
    )


def reading_asked(asked: LookBack) -> AskedPart:
    """A question about a reading that is kept already."""
    values = [(each, ANSWER_WORDS[each]) for each in asked.answers]
    return AskedPart(
        kind="reading",
        key=asked.question.key,
        words=asked.question.text,
        text="",
        about=asked.reading,
        answers=_numbered(values),
        earlier=(),
        own_words=False,
    )


def because_asked(dimension: str, title: str) -> AskedPart:
    """Why a dimension is not measured."""
    values = [(each, each) for each in REASONS]
    words = f"{title} is not measured, because:"
    return AskedPart(
        kind="because",
        key="because",
        words=words,
        text="",
        about=dimension,
        answers=_numbered(values),
        earlier=(),
        own_words=True,
        none="leave it open",
    )


def _numbered(values: list[tuple[str, str]]) -> tuple[Answer, ...]:
    return tuple(Answer(number, value, words) for number, (value, words) in enumerate(values, start=1))


def answer_named(part: AskedPart, given: str) -> str | None:
    """The answer that a number or its own value gives; None where what was given is none of them."""
    for each in part.answers:
        if given in (str(each.number), each.value):
            return each.value
    return None
