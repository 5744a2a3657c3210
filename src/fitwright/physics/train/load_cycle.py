"""A load cycle of one bearing that comes from elsewhere: measured, or worked out by other means."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Radian

WIDEST_GAP: Radian = math.radians(20.0)
"""Between neighbouring rows of a load cycle lies no more than this crank angle [rad]."""


@dataclass(frozen=True, slots=True, eq=False)
class LoadCycle:
    """Load on a journal over one cycle, in the frame of its bearing.

    Attributes
    ----------
    crank_angle : array (n,) [rad]
        Ascending from zero or more, within the cycle; the load repeats after it.
    load : array (n, 2) [N]
        Across and along: along points from the crank's axis to the cylinder's head for a main, from the
        big end to the small end for a rod; across a quarter turn behind it, seen so that the crank turns
        anticlockwise.
    cycle_angle : float [rad]
        Crank angle of the cycle.
    """

    crank_angle: FloatArray
    load: FloatArray
    cycle_angle: Radian


def even_loads(cycle: LoadCycle, count: int) -> FloatArray:
    """The load at even crank angles over the cycle.

    Parameters
    ----------
    cycle : LoadCycle
        Load at angles of any distance.
    count : int
        How many angles; the first is zero.

    Returns
    -------
    array (count, 2) [N]
        Interpolated straight from row to row, and from the last row to the first.

    Raises
    ------
    OutOfDomainError
        If angles do not ascend within the cycle, or leave a gap that is too wide.

    References
    ----------
    [booker1971] a load cycle in the frame of the bearing

    Examples
    --------
    >>> angles = np.radians(np.arange(0.0, 720.0, 10.0))
    >>> turning = LoadCycle(angles, np.stack([np.cos(angles), np.sin(angles)], axis=-1), 4.0 * math.pi)
    >>> even_loads(turning, 144)[2].round(6).tolist()
    [0.984808, 0.173648]
    """
    angle, load = cycle.crank_angle, cycle.load
    if angle.ndim != 1 or load.shape != (len(angle), 2) or len(angle) < 2:
        raise OutOfDomainError("load", f"of shape {load.shape}", "two columns, with as many rows as angles")
    steps = np.diff(np.append(angle, angle[0] + cycle.cycle_angle))
    if not (angle[0] >= 0.0 and (steps > 0.0).all()):
        raise OutOfDomainError("crank_angle", angle, "ascending, within one cycle")
    if steps.max() > WIDEST_GAP + 1e-9:
        raise OutOfDomainError("crank_angle", float(steps.max()), f"without a gap above {WIDEST_GAP:.3g} rad")
    even = np.arange(count) * cycle.cycle_angle / count
    columns = [np.interp(even, angle, load[:, column], period=cycle.cycle_angle) for column in (0, 1)]
    return np.stack(columns, axis=-1)
