"""Combinations whose blade-read gaps are bounded on both sides, by blades or by values."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.physics.metrology.conformity import Bound
from fitwright.physics.metrology.edges import Edge
from fitwright.physics.metrology.given import WIDENED, Given
from fitwright.physics.metrology.joint import BARELY, Joint
from fitwright.physics.metrology.likelihood import MOST_SHARED, Pieces
from fitwright.physics.metrology.mixture import Mixture
from fitwright.physics.metrology.outcomes import Outcomes
from fitwright.physics.metrology.posterior import STEPS, Posterior
from fitwright.physics.metrology.sources import Budget
from fitwright.quantity import FloatArray, Metre, Probability

FEW = 4
"""Up to this many combinations the quadrature breaks at the limits of each, else evenly across them all."""

MOST_BREAKS = 60
"""Most breaks across the limits of many combinations."""

LATTICE_ERROR: Probability = 0.002
"""Difference between the two halves of the lattice from which on a caution is given."""


@dataclass(frozen=True, slots=True)
class Truncated:
    """Combinations given the gaps at their blade-read places.

    Attributes
    ----------
    given : Given
        How the combinations depend on those gaps.
    mixture : Mixture
        The combinations over the gaps that the answers leave.
    by_lattice : bool
        Whether the gaps come from the lattice rule.
    raises : ndarray, shape (N,)
        Above zero where every answer at the only place, which has values, can only raise a combination,
        below zero where it can only lower it; else zero.
    agrees : bool
        Whether the answers leave enough for a probability.
    """

    given: Given
    mixture: Mixture
    by_lattice: bool
    raises: FloatArray
    agrees: bool = True

    @classmethod
    def of(cls, given: Given, edges: Mapping[str, Sequence[Edge]], bounds: Sequence[Bound]) -> Truncated:
        """Integrate one place by quadrature, several (or answers that share much) by the lattice rule."""
        spread = given.residual.standard_uncertainty()
        first = edges[given.places[0]]
        if len(given.places) > 1 or Pieces.of(first).shared > MOST_SHARED:
            joint = Joint.of(given, edges)
            reach = np.abs(given.slope[:, -1:]) * joint.reach
            mixture = Mixture(given.mean(joint.gaps), joint.weight, spread, reach)
            return cls(given, mixture, by_lattice=True, raises=np.zeros(len(spread)), agrees=joint.agrees)
        posterior = Posterior.of(first, given.prior(), _breaks(given, bounds))
        mean = given.mean(posterior.gap[:, np.newaxis])
        mixture = Mixture(mean, posterior.weight, spread)
        return cls(given, mixture, by_lattice=False, raises=_push(given, first) * given.slope[:, 0])

    def outcomes(self, bounds: Sequence[Bound], *, absolute: bool) -> Outcomes:
        """Probability of each bound at each combination.

        Where few degrees of freedom widened the values, a blade that says little would seem to do harm.
        Answers that can only raise a size never lower the chance of its lower limit below that from values
        alone, whatever their distribution.
        """
        result = self.mixture.outcomes(bounds, absolute=absolute)
        if self.given.widened and not absolute:
            alone = self.given.alone.outcomes(bounds, absolute=False).holds
            helped = [self.raises if bound.side == "lower" else -self.raises for bound in bounds]
            floor = np.where(np.reshape(helped, (len(bounds), -1)).T > 0.0, alone, 0.0)
            result.holds[:] = result.possible[:] = np.maximum(result.holds, floor)
        return result

    def interval(self, row: int, probability: Probability) -> tuple[Metre | None, Metre | None]:
        """Coverage interval [m] of one combination."""
        return self.mixture.interval(row, probability)

    def budget(self, row: int) -> Budget:
        """What contributes how much: what is left of the values, and the gaps that blades cut."""
        cut = float(np.sqrt(self.mixture.node_variance()[row]))
        rows = (*self.given.residual.budget(row), (f"blades at {', '.join(self.given.places)}", cut, np.inf))
        return tuple(sorted(rows, key=lambda one: (-one[1], one[0])))

    @property
    def method(self) -> str:
        """How the probabilities were found."""
        return "truncated"

    @property
    def cautions(self) -> tuple[str, ...]:
        """Where values were widened, and how far the lattice's halves differ if that matters."""
        if not self.agrees:
            return (BARELY.format(places=", ".join(self.given.places)),)
        said = (WIDENED,) if self.given.widened else ()
        error = self._lattice_error() if self.by_lattice else 0.0
        if error <= LATTICE_ERROR:
            return said
        return (*said, f"probability known to about {error:.3f} only: many unknowns are shared")

    def _lattice_error(self) -> Probability:
        half = len(self.mixture.weight) // 2
        middle = float(self.mixture.value()[0])
        halves = [
            Mixture(
                self.mixture.mean[:1, part],
                weight / weight.sum(),
                self.mixture.spread[:1],
                self.mixture.reach[:1, part],
            )
            for part in (slice(None, half), slice(half, None))
            for weight in [self.mixture.weight[part]]
        ]
        return float(abs(halves[0].at_most(middle)[0] - halves[1].at_most(middle)[0]))


def _push(given: Given, edges: Sequence[Edge]) -> float:
    """1 where every edge pushes a gap with values up, -1 where down, else 0."""
    sides = {edge.is_lower for edge in edges}
    return 0.0 if len(given.prior_value) != 1 or len(sides) != 1 else 1.0 if sides == {True} else -1.0


def _breaks(given: Given, bounds: Sequence[Bound]) -> list[Metre]:
    """Gaps at which some combination passes a limit, and those around them."""
    slope = given.slope[:, 0]
    if not bounds or not slope.all():
        return []
    origin = float(given.prior_value[0]) if len(given.prior_value) else 0.0
    width = np.abs(given.residual.standard_uncertainty() / slope)
    found: list[Metre] = []
    for limit in sorted({sign * bound.limit for bound in bounds for sign in (1.0, -1.0)}):
        crossing = origin + (limit - given.offset) / slope
        if len(crossing) <= FEW:
            steps = np.array([sign * step for step in STEPS for sign in (-1.0, 1.0)])
            found.extend((crossing[:, np.newaxis] + steps * width[:, np.newaxis]).ravel().tolist())
        else:
            low, high = (crossing - STEPS[-1] * width).min(), (crossing + STEPS[-1] * width).max()
            count = min(
                int((high - low) / max(2.0 * width.min(), (high - low) / MOST_BREAKS)) + 2, MOST_BREAKS
            )
            found.extend(np.linspace(low, high, count).tolist())
    return found
