"""A chain of dimensions turned into the terms and readings that metrology judges."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import fsum
from typing import TypeVar

from fitwright.assess.evidence import Evidence
from fitwright.assess.gauges import Gauges, part_of, place_key
from fitwright.assess.repeats import weigh_repeats
from fitwright.assess.results import Reason
from fitwright.assess.stated import stated_reading
from fitwright.assess.subjects import Subject
from fitwright.model.dimension import Dimension, Judged
from fitwright.model.fit import ChainTerm
from fitwright.model.part import TemperatureCase
from fitwright.physics.metrology.combinations import Term
from fitwright.physics.metrology.readings import BladeReading, ValueReading
from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE
from fitwright.physics.metrology.unknowns import Shared, Unknown
from fitwright.records.kinds import BladeObservation
from fitwright.records.projection import ReadingRecord, StatedSizeRecord

_Reading = TypeVar("_Reading", ValueReading, BladeReading)


@dataclass(frozen=True, slots=True)
class Member:
    """One dimension of a chain with what is known of it: readings, or else a stated size.

    `doubt` says why its readings prove nothing as they stand.
    """

    coefficient: float
    dimension: Dimension
    evidence: Evidence
    values: tuple[ValueReading, ...]
    blades: tuple[BladeReading, ...]
    stated: tuple[StatedSizeRecord, ...]
    doubt: Reason | None = None

    @property
    def known(self) -> bool:
        """Whether there is anything to compute with."""
        return bool(self.values or self.blades)

    @property
    def read(self) -> bool:
        """Whether what is known was read, not only stated."""
        return bool(self.evidence.used)

    @property
    def changed(self) -> bool:
        """Whether a place has lost its readings since, and nobody has stated the size anew."""
        return self.evidence.changed and not self.stated

    @property
    def unread(self) -> tuple[str, ...]:
        """Places of the sheet without a reading, where others were read."""
        known = set(self.places)
        every = (place_key(self.dimension, place.id) for place in self.dimension.places)
        return tuple(place for place in every if place not in known) if self.read else ()

    @property
    def places(self) -> tuple[str, ...]:
        """The places of the dimension that are known, in the sheet's order."""
        known = {reading.place for reading in self.values}
        known.update(reading.place for reading in self.blades)
        every = (place_key(self.dimension, place.id) for place in self.dimension.places)
        return tuple(place for place in every if place in known)

    def mean(self) -> float | None:
        """Plain mean of the values, good enough for what grows with a size [SI]."""
        if self.values:
            return fsum(reading.value for reading in self.values) / len(self.values)
        return self.dimension.nominal.si if self.dimension.nominal is not None else None


@dataclass(frozen=True, slots=True)
class Chain:
    """The members of one route."""

    members: tuple[Member, ...]

    @property
    def missing(self) -> tuple[str, ...]:
        """Dimensions of which nothing is known."""
        return tuple(member.dimension.id for member in self.members if not member.known)

    @property
    def stated(self) -> tuple[str, ...]:
        """Dimensions known only from what somebody states."""
        return tuple(m.dimension.id for m in self.members if m.known and not m.read)

    @property
    def changed(self) -> bool:
        """Whether a member had readings that no longer speak."""
        return any(member.changed for member in self.members)

    @property
    def doubt(self) -> Reason | None:
        """Why the readings of a member prove nothing as they stand."""
        return next((member.doubt for member in self.members if member.doubt is not None), None)

    @property
    def unread(self) -> tuple[str, ...]:
        """Places that count and were not read."""
        return tuple(place for member in self.members for place in member.unread)

    @property
    def read(self) -> bool:
        """Whether any member was read at all."""
        return any(member.read for member in self.members)

    def values(self) -> tuple[ValueReading, ...]:
        """All value readings, each once."""
        return _once(reading for member in self.members for reading in member.values)

    def blades(self) -> tuple[BladeReading, ...]:
        """All blade readings, each once."""
        return _once(reading for member in self.members for reading in member.blades)

    def terms(self, judged: Judged) -> list[Term]:
        """The terms: one per dimension judged at its worst place, one per place for a mean."""
        found: list[Term] = []
        for member in self.members:
            places = member.places
            if Judged.MEAN in (judged, member.dimension.judged):
                found.extend(Term(member.coefficient / len(places), (place,)) for place in places)
            else:
                found.append(Term(member.coefficient, places))
        return found


