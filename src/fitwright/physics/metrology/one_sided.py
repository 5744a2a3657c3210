"""What blades show where they bound a gap on one side only."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

import numpy as np

from fitwright.physics.metrology.conformity import Bound, probability_holds
from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.known import KnownPart
from fitwright.physics.metrology.outcomes import Outcomes
from fitwright.physics.metrology.sources import Budget
from fitwright.physics.metrology.student import student_quantile
from fitwright.quantity import FloatArray, Metre, Probability

MOST_CHOICES = 4096
"""With more choices of one edge for each place, the highest edge of each place is taken."""


@dataclass(frozen=True, slots=True)
class OneSided:
    """Combinations whose blade-read places are bounded on one side only.

    For each combination the edges of its places add up to numbers that the chain cannot pass.

    Attributes
    ----------
    part : KnownPart
        What is known from values in each combination.
    floors, ceilings : tuple of ndarray [m], shape (F, 2) and (C, 2) for each combination
        Mean and standard uncertainty of everything that the chain is at least, or at most.
    """

    part: KnownPart
    floors: tuple[FloatArray, ...]
    ceilings: tuple[FloatArray, ...]

    @classmethod
    def of(
        cls,
        part: KnownPart,
        coefficients: Sequence[Mapping[str, float]],
        edges: Mapping[str, Sequence[Edge]],
    ) -> OneSided:
        """Add up edges; `coefficients` gives the factor of each blade-read place in each combination."""
        floors, ceilings = [], []
        for row, factors in enumerate(coefficients):
            known = float(part.value[row]), float(part.standard_uncertainty[row])
            floors.append(_sums(known, factors, edges, floor=True))
            ceilings.append(_sums(known, factors, edges, floor=False))
        return cls(part, tuple(floors), tuple(ceilings))

    def outcomes(self, bounds: Sequence[Bound], *, absolute: bool) -> Outcomes:
        """Probability with which the edges show that each bound holds, or fails.

        A gap that is at least B holds a lower limit L with P(B >= L), and an upper limit U at most with
        P(B <= U). Without its sign a chain that is open on one side has no bound.
        """
        result = Outcomes.unbounded(len(self.floors), len(bounds))
        if absolute:
            return result
        for row in range(len(self.floors)):
            freedoms = float(self.part.degrees_of_freedom[row])
            for column, bound in enumerate(bounds):
                below = bound.side == "lower"
                shown = self.floors[row] if below else self.ceilings[row]
                against = self.ceilings[row] if below else self.floors[row]
                if len(shown):
                    result.holds[row, column] = _chances(bound, shown, freedoms).max()
                if len(against):
                    result.possible[row, column] = _chances(bound, against, freedoms).min()
        return result

    def interval(self, row: int, probability: Probability) -> tuple[Metre | None, Metre | None]:
        """Ends [m] beyond which one combination lies with the tail's probability at most; None: open."""
        score = student_quantile(float(self.part.degrees_of_freedom[row]), 0.5 + 0.5 * probability)
        floors, ceilings = self.floors[row], self.ceilings[row]
        low = float((floors[:, 0] - score * floors[:, 1]).max()) if len(floors) else None
        high = float((ceilings[:, 0] + score * ceilings[:, 1]).min()) if len(ceilings) else None
        return low, high

    def budget(self, row: int) -> Budget:
        """What contributes how much: the values' part, and the edge that speaks most."""
        both = [sums for sums in (self.floors[row], self.ceilings[row]) if len(sums)]
        known = float(self.part.standard_uncertainty[row])
        if not both:
            return self.part.budget(row)
        u = float(both[0][int(np.argmax(both[0][:, 0]))][1])
        blades = float(np.sqrt(max(u * u - known * known, 0.0)))
        rows = (*self.part.budget(row), ("blades", blades, np.inf))
        return tuple(sorted(rows, key=lambda one: (-one[1], one[0])))

    @property
    def method(self) -> str:
        """How the probabilities were found."""
        return "blades one side"

    @property
    def cautions(self) -> tuple[str, ...]:
        """None: the closed form holds as it stands."""
        return ()


def _chances(bound: Bound, sums: FloatArray, degrees_of_freedom: float) -> FloatArray:
    return probability_holds(bound.side, bound.limit, sums[:, 0], sums[:, 1], degrees_of_freedom)


def _sums(
    known: tuple[Metre, Metre],
    factors: Mapping[str, float],
    edges: Mapping[str, Sequence[Edge]],
    *,
    floor: bool,
) -> FloatArray:
    """Mean and standard uncertainty of each sum of one edge for each place that bounds the chain."""
    choices = [
        [(factor, edge) for edge in edges[place] if edge.is_lower is ((factor > 0.0) is floor)]
        for place, factor in sorted(factors.items())
    ]
    if prod(map(len, choices)) > MOST_CHOICES:
        choices = [[max(some, key=lambda one: _height(*one, floor=floor))] for some in choices]
    return np.array([_sum(known, chosen) for chosen in product(*choices)]).reshape(-1, 2)


def _height(factor: float, edge: Edge, *, floor: bool) -> Metre:
    return factor * edge.mean if floor else -factor * edge.mean


def _sum(known: tuple[Metre, Metre], chosen: Sequence[tuple[float, Edge]]) -> tuple[Metre, Metre]:
    loads: defaultdict[str, float] = defaultdict(float)
    value, variance = known[0], known[1] ** 2
    for factor, edge in chosen:
        value += factor * edge.mean
        for key, u in edge.unknowns.items():
            loads[key] += factor * u
    return value, float(np.sqrt(variance + sum(load * load for load in loads.values())))
