"""Amounts typed into one form, each with where it is expected: read, and asked about where mistyped."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from fitwright.bench.asking import Answered, Settled, settled
from fitwright.bench.errors import CannotEnterError
from fitwright.model.slips import FAR, Question, Window, question_for, range_question, zero_question
from fitwright.records.kinds import Instrument
from fitwright.units import Quantity, parse_quantity
from fitwright.units.wording import SlipWording


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """An amount that is asked for.

    `unit` is that of a number typed without one; guesses near the `usual` value [SI] come first. `gauge`
    read it: what it cannot show is asked about. With a `zero_limit` [SI] the amount is a gauge's zero,
    whose sign is asked for beyond the limit. With `lower` and `upper` [SI], slips by so little that the
    window cannot show them are asked about too (lbf ft for N m). `far` says that a value outside the
    window is asked about even where no slip explains it.
    """

    name: str
    label: str
    dimension: str
    unit: str
    window: Window
    usual: float | None = None
    needed: bool = False
    gauge: Instrument | None = None
    zero_limit: float | None = None
    lower: float | None = None
    upper: float | None = None
    far: bool = True

    def questions(self, quantity: Quantity) -> Iterator[Question]:
        """What is asked about an amount; keys and texts say which amount it is about."""
        for question in self._questions(quantity):
            yield replace(question, key=f"{self.name}:{question.key}", text=f"{self.label}: {question.text}")

    def _questions(self, quantity: Quantity) -> Iterator[Question]:
        wording = SlipWording(quantity)
        if self.zero_limit is not None:
            asked = zero_question(quantity.si, limit=self.zero_limit, wording=wording)
            # Either sign is an answer to it: neither is asked about again.
            if asked is not None:
                yield replace(asked, key=f"zero:{abs(quantity.si):.9g}")
            return
        slip = question_for(
            quantity.si,
            wording=wording,
            dimension=self.dimension,
            lower=self.lower,
            upper=self.upper,
            nominal=self.usual,
            window=self.window,
        )
        if slip is not None and (self.far or not slip.key.startswith(FAR)):
            yield slip
        if self.gauge is not None:
            low, high = self.gauge.range_low, self.gauge.range_high
            outside = range_question(quantity.si, low=low, high=high, wording=wording)
            if outside is not None:
                yield outside


@dataclass(frozen=True, slots=True)
class Amounts:
    """The amounts of a form by name, without those left empty, and the answers that they took."""

    quantities: Mapping[str, Quantity]
    answered: tuple[Answered, ...]


def read_amounts(
    asked: Iterable[Asked], texts: Mapping[str, str], answers: Mapping[str, str]
) -> Amounts | Question:
    """The amounts that are meant, once all questions about them are answered; else the first open one.

    Raises
    ------
    CannotEnterError
        If one that is needed was left empty.
    QuantityError
        If a text is no such amount.
    """
    every = list(asked)
    read = {each.name: quantity for each in every if (quantity := _read(each, texts)) is not None}
    found: dict[str, Settled] = {}
    for each in every:
        if each.name in read:
            came = settled(read[each.name], each.questions, answers)
            if isinstance(came, Question):
                return came
            found[each.name] = came
    return Amounts(
        {name: each.quantity for name, each in found.items()},
        tuple(answered for each in found.values() for answered in each.answered),
    )


def _read(asked: Asked, texts: Mapping[str, str]) -> Quantity | None:
    text = texts.get(asked.name, "").strip()
    if text:
        return parse_quantity(text, default_unit=asked.unit, dimension=asked.dimension)
    if asked.needed:
        raise CannotEnterError(f"{asked.label} is missing", f"type it, in {asked.unit} or with its unit")
    return None
