"""What is asked about a tightening that is not as the sheet says: its consequence, before it is recorded.

Nothing is refused and nothing is silent: who keeps it has read what it does to the joint.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.assess.assembly.asked import Answer, answer_of, stretch_of
from fitwright.assess.assembly.results import Side
from fitwright.assess.assembly.torque_effect import TorqueEffect, torque_effect
from fitwright.bench.amounts import amount_words
from fitwright.bench.tightening_amounts import ANY_STRETCH, pass_of
from fitwright.model.fastener import TighteningGroup
from fitwright.model.sheet import Sheet
from fitwright.model.slips import Question
from fitwright.records.kinds import Tightening
from fitwright.units import Family, approximately, shop_unit

CONCEDE: Final = "Each such fastener reads outside until somebody grants a concession."


def effect_of(sheet: Sheet, group: TighteningGroup, body: Tightening) -> TorqueEffect:
    """What a tightening does to its joint, held against its pass."""
    return torque_effect(
        sheet,
        group,
        torque=body.torque.si if body.torque is not None else None,
        angle=body.angle.si if body.angle is not None else None,
        stretch=stretch_of(body),
        lubricant=body.lubricant,
        number=body.number,
        peak=body.read == "peak",
    )


def effect_questions(
    sheet: Sheet, group: TighteningGroup, body: Tightening, family: Family
) -> Iterator[Question]:
    """What is asked of a torque, an angle or a stretch beside the sheet's, and of another lubricant."""
    effect, answer = effect_of(sheet, group, body), answer_of(pass_of(group, body.number), body)
    if answer.side is not None:
        yield _question(body, _beside(body, answer, family), effect)
    elif effect.side is Side.OTHERWISE:
        yield _question(body, f"The sheet's values are for {group.lubricant}, not {body.lubricant}", effect)
    elif answer.doubtful is not None:
        yield Question(f"doubtful:{body.number}:{_key(body)}", f"{_capital(answer.doubtful)}. Keep it?")
    yield from _odd_lengths(body, family)


def _question(body: Tightening, said: str, effect: TorqueEffect) -> Question:
    text = " ".join((f"{said}.", *effect.words, CONCEDE, "Keep it?"))
    return Question(f"beside:{body.number}:{_key(body)}", text)


def _beside(body: Tightening, answer: Answer, family: Family) -> str:
    typed = getattr(body, "stretch" if answer.amount == "length" else answer.amount, None)
    unit = typed.unit if typed is not None else shop_unit(answer.amount, family, answer.value or 0.0)
    said = amount_words(typed) if typed is not None else approximately(answer.value or 0.0, unit)
    ends = dict.fromkeys(approximately(end, unit) for end in (answer.low, answer.high) if end is not None)
    side = answer.side.value if answer.side is not None else ""
    return f"{said} is {side} the sheet's {' to '.join(ends)}"


def _odd_lengths(body: Tightening, family: Family) -> Iterator[Question]:
    """Two lengths whose difference is no stretch that a bolt can have: a slip of digits or of units."""
    stretch = stretch_of(body)
    if body.stretch is None and stretch is not None and not ANY_STRETCH.holds(stretch):
        unit = shop_unit("length", family, stretch)
        text = f"Both lengths together make a stretch of {approximately(stretch, unit)}. Was one misread?"
        yield Question(f"stretch-of-lengths:{stretch:.9g}", text)


def _key(body: Tightening) -> str:
    amounts = (body.torque, body.angle, body.stretch, body.free_length, body.tightened_length)
    said = ":".join(f"{each.si:.9g}" for each in amounts if each is not None)
    return f"{said}:{body.lubricant}" if body.lubricant else said


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
