"""Loads of big ends and mains over the cycle, from gas and inertia, at a steady speed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.train.kinematics import CrankGeometry, piston_motion
from fitwright.quantity import (
    FloatArray,
    Kilogram,
    KilogramSquareMetre,
    Metre,
    Newtons,
    Radian,
    RadianPerSecond,
    RadiansPerSecond,
)


@dataclass(frozen=True, slots=True)
class MovingMasses:
    """Masses of one cylinder.

    Attributes
    ----------
    piston_mass : float [kg]
        Piston with rings, pin and clips.
    rod_mass : float [kg]
        Rod with cap, bolts and shells.
    rod_centre : float [m]
        Centre of mass of the rod from the centre of its big end.
    rod_inertia : float or None [kg m2]
        Moment of inertia of the rod about its centre of mass; None takes that of two masses at its ends.
    """

    piston_mass: Kilogram
    rod_mass: Kilogram
    rod_centre: Metre
    rod_inertia: KilogramSquareMetre | None = None


@dataclass(frozen=True, slots=True, eq=False)
class CylinderLoads:
    """Forces of one cylinder over its own cycle, which begins with the throw along the cylinder at firing.

    Attributes
    ----------
    big_end : array (n, 2) [N]
        Load of the crank pin in the frame of the rod, whose second axis points to the small end: where the
        pin presses in its bearing.
    pin_force : array (n, 2) [N]
        Force of the rod on the crank pin, in the frame of the cylinder.
    relative_speed : array (n,) [rad/s]
        Speed of the crank pin against the rod.
    side_force : array (n,) [N]
        Force of the cylinder's wall on the piston, towards x.
    torque : array (n,) [N m]
        On the crank, in the direction of rotation.
    """

    big_end: FloatArray
    pin_force: FloatArray
    relative_speed: FloatArray
    side_force: FloatArray
    torque: FloatArray


@dataclass(frozen=True, slots=True)
class CylinderPlace:
    """Where a cylinder stands and when it fires.

    Attributes
    ----------
    throw : int
        Index of the throw that its rod runs on, from zero.
    firing_angle : float [rad]
        Crank angle of the engine at which its throw stands along the cylinder at firing.
    bank_angle : float [rad]
        From the engine's y axis to the cylinder, in the direction of rotation.
    """

    throw: int
    firing_angle: Radian
    bank_angle: Radian = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class TrainLoads:
    """Loads of all bearings of a crank over the engine's cycle.

    Attributes
    ----------
    crank_angle : array (n,) [rad]
        Even crank angles of the engine over the cycle.
    big_end : array (cylinders, n, 2) [N]
        Load of each crank pin in the frame of its rod.
    relative_speed : array (cylinders, n) [rad/s]
        Speed of each crank pin against its rod.
    main : array (mains, n, 2) [N]
        Load of each main journal in the frame of the engine, from the nose.
    torque : array (n,) [N m]
        Sum over the cylinders.
    """

    crank_angle: FloatArray
    big_end: FloatArray
    relative_speed: FloatArray
    main: FloatArray
    torque: FloatArray


def cylinder_loads(
    geometry: CrankGeometry,
    masses: MovingMasses,
    gas: Newtons,
    *,
    angular_speed: RadianPerSecond,
    cycle_angle: Radian = 4.0 * math.pi,
) -> CylinderLoads:
    r"""Forces of one cylinder over its cycle.

    Parameters
    ----------
    geometry : CrankGeometry
        Sizes.
    masses : MovingMasses
        Masses.
    gas : array (n,) [N]
        Gas force on the piston towards the crank, at even crank angles from firing on.
    angular_speed : float [rad/s]
        Of the crank, steady.
    cycle_angle : float [rad]
        Crank angle of the cycle.

    Returns
    -------
    CylinderLoads
        Forces at the same crank angles.

    Raises
    ------
    OutOfDomainError
        If a mass is negative or the forces are no row.

    Notes
    -----
    The rod as a plane rigid body, the piston as a mass on a line; friction and weight are left out. With
    the unit vector e along the rod, its centre a from the big end, and its acceleration there:

    .. math:: \vec e \times \vec R = -\frac{I \alpha + a\, m\, \vec e \times \vec a_g}{l}, \quad
              R_y = m_p \ddot s + F, \quad \vec B = \vec R + m\, \vec a_g

    R acts from the rod on the piston, B from the crank pin on the rod: the pin presses in its bearing in
    the direction of B.

    References
    ----------
    [norton2009] dynamic force analysis of the slider-crank

    Examples
    --------
    >>> crank, masses = CrankGeometry(0.045, 0.145), MovingMasses(0.4, 0.5, 0.04)
    >>> loads = cylinder_loads(crank, masses, np.full(720, 1000.0), angular_speed=1e-6)
    >>> loads.big_end[0].round(3).tolist()
    [0.0, 1000.0]
    """
    force = np.asarray(gas, dtype=np.float64)
    _check(masses, force)
    theta = np.arange(len(force)) * cycle_angle / len(force)
    motion = piston_motion(geometry, theta, angular_speed=angular_speed)
    r, length, a = geometry.crank_radius, geometry.rod_length, masses.rod_centre
    ex, ey = np.sin(motion.rod_angle), np.cos(motion.rod_angle)
    inertia = masses.rod_mass * a * (length - a) if masses.rod_inertia is None else masses.rod_inertia
    share = a / length
    gx = (1.0 - share) * r * angular_speed**2 * np.sin(theta)
    gy = -(1.0 - share) * r * angular_speed**2 * np.cos(theta) + share * motion.acceleration
    couple = -(inertia * motion.rod_acceleration + a * masses.rod_mass * (ex * gy - ey * gx)) / length
    piston_y = masses.piston_mass * motion.acceleration + force
    piston_x = (ex * piston_y - couple) / ey
    bx, by = piston_x + masses.rod_mass * gx, piston_y + masses.rod_mass * gy
    return CylinderLoads(
        big_end=np.stack([bx * ey - by * ex, bx * ex + by * ey], axis=-1),
        pin_force=np.stack([-bx, -by], axis=-1),
        relative_speed=angular_speed - motion.rod_speed,
        side_force=-piston_x,
        torque=r * (np.sin(theta) * by + np.cos(theta) * bx),
    )


def train_loads(
    geometry: CrankGeometry,
    cylinder: CylinderLoads,
    places: Sequence[CylinderPlace],
    *,
    angular_speed: RadianPerSecond,
    cycle_angle: Radian = 4.0 * math.pi,
    rotating_masses: Sequence[Kilogram] = (),
    throws_between_mains: Sequence[int] = (),
) -> TrainLoads:
    r"""Loads of all big ends and mains of a crank whose cylinders are alike.

    Parameters
    ----------
    geometry : CrankGeometry
        Sizes.
    cylinder : CylinderLoads
        Forces of one cylinder over its own cycle.
    places : sequence of CylinderPlace
        The cylinders; throws are counted from zero without a gap.
    angular_speed : float [rad/s]
        Of the crank, steady.
    cycle_angle : float [rad]
        Crank angle of the cycle.
    rotating_masses : sequence of float [kg]
        Of each throw, what of crank pin and webs the counterweights leave, at the crank radius; negative
        where they outweigh it. Empty for none.
    throws_between_mains : sequence of int
        How many throws stand between each main and the next, from the nose. Empty for one each.

    Returns
    -------
    TrainLoads
        Loads over the engine's cycle.

    Raises
    ------
    OutOfDomainError
        If firing angles fall between the crank angles, throws leave a gap, two cylinders on a throw
        place it differently, or there are other throws between the mains than cylinders run on.

    Notes
    -----
    Each throw stands on the two mains beside it as if the crank were cut at every main: the statically
    determinate share. One throw alone loads both by half; several stand evenly between the two. A stiff
    crank in a stiff block shares otherwise, so that the loads of mains between throws that pull against
    each other are the least certain.

    References
    ----------
    [norton2009] dynamic force analysis of the slider-crank

    Examples
    --------
    >>> crank, masses = CrankGeometry(0.045, 0.145), MovingMasses(0.4, 0.5, 0.04)
    >>> loads = cylinder_loads(crank, masses, np.full(720, 1000.0), angular_speed=1e-6)
    >>> train_loads(crank, loads, [CylinderPlace(0, 0.0)], angular_speed=1e-6).main[:, 0].round(3).tolist()
    [[0.0, -500.0], [0.0, -500.0]]
    """
    n = len(cylinder.torque)
    throws = _throw_angles(places)
    theta = np.arange(n) * cycle_angle / n
    on_throw = np.zeros((len(throws), n, 2))
    big_ends, speeds, torque = [], [], np.zeros(n)
    for place in places:
        shift = _shift(place.firing_angle, cycle_angle / n)
        big_ends.append(np.roll(cylinder.big_end, shift, axis=0))
        speeds.append(np.roll(cylinder.relative_speed, shift))
        torque += np.roll(cylinder.torque, shift)
        on_throw[place.throw] += _turned(np.roll(cylinder.pin_force, shift, axis=0), place.bank_angle)
    masses = np.zeros(len(throws)) if not len(rotating_masses) else np.asarray(rotating_masses)
    if len(masses) != len(throws):
        raise OutOfDomainError("rotating_masses", rotating_masses, f"one for each of {len(throws)} throws")
    for k, (mass, angle) in enumerate(zip(masses, throws, strict=True)):
        pull = mass * geometry.crank_radius * angular_speed**2
        on_throw[k] += pull * np.stack([-np.sin(theta + angle), np.cos(theta + angle)], axis=-1)
    main = np.einsum("mt,tij->mij", _shares(throws_between_mains, len(throws)), on_throw)
    return TrainLoads(theta, np.array(big_ends), np.array(speeds), main, torque)


def speed_of_pin_in_rod(
    geometry: CrankGeometry, *, angular_speed: RadianPerSecond, count: int, cycle_angle: Radian
) -> RadiansPerSecond:
    """Speed of the crank pin against the rod at even crank angles.

    Parameters
    ----------
    geometry : CrankGeometry
        Sizes.
    angular_speed : float [rad/s]
        Of the crank, steady.
    count : int
        Number of crank angles.
    cycle_angle : float [rad]
        Crank angle of the cycle.

    Returns
    -------
    array (count,) [rad/s]
        For a load cycle that was read from elsewhere.

    References
    ----------
    [heywood1988] slider-crank geometry

    Examples
    --------
    >>> crank = CrankGeometry(0.045, 0.145)
    >>> speed_of_pin_in_rod(crank, angular_speed=100.0, count=4, cycle_angle=2.0 * math.pi).round(2)
    array([131.03, 100.  ,  68.97, 100.  ])
    """
    theta = np.arange(count) * cycle_angle / count
    speed: FloatArray = angular_speed - piston_motion(geometry, theta, angular_speed=angular_speed).rod_speed
    return speed


def _shares(throws_between_mains: Sequence[int], throws: int) -> FloatArray:
    """What each main (rows) carries of the load of each throw (columns)."""
    spaces = list(throws_between_mains) or [1] * throws
    if sum(spaces) != throws or min(spaces) < 1:
        raise OutOfDomainError("throws_between_mains", throws_between_mains, f"{throws} throws together")
    shares, first = np.zeros((len(spaces) + 1, throws)), 0
    for space, count in enumerate(spaces):
        along = np.arange(1, count + 1) / (count + 1)
        shares[space, first : first + count] = 1.0 - along
        shares[space + 1, first : first + count] = along
        first += count
    return shares


def _throw_angles(places: Sequence[CylinderPlace]) -> list[float]:
    """Angle of every throw at crank angle zero, from the engine's y axis."""
    angles: dict[int, float] = {}
    for place in places:
        angle = place.bank_angle - place.firing_angle
        known = angles.setdefault(place.throw, angle)
        if abs(math.remainder(angle - known, 2.0 * math.pi)) > 1e-6:
            raise OutOfDomainError(
                "firing_angle", place.firing_angle, f"such that throw {place.throw} stands in one place"
            )
    if sorted(angles) != list(range(len(angles))):
        raise OutOfDomainError("throw", sorted(angles), "counted from zero without a gap")
    return [angles[k] for k in sorted(angles)]


def _shift(angle: float, interval: float) -> int:
    steps = angle / interval
    if abs(steps - round(steps)) > 1e-6:
        raise OutOfDomainError("firing_angle", angle, f"a multiple of the interval of the loads, {interval}")
    return round(steps)


def _turned(forces: FloatArray, angle: float) -> FloatArray:
    c, s = math.cos(angle), math.sin(angle)
    return np.stack([c * forces[:, 0] - s * forces[:, 1], s * forces[:, 0] + c * forces[:, 1]], axis=-1)


def _check(masses: MovingMasses, force: FloatArray) -> None:
    if force.ndim != 1 or len(force) < 8:
        raise OutOfDomainError("gas", f"of shape {force.shape}", "a row of eight forces or more")
    if not (masses.piston_mass >= 0.0 and masses.rod_mass >= 0.0):
        raise OutOfDomainError("mass", min(masses.piston_mass, masses.rod_mass), "zero or more")
