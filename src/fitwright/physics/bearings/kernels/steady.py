"""Steady points of many bearings at once, out of the tables."""

from __future__ import annotations

import math

import numpy as np
from numba import njit

from fitwright.physics.bearings.kernels.curves import curve_values, eccentricity_for
from fitwright.quantity import FloatArray


@njit(cache=True, nogil=True, error_model="numpy")
def steady_points(
    lengths: FloatArray,
    eccentricities: FloatArray,
    coefficients: FloatArray,
    logarithms: FloatArray,
    loads: FloatArray,
    found: FloatArray,
) -> None:
    """Characteristics at length ratios and loads.

    Parameters
    ----------
    lengths : array (l,) [1]
        Logarithms of the length ratios of the tables.
    eccentricities : array (n,) [1]
        Eccentricity ratios of the tables.
    coefficients : array (l, n, 6, 4) [1]
        Of the tables.
    logarithms : array (k,) [1]
        Logarithms of the length ratios wanted, inside the tables.
    loads : array (k,) [1]
        1/S wanted.
    found : array (7, k) [1]
        Eccentricity ratio, attitude angle (rad), side flow, friction numbers (film, full), P / pmax,
        and whether the tables reach so far; not numbers where they do not.

    References
    ----------
    [deboor2001] bicubic Hermite interpolation
    """
    pair = np.empty((2, 14))
    weights = np.empty(4)
    for k in range(loads.size):
        row = _cell(lengths, logarithms[k])
        _hermite_weights(lengths[row], lengths[row + 1], logarithms[k], weights)
        cell = _cell_of_load(eccentricities, coefficients, row, weights, loads[k])
        for side in range(2):
            node = cell + side
            pair[side, 0] = eccentricities[node]
            for c in range(6):
                for slope in range(2):
                    pair[side, 1 + 2 * c + slope] = _blend(coefficients, row, node, c, slope, weights)
            pair[side, 13] = _inverse_sommerfeld(eccentricities[node], pair[side, 1])
        e, inside = eccentricity_for(pair, loads[k])
        found[6, k] = 1.0 if inside else 0.0
        if inside:
            _, attitude, flow, film, full, peak = curve_values(pair, e)
            found[0, k], found[1, k], found[2, k] = e, attitude, flow
            found[3, k], found[4, k], found[5, k] = film, full, peak
        else:
            for c in range(6):
                found[c, k] = np.nan


@njit(cache=True, nogil=True, error_model="numpy")
def _cell(nodes: FloatArray, value: float) -> int:
    low, high = 0, nodes.size - 1
    while high - low > 1:
        middle = (low + high) // 2
        if nodes[middle] <= value:
            low = middle
        else:
            high = middle
    return low


@njit(cache=True, nogil=True, error_model="numpy")
def _cell_of_load(
    eccentricities: FloatArray, coefficients: FloatArray, row: int, weights: FloatArray, load: float
) -> int:
    """Index of the eccentricity below a load, neither before the first nor the last."""
    low, high = 0, eccentricities.size - 1
    while high - low > 1:
        middle = (low + high) // 2
        value = _blend(coefficients, row, middle, 0, 0, weights)
        if _inverse_sommerfeld(eccentricities[middle], value) <= load:
            low = middle
        else:
            high = middle
    return low


@njit(cache=True, nogil=True, error_model="numpy")
def _inverse_sommerfeld(e: float, logarithm: float) -> float:
    square = 1.0 - e * e
    return e * math.exp(logarithm) / (square * square)


@njit(cache=True, nogil=True, error_model="numpy")
def _hermite_weights(first: float, second: float, at: float, weights: FloatArray) -> None:
    """Weights of value and slope at the first node and of value and slope at the second."""
    width = second - first
    t = (at - first) / width
    rest = 1.0 - t
    weights[0] = (1.0 + 2.0 * t) * rest * rest
    weights[1] = t * rest * rest * width
    weights[2] = t * t * (3.0 - 2.0 * t)
    weights[3] = -t * t * rest * width


@njit(cache=True, nogil=True, error_model="numpy")
def _blend(
    coefficients: FloatArray, row: int, node: int, column: int, slope: int, weights: FloatArray
) -> float:
    """A regular function at a node of the eccentricity (or its slope there), between two length ratios."""
    below, above = coefficients[row, node, column], coefficients[row + 1, node, column]
    first: float = weights[0] * below[slope] + weights[1] * below[2 + slope]
    second: float = weights[2] * above[slope] + weights[3] * above[2 + slope]
    return first + second
