"""How a chain that is known from values depends on the gaps that blades speak of too."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.physics.metrology.estimation import Estimate
from fitwright.physics.metrology.known import KnownPart
from fitwright.physics.metrology.sources import Contributions
from fitwright.physics.metrology.student import student_quantile
from fitwright.quantity import FloatArray, Metre

WIDENED = (
    "values with few degrees of freedom were taken together with blades: taken as normal,"
    " widened so that the 95 % interval of the values agrees with Student's"
)


TRACE = 1e-12
"""Share of its variance that each place is given as its own."""


@dataclass(frozen=True, slots=True)
class Given:
    """N combinations, given the gaps at T places: normal around a linear function of them.

    Attributes
    ----------
    places : tuple of str
        The T places, those with values first.
    prior_value : ndarray [m], shape (V,)
        Best values at the V places with values.
    prior_factor : ndarray [m], shape (V, V)
        Lower triangular factor of their covariance.
    offset : ndarray [m], shape (N,)
        Value of each combination where the gaps with values are at their best values and the others zero.
    slope : ndarray, shape (N, T)
        Change of each combination with each gap.
    residual : Contributions
        What is left unknown once the gaps are given.
    widened : bool
        Whether few degrees of freedom widened the values.
    alone : KnownPart
        What values alone say of the combinations.
    """

    places: tuple[str, ...]
    prior_value: FloatArray
    prior_factor: FloatArray
    offset: FloatArray
    slope: FloatArray
    residual: Contributions
    widened: bool
    alone: KnownPart

    @classmethod
    def of(
        cls,
        part: KnownPart,
        estimated: Estimate,
        places: Sequence[str],
        coefficients: Sequence[Mapping[str, float]],
    ) -> Given:
        """Condition the known part on the gaps at `places`."""
        valued = [place for place in places if place in estimated.places]
        flat = [place for place in places if place not in estimated.places]
        rows = [estimated.places.index(place) for place in valued]
        freedoms = float(part.degrees_of_freedom.min())
        factor = student_quantile(freedoms, 0.975) / student_quantile(np.inf, 0.975)
        contributions = factor * part.contributions.values
        loadings = np.zeros((len(rows), contributions.shape[1]))
        loadings[:, : estimated.loadings.shape[1]] = factor * estimated.loadings[rows]
        covariance = loadings @ loadings.T
        # Places whose values share every error would make it singular: a trace of their own tells them apart.
        covariance += TRACE * np.diag(np.diag(covariance))
        slope: FloatArray = np.zeros((len(part.value), len(rows)))
        prior_factor: FloatArray = np.zeros((len(rows), len(rows)))
        if rows:
            slope = np.asarray(np.linalg.solve(covariance, loadings @ contributions.T).T)
            prior_factor = np.asarray(np.linalg.cholesky(covariance))
        flat_slope: FloatArray = np.array([[some.get(place, 0.0) for place in flat] for some in coefficients])
        return cls(
            places=(*valued, *flat),
            prior_value=estimated.values[rows],
            prior_factor=prior_factor,
            offset=part.value,
            slope=np.hstack((slope, flat_slope.reshape(len(part.value), len(flat)))),
            residual=Contributions(contributions - slope @ loadings, part.contributions.sources),
            widened=factor > 1.0,
            alone=part,
        )

    def mean(self, gaps: FloatArray) -> FloatArray:
        """Mean of each combination [m], shape (N, J), given gaps of shape (J, T)."""
        centre = np.zeros(gaps.shape[1])
        centre[: len(self.prior_value)] = self.prior_value
        return np.asarray(self.offset[:, np.newaxis] + self.slope @ (gaps - centre).T)

    def prior(self) -> tuple[Metre, Metre] | None:
        """Value and standard uncertainty [m] at the only place, if it has values."""
        return (float(self.prior_value[0]), float(self.prior_factor[0, 0])) if len(self.prior_value) else None
