"""Chambers of an internal rotor pump over a turn: areas, displacement, ripple of the flow."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np

from fitwright.physics.pump.trochoid import (
    ComplexArray,
    RotorPair,
    is_undercut,
    profile_points,
    smallest_radius_of_curvature,
    tooth_root,
)
from fitwright.quantity import CubicMetre, FloatArray, Metre, Number, Radians, SquareMetre

_RIPPLE_POINTS: Final = 241
_PANELS: Final = 6
_NODES: Final = 40
UNDERCUT: Final = "The teeth undercut the inner rotor: it does not seal, and less is displaced than computed."


@dataclass(frozen=True, slots=True)
class RotorDisplacement:
    """What an internal rotor pump displaces.

    Attributes
    ----------
    displacement : float [m3]
        For each revolution of the inner rotor.
    flow_ripple : float [1]
        Largest less least flow over the mean flow, without leaks, ports switching where chambers turn.
    largest_chamber, smallest_chamber : float [m2]
        Areas of a chamber, with roots that the inner rotor's tips just touch.
    smallest_radius_of_curvature : float [m]
        Of the trochoid; the tooth radius has to stay below it.
    cautions : tuple of str
        What to know before using the numbers.
    """

    displacement: CubicMetre
    flow_ripple: Number
    largest_chamber: SquareMetre
    smallest_chamber: SquareMetre
    smallest_radius_of_curvature: Metre
    cautions: tuple[str, ...]


def rotor_displacement(pair: RotorPair) -> RotorDisplacement:
    r"""Displacement for each revolution of the inner rotor, and ripple of the flow.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.

    Returns
    -------
    RotorDisplacement
        Displacement, ripple and extreme chambers.

    Notes
    -----
    N + 1 chambers each fill and empty N / (N + 1) times in a revolution of the inner rotor:

    .. math:: V = N b (A_{max} - A_{min})

    The estimate from tips and roots, pi b (r_tip^2 - r_root^2), takes the largest flow for the mean and is
    a few per cent too high (5 % with four lobes, 1.5 % with eight).

    References
    ----------
    [ivantysyn2001] displacement from the extreme chambers

    Examples
    --------
    >>> found = rotor_displacement(RotorPair(4, 3e-3, 25e-3, 9e-3, 10e-3))
    >>> round(found.displacement * 1e9, 2), round(found.flow_ripple, 4)
    (5726.13, 0.0925)
    """
    # Chamber 0 lies between teeth 0 and 1; at these angles both stand alike on either side of the axis.
    widest, narrowest = -math.pi / pair.inner_lobes, math.pi
    areas = chamber_areas(pair, np.array([widest, narrowest]))[:, 0]
    flow = instantaneous_flow(pair, np.linspace(0.0, math.pi / pair.inner_lobes, _RIPPLE_POINTS))
    displacement = pair.inner_lobes * pair.width * float(areas[0] - areas[1])
    mean = displacement / (2.0 * math.pi)
    return RotorDisplacement(
        displacement=displacement,
        flow_ripple=float(np.ptp(flow)) / mean,
        largest_chamber=float(areas[0]),
        smallest_chamber=float(areas[1]),
        smallest_radius_of_curvature=smallest_radius_of_curvature(pair),
        cautions=(UNDERCUT,) if is_undercut(pair) else (),
    )


def contact_points(pair: RotorPair, angle: Radians) -> FloatArray:
    r"""Where the teeth of the outer rotor touch the inner rotor.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    angle : array_like [rad], shape (m)
        Angle of the inner rotor.

    Returns
    -------
    ndarray [m], shape (m, N + 1, 2)
        Points about the inner rotor's centre, which the rotors' axis of x runs through.

    Notes
    -----
    All normals pass through the pitch point, N times the eccentricity from the inner rotor's centre on the
    side where the teeth mesh deepest.

    References
    ----------
    [ivantysyn2001] trochoid gearing; the equations are derived here

    Examples
    --------
    >>> points = contact_points(RotorPair(4, 3e-3, 25e-3, 9e-3, 10e-3), [0.0])
    >>> points.shape, round(float(points[0, 0, 0]) * 1e3, 3)
    ((1, 5, 2), 19.0)
    """
    points = _contacts(pair, np.atleast_1d(np.asarray(angle, dtype=float)))
    return np.stack([points.real, points.imag], axis=-1)


def chamber_areas(pair: RotorPair, angle: Radians, *, root_clearance: Metre = 0.0) -> FloatArray:
    r"""Area of every chamber at given angles of the inner rotor.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    angle : array_like [rad], shape (m)
        Angle of the inner rotor.
    root_clearance : float [m]
        How much deeper the outer rotor's roots are than the inner rotor's tips reach.

    Returns
    -------
    ndarray [m2], shape (m, N + 1)
        Chamber k lies between teeth k and k + 1.

    Raises
    ------
    OutOfDomainError
        If there is no room for roots between the teeth.

    Notes
    -----
    Green's theorem along the outer rotor's arcs, in closed form, and along the inner rotor by Gauss-Legendre
    quadrature in six parts of 40 points: exact to rounding unless teeth times eccentricity come near the
    generating radius.

    .. math:: A = \tfrac12 \oint (x\,dy - y\,dx)

    References
    ----------
    [abramowitz1964] 25.4.29, Gauss quadrature

    Examples
    --------
    >>> areas = chamber_areas(RotorPair(4, 3e-3, 25e-3, 9e-3, 10e-3), [0.0, 0.5])
    >>> (areas.sum(axis=1) * 1e6).round(4).tolist()  # all chambers together stay the same
    [376.2186, 376.2186]
    """
    phi = np.atleast_1d(np.asarray(angle, dtype=float))
    half, corner, root = tooth_root(pair, root_clearance=root_clearance)
    theta = _parameters(pair, phi)
    contacts = _contacts(pair, phi) - pair.eccentricity  # about the outer rotor's centre
    turn = np.exp(1j * (theta + phi[:, None]))  # directions of the teeth
    beta = -np.angle((pair.generating_radius - contacts / turn) / pair.tooth_radius)
    forward = _tooth_part(pair, beta, half)
    backward = _tooth_part(pair, -np.roll(beta, -1, axis=1), half)
    roots = 0.5 * root**2 * (2.0 * math.pi / pair.outer_teeth - 2.0 * corner)
    # The inner rotor's part is taken about its own centre; the chords between contacts join both origins.
    ends = contacts, np.roll(contacts, -1, axis=1)
    shift = 0.5 * pair.eccentricity * (ends[1] - ends[0]).imag
    return np.asarray(forward + backward + roots - (_swept(pair, theta) - shift))


def instantaneous_flow(pair: RotorPair, angle: Radians) -> FloatArray:
    r"""Flow per angular speed at given angles of the inner rotor, from the contact points alone.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    angle : array_like [rad], shape (m)
        Angle of the inner rotor.

    Returns
    -------
    ndarray [m3], shape (m)
        What all shrinking chambers push out for each radian of the inner rotor.

    Notes
    -----
    A chamber between contacts at distances r from the inner and R from the outer rotor's centre changes by

    .. math:: \frac{dA}{d\varphi} = \tfrac12 \left[\tfrac{N}{N+1} (R_{k+1}^2 - R_k^2) - (r_{k+1}^2 - r_k^2)
              \right]

    References
    ----------
    [ivantysyn2001] flow pulsation of gear pumps; the equation is derived here

    Examples
    --------
    >>> flow = instantaneous_flow(RotorPair(8, 2.5e-3, 30e-3, 6.5e-3, 12e-3), np.linspace(0.0, 0.4, 50))
    >>> round(float(flow.max() / flow.min()), 3)
    1.027
    """
    points = _contacts(pair, np.atleast_1d(np.asarray(angle, dtype=float)))
    inside, outside = np.abs(points) ** 2, np.abs(points - pair.eccentricity) ** 2
    part = outside * pair.inner_lobes / pair.outer_teeth - inside
    rates = 0.5 * (np.roll(part, -1, axis=1) - part)
    return np.asarray(-pair.width * np.minimum(rates, 0.0).sum(axis=1))


def _parameters(pair: RotorPair, phi: FloatArray) -> FloatArray:
    """Angles of the teeth about the outer rotor's centre, in the frame of the inner rotor."""
    tooth = np.arange(pair.outer_teeth)
    return np.asarray((2.0 * math.pi * tooth - phi[:, None]) / pair.outer_teeth)


