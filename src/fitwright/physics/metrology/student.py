"""Student's t distribution, with the normal one as its limit."""

from __future__ import annotations

from math import inf

import numpy as np
from scipy import special

from fitwright.quantity import FloatArray, Number, Numbers, Probability

MOST_DEGREES_OF_FREEDOM = 1e10
"""Above this the normal distribution agrees to more digits than are computed."""


def student_cdf(degrees_of_freedom: Numbers, score: Numbers) -> FloatArray:
    """Distribution function of Student's t; the normal one where the degrees of freedom are infinite.

    Parameters
    ----------
    degrees_of_freedom : array_like [1], shape (*s)
        Degrees of freedom, infinite for the normal distribution.
    score : array_like [1], shape (*s)
        Deviation over standard uncertainty.

    Returns
    -------
    ndarray [1], shape (*s)
        Probabilities.

    References
    ----------
    [jcgm101_2008] 6.4.9

    Examples
    --------
    >>> round(float(student_cdf(16.0, 2.921)), 4)
    0.995
    """
    freedoms = np.asarray(degrees_of_freedom, dtype=np.float64)
    normal: FloatArray = special.ndtr(score)
    if np.isinf(freedoms).all():
        return normal
    bounded = np.minimum(freedoms, MOST_DEGREES_OF_FREEDOM)
    return np.where(bounded < freedoms, normal, special.stdtr(bounded, score))


def student_quantile(degrees_of_freedom: Number, probability: Probability) -> Number:
    """Quantile of Student's t; the normal one where the degrees of freedom are infinite.

    Parameters
    ----------
    degrees_of_freedom : float [1]
        Degrees of freedom, infinite for the normal distribution.
    probability : float [1]
        Probability below the quantile.

    Returns
    -------
    float [1]
        Deviation over standard uncertainty.

    References
    ----------
    [jcgm100_2008] table G.2

    Examples
    --------
    >>> round(student_quantile(16.0, 0.995), 2)
    2.92
    """
    if degrees_of_freedom == inf or degrees_of_freedom > MOST_DEGREES_OF_FREEDOM:
        return float(special.ndtri(probability))
    return float(special.stdtrit(degrees_of_freedom, probability))
