"""Preload from an angle past a snug torque, and what a castle nut adds on its way to the next slot."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from fitwright.physics.fasteners.band import PreloadBand
from fitwright.physics.fasteners.thread import Thread
from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import MetrePerNewton, Newton, Number, Radian

ANGLE_SPREAD: Final[Radian] = math.radians(3.0)
"""Half-width of the 95 % interval of an angle read on a gauge with a fixed arm [rad]."""
JOINT_SPREAD: Final[Number] = 0.15
"""Half-width of the 95 % interval of a joint's resilience as computed, over it."""


@dataclass(frozen=True, slots=True)
class AngledPreload:
    """Preload after torque and angle.

    Attributes
    ----------
    band : PreloadBand
        As if the fastener stayed elastic, or capped by its yield where that was given.
    by_angle : float [N]
        What the angle adds while the fastener is elastic.
    yields : bool
        Whether the onset of yield is within the band or below it.
    """

    band: PreloadBand
    by_angle: Newton
    yields: bool


@dataclass(frozen=True, slots=True)
class CastleNutWindow:
    """What a castle nut may gain between its torque and the slot that takes the pin.

    Attributes
    ----------
    largest_angle : float [rad]
        Largest angle to the next slot that meets a pin hole.
    preload_rise : float [N]
        What that angle adds while the fastener is elastic.
    preload_high : float [N]
        Upper end of the torque's band with that rise.
    """

    largest_angle: Radian
    preload_rise: Newton
    preload_high: Newton


def preload_by_angle(thread: Thread, angle: Radian, resilience: MetrePerNewton) -> Newton:
    r"""Preload that turning adds once the joint is snug.

    Parameters
    ----------
    thread : Thread
        The thread.
    angle : float [rad]
        Angle past the snug torque.
    resilience : float [m/N]
        Of the whole fastener and of the clamped parts together.

    Returns
    -------
    float [N]
        Preload added.

    Raises
    ------
    OutOfDomainError
        If the resilience is not above zero.

    Notes
    -----
    .. math:: \Delta F = \frac{p \vartheta}{2 \pi (\delta_S + \delta_P)}

    References
    ----------
    [vdi2230_1_2015] angle-controlled tightening

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> round(preload_by_angle(thread_by_sizes(0.010, 0.0015), math.radians(60.0), 6e-9) / 1e3, 1)
    41.7
    """
    require_above_zero(resilience=resilience)
    return thread.pitch * angle / (2.0 * math.pi * resilience)


def preload_after_angle(
    thread: Thread,
    snug: PreloadBand,
    angle: Radian,
    resilience: MetrePerNewton,
    *,
    onset_of_yield: PreloadBand | None = None,
    angle_spread: Radian = ANGLE_SPREAD,
    resilience_spread: Number = JOINT_SPREAD,
) -> AngledPreload:
    r"""Preload after a snug torque and an angle, with its 95 % band.

    Parameters
    ----------
    thread : Thread
        The thread.
    snug : PreloadBand
        Preload of the snug torque.
    angle : float [rad]
        Angle past it.
    resilience : float [m/N]
        Of the whole fastener and of the clamped parts together.
    onset_of_yield : PreloadBand, optional
        Where the fastener starts to yield; beyond it preload hardly rises.
    angle_spread : float [rad]
        Half-width of the angle's 95 % interval.
    resilience_spread : float [1]
        Half-width of the resilience's 95 % interval, over it.

    Returns
    -------
    AngledPreload
        Band, what the angle adds, and whether the fastener yields.

    Raises
    ------
    OutOfDomainError
        If the resilience is not above zero, or an angle or a spread is negative.

    Notes
    -----
    The snug preload and the angle's are added; what snug torque, angle and resilience leave open is
    independent and added in squares. Past the onset of yield each number is held at the onset, for a
    work-hardening bolt gains little more; then the strength of the bolt sets the preload, not the angle.

    References
    ----------
    [vdi2230_1_2015] angle-controlled tightening
    [jcgm100_2008] combined uncertainty of independent inputs

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> found = preload_after_angle(thread_by_sizes(0.010, 0.0015), PreloadBand(10e3, 8e3, 12.5e3),
    ...                             math.radians(45.0), 6e-9)
    >>> [round(force / 1e3, 1) for force in (found.band.preload_low, found.band.preload_high)]
    [35.7, 47.0]
    """
    require_within(angle=angle, angle_spread=angle_spread, resilience_spread=resilience_spread)
    added = preload_by_angle(thread, angle, resilience)
    by_angle = preload_by_angle(thread, angle_spread, resilience)
    half = math.hypot(by_angle, resilience_spread * added)
    band = PreloadBand(
        preload=snug.preload + added,
        preload_low=max(snug.preload + added - math.hypot(half, snug.preload - snug.preload_low), 0.0),
        preload_high=snug.preload + added + math.hypot(half, snug.preload_high - snug.preload),
    )
    if onset_of_yield is None:
        return AngledPreload(band, added, yields=False)
    capped = PreloadBand(
        preload=min(band.preload, onset_of_yield.preload),
        preload_low=min(band.preload_low, onset_of_yield.preload_low),
        preload_high=min(band.preload_high, onset_of_yield.preload_high),
    )
    return AngledPreload(capped, added, yields=band.preload_high >= onset_of_yield.preload_low)


