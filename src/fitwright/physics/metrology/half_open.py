"""Combinations with some gaps bounded on both sides and others on one side only."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.physics.metrology.conformity import Bound
from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.given import WIDENED, Given
from fitwright.physics.metrology.joint import BARELY, Joint
from fitwright.physics.metrology.mixture import Mixture
from fitwright.physics.metrology.one_sided import edge_choices
from fitwright.physics.metrology.outcomes import Outcomes
from fitwright.physics.metrology.sources import Budget
from fitwright.quantity import Metre, Probability

Factors = Mapping[str, float]

MOST_CHOICES = 64
"""With more choices of one edge for each open gap, the edge that bounds most is taken at each."""


@dataclass(frozen=True, slots=True)
class HalfOpen:
    """Combinations that are at least something, or at most something, or neither.

    Attributes
    ----------
    given : Given
        How the combinations depend on the gaps that are bounded on both sides.
    floors, ceilings : tuple of tuple of Mixture
        Everything that each combination is at least, or at most; none where nothing says so.
    agrees : bool
        Whether the answers leave enough for a probability.
    """

    given: Given
    floors: tuple[tuple[Mixture, ...], ...]
    ceilings: tuple[tuple[Mixture, ...], ...]
    agrees: bool

    @classmethod
    def of(cls, given: Given, edges: Mapping[str, Sequence[Edge]], open_ended: Sequence[Factors]) -> HalfOpen:
        """Put each of its edges in place of an open gap; `open_ended` gives factors for each combination."""
        further = [
            edge for place in sorted({p for some in open_ended for p in some}) for edge in edges[place]
        ]
        joint = Joint.of(given, edges, further)
        mean, spread = given.mean(joint.gaps), given.residual.standard_uncertainty()

        def mixtures(row: int, *, floor: bool) -> tuple[Mixture, ...]:
            reach = np.abs(given.slope[row : row + 1, -1:]) * joint.reach
            return tuple(
                Mixture(
                    (mean[row] + sum(factor * joint.edge(edge) for factor, edge in chosen))[np.newaxis],
                    joint.weight,
                    spread[row : row + 1],
                    reach,
                )
                for chosen in edge_choices(open_ended[row], edges, floor=floor, most=MOST_CHOICES)
            )

        rows = range(len(open_ended))
        return cls(
            given,
            floors=tuple(mixtures(row, floor=True) for row in rows),
            ceilings=tuple(mixtures(row, floor=False) for row in rows),
            agrees=joint.agrees,
        )

    def outcomes(self, bounds: Sequence[Bound], *, absolute: bool) -> Outcomes:
        """Probability with which each bound is shown to hold, or left possible."""
        result = Outcomes.unbounded(len(self.floors), len(bounds))
        if absolute:
            return result
        for row, (floors, ceilings) in enumerate(zip(self.floors, self.ceilings, strict=True)):
            for column, bound in enumerate(bounds):
                shown, against = (floors, ceilings) if bound.side == "lower" else (ceilings, floors)
                result.holds[row, column] = max(_chances(shown, bound), default=np.nan)
                result.possible[row, column] = min(_chances(against, bound), default=1.0)
        return result

    def interval(self, row: int, probability: Probability) -> tuple[Metre | None, Metre | None]:
        """Ends [m] beyond which one combination lies with the tail's probability at most; None: open."""
        tail = 0.5 * (1.0 - probability)
        low = max((one.quantile(0, tail) for one in self.floors[row]), default=None)
        high = min((one.quantile(0, 1.0 - tail) for one in self.ceilings[row]), default=None)
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
        """Where values were widened, or the answers barely agree."""
        if not self.agrees:
            return (BARELY.format(places=", ".join(self.given.places)),)
        return (WIDENED,) if self.given.widened else ()


def _chances(mixtures: Sequence[Mixture], bound: Bound) -> list[Probability]:
    return [float(one.probability(bound, absolute=False)[0]) for one in mixtures]
