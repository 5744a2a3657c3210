"""One reading taken: text and place in, an entry out, or first a question.

A question is asked once: the caller passes its key back with the answer, and the answer is kept as
an entry of its own beside the reading.
"""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field

from fitwright.assess.subjects import subjects_of
from fitwright.bench.context import Bench, near
from fitwright.bench.errors import UnknownBladeError
from fitwright.model.dimension import Dimension, Place
from fitwright.model.limit import SourceKind
from fitwright.model.slips import Question, Window, question_for, range_question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import (
    BladeObservation,
    Origin,
    QuestionAnswered,
    Reading,
    Sitting,
    Typed,
    ValueObservation,
)
from fitwright.units import PARSER_VERSION, Quantity, parse_quantity
from fitwright.units.senses import DIMENSION_OF
from fitwright.units.wording import SlipWording

BLADE_ANSWERS = ("goes", "goes freely", "drags", "does not go")


@dataclass(frozen=True, slots=True)
class Taking:
    """Who takes a reading, how, and under which id: what does not depend on the value."""

    person: str | None = None
    device: str | None = None
    sitting: str | None = None
    instrument: str | None = None
    setting: str | None = None
    unit: str | None = None
    origin: Origin = "bench"
    taken_at: str | None = None
    note: str | None = None
    part_temperature: float | None = None
    entry_id: str | None = None
    answers: Mapping[str, str] = field(default_factory=dict)
    supersedes: str | None = None
    reason: str | None = None


@dataclass(frozen=True, slots=True)
class Taken:
    """The entries that a reading makes: the reading, and the answer to a question it raised."""

    entries: tuple[NewEntry, ...]
    reading: NewEntry
    quantity: Quantity | None = None


def typed(quantity: Quantity) -> Typed:
    """An amount as the record keeps it."""
    return Typed(
        typed=quantity.typed,
        unit=quantity.unit,
        decimals=quantity.decimals,
        si=quantity.si,
        parser=PARSER_VERSION,
    )


def take_value(
    bench: Bench, dimension_id: str, place_name: str | None, text: str, taking: Taking
) -> Taken | Question:
    """A value typed for a place: the entries to append, or the question to ask first."""
    dimension = bench.dimension(dimension_id)
    place = bench.place(dimension, place_name)
    sitting = bench.sitting(taking.sitting)
    instrument = bench.instrument(dimension, sitting, taking.instrument)
    quantity = parse_quantity(
        text,
        default_unit=taking.unit or instrument.unit,
        dimension=DIMENSION_OF[dimension.sense],
    )
    question = _question(bench, dimension, quantity)
    if question is None and not instrument.comparison:
        question = range_question(
            quantity.si,
            low=instrument.range_low,
            high=instrument.range_high,
            wording=SlipWording(quantity),
        )
    if question is not None and question.key not in taking.answers:
        return question
    observation = ValueObservation(
        value=typed(quantity),
        instrument=instrument.code,
        setting=taking.setting or (sitting.settings.get(instrument.code) if sitting else None),
    )
    reading = _reading(bench, dimension, place, observation, sitting, taking)
    return Taken(_with_answer(bench, reading, question, dimension, quantity, taking), reading, quantity)


def take_blade(
    bench: Bench, dimension_id: str, place_name: str | None, blades: str, answer: str, taking: Taking
) -> Taken:
    """A blade, a stack (`F2:0.06+F2:0.02`) or a plug tried at a place."""
    dimension = bench.dimension(dimension_id)
    place = bench.place(dimension, place_name)
    names = tuple(_blade_name(bench, name.strip()) for name in blades.split("+"))
    observation = BladeObservation.model_validate({"blades": names, "answer": answer})
    sitting = bench.sitting(taking.sitting)
    reading = _reading(bench, dimension, place, observation, sitting, taking)
    return Taken((reading,), reading)


def _blade_name(bench: Bench, name: str) -> str:
    if bench.shop.blade(name) is not None:
        return name
    matches = [known for known in bench.shop.blades if known.split(":", 1)[-1] == name]
    if len(matches) == 1:
        return matches[0]
    raise UnknownBladeError(name, matches or near(name, bench.shop.blades))


def _question(bench: Bench, dimension: Dimension, quantity: Quantity) -> Question | None:
    lower, upper = _limits(bench, dimension)
    window = None
    if dimension.plausible is not None:
        window = Window(dimension.plausible[0].si, dimension.plausible[1].si)
    return question_for(
        quantity.si,
        wording=SlipWording(quantity),
        dimension=quantity.dimension,
        lower=lower,
        upper=upper,
        nominal=dimension.nominal.si if dimension.nominal is not None else None,
        window=window,
    )


def _limits(bench: Bench, dimension: Dimension) -> tuple[float | None, float | None]:
    """The limits of a dimension; for a gap that is read directly, those of its fit."""
    limits = dimension.limits
    if not limits:
        for subject in subjects_of(bench.sheet).values():
            chains = [route.chain for route in subject.routes]
            if any(len(chain) == 1 and chain[0].dimension == dimension.id for chain in chains):
                limits = subject.limits
                break
    sources = bench.sheet.sources
    ranked = sorted(limits, key=lambda each: sources[each.source].kind is SourceKind.RULE_OF_THUMB)
    for limit in ranked:
        lower = limit.lower.si if limit.lower is not None else None
        upper = limit.upper.si if limit.upper is not None else None
        return lower, upper
    return None, None


def _reading(
    bench: Bench,
    dimension: Dimension,
    place: Place,
    observation: ValueObservation | BladeObservation,
    sitting: Sitting | None,
    taking: Taking,
) -> NewEntry:
    body = Reading(
        dimension=dimension.id,
        feature=dimension.feature,
        place=place.id,
        members=bench.members(dimension),
        observation=observation,
        sitting=sitting.code if sitting is not None else None,
        condition=dimension.condition,
        part_temperature=taking.part_temperature,
        measured_by=sitting.measured_by if sitting is not None else taking.person,
        typed_by=taking.person,
        taken_at=taking.taken_at,
        origin=taking.origin,
        note=taking.note,
        supersedes=taking.supersedes,
        reason=taking.reason,
    )
    return NewEntry(
        id=taking.entry_id or uuid.uuid4().hex,
        build=bench.build.build,
        kind=Reading.kind,
        body=body.model_dump(mode="json"),
        person=taking.person,
        device=taking.device,
    )


def _with_answer(
    bench: Bench,
    reading: NewEntry,
    question: Question | None,
    dimension: Dimension,
    quantity: Quantity,
    taking: Taking,
) -> tuple[NewEntry, ...]:
    if question is None:
        return (reading,)
    body = QuestionAnswered(
        question=question.key,
        text=question.text,
        answer=taking.answers[question.key],
        dimension=dimension.id,
        typed=quantity.typed,
        entry=reading.id,
    )
    answer = NewEntry(
        id=uuid.uuid5(uuid.UUID(hex=reading.id), question.key).hex,
        build=bench.build.build,
        kind=QuestionAnswered.kind,
        body=body.model_dump(mode="json"),
        person=taking.person,
        device=taking.device,
    )
    return (reading, answer)
