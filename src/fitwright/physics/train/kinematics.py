"""Motion of a slider-crank whose pin may be offset; exact, not by a series."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre, Radian, RadianPerSecond, Radians


@dataclass(frozen=True, slots=True)
class CrankGeometry:
    """Sizes of a slider-crank.

    Attributes
    ----------
    crank_radius : float [m]
        Half of the stroke when the pin is not offset.
    rod_length : float [m]
        Between the centres of big end and small end.
    pin_offset : float [m]
        Offset of the piston pin, or of the cylinder, from the crank's axis; positive towards the side that
        the throw turns to from the top.
    """

    crank_radius: Metre
    rod_length: Metre
    pin_offset: Metre = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class PistonMotion:
    """Where piston and rod are and how they move; arrays have the shape of the crank angle.

    Attributes
    ----------
    height : array [m]
        Piston pin above the crank's axis, along the cylinder.
    velocity : array [m/s]
        Of the piston, away from the crank.
    acceleration : array [m/s2]
        Of the piston, away from the crank.
    rod_angle : array [rad]
        Lean of the rod's small end towards x.
    rod_speed : array [rad/s]
        Angular speed of the rod in the sense of the crank.
    rod_acceleration : array [rad/s2]
        Angular acceleration of the rod in the sense of the crank.
    """

    height: FloatArray
    velocity: FloatArray
    acceleration: FloatArray
    rod_angle: FloatArray
    rod_speed: FloatArray
    rod_acceleration: FloatArray


def piston_motion(
    geometry: CrankGeometry, crank_angle: Radians, *, angular_speed: RadianPerSecond
) -> PistonMotion:
    r"""Motion of piston and rod at a steady speed of the crank.

    Parameters
    ----------
    geometry : CrankGeometry
        Sizes.
    crank_angle : array_like [rad]
        From the throw along the cylinder, in the direction of rotation.
    angular_speed : float [rad/s]
        Of the crank, steady.

    Returns
    -------
    PistonMotion
        Height, velocity and acceleration of the piston; angle and motion of the rod.

    Raises
    ------
    OutOfDomainError
        If the rod does not reach round.

    Notes
    -----
    .. math:: s = r \cos\theta + \sqrt{l^2 - u^2}, \quad u = r \sin\theta - d

    and its derivatives; the rod leans by asin(u / l).

    References
    ----------
    [heywood1988] slider-crank geometry

    Examples
    --------
    >>> motion = piston_motion(CrankGeometry(0.045, 0.145), 0.0, angular_speed=100.0)
    >>> float(motion.height), float(motion.velocity), round(float(motion.acceleration), 1)
    (0.19, 0.0, -589.7)
    """
    _check(geometry)
    r, length, d, omega = geometry.crank_radius, geometry.rod_length, geometry.pin_offset, angular_speed
    theta = np.asarray(crank_angle, dtype=np.float64)
    sine, cosine = np.sin(theta), np.cos(theta)
    u, du, ddu = r * sine - d, r * omega * cosine, -r * omega**2 * sine
    w = np.sqrt(length**2 - u**2)
    lean_rate = du / w
    return PistonMotion(
        height=r * cosine + w,
        velocity=-r * omega * sine - u * lean_rate,
        acceleration=-r * omega**2 * cosine - (du**2 + u * ddu) / w - u**2 * du**2 / w**3,
        rod_angle=np.arcsin(u / length),
        rod_speed=-lean_rate,
        rod_acceleration=-(ddu / w + u * du**2 / w**3),
    )


def top_angle(geometry: CrankGeometry) -> Radian:
    r"""Crank angle at which the piston is highest.

    Parameters
    ----------
    geometry : CrankGeometry
        Sizes.

    Returns
    -------
    float [rad]
        From the throw along the cylinder; zero without offset.

    Raises
    ------
    OutOfDomainError
        If the rod does not reach round.

    Notes
    -----
    .. math:: \sin\theta = \frac{d}{l + r}

    References
    ----------
    [heywood1988] slider-crank geometry

    Examples
    --------
    >>> top_angle(CrankGeometry(0.045, 0.145))
    0.0
    """
    _check(geometry)
    return math.asin(geometry.pin_offset / (geometry.rod_length + geometry.crank_radius))


def heights_at_the_ends(geometry: CrankGeometry) -> tuple[Metre, Metre]:
    r"""Height of the piston pin at the top and at the bottom of the stroke.

    Parameters
    ----------
    geometry : CrankGeometry
        Sizes.

    Returns
    -------
    tuple of two floats [m]
        Heights above the crank's axis; their difference is the stroke.

    Raises
    ------
    OutOfDomainError
        If the rod does not reach round.

    Notes
    -----
    .. math:: s = \sqrt{(l \pm r)^2 - d^2}

    References
    ----------
    [heywood1988] slider-crank geometry

    Examples
    --------
    >>> high, low = heights_at_the_ends(CrankGeometry(0.045, 0.145))
    >>> round(high - low, 6)
    0.09
    """
    _check(geometry)
    r, length, d = geometry.crank_radius, geometry.rod_length, geometry.pin_offset
    return math.sqrt((length + r) ** 2 - d**2), math.sqrt((length - r) ** 2 - d**2)


def _check(geometry: CrankGeometry) -> None:
    if not geometry.crank_radius > 0.0:
        raise OutOfDomainError("crank_radius", geometry.crank_radius, "positive")
    least = geometry.crank_radius + abs(geometry.pin_offset)
    if not geometry.rod_length > least:
        raise OutOfDomainError("rod_length", geometry.rod_length, f"above crank radius and offset, {least}")
