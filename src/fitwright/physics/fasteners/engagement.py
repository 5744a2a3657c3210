"""How much of a thread carries, and the areas that shear when it strips."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from fitwright.physics.fasteners.thread import CoarsestFit, Thread, coarsest_fit
from fitwright.physics.numerics.domain import require_within
from fitwright.quantity import Metre, Number, SquareMetre

END_THREADS: Final[Number] = 0.8
"""Pitches at the end of a bolt that do not carry."""


@dataclass(frozen=True, slots=True)
class ShearAreas:
    """Areas that shear when a thread strips.

    Attributes
    ----------
    internal : float [m2]
        Of the hole's thread, at the crests of the bolt.
    external : float [m2]
        Of the bolt's thread, at the crests of the hole.
    """

    internal: SquareMetre
    external: SquareMetre


def effective_engagement(
    thread: Thread, engagement_length: Metre, *, countersink_depth: Metre = 0.0, bolt_end_within: bool = True
) -> Metre:
    r"""Length of engagement that carries.

    Parameters
    ----------
    thread : Thread
        The thread.
    engagement_length : float [m]
        From the face of the hole to the end of the bolt, or to the end of the hole's thread.
    countersink_depth : float [m]
        Depth of the countersink or chamfer at the mouth of the hole.
    bolt_end_within : bool
        Whether the bolt ends within the hole; its end threads carry nothing.

    Returns
    -------
    float [m]
        Effective engagement, zero where nothing is left.

    Raises
    ------
    OutOfDomainError
        If a length is negative.

    Notes
    -----
    .. math:: m_{eff} = m - c - 0.8 p

    References
    ----------
    [vdi2230_1_2015] 5.5.5, length of engagement

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> round(effective_engagement(thread_by_sizes(0.010, 0.0015), 0.020, countersink_depth=0.001) * 1e3, 1)
    17.8
    """
    require_within(engagement_length=engagement_length, countersink_depth=countersink_depth)
    ends = END_THREADS * thread.pitch if bolt_end_within else 0.0
    return max(engagement_length - countersink_depth - ends, 0.0)


def shear_areas(thread: Thread, engagement: Metre, *, fit: CoarsestFit | None = None) -> ShearAreas:
    r"""Areas that shear over an effective engagement.

    Parameters
    ----------
    thread : Thread
        The thread; of a helical insert, that of its outside.
    engagement : float [m]
        Effective engagement.
    fit : CoarsestFit, optional
        Sizes of bolt and hole; those of `coarsest_fit` where not given.

    Returns
    -------
    ShearAreas
        Of the hole's thread and of the bolt's.

    Raises
    ------
    OutOfDomainError
        If the engagement is negative.

    Notes
    -----
    With the smallest bolt (d, d2) and the largest hole (D1, D2):

    .. math:: A_i = \pi d \frac{m}{p} \left[\frac p2 + (d - D_2) \tan\frac\alpha2\right], \quad
              A_e = \pi D_1 \frac{m}{p} \left[\frac p2 + (d_2 - D_1) \tan\frac\alpha2\right]

    References
    ----------
    [alexander1977] shear areas of threads
    [vdi2230_1_2015] 5.5.5

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> areas = shear_areas(thread_by_sizes(0.010, 0.0015), 0.008)
    >>> round(areas.internal * 1e6), round(areas.external * 1e6)
    (173, 124)
    """
    require_within(engagement=engagement)
    sizes = coarsest_fit(thread) if fit is None else fit
    threads = math.pi * engagement / thread.pitch
    slope, half = math.tan(thread.flank_angle), 0.5 * thread.pitch
    major, minor = sizes.external_major_diameter, sizes.internal_minor_diameter
    internal = half + (major - sizes.internal_pitch_diameter) * slope
    external = half + (sizes.external_pitch_diameter - minor) * slope
    return ShearAreas(threads * major * max(internal, 0.0), threads * minor * max(external, 0.0))
