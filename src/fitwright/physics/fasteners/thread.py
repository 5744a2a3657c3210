"""Screw threads by their basic profile: diameters, angles, areas, and their coarsest fit."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import Final

from fitwright.physics.numerics.domain import require_above_zero
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, Number, Radian, SquareMetre


class ThreadForm(Enum):
    """The profile of a thread."""

    ISO_METRIC = "ISO metric"
    UNIFIED = "unified"
    WHITWORTH = "Whitworth"


@dataclass(frozen=True, slots=True)
class Profile:
    """A profile by its proportions to the pitch.

    Attributes
    ----------
    thread_angle : float [rad]
        Angle between both flanks.
    pitch_depth : float [1]
        How much less than the nominal the pitch diameter is, over the pitch.
    internal_depth : float [1]
        The same for the minor diameter of the internal thread.
    root_depth : float [1]
        The same for the minor diameter of the external thread.
    stress_depth : float [1]
        The same for the diameter of the stress area.
    """

    thread_angle: Radian
    pitch_depth: Number
    internal_depth: Number
    root_depth: Number
    stress_depth: Number


_SIXTY: Final = math.radians(60.0)
_HEIGHT: Final = 0.5 * math.sqrt(3.0)
_ROUNDED_HEIGHT: Final = 0.640327
PROFILES: Final = {
    ThreadForm.ISO_METRIC: Profile(
        _SIXTY, 0.75 * _HEIGHT, 1.25 * _HEIGHT, 17 / 12 * _HEIGHT, 13 / 12 * _HEIGHT
    ),
    ThreadForm.UNIFIED: Profile(_SIXTY, 0.75 * _HEIGHT, 1.25 * _HEIGHT, 17 / 12 * _HEIGHT, 0.9743),
    ThreadForm.WHITWORTH: Profile(
        math.radians(55.0),
        _ROUNDED_HEIGHT,
        2.0 * _ROUNDED_HEIGHT,
        2.0 * _ROUNDED_HEIGHT,
        1.5 * _ROUNDED_HEIGHT,
    ),
}


@dataclass(frozen=True, slots=True)
class Thread:
    """A thread by its basic sizes.

    Attributes
    ----------
    form : ThreadForm
        Profile.
    nominal_diameter : float [m]
        Major diameter, d.
    pitch : float [m]
        Distance between threads, p.
    pitch_diameter : float [m]
        Effective diameter, d2.
    internal_minor_diameter : float [m]
        Minor diameter of the internal thread, d1 (D1).
    root_diameter : float [m]
        Minor diameter of the external thread, d3.
    thread_angle : float [rad]
        Angle between both flanks, alpha.
    stress_area : float [m2]
        Area that carries tension, As.
    left_hand : bool
        Whether it tightens anticlockwise; sums are the same.
    designation : str
        As one writes it, such as `M10x1.25`; empty for one built from sizes.
    """

    form: ThreadForm
    nominal_diameter: Metre
    pitch: Metre
    pitch_diameter: Metre
    internal_minor_diameter: Metre
    root_diameter: Metre
    thread_angle: Radian
    stress_area: SquareMetre
    left_hand: bool = False
    designation: str = ""

    @property
    def flank_angle(self) -> Radian:
        """Angle of one flank, half the thread angle [rad]."""
        return 0.5 * self.thread_angle

    @property
    def stress_diameter(self) -> Metre:
        """Diameter of the stress area [m]."""
        return math.sqrt(4.0 / math.pi * self.stress_area)

    @property
    def root_area(self) -> SquareMetre:
        """Area within the root of the external thread, A3 [m2]."""
        return 0.25 * math.pi * self.root_diameter**2

    @property
    def lead_angle(self) -> Radian:
        """Angle at which the thread climbs at its pitch diameter [rad]."""
        return math.atan(self.pitch / (math.pi * self.pitch_diameter))


def thread_by_sizes(
    nominal_diameter: Metre,
    pitch: Metre,
    *,
    form: ThreadForm = ThreadForm.ISO_METRIC,
    left_hand: bool = False,
    designation: str = "",
) -> Thread:
    r"""Basic sizes of a thread.

    Parameters
    ----------
    nominal_diameter : float [m]
        Major diameter.
    pitch : float [m]
        Pitch; an inch over the number of threads to the inch.
    form : ThreadForm
        Profile.
    left_hand : bool
        Carried, for it changes no sum.
    designation : str
        Carried, as one writes it.

    Returns
    -------
    Thread
        All diameters and areas.

    Raises
    ------
    OutOfDomainError
        If a size is not above zero, or the thread is deeper than the fastener.

    Notes
    -----
    With H = 0.866025 p of a 60 degree profile:

    .. math:: d_2 = d - \tfrac34 H, \quad d_1 = d - \tfrac54 H, \quad d_3 = d - \tfrac{17}{12} H, \quad
              A_s = \frac{\pi}{4} (d - \tfrac{13}{12} H)^2

    The stress diameter of a metric thread is the mean of d2 and d3; a unified thread takes d - 0.9743 p. A
    Whitworth thread has a depth of 0.640327 p on each side, rounded at crest and root, d1 = d3, and the
    stress diameter is the mean of d2 and d3.

    References
    ----------
    [iso724_1993] basic dimensions of metric threads
    [iso898_1_2013] nominal stress area
    [asme_b1_1_2003] unified threads, stress area
    [bs84_2007] Whitworth profile

    Examples
    --------
    >>> m10 = thread_by_sizes(0.010, 0.00125)
    >>> round(m10.pitch_diameter * 1e3, 4), round(m10.stress_area * 1e6, 2)
    (9.1881, 61.2)
    """
    require_above_zero(nominal_diameter=nominal_diameter, pitch=pitch)
    profile = PROFILES[form]
    root = nominal_diameter - profile.root_depth * pitch
    if not root > 0.0:
        raise OutOfDomainError("pitch", pitch, f"small against the diameter {nominal_diameter}")
    stress_diameter = nominal_diameter - profile.stress_depth * pitch
    return Thread(
        form=form,
        nominal_diameter=nominal_diameter,
        pitch=pitch,
        pitch_diameter=nominal_diameter - profile.pitch_depth * pitch,
        internal_minor_diameter=nominal_diameter - profile.internal_depth * pitch,
        root_diameter=root,
        thread_angle=profile.thread_angle,
        stress_area=0.25 * math.pi * stress_diameter**2,
        left_hand=left_hand,
        designation=designation,
    )


@dataclass(frozen=True, slots=True)
class CoarsestFit:
    """The sizes of bolt and hole that overlap least within their tolerances.

    Attributes
    ----------
    external_major_diameter : float [m]
        Smallest major diameter of the bolt.
    external_pitch_diameter : float [m]
        Smallest pitch diameter of the bolt.
    internal_pitch_diameter : float [m]
        Largest pitch diameter of the hole.
    internal_minor_diameter : float [m]
        Largest minor diameter of the hole.
    """

    external_major_diameter: Metre
    external_pitch_diameter: Metre
    internal_pitch_diameter: Metre
    internal_minor_diameter: Metre


def coarsest_fit(thread: Thread) -> CoarsestFit:
    r"""Sizes at the limits of tolerance 6H/6g that overlap least.

    Parameters
    ----------
    thread : Thread
        Basic sizes.

    Returns
    -------
    CoarsestFit
        Smallest bolt and largest hole.

    Notes
    -----
    With d and p in millimetres, all results in micrometres:

    .. math:: es = -(15 + 11 p), \quad T_d = 180 p^{2/3} - 3.15 p^{-1/2}, \quad T_{d2} = 90 p^{0.4} d^{0.1},
              \quad T_{D2} = 1.32 T_{d2}, \quad T_{D1} = 230 p^{0.7} \; (p \ge 1)

    and T_D1 = 433 p - 190 p^1.22 for finer pitches. The standard takes the mean of a range of diameters for d
    and rounds to preferred numbers; this takes the nominal diameter itself, which agrees within 6 % of a
    tolerance. Unified 2A/2B and Whitworth medium fits are taken for the same, which they nearly are.

    References
    ----------
    [iso965_1_2013] tolerances of metric threads

    Examples
    --------
    >>> round(coarsest_fit(thread_by_sizes(0.010, 0.0015)).external_major_diameter * 1e3, 2)
    9.74
    """
    p, d = thread.pitch * 1e3, thread.nominal_diameter * 1e3
    es = (15.0 + 11.0 * p) * 1e-6
    major = (180.0 * p ** (2.0 / 3.0) - 3.15 / math.sqrt(p)) * 1e-6
    pitch = 90.0 * p**0.4 * d**0.1 * 1e-6
    minor = (230.0 * p**0.7 if p >= 1.0 else 433.0 * p - 190.0 * p**1.22) * 1e-6
    return CoarsestFit(
        external_major_diameter=thread.nominal_diameter - es - major,
        external_pitch_diameter=thread.pitch_diameter - es - pitch,
        internal_pitch_diameter=thread.pitch_diameter + 1.32 * pitch,
        internal_minor_diameter=thread.internal_minor_diameter + minor,
    )
