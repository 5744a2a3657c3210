"""Where an internal rotor pump leaks: the lands between outlet and inlet that follow from its rotors."""

from __future__ import annotations

import math

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.pump.leakage import Gap, LeakagePath, both_faces
from fitwright.physics.pump.trochoid import RotorPair
from fitwright.quantity import Metre, Number, Radian


def rotor_leaks(
    pair: RotorPair,
    *,
    outer_rotor_diameter: Metre,
    hub_diameter: Metre,
    tip_clearance: Metre = 0.1e-3,
    tips_in_series: int = 1,
    end_share: Number = 0.5,
    hub_drained: bool = False,
) -> tuple[LeakagePath, ...]:
    r"""Leaks of an internal rotor pump past its side faces, tips and outer rotor.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    outer_rotor_diameter : float [m]
        Outside of the outer rotor.
    hub_diameter : float [m]
        Where the side faces of the inner rotor end towards its shaft.
    tip_clearance : float [m]
        Gap between two lobes at which the tips' lands are taken; they grow with its square root.
    tips_in_series : int
        Contacts that seal one behind the other between the ports, on either side.
    end_share : float [1]
        Share of the end clearance at one face.
    hub_drained : bool
        Whether the hub is open to the sump; else what comes there goes on to the inlet.

    Returns
    -------
    tuple of LeakagePath
        Side faces, side faces to the hub if that is drained, tips, and round the outer rotor; tip
        clearance as between two lobes, the others' as `Gap` says.

    Raises
    ------
    OutOfDomainError
        If hub or outside do not leave lands beside the chambers.

    Notes
    -----
    All laminar. Half of the chambers stand at outlet pressure, half at that of the inlet. Side faces, flow
    over length summed over:

    .. math:: \tfrac12 \arccos(1 - H/R) \text{ past each lobe in contact}, \quad
              \frac{\pi}{2 \ln(r_{root}/r_{hub})} \text{ and so to the outside}

    A lobe of radius R is crossed by parallel streams, twice the eccentricity deep; at the deepest mesh only
    the outer rotor's tooth counts. To hub and outside oil crosses one land out of the outlet and one into the
    inlet. Both faces move oil from inlet to outlet, h (r_tip^2 - r_root^2) / 4 for each radian.
    Tips, by the parabola of their gap:

    .. math:: Q = \frac{b h^3 \Delta p}{12 \mu L}, \quad L = \tfrac{3\pi}{8} \sqrt{2 R' h}, \quad
              \frac1{R'} = \frac1\rho + \kappa_{inner}

    Round the outer rotor oil goes a quarter turn either way. Where displacement counts the rotors as they
    are, moving walls at tips and round the outer rotor carry as much in as out.

    References
    ----------
    [ivantysyn2001] laminar gaps of displacement machines; the lands are assumptions of this project
    [white2011] plane Poiseuille and Couette flow

    Examples
    --------
    >>> leaks = rotor_leaks(RotorPair(8, 2.5e-3, 30e-3, 6.5e-3, 12e-3),
    ...     outer_rotor_diameter=66e-3, hub_diameter=28e-3)
    >>> [(leak.gap.name, round(leak.pressure_coefficient, 3)) for leak in leaks]
    [('END', 0.347), ('TIP', 1.27), ('BODY', 0.039)]
    """
    outside, hub = 0.5 * outer_rotor_diameter, 0.5 * hub_diameter
    if not 0.0 < hub < pair.inner_root_radius:
        raise OutOfDomainError("hub_diameter", hub_diameter, f"below {2.0 * pair.inner_root_radius}")
    if not outside > pair.outer_root_radius:
        raise OutOfDomainError("outer_rotor_diameter", outer_rotor_diameter, "beyond the outer rotor's roots")
    if not (tip_clearance > 0.0 and tips_in_series >= 1):
        raise OutOfDomainError("tip_clearance", tip_clearance, "positive, with one or more tips in series")
    faces = both_faces(end_share) / 12.0
    arc = math.pi
    to_hub = arc / math.log(pair.inner_root_radius / hub)
    to_rim = arc / math.log(outside / pair.outer_root_radius)
    across = _past_lobes(pair) / tips_in_series + 0.5 * to_rim + (0.0 if hub_drained else 0.5 * to_hub)
    leaks = [
        LeakagePath(
            "side faces of the rotors",
            faces * across,
            -pair.outer_tip_radius * pair.eccentricity,
            Gap.END,
            width=2.0 * arc * pair.outer_tip_radius,
        )
    ]
    if hub_drained:
        width = 2.0 * arc * hub
        leaks.append(
            LeakagePath("side faces to the hub", faces * to_hub, 0.0, Gap.END, to_sump=True, width=width)
        )
    tips = sum(pair.width / length for length in _tip_lands(pair, tip_clearance)) / (12.0 * tips_in_series)
    round_the_rotor = 4.0 * pair.width / (math.pi * outside) / 12.0
    width = 2.0 * pair.width
    leaks.append(LeakagePath("tips of the rotors", tips, 0.0, Gap.TIP, width=width))
    leaks.append(LeakagePath("round the outer rotor", round_the_rotor, 0.0, Gap.BODY, width=width))
    return tuple(leaks)


