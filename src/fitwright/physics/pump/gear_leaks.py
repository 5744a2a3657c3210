"""Where gear pumps leak: the lands between outlet and inlet that follow from their gears."""

from __future__ import annotations

import math

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.pump.crescent import CrescentPair
from fitwright.physics.pump.leakage import Gap, LeakagePath, both_faces
from fitwright.physics.pump.spur import SpurPair, base_pitch
from fitwright.quantity import Metre, Number, Radian

_ROOT_BELOW = 1.25
"""Depth of the roots below the reference circle, in modules."""
USUAL_CRESCENT = math.radians(120.0)
"""Angle over which a crescent seals where none is given [rad]."""


def spur_leaks(
    pair: SpurPair,
    *,
    shaft_diameter: Metre,
    sealing_angle: Radian = math.pi,
    end_share: Number = 0.5,
) -> tuple[LeakagePath, ...]:
    r"""Leaks of an external gear pump past its side faces and its tips.

    Parameters
    ----------
    pair : SpurPair
        Gear data.
    shaft_diameter : float [m]
        Of both shafts, where the side faces end.
    sealing_angle : float [rad]
        Over which each gear runs in the body between the ports.
    end_share : float [1]
        Share of the end clearance at one face.

    Returns
    -------
    tuple of LeakagePath
        Side faces, and tips to the body; that clearance is on the radius.

    Raises
    ------
    OutOfDomainError
        If the shafts leave no faces, or the tips are pointed.

    Notes
    -----
    All laminar. Pressure rises evenly round the gears, so that half of it stands behind the faces; the bush
    passes what comes to the inlet, across as much face again. Beside the mesh the faces seal over one base
    pitch. Flow over length of the faces, and of the tips of n teeth of thickness s in series:

    .. math:: 2 \frac{\pi}{2 \ln(r_{root} / r_{shaft})} + \frac{a - 2 r_{root}}{p_b}, \qquad
              2 \frac{b}{n s}

    Tips carry oil on by half their speed: b r_a h for each radian of both gears. Tooth thickness at the tip
    is that of a rack shifted until its addendum reaches the outside diameter.

    References
    ----------
    [ivantysyn2001] laminar gaps of gear pumps; the lands are assumptions of this project
    [iso21771_2007] tooth thickness of involute gears

    Examples
    --------
    >>> gears = SpurPair(11, 3.5e-3, math.radians(20.0), 25e-3, 45.5e-3, 38.5e-3)
    >>> [(leak.gap.name, round(leak.pressure_coefficient, 3))
    ...     for leak in spur_leaks(gears, shaft_diameter=14e-3)]
    [('END', 0.104), ('TIP', 0.357)]
    """
    tip, shaft = 0.5 * pair.outside_diameter, 0.5 * shaft_diameter
    root = tip - (1.0 + _ROOT_BELOW) * pair.module  # wherever the rack was shifted to
    if not 0.0 < shaft < root:
        raise OutOfDomainError("shaft_diameter", shaft_diameter, f"below the roots' {2.0 * root}")
    thickness = tip_thickness(pair.teeth, pair.module, pair.pressure_angle, tip)
    across = math.pi / math.log(root / shaft)
    across += max(pair.centre_distance - 2.0 * root, 0.0) / base_pitch(pair.module, pair.pressure_angle)
    tips = pair.teeth * sealing_angle / (2.0 * math.pi)
    faces = LeakagePath(
        "side faces of the gears",
        both_faces(end_share) / 12.0 * across,
        0.0,
        Gap.END,
        width=4.0 * math.pi * shaft,
    )
    past_tips = LeakagePath(
        "tips of the gears in the body",
        2.0 * pair.width / (12.0 * tips * thickness),
        -pair.width * tip,
        Gap.TIP,
        width=2.0 * pair.width,
    )
    return faces, past_tips