def _once(readings: Iterable[_Reading]) -> tuple[_Reading, ...]:
    return tuple({reading.key: reading for reading in readings}.values())


def member_of(gauges: Gauges, coefficient: float, evidence: Evidence) -> Member:
    """A member of a chain from the evidence for its dimension."""
    dimension = evidence.dimension
    read, blades = _split(gauges, evidence.used, dimension)
    values, doubt = weigh_repeats(gauges.build, evidence.used, read)
    stated: tuple[StatedSizeRecord, ...] = ()
    if not evidence.used and evidence.stated:
        stated = evidence.stated
        values = tuple(reading for each in stated for reading in _stated(each, dimension))
    return Member(coefficient, dimension, evidence, values, tuple(blades), stated, doubt)


def _split(
    gauges: Gauges, records: Sequence[ReadingRecord], dimension: Dimension
) -> tuple[list[ValueReading], list[BladeReading]]:
    values: list[ValueReading] = []
    blades: list[BladeReading] = []
    for record in records:
        if isinstance(record.body.observation, BladeObservation):
            blades.append(gauges.blade_reading(record, dimension))
        else:
            values.append(gauges.value_reading(record, dimension))
    return values, blades


def _stated(stated: StatedSizeRecord, dimension: Dimension) -> list[ValueReading]:
    whole = stated.body.place == "whole" or dimension.place(stated.body.place) is None
    places = [place.id for place in dimension.places] if whole else [stated.body.place]
    return [stated_reading(stated, dimension, place) for place in places]


def lengths_of(gauges: Gauges, chain: Chain) -> dict[tuple[str, str], float]:
    """The signed lengths of a chain by (part, material): what grows into and out of it."""
    found: dict[tuple[str, str], float] = {}
    parts = gauges.sheet.parts
    for member in chain.members:
        size, part = member.mean(), part_of(gauges.sheet, member.dimension)
        if size is not None and part is not None and part in parts:
            key = (part, parts[part].material)
            found[key] = found.get(key, 0.0) + member.coefficient * size
    return found


def signed_lengths(gauges: Gauges, subject: Subject, chain: Chain) -> dict[tuple[str, str], float]:
    """The lengths that grow into (+) and out of (-) a fit, by (part, material).

    A gap that is read directly does not show what grows: the sheet says so, or nothing is estimated.
    """
    found: dict[tuple[str, str], float] = {}
    parts = gauges.sheet.parts
    for term in subject.fit.growth if subject.fit is not None else ():
        key = (term.part, parts[term.part].material)
        found[key] = found.get(key, 0.0) + term.coefficient * term.length
    if found or len(chain.members) < 2:
        return found
    return lengths_of(gauges, chain)


def unknowns_of_lengths(
    gauges: Gauges, lengths: Mapping[tuple[str, str], float], case: TemperatureCase
) -> tuple[Shared, ...]:
    """What is not known of a hot state: each part's temperature, each material's expansion.

    Parts without a temperature of their own share the case's default, and its error with it.
    """
    temperature: dict[str, float] = {}
    expansion: dict[str, float] = {}
    for (part, material_id), length in lengths.items():
        material = gauges.sheet.materials[material_id]
        key = part if part in case.parts else "parts at the default"
        rise = case.parts.get(part, case.default) - REFERENCE_TEMPERATURE
        temperature[key] = temperature.get(key, 0.0) + length * material.expansion
        expansion[material_id] = expansion.get(material_id, 0.0) + length * rise
    found = [
        Shared(Unknown(f"case {case.id}:{key}", case.standard_uncertainty), factor)
        for key, factor in temperature.items()
    ]
    found.extend(
        Shared(Unknown(f"expansion:{key}", gauges.sheet.materials[key].expansion_uncertainty), factor)
        for key, factor in expansion.items()
    )
    return tuple(found)


def chain_of(members: Mapping[str, Member], terms: Sequence[ChainTerm]) -> Chain:
    """A chain with its members' own coefficients; the same dimension twice adds up."""
    totals: dict[str, float] = {}
    for term in terms:
        totals[term.dimension] = totals.get(term.dimension, 0.0) + term.coefficient
    return Chain(
        tuple(replace(members[name], coefficient=coefficient) for name, coefficient in totals.items())
    )
