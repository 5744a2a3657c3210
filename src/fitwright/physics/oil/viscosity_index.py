"""Viscosity index from the two viscosities of a data sheet."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Number, SquareMetrePerSecond


@dataclass(frozen=True, slots=True)
class IndexTable:
    """Viscosities at 40 C of the two reference series, by the viscosity at 100 C; all [m2/s].

    Attributes
    ----------
    kinematic_viscosity_100 : ndarray [m2/s]
        Ascending.
    low : ndarray [m2/s]
        L, viscosity at 40 C of the oil of index 0 that is as thick at 100 C.
    high : ndarray [m2/s]
        H, likewise of index 100.
    """

    kinematic_viscosity_100: FloatArray
    low: FloatArray
    high: FloatArray


def viscosity_index(
    kinematic_viscosity_40: SquareMetrePerSecond,
    kinematic_viscosity_100: SquareMetrePerSecond,
    table: IndexTable,
) -> Number:
    r"""Viscosity index of an oil, not rounded.

    Parameters
    ----------
    kinematic_viscosity_40 : float [m2/s]
        Kinematic viscosity at 40 C.
    kinematic_viscosity_100 : float [m2/s]
        Kinematic viscosity at 100 C.
    table : IndexTable
        The reference series.

    Returns
    -------
    float [1]
        Viscosity index; a report rounds it to a whole number.

    Raises
    ------
    OutOfDomainError
        If the viscosity at 100 C lies outside the table, or the one at 40 C is not above it.

    Notes
    -----
    .. math:: VI = 100 \frac{L - U}{L - H} \; (U \ge H), \qquad
              VI = 100 + \frac{10^N - 1}{0.00715}, \; N = \frac{\log H - \log U}{\log Y} \; (U < H)

    with U and Y the viscosities at 40 C and 100 C in mm2/s.

    References
    ----------
    [astm_d2270_2016] procedures A and B

    Examples
    --------
    >>> table = IndexTable(np.array([8.8e-6, 8.9e-6]), np.array([118.5e-6, 120.9e-6]),
    ...                    np.array([68.79e-6, 69.94e-6]))
    >>> round(viscosity_index(73.3e-6, 8.86e-6, table), 1)
    92.4
    """
    u, y = kinematic_viscosity_40 * 1e6, kinematic_viscosity_100 * 1e6
    known = table.kinematic_viscosity_100
    if not known[0] <= kinematic_viscosity_100 <= known[-1]:
        raise OutOfDomainError(
            "kinematic_viscosity_100",
            f"{y:g} mm2/s",
            f"between {known[0] * 1e6:g} and {known[-1] * 1e6:g} mm2/s",
        )
    if not u > y:
        raise OutOfDomainError(
            "kinematic_viscosity_40", f"{u:g} mm2/s", f"above the one at 100 C, {y:g} mm2/s"
        )
    low = float(np.interp(kinematic_viscosity_100, known, table.low)) * 1e6
    high = float(np.interp(kinematic_viscosity_100, known, table.high)) * 1e6
    if u >= high:
        return 100.0 * (low - u) / (low - high)
    n = math.log(high / u) / math.log(y)
    return 100.0 + (math.pow(10.0, n) - 1.0) / 0.00715