def crescent_leaks(
    pair: CrescentPair,
    *,
    ring_diameter: Metre,
    hub_diameter: Metre,
    crescent_angle: Radian = USUAL_CRESCENT,
    end_share: Number = 0.5,
) -> tuple[LeakagePath, ...]:
    r"""Leaks of a crescent pump past its side faces, along the crescent and round its ring.

    Parameters
    ----------
    pair : CrescentPair
        Gear data.
    ring_diameter : float [m]
        Outside of the ring.
    hub_diameter : float [m]
        Where the side faces of the driving gear end.
    crescent_angle : float [rad]
        Over which the crescent seals.
    end_share : float [1]
        Share of the end clearance at one face.

    Returns
    -------
    tuple of LeakagePath
        Side faces, tips along the crescent (the clearance of either side), and round the ring.

    Raises
    ------
    OutOfDomainError
        If hub or ring leave no faces, or the driving gear's tips are pointed.

    Notes
    -----
    All laminar. Each port takes what the crescent leaves of the turn, halved; to hub and outside oil
    crosses one land out of the outlet and one into the inlet, beside the mesh the faces seal over one base
    pitch. Tips of the driving gear seal one behind another along the crescent; the ring's are taken to be
    as thick. Round the ring oil goes a quarter turn either way.

    .. math:: \frac{\alpha}{2 \ln(r_{root} / r_{hub})} + \frac{\alpha}{2 \ln(r_{out} / r_{root, ring})}
              + \frac{h_{tooth}}{p_b}, \quad \alpha = \pi - \tfrac12 \gamma

    References
    ----------
    [ivantysyn2001] laminar gaps of gear pumps; the lands are assumptions of this project
    [iso21771_2007] tooth thickness of involute gears

    Examples
    --------
    >>> gears = CrescentPair(19, 27, 3e-3, math.radians(20.0), 12e-3, 62.4e-3, 76.2e-3, 12e-3)
    >>> [(leak.gap.name, round(leak.pressure_coefficient, 3))
    ...     for leak in crescent_leaks(gears, ring_diameter=100e-3, hub_diameter=38e-3)]
    [('END', 0.279), ('TIP', 0.124), ('BODY', 0.025)]
    """
    inner_root = 0.5 * pair.inner_teeth * pair.module - _ROOT_BELOW * pair.module
    ring_root = 0.5 * pair.outer_teeth * pair.module + _ROOT_BELOW * pair.module
    if not 0.0 < 0.5 * hub_diameter < inner_root:
        raise OutOfDomainError("hub_diameter", hub_diameter, f"below the roots' {2.0 * inner_root}")
    if not 0.5 * ring_diameter > ring_root:
        raise OutOfDomainError("ring_diameter", ring_diameter, f"beyond the ring's roots, {2.0 * ring_root}")
    arc = math.pi - 0.5 * crescent_angle
    pitch = base_pitch(pair.module, pair.pressure_angle)
    across = 0.5 * arc / math.log(inner_root / (0.5 * hub_diameter))
    across += 0.5 * arc / math.log(0.5 * ring_diameter / ring_root) + 2.0 * _ROOT_BELOW * pair.module / pitch
    tip = 0.5 * pair.inner_tip_diameter
    thickness = tip_thickness(pair.inner_teeth, pair.module, pair.pressure_angle, tip)
    ratio = crescent_angle / (2.0 * math.pi)
    lands = sum(1.0 / (teeth * ratio * thickness) for teeth in (pair.inner_teeth, pair.outer_teeth))
    ring_speed = pair.inner_teeth / pair.outer_teeth
    moved = 0.5 * pair.width * (tip + ring_speed * 0.5 * pair.outer_tip_diameter)
    width = 2.0 * pair.width
    return (
        LeakagePath(
            "side faces of the gears",
            both_faces(end_share) / 12.0 * across,
            0.0,
            Gap.END,
            width=2.0 * arc * inner_root,
        ),
        LeakagePath("tips along the crescent", pair.width * lands / 12.0, -moved, Gap.TIP, width=width),
        LeakagePath(
            "round the ring", 8.0 * pair.width / (math.pi * ring_diameter) / 12.0, 0.0, Gap.BODY, width=width
        ),
    )


def tip_thickness(teeth: int, module: Metre, pressure_angle: Radian, tip_radius: Metre) -> Metre:
    r"""Thickness of a tooth at its tip, of a rack shifted until its addendum reaches there.

    Parameters
    ----------
    teeth : int
        Of the gear.
    module : float [m]
        Of the tool.
    pressure_angle : float [rad]
        Of the tool.
    tip_radius : float [m]
        Radius over the tips.

    Returns
    -------
    float [m]
        Thickness along the tip circle.

    Raises
    ------
    OutOfDomainError
        If the tooth is pointed before it gets there.

    Notes
    -----
    .. math:: s_a = 2 r_a \left(\frac{\pi + 4 x \tan\alpha}{2 z} + \text{inv}\,\alpha - \text{inv}\,\alpha_a
              \right), \quad x = \frac{r_a - r}{m} - 1

    References
    ----------
    [iso21771_2007] tooth thickness at any diameter

    Examples
    --------
    >>> round(tip_thickness(11, 3.5e-3, math.radians(20.0), 22.75e-3) * 1e3, 3)
    2.119
    """
    reference = 0.5 * teeth * module
    shift = (tip_radius - reference) / module - 1.0
    at_tip = math.acos(reference * math.cos(pressure_angle) / tip_radius)
    half = (math.pi + 4.0 * shift * math.tan(pressure_angle)) / (2.0 * teeth)
    found = 2.0 * tip_radius * (half + _involute(pressure_angle) - _involute(at_tip))
    if not found > 0.0:
        raise OutOfDomainError("tip_radius", tip_radius, "below that of a pointed tooth")
    return found


def _involute(angle: Radian) -> float:
    return math.tan(angle) - angle
