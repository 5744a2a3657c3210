"""Torque and preload of a fastener with friction in its thread and under its head."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.fasteners.thread import Thread
from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, Newton, NewtonMetre, Number, SquareMetre


@dataclass(frozen=True, slots=True)
class Bearing:
    """The ring on which the turned head or nut bears.

    Attributes
    ----------
    outer_diameter : float [m]
        Outside of the ring: of a plain hexagon head the washer face, of a flange its outside.
    hole_diameter : float [m]
        Inside of the ring: the clearance hole, or its chamfer where that is larger.

    Raises
    ------
    OutOfDomainError
        If there is no ring between them.
    """

    outer_diameter: Metre
    hole_diameter: Metre

    def __post_init__(self) -> None:
        require_above_zero(outer_diameter=self.outer_diameter, hole_diameter=self.hole_diameter)
        if not self.outer_diameter > self.hole_diameter:
            raise OutOfDomainError(
                "outer_diameter", self.outer_diameter, f"above the hole's diameter ({self.hole_diameter})"
            )

    @property
    def mean_diameter(self) -> Metre:
        """Diameter at which friction under the head is taken to act, DKm [m]."""
        return 0.5 * (self.outer_diameter + self.hole_diameter)

    @property
    def area(self) -> SquareMetre:
        """Area of the ring [m2]."""
        return 0.25 * math.pi * (self.outer_diameter**2 - self.hole_diameter**2)


@dataclass(frozen=True, slots=True)
class Friction:
    """Coefficients of friction of one fastener.

    Attributes
    ----------
    thread : float [1]
        In the thread.
    head : float [1]
        Under the turned head or nut.

    Raises
    ------
    OutOfDomainError
        If one of them is not between 0 and 1.
    """

    thread: Number
    head: Number

    def __post_init__(self) -> None:
        require_within(most=1.0, thread_friction=self.thread, head_friction=self.head)

    def scaled(self, factor: Number) -> Friction:
        """Both coefficients by the same factor."""
        return Friction(self.thread * factor, self.head * factor)


@dataclass(frozen=True, slots=True)
class TorqueShares:
    """Where a tightening torque goes.

    Attributes
    ----------
    stretching : float [N m]
        Into the climb of the thread: what stretches the fastener.
    thread_friction : float [N m]
        Into friction in the thread.
    head_friction : float [N m]
        Into friction under the head.
    """

    stretching: NewtonMetre
    thread_friction: NewtonMetre
    head_friction: NewtonMetre

    @property
    def total(self) -> NewtonMetre:
        """The tightening torque [N m]."""
        return self.stretching + self.thread_friction + self.head_friction

    @property
    def in_thread(self) -> NewtonMetre:
        """What twists the shank [N m]."""
        return self.stretching + self.thread_friction


def torque_shares(thread: Thread, bearing: Bearing, friction: Friction, preload: Newton) -> TorqueShares:
    r"""Tightening torque of a preload in its three shares.

    Parameters
    ----------
    thread : Thread
        The thread.
    bearing : Bearing
        Where the turned head or nut bears.
    friction : Friction
        Coefficients of friction.
    preload : float [N]
        Tension in the fastener.

    Returns
    -------
    TorqueShares
        What stretches, and both frictions.

    Raises
    ------
    OutOfDomainError
        If the preload is negative.

    Notes
    -----
    .. math:: T = F \left(\frac{p}{2 \pi} + \frac{\mu_t d_2}{2 \cos(\alpha / 2)}
              + \frac{\mu_b D_{Km}}{2}\right)

    The lead angle is taken for small, which understates the torque by less than 1 % in fastening threads.

    References
    ----------
    [vdi2230_1_2015] R8, tightening torque
    [iso16047_2005] torque and clamp force

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> shares = torque_shares(thread_by_sizes(0.010, 0.00125), Bearing(0.01463, 0.011),
    ...                        Friction(0.12, 0.12), 40e3)
    >>> round(shares.total, 1), round(shares.stretching / shares.total, 3)
    (64.2, 0.124)
    """
    require_within(preload=preload)
    return TorqueShares(
        stretching=preload * thread.pitch / (2.0 * math.pi),
        thread_friction=preload
        * friction.thread
        * thread.pitch_diameter
        / (2.0 * math.cos(thread.flank_angle)),
        head_friction=preload * friction.head * bearing.mean_diameter / 2.0,
    )


def tightening_torque(thread: Thread, bearing: Bearing, friction: Friction, preload: Newton) -> NewtonMetre:
    r"""Torque that gives a preload.

    Parameters
    ----------
    thread : Thread
        The thread.
    bearing : Bearing
        Where the turned head or nut bears.
    friction : Friction
        Coefficients of friction.
    preload : float [N]
        Tension in the fastener.

    Returns
    -------
    float [N m]
        Tightening torque.

    Raises
    ------
    OutOfDomainError
        If the preload is negative.

    Notes
    -----
    The sum of `torque_shares`.

    References
    ----------
    [vdi2230_1_2015] R8, tightening torque

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> m6, seat = thread_by_sizes(0.006, 0.001), Bearing(0.00888, 0.0066)
    >>> round(tightening_torque(m6, seat, Friction(0.12, 0.12), 10.2e3), 1)
    10.1
    """
    return torque_shares(thread, bearing, friction, preload).total


def preload_from_torque(thread: Thread, bearing: Bearing, friction: Friction, torque: NewtonMetre) -> Newton:
    r"""Preload that a torque gives.

    Parameters
    ----------
    thread : Thread
        The thread.
    bearing : Bearing
        Where the turned head or nut bears.
    friction : Friction
        Coefficients of friction.
    torque : float [N m]
        Tightening torque.

    Returns
    -------
    float [N]
        Preload, while the fastener stays elastic.

    Raises
    ------
    OutOfDomainError
        If the torque is negative.

    Notes
    -----
    The inverse of `tightening_torque`, which is proportional to the preload.

    References
    ----------
    [vdi2230_1_2015] R8, tightening torque

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> m6, seat = thread_by_sizes(0.006, 0.001), Bearing(0.00888, 0.0066)
    >>> round(preload_from_torque(m6, seat, Friction(0.12, 0.12), 10.0) / 1e3, 1)
    10.0
    """
    require_within(torque=torque)
    return torque / tightening_torque(thread, bearing, friction, 1.0)


def friction_from_torque(thread: Thread, bearing: Bearing, *, torque: NewtonMetre, preload: Newton) -> Number:
    r"""Coefficient of friction, alike in thread and under the head, that explains a torque and a preload.

    Parameters
    ----------
    thread : Thread
        The thread.
    bearing : Bearing
        Where the turned head or nut bears.
    torque : float [N m]
        Tightening torque seen.
    preload : float [N]
        Preload known otherwise, as by stretch.

    Returns
    -------
    float [1]
        Apparent coefficient; negative where the torque is too small for the climb of the thread alone.

    Raises
    ------
    OutOfDomainError
        If the preload is not above zero or the torque is negative.

    Notes
    -----
    .. math:: \mu = \frac{T / F - p / 2 \pi}{d_2 / (2 \cos(\alpha/2)) + D_{Km} / 2}

    References
    ----------
    [iso16047_2005] total coefficient of friction

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> m6, seat = thread_by_sizes(0.006, 0.001), Bearing(0.00888, 0.0066)
    >>> round(friction_from_torque(m6, seat, torque=10.1, preload=10.2e3), 3)
    0.12
    """
    require_above_zero(preload=preload)
    require_within(torque=torque)
    lever = thread.pitch_diameter / (2.0 * math.cos(thread.flank_angle)) + bearing.mean_diameter / 2.0
    return (torque / preload - thread.pitch / (2.0 * math.pi)) / lever


def loosening_torque(thread: Thread, bearing: Bearing, friction: Friction, preload: Newton) -> NewtonMetre:
    r"""Torque at which a fastener starts to turn back.

    Parameters
    ----------
    thread : Thread
        The thread.
    bearing : Bearing
        Where the turned head or nut bears.
    friction : Friction
        Coefficients of friction at breaking loose; those of tightening are usually lower.
    preload : float [N]
        Preload that is left.

    Returns
    -------
    float [N m]
        Loosening torque; negative where a thread of so little friction would turn back by itself.

    Raises
    ------
    OutOfDomainError
        If the preload is negative.

    Notes
    -----
    The climb of the thread helps: both frictions less what stretches.

    References
    ----------
    [vdi2230_1_2015] self-loosening, release torque

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> m6, seat = thread_by_sizes(0.006, 0.001), Bearing(0.00888, 0.0066)
    >>> round(loosening_torque(m6, seat, Friction(0.12, 0.12), 10.2e3), 1)
    6.9
    """
    shares = torque_shares(thread, bearing, friction, preload)
    return shares.thread_friction + shares.head_friction - shares.stretching


def nut_factor(thread: Thread, bearing: Bearing, friction: Friction) -> Number:
    r"""The one number K in which torque over preload and diameter is often given.

    Parameters
    ----------
    thread : Thread
        The thread.
    bearing : Bearing
        Where the turned head or nut bears.
    friction : Friction
        Coefficients of friction.

    Returns
    -------
    float [1]
        K of T = K F d. It belongs to this size and seat; it is no property of the lubricant.

    Notes
    -----
    .. math:: K = \frac{T}{F d}

    References
    ----------
    [bickford1995] nut factor

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> round(nut_factor(thread_by_sizes(0.010, 0.00125), Bearing(0.01463, 0.011), Friction(0.12, 0.12)), 3)
    0.16
    """
    return tightening_torque(thread, bearing, friction, 1.0) / thread.nominal_diameter
