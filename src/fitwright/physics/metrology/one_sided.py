"""What blades show where they bound a gap on one side only."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import hypot, prod

import numpy as np

from fitwright.physics.metrology.conformity import Bound, probability_holds
from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.known import KnownPart
from fitwright.physics.metrology.outcomes import Outcomes
from fitwright.physics.metrology.sources import Budget
from fitwright.physics.metrology.student import student_quantile
from fitwright.physics.metrology.welch import effective_degrees_of_freedom
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
    floors, ceilings : tuple of ndarray, shape (F, 3) and (C, 3) for each combination
        Mean [m], standard uncertainty [m] and degrees of freedom of everything that the chain is at least,
        or at most.
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
            floors.append(_sums(part, row, edge_choices(factors, edges, floor=True)))
            ceilings.append(_sums(part, row, edge_choices(factors, edges, floor=False)))
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
            for column, bound in enumerate(bounds):
                below = bound.side == "lower"
                shown = self.floors[row] if below else self.ceilings[row]
                against = self.ceilings[row] if below else self.floors[row]
                if len(shown):
                    result.holds[row, column] = _chances(bound, shown).max()
                if len(against):
                    result.possible[row, column] = _chances(bound, against).min()
        return result

    def interval(self, row: int, probability: Probability) -> tuple[Metre | None, Metre | None]:
        """Ends [m] beyond which one combination lies with the tail's probability at most; None: open."""
        share = 0.5 + 0.5 * probability
        floors, ceilings = self.floors[row].tolist(), self.ceilings[row].tolist()
        low = max((x - student_quantile(nu, share) * u for x, u, nu in floors), default=None)
        high = min((x + student_quantile(nu, share) * u for x, u, nu in ceilings), default=None)
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
    def agrees(self) -> bool:
        """Nothing here can disagree."""
        return True

    @property
    def method(self) -> str:
        """How the probabilities were found."""
        return "blades one side"

    @property
    def cautions(self) -> tuple[str, ...]:
        """None: the closed form holds as it stands."""
        return ()


def edge_choices(
    factors: Mapping[str, float],
    edges: Mapping[str, Sequence[Edge]],
    *,
    floor: bool,
    most: int = MOST_CHOICES,
) -> list[tuple[tuple[float, Edge], ...]]:
    """List every choice of one edge for each place that bounds a chain from below (or above).

    Parameters
    ----------
    factors : mapping of str to float
        Factor of each place in the chain.
    edges : mapping of str to sequence of Edge
        Edges of each of those places.
    floor : bool
        True: what the chain is at least; False: what it is at most.
    most : int
        With more choices than this only the edge that bounds most is taken at each place.

    Returns
    -------
    list of tuple of (float, Edge)
        Factor and edge for each place, in order of place; empty where some place leaves the chain open.

    References
    ----------
    [jcgm106_2012] 7.2 (each bound that is shown has its own probability of conformity)
    """
    choices = [
        [(factor, edge) for edge in edges[place] if edge.is_lower is ((factor > 0.0) is floor)]
        for place, factor in sorted(factors.items())
    ]
    if prod(map(len, choices)) > most:
        choices = [[max(some, key=lambda one: _height(*one, floor=floor))] for some in choices]
    return list(product(*choices))


def _height(factor: float, edge: Edge, *, floor: bool) -> Metre:
    return factor * edge.mean if floor else -factor * edge.mean


def _chances(bound: Bound, sums: FloatArray) -> FloatArray:
    return probability_holds(bound.side, bound.limit, sums[:, 0], sums[:, 1], sums[:, 2])


def _sums(part: KnownPart, row: int, choices: Sequence[Sequence[tuple[float, Edge]]]) -> FloatArray:
    """Mean, standard uncertainty and degrees of freedom of the known part with each choice of edges."""
    known = float(part.standard_uncertainty[row])
    edge_sums = np.array([_edge_sum(chosen) for chosen in choices]).reshape(-1, 2)
    # Blades are taken as known, so they dilute what the values' degrees of freedom cost.
    parts = np.column_stack((np.full(len(edge_sums), known), edge_sums[:, 1]))
    freedoms = effective_degrees_of_freedom(parts, [float(part.degrees_of_freedom[row]), np.inf])
    return np.column_stack(
        (float(part.value[row]) + edge_sums[:, 0], np.hypot(known, edge_sums[:, 1]), freedoms)
    )


def _edge_sum(chosen: Sequence[tuple[float, Edge]]) -> tuple[Metre, Metre]:
    loads: defaultdict[str, float] = defaultdict(float)
    for factor, edge in chosen:
        for key, u in edge.unknowns.items():
            loads[key] += factor * u
    return sum(factor * edge.mean for factor, edge in chosen), hypot(*loads.values())