def largest_slot_angle(slots: int = 6, holes: int = 1) -> Radian:
    r"""Largest angle from any position of a castle nut to the next slot that meets a pin hole.

    Parameters
    ----------
    slots : int
        Slots round the nut, an even number, evenly spread.
    holes : int
        Holes through the bolt, evenly spread over half a turn; each goes through and so shows at both sides.

    Returns
    -------
    float [rad]
        The angle; the pin goes in after at most so much more.

    Raises
    ------
    OutOfDomainError
        If there is no hole, or no even number of slots.

    Notes
    -----
    A slot meets a mouth of a hole at (slot angle - mouth angle), and with an even number of slots another
    stands at its other mouth. The largest step between such positions, round the turn.

    References
    ----------
    [iso7035_1984] castle nuts, number of slots

    Examples
    --------
    >>> round(math.degrees(largest_slot_angle())), round(math.degrees(largest_slot_angle(6, 2)))
    (60, 30)
    """
    if slots < 2 or slots % 2:
        raise OutOfDomainError("slots", slots, "an even number")
    if holes < 1:
        raise OutOfDomainError("holes", holes, "one or more")
    # In steps of 1/(2 slots holes) of a turn every angle is a whole number.
    turn, mouths = 2 * slots * holes, 2 * holes
    places = ((mouths * slot - slots * mouth) % turn for slot in range(slots) for mouth in range(mouths))
    meet = sorted(set(places))
    steps = [after - before for before, after in zip(meet, [*meet[1:], meet[0] + turn], strict=True)]
    return 2.0 * math.pi * max(steps) / turn


def castle_nut_window(
    thread: Thread, band: PreloadBand, resilience: MetrePerNewton, *, slots: int = 6, holes: int = 1
) -> CastleNutWindow:
    r"""Preload that a castle nut may gain from its torque up to the next slot.

    Parameters
    ----------
    thread : Thread
        The thread.
    band : PreloadBand
        Preload at the torque.
    resilience : float [m/N]
        Of the whole fastener and of the clamped parts together.
    slots : int
        Slots round the nut, an even number.
    holes : int
        Holes through the bolt.

    Returns
    -------
    CastleNutWindow
        Largest angle, what it adds, and the upper end of the preload with it.

    Raises
    ------
    OutOfDomainError
        If the resilience is not above zero, there is no hole, or no even number of slots.

    Notes
    -----
    `preload_by_angle` of `largest_slot_angle`. A nut is never turned back to a slot: it is turned on, or
    another nut or washer is taken.

    References
    ----------
    [vdi2230_1_2015] angle-controlled tightening
    [iso7035_1984] castle nuts, number of slots

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> found = castle_nut_window(thread_by_sizes(0.008, 0.001), PreloadBand(12e3, 10e3, 15e3), 8e-9)
    >>> round(found.preload_rise / 1e3, 1), round(found.preload_high / 1e3, 1)
    (20.8, 35.8)
    """
    angle = largest_slot_angle(slots, holes)
    rise = preload_by_angle(thread, angle, resilience)
    return CastleNutWindow(angle, rise, band.preload_high + rise)
