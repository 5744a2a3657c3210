"""Linear equations of a film: a band, with a border for the ring that a full circumference closes."""

from __future__ import annotations

import numpy as np
from numba import njit

from fitwright.quantity import FloatArray


@njit(cache=True, nogil=True, error_model="numpy", fastmath={"contract", "nsz", "reassoc"})
def factor_band(band: FloatArray, width: int) -> None:
    """Factor a band in place without pivoting; for matrices whose columns are dominated by the diagonal.

    Parameters
    ----------
    band : array (n, 2 width + 1)
        Row i holds columns i - width to i + width; left of the diagonal stand the multipliers afterwards.
    width : int
        Columns on either side of the diagonal.

    References
    ----------
    [golub2013] band Gaussian elimination
    """
    count = band.shape[0]
    # Two rows at a time, apart from the band: half the passes over it, and no care for overlaps in them.
    first, second = np.empty(width), np.empty(width)
    for k in range(0, count - 1, 2):
        across = band[k, width + 1]
        pivot = 1.0 / band[k, width]
        multiplier = band[k + 1, width - 1] * pivot
        band[k + 1, width - 1] = multiplier
        for j in range(width):
            band[k + 1, width + j] -= multiplier * band[k, width + 1 + j]
        for j in range(width):
            first[j] = band[k, width + 2 + j] if j + 1 < width else 0.0
            second[j] = band[k + 1, width + 1 + j]
        next_pivot = 1.0 / band[k + 1, width]
        for i in range(k + 2, min(k + width + 2, count)):
            at = width + k + 1 - i
            multiplier = band[i, at - 1] * pivot if at > 0 else 0.0
            next_multiplier = (band[i, at] - multiplier * across) * next_pivot
            if multiplier == 0.0 and next_multiplier == 0.0:
                continue
            if at > 0:
                band[i, at - 1] = multiplier
            band[i, at] = next_multiplier
            for j in range(width):
                band[i, at + 1 + j] -= multiplier * first[j] + next_multiplier * second[j]


@njit(cache=True, nogil=True, error_model="numpy", fastmath={"contract", "nsz", "reassoc"})
def solve_band(band: FloatArray, width: int, right: FloatArray) -> None:
    """Solve with a factored band in place.

    Parameters
    ----------
    band : array (n, 2 width + 1)
        From `factor_band`.
    width : int
        Columns on either side of the diagonal.
    right : array (n, m)
        One right side per column; the solutions afterwards.

    References
    ----------
    [golub2013] band triangular systems
    """
    count, sides = right.shape
    for i in range(count):
        for k in range(max(i - width, 0), i):
            multiplier = band[i, width + k - i]
            if multiplier != 0.0:
                for j in range(sides):
                    right[i, j] -= multiplier * right[k, j]
    for i in range(count - 1, -1, -1):
        for k in range(i + 1, min(i + width + 1, count)):
            factor = band[i, width + k - i]
            if factor != 0.0:
                for j in range(sides):
                    right[i, j] -= factor * right[k, j]
        pivot = 1.0 / band[i, width]
        for j in range(sides):
            right[i, j] *= pivot


@njit(cache=True, nogil=True, error_model="numpy", fastmath={"contract", "nsz", "reassoc"})
def solve_band_once(band: FloatArray, width: int, right: FloatArray) -> None:
    """Solve with a factored band in place, for one right side.

    Parameters
    ----------
    band : array (n, 2 width + 1)
        From `factor_band`.
    width : int
        Columns on either side of the diagonal.
    right : array (n,)
        The right side; the solution afterwards.

    References
    ----------
    [golub2013] band triangular systems
    """
    count = right.size
    for i in range(count):
        first = max(i - width, 0)
        right[i] -= _product(band[i, width + first - i : width], right[first:i])
    for i in range(count - 1, -1, -1):
        last = min(i + width + 1, count)
        known = _product(band[i, width + 1 : width + last - i], right[i + 1 : last])
        right[i] = (right[i] - known) / band[i, width]


@njit(cache=True, nogil=True, error_model="numpy", fastmath={"contract", "nsz", "reassoc"})
def _product(first: FloatArray, second: FloatArray) -> float:
    total = 0.0
    for k in range(first.size):
        total += first[k] * second[k]
    return total


@njit(cache=True, nogil=True, error_model="numpy")
def solve_ring(  # noqa: C901 - plain loops over the border
    band: FloatArray,
    width: int,
    right: FloatArray,
    columns: FloatArray,
    rows: FloatArray,
    corner: FloatArray,
    last: FloatArray,
) -> FloatArray:
    """Solve a band with a border: [band columns; rows corner] [x; y] = [right; last].

    Parameters
    ----------
    band : array (n, 2 width + 1)
        Becomes factored.
    width : int
        Columns on either side of the diagonal.
    right : array (n,)
        Right side of the band.
    columns : array (n, m)
        Coefficients of the border's unknowns in the equations of the band.
    rows : array (m, n)
        Coefficients of the band's unknowns in the equations of the border.
    corner : array (m, m)
        The border itself.
    last : array (m,)
        Its right side.

    Returns
    -------
    array (n + m,)
        The unknowns of the band, then those of the border; not numbers if the border is singular.

    References
    ----------
    [golub2013] block elimination
    """
    count, border = columns.shape
    sides = np.empty((count, border + 1))
    for k in range(count):
        for j in range(border):
            sides[k, j] = columns[k, j]
        sides[k, border] = right[k]
    factor_band(band, width)
    solve_band(band, width, sides)
    reduced = np.empty((border, border + 1))
    for i in range(border):
        for j in range(border):
            reduced[i, j] = corner[i, j]
        reduced[i, border] = last[i]
        for k in range(count):
            weight = rows[i, k]
            if weight != 0.0:
                for j in range(border + 1):
                    reduced[i, j] -= weight * sides[k, j]
    found = np.empty(count + border)
    largest = 0.0
    for i in range(border):
        largest = max(largest, abs(corner[i, i]))
    solve_dense(reduced, largest, found[count:])
    for k in range(count):
        value = sides[k, border]
        for j in range(border):
            value -= sides[k, j] * found[count + j]
        found[k] = value
    return found


@njit(cache=True, nogil=True, error_model="numpy")
def solve_dense(matrix: FloatArray, largest: float, found: FloatArray) -> None:
    """Solve with partial pivoting; what is as good as singular gives no numbers.

    Parameters
    ----------
    matrix : array (n, n + 1)
        Coefficients and the right side as the last column; spoiled.
    largest : float
        Size of the coefficients before anything was subtracted from them.
    found : array (n,)
        The solution afterwards.

    References
    ----------
    [golub2013] Gaussian elimination with partial pivoting
    """
    count = found.size
    for k in range(count):
        best = k
        for i in range(k + 1, count):
            if abs(matrix[i, k]) > abs(matrix[best, k]):
                best = i
        for j in range(count + 1):
            matrix[k, j], matrix[best, j] = matrix[best, j], matrix[k, j]
        for i in range(k + 1, count):
            multiplier = matrix[i, k] / matrix[k, k]
            for j in range(k, count + 1):
                matrix[i, j] -= multiplier * matrix[k, j]
    for i in range(count - 1, -1, -1):
        value = matrix[i, count]
        for j in range(i + 1, count):
            value -= matrix[i, j] * found[j]
        found[i] = value / matrix[i, i] if abs(matrix[i, i]) > 1e-14 * largest else np.nan
