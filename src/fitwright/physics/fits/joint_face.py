"""A housing's joint face that must end up level with its neighbour after the move that centres the housing.

Heights are those of the housing's face above its neighbour's, positive upwards, at places that lie `x` to
the right of the shaft. Turning the housing clockwise about the shaft lowers its right side.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from fitwright.physics.fits.centring import Vector
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.numerics.half_planes import clip_polygon
from fitwright.quantity import FloatArray, Metre, Metres, Number, Radian


@dataclass(frozen=True, slots=True)
class JointFaceLimits:
    """How far a joint face may be out.

    Attributes
    ----------
    step : float [m]
        Largest height of the face above or below its neighbour.
    tilt : float [1]
        Largest difference of height per distance between any two places; infinite for no limit.
    """

    step: Metre
    tilt: Number = math.inf


@dataclass(frozen=True, slots=True)
class JointMove:
    """Whether a housing can be centred and its joint face kept level by one move.

    Attributes
    ----------
    possible : bool
        Whether some move meets both conditions.
    level_moves : ndarray, shape (m, 2)
        Corners of the moves that keep the face level: up [m] and clockwise turn [rad]; none if no move does.
    lowest_up, highest_up : float [m]
        Range of upward moves that keep the face level; NaN if there is none.
    up_for_centring : tuple of float [m]
        Range of upward moves that bring the offset within its limit.
    best_move : Vector or None
        The move that centres best among those that keep the face level.
    best_turn : float [rad]
        Clockwise turn that goes with it.
    offset_left : float [m]
        Magnitude of the offset that this move leaves; NaN without one.
    step_left : float [m]
        Largest step of the joint face that it leaves; NaN without one.
    """

    possible: bool
    level_moves: FloatArray = field(compare=False)  # an array has no one answer to "equal"; the rest follows
    lowest_up: Metre
    highest_up: Metre
    up_for_centring: tuple[float, float]
    best_move: Vector | None
    best_turn: Radian
    offset_left: Metre
    step_left: Metre


def face_tilt(heights: Metres, positions: Metres) -> Number:
    r"""Tilt of a joint face: slope of the line through heights at two or more places.

    Parameters
    ----------
    heights : array_like [m], shape (n)
        Height of the housing's face above its neighbour's.
    positions : array_like [m], shape (n)
        How far to the right of the shaft each height was read.

    Returns
    -------
    float [1]
        Rise per distance to the right, by least squares.

    Raises
    ------
    OutOfDomainError
        If there are not two different positions, or the shapes differ.

    Notes
    -----
    .. math:: \frac{\sum (x_i - \bar x)(h_i - \bar h)}{\sum (x_i - \bar x)^2}

    References
    ----------
    [jcgm100_2008] H.3, straight line by least squares

    Examples
    --------
    >>> round(face_tilt([0.02e-3, 0.06e-3], [-0.05, 0.05]), 6)
    0.0004
    """
    h, x = _checked(heights, positions)
    return float((x - x.mean()) @ (h - h.mean()) / np.sum((x - x.mean()) ** 2))


def move_with_joint_face(
    offset: Vector,
    offset_limit: Metre,
    *,
    heights: Metres,
    positions: Metres,
    limits: JointFaceLimits,
    largest_turn: Radian = 0.0,
) -> JointMove:
    r"""Find the move that centres a housing while its joint face stays level.

    Parameters
    ----------
    offset : Vector
        Where the housing's centre lies now, seen from the shaft.
    offset_limit : float [m]
        Largest magnitude of the offset.
    heights : array_like [m], shape (n)
        Height of the housing's joint face above its neighbour's, now.
    positions : array_like [m], shape (n)
        How far to the right of the shaft each height was read.
    limits : JointFaceLimits
        What the joint face may be out.
    largest_turn : float [rad]
        How far the housing can be turned about the shaft either way; zero where dowels forbid it.

    Returns
    -------
    JointMove
        Whether both conditions can hold together, the moves that keep the face level, and the best one.

    Raises
    ------
    OutOfDomainError
        If there are not two different positions, or a limit is negative.

    Notes
    -----
    A move up by m and a clockwise turn by w change the heights; turning about the shaft leaves the offset:

    .. math:: h_i' = h_i + m - w x_i, \quad |h_i'| \le s, \quad |h_i' - h_j'| \le t |x_i - x_j|

    These half planes bound a convex polygon of (m, w). What is left of the offset grows with the distance
    of m from the centring move, so the best m is the nearest in the polygon's range; among its turns the one
    with the least step wins. Uncertainty is left to the caller, who takes it off the limits.

    References
    ----------
    [sutherland1974] clipping by half planes

    Examples
    --------
    The pump has to rise by 0.10 mm, but its face stands only 0.03 mm low:

    >>> joint = move_with_joint_face(
    ...     Vector(0.0, -0.10e-3), 0.05e-3, heights=[-0.03e-3, -0.03e-3], positions=[-0.04, 0.04],
    ...     limits=JointFaceLimits(step=0.04e-3))
    >>> joint.possible, round(joint.best_move.up * 1e3, 3), round(joint.offset_left * 1e3, 3)
    (True, 0.07, 0.03)
    """
    h, x = _checked(heights, positions)
    if min(offset_limit, limits.step, limits.tilt, largest_turn) < 0.0:
        raise OutOfDomainError("limits", (offset_limit, limits, largest_turn), "zero or more")
    polygon = _level_moves(h, x, limits, largest_turn)
    for_centring = (-offset.up - offset_limit, -offset.up + offset_limit)
    if not len(polygon):
        nan = math.nan
        return JointMove(
            possible=False,
            level_moves=polygon,
            lowest_up=nan,
            highest_up=nan,
            up_for_centring=for_centring,
            best_move=None,
            best_turn=0.0,
            offset_left=nan,
            step_left=nan,
        )
    lowest, highest = float(polygon[:, 0].min()), float(polygon[:, 0].max())
    up = min(max(-offset.up, lowest), highest)
    turn = _best_turn(h, x, up, polygon)
    left = Vector(0.0, offset.up + up)
    return JointMove(
        possible=left.magnitude <= offset_limit,
        level_moves=polygon,
        lowest_up=lowest,
        highest_up=highest,
        up_for_centring=for_centring,
        best_move=Vector(-offset.right, up),
        best_turn=turn,
        offset_left=left.magnitude,
        step_left=float(np.abs(h + up - turn * x).max()),
    )


def _level_moves(h: FloatArray, x: FloatArray, limits: JointFaceLimits, largest_turn: Radian) -> FloatArray:
    """Corners of the (up, turn) polygon, scaled to lengths while it is cut so that rounding stays even."""
    reach = float(np.abs(x).max())
    if math.isinf(limits.step):
        raise OutOfDomainError("limits.step", limits.step, "finite")
    far = limits.step + float(np.abs(h).max()) + largest_turn * reach
    swing = largest_turn * reach
    corners = np.array([[-far, -swing], [far, -swing], [far, swing], [-far, swing]])
    arms = x / reach
    for height, arm in zip(h, arms, strict=True):
        corners = clip_polygon(corners, [1.0, -arm], limits.step - height)
        corners = clip_polygon(corners, [-1.0, arm], limits.step + height)
    for normal, bound in _tilt_cuts(h, x, arms, limits.tilt):
        corners = clip_polygon(corners, normal, bound)
    return np.asarray(corners / np.array([1.0, reach]))


def _tilt_cuts(
    h: FloatArray, x: FloatArray, arms: FloatArray, tilt: Number
) -> Sequence[tuple[tuple[float, float], float]]:
    if math.isinf(tilt):
        return []
    cuts = []
    for i in range(h.size):
        for j in range(h.size):
            if x[i] != x[j]:
                allowed = tilt * abs(float(x[i] - x[j]))
                cuts.append(((0.0, float(arms[j] - arms[i])), allowed - float(h[i] - h[j])))
    return cuts


def _best_turn(h: FloatArray, x: FloatArray, up: Metre, polygon: FloatArray) -> Radian:
    """Turn with the least step among those that the polygon allows at this upward move."""
    low, high = _turns_at(up, polygon)
    # The largest step is convex in the turn, so its least value lies where two places or ends balance.
    candidates = {low, high}
    for i in range(h.size):
        if x[i] != 0.0:
            candidates.add(float((h[i] + up) / x[i]))
        for j in range(i):
            for sign in (1.0, -1.0):
                slope = x[i] - sign * x[j]
                if slope != 0.0:
                    candidates.add(float((h[i] + up - sign * (h[j] + up)) / slope))
    allowed = [turn for turn in candidates if low <= turn <= high]
    return min(allowed, key=lambda turn: (float(np.abs(h + up - turn * x).max()), abs(turn)))


def _turns_at(up: Metre, polygon: FloatArray) -> tuple[float, float]:
    """Range of the second coordinate on the vertical line at `up` through a convex polygon."""
    crossings: list[float] = []
    for (m1, w1), (m2, w2) in zip(polygon, np.roll(polygon, -1, axis=0), strict=True):
        if min(m1, m2) <= up <= max(m1, m2):
            crossings += [w1, w2] if m1 == m2 else [w1 + (up - m1) / (m2 - m1) * (w2 - w1)]
    return float(min(crossings)), float(max(crossings))


def _checked(heights: Metres, positions: Metres) -> tuple[FloatArray, FloatArray]:
    h, x = np.asarray(heights, dtype=float), np.asarray(positions, dtype=float)
    if h.ndim != 1 or h.shape != x.shape or h.size < 2 or np.ptp(x) == 0.0:
        raise OutOfDomainError("positions", x.tolist(), "two or more different places, one per height")
    return h, x
