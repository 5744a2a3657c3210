"""One reading taken: text and place in, an entry out, or first a question.

A question is asked once: the caller passes its key back with the answer, and the answer is kept as
an entry of its own beside the reading.
"""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from dataclasses import dataclass, field

from fitwright.bench.asking import Answered, answer_entry, settle
from fitwright.bench.context import Bench, near
from fitwright.bench.errors import UnknownBladeError, WrongKindError
from fitwright.model.dimension import Dimension, Place
from fitwright.model.instruments import SIZE_GAUGES
from fitwright.model.slips import Question
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import (
    BladeObservation,
    Origin,
    Reading,
    Sitting,
    Typed,
    ValueObservation,
)
from fitwright.units import PARSER_VERSION, Quantity, parse_quantity
from fitwright.units.senses import DIMENSION_OF

BLADE_ANSWERS = ("goes", "goes freely", "drags", "does not go")


@dataclass(frozen=True, slots=True)
class Taking:
    """Who takes a reading, how, and under which id: what does not depend on the value.

    Without a `sitting` the last one of the build counts, unless `outside_sittings`. `members` says
    through which parts it was taken, where these are not the ones in place ({"": part} for a part
    on its own). `page_photo` is the digest of a photo of the page it was written on. `blade_sets` are
    looked through first for a blade named by its marking only.
    """

    person: str | None = None
    device: str | None = None
    sitting: str | None = None
    outside_sittings: bool = False
    instrument: str | None = None
    setting: str | None = None
    unit: str | None = None
    origin: Origin = "bench"
    measured_by: str | None = None
    taken_at: str | None = None
    page_photo: str | None = None
    note: str | None = None
    part_temperature: float | None = None
    entry_id: str | None = None
    members: Mapping[str, str] | None = None
    blade_sets: tuple[str, ...] = ()
    during_rework: bool = False
    answers: Mapping[str, str] = field(default_factory=dict)
    supersedes: str | None = None
    reason: str | None = None


@dataclass(frozen=True, slots=True)
class Taken:
    """The entries that a reading makes: the reading, and the answers to questions it raised."""

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
    sitting = _sitting(bench, taking)
    instrument = bench.instrument(dimension, sitting, taking.instrument)
    quantity = parse_quantity(
        text,
        default_unit=taking.unit or instrument.unit,
        dimension=DIMENSION_OF[dimension.sense],
    )
    settled = settle(bench, dimension, instrument, quantity, taking.answers)
    if isinstance(settled, Question):
        return settled
    observation = ValueObservation(
        value=typed(settled.quantity),
        instrument=instrument.code,
        setting=taking.setting or (sitting.settings.get(instrument.code) if sitting else None),
    )
    reading = _reading(bench, dimension, place, observation, sitting, taking)
    answers = [_answer(bench, each, reading, dimension, taking) for each in settled.answered]
    return Taken((reading, *answers), reading, settled.quantity)


def take_blade(
    bench: Bench, dimension_id: str, place_name: str | None, blades: str, answer: str, taking: Taking
) -> Taken:
    """A blade, a stack (`F2:0.06+F2:0.02`) or a plug tried at a place."""
    dimension = bench.dimension(dimension_id)
    place = bench.place(dimension, place_name)
    sitting = _sitting(bench, taking)
    sets = taking.blade_sets or _sets_of(bench, sitting)
    names = tuple(blade_name(bench, name.strip(), sets) for name in blades.split("+"))
    _check_it_is_a_gap(bench, dimension, names)
    observation = BladeObservation.model_validate({"blades": names, "answer": answer})
    reading = _reading(bench, dimension, place, observation, sitting, taking)
    return Taken((reading,), reading)


def _check_it_is_a_gap(bench: Bench, dimension: Dimension, blades: tuple[str, ...]) -> None:
    """Refuse a feeler blade where the sheet has a size taken; a plug goes into any bore."""
    sets = [bench.shop.blade_sets.get(name.partition(":")[0]) for name in blades]
    feelers = any(held is not None and not held.body.plugs for held in sets)
    kinds = dimension.instruments
    if feelers and kinds and SIZE_GAUGES.issuperset(kinds):
        raise WrongKindError("A feeler blade", dimension.id, kinds)


def blade_name(bench: Bench, name: str, sets: tuple[str, ...] = ()) -> str:
    """A blade as the shelf names it (`F2:0.06`); its marking is enough where one set has it.

    Raises
    ------
    UnknownBladeError
        If no set has it, or several have and none of them comes first.
    """
    for wanted in dict.fromkeys((name, name.replace(",", "."))):
        if bench.shop.blade(wanted) is not None:
            return wanted
        matches = [known for known in bench.shop.blades if known.split(":", 1)[-1] == wanted]
        first = [known for known in matches if known.split(":", 1)[0] in sets]
        if len(first) == 1 or len(matches) == 1:
            return (first or matches)[0]
        if matches:
            raise UnknownBladeError(name, matches)
    raise UnknownBladeError(name, near(name, bench.shop.blades))


def _sets_of(bench: Bench, sitting: Sitting | None) -> tuple[str, ...]:
    named = sitting.instruments.values() if sitting is not None else ()
    return tuple(code for code in named if code in bench.shop.blade_sets)


def _sitting(bench: Bench, taking: Taking) -> Sitting | None:
    return None if taking.outside_sittings else bench.sitting(taking.sitting)


def _reading(
    bench: Bench,
    dimension: Dimension,
    place: Place,
    observation: ValueObservation | BladeObservation,
    sitting: Sitting | None,
    taking: Taking,
) -> NewEntry:
    members = (
        dict(taking.members)
        if taking.members is not None
        else bench.members(dimension, during_rework=taking.during_rework)
    )
    measured_by = taking.measured_by or (sitting.measured_by if sitting is not None else taking.person)
    body = Reading(
        dimension=None if "" in members else dimension.id,
        feature=dimension.feature,
        place=place.id,
        members=members,
        observation=observation,
        sitting=sitting.code if sitting is not None else None,
        condition=dimension.condition,
        part_temperature=taking.part_temperature,
        measured_by=measured_by,
        typed_by=taking.person,
        taken_at=taking.taken_at,
        origin=taking.origin,
        page_photo=taking.page_photo,
        during_rework=taking.during_rework,
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


def _answer(
    bench: Bench, answered: Answered, reading: NewEntry, dimension: Dimension, taking: Taking
) -> NewEntry:
    return answer_entry(
        answered,
        build=bench.build.build,
        entry_id=reading.id,
        dimension=dimension.id,
        person=taking.person,
        device=taking.device,
    )
