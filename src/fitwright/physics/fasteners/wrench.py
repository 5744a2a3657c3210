"""What a wrench is set to at an extension, and whether a torque can be meant for a thread."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from fitwright.physics.fasteners.friction import Bearing, Friction, tightening_torque
from fitwright.physics.fasteners.stress import preload_at_utilisation
from fitwright.physics.fasteners.thread import Thread
from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, NewtonMetre, Number, Pascal, Radian

STRONGEST_YIELD: Final[Pascal] = 1100e6
"""Yield strength of class 12.9 [Pa], the strongest in common use."""
LOW_FRICTION: Final[Number] = 0.08
"""Friction at the lower end of usual lubricants."""
MOST_POSSIBLE: Final[Number] = 2.5
"""Dry friction takes 2.3 to 2.5 times the torque of low friction; beyond, no fastener stands it."""
LEAST_POSSIBLE: Final[Number] = 0.02
"""Below this share of the torque that yields at low friction a fastener holds nothing."""


def wrench_setting(
    torque: NewtonMetre, *, wrench_length: Metre, extension_length: Metre, extension_angle: Radian = 0.0
) -> NewtonMetre:
    r"""What to set on a wrench with an extension at its drive for a torque at the fastener.

    Parameters
    ----------
    torque : float [N m]
        Torque wanted at the fastener.
    wrench_length : float [m]
        From the drive to the middle of the hand.
    extension_length : float [m]
        From the drive to the fastener.
    extension_angle : float [rad]
        Between extension and wrench: zero in line and away from the hand, a right angle across.

    Returns
    -------
    float [N m]
        Setting.

    Raises
    ------
    OutOfDomainError
        If a length is not positive or zero, the torque is negative, or the fastener lies under the hand.

    Notes
    -----
    .. math:: T_s = T \frac{L}{L + E \cos\beta}

    At a right angle there is no correction. The hand pulls at right angles to the wrench.

    References
    ----------
    [bickford1995] torque wrench with an extension; it is the balance of moments

    Examples
    --------
    >>> round(wrench_setting(60.0, wrench_length=0.400, extension_length=0.050), 1)
    53.3
    >>> round(wrench_setting(60.0, wrench_length=0.400, extension_length=0.050,
    ...                      extension_angle=math.pi / 2), 1)
    60.0
    """
    require_above_zero(wrench_length=wrench_length)
    require_within(torque=torque, extension_length=extension_length)
    lever = wrench_length + extension_length * math.cos(extension_angle)
    if not lever > 0.0:
        raise OutOfDomainError("extension_length", extension_length, "shorter than the wrench")
    return torque * wrench_length / lever


@dataclass(frozen=True, slots=True)
class TorquePossibility:
    """Whether a torque can be meant for a thread.

    Attributes
    ----------
    utilisation : float [1]
        Torque over that which brings class 12.9 to yield at low friction.
    yield_torque : float [N m]
        That torque.
    is_possible : bool
        Whether a fastener of any usual class and lubricant stands it and is more than placed by it.
    is_too_large : bool
        Whether any fastener of this thread would break.
    """

    utilisation: Number
    yield_torque: NewtonMetre
    is_possible: bool
    is_too_large: bool


def is_possible_torque(thread: Thread, torque: NewtonMetre) -> TorquePossibility:
    r"""Whether a torque can be meant for a thread at all: a check of units, no permission.

    Parameters
    ----------
    thread : Thread
        The thread.
    torque : float [N m]
        Torque as written.

    Returns
    -------
    TorquePossibility
        Its share of what class 12.9 stands at low friction, and whether it can be meant.

    Raises
    ------
    OutOfDomainError
        If the torque is negative.

    Notes
    -----
    The torque of yield at a coefficient of 0.08 under a head of 1.5 d round a hole of 1.1 d. A torque of more
    than 2.5 times that breaks any fastener with any usual friction; one below a fiftieth holds nothing.

    References
    ----------
    [vdi2230_1_2015] R7 and R8

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> m6 = thread_by_sizes(0.006, 0.001)
    >>> feet, inches = is_possible_torque(m6, 122.0), is_possible_torque(m6, 10.2)
    >>> round(feet.utilisation, 1), feet.is_possible, round(inches.utilisation, 2), inches.is_possible
    (8.3, False, 0.7, True)
    """
    require_within(torque=torque)
    bearing = Bearing(1.5 * thread.nominal_diameter, 1.1 * thread.nominal_diameter)
    friction = Friction(LOW_FRICTION, LOW_FRICTION)
    preload = preload_at_utilisation(thread, STRONGEST_YIELD, LOW_FRICTION, 1.0)
    yields = tightening_torque(thread, bearing, friction, preload)
    share = torque / yields
    return TorquePossibility(
        utilisation=share,
        yield_torque=yields,
        is_possible=LEAST_POSSIBLE <= share <= MOST_POSSIBLE,
        is_too_large=share > MOST_POSSIBLE,
    )
