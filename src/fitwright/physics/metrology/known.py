"""The part of each combination that is known from values: normal (or Student) with shared unknowns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.physics.metrology.combinations import Combinations
from fitwright.physics.metrology.conformity import Bound, Side, probability_holds
from fitwright.physics.metrology.estimation import Estimate
from fitwright.physics.metrology.outcomes import Outcomes
from fitwright.physics.metrology.sources import Budget, Contributions
from fitwright.physics.metrology.student import student_quantile
from fitwright.physics.metrology.unknowns import Shared
from fitwright.quantity import FloatArray, Metre, Probability


@dataclass(frozen=True, slots=True)
class KnownPart:
    """What values, constants and extra unknowns contribute to N combinations.

    Attributes
    ----------
    value : ndarray [m], shape (N,)
        Best value of the part.
    contributions : Contributions
        What each source contributes to each combination.
    standard_uncertainty : ndarray [m], shape (N,)
        Standard uncertainty of the part.
    degrees_of_freedom : ndarray, shape (N,)
        Effective degrees of freedom of the part.
    """

    value: FloatArray
    contributions: Contributions
    standard_uncertainty: FloatArray
    degrees_of_freedom: FloatArray

    @classmethod
    def of(
        cls, selected: Combinations, estimated: Estimate, constant: Metre, extra: Sequence[Shared]
    ) -> KnownPart:
        """Sum the places that values were read at, the constant and the extra unknowns."""
        sources, added = estimated.with_extra(extra)
        position = {place: column for column, place in enumerate(selected.places)}
        known = [row for row, place in enumerate(estimated.places) if place in position]
        selection = selected.selection[:, [position[estimated.places[row]] for row in known]]
        values = np.tile(added, (len(selected.names), 1))
        values[:, : estimated.loadings.shape[1]] += selection @ estimated.loadings[known]
        contributions = Contributions(values, sources)
        return cls(
            value=selection @ estimated.values[known] + constant,
            contributions=contributions,
            standard_uncertainty=contributions.standard_uncertainty(),
            degrees_of_freedom=contributions.degrees_of_freedom(),
        )

    def take(self, rows: Sequence[int]) -> KnownPart:
        """The same for some of the combinations only."""
        chosen = list(rows)
        return KnownPart(
            self.value[chosen],
            Contributions(self.contributions.values[chosen], self.contributions.sources),
            self.standard_uncertainty[chosen],
            self.degrees_of_freedom[chosen],
        )

    def outcomes(self, bounds: Sequence[Bound], *, absolute: bool) -> Outcomes:
        """Probability of each bound at each combination."""
        holds = np.empty((len(self.value), len(bounds)))
        for column, bound in enumerate(bounds):
            holds[:, column] = self._probability(bound, absolute=absolute)
        return Outcomes(
            holds=holds,
            possible=holds,
            value=np.abs(self.value) if absolute else self.value,
            standard_uncertainty=self.standard_uncertainty,
            degrees_of_freedom=self.degrees_of_freedom,
            contradicted=np.zeros(len(self.value), dtype=np.bool_),
        )

    def interval(self, row: int, probability: Probability) -> tuple[Metre | None, Metre | None]:
        """Symmetric coverage interval [m] of one combination."""
        score = student_quantile(float(self.degrees_of_freedom[row]), 0.5 + 0.5 * probability)
        reach = score * float(self.standard_uncertainty[row])
        return float(self.value[row]) - reach, float(self.value[row]) + reach

    def budget(self, row: int) -> Budget:
        """What contributes how much to one combination."""
        return self.contributions.budget(row)

    @property
    def agrees(self) -> bool:
        """Nothing here can disagree."""
        return True

    @property
    def method(self) -> str:
        """How the probabilities were found."""
        return "values"

    @property
    def cautions(self) -> tuple[str, ...]:
        """None: the closed form holds as it stands."""
        return ()

    def _probability(self, bound: Bound, *, absolute: bool) -> FloatArray:
        beyond = self._one_side(bound)
        if not absolute:
            return beyond
        other: Side = "lower" if bound.side == "upper" else "upper"
        mirrored = self._one_side(Bound(other, -bound.limit))
        joint = beyond + mirrored - 1.0 if bound.side == "upper" else beyond + mirrored
        return np.clip(joint, 0.0, 1.0)

    def _one_side(self, bound: Bound) -> FloatArray:
        u, freedoms = self.standard_uncertainty, self.degrees_of_freedom
        return probability_holds(bound.side, bound.limit, self.value, u, freedoms)