def _contacts(pair: RotorPair, phi: FloatArray) -> ComplexArray:
    return np.asarray(profile_points(pair, _parameters(pair, phi)) * np.exp(1j * phi[:, None]))


def _tooth_part(pair: RotorPair, start: FloatArray, half: float) -> FloatArray:
    """Green's integral along a tooth from the contact to its end, about the outer rotor's centre."""
    g, r = pair.generating_radius, pair.tooth_radius
    # The point is g - r exp(-i beta); x dy - y dx = (g r cos beta - r^2) d beta.
    return np.asarray(0.5 * (g * r * (math.sin(half) - np.sin(start)) - r**2 * (half - start)))


def _swept(pair: RotorPair, theta: FloatArray) -> FloatArray:
    """Green's integral along the inner rotor from each contact to the next, about its own centre."""
    nodes, weights = _quadrature()
    span = 2.0 * math.pi / pair.outer_teeth
    at = theta[..., None] + span * nodes
    n, e, g = pair.outer_teeth, pair.eccentricity, pair.generating_radius
    turn, ahead = np.exp(1j * at), np.exp(1j * n * at)
    normal, second = g * turn + n * e * ahead, g * turn + n**2 * e * ahead
    size = np.abs(normal)
    unit = normal / size
    bend = (np.conj(normal) * second).real / size**2  # turn of the normal by the parameter
    tangent = 1j * unit * (size - pair.tooth_radius * bend)
    point = g * turn + e * ahead - pair.tooth_radius * unit
    return np.asarray(0.5 * span * ((np.conj(point) * tangent).imag * weights).sum(axis=-1))


@cache
def _quadrature() -> tuple[FloatArray, FloatArray]:
    """Nodes and weights of the panels between zero and one."""
    nodes, weights = np.polynomial.legendre.leggauss(_NODES)
    starts = np.arange(_PANELS)[:, None]
    return ((starts + 0.5 * (nodes + 1.0)) / _PANELS).ravel(), np.tile(0.5 * weights / _PANELS, _PANELS)
