"""The questions of `new`: what is asked, what is accepted, when a question does not matter."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from enum import StrEnum
from typing import Any, Final

from fitwright.starter.answers import WORDS, Answers
from fitwright.starter.errors import AnswerError
from fitwright.units import QuantityError, parse_quantity


class AnswerKind(StrEnum):
    """What an answer is made of."""

    TEXT = "text"
    WORD = "one of the choices"
    COUNT = "whole number"
    LENGTH = "length"
    ANGLE = "angle"


Known = Mapping[str, object]
"""Answers given so far, by question; what is missing counts as its default."""


@dataclass(frozen=True, slots=True)
class Question:
    """One question: its name in `Answers`, its text, how it is answered.

    `default` says in words what is taken where nothing is answered; `irrelevant` whether the
    answers so far make the question pointless.
    """

    name: str
    text: str
    kind: AnswerKind
    default: str
    irrelevant: Callable[[Known], bool] = lambda _: False

    @property
    def choices(self) -> tuple[str, ...]:
        """The words that are accepted; none where the answer is no word of a list."""
        return WORDS.get(self.name, ())


def questions_for(known: Known) -> tuple[Question, ...]:
    """The questions that matter, given the answers so far (typed words or parsed values).

    Examples
    --------
    >>> [question.name for question in questions_for({"valve_train": "two-stroke"})][-3:]
    ['rod_journal', 'rod_length', 'compression_height']
    >>> "valve_adjustment" in {question.name for question in questions_for({"valve_train": "two-stroke"})}
    False
    """
    return tuple(question for question in QUESTIONS if not question.irrelevant(known))


def answers_from_words(words: Mapping[str, str]) -> Answers:
    """Answers from what was typed; lengths with a unit, or in the unit of the shop.

    Parameters
    ----------
    words : mapping of str to str
        Text of each answer by question; an empty text is no answer.

    Returns
    -------
    Answers
        The answers, checked.

    Raises
    ------
    AnswerError
        If a question is unknown, an answer cannot be read or does not suit the others.

    Examples
    --------
    >>> answers_from_words({"name": "Brackengill", "units": "inch", "bore": "2.625"}).bore
    0.066675
    """
    known = {question.name: question for question in QUESTIONS}
    typed = {name: text.strip() for name, text in words.items() if text.strip()}
    for name, text in typed.items():
        if name not in known:
            raise AnswerError(name, text, "answers no question", "one of: " + ", ".join(known))
    shop_unit = "in" if typed.get("units") == "inch" else "mm"
    values: dict[str, Any] = {name: _value(known[name], text, shop_unit) for name, text in typed.items()}
    if "name" not in values:
        raise AnswerError("name", "", "is missing", "with the engine's name")
    return Answers(**values)


def _value(question: Question, text: str, shop_unit: str) -> str | int | float:
    if question.kind is AnswerKind.COUNT:
        if not (text.isascii() and text.isdigit() and len(text) < 4):
            raise AnswerError(question.name, text, "is no whole number", "a number such as 4")
        return int(text)
    if question.kind in {AnswerKind.LENGTH, AnswerKind.ANGLE}:
        dimension, unit = ("length", shop_unit) if question.kind is AnswerKind.LENGTH else ("angle", "deg")
        try:
            return parse_quantity(text, default_unit=unit, dimension=dimension).si
        except QuantityError as error:
            raise AnswerError(question.name, text, error.problem, error.write) from error
    return text


def _says(question: str, *words: str) -> Callable[[Known], bool]:
    """Whether a question was answered by one of these words (or its default is one of them)."""
    default = {field.name: field.default for field in fields(Answers)}[question]
    return lambda known: (known.get(question) or default) in words


def _not(condition: Callable[[Known], bool]) -> Callable[[Known], bool]:
    return lambda known: not condition(known)


def _or(*conditions: Callable[[Known], bool]) -> Callable[[Known], bool]:
    return lambda known: any(condition(known) for condition in conditions)


_TWO_STROKE = _says("valve_train", "two-stroke")
_NO_CRANK = _says("only", "head", "pump")
_NO_HEAD = _says("only", "bottom-end", "pump")
_NO_VALVES = _or(_TWO_STROKE, _NO_HEAD)
_NO_PUMP = _says("only", "bottom-end", "head")
_NOT_ALL = _says("only", "bottom-end", "head", "pump")
_ONE_BANK = _not(_says("arrangement", "vee", "flat"))
_FIXED_COUNT = _says("arrangement", "single", "twin")

QUESTIONS: Final[tuple[Question, ...]] = (
    Question("name", "What is the engine called?", AnswerKind.TEXT, "none: it must have a name"),
    Question("engine_id", "Short name for files and records?", AnswerKind.TEXT, "made from the name"),
    Question("units", "In which units does the shop read?", AnswerKind.WORD, "mm"),
    Question("only", "The whole engine, or one part of the job?", AnswerKind.WORD, "all"),
    Question("duty", "What is the engine for?", AnswerKind.WORD, "road"),
    Question("aspiration", "How does it breathe?", AnswerKind.WORD, "naturally aspirated"),
    Question("cooling", "What cools it?", AnswerKind.WORD, "water"),
    Question("arrangement", "How do the cylinders stand?", AnswerKind.WORD, "inline"),
    Question("cylinders", "How many cylinders?", AnswerKind.COUNT, "4, a vee 8", _FIXED_COUNT),
    Question(
        "bank_angle",
        "Angle between the banks?",
        AnswerKind.ANGLE,
        "90 deg",
        _not(_says("arrangement", "vee")),
    ),
    Question("bearings", "What does the crank run in?", AnswerKind.WORD, "plain"),
    Question("mains", "How many main bearings?", AnswerKind.COUNT, "as such a layout usually has"),
    Question(
        "rods_per_pin",
        "How many rods on each crankpin?",
        AnswerKind.COUNT,
        "2 in a vee, 1 in a flat engine",
        _or(_ONE_BANK, _NO_CRANK),
    ),
    Question(
        "block_material", "What is the block or crankcase made of?", AnswerKind.WORD, "by layout and cooling"
    ),
    Question("head_material", "What is the head made of?", AnswerKind.WORD, "by duty and cooling"),
    Question("piston", "How were the pistons made?", AnswerKind.WORD, "cast", _NO_CRANK),
    Question(
        "piston_pin", "Piston pin floating or pressed in the rod?", AnswerKind.WORD, "floating", _NO_CRANK
    ),
    Question("valve_train", "What drives the valves?", AnswerKind.WORD, "overhead camshaft"),
    Question("valves_per_cylinder", "Valves of one cylinder?", AnswerKind.COUNT, "2", _NO_VALVES),
    Question("valve_adjustment", "What sets the lash?", AnswerKind.WORD, "by valve train", _NO_VALVES),
    Question("cam_drive", "What turns the camshaft?", AnswerKind.WORD, "by duty", _or(_TWO_STROKE, _NOT_ALL)),
    Question("rear_seal", "What seals the crank's rear end?", AnswerKind.WORD, "by duty", _NOT_ALL),
    Question("piston_jets", "Oil jets under the pistons?", AnswerKind.WORD, "if boosted", _NOT_ALL),
    Question(
        "pump", "What pumps the oil?", AnswerKind.WORD, "external spur, none for a two-stroke", _NO_PUMP
    ),
    Question(
        "pump_stages",
        "How many scavenge stages?",
        AnswerKind.COUNT,
        "2",
        _or(_NO_PUMP, _not(_says("pump", "dry sump"))),
    ),
    Question("bore", "Cylinder bore?", AnswerKind.LENGTH, "80 mm, which is 3.15 in"),
    Question("stroke", "Stroke?", AnswerKind.LENGTH, "80 mm, which is 3.15 in"),
    Question("main_journal", "Main journal diameter?", AnswerKind.LENGTH, "scaled from the bore", _NO_CRANK),
    Question("rod_journal", "Crankpin diameter?", AnswerKind.LENGTH, "scaled from the bore", _NO_CRANK),
    Question("rod_length", "Connecting rod, centre to centre?", AnswerKind.LENGTH, "scaled from the stroke"),
    Question("compression_height", "Pin centre to crown?", AnswerKind.LENGTH, "scaled from the bore"),
)
"""All questions, in the order in which they are asked."""
