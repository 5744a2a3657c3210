"""What a person answers about an engine, checked word by word when it is given."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from fitwright.quantity import Metre, Radian
from fitwright.starter.errors import AnswerError

WORDS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "units": ("mm", "inch"),
        "only": ("all", "bottom-end", "pump", "head"),
        "duty": (
            "road",
            "sprint",
            "hill climb",
            "track",
            "rally",
            "endurance",
            "marine",
            "agricultural",
            "stationary",
            "historic",
        ),
        "aspiration": ("naturally aspirated", "turbocharged", "supercharged"),
        "cooling": ("water", "air", "oil"),
        "piston": ("cast", "forged"),
        "piston_pin": ("floating", "pressed"),
        "arrangement": ("single", "twin", "inline", "vee", "flat"),
        "bearings": ("plain", "white metal", "rolling"),
        "block_material": ("cast iron", "aluminium"),
        "head_material": ("cast iron", "aluminium"),
        "valve_train": (
            "pushrod",
            "overhead camshaft",
            "double overhead camshafts",
            "side valve",
            "two-stroke",
        ),
        "valve_adjustment": ("shims", "screws", "hydraulic", "none"),
        "cam_drive": ("gears", "chain", "belt", "shaft"),
        "rear_seal": ("lip", "scroll", "rope"),
        "piston_jets": ("yes", "no"),
        "pump": (
            "crank-driven internal rotor",
            "external spur",
            "chain-driven",
            "camshaft-driven",
            "dry sump",
            "none",
        ),
    }
)
"""The words that each question accepts; where the sheet format has the same word, it is that word."""

SIZE_RANGE: Final[Mapping[str, tuple[Metre, Metre]]] = MappingProxyType(
    {
        "bore": (0.020, 0.600),
        "stroke": (0.010, 1.000),
        "main_journal": (0.008, 0.500),
        "rod_journal": (0.008, 0.500),
        "rod_length": (0.020, 2.500),
        "compression_height": (0.005, 0.600),
    }
)
"""Smallest and largest size [m] that a question takes; outside it a unit has slipped."""

_ID: Final = re.compile(r"[a-z0-9][a-z0-9_-]{0,63}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Answers:
    """Answers to the questions of `new`; lengths in metres, angles in radians.

    None means "not answered": the plan of the sheet then takes its default from the other answers,
    and the sheet says of each size taken so that it is to be replaced.
    """

    name: str
    engine_id: str | None = None
    units: str = "mm"
    only: str = "all"
    duty: str = "road"
    aspiration: str = "naturally aspirated"
    cooling: str = "water"
    arrangement: str = "inline"
    cylinders: int | None = None
    bank_angle: Radian | None = None
    mains: int | None = None
    rods_per_pin: int | None = None
    bearings: str = "plain"
    block_material: str | None = None
    head_material: str | None = None
    piston: str = "cast"
    piston_pin: str = "floating"
    valve_train: str = "overhead camshaft"
    valves_per_cylinder: int = 2
    valve_adjustment: str | None = None
    cam_drive: str | None = None
    rear_seal: str | None = None
    piston_jets: str | None = None
    pump: str | None = None
    pump_stages: int | None = None
    bore: Metre = 0.080
    stroke: Metre = 0.080
    main_journal: Metre | None = None
    rod_journal: Metre | None = None
    rod_length: Metre | None = None
    compression_height: Metre | None = None

    def __post_init__(self) -> None:
        """Refuse what cannot be an answer, then what cannot be an engine."""
        _check_name(self.name, self.engine_id)
        for question, words in WORDS.items():
            given = getattr(self, question)
            if given is not None and given not in words:
                raise AnswerError(question, given, "is not a word that this question knows", _one_of(words))
        for question, (least, most) in SIZE_RANGE.items():
            _check_size(question, getattr(self, question), least, most, self.units)
        _check_arrangement(self)
        _check_crank(self)
        _check_valves(self)
        _check_pump(self)


def usual_cylinders(answers: Answers) -> int:
    """Cylinders answered; else as many as such an engine usually has."""
    return answers.cylinders or {"single": 1, "twin": 2, "vee": 8}.get(answers.arrangement, 4)


def _one_of(words: tuple[str, ...]) -> str:
    return "one of: " + ", ".join(words)


def _check_name(name: str, engine_id: str | None) -> None:
    if not name.strip() or not name.isprintable() or len(name) > 80:
        raise AnswerError("name", name, "is no name for an engine", "1 to 80 printable characters")
    if engine_id is not None and not _ID.fullmatch(engine_id):
        raise AnswerError(
            "engine_id", engine_id, "is no id", "lower case letters, digits, - and _, such as corrie-five"
        )


def _check_size(question: str, size: Metre | None, least: Metre, most: Metre, units: str) -> None:
    if size is not None and not (math.isfinite(size) and least <= size <= most):
        unit, metre = ("in", 0.0254) if units == "inch" else ("mm", 0.001)
        given, low, high = (f"{each / metre:.4g} {unit}" for each in (size, least, most))
        raise AnswerError(question, given, "is no such size", f"{low} to {high}")


def _check_count(question: str, given: int | None, least: int, most: int) -> None:
    if given is not None and not least <= given <= most:
        accepted = f"{least}" if least == most else f"{least} to {most}"
        raise AnswerError(question, given, "does not suit this engine", accepted)


def _check_arrangement(answers: Answers) -> None:
    least, most = {"single": (1, 1), "twin": (2, 2), "inline": (2, 12), "vee": (2, 24), "flat": (2, 16)}[
        answers.arrangement
    ]
    _check_count("cylinders", answers.cylinders, least, most)
    banks = answers.arrangement in {"vee", "flat"}
    if banks and answers.cylinders is not None and answers.cylinders % 2:
        raise AnswerError("cylinders", answers.cylinders, "cannot stand in two equal banks", "an even number")
    angle = answers.bank_angle
    if angle is not None and not (math.isfinite(angle) and math.radians(5) <= angle <= math.radians(175)):
        raise AnswerError("bank_angle", angle, "is no bank angle", "5 deg to 175 deg")


def _check_crank(answers: Answers) -> None:
    cylinders = usual_cylinders(answers)
    _check_count("mains", answers.mains, 1 if cylinders == 1 else 2, cylinders + 2)
    _check_count("rods_per_pin", answers.rods_per_pin, 1, 2)


def _check_valves(answers: Answers) -> None:
    if answers.valve_train == "two-stroke":
        return
    least, most = (2, 2) if answers.valve_train == "side valve" else (2, 5)
    _check_count("valves_per_cylinder", answers.valves_per_cylinder, least, most)


def _check_pump(answers: Answers) -> None:
    if answers.pump == "dry sump":
        _check_count("pump_stages", answers.pump_stages, 1, 8)
    without = answers.pump == "none" or (answers.pump is None and answers.valve_train == "two-stroke")
    if answers.only == "pump" and without:
        raise AnswerError(
            "only", answers.only, "is asked for an engine without an oil pump", "all, or a pump"
        )
    if answers.pump == "camshaft-driven" and answers.valve_train == "two-stroke":
        raise AnswerError("pump", answers.pump, "needs a camshaft", "another pump, or none")
