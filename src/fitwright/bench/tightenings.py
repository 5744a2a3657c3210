"""A tightening as a person types it: group, fasteners, pass, and the torque, angle or stretch."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

from fitwright.assess.assembly.results import Side
from fitwright.bench.context import Bench
from fitwright.bench.errors import CannotEnterError
from fitwright.bench.fastener_lists import fasteners_named, short_names
from fitwright.bench.plausible import Amounts, read_amounts
from fitwright.bench.taking import typed
from fitwright.bench.tightened import members_of_fasteners, next_pass
from fitwright.bench.tightening_amounts import Gauges, amounts_asked
from fitwright.bench.tightening_effects import effect_of
from fitwright.bench.tightening_questions import Tightened, questions_about
from fitwright.bench.work_taking import (
    WorkTaken,
    WorkTaking,
    check_correction,
    first_open,
    group_named,
    who_did,
    why,
    work_taken,
)
from fitwright.bench.work_words import work_words
from fitwright.bench.wrenches import NO_WRENCH, gauge_of
from fitwright.data.cautions import cautions
from fitwright.data.errors import DataError
from fitwright.data.fasteners import lubricant_of
from fitwright.model.fastener import TighteningGroup
from fitwright.model.group_cautions import group_cautions
from fitwright.model.slips import Question
from fitwright.records.kinds import Tightening

AMOUNTS = ("torque", "angle", "stretch", "free_length", "tightened_length")


@dataclass(frozen=True, slots=True, kw_only=True)
class TighteningTyped:
    """A tightening as it was typed, text by text; empty where nothing was said.

    `fasteners` is a list (`1..6 9`) or `all`; without `number` it is the next pass that they want.
    `members` says which bolt sits where, as far as that is new; `bolts` names a whole set of new ones
    (bolt 3 of set B2 is then B2-3).
    """

    group: str
    fasteners: str = "all"
    number: str = ""
    torque: str = ""
    read: Literal["set", "peak"] = "set"
    angle: str = ""
    stretch: str = ""
    free_length: str = ""
    tightened_length: str = ""
    wrench: str = ""
    angle_gauge: str = ""
    stretch_gauge: str = ""
    lubricant: str = ""
    performed_by: str = ""
    note: str = ""
    bolts: str = ""
    members: Mapping[str, str] = field(default_factory=dict)

    @property
    def amounts(self) -> Mapping[str, str]:
        """The texts of its amounts by their names."""
        return {name: getattr(self, name).strip() for name in AMOUNTS}


def take_tightening(bench: Bench, said: TighteningTyped, taking: WorkTaking) -> WorkTaken | Question:
    """A tightening typed: the entries to append, or the question to ask first.

    A torque, angle or stretch other than the sheet's is never refused: the question says what it does.

    Raises
    ------
    BenchError
        If an amount is missing, or a group, a fastener, a gauge, a lubricant or a person is not there.
    QuantityError
        If a text is no amount.
    """
    group = group_named(bench, said.group)
    check_correction(bench, Tightening, taking)
    fasteners = fasteners_named(group, said.fasteners)
    number = _number(bench, group, said.number, fasteners)
    gauges = _gauges(bench, said)
    asked = amounts_asked(group, number, taking.family, gauges)
    amounts = read_amounts(asked, said.amounts, taking.answers)
    if isinstance(amounts, Question):
        return amounts
    _check_amounts(group, fasteners, amounts)
    body = _body(bench, group, said, Tightened(fasteners, number, amounts), taking)
    answered = list(amounts.answered)
    questions = questions_about(bench, group, body, gauges, taking)
    question = first_open(
        bench, questions, group.id, said.torque or said.stretch or said.angle, taking, answered
    )
    if question is not None:
        return question
    return work_taken(
        bench,
        body,
        work_words(body, bench.sheet),
        taking,
        about=group.id,
        answered=answered,
        cautions=_cautions(bench, group, body),
    )


def _cautions(bench: Bench, group: TighteningGroup, body: Tightening) -> Iterator[str]:
    if body.torque is not None and body.wrench is None:
        yield NO_WRENCH
    effect = effect_of(bench.sheet, group, body)
    if effect.side is Side.ABOVE or (effect.preload is not None and effect.preload.yields):
        yield cautions()["over_tightening"].words
    yield from group_cautions(group, bench.sheet)


def new_set(group: TighteningGroup, fasteners: tuple[str, ...], name: str) -> dict[str, str]:
    """The codes of a set of new bolts: bolt 3 of set B2 is B2-3."""
    called = short_names(group)
    return {each: f"{name.strip()}-{called[each]}" for each in fasteners} if name.strip() else {}


def lubricant_named(bench: Bench, text: str) -> str | None:
    """A lubricant by the id of a consumable or by words that the tables know; None where none was said."""
    name = text.strip()
    if not name or name in bench.sheet.consumables:
        return name or None
    try:
        return lubricant_of(name).name
    except DataError as error:
        raise CannotEnterError(str(error).rstrip("."), "or name a consumable of the sheet") from None


def _number(bench: Bench, group: TighteningGroup, text: str, fasteners: tuple[str, ...]) -> int:
    if not text.strip():
        return next_pass(bench, group, fasteners)
    word = text.casefold().removeprefix("pass").strip()
    number, most = int(word) if word.isdecimal() and len(word) < 3 else 0, max(1, len(group.passes))
    if not 1 <= number <= most:
        passes = "1 pass" if most == 1 else f"{most} passes"
        raise CannotEnterError(
            f'"{text.strip()}" is no pass: {group.title} has {passes}', f"name 1 to {most}"
        )
    return number


def _gauges(bench: Bench, said: TighteningTyped) -> Gauges:
    return Gauges(
        gauge_of(bench, said.wrench, "torque", "a torque wrench"),
        gauge_of(bench, said.angle_gauge, "angle", "an angle gauge"),
        gauge_of(bench, said.stretch_gauge, "length", "a stretch gauge or a micrometer"),
    )


def _check_amounts(group: TighteningGroup, fasteners: tuple[str, ...], amounts: Amounts) -> None:
    found = amounts.quantities
    lengths = {"free_length", "tightened_length"} & found.keys()
    if not found:
        raise CannotEnterError(
            f"Nothing was said of how {group.title} was tightened", "type a torque, an angle or a stretch"
        )
    if lengths and len(fasteners) > 1:
        raise CannotEnterError("Lengths belong to one fastener each", "enter each fastener on its own")
    if len(lengths) == 2 and found["tightened_length"].si <= found["free_length"].si:
        wrong = (
            f"{found['tightened_length'].typed} tightened is no longer than {found['free_length'].typed} free"
        )
        raise CannotEnterError(wrong, "exchange the two, or read again")


def _body(
    bench: Bench, group: TighteningGroup, said: TighteningTyped, what: Tightened, taking: WorkTaking
) -> Tightening:
    members = new_set(group, what.fasteners, said.bolts) | dict(said.members)
    found = {name: typed(quantity) for name, quantity in what.amounts.quantities.items()}
    return Tightening.model_validate(
        {
            "group": group.id,
            "fasteners": what.fasteners,
            "number": what.number,
            "members": members_of_fasteners(bench, group, what.fasteners, members),
            "read": said.read,
            "wrench": said.wrench or None,
            "angle_gauge": said.angle_gauge or None,
            "stretch_gauge": said.stretch_gauge or None,
            "lubricant": lubricant_named(bench, said.lubricant),
            "performed_by": who_did(bench, said.performed_by, taking),
            "note": said.note.strip() or None,
            **found,
            **why(taking),
        }
    )
