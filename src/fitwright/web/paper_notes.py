"""What is said at a place that is typed in from paper, and what was typed there."""

from __future__ import annotations

from typing import Final

from fitwright.bench.asking import KEEP
from fitwright.bench.context import Bench
from fitwright.bench.look_back import LookBack
from fitwright.bench.order import Stop
from fitwright.bench.paper import DID, Noted
from fitwright.model.slips import Question
from fitwright.web.paper_tables import SIZE, Choice, Earlier, NotePart, field_name, place_words
from fitwright.web.writing import Sent

ANSWER, KEY, EARLIER, LEAD = "answer", "key", "earlier", "lead"
"""What the fields of a place are called besides its boxes."""
LOOK, ABOUT = "look", "about"
"""Begin the fields that answer a question about a reading that is kept."""
ANSWER_WORDS: Final = {
    "keep both": "both count: keep both",
    "use instead": "the new one instead of what was read before",
    "withdraw": "the new one was wrong: take it back",
}


def noted_in(form: Sent, stop: Stop) -> Noted:
    """What stands in the boxes of one place, with the answers given about it."""
    place = f"|{stop.dimension}|{stop.place}"
    answers = {
        name.removeprefix(f"{EARLIER}:").removesuffix(place): told
        for name, told in form.fields.items()
        if name.startswith(f"{EARLIER}:") and name.endswith(place)
    }
    key, answer = form.get(field_name(KEY, stop)), form.get(field_name(ANSWER, stop))
    if key and answer:
        answers[key] = answer
    return Noted(
        stop,
        size=form.get(field_name(SIZE, stop)),
        lead=form.get(field_name(LEAD, stop)),
        blades={did: form.get(field_name(did, stop)) for did in DID},
        answers=answers,
    )


def problem_note(bench: Bench, stop: Stop, words: str) -> NotePart:
    """What is wrong with what stands at a place."""
    return NotePart(_id(stop), _where(bench, stop), words, "refused")


def question_note(bench: Bench, noted: Noted, question: Question) -> NotePart:
    """A doubt about a size, to be answered before it is kept."""
    stop = noted.stop
    guesses = [Choice(guess.label, f"take {guess.label}") for guess in question.guesses]
    return NotePart(
        _id(stop),
        _where(bench, stop),
        question.text,
        "question",
        answer_name=field_name(ANSWER, stop),
        key_name=field_name(KEY, stop),
        key=question.key,
        choices=(*guesses, Choice(KEEP, f"keep {noted.size} as written")),
        earlier=tuple(
            Earlier(field_name(f"{EARLIER}:{key}", stop), told) for key, told in noted.answers.items()
        ),
    )


def raised_note(bench: Bench, stop: Stop, raised: LookBack) -> NotePart:
    """A question about a reading that is kept; until it is answered, all count."""
    return NotePart(
        _id(stop),
        _where(bench, stop),
        raised.question.text,
        "question",
        answer_name=f"{LOOK}|{raised.reading}",
        key_name=f"{ABOUT}|{raised.reading}",
        key=raised.question.key,
        choices=tuple(Choice(each, ANSWER_WORDS.get(each, each)) for each in raised.answers),
    )


def _where(bench: Bench, stop: Stop) -> str:
    dimension = bench.dimension(stop.dimension)
    words = place_words(bench, dimension, stop.place)
    return dimension.title if words == SIZE else f"{dimension.title}, {words}"


def _id(stop: Stop) -> str:
    """An id for the element, of what an id may hold."""
    return "note-" + "".join(each if each.isalnum() else "-" for each in f"{stop.dimension}-{stop.place}")
