"""Whether readings that repeat each other agree within the gauge."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

import numpy as np
from scipy import special

from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.readings import ValueReading
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre, Number, Probability


@dataclass(frozen=True, slots=True)
class Agreement:
    """How well readings of the same places agree.

    Attributes
    ----------
    agree : bool
        Whether they may be used together without asking.
    probability : float
        Probability that readings that are all right would differ at least as much.
    statistic : float
        Sum of squared deviations in units of what explains them.
    degrees_of_freedom : int
        Readings less places.
    spread : float [m]
        Largest less smallest reading at the place where they differ most.
    odd_one : str
        Key of the reading that lies furthest from the estimate, for its uncertainty.
    """

    agree: bool
    probability: Probability
    statistic: Number
    degrees_of_freedom: int
    spread: Metre
    odd_one: str


def repeats_agree(readings: Sequence[ValueReading], *, significance: Probability = 0.01) -> Agreement:
    r"""Test whether repeats agree within the gauge.

    Parameters
    ----------
    readings : sequence of ValueReading
        Readings, two or more at some place.
    significance : float [1]
        Readings that would differ so much with less than this probability are asked about. At one in a
        hundred a sheet of a hundred good repeats asks about one.

    Returns
    -------
    Agreement
        Whether they agree, and by how much they differ.

    Raises
    ------
    OutOfDomainError
        If no place has two readings, or a reading has no repeatability to be judged by.

    Notes
    -----
    With the residuals :math:`r` of the least-squares estimate,

    .. math:: Q = r^T V^{-1} r \sim \chi^2_{n - p}

    What readings share (one setting, one calibration) is in :math:`V` and cannot make them differ, so
    repeats in one setting are judged by repeatability alone and repeats in different settings by that and
    the settings. Where the repeatability itself rests on few degrees of freedom :math:`\nu`,
    :math:`Q / (n - p)` is held against :math:`F_{n-p, \nu}` with the least of them.

    References
    ----------
    [birge1932] consistency by chi-square; [jcgm100_2008] 4.2 (repeatability)

    Examples
    --------
    >>> one, two = ValueReading("a", "bore", 50.0600e-3, 1e-6), ValueReading("b", "bore", 50.0652e-3, 1e-6)
    >>> answer = repeats_agree([one, two])
    >>> answer.agree, round(answer.probability, 4)
    (False, 0.0002)
    """
    ordered = sorted(readings, key=lambda reading: reading.key)
    estimated = estimate(ordered)
    count = len(ordered) - len(estimated.places)
    if count < 1:
        raise OutOfDomainError("readings", len(ordered), "two or more at one place")
    if any(reading.repeatability == 0.0 for reading in ordered):
        raise OutOfDomainError("repeatability", 0.0, "above zero to judge repeats by")
    residual = np.array(
        [reading.value - estimated.values[estimated.places.index(reading.place)] for reading in ordered]
    )
    covariance = _covariance(ordered)
    scale = float(np.sqrt(np.trace(covariance)))
    statistic = float(residual / scale @ np.linalg.solve(covariance / scale**2, residual / scale))
    probability = _chance(statistic, count, min(one.repeatability_degrees_of_freedom for one in ordered))
    relative = np.abs(residual) / np.array([reading.repeatability for reading in ordered])
    return Agreement(
        agree=probability >= significance,
        probability=probability,
        statistic=statistic,
        degrees_of_freedom=count,
        spread=max(_spread(ordered, place) for place in estimated.places),
        odd_one=ordered[int(np.argmax(relative))].key,
    )


def _covariance(readings: Sequence[ValueReading]) -> FloatArray:
    """Covariance of the readings themselves [m2]."""
    unknowns = {one.unknown.key: one.unknown.standard_uncertainty for r in readings for one in r.shared}
    column = {key: position for position, key in enumerate(sorted(unknowns))}
    loads = np.zeros((len(readings), len(column)))
    for row, reading in enumerate(readings):
        for one in reading.shared:
            loads[row, column[one.unknown.key]] += one.sensitivity * one.unknown.standard_uncertainty
    return np.asarray(loads @ loads.T + np.diag([reading.repeatability**2 for reading in readings]))


def _chance(statistic: Number, count: int, degrees_of_freedom: Number) -> Probability:
    if degrees_of_freedom == inf:
        return float(special.chdtrc(count, statistic))
    return float(special.fdtrc(count, degrees_of_freedom, statistic / count))


def _spread(readings: Sequence[ValueReading], place: str) -> Metre:
    values = [reading.value for reading in readings if reading.place == place]
    return max(values) - min(values)
