"""Convex polygons in the plane, cut by straight lines."""

from __future__ import annotations

import numpy as np

from fitwright.quantity import FloatArray, Numbers


def clip_polygon(vertices: Numbers, normal: Numbers, bound: float) -> FloatArray:
    r"""Cut a convex polygon by a half plane.

    Parameters
    ----------
    vertices : array_like [1], shape (m, 2)
        Corners in order; none for an empty polygon.
    normal : array_like [1], shape (2)
        Normal of the line that cuts, pointing away from what is kept.
    bound : float [1]
        Points with normal . point up to this are kept.

    Returns
    -------
    ndarray [1], shape (k, 2)
        Corners of what is left, in the same order.

    Notes
    -----
    .. math:: \{x \in P : n \cdot x \le b\}

    References
    ----------
    [sutherland1974] clipping a polygon edge by edge

    Examples
    --------
    >>> clip_polygon([[0, 0], [2, 0], [2, 1], [0, 1]], [1, 0], 1.5).tolist()
    [[0.0, 0.0], [1.5, 0.0], [1.5, 1.0], [0.0, 1.0]]
    """
    corners = np.asarray(vertices, dtype=float).reshape(-1, 2)
    over = corners @ np.asarray(normal, dtype=float) - bound
    kept: list[FloatArray] = []
    for i in range(len(corners)):
        j = (i + 1) % len(corners)
        if over[i] <= 0.0:
            kept.append(corners[i])
        if (over[i] <= 0.0) != (over[j] <= 0.0):
            share = over[i] / (over[i] - over[j])
            kept.append(corners[i] + share * (corners[j] - corners[i]))
    return np.array(kept).reshape(-1, 2)


def polygon_area(vertices: Numbers) -> float:
    r"""Area of a polygon, positive when its corners run counter-clockwise.

    Parameters
    ----------
    vertices : array_like [1], shape (m, 2)
        Corners in order.

    Returns
    -------
    float [1]
        Signed area in the square of the corners' unit.

    Notes
    -----
    .. math:: A = \tfrac12 \sum_i (x_i y_{i+1} - x_{i+1} y_i)

    References
    ----------
    [bourke1988] area and centroid of a polygon

    Examples
    --------
    >>> polygon_area([[0, 0], [2, 0], [2, 1], [0, 1]])
    2.0
    """
    x, y = np.asarray(vertices, dtype=float).reshape(-1, 2).T
    return 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def polygon_centroid(vertices: Numbers) -> FloatArray:
    r"""Centre of area of a polygon; of a line or a point, the middle between its extremes.

    Parameters
    ----------
    vertices : array_like [1], shape (m, 2)
        Corners in order, at least one.

    Returns
    -------
    ndarray [1], shape (2)
        Centroid.

    Notes
    -----
    .. math:: c = \frac{1}{6A} \sum_i (v_i + v_{i+1}) (x_i y_{i+1} - x_{i+1} y_i)

    References
    ----------
    [bourke1988] area and centroid of a polygon

    Examples
    --------
    >>> polygon_centroid([[0, 0], [2, 0], [2, 1], [0, 1]]).tolist()
    [1.0, 0.5]
    """
    corners = np.asarray(vertices, dtype=float).reshape(-1, 2)
    middle = 0.5 * (corners.min(axis=0) + corners.max(axis=0))
    around = corners - middle
    following = np.roll(around, -1, axis=0)
    cross = around[:, 0] * following[:, 1] - following[:, 0] * around[:, 1]
    extent = float(np.ptp(corners, axis=0).max())
    if abs(float(cross.sum())) <= 1e-12 * extent**2:
        return np.asarray(middle)
    return np.asarray(middle + ((around + following) * cross[:, None]).sum(axis=0) / (3.0 * cross.sum()))


def nearest_to_origin(vertices: Numbers) -> float:
    r"""Distance from the origin to a convex polygon, zero inside it.

    Parameters
    ----------
    vertices : array_like [1], shape (m, 2)
        Corners in counter-clockwise order, at least one.

    Returns
    -------
    float [1]
        Distance in the corners' unit.

    Notes
    -----
    Least over the sides of the distance to the nearest point of the side.

    References
    ----------
    [bourke1988] distance between a point and a line

    Examples
    --------
    >>> nearest_to_origin([[1, -1], [2, -1], [2, 1], [1, 1]])
    1.0
    """
    corners = np.asarray(vertices, dtype=float).reshape(-1, 2)
    sides = np.roll(corners, -1, axis=0) - corners
    inside = len(corners) > 2 and bool(
        np.all(sides[:, 0] * -corners[:, 1] + sides[:, 1] * corners[:, 0] >= 0.0)
    )
    if inside and polygon_area(corners) > 0.0:
        return 0.0
    length2 = np.maximum(np.sum(sides**2, axis=1), np.finfo(float).tiny)
    along = np.clip(-np.sum(corners * sides, axis=1) / length2, 0.0, 1.0)
    feet = corners + along[:, None] * sides
    return float(np.min(np.hypot(feet[:, 0], feet[:, 1])))
