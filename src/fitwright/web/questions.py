"""The questions of a new sheet as a form: in groups, only those that matter, and what the answers make."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from fitwright.model.sheet import Sheet
from fitwright.starter import amounts
from fitwright.starter.answers import Answers
from fitwright.starter.errors import AnswerError
from fitwright.starter.plan import Plan, plan_of
from fitwright.starter.questions import (
    QUESTIONS,
    AnswerKind,
    Question,
    answers_from_words,
    questions_for,
)
from fitwright.starter.sheet import write_sheet
from fitwright.web.sheet_text import Station, counts_of, drawn, looked_at, stations_of

GROUPS: Final = (
    ("The engine", ("name", "engine_id", "units", "only", "duty", "aspiration", "cooling")),
    (
        "Cylinders and crank",
        (
            "arrangement",
            "cylinders",
            "bank_angle",
            "bearings",
            "mains",
            "rods_per_pin",
            "block_material",
            "piston",
            "piston_pin",
        ),
    ),
    (
        "Head and valves",
        ("head_material", "valve_train", "valves_per_cylinder", "valve_adjustment", "cam_drive"),
    ),
    ("Oil and seals", ("pump", "pump_stages", "piston_jets", "rear_seal")),
    ("Sizes", ("bore", "stroke", "main_journal", "rod_journal", "rod_length", "compression_height")),
)
"""Headings with the questions below them; every question stands below one."""

UNNAMED: Final = "This engine"
"""What an engine is called in a preview until it has a name."""
_BY_NAME: Final = {question.name: question for question in QUESTIONS}


@dataclass(frozen=True, slots=True)
class AnswerOption:
    """A word that answers a question."""

    word: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class QuestionField:
    """One question with what was answered, and what is wrong with that."""

    name: str
    text: str
    usual: str
    options: tuple[AnswerOption, ...]
    value: str
    numeric: bool
    matters: bool
    wrong: str


@dataclass(frozen=True, slots=True)
class QuestionGroup:
    """Questions under a heading."""

    title: str
    fields: tuple[QuestionField, ...]


@dataclass(frozen=True, slots=True)
class Taken:
    """What is taken where nothing was answered."""

    text: str
    value: str


@dataclass(frozen=True, slots=True)
class Preview:
    """What the answers make: `matter` names the questions that matter, `wrong` what cannot be."""

    title: str
    counts: str
    stations: tuple[Station, ...]
    taken: tuple[Taken, ...]
    drawing: Markup
    matter: str
    wrong: str
    wrong_about: str


def groups(words: Mapping[str, str], wrong: AnswerError | None = None) -> tuple[QuestionGroup, ...]:
    """All questions in their groups, filled with what was answered."""
    matter = {question.name for question in questions_for(words)}
    return tuple(
        QuestionGroup(title, tuple(_field(_BY_NAME[name], words, matter, wrong) for name in names))
        for title, names in GROUPS
    )


def answered(words: Mapping[str, str]) -> Answers:
    """The answers to the questions that matter.

    Raises
    ------
    AnswerError
        If one cannot be used.
    """
    matter = {question.name for question in questions_for(words)}
    return answers_from_words({name: words.get(name, "") for name in matter})


def preview_of(words: Mapping[str, str]) -> tuple[Preview, Sheet | None]:
    """What the answers make, and the sheet that they make; none where one cannot be used."""
    matter = " ".join(question.name for question in questions_for(words))
    named = words if words.get("name", "").strip() else {**words, "name": UNNAMED}
    try:
        answers = answered(named)
    except AnswerError as error:
        return Preview("", "", (), (), Markup(), matter, error.mend, error.question), None
    text = write_sheet(answers)
    sheet, _ = looked_at(text)
    assert sheet is not None  # noqa: S101  (whatever the answers make is tested to be sound)
    taken = tuple(_taken(named, plan_of(answers)))
    shown = Preview(
        answers.name,
        counts_of(sheet),
        stations_of(sheet),
        taken,
        drawn(text),
        matter,
        wrong="",
        wrong_about="",
    )
    return shown, sheet


def _field(
    question: Question, words: Mapping[str, str], matter: Container[str], wrong: AnswerError | None
) -> QuestionField:
    value = words.get(question.name, "")
    return QuestionField(
        name=question.name,
        text=question.text,
        usual=question.default,
        options=tuple(AnswerOption(word, word == value) for word in question.choices),
        value=value,
        numeric=question.kind in (AnswerKind.COUNT, AnswerKind.LENGTH, AnswerKind.ANGLE),
        matters=question.name in matter,
        wrong=wrong.mend if wrong is not None and wrong.question == question.name else "",
    )


def _taken(words: Mapping[str, str], plan: Plan) -> Iterator[Taken]:
    """What the plan has for each question that matters and was not answered."""
    for question in questions_for(words):
        value = getattr(plan, question.name)
        if not words.get(question.name, "").strip() and value is not None and question.name != "engine_id":
            yield Taken(question.text, _in_words(question, value, plan))


def _in_words(question: Question, value: object, plan: Plan) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        angle = question.kind is AnswerKind.ANGLE
        return amounts.degrees(value) if angle else amounts.size(value, plan.units)
    return str(value)
