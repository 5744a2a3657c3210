"""Decision rule, bounds, the probability that a bound holds, verdicts, and what a gauge can prove."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import inf
from typing import Literal

import numpy as np

from fitwright.physics.metrology.student import student_cdf, student_quantile
from fitwright.physics.metrology.unknowns import (
    require_degrees_of_freedom,
    require_finite,
    require_uncertainty,
)
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre, Number, Numbers, Probability

Side = Literal["lower", "upper"]


class Verdict(StrEnum):
    """What the readings prove of one bound, or of a fit."""

    WITHIN = "within"
    OUTSIDE = "outside"
    UNPROVEN = "unproven"
    NOT_MEASURED = "not measured"


class Reason(StrEnum):
    """Why a bound is unproven."""

    TOO_COARSE = "too coarse"
    """Even a value in the middle of the limits could not be proven with this uncertainty."""
    AT_THE_LIMIT = "at the limit"
    CONTRADICTORY = "contradictory"
    NOTHING_BOUNDS_IT = "nothing bounds it"


@dataclass(frozen=True, slots=True)
class Bound:
    """One bound of a limit.

    Attributes
    ----------
    side : {"lower", "upper"}
        Which side it bounds.
    limit : float [m]
        The limit; a size equal to it is inside.
    """

    side: Side
    limit: Metre

    def __post_init__(self) -> None:
        """Refuse a side that is none and a limit that is no number."""
        if self.side not in ("lower", "upper"):
            raise OutOfDomainError("side of a bound", self.side, "'lower' or 'upper'")
        require_finite("limit of a bound", self.limit)


@dataclass(frozen=True, slots=True)
class DecisionRule:
    """When a bound counts as proven.

    Attributes
    ----------
    within : float
        A bound that holds with at least this probability is within.
    outside : float
        A bound that holds with at most this probability is outside.
    """

    within: Probability = 0.95
    outside: Probability = 0.05

    def __post_init__(self) -> None:
        """Refuse a rule by which a bound could be within and outside at once, or proven by a coin."""
        if not 0.5 < self.within < 1.0:
            raise OutOfDomainError("within", self.within, "above 0.5 and below 1")
        if not 0.0 < self.outside < 0.5:
            raise OutOfDomainError("outside", self.outside, "above 0 and below 0.5")

    def verdict(self, holds: Probability | None, possible: Probability) -> Verdict:
        """Verdict on a bound that holds with at least `holds` and at most `possible` probability.

        For a quantity known from values both are the same; a blade that goes says only the first, one that
        does not go only the second.
        """
        if possible <= self.outside:
            return Verdict.OUTSIDE
        return Verdict.WITHIN if holds is not None and holds >= self.within else Verdict.UNPROVEN


@dataclass(frozen=True, slots=True)
class Capability:
    """What a standard uncertainty can prove of a pair of limits.

    Attributes
    ----------
    can_prove : bool
        Whether any value at all would be proven within.
    acceptance_zone : (float or None, float or None), or None
        Values from the first to the second [m] would be proven within; an end without a bound is None.
        None where no value would be.
    share : float or None
        Width of the acceptance zone over the width of the limits; None where one side has no bound.
    """

    can_prove: bool
    acceptance_zone: tuple[Metre | None, Metre | None] | None
    share: Number | None


def probability_holds(
    side: Side, limit: Metre, value: Numbers, standard_uncertainty: Numbers, degrees_of_freedom: Numbers = inf
) -> FloatArray:
    r"""Probability that a bound holds for a quantity known as value, uncertainty and degrees of freedom.

    Parameters
    ----------
    side : {"lower", "upper"}
        Which side the bound is on.
    limit : float [m]
        The limit.
    value : array_like [1], shape (*s)
        Best values, in the unit of the limit.
    standard_uncertainty : array_like [1], shape (*s)
        Standard uncertainties, in the unit of the limit; at zero the value itself is compared.
    degrees_of_freedom : array_like [1], shape (*s)
        Degrees of freedom; infinite gives the normal distribution.

    Returns
    -------
    ndarray [1], shape (*s)
        Probabilities.

    Notes
    -----
    .. math:: P(x \ge L) = F_\nu\!\left(\frac{\hat x - L}{u}\right), \quad
              P(x \le U) = F_\nu\!\left(\frac{U - \hat x}{u}\right)

    with the distribution function of Student's t.

    References
    ----------
    [jcgm106_2012] 7.2 and 7.3 (probability of conformity); [jcgm101_2008] 6.4.9 (t-distribution)

    Examples
    --------
    >>> round(float(probability_holds("lower", 0.040e-3, 0.0432e-3, 0.0019e-3)), 3)
    0.954
    """
    inside = np.subtract(value, limit) if side == "lower" else np.subtract(limit, value)
    inside, uncertainty = np.broadcast_arrays(inside, np.asarray(standard_uncertainty, dtype=np.float64))
    with np.errstate(divide="ignore", invalid="ignore"):
        score = np.where(uncertainty > 0.0, inside / uncertainty, np.where(inside >= 0.0, inf, -inf))
    return student_cdf(degrees_of_freedom, score)


def acceptance_limit(
    bound: Bound, standard_uncertainty: Metre, rule: DecisionRule, degrees_of_freedom: Number = inf
) -> Metre:
    r"""The value from which on a bound is proven within: the limit, moved inwards by a guard band.

    Parameters
    ----------
    bound : Bound
        The bound.
    standard_uncertainty : float [m]
        Standard uncertainty of the value.
    rule : DecisionRule
        When a bound counts as proven.
    degrees_of_freedom : float [1]
        Degrees of freedom of the uncertainty.

    Returns
    -------
    float [m]
        Acceptance limit.

    Notes
    -----
    .. math:: A_L = L + t_\nu(p)\,u, \quad A_U = U - t_\nu(p)\,u

    References
    ----------
    [jcgm106_2012] 8.3.2 (guarded acceptance); [iso14253_1_2017] 5.2

    Examples
    --------
    >>> f"{acceptance_limit(Bound('lower', 0.040e-3), 0.0019e-3, DecisionRule()) * 1e3:.4f} mm"
    '0.0431 mm'
    """
    guard = student_quantile(degrees_of_freedom, rule.within) * standard_uncertainty
    return bound.limit + guard if bound.side == "lower" else bound.limit - guard


def can_prove(
    lower: Metre | None,
    upper: Metre | None,
    standard_uncertainty: Metre,
    rule: DecisionRule,
    degrees_of_freedom: Number = inf,
) -> Capability:
    """Say before anything is measured whether a standard uncertainty can prove these limits at all.

    Parameters
    ----------
    lower : float [m] or None
        Lower limit, None where there is none.
    upper : float [m] or None
        Upper limit, None where there is none.
    standard_uncertainty : float [m]
        Standard uncertainty that the value will have.
    rule : DecisionRule
        When a bound counts as proven.
    degrees_of_freedom : float [1]
        Degrees of freedom of that uncertainty.

    Returns
    -------
    Capability
        Whether some value would be proven within, which, and how much of the limits that is.

    Raises
    ------
    OutOfDomainError
        If the lower limit lies above the upper.

    Notes
    -----
    The acceptance zone is the limits moved inwards by the guard band on each side; nothing can be proven
    when the guard bands meet.

    References
    ----------
    [jcgm106_2012] 8.3.2; [iso14253_1_2017] 5.2

    Examples
    --------
    >>> shown = can_prove(0.040e-3, 0.075e-3, 0.0019e-3, DecisionRule())
    >>> shown.can_prove, round(shown.share, 2)
    (True, 0.82)
    >>> can_prove(0.040e-3, 0.075e-3, 0.012e-3, DecisionRule()).can_prove
    False
    """
    require_uncertainty("standard uncertainty", standard_uncertainty)
    require_degrees_of_freedom("degrees of freedom", degrees_of_freedom)
    if lower is not None and upper is not None and lower > upper:
        raise OutOfDomainError("lower limit", lower, f"at most the upper limit {upper}")
    guard = student_quantile(degrees_of_freedom, rule.within) * standard_uncertainty
    low = None if lower is None else lower + guard
    high = None if upper is None else upper - guard
    if low is None or high is None or lower is None or upper is None:
        return Capability(can_prove=True, acceptance_zone=(low, high), share=None)
    if low > high:
        return Capability(can_prove=False, acceptance_zone=None, share=0.0)
    share = (high - low) / (upper - lower) if upper > lower else 1.0
    return Capability(can_prove=True, acceptance_zone=(low, high), share=share)


def narrowest_band(
    standard_uncertainty: Metre, rule: DecisionRule, degrees_of_freedom: Number = inf
) -> Metre:
    r"""Say how far apart two limits must be for a standard uncertainty to prove anything between them.

    Parameters
    ----------
    standard_uncertainty : float [m]
        Standard uncertainty that the value will have.
    rule : DecisionRule
        When a bound counts as proven.
    degrees_of_freedom : float [1]
        Degrees of freedom of that uncertainty.

    Returns
    -------
    float [m]
        Least width between a lower and an upper limit at which one single value, in the middle, is proven.

    Notes
    -----
    .. math:: B = 2\,t_\nu(p)\,u

    where the guard bands of both limits meet. Useful limits are wider: at twice this width half of them
    can be proven.

    References
    ----------
    [jcgm106_2012] 8.3.2; [iso14253_1_2017] 5.2

    Examples
    --------
    >>> f"{narrowest_band(1.9e-6, DecisionRule()) * 1e3:.4f} mm"
    '0.0063 mm'
    """
    require_uncertainty("standard uncertainty", standard_uncertainty)
    require_degrees_of_freedom("degrees of freedom", degrees_of_freedom)
    return 2.0 * float(student_quantile(degrees_of_freedom, rule.within)) * standard_uncertainty
