"""The general law of propagation of uncertainty, first order and with second-order terms."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import floor, inf, sqrt

import numpy as np

from fitwright.physics.metrology.student import student_quantile
from fitwright.physics.metrology.unknowns import (
    require_degrees_of_freedom,
    require_finite,
    require_uncertainty,
)
from fitwright.physics.metrology.welch import effective_degrees_of_freedom
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Number, Numbers, Probability

Model = Callable[[FloatArray], float]


@dataclass(frozen=True, slots=True)
class InputQuantity:
    """One input of a model.

    Attributes
    ----------
    key : str
        Names it.
    value : float
        Estimate, in its own unit.
    standard_uncertainty : float
        Standard uncertainty, in the same unit.
    degrees_of_freedom : float
        Degrees of freedom behind it.
    """

    key: str
    value: Number
    standard_uncertainty: Number
    degrees_of_freedom: Number = inf

    def __post_init__(self) -> None:
        """Refuse numbers that mean nothing."""
        require_finite(f"value of {self.key!r}", self.value)
        require_uncertainty(f"standard uncertainty of {self.key!r}", self.standard_uncertainty)
        require_degrees_of_freedom(f"degrees of freedom of {self.key!r}", self.degrees_of_freedom)


@dataclass(frozen=True, slots=True)
class Propagated:
    """Output of a model with its uncertainty.

    Attributes
    ----------
    value : float
        Output estimate.
    standard_uncertainty : float
        Combined standard uncertainty, first order.
    with_second_order : float
        The same with the second-order terms.
    degrees_of_freedom : float
        Effective degrees of freedom of the first-order uncertainty; NaN where inputs are correlated and
        their degrees of freedom are few, for which the formula does not hold.
    sensitivities : tuple of float
        Partial derivative with respect to each input.
    budget : tuple of (str, float)
        Key and contribution of each input, in the order given.
    """

    value: Number
    standard_uncertainty: Number
    with_second_order: Number
    degrees_of_freedom: Number
    sensitivities: tuple[Number, ...]
    budget: tuple[tuple[str, Number], ...]

    def coverage_factor(self, probability: Probability) -> Number:
        """Coverage factor for an interval, with the degrees of freedom cut to a whole number (G.4.1)."""
        freedoms = self.degrees_of_freedom
        whole = freedoms if freedoms == inf else max(floor(freedoms), 1)
        return student_quantile(whole, 0.5 + 0.5 * probability)

    def expanded_uncertainty(self, probability: Probability = 0.95) -> Number:
        """Half width of the coverage interval."""
        return self.coverage_factor(probability) * self.standard_uncertainty


def propagate(
    model: Model, inputs: Sequence[InputQuantity], *, correlation: Numbers | None = None
) -> Propagated:
    r"""Propagate uncertainty through any model by its derivatives.

    Parameters
    ----------
    model : callable
        Takes the inputs as one array and returns the output.
    inputs : sequence of InputQuantity
        The inputs.
    correlation : array_like [1], shape (n, n), or None
        Correlation coefficients of the inputs; None: independent.

    Returns
    -------
    Propagated
        Output, uncertainty, effective degrees of freedom and sensitivities.

    Raises
    ------
    OutOfDomainError
        If the correlation matrix does not fit the inputs.

    Notes
    -----
    .. math:: u_c^2(y) = \sum_i \sum_j c_i c_j u(x_i) u(x_j) r_{ij}

    and, for independent inputs, the terms of next order

    .. math:: \sum_i \sum_j \left[\tfrac12 f_{ij}^2 + f_i f_{ijj}\right] u^2(x_i)\, u^2(x_j)

    Derivatives are central differences over one standard uncertainty, as the guide advises.

    References
    ----------
    [jcgm100_2008] 5.1.2, eq. 10 with its note; 5.2.2, eq. 13; 5.1.3 note 2; G.4

    Examples
    --------
    >>> area = propagate(
    ...     lambda x: x[0] * x[1], [InputQuantity("a", 2.0, 0.01), InputQuantity("b", 3.0, 0.01)]
    ... )
    >>> round(area.value, 6), round(area.standard_uncertainty, 5)
    (6.0, 0.03606)
    """
    x = np.array([one.value for one in inputs])
    u = np.array([one.standard_uncertainty for one in inputs])
    matrix = np.eye(len(x)) if correlation is None else np.asarray(correlation, dtype=np.float64)
    if (
        matrix.shape != (len(x), len(x))
        or not np.allclose(matrix, matrix.T)
        or np.any(np.diag(matrix) != 1.0)
    ):
        raise OutOfDomainError(
            "correlation", matrix.shape, "symmetric, one row for each input, ones in its diagonal"
        )
    contributions, more = _derivatives(model, x, u)
    first = float(contributions @ matrix @ contributions)
    return Propagated(
        value=float(model(x)),
        standard_uncertainty=sqrt(max(first, 0.0)),
        with_second_order=sqrt(max(first + more, 0.0)),
        degrees_of_freedom=_freedoms(
            contributions, inputs, independent=bool((matrix == np.eye(len(x))).all())
        ),
        sensitivities=tuple(
            float(c) for c in np.divide(contributions, u, out=_slopes(model, x), where=u > 0.0)
        ),
        budget=tuple((one.key, abs(float(part))) for one, part in zip(inputs, contributions, strict=True)),
    )


def _derivatives(model: Model, x: FloatArray, u: FloatArray) -> tuple[FloatArray, float]:
    """First-order contributions, and the sum of the second-order terms."""
    steps = np.diag(u)
    centre = model(x)
    plus = np.array([model(x + step) for step in steps])
    minus = np.array([model(x - step) for step in steps])
    first = 0.5 * (plus - minus)
    more = 0.0
    for i in range(len(x)):
        for j in range(len(x)):
            if u[i] == 0.0 or u[j] == 0.0:
                continue
            if i == j:
                mixed = plus[i] - 2.0 * centre + minus[i]
                # Third derivative over two steps, for the slope at both neighbours.
                further = 0.5 * (
                    model(x + 2.0 * steps[i]) - 2.0 * plus[i] + 2.0 * minus[i] - model(x - 2.0 * steps[i])
                )
            else:
                corners = [[model(x + a * steps[i] + b * steps[j]) for b in (1.0, -1.0)] for a in (1.0, -1.0)]
                mixed = 0.25 * (corners[0][0] - corners[0][1] - corners[1][0] + corners[1][1])
                slopes = [0.5 * (corners[0][k] - corners[1][k]) for k in (0, 1)]
                further = slopes[0] - 2.0 * first[i] + slopes[1]
            more += 0.5 * mixed**2 + first[i] * further
    return first, float(more)


def _slopes(model: Model, x: FloatArray) -> FloatArray:
    """Derivatives over a small share of each input, for those without uncertainty."""
    steps = np.diag(np.cbrt(np.finfo(np.float64).eps) * np.where(x == 0.0, 1.0, np.abs(x)))
    return np.array([(model(x + s) - model(x - s)) / (2.0 * s.sum()) for s in steps])


def _freedoms(contributions: FloatArray, inputs: Sequence[InputQuantity], *, independent: bool) -> Number:
    freedoms = np.array([one.degrees_of_freedom for one in inputs])
    if not independent and np.isfinite(freedoms[contributions != 0.0]).any():
        return float("nan")
    return float(effective_degrees_of_freedom(contributions, freedoms))
