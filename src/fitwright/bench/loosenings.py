"""Fasteners looked at again, loosened, and engines heated: what happens between and after tightenings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final, Literal, get_args

from fitwright.assess.assembly.tightened import Life, final_record
from fitwright.bench.amounts import amount
from fitwright.bench.asking import Answered
from fitwright.bench.context import Bench
from fitwright.bench.errors import CannotEnterError, UnknownNameError
from fitwright.bench.fastener_lists import fastener_words, fasteners_named
from fitwright.bench.moments import moment_typed
from fitwright.bench.plausible import Asked, read_amounts
from fitwright.bench.taking import typed
from fitwright.bench.tightened import lives_of, members_of_fasteners
from fitwright.bench.tightening_amounts import ANY_LENGTH
from fitwright.bench.work_taking import (
    WorkTaken,
    WorkTaking,
    check_correction,
    first_open,
    group_named,
    who_did,
    why,
    words_wanted,
    work_taken,
)
from fitwright.bench.work_words import work_words
from fitwright.model.fastener import TighteningGroup
from fitwright.model.slips import Question, Window
from fitwright.records.kinds import HeatCycle, Loosening, TighteningCheck
from fitwright.units import Family, shop_unit

Check = Literal["marked", "checked", "stands as it is"]
CHECKS: Final[tuple[Check, ...]] = get_args(Check)
BREAKAWAY: Final = Window(0.0, amount("5000", "N m"))


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckTyped:
    """Fasteners looked at again: marked, checked by a second person, or "stands as it is" with words."""

    group: str
    fasteners: str = "all"
    check: str = "checked"
    checked_by: str = ""
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseningTyped:
    """Fasteners loosened: why, the torque it took, the free length then, and which bolts they are if new."""

    group: str
    fasteners: str = "all"
    because: str = ""
    breakaway_torque: str = ""
    length_after: str = ""
    members: Mapping[str, str] = field(default_factory=dict)


def take_check(bench: Bench, said: CheckTyped, taking: WorkTaking) -> WorkTaken | Question:
    """Tightened fasteners looked at again: the entries to append, or the question to ask first.

    Raises
    ------
    BenchError
        If a group, fastener, person or kind of look is not there, or "stands as it is" has no words.
    """
    group = group_named(bench, said.group)
    check_correction(bench, TighteningCheck, taking)
    fasteners = fasteners_named(group, said.fasteners)
    check = next((each for each in CHECKS if each == said.check), None)
    if check is None:
        raise UnknownNameError("way to look at fasteners", said.check, list(CHECKS))
    if check == "stands as it is":
        words_wanted(said.words, f"That {group.title} stands as it is", "the reason")
    body = TighteningCheck.model_validate(
        {
            "group": group.id,
            "fasteners": fasteners,
            "check": check,
            "checked_by": who_did(bench, said.checked_by, taking),
            "words": said.words.strip() or None,
            **why(taking),
        }
    )
    answered: list[Answered] = []
    question = first_open(bench, _about_check(bench, group, body), group.id, "", taking, answered)
    if question is not None:
        return question
    return work_taken(bench, body, work_words(body, bench.sheet), taking, about=group.id, answered=answered)


def take_loosening(bench: Bench, said: LooseningTyped, taking: WorkTaking) -> WorkTaken | Question:
    """Fasteners loosened: the entries to append, or the question to ask first.

    Raises
    ------
    BenchError
        If a group or fastener is not there, no reason is given, or a length is given for several.
    QuantityError
        If a text is no amount.
    """
    group = group_named(bench, said.group)
    check_correction(bench, Loosening, taking)
    fasteners = fasteners_named(group, said.fasteners)
    because = words_wanted(said.because, f"Loosening {group.title}", "why")
    if said.length_after.strip() and len(fasteners) > 1:
        raise CannotEnterError("A length belongs to one fastener", "enter each fastener on its own")
    texts = {"breakaway_torque": said.breakaway_torque, "length_after": said.length_after}
    amounts = read_amounts(loosening_amounts(taking.family), texts, taking.answers)
    if isinstance(amounts, Question):
        return amounts
    body = Loosening.model_validate(
        {
            "group": group.id,
            "fasteners": fasteners,
            "members": members_of_fasteners(bench, group, fasteners, said.members),
            "because": because,
            **{name: typed(quantity) for name, quantity in amounts.quantities.items()},
            **why(taking),
        }
    )
    answered = list(amounts.answered)
    question = first_open(bench, _about_loosening(bench, group, body), group.id, "", taking, answered)
    if question is not None:
        return question
    return work_taken(bench, body, work_words(body, bench.sheet), taking, about=group.id, answered=answered)


def loosening_amounts(family: Family) -> tuple[Asked, ...]:
    """The amounts of a loosening as a form asks for them."""
    return (
        Asked(
            name="breakaway_torque",
            label="Torque it took",
            dimension="torque",
            unit=shop_unit("torque", family),
            window=BREAKAWAY,
        ),
        Asked(
            name="length_after",
            label="Free length then",
            dimension="length",
            unit=shop_unit("length", family, ANY_LENGTH.high),
            window=ANY_LENGTH,
        ),
    )


def take_heat_cycle(bench: Bench, words: str, taking: WorkTaking, *, taken_at: str = "") -> WorkTaken:
    """The engine was run to heat and cooled again, after which groups may be tightened again."""
    check_correction(bench, HeatCycle, taking)
    body = HeatCycle.model_validate(
        {
            "words": words_wanted(words, "A heat cycle", "how the engine was heated and cooled"),
            "taken_at": moment_typed(taken_at, bench.shop, taking.now),
            **why(taking),
        }
    )
    return work_taken(bench, body, work_words(body, bench.sheet), taking)


def _about_check(bench: Bench, group: TighteningGroup, body: TighteningCheck) -> Iterator[Question]:
    lives = lives_of(bench, group)
    loose = [name for name in body.fasteners if not lives[name].records]
    if loose:
        text = (
            f"{fastener_words(group, loose)} of {group.title} not tightened, as far as is recorded. Keep it?"
        )
        yield Question(f"check-loose:{body.check}:{','.join(loose)[:40]}", text)
    if body.check == "checked" and len(bench.shop.people) > 1:
        yield from _about_own(bench, body, lives)


def _about_own(bench: Bench, body: TighteningCheck, lives: Mapping[str, Life]) -> Iterator[Question]:
    """Whoever tightened fasteners is no second person for them."""
    last = [final_record(each, 0) for each in lives.values() if each.id in body.fasteners]
    who = bench.shop.people.get(body.checked_by or "")
    if who is not None and any(held and held.body.performed_by == body.checked_by for held in last):
        text = f"{who.body.name} tightened them too: a second person's look counts. Keep it all the same?"
        yield Question(f"check-own:{body.checked_by}", text)


def _about_loosening(bench: Bench, group: TighteningGroup, body: Loosening) -> Iterator[Question]:
    lives = lives_of(bench, group)
    loose = [name for name in body.fasteners if not lives[name].records]
    if loose:
        text = (
            f"{fastener_words(group, loose)} of {group.title} not tightened, as far as is recorded. Keep it?"
        )
        yield Question(f"loose:{','.join(loose)[:40]}:{len(lives[loose[0]].cycles)}", text)
