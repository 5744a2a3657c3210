"""The part of each combination that is known from values: normal (or Student) with shared unknowns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.physics.metrology.combinations import Combinations
from fitwright.physics.metrology.conformity import Bound, Side, probability_holds
from fitwright.physics.metrology.estimation import Estimate
from fitwright.physics.metrology.sources import Contributions
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

    def probability(self, bound: Bound, *, absolute: bool) -> FloatArray:
        """Probability that the bound holds for each combination, shape (N,); `absolute` drops the sign."""
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

    def interval(self, row: int, probability: Probability) -> tuple[Metre, Metre]:
        """Symmetric coverage interval [m] of one combination."""
        score = student_quantile(float(self.degrees_of_freedom[row]), 0.5 + 0.5 * probability)
        reach = score * float(self.standard_uncertainty[row])
        return float(self.value[row]) - reach, float(self.value[row]) + reach