def shaft_leak(
    shaft_diameter: Metre,
    bush_length: Metre,
    *,
    eccentricity_ratio: Number = 0.0,
    pressure_share: Number = 0.5,
) -> LeakagePath:
    r"""Leak along the drive shaft through its bush, to the sump.

    Parameters
    ----------
    shaft_diameter : float [m]
        Of the shaft.
    bush_length : float [m]
        Of the bush along the shaft.
    eccentricity_ratio : float [1]
        0 for a shaft in the middle, 1 against the wall.
    pressure_share : float [1]
        Pressure at the hub over that of the outlet.

    Returns
    -------
    LeakagePath
        The leak; its clearance is on the radius.

    Raises
    ------
    OutOfDomainError
        If a size is not positive.

    Notes
    -----
    The hub stands midway between outlet and inlet unless a share is given.

    .. math:: Q = s \frac{\pi d c^3 \Delta p}{12 \mu L} (1 + \tfrac32 \varepsilon^2)

    References
    ----------
    [merritt1967] laminar flow in an annulus

    Examples
    --------
    >>> round(shaft_leak(14e-3, 25e-3).pressure_coefficient, 4)
    0.0733
    """
    if not (shaft_diameter > 0.0 and bush_length > 0.0):
        raise OutOfDomainError("shaft_diameter", shaft_diameter, "positive, as the length of the bush")
    around = math.pi * shaft_diameter
    coefficient = pressure_share * around / (12.0 * bush_length) * (1.0 + 1.5 * eccentricity_ratio**2)
    return LeakagePath("along the drive shaft", coefficient, 0.0, Gap.SHAFT, to_sump=True, width=around)


def inner_curvature(pair: RotorPair, parameter: Radian) -> float:
    r"""Curvature of the inner rotor's outline, positive where it is convex.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    parameter : float [rad]
        Angle of the touching tooth about the outer rotor's centre, in the frame of the inner rotor: zero at
        a tip, pi over the number of lobes at a root.

    Returns
    -------
    float [1/m]
        The curvature.

    Notes
    -----
    An outline one tooth radius inside a curve of curvature k has

    .. math:: \kappa = \frac{k}{1 - \rho k}

    References
    ----------
    [ivantysyn2001] trochoid gearing; the curvature of a parallel curve, derived here

    Examples
    --------
    >>> round(1e-3 * inner_curvature(RotorPair(4, 3e-3, 25e-3, 9e-3, 10e-3), 0.0), 4)  # tip of 7 mm
    0.1429
    """
    n, e, g = pair.outer_teeth, pair.eccentricity, pair.generating_radius
    c = math.cos(pair.inner_lobes * parameter)
    above = g**2 + n**3 * e**2 + n * (n + 1) * g * e * c
    below = float(np.sqrt(g**2 + n**2 * e**2 + 2.0 * n * g * e * c)) ** 3
    centres = above / below
    return float(centres / (1.0 - pair.tooth_radius * centres))


def _past_lobes(pair: RotorPair) -> float:
    """Flow over length on the side faces past a contact on either side of the rotors."""
    depth = 2.0 * pair.eccentricity
    lobe, tooth = (
        0.5 * math.acos(max(1.0 - depth * max(each, 0.0), -1.0))
        for each in (inner_curvature(pair, 0.0), 1.0 / pair.tooth_radius)
    )
    return lobe + 2.0 * tooth


def _tip_lands(pair: RotorPair, gap: Metre) -> tuple[Metre, Metre]:
    """Lengths of parallel gaps that leak like the tips where chambers are widest and narrowest."""
    found = []
    for parameter in (0.0, math.pi / pair.inner_lobes):
        together = 1.0 / pair.tooth_radius + inner_curvature(pair, parameter)
        found.append(3.0 * math.pi / 8.0 * math.sqrt(2.0 * gap / together))
    return found[0], found[1]
