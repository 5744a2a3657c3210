"""Effective degrees of freedom of a combined standard uncertainty."""

from __future__ import annotations

import numpy as np

from fitwright.quantity import FloatArray, Numbers


def effective_degrees_of_freedom(contributions: Numbers, degrees_of_freedom: Numbers) -> FloatArray:
    r"""Degrees of freedom of a combined standard uncertainty, by Welch and Satterthwaite.

    Parameters
    ----------
    contributions : array_like [1], shape (*s, n)
        Contribution of each of n independent unknowns, in the unit of the combined uncertainty;
        the sign does not matter.
    degrees_of_freedom : array_like [1], shape (n,)
        Degrees of freedom behind each contribution; infinite where it is taken as known.

    Returns
    -------
    ndarray [1], shape (*s)
        Effective degrees of freedom, infinite where no contribution has a finite number of them.

    Notes
    -----
    .. math:: \nu_\mathrm{eff} = \frac{u_c^4}{\sum_i u_i^4 / \nu_i}

    References
    ----------
    [jcgm100_2008] G.4.1, eq. G.2b

    Examples
    --------
    >>> int(effective_degrees_of_freedom([25.0, 9.7, 2.9, 16.6], [18.0, 25.6, 50.0, 2.0]))
    16
    """
    variances = np.asarray(contributions, dtype=np.float64) ** 2
    freedoms = np.asarray(degrees_of_freedom, dtype=np.float64)
    return _satterthwaite(variances, freedoms)


def grouped_degrees_of_freedom(
    contributions: FloatArray, freedoms: FloatArray, groups: FloatArray
) -> FloatArray:
    r"""Degrees of freedom where several contributions rest on one estimate of scatter.

    Parameters
    ----------
    contributions : ndarray [1], shape (*s, n)
        Contribution of each of n independent unknowns.
    freedoms : ndarray [1], shape (g,)
        Degrees of freedom of each of g estimates of scatter.
    groups : ndarray [1], shape (n, g)
        1 where the contribution rests on that estimate, else 0.

    Returns
    -------
    ndarray [1], shape (*s)
        Effective degrees of freedom.

    Notes
    -----
    The variances that rest on one estimate are proportional to it, so they add before they are squared:

    .. math:: \nu_\mathrm{eff} = \frac{u_c^4}{\sum_g \left(\sum_{i \in g} u_i^2\right)^2 / \nu_g}

    Counting them one by one would credit a mean of n readings with n times the degrees of freedom of the
    study that gave their repeatability.

    References
    ----------
    [jcgm100_2008] G.4.1, eq. G.2b
    """
    return _satterthwaite(contributions**2 @ groups, freedoms)


def _satterthwaite(variances: FloatArray, freedoms: FloatArray) -> FloatArray:
    finite = np.isfinite(freedoms)
    total = variances.sum(axis=-1)
    if not finite.any():
        return np.full(total.shape, np.inf)
    # Relative shares keep the fourth powers of micrometres away from underflow.
    shares = variances / np.where(total > 0.0, total, 1.0)[..., np.newaxis]
    loss = (shares[..., finite] ** 2 / freedoms[finite]).sum(axis=-1)
    result: FloatArray = np.full(total.shape, np.inf)
    np.divide(1.0, loss, out=result, where=loss > 0.0)
    return result
