"""Profiles of an internal rotor pump: circular teeth outside, their envelope inside.

Points are complex numbers in the kernels of these functions and rows of x and y outside. The axis of x
runs from the inner rotor's centre to the outer rotor's; chambers are widest on its positive side. At
angle zero a tip of the inner rotor points along it. Positive angles turn from x to y.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre, Radian, Radians

ComplexArray = NDArray[np.complex128]


@dataclass(frozen=True, slots=True)
class RotorPair:
    """The tooth data of an internal rotor pump.

    Attributes
    ----------
    inner_lobes : int
        Lobes of the inner rotor; the outer one has one tooth more.
    eccentricity : float [m]
        Distance between the two centres.
    generating_radius : float [m]
        Radius on which the centres of the outer rotor's teeth lie.
    tooth_radius : float [m]
        Radius of those teeth.
    width : float [m]
        Height of the rotors along their axis.
    """

    inner_lobes: int
    eccentricity: Metre
    generating_radius: Metre
    tooth_radius: Metre
    width: Metre

    def __post_init__(self) -> None:
        if self.inner_lobes < 3:
            raise OutOfDomainError("inner_lobes", self.inner_lobes, "3 or more")
        for name in ("eccentricity", "tooth_radius", "width"):
            if not getattr(self, name) > 0.0:
                raise OutOfDomainError(name, getattr(self, name), "greater than zero")
        least = max((self.inner_lobes + 1) * self.eccentricity, self.tooth_radius + self.eccentricity)
        if not self.generating_radius > least:
            raise OutOfDomainError(
                "generating_radius",
                self.generating_radius,
                f"above {least}: more teeth times eccentricity, and more than tooth radius and eccentricity",
            )

    @property
    def outer_teeth(self) -> int:
        """Teeth of the outer rotor."""
        return self.inner_lobes + 1

    @property
    def inner_tip_radius(self) -> Metre:
        """Radius of the inner rotor at its tips."""
        return self.generating_radius - self.tooth_radius + self.eccentricity

    @property
    def inner_root_radius(self) -> Metre:
        """Radius of the inner rotor at its roots."""
        return self.generating_radius - self.tooth_radius - self.eccentricity

    @property
    def outer_tip_radius(self) -> Metre:
        """Radius of the circle through the tips of the outer rotor's teeth."""
        return self.generating_radius - self.tooth_radius

    @property
    def outer_root_radius(self) -> Metre:
        """Least radius of the outer rotor at its roots: the inner rotor's tips just touch it."""
        return self.inner_tip_radius + self.eccentricity


def inner_profile(pair: RotorPair, *, count: int = 720) -> FloatArray:
    r"""Outline of the inner rotor at angle zero, about its own centre.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    count : int
        Number of points.

    Returns
    -------
    ndarray [m], shape (count, 2)
        Points in turn, without the first one again; the first is a tip.

    Raises
    ------
    OutOfDomainError
        If the profile is undercut, so that the outline would cross itself.

    Notes
    -----
    The centre of a tooth runs on a trochoid; the profile lies one tooth radius inside it:

    .. math:: C = G e^{i\theta} + \epsilon e^{i(N+1)\theta}, \quad
              P = C - \rho \frac{G e^{i\theta} + (N+1) \epsilon e^{i(N+1)\theta}}{|\cdot|}

    References
    ----------
    [ivantysyn2001] trochoid gearing; the equations are derived here

    Examples
    --------
    >>> pair = RotorPair(4, 3e-3, 25e-3, 9e-3, 10e-3)
    >>> radii = np.hypot(*inner_profile(pair).T)
    >>> round(float(radii.max()) * 1e3, 6), round(float(radii.min()) * 1e3, 6)
    (19.0, 13.0)
    """
    if is_undercut(pair):
        raise OutOfDomainError(
            "tooth_radius", pair.tooth_radius, f"at most {smallest_radius_of_curvature(pair)}"
        )
    points = profile_points(pair, np.linspace(0.0, 2.0 * math.pi, count, endpoint=False))
    return np.column_stack([points.real, points.imag])


