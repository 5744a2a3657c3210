"""Repeatability at the bench: one person lifts the gauge off and measures the same place five times."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy import special

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, Metres, Number, Probability


@dataclass(frozen=True, slots=True)
class RepeatStudy:
    """What repeated indications at one place say about repeatability.

    Attributes
    ----------
    mean : float [m]
        Mean indication.
    standard_deviation : float [m]
        Repeatability standard deviation of one indication.
    degrees_of_freedom : float [1]
        Indications less one.
    indication_range : float [m]
        Largest less smallest indication.
    lower_standard_deviation : float [m]
        Lower end of the confidence interval of the standard deviation.
    upper_standard_deviation : float [m]
        Upper end of the confidence interval of the standard deviation.
    confidence : float [1]
        Confidence level of that interval.
    range_share : float [1] or None
        Range over the width of the limit band; None without a band.
    spread_share : float [1] or None
        Six repeatability standard deviations over the width of the limit band; None without a band.
    """

    mean: Metre
    standard_deviation: Metre
    degrees_of_freedom: Number
    indication_range: Metre
    lower_standard_deviation: Metre
    upper_standard_deviation: Metre
    confidence: Probability
    range_share: Number | None
    spread_share: Number | None


def repeat_study(
    indications: Metres, *, limit_band: Metre | None = None, confidence: Probability = 0.95
) -> RepeatStudy:
    r"""Repeatability from indications that one person took at one place with one gauge.

    Parameters
    ----------
    indications : array_like [m], shape (n)
        Repeated indications, at least two; five are customary.
    limit_band : float [m] or None
        Width between the limits that the gauge is to judge.
    confidence : float [1]
        Confidence level of the interval for the standard deviation.

    Returns
    -------
    RepeatStudy
        Standard deviation with its degrees of freedom and confidence interval, range, shares.

    Raises
    ------
    OutOfDomainError
        If there are fewer than two indications, one is not finite, or band or level are out of range.

    Notes
    -----
    .. math:: \frac{(n-1) s^2}{\chi^2_{n-1, (1+\gamma)/2}} \le \sigma^2 \le
              \frac{(n-1) s^2}{\chi^2_{n-1, (1-\gamma)/2}}

    Five lifts leave the standard deviation itself uncertain by about a third; the interval says so.

    References
    ----------
    [jcgm100_2008] 4.2.2 and E.4.3

    Examples
    --------
    >>> study = repeat_study([56.001e-3, 56.000e-3, 56.002e-3, 56.001e-3, 56.001e-3], limit_band=0.025e-3)
    >>> round(study.standard_deviation * 1e6, 3), round(study.range_share, 2)
    (0.707, 0.08)
    """
    x = np.asarray(indications, dtype=float)
    if x.ndim != 1 or x.size < 2 or not np.isfinite(x).all():
        raise OutOfDomainError("indications", x.tolist(), "at least two finite numbers")
    if limit_band is not None and not limit_band > 0.0:
        raise OutOfDomainError("limit_band", limit_band, "greater than zero")
    if not 0.0 < confidence < 1.0:
        raise OutOfDomainError("confidence", confidence, "between zero and one")
    freedom = x.size - 1
    deviation = float(np.std(x, ddof=1))
    spread = float(np.ptp(x))
    # chdtri inverts the upper tail, so the larger chi square belongs to the smaller tail.
    large, small = (float(special.chdtri(freedom, 0.5 * (1.0 + sign * confidence))) for sign in (-1.0, 1.0))
    return RepeatStudy(
        mean=float(np.mean(x)),
        standard_deviation=deviation,
        degrees_of_freedom=float(freedom),
        indication_range=spread,
        lower_standard_deviation=deviation * math.sqrt(freedom / large),
        upper_standard_deviation=deviation * math.sqrt(freedom / small),
        confidence=confidence,
        range_share=None if limit_band is None else spread / limit_band,
        spread_share=None if limit_band is None else 6.0 * deviation / limit_band,
    )
