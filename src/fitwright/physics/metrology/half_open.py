"""Combinations with some gaps bounded on both sides and others on one side only."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.physics.metrology.conformity import Bound
from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.given import WIDENED, Given
from fitwright.physics.metrology.joint import Joint
from fitwright.physics.metrology.mixture import Mixture
from fitwright.physics.metrology.outcomes import Outcomes
from fitwright.physics.metrology.sources import Budget
from fitwright.quantity import Metre, Probability

Factors = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class HalfOpen:
    """Combinations that are at least something, or at most something, or neither.

    Attributes
    ----------
    given : Given
        How the combinations depend on the gaps that are bounded on both sides.
    floor, ceiling : tuple of (Mixture or None)
        What each combination is at least, or at most; None where nothing says so.
    """

    given: Given
    floor: tuple[Mixture | None, ...]
    ceiling: tuple[Mixture | None, ...]

    @classmethod
    def of(cls, given: Given, edges: Mapping[str, Sequence[Edge]], open_ended: Sequence[Factors]) -> HalfOpen:
        """Replace each open gap by its best edge; `open_ended` gives their factors for each combination."""
        further = [
            edge for place in sorted({p for some in open_ended for p in some}) for edge in edges[place]
        ]
        joint = Joint.of(given, edges, further)
        mean, spread = given.mean(joint.gaps), given.residual.standard_uncertainty()

        def mixture(row: int, *, floor: bool) -> Mixture | None:
            edge_sum = np.zeros(len(joint.weight))
            for place, factor in sorted(open_ended[row].items()):
                some = [edge for edge in edges[place] if edge.is_lower is ((factor > 0.0) is floor)]
                if not some:
                    return None
                best = max(some, key=lambda edge: edge.mean if edge.is_lower else -edge.mean)
                edge_sum += factor * joint.edge(best)
            reach = np.abs(given.slope[row : row + 1, -1:]) * joint.reach
            centre = (mean[row] + edge_sum)[np.newaxis]
            return Mixture(centre, joint.weight, spread[row : row + 1], reach)

        rows = range(len(open_ended))
        return cls(
            given,
            floor=tuple(mixture(row, floor=True) for row in rows),
            ceiling=tuple(mixture(row, floor=False) for row in rows),
        )

    def outcomes(self, bounds: Sequence[Bound], *, absolute: bool) -> Outcomes:
        """Probability with which each bound is shown to hold, or left possible."""
        result = Outcomes.unbounded(len(self.floor), len(bounds))
        if absolute:
            return result
        for row, (floor, ceiling) in enumerate(zip(self.floor, self.ceiling, strict=True)):
            for column, bound in enumerate(bounds):
                shown, against = (floor, ceiling) if bound.side == "lower" else (ceiling, floor)
                if shown is not None:
                    result.holds[row, column] = shown.probability(bound, absolute=False)[0]
                if against is not None:
                    result.possible[row, column] = against.probability(bound, absolute=False)[0]
        return result

    def interval(self, row: int, probability: Probability) -> tuple[Metre | None, Metre | None]:
        """Ends [m] beyond which one combination lies with the tail's probability at most; None: open."""
        floor, ceiling = self.floor[row], self.ceiling[row]
        low = floor.interval(0, probability)[0] if floor is not None else None
        high = ceiling.interval(0, probability)[1] if ceiling is not None else None
        return low, high

    def budget(self, row: int) -> Budget:
        """What contributes how much apart from the blades."""
        return self.given.residual.budget(row)

    @property
    def method(self) -> str:
        """How the probabilities were found."""
        return "blades one side"

    @property
    def cautions(self) -> tuple[str, ...]:
        """Where values were widened."""
        return (WIDENED,) if self.given.widened else ()
