"""What blade readings round a shaft leave possible for the housing's offset.

A blade that goes, drags or does not go bounds the gap at its station. All bounds together leave a polygon
of offsets: exact, whatever the chances inside it. Thickness uncertainty is not in it; see offset_posterior.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.physics.fits.centring import (
    ALL_UNKNOWNS,
    OFFSET_UNKNOWNS,
    Vector,
    gap_design,
    tells_apart,
)
from fitwright.physics.metrology.unknowns import require_uncertainty
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.numerics.half_planes import nearest_to_origin, polygon_area, polygon_centroid
from fitwright.quantity import FloatArray, Metre, Radian

_TOUCH = 1e-7
"""Share of the largest bound that counts as nothing: the tolerance of the linear programmes."""

_SHARED_UNKNOWNS = slice(1, 3)
_OPEN = 3
"""Status of a linear programme whose objective has no end."""


@dataclass(frozen=True, slots=True)
class GapBounds:
    """What blades say about the gap at one station: at_least <= gap < at_most.

    Attributes
    ----------
    station_angle : float [rad]
        Where round the shaft, from the top, clockwise seen from the nose.
    shaft_angle : float [rad]
        Shaft angle at the reading.
    at_least : float [m]
        Thickness that goes (with drag for one that goes freely); zero if none went.
    at_most : float [m]
        Thickness that does not go; infinite if all went.
    at_least_standard_uncertainty : float [m]
        Standard uncertainty of the lower bound.
    at_most_standard_uncertainty : float [m]
        Standard uncertainty of the upper bound.
    """

    station_angle: Radian
    shaft_angle: Radian
    at_least: Metre = 0.0
    at_most: Metre = math.inf
    at_least_standard_uncertainty: Metre = 0.0
    at_most_standard_uncertainty: Metre = 0.0


@dataclass(frozen=True, slots=True)
class OffsetPolygon:
    """Offsets of the housing that agree with every blade.

    Attributes
    ----------
    vertices : ndarray [m], shape (m, 2)
        Corners right, up, counter-clockwise; none where it is open or contradictory.
    centroid : Vector or None
        Centre of area: the best estimate if every offset inside is equally likely.
    least_offset : float [m]
        Smallest magnitude inside; NaN where contradictory.
    greatest_offset : float [m]
        Largest magnitude inside; infinite where open, NaN where contradictory.
    open_towards : tuple of float [rad]
        Directions (top, right, bottom, left) in which no blade bounds the offset.
    contradicting : tuple of int
        Positions of readings that cannot all be right; leaving any one of them out mends these.
    widening : float [m]
        By how much every bound would have to give way for the contradiction to end.
    run_out_included : bool
        Whether the shaft's run-out was an unknown of its own.
    """

    vertices: FloatArray
    centroid: Vector | None
    least_offset: Metre
    greatest_offset: Metre
    open_towards: tuple[float, ...]
    contradicting: tuple[int, ...]
    widening: Metre
    run_out_included: bool


def offset_polygon(bounds: Sequence[GapBounds]) -> OffsetPolygon:
    r"""Polygon of housing offsets that blade readings leave possible.

    Parameters
    ----------
    bounds : sequence of GapBounds
        One per station and shaft angle.

    Returns
    -------
    OffsetPolygon
        Corners, centroid, least and greatest offset; or what contradicts; or where it is open.

    Raises
    ------
    OutOfDomainError
        If there is no reading, or an upper bound lies below its lower bound.

    Notes
    -----
    With the gap model :math:`g = A p`, mean gap (and run-out, where shaft angles tell it apart) free:

    .. math:: \{(e_r, e_u) : \exists p,\ l \le A p \le u\}

    Corners are found one by one as extreme points of linear programmes, each side being searched outwards
    until nothing lies beyond it. Contradicting readings are thinned out one by one until every one of them
    is needed for the contradiction.

    References
    ----------
    [lassez1992] extreme points of a projection by linear programmes; [golub2013] 5.5 for the rank

    Examples
    --------
    >>> turn = [math.radians(angle) for angle in (0, 90, 180, 270)]
    >>> found = offset_polygon([GapBounds(a, 0.0, low * 1e-3, high * 1e-3) for a, low, high in
    ...     zip(turn, (0.06, 0.15, 0.25, 0.20), (0.08, 0.20, 0.30, 0.25))])
    >>> round(found.centroid.up * 1e3, 4), round(found.greatest_offset * 1e3, 4)
    (-0.1093, 0.1237)
    """
    if not bounds:
        raise OutOfDomainError("bounds", bounds, "at least one reading")
    require_gap_bounds(bounds)
    design = gap_design([b.station_angle for b in bounds], [b.shaft_angle for b in bounds])
    unknowns = ALL_UNKNOWNS if tells_apart(design, ALL_UNKNOWNS) else OFFSET_UNKNOWNS
    system = _Inequalities.of(design[:, :unknowns], bounds)
    with_run_out = unknowns == ALL_UNKNOWNS
    widening = system.least_widening()
    if widening > _TOUCH:
        return _no_polygon(
            run_out_included=with_run_out,
            contradicting=_needed_for_contradiction(system),
            widening=widening * system.scale,
        )
    system = system.widened(widening + _TOUCH)
    open_towards = tuple(
        angle
        for angle in (0.0, 0.5 * math.pi, math.pi, 1.5 * math.pi)
        if system.farthest(_unit(angle)) is None
    )
    if open_towards:
        return _no_polygon(run_out_included=with_run_out, open_towards=open_towards)
    corners = _corners(system) * system.scale
    centre = polygon_centroid(corners)
    return OffsetPolygon(
        vertices=corners,
        centroid=Vector(float(centre[0]), float(centre[1])),
        least_offset=nearest_to_origin(corners),
        greatest_offset=float(np.hypot(corners[:, 0], corners[:, 1]).max()),
        open_towards=(),
        contradicting=(),
        widening=0.0,
        run_out_included=with_run_out,
    )


def greatest_gaps(design: FloatArray, lower: FloatArray, upper: FloatArray) -> FloatArray:
    r"""Largest gap at each station that the bounds of all stations together leave.

    Parameters
    ----------
    design : ndarray [1], shape (n, k)
        Columns of `gap_design` for the unknowns.
    lower, upper : ndarray [m], shape (n)
        Bounds of each gap; infinite where nothing bounds it from above.

    Returns
    -------
    ndarray [m], shape (n)
        Upper bounds: those given, and where there was none the largest gap that the others leave, infinite if
        they leave it open too. Bounds that contradict each other are returned as they are.

    Notes
    -----
    .. math:: \max_p\, a_i \cdot p, \quad l \le A p \le u

    References
    ----------
    [lassez1992] extreme points by linear programmes

    Examples
    --------
    Top and bottom between 0.20 and 0.25, right and left above 0.15, so the sum of either pair is up to 0.50:

    >>> compass = gap_design(np.radians([0.0, 90.0, 180.0, 270.0]), 0.0)[:, :3]
    >>> greatest_gaps(
    ...     compass, np.array([0.2, 0.15, 0.2, 0.15]), np.array([0.25, np.inf, 0.25, np.inf])
    ... ).round(3).tolist()
    [0.25, 0.35, 0.25, 0.35]
    """
    open_above = np.flatnonzero(np.isinf(upper))
    scale = float(np.abs(np.concatenate([lower, upper[np.isfinite(upper)]])).max()) or 1.0
    system = _Inequalities(design, lower / scale, upper / scale, scale)
    if not open_above.size or system.least_widening() > _TOUCH:
        return upper
    rows, ends = system.widened(_TOUCH).rows()
    closed = upper.copy()
    for i in open_above:
        found = _least(-design[i], rows, ends, [(None, None)] * rows.shape[1])
        closed[i] = math.inf if found is None else float(design[i] @ found) * scale
    return closed


def require_gap_bounds(bounds: Sequence[GapBounds]) -> None:
    """Refuse bounds that mean nothing.

    Parameters
    ----------
    bounds : sequence of GapBounds
        What blades say of gaps.

    Raises
    ------
    OutOfDomainError
        If a lower bound is negative or above its upper bound, or a number is not finite.
    """
    for i, b in enumerate(bounds):
        if not 0.0 <= b.at_least <= b.at_most or math.isinf(b.at_least):
            raise OutOfDomainError(
                f"gap bounds of reading {i + 1}",
                (b.at_least, b.at_most),
                "a lower bound of zero or more, then an upper",
            )
        if not (math.isfinite(b.station_angle) and math.isfinite(b.shaft_angle)):
            raise OutOfDomainError(
                f"angles of reading {i + 1}", (b.station_angle, b.shaft_angle), "finite, in radians"
            )
        for u in (b.at_least_standard_uncertainty, b.at_most_standard_uncertainty):
            require_uncertainty(f"uncertainty of the gap bounds of reading {i + 1}", u)


@dataclass(frozen=True, slots=True)
class _Inequalities:
    """lower <= design p <= upper, in units of `scale`."""

    design: FloatArray
    lower: FloatArray
    upper: FloatArray
    scale: Metre

    @classmethod
    def of(cls, design: FloatArray, bounds: Sequence[GapBounds]) -> _Inequalities:
        lower = np.array([b.at_least for b in bounds])
        upper = np.array([b.at_most for b in bounds])
        finite = np.concatenate([lower, upper[np.isfinite(upper)]])
        scale = float(finite.max()) or 1.0
        return cls(design, lower / scale, upper / scale, scale)

    def without(self, left_out: set[int]) -> _Inequalities:
        kept = [i for i in range(len(self.design)) if i not in left_out]
        return _Inequalities(self.design[kept], self.lower[kept], self.upper[kept], self.scale)

    def widened(self, by: float) -> _Inequalities:
        return _Inequalities(self.design, self.lower - by, self.upper + by, self.scale)

    def rows(self) -> tuple[FloatArray, FloatArray]:
        """Left and right sides of `rows p <= ends`, open bounds left out."""
        closed = np.isfinite(self.upper)
        return (
            np.concatenate([-self.design, self.design[closed]]),
            np.concatenate([-self.lower, self.upper[closed]]),
        )

    def least_widening(self) -> float:
        """Least amount by which all bounds together must give way so that some p remains."""
        rows, ends = self.rows()
        unknowns = rows.shape[1]
        found = _least(
            np.append(np.zeros(unknowns), 1.0),
            np.column_stack([rows, -np.ones(len(rows))]),
            ends,
            [(None, None)] * unknowns + [(0.0, None)],
        )
        if found is None:
            # The objective is at least zero, so it always has an end.
            raise NotConvergedError("linear programme of the gap bounds", 0, math.inf, _TOUCH)
        return float(found[-1])

    def farthest(self, direction: FloatArray) -> FloatArray | None:
        """Offset that lies farthest in a direction; None where there is no end."""
        rows, ends = self.rows()
        objective = np.zeros(rows.shape[1])
        objective[_SHARED_UNKNOWNS] = -direction
        found = _least(objective, rows, ends, [(None, None)] * rows.shape[1])
        return None if found is None else found[_SHARED_UNKNOWNS]


def _least(
    objective: FloatArray,
    rows: FloatArray,
    ends: FloatArray,
    ranges: Sequence[tuple[float | None, float | None]],
) -> FloatArray | None:
    """Minimise `objective p` subject to `rows p <= ends`; None where it has no end."""
    from scipy.optimize import linprog  # half a second to load, and only blades need it

    found = linprog(objective, A_ub=rows, b_ub=ends, bounds=ranges, method="highs")
    if found.status == _OPEN:
        return None
    if found.status != 0:
        raise NotConvergedError("linear programme of the gap bounds", int(found.nit), math.inf, _TOUCH)
    return np.asarray(found.x, dtype=float)


def _corners(system: _Inequalities) -> FloatArray:
    """Corners of the projected polygon, counter-clockwise, by searching outwards from each side."""
    ring = [system.farthest(_unit(angle)) for angle in (1.5 * math.pi, math.pi, 0.5 * math.pi, 0.0)]
    corners = _without_repeats([corner for corner in ring if corner is not None][::-1])
    corners = _counter_clockwise(corners)
    i = 0
    while len(corners) > 1 and i < len(corners):
        start, end = corners[i], corners[(i + 1) % len(corners)]
        side = end - start
        outward = np.array([side[1], -side[0]]) / math.hypot(*side)
        beyond = system.farthest(outward)
        if beyond is not None and outward @ (beyond - start) > 10.0 * _TOUCH:
            corners.insert(i + 1, beyond)
        else:
            i += 1
    return np.array(_without_straight_corners(corners))


def _counter_clockwise(corners: list[FloatArray]) -> list[FloatArray]:
    return corners if len(corners) < 3 or polygon_area(np.array(corners)) >= 0.0 else corners[::-1]


def _without_repeats(corners: list[FloatArray]) -> list[FloatArray]:
    kept: list[FloatArray] = []
    for corner in corners:
        if all(math.hypot(*(corner - other)) > 10.0 * _TOUCH for other in kept):
            kept.append(corner)
    return kept


def _without_straight_corners(corners: list[FloatArray]) -> list[FloatArray]:
    """Leave out points that a linear programme found in the middle of a side."""
    i = 0
    while len(corners) > 2 and i < len(corners):
        before, after = corners[i - 1], corners[(i + 1) % len(corners)]
        side = after - before
        away = abs(float(side[0] * (corners[i] - before)[1] - side[1] * (corners[i] - before)[0]))
        if away <= 10.0 * _TOUCH * math.hypot(*side):
            del corners[i]
        else:
            i += 1
    return corners


def _needed_for_contradiction(system: _Inequalities) -> tuple[int, ...]:
    """Thin the readings out until leaving out any one more would end the contradiction."""
    left_out: set[int] = set()
    everything = range(len(system.design))
    for i in everything:
        rest = system.without(left_out | {i})
        if len(rest.design) and rest.least_widening() > _TOUCH:
            left_out.add(i)
    return tuple(i for i in everything if i not in left_out)


def _unit(angle: Radian) -> FloatArray:
    return np.array([math.sin(angle), math.cos(angle)])


def _no_polygon(
    *,
    run_out_included: bool,
    open_towards: tuple[float, ...] = (),
    contradicting: tuple[int, ...] = (),
    widening: Metre = 0.0,
) -> OffsetPolygon:
    return OffsetPolygon(
        vertices=np.empty((0, 2)),
        centroid=None,
        least_offset=math.nan if contradicting else 0.0,
        greatest_offset=math.nan if contradicting else math.inf,
        open_towards=open_towards,
        contradicting=contradicting,
        widening=widening,
        run_out_included=run_out_included,
    )