def outer_profile(pair: RotorPair, *, count: int = 720, root_clearance: Metre = 0.0) -> FloatArray:
    r"""Inside outline of the outer rotor at angle zero, about its own centre.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    count : int
        Number of points, spread evenly over the teeth.
    root_clearance : float [m]
        How much deeper its roots are than the inner rotor's tips reach.

    Returns
    -------
    ndarray [m], shape (m, 2)
        Points in turn, without the first one again; m is `count` rounded to whole teeth.

    Raises
    ------
    OutOfDomainError
        If the teeth are too close for roots between them.

    Notes
    -----
    Teeth are arcs of the tooth radius, roots an arc about the rotor's centre that meets them without a
    fillet. Only the teeth seal; the shape of the roots adds the same area to every chamber.

    References
    ----------
    [ivantysyn2001] trochoid gearing; the roots are an assumption of this project

    Examples
    --------
    >>> pair = RotorPair(4, 3e-3, 25e-3, 9e-3, 10e-3)
    >>> radii = np.hypot(*outer_profile(pair).T)
    >>> round(float(radii.min()) * 1e3, 2), round(float(radii.max()) * 1e3, 2)
    (16.0, 22.0)
    """
    half, corner, root = tooth_root(pair, root_clearance=root_clearance)
    pitch = 2.0 * math.pi / pair.outer_teeth
    each = max(count // pair.outer_teeth, 12)
    on_tooth = each - each // 3
    beta = np.linspace(-half, half, on_tooth)
    tooth = pair.generating_radius - pair.tooth_radius * np.exp(-1j * beta)
    gap = np.linspace(corner, pitch - corner, each // 3 + 2)[1:-1]
    one = np.concatenate([tooth, root * np.exp(1j * gap)])
    points = (np.exp(1j * pitch * np.arange(pair.outer_teeth))[:, None] * one).ravel()
    return np.column_stack([points.real, points.imag])


def smallest_radius_of_curvature(pair: RotorPair) -> Metre:
    r"""Smallest radius of curvature of the tooth centres' trochoid where it is convex.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.

    Returns
    -------
    float [m]
        The radius; a tooth radius above it undercuts the inner rotor.

    Notes
    -----
    .. math:: \frac1R = \frac{G^2 + (N+1)^3 \epsilon^2 + (N+1)(N+2) G \epsilon c}
              {(G^2 + (N+1)^2 \epsilon^2 + 2 (N+1) G \epsilon c)^{3/2}}, \quad c = \cos N\theta

    The largest curvature lies at c = 1 or where the derivative by c is zero.

    References
    ----------
    [ivantysyn2001] trochoid gearing; the curvature of a plane curve, derived here

    Examples
    --------
    >>> round(smallest_radius_of_curvature(RotorPair(4, 3e-3, 25e-3, 9e-3, 10e-3)) * 1e3, 4)
    14.1421
    """
    n, e, g = pair.outer_teeth, pair.eccentricity, pair.generating_radius
    a, b = g**2 + n**3 * e**2, n * (n + 1) * g * e
    p, q = g**2 + n**2 * e**2, 2.0 * n * g * e
    # d/dc of (a + b c) (p + q c)^(-3/2) is zero where b (p + q c) = 3/2 q (a + b c).
    inner = (b * p - 1.5 * q * a) / (0.5 * q * b)
    places = [-1.0, 1.0, *([inner] if -1.0 < inner < 1.0 else [])]
    return float(1.0 / max((a + b * c) / (p + q * c) ** 1.5 for c in places))


def is_undercut(pair: RotorPair) -> bool:
    """Whether the teeth cut into the inner rotor's flanks, so that they no longer seal.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.

    Returns
    -------
    bool
        True where the tooth radius exceeds the smallest radius of curvature.

    Notes
    -----
    Where both are equal, the profile has a point of no radius; it counts as undercut.

    References
    ----------
    [ivantysyn2001] trochoid gearing

    Examples
    --------
    >>> [is_undercut(RotorPair(4, 3e-3, 25e-3, radius, 10e-3)) for radius in (9e-3, 15e-3)]
    [False, True]
    """
    return pair.tooth_radius >= smallest_radius_of_curvature(pair)


def profile_points(pair: RotorPair, parameter: Radians) -> ComplexArray:
    """Points of the inner rotor where a tooth touches it, about its own centre.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    parameter : array_like [rad]
        Angle of the tooth about the outer rotor's centre, in the frame of the inner rotor.

    Returns
    -------
    ndarray of complex [m]
        The points, shaped as `parameter`.

    Notes
    -----
    As in `inner_profile`.

    References
    ----------
    [ivantysyn2001] trochoid gearing; the equations are derived here

    Examples
    --------
    >>> complex(profile_points(RotorPair(4, 3e-3, 25e-3, 9e-3, 10e-3), np.array([0.0]))[0])
    (0.019+0j)
    """
    theta = np.asarray(parameter, dtype=float)
    turn, ahead = np.exp(1j * theta), np.exp(1j * pair.outer_teeth * theta)
    normal = pair.generating_radius * turn + pair.outer_teeth * pair.eccentricity * ahead
    centre = pair.generating_radius * turn + pair.eccentricity * ahead
    return np.asarray(centre - pair.tooth_radius * normal / np.abs(normal))


def tooth_root(pair: RotorPair, *, root_clearance: Metre = 0.0) -> tuple[Radian, Radian, Metre]:
    """Where a tooth of the outer rotor ends in its root.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    root_clearance : float [m]
        How much deeper the roots are than the inner rotor's tips reach.

    Returns
    -------
    tuple of float [rad], [m]
        Half the arc of a tooth about the tooth's centre, half the angle that it takes about the rotor's
        centre [rad], and the radius of the roots [m].

    Raises
    ------
    OutOfDomainError
        If the teeth are too close for roots between them, or do not reach the roots.

    Notes
    -----
    By the law of cosines in the triangle of rotor centre, tooth centre and corner.

    References
    ----------
    [ivantysyn2001] trochoid gearing; the roots are an assumption of this project

    Examples
    --------
    >>> half, corner, root = tooth_root(RotorPair(4, 3e-3, 25e-3, 9e-3, 10e-3))
    >>> round(math.degrees(half), 2), round(math.degrees(corner), 2), round(root * 1e3, 2)
    (60.44, 20.85, 22.0)
    """
    g, r, root = pair.generating_radius, pair.tooth_radius, pair.outer_root_radius + root_clearance
    if not g - r < root < math.hypot(g, r):
        raise OutOfDomainError("tooth_radius", r, "large enough for teeth that reach their roots")
    half = math.acos((g**2 + r**2 - root**2) / (2.0 * g * r))
    corner = math.atan2(r * math.sin(half), g - r * math.cos(half))
    if not corner < math.pi / pair.outer_teeth:
        raise OutOfDomainError("tooth_radius", r, "small enough to leave roots between the teeth")
    return half, corner, root
