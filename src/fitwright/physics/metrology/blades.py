"""Which places blades speak of, and the judgement of every combination that they take part in."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from fitwright.physics.metrology.combinations import Combinations
from fitwright.physics.metrology.conformity import Bound
from fitwright.physics.metrology.contradiction import contradiction_at
from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.errors import InconsistentUnknownError
from fitwright.physics.metrology.estimation import Estimate
from fitwright.physics.metrology.given import Given
from fitwright.physics.metrology.half_open import HalfOpen
from fitwright.physics.metrology.known import KnownPart
from fitwright.physics.metrology.one_sided import OneSided
from fitwright.physics.metrology.outcomes import Outcomes
from fitwright.physics.metrology.readings import Blade, BladeReading, Drag, ValueReading
from fitwright.physics.metrology.result import Contradiction
from fitwright.physics.metrology.sources import Budget
from fitwright.physics.metrology.truncated import Truncated
from fitwright.quantity import Metre, Probability


class Block(Protocol):
    """Combinations that are judged in the same way."""

    def outcomes(self, bounds: Sequence[Bound], *, absolute: bool) -> Outcomes:
        """Probability of each bound at each combination."""

    def interval(self, row: int, probability: Probability) -> tuple[Metre | None, Metre | None]:
        """Coverage interval [m] of one combination; an open end is None."""

    def budget(self, row: int) -> Budget:
        """What contributes how much to one combination."""

    @property
    def agrees(self) -> bool:
        """Whether the answers leave enough for a probability; if not, they count as contradictory."""

    @property
    def method(self) -> str:
        """How the probabilities were found."""

    @property
    def cautions(self) -> tuple[str, ...]:
        """Where a model or rule is used beyond what was checked."""


@dataclass(frozen=True, slots=True)
class BladePlaces:
    """Places that blades speak of, apart from those where values have long said more.

    Attributes
    ----------
    edges : mapping of str to tuple of Edge
        Edges at each place that matter.
    contradictions : tuple of Contradiction
        Answers that cannot all be right, in order of place.
    """

    edges: Mapping[str, tuple[Edge, ...]]
    contradictions: tuple[Contradiction, ...]

    @classmethod
    def of(
        cls,
        readings: Sequence[BladeReading],
        estimated: Estimate,
        value_readings: Sequence[ValueReading],
        places: Sequence[str],
    ) -> BladePlaces:
        """Sort the readings of the places that take part, and look for contradictions at each."""
        sorted_in: defaultdict[str, list[BladeReading]] = defaultdict(list)
        for reading in readings:
            sorted_in[reading.place].append(reading)
        _require_one_thing_for_each_key(readings)
        edges: dict[str, tuple[Edge, ...]] = {}
        found: list[Contradiction] = []
        for place in sorted(sorted_in.keys() & set(places)):
            prior = _prior(estimated, place)
            every = tuple(
                edge for one in sorted(sorted_in[place], key=lambda one: one.key) for edge in Edge.of(one)
            )
            keys = tuple(sorted(one.key for one in value_readings if one.place == place))
            contradiction = contradiction_at(place, every, prior, keys)
            if contradiction is not None:
                found.append(contradiction)
            # A value without uncertainty leaves blades nothing to say.
            relevant = () if prior and prior[1] == 0.0 else Edge.relevant(sorted_in[place], prior)
            if relevant or contradiction is not None:
                edges[place] = relevant
        return cls(edges, tuple(found))

    def blocks(
        self, selected: Combinations, part: KnownPart, estimated: Estimate, bounds: Sequence[Bound]
    ) -> list[tuple[list[int], Block]]:
        """Blocks of combinations with the rows that they judge; contradicted ones belong to none."""
        if not self.edges:
            return [(list(range(len(selected.names))), part)]
        column = {place: position for position, place in enumerate(selected.places)}
        inside = [place for place in self.edges if place in column]
        factors = selected.selection[:, [column[place] for place in inside]]
        groups: defaultdict[tuple[str, ...], list[int]] = defaultdict(list)
        for row, some in enumerate(factors):
            groups[tuple(place for place, factor in zip(inside, some, strict=True) if factor)].append(row)
        at_fault = {contradiction.place for contradiction in self.contradictions}
        return [
            (
                rows,
                self._block(
                    part.take(rows), estimated, bounds, [_factors(inside, factors[row]) for row in rows]
                ),
            )
            for places, rows in groups.items()
            if not at_fault.intersection(places)
        ]

    def contradicted(self, selected: Combinations) -> list[int]:
        """Rows of the combinations that a contradiction takes part in."""
        columns = [
            selected.places.index(one.place) for one in self.contradictions if one.place in selected.places
        ]
        return [int(row) for row in np.flatnonzero(selected.selection[:, columns].any(axis=1))]

    def _block(
        self,
        part: KnownPart,
        estimated: Estimate,
        bounds: Sequence[Bound],
        factors: Sequence[Mapping[str, float]],
    ) -> Block:
        places = list(factors[0])
        if not places:
            return part
        open_ended = [place for place in places if self._is_open(place, estimated)]
        closed = [place for place in places if place not in open_ended]
        if not closed:
            return OneSided.of(part, factors, self.edges)
        given = Given.of(part, estimated, closed, factors)
        if not open_ended:
            return Truncated.of(given, self.edges, bounds)
        return HalfOpen.of(
            given, self.edges, [{place: some[place] for place in open_ended} for some in factors]
        )

    def _is_open(self, place: str, estimated: Estimate) -> bool:
        sides = {edge.is_lower for edge in self.edges[place]}
        return place not in estimated.places and len(sides) < 2


def _require_one_thing_for_each_key(readings: Sequence[BladeReading]) -> None:
    """Refuse one key that stands for two blades of different thickness, or for two hands."""
    blades: dict[str, Blade] = {}
    hands: dict[str, Drag] = {}
    for reading in readings:
        for blade in reading.blades:
            if blades.setdefault(blade.key, blade) != blade:
                raise InconsistentUnknownError(blade.key)
        if hands.setdefault(reading.drag.key, reading.drag) != reading.drag:
            raise InconsistentUnknownError(reading.drag.key)


def _prior(estimated: Estimate, place: str) -> tuple[Metre, Metre] | None:
    if place not in estimated.places:
        return None
    row = estimated.places.index(place)
    loading = estimated.loadings[row]
    return float(estimated.values[row]), float(np.sqrt(loading @ loading))


def _factors(places: Sequence[str], row: Sequence[float]) -> dict[str, float]:
    return {place: float(factor) for place, factor in zip(places, row, strict=True) if factor}
