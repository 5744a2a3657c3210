"""How far a fastener and the parts that it clamps give under load."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise
from typing import Final

from fitwright.physics.fasteners.friction import Bearing
from fitwright.physics.fasteners.thread import Thread
from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, MetrePerNewton, Number, Pascal, PerKelvin

STEEL_MODULUS: Final[Pascal] = 205e9
"""Elastic modulus of fastener steel at room temperature [Pa]."""


@dataclass(frozen=True, slots=True)
class ShankSection:
    """A length of shank with one diameter.

    Attributes
    ----------
    length : float [m]
        Length within the grip.
    diameter : float [m]
        Diameter.

    Raises
    ------
    OutOfDomainError
        If one of them is not above zero.
    """

    length: Metre
    diameter: Metre

    def __post_init__(self) -> None:
        require_above_zero(length=self.length, diameter=self.diameter)


class Anchor(Enum):
    """What the thread is screwed into."""

    NUT = "nut"
    TAPPED_HOLE = "tapped hole"


class Head(Enum):
    """The kind of head, by how deep it gives; a stud has none, and its other thread is another anchor."""

    HEXAGON = "hexagon"
    SOCKET = "socket"


_HEAD_DEPTH: Final = {Head.HEXAGON: 0.5, Head.SOCKET: 0.4}
_ANCHOR_DEPTH: Final = {Anchor.NUT: 0.4, Anchor.TAPPED_HOLE: 0.33}
_ENGAGED_DEPTH: Final = 0.5


def grip_resilience(
    thread: Thread,
    sections: Sequence[ShankSection],
    *,
    free_thread_length: Metre = 0.0,
    elastic_modulus: Pascal = STEEL_MODULUS,
) -> MetrePerNewton:
    r"""Lengthening of the grip alone for each newton: what a stretch gauge sees.

    Parameters
    ----------
    thread : Thread
        The thread.
    sections : sequence of ShankSection
        The plain lengths of the shank.
    free_thread_length : float [m]
        Length of thread within the grip, counted with the stress area.
    elastic_modulus : float [Pa]
        Of the fastener.

    Returns
    -------
    float [m/N]
        Resilience.

    Raises
    ------
    OutOfDomainError
        If there is no length at all, or the modulus is not above zero.

    Notes
    -----
    .. math:: \delta = \frac1E \left(\sum \frac{l_i}{A_i} + \frac{l_t}{A_s}\right)

    References
    ----------
    [bickford1995] stretch of a bolt by its sections

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> shank = [ShankSection(0.026, 0.0078)]
    >>> given = grip_resilience(thread_by_sizes(0.009, 0.001), shank, free_thread_length=0.012)
    >>> round(given * 39.4e3 * 1e3, 3)
    0.15
    """
    require_above_zero(elastic_modulus=elastic_modulus)
    require_within(free_thread_length=free_thread_length)
    if not sections and not free_thread_length:
        raise OutOfDomainError("sections", 0, "at least one, or some free thread")
    return (_lengths_over_areas(sections) + free_thread_length / thread.stress_area) / elastic_modulus


def bolt_resilience(
    thread: Thread,
    sections: Sequence[ShankSection],
    *,
    free_thread_length: Metre = 0.0,
    elastic_modulus: Pascal = STEEL_MODULUS,
    head: Head | None = Head.HEXAGON,
    anchor: Anchor = Anchor.NUT,
    anchor_modulus: Pascal | None = None,
) -> MetrePerNewton:
    r"""Lengthening of a whole fastener for each newton: head, shank, thread and what holds it.

    Parameters
    ----------
    thread : Thread
        The thread.
    sections : sequence of ShankSection
        The plain lengths of the shank.
    free_thread_length : float [m]
        Length of thread within the grip, counted with the root area.
    elastic_modulus : float [Pa]
        Of the fastener.
    head : Head, optional
        Kind of head; None for a stud, of which the other end is counted as a second tapped hole.
    anchor : Anchor
        What the thread is screwed into.
    anchor_modulus : float [Pa], optional
        Elastic modulus of nut or parent metal; that of the fastener where it is not given.

    Returns
    -------
    float [m/N]
        Resilience.

    Raises
    ------
    OutOfDomainError
        If a modulus is not above zero or a length is negative.

    Notes
    -----
    .. math:: \delta_S = \frac{k_h d}{E A_N} + \sum \frac{l_i}{E A_i} + \frac{l_t}{E A_3}
              + \frac{0.5 d}{E A_3} + \frac{k_a d}{E_a A_N}

    with k_h = 0.5 (hexagon) or 0.4 (socket), k_a = 0.4 (nut) or 0.33 (tapped hole), A_N the area of the
    nominal diameter and A_3 that of the root.

    References
    ----------
    [vdi2230_1_2015] 5.1.1, resilience of the bolt

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> round(bolt_resilience(thread_by_sizes(0.010, 0.0015), [ShankSection(0.020, 0.010)],
    ...                       free_thread_length=0.010) * 1e9, 2)
    3.2
    """
    require_above_zero(elastic_modulus=elastic_modulus)
    require_within(free_thread_length=free_thread_length)
    modulus = elastic_modulus if anchor_modulus is None else anchor_modulus
    require_above_zero(anchor_modulus=modulus)
    shank = _lengths_over_areas(sections) + free_thread_length / thread.root_area
    given = shank / elastic_modulus + _anchored(thread, elastic_modulus, anchor, modulus)
    if head is None:
        return given + _anchored(thread, elastic_modulus, Anchor.TAPPED_HOLE, modulus)
    return given + _HEAD_DEPTH[head] * _over_nominal_area(thread) / elastic_modulus


def _anchored(thread: Thread, modulus: Pascal, anchor: Anchor, anchor_modulus: Pascal) -> MetrePerNewton:
    """The engaged thread and what gives around it."""
    engaged = _ENGAGED_DEPTH * thread.nominal_diameter / thread.root_area / modulus
    return engaged + _ANCHOR_DEPTH[anchor] * _over_nominal_area(thread) / anchor_modulus


def _over_nominal_area(thread: Thread) -> float:
    return thread.nominal_diameter / (0.25 * math.pi * thread.nominal_diameter**2)


def _lengths_over_areas(sections: Sequence[ShankSection]) -> float:
    return sum(each.length / (0.25 * math.pi * each.diameter**2) for each in sections)


@dataclass(frozen=True, slots=True)
class ClampedLayer:
    """One clamped part or washer, in the order from the head.

    Attributes
    ----------
    length : float [m]
        Thickness within the grip.
    elastic_modulus : float [Pa]
        Of its material.
    expansion_coefficient : float [1/K]
        Of its material; only for `preload_at_temperature`.

    Raises
    ------
    OutOfDomainError
        If length or modulus is not above zero.
    """

    length: Metre
    elastic_modulus: Pascal
    expansion_coefficient: PerKelvin = 0.0

    def __post_init__(self) -> None:
        require_above_zero(length=self.length, elastic_modulus=self.elastic_modulus)


def cone_slope(grip: Metre, bearing: Bearing, outside_diameter: Metre, anchor: Anchor) -> Number:
    r"""Tangent of the angle at which pressure spreads into clamped parts.

    Parameters
    ----------
    grip : float [m]
        Length clamped.
    bearing : Bearing
        Ring under the head.
    outside_diameter : float [m]
        Of the clamped parts where they meet, or of the largest circle round the bolt within them.
    anchor : Anchor
        A nut lets pressure spread from both ends, a tapped hole from the head alone.

    Returns
    -------
    float [1]
        Tangent of the half angle of the cone.

    Raises
    ------
    OutOfDomainError
        If the grip is not above zero.

    Notes
    -----
    With beta = l / d_w and y = D / d_w:

    .. math:: \tan\varphi = 0.362 + 0.032 \ln(\beta / 2) + 0.153 \ln y \quad \text{(nut)}, \qquad
              \tan\varphi = 0.348 + 0.013 \ln\beta + 0.193 \ln y \quad \text{(tapped hole)}

    Fitted by the source to finite elements of ordinary joints; kept within 0.2 to 0.8 here.

    References
    ----------
    [vdi2230_1_2015] 5.1.2, substitutional deformation cone

    Examples
    --------
    >>> round(cone_slope(0.030, Bearing(0.01463, 0.011), 0.030, Anchor.NUT), 3)
    0.473
    """
    require_above_zero(grip=grip, outside_diameter=outside_diameter)
    slender = grip / bearing.outer_diameter
    wide = math.log(max(outside_diameter / bearing.outer_diameter, 1.0))
    if anchor is Anchor.NUT:
        found = 0.362 + 0.032 * math.log(slender / 2.0) + 0.153 * wide
    else:
        found = 0.348 + 0.013 * math.log(slender) + 0.193 * wide
    return min(max(found, 0.2), 0.8)


def clamped_resilience(
    layers: Sequence[ClampedLayer],
    bearing: Bearing,
    *,
    outside_diameter: Metre,
    anchor: Anchor = Anchor.NUT,
) -> MetrePerNewton:
    r"""Shortening of clamped parts for each newton, between concentric faces.

    Parameters
    ----------
    layers : sequence of ClampedLayer
        Parts in the order from the head.
    bearing : Bearing
        Ring under the head; under a nut it is taken to be the same.
    outside_diameter : float [m]
        Of the clamped parts, or of the largest circle round the bolt within them.
    anchor : Anchor
        A nut lets pressure spread from both ends, a tapped hole from the head alone.

    Returns
    -------
    float [m/N]
        Resilience.

    Raises
    ------
    OutOfDomainError
        If there is no layer, or the parts are no wider than the hole.

    Notes
    -----
    Pressure fills a cone that widens from the bearing ring until it reaches the outside, and from there on a
    sleeve. Over each layer

    .. math:: \delta = \int \frac{4 \, dz}{E \pi (D(z)^2 - d_h^2)}

    in closed form. Parts narrower than the ring are a sleeve throughout. For joints whose bolt stands in the
    middle of what it clamps and whose faces stay closed.

    References
    ----------
    [vdi2230_1_2015] 5.1.2, substitutional deformation cone

    Examples
    --------
    >>> round(clamped_resilience([ClampedLayer(0.030, 205e9)], Bearing(0.01463, 0.011),
    ...                          outside_diameter=0.030) * 1e9, 3)
    0.687
    """
    if not layers:
        raise OutOfDomainError("layers", 0, "at least one")
    hole = bearing.hole_diameter
    if not outside_diameter > hole:
        raise OutOfDomainError("outside_diameter", outside_diameter, f"above the hole's diameter ({hole})")
    grip = sum(each.length for each in layers)
    slope = cone_slope(grip, bearing, outside_diameter, anchor)
    cone = _Cone(grip, min(bearing.outer_diameter, outside_diameter), outside_diameter, hole, slope, anchor)
    total, start = 0.0, 0.0
    for layer in layers:
        total += cone.lengths_over_areas(start, start + layer.length) / layer.elastic_modulus
        start += layer.length
    return total


@dataclass(frozen=True, slots=True)
class _Cone:
    """The widening body that carries pressure: diameter by depth, and lengths over areas in closed form."""

    grip: Metre
    start: Metre
    outside: Metre
    hole: Metre
    slope: Number
    anchor: Anchor

    def lengths_over_areas(self, begin: Metre, end: Metre) -> float:
        middle = 0.5 * self.grip if self.anchor is Anchor.NUT else self.grip
        full = (self.outside - self.start) / (2.0 * self.slope)
        corners = sorted({begin, end, *(z for z in (middle, full, self.grip - full) if begin < z < end)})
        return sum(self._between(one, two) for one, two in pairwise(corners))

    def _between(self, begin: Metre, end: Metre) -> float:
        first, last = self._diameter(begin), self._diameter(end)
        if math.isclose(first, last, rel_tol=1e-9):
            return 4.0 * (end - begin) / (math.pi * (first**2 - self.hole**2))
        low, high = min(first, last), max(first, last)
        spread = (high - self.hole) * (low + self.hole) / ((high + self.hole) * (low - self.hole))
        slope = (high - low) / (2.0 * (end - begin))
        return math.log(spread) / (math.pi * self.hole * slope)

    def _diameter(self, depth: Metre) -> Metre:
        reach = min(depth, self.grip - depth) if self.anchor is Anchor.NUT else depth
        return min(self.start + 2.0 * self.slope * reach, self.outside)
