"""Reading dimensionless curves at an eccentricity, and the eccentricity for a load."""

from __future__ import annotations

import math

from numba import njit

from fitwright.quantity import FloatArray, Number


@njit(cache=True, nogil=True, error_model="numpy")
def curve_values(
    coefficients: FloatArray, eccentricity_ratio: Number
) -> tuple[Number, Number, Number, Number, Number, Number]:
    """Characteristics of a bearing at an eccentricity ratio; once differentiable everywhere.

    Parameters
    ----------
    coefficients : array (n, 14) [1]
        From `curve_coefficients`.
    eccentricity_ratio : float [1]
        From zero (the centre, where the load is zero) to the last node; beyond it the last node's.

    Returns
    -------
    tuple of 6 [1]
        1/S; attitude angle (rad); side flow Qs / (R c N L); friction number (R/c) f / S with the film
        only, and over the whole circumference; pressure ratio P / pmax. The friction torque of a friction
        number F is 2 F mu N L R^3 / c, also without any load.

    References
    ----------
    [deboor2001] cubic Hermite interpolation
    """
    found = curve_values_and_slopes(coefficients, eccentricity_ratio)
    return found[0], found[2], found[4], found[6], found[8], found[10]


@njit(cache=True, nogil=True, error_model="numpy")
def curve_values_and_slopes(
    coefficients: FloatArray, eccentricity_ratio: Number
) -> tuple[Number, Number, Number, Number, Number, Number, Number, Number, Number, Number, Number, Number]:
    """What `curve_values` gives, each followed by its derivative by the eccentricity ratio.

    Parameters
    ----------
    coefficients : array (n, 14) [1]
        From `curve_coefficients`.
    eccentricity_ratio : float [1]
        From zero to the last node; beyond it the last node's.

    Returns
    -------
    tuple of 12 [1]
        Value and slope of each characteristic, in the order of `curve_values`.

    References
    ----------
    [deboor2001] cubic Hermite interpolation
    """
    e = min(max(eccentricity_ratio, 0.0), coefficients[-1, 0])
    cell = _cell(coefficients, 0, e)
    logarithm, slope = _hermite(coefficients, cell, 1, e)
    square = 1.0 - e * e
    root = math.sqrt(square)
    bound = math.exp(logarithm)
    inverse = e * bound / square**2
    inverse_slope = bound / square**2 + inverse * (slope + 4.0 * e / square)
    angle, angle_slope = _hermite(coefficients, cell, 3, e)
    flow, flow_slope = _hermite(coefficients, cell, 5, e)
    film, film_slope = _hermite(coefficients, cell, 7, e)
    full, full_slope = _hermite(coefficients, cell, 9, e)
    peak, peak_slope = _hermite(coefficients, cell, 11, e)
    bend = -e / root  # derivative of the root
    return (
        inverse,
        inverse_slope,
        angle * root,
        angle_slope * root + angle * bend,
        flow * e,
        flow_slope * e + flow,
        film / root,
        (film_slope - film * bend / root) / root,
        full / root,
        (full_slope - full * bend / root) / root,
        peak * root,
        peak_slope * root + peak * bend,
    )


@njit(cache=True, nogil=True, error_model="numpy")
def eccentricity_for(coefficients: FloatArray, inverse_sommerfeld_number: Number) -> tuple[Number, bool]:
    """Eccentricity ratio at which a bearing carries its load.

    Parameters
    ----------
    coefficients : array (n, 14) [1]
        From `curve_coefficients`.
    inverse_sommerfeld_number : float [1]
        1/S, zero without load.

    Returns
    -------
    tuple of float and bool [1]
        The eccentricity ratio, and whether it lies inside the curves; if not, it is that of the last node
        and the film is thinner than this.

    References
    ----------
    [deboor2001] cubic Hermite interpolation; inverted by Newton's method inside one interval
    """
    if not inverse_sommerfeld_number <= coefficients[-1, 13]:
        return coefficients[-1, 0], False
    if inverse_sommerfeld_number <= 0.0:
        return 0.0, inverse_sommerfeld_number == 0.0
    cell = _cell(coefficients, 13, inverse_sommerfeld_number)
    low = coefficients[cell, 0] if cell >= 0 else 0.0
    high = coefficients[cell + 1, 0]
    target = math.log(inverse_sommerfeld_number)
    # Near the centre the load grows like the eccentricity.
    share = inverse_sommerfeld_number / coefficients[cell + 1, 13]
    e = 0.5 * (low + high) if cell >= 0 else high * share
    for _ in range(60):
        logarithm, slope = _hermite(coefficients, cell, 1, e)
        square = 1.0 - e * e
        excess = logarithm + math.log(e) - 2.0 * math.log(square) - target
        if excess > 0.0:
            high = e
        else:
            low = e
        step = excess / (slope + 1.0 / e + 4.0 * e / square)
        following = e - step
        if not low <= following <= high:
            following = 0.5 * (low + high)
        if abs(following - e) <= 1e-15 * e:
            return following, True
        e = following
    return e, True


@njit(cache=True, nogil=True, error_model="numpy")
def _cell(coefficients: FloatArray, column: int, value: float) -> int:
    """Index of the node below a value; -1 below the first, never the last."""
    low, high = -1, coefficients.shape[0] - 1
    while high - low > 1:
        middle = (low + high) // 2
        if coefficients[middle, column] <= value:
            low = middle
        else:
            high = middle
    return low


@njit(cache=True, nogil=True, error_model="numpy")
def _hermite(coefficients: FloatArray, cell: int, column: int, x: float) -> tuple[float, float]:
    """Value and slope between two nodes; a straight line below the first."""
    if cell < 0:
        slope = coefficients[0, column + 1]
        return coefficients[0, column] + slope * (x - coefficients[0, 0]), slope
    width = coefficients[cell + 1, 0] - coefficients[cell, 0]
    t = (x - coefficients[cell, 0]) / width
    first, second = coefficients[cell, column], coefficients[cell + 1, column]
    first_slope = coefficients[cell, column + 1] * width
    second_slope = coefficients[cell + 1, column + 1] * width
    cubic = 2.0 * (first - second) + first_slope + second_slope
    square = 3.0 * (second - first) - 2.0 * first_slope - second_slope
    value = first + t * (first_slope + t * (square + t * cubic))
    return value, (first_slope + t * (2.0 * square + 3.0 * t * cubic)) / width
