"""Preload with its band: what wrench and friction leave open at one torque."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from fitwright.physics.fasteners.friction import (
    Bearing,
    Friction,
    preload_from_torque,
    tightening_torque,
)
from fitwright.physics.fasteners.thread import Thread
from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Newton, NewtonMetre, Number

WRENCH_SPREAD: Final[Number] = 0.04
"""Half-width, over the torque, within which a click wrench gives 95 % of its torques (ISO 6789-1)."""
FRICTION_SPREAD: Final[Number] = 0.15
"""Half-width, over the coefficient, within which friction lies with 95 % where nothing better is known."""


@dataclass(frozen=True, slots=True)
class FrictionRange:
    """Friction of a fastener with how far it may differ, thread and head together.

    Attributes
    ----------
    usual : Friction
        Coefficients that one reckons with.
    least_factor : float [1]
        Lower end of 95 %, over the usual.
    most_factor : float [1]
        Upper end of 95 %, over the usual.

    Raises
    ------
    OutOfDomainError
        If the ends do not lie on both sides of the usual.
    """

    usual: Friction
    least_factor: Number = 1.0 - FRICTION_SPREAD
    most_factor: Number = 1.0 + FRICTION_SPREAD

    def __post_init__(self) -> None:
        require_within(most=1.0, least_factor=self.least_factor)
        require_within(least=1.0, most_factor=self.most_factor)

    @property
    def least(self) -> Friction:
        """Friction at the lower end."""
        return self.usual.scaled(self.least_factor)

    @property
    def most(self) -> Friction:
        """Friction at the upper end."""
        return self.usual.scaled(self.most_factor)


def friction_range(
    usual: Friction, *, least: Number | None = None, most: Number | None = None
) -> FrictionRange:
    r"""Friction with 15 % on both sides, or the range of its class where that is wider.

    Parameters
    ----------
    usual : Friction
        Coefficients that one reckons with.
    least : float [1], optional
        Lower end of the range that the class or the lubricant has, as a coefficient.
    most : float [1], optional
        Upper end of that range.

    Returns
    -------
    FrictionRange
        The wider of both on each side.

    Raises
    ------
    OutOfDomainError
        If an end is negative or above 1, or both ends lie on one side of the usual.

    Notes
    -----
    The range is one of coefficients alike in thread and under the head, so it is taken over their mean.

    References
    ----------
    [vdi2230_1_2015] friction classes, table A5

    Examples
    --------
    >>> found = friction_range(Friction(0.12, 0.12), least=0.08, most=0.16)
    >>> round(found.least_factor, 3), round(found.most_factor, 3)
    (0.667, 1.333)
    """
    mean = 0.5 * (usual.thread + usual.head)
    require_above_zero(friction=mean)
    low, high = 1.0 - FRICTION_SPREAD, 1.0 + FRICTION_SPREAD
    if least is not None:
        require_within(most=1.0, least=least)
        low = min(low, least / mean)
    if most is not None:
        require_within(most=1.0, most_friction=most)
        high = max(high, most / mean)
    if least is not None and most is not None and not least <= most:
        raise OutOfDomainError("least", least, f"at most the upper end ({most})")
    return FrictionRange(usual, low, high)


@dataclass(frozen=True, slots=True)
class PreloadBand:
    """A preload and where it lies with 95 % probability.

    Attributes
    ----------
    preload : float [N]
        With the usual friction and the torque as set.
    preload_low : float [N]
        Lower end.
    preload_high : float [N]
        Upper end.
    """

    preload: Newton
    preload_low: Newton
    preload_high: Newton


def preload_band(
    thread: Thread,
    bearing: Bearing,
    friction: FrictionRange,
    torque: NewtonMetre,
    *,
    wrench_spread: Number = WRENCH_SPREAD,
) -> PreloadBand:
    r"""Preload that a torque gives, and its 95 % band.

    Parameters
    ----------
    thread : Thread
        The thread.
    bearing : Bearing
        Where the turned head or nut bears.
    friction : FrictionRange
        Friction and how far it may differ.
    torque : float [N m]
        Torque that is set or read.
    wrench_spread : float [1]
        Half-width of the wrench's 95 % interval over the torque.

    Returns
    -------
    PreloadBand
        Preload with both ends.

    Raises
    ------
    OutOfDomainError
        If the torque is negative, or the wrench's spread is not between 0 and 1.

    Notes
    -----
    Wrench and friction are independent, each given by the ends of its own 95 % interval; friction in thread
    and under the head rise and fall together. What each does to the preload alone is added in squares, below
    and above separately, because preload falls with friction along a hyperbola:

    .. math:: F_{low} = F - \sqrt{(w F)^2 + (F - F(\mu_{most}))^2}, \quad
              F_{high} = F + \sqrt{(w F)^2 + (F(\mu_{least}) - F)^2}

    For normal distributions of torque and of friction that leaves 95 % in the band within one percent. The
    spread of the hand (angle of pull, pace) and settling of the joint are not in it.

    References
    ----------
    [jcgm100_2008] combined uncertainty of independent inputs
    [iso6789_1_2017] largest deviation of hand torque tools
    [vdi2230_1_2015] scatter of preload

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> band = preload_band(thread_by_sizes(0.010, 0.00125), Bearing(0.01463, 0.011),
    ...                     FrictionRange(Friction(0.12, 0.12)), 60.0)
    >>> [round(force / 1e3, 1) for force in (band.preload_low, band.preload, band.preload_high)]
    [32.8, 37.4, 43.2]
    """
    require_within(most=1.0, wrench_spread=wrench_spread)
    preload = preload_from_torque(thread, bearing, friction.usual, torque)
    least = preload_from_torque(thread, bearing, friction.most, torque)
    most = preload_from_torque(thread, bearing, friction.least, torque)
    by_wrench = wrench_spread * preload
    return PreloadBand(
        preload=preload,
        preload_low=preload - math.hypot(by_wrench, preload - least),
        preload_high=preload + math.hypot(by_wrench, most - preload),
    )


def equal_preload_torque(
    thread: Thread,
    bearing: Bearing,
    torque: NewtonMetre,
    *,
    friction: Friction,
    other_friction: Friction,
) -> NewtonMetre:
    r"""Torque that gives with another lubricant the preload that a torque gives with the first.

    Parameters
    ----------
    thread : Thread
        The thread.
    bearing : Bearing
        Where the turned head or nut bears.
    torque : float [N m]
        Torque that belongs to the first lubricant.
    friction : Friction
        Of the lubricant that the torque was given for.
    other_friction : Friction
        Of the lubricant that will be used.

    Returns
    -------
    float [N m]
        Torque with the other lubricant; its band is that of `preload_band` at this torque.

    Raises
    ------
    OutOfDomainError
        If the torque is negative.

    Notes
    -----
    The preload by `preload_from_torque` of one, put into `tightening_torque` of the other. A maker's figure
    for the lubricant at hand goes before it.

    References
    ----------
    [vdi2230_1_2015] R8, tightening torque

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> round(equal_preload_torque(thread_by_sizes(0.010, 0.00125), Bearing(0.01463, 0.011), 60.0,
    ...                            friction=Friction(0.16, 0.16), other_friction=Friction(0.10, 0.10)), 1)
    39.7
    """
    preload = preload_from_torque(thread, bearing, friction, torque)
    return tightening_torque(thread, bearing, other_friction, preload)
