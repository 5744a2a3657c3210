"""Threads that strip: what an engagement holds, and how much of it breaks the bolt first.

All of it is for a sound, clean, full-depth thread.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from fitwright.physics.fasteners.engagement import shear_areas
from fitwright.physics.fasteners.thread import CoarsestFit, Thread
from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, Newton, Number, Pascal

BENDING: Final[Number] = 0.897
"""Factor by which bending weakens threads of bolt or nut when the other is much stronger."""
_WIDEST_RING: Final = 1.9
_NARROWEST_RING: Final = 1.4


@dataclass(frozen=True, slots=True)
class Stripping:
    """What an engagement holds.

    Attributes
    ----------
    stripping_force : float [N]
        Force at which the weaker thread strips.
    internal_force : float [N]
        Force at which the hole's thread strips.
    external_force : float [N]
        Force at which the bolt's thread strips.
    bolt_breaking_force : float [N]
        Force at which the bolt breaks across its stress area.
    effective_engagement : float [m]
        Engagement that carries.
    strength_ratio : float [1]
        Shear strength times area of the hole's thread over that of the bolt's.
    """

    stripping_force: Newton
    internal_force: Newton
    external_force: Newton
    bolt_breaking_force: Newton
    effective_engagement: Metre
    strength_ratio: Number

    @property
    def bolt_breaks_first(self) -> bool:
        """Whether the bolt breaks before a thread strips."""
        return self.stripping_force >= self.bolt_breaking_force

    def margin(self, preload: Newton) -> Number:
        """Stripping force over a force, such as the upper end of a preload."""
        return self.stripping_force / preload


def ring_factor(outside_diameter: Metre | None, nominal_diameter: Metre) -> Number:
    r"""Factor by which a narrow ring round a thread widens under load and lets it go early, C1.

    Parameters
    ----------
    outside_diameter : float [m], optional
        Width across flats of a nut, or outside of a boss; None for a block.
    nominal_diameter : float [m]
        Of the thread.

    Returns
    -------
    float [1]
        One from 1.9 diameters on.

    Raises
    ------
    OutOfDomainError
        If the ring is narrower than 1.4 diameters, where nothing is known.

    Notes
    -----
    .. math:: C_1 = 3.8 \frac sd - \left(\frac sd\right)^2 - 2.61, \quad 1.4 \le \frac sd < 1.9

    References
    ----------
    [alexander1977] nut dilation

    Examples
    --------
    >>> round(ring_factor(0.016, 0.010), 2), ring_factor(None, 0.010)
    (0.91, 1.0)
    """
    require_above_zero(nominal_diameter=nominal_diameter)
    if outside_diameter is None or outside_diameter >= _WIDEST_RING * nominal_diameter:
        return 1.0
    ratio = outside_diameter / nominal_diameter
    if not ratio >= _NARROWEST_RING - 1e-9:
        least = _NARROWEST_RING * nominal_diameter
        raise OutOfDomainError("outside_diameter", outside_diameter, f"at least 1.4 diameters ({least:.4g})")
    return 3.8 * ratio - ratio**2 - 2.61


def bolt_bending_factor(strength_ratio: Number) -> Number:
    r"""Factor by which bending weakens the bolt's thread, C2.

    Parameters
    ----------
    strength_ratio : float [1]
        Shear strength times area of the hole's thread over that of the bolt's.

    Returns
    -------
    float [1]
        Between 0.897 and 1.

    Raises
    ------
    OutOfDomainError
        If the ratio is not above zero.

    Notes
    -----
    .. math:: C_2 = 5.594 - 13.682 R + 14.107 R^2 - 6.057 R^3 + 0.9353 R^4, \quad 1 < R < 2.2

    and 0.897 up to 1. The formula exceeds 1 from about 1.3 on and is held at 1: bending is not counted on to
    strengthen a thread.

    References
    ----------
    [alexander1977] thread bending

    Examples
    --------
    >>> round(bolt_bending_factor(1.2), 3), bolt_bending_factor(0.6)
    (0.963, 0.897)
    """
    require_above_zero(strength_ratio=strength_ratio)
    r = strength_ratio
    if r <= 1.0:
        return BENDING
    return min(1.0, 5.594 - 13.682 * r + 14.107 * r**2 - 6.057 * r**3 + 0.9353 * r**4)


def hole_bending_factor(strength_ratio: Number) -> Number:
    r"""Factor by which bending weakens the hole's thread, C3.

    Parameters
    ----------
    strength_ratio : float [1]
        Shear strength times area of the hole's thread over that of the bolt's.

    Returns
    -------
    float [1]
        Between 0.897 and 1.

    Raises
    ------
    OutOfDomainError
        If the ratio is not above zero.

    Notes
    -----
    .. math:: C_3 = 0.728 + 1.769 R - 2.896 R^2 + 1.296 R^3, \quad 0.4 < R < 1

    and 0.897 from 1 on. The formula exceeds 1 below about 0.68; it is held at 1 there, and below 0.4, where
    the source says nothing, as a strong bolt bends no thread of a weak parent metal.

    References
    ----------
    [alexander1977] thread bending

    Examples
    --------
    >>> round(hole_bending_factor(0.8), 3), hole_bending_factor(0.3)
    (0.953, 1.0)
    """
    require_above_zero(strength_ratio=strength_ratio)
    r = strength_ratio
    if r >= 1.0:
        return BENDING
    if r <= 0.4:
        return 1.0
    return min(1.0, 0.728 + 1.769 * r - 2.896 * r**2 + 1.296 * r**3)


def stripping(
    thread: Thread,
    engagement: Metre,
    *,
    bolt_tensile_strength: Pascal,
    bolt_shear_strength: Pascal,
    parent_shear_strength: Pascal,
    outside_diameter: Metre | None = None,
    insert_thread: Thread | None = None,
    fit: CoarsestFit | None = None,
) -> Stripping:
    r"""Force at which an engagement strips, beside that at which the bolt breaks.

    Parameters
    ----------
    thread : Thread
        Thread of the bolt.
    engagement : float [m]
        By `effective_engagement`.
    bolt_tensile_strength : float [Pa]
        Of the bolt.
    bolt_shear_strength : float [Pa]
        Of the bolt's thread.
    parent_shear_strength : float [Pa]
        Of the metal that the hole is in.
    outside_diameter : float [m], optional
        Outside of a boss, or width across flats of a nut; None for a block.
    insert_thread : Thread, optional
        Thread of a helical insert's outside, which then is what strips from the parent metal.
    fit : CoarsestFit, optional
        Sizes of bolt and hole; those of `coarsest_fit` where not given.

    Returns
    -------
    Stripping
        Forces of both threads, of the weaker, and of the bolt in tension.

    Raises
    ------
    OutOfDomainError
        If a strength is not above zero, or the engagement is negative.

    Notes
    -----
    .. math:: R = \frac{\tau_i A_i}{\tau_e A_e}, \quad F_i = C_1 C_3 \tau_i A_i, \quad
              F_e = C_1 C_2 \tau_e A_e

    For a sound, clean, full-depth thread; one that was stripped, drilled too large or cleaned by a tap holds
    less.

    References
    ----------
    [alexander1977] strength of threads
    [vdi2230_1_2015] 5.5.5

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> found = stripping(thread_by_sizes(0.010, 0.0015), 0.0178, bolt_tensile_strength=1040e6,
    ...                   bolt_shear_strength=645e6, parent_shear_strength=160e6)
    >>> round(found.stripping_force / 1e3, 1), found.bolt_breaks_first
    (61.4, True)
    """
    require_above_zero(
        bolt_tensile_strength=bolt_tensile_strength,
        bolt_shear_strength=bolt_shear_strength,
        parent_shear_strength=parent_shear_strength,
    )
    outer = thread if insert_thread is None else insert_thread
    around = shear_areas(outer, engagement, fit=fit if insert_thread is None else None)
    inner = shear_areas(thread, engagement, fit=fit)
    breaking = bolt_tensile_strength * thread.stress_area
    internal, external = parent_shear_strength * around.internal, bolt_shear_strength * inner.external
    ratio = internal / external if external > 0.0 else 0.0
    if not ratio > 0.0:
        return Stripping(0.0, 0.0, 0.0, breaking, engagement, 0.0)
    ring = ring_factor(outside_diameter, outer.nominal_diameter)
    holds = ring * hole_bending_factor(ratio) * internal
    carries = ring * bolt_bending_factor(ratio) * external
    return Stripping(min(holds, carries), holds, carries, breaking, engagement, ratio)


def needed_engagement(
    thread: Thread,
    force: Newton,
    *,
    bolt_tensile_strength: Pascal,
    bolt_shear_strength: Pascal,
    parent_shear_strength: Pascal,
    outside_diameter: Metre | None = None,
    insert_thread: Thread | None = None,
    fit: CoarsestFit | None = None,
) -> Metre:
    r"""Effective engagement that holds a force.

    Parameters
    ----------
    thread : Thread
        Thread of the bolt.
    force : float [N]
        Force to be held; of a bolt that has to break first, its breaking force.
    bolt_tensile_strength : float [Pa]
        Of the bolt.
    bolt_shear_strength : float [Pa]
        Of the bolt's thread.
    parent_shear_strength : float [Pa]
        Of the metal that the hole is in.
    outside_diameter : float [m], optional
        Outside of a boss, or width across flats of a nut; None for a block.
    insert_thread : Thread, optional
        Thread of a helical insert's outside.
    fit : CoarsestFit, optional
        Sizes of bolt and hole; those of `coarsest_fit` where not given.

    Returns
    -------
    float [m]
        Effective engagement; countersink and end threads come on top.

    Raises
    ------
    OutOfDomainError
        If a strength is not above zero or the force is negative.

    Notes
    -----
    The strength ratio does not depend on the engagement, so the force is proportional to it.

    References
    ----------
    [vdi2230_1_2015] 5.5.5, needed length of engagement

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> m10 = thread_by_sizes(0.010, 0.0015)
    >>> needed = needed_engagement(m10, 1040e6 * m10.stress_area, bolt_tensile_strength=1040e6,
    ...                            bolt_shear_strength=645e6, parent_shear_strength=160e6)
    >>> round(needed * 1e3, 1)
    17.5
    """
    require_within(force=force)
    each_metre = stripping(
        thread,
        1.0,
        bolt_tensile_strength=bolt_tensile_strength,
        bolt_shear_strength=bolt_shear_strength,
        parent_shear_strength=parent_shear_strength,
        outside_diameter=outside_diameter,
        insert_thread=insert_thread,
        fit=fit,
    ).stripping_force
    return force / each_metre
