"""Where a housing sits around a shaft, and how far the shaft's nose runs out, from gaps with values.

The model of a gap at station angle theta with the shaft turned to phi is

    gap = mean + e_right sin(theta) + e_up cos(theta)
               - r_right sin(theta - phi) - r_up cos(theta - phi)

e is where the housing's centre lies, seen from the axis that the shaft turns about; r is where the
centre of the shaft's surface lies, seen from that axis, in directions that turn with the shaft
(those of the engine when the shaft angle is zero). All angles grow clockwise seen from the nose.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fitwright.physics.fits.closure import Closure, DiametralSum, closure_of_gaps
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre, Metres, Number, Radian, Radians, SquareMetres

# The check of the same gaps is part of centring to those who use it.
__all__ = [
    "ALL_UNKNOWNS",
    "OFFSET_UNKNOWNS",
    "Centring",
    "Closure",
    "DiametralSum",
    "Vector",
    "centre_from_gaps",
    "closure_of_gaps",
    "gap_design",
    "tells_apart",
]

OFFSET_UNKNOWNS = 3
"""Mean gap, offset to the right, offset up."""

ALL_UNKNOWNS = 5
"""The same, and run-out to the right and up."""

_WORST_CONDITION = 1e6
"""Beyond this condition number of the design the stations or shaft angles do not tell the unknowns apart."""


@dataclass(frozen=True, slots=True)
class Vector:
    """A small displacement in the plane across the shaft, seen from the nose.

    Attributes
    ----------
    right : float [m]
        Component to the right.
    up : float [m]
        Component towards the top of the engine (the deck).
    """

    right: Metre
    up: Metre

    @property
    def magnitude(self) -> Metre:
        """Length of the vector [m]."""
        return math.hypot(self.right, self.up)

    @property
    def direction(self) -> Radian:
        """Angle of the vector from the top, clockwise, 0 to two pi [rad]."""
        return math.atan2(self.right, self.up) % (2.0 * math.pi)

    def turned(self, angle: Radian) -> Vector:
        """Give the vector after a clockwise turn by `angle` [rad]."""
        c, s = math.cos(angle), math.sin(angle)
        return Vector(self.right * c + self.up * s, self.up * c - self.right * s)

    def plus(self, other: Vector) -> Vector:
        """Add another vector."""
        return Vector(self.right + other.right, self.up + other.up)

    def reversed(self) -> Vector:
        """Give the vector that points the other way."""
        return Vector(-self.right, -self.up)


@dataclass(frozen=True, slots=True)
class Centring:
    """Housing offset and shaft run-out from gaps.

    Attributes
    ----------
    offset : Vector
        Housing centre seen from the shaft. Where run-out is unknown it contains the shaft's run-out at
        the shaft angle of the readings.
    mean_gap : float [m]
        Gap that a centred housing would have all round.
    run_out : Vector or None
        Offset of the shaft's surface from its axis with the shaft at angle zero; None where the
        readings do not tell it from the housing offset.
    covariance : ndarray [m2], shape (k, k)
        Of mean gap, offset right, offset up and, where identified, run-out right and up.
    residuals : ndarray [m], shape (n)
        Readings minus model.
    chi_square : float [1]
        Squared residuals weighed with the covariance of the readings.
    degrees_of_freedom : int [1]
        Readings less unknowns.
    """

    offset: Vector
    mean_gap: Metre
    run_out: Vector | None
    covariance: FloatArray
    residuals: FloatArray
    chi_square: Number
    degrees_of_freedom: int

    @property
    def offset_covariance(self) -> FloatArray:
        """Covariance of the offset, right and up [m2], shape (2, 2)."""
        return self.covariance[1:3, 1:3]

    @property
    def run_out_identified(self) -> bool:
        """Whether the readings tell the shaft's run-out from the housing's offset."""
        return self.run_out is not None

    def apparent_offset(self, shaft_angle: Radian) -> tuple[Vector, FloatArray]:
        """Housing centre seen from the shaft's surface at a shaft angle [rad], with its covariance [m2]."""
        if self.run_out is None:
            return self.offset, self.offset_covariance
        c, s = math.cos(shaft_angle), math.sin(shaft_angle)
        turn = np.array([[1.0, 0.0, -c, -s], [0.0, 1.0, s, -c]])
        seen = self.offset.plus(self.run_out.turned(shaft_angle).reversed())
        return seen, turn @ self.covariance[1:, 1:] @ turn.T


def gap_design(station_angles: Radians, shaft_angles: Radians) -> FloatArray:
    r"""Linear model of gaps: one row per reading, one column per unknown.

    Parameters
    ----------
    station_angles : array_like [rad], shape (n)
        Where round the shaft, from the top, clockwise seen from the nose.
    shaft_angles : array_like [rad], broadcastable to (n)
        Shaft angle of each reading.

    Returns
    -------
    ndarray [1], shape (n, 5)
        Derivatives of each gap by mean gap, offset right, offset up, run-out right, run-out up.

    Notes
    -----
    .. math:: g = g_0 + e_r \sin\theta + e_u \cos\theta - r_r \sin(\theta-\phi) - r_u \cos(\theta-\phi)

    References
    ----------
    [muralikrishnan2009] chapter on roundness, limacon approximation of an offset circle

    Examples
    --------
    >>> gap_design([0.0], [0.0]).tolist()
    [[1.0, 0.0, 1.0, -0.0, -1.0]]
    """
    theta = np.atleast_1d(np.asarray(station_angles, dtype=float))
    phi = np.broadcast_to(np.asarray(shaft_angles, dtype=float), theta.shape)
    around = theta - phi
    return np.stack(
        [np.ones_like(theta), np.sin(theta), np.cos(theta), -np.sin(around), -np.cos(around)], axis=-1
    )


def centre_from_gaps(
    gaps: Metres, *, station_angles: Radians, shaft_angles: Radians, covariance: SquareMetres
) -> Centring:
    r"""Housing offset, mean gap and, where shaft angles allow, run-out from gaps with values.

    Parameters
    ----------
    gaps : array_like [m], shape (n)
        Radial gaps as read.
    station_angles : array_like [rad], shape (n)
        Where round the shaft each gap was read.
    shaft_angles : array_like [rad], broadcastable to (n)
        Shaft angle at each reading.
    covariance : array_like [m2], shape (n, n)
        Covariance of the readings; a blade that served twice correlates its two readings.

    Returns
    -------
    Centring
        Weighted least squares with covariance, residuals and what could be identified.

    Raises
    ------
    OutOfDomainError
        If the stations do not surround the shaft, shapes disagree, or the covariance is not positive
        definite.

    Notes
    -----
    .. math:: \hat p = (A^T V^{-1} A)^{-1} A^T V^{-1} g, \quad \mathrm{cov}(\hat p) = (A^T V^{-1} A)^{-1}

    Readings at one shaft angle cannot tell run-out from offset; the run-out is then None.

    References
    ----------
    [aitken1935] generalised least squares; [muralikrishnan2009] limacon approximation

    Examples
    --------
    >>> turn = np.radians([0.0, 90.0, 180.0, 270.0])
    >>> found = centre_from_gaps(
    ...     [0.07e-3, 0.15e-3, 0.30e-3, 0.21e-3],
    ...     station_angles=turn, shaft_angles=0.0, covariance=np.eye(4) * 1e-11,
    ... )
    >>> round(found.offset.right * 1e3, 3), round(found.offset.up * 1e3, 3), found.run_out is None
    (-0.03, -0.115, True)
    """
    g = np.asarray(gaps, dtype=float)
    design = gap_design(station_angles, shaft_angles)
    v = np.asarray(covariance, dtype=float)
    if g.ndim != 1 or design.shape[0] != g.size or v.shape != (g.size, g.size):
        raise OutOfDomainError(
            "gaps", f"of shape {g.shape}", "one per station angle, with a square covariance"
        )
    if not (np.isfinite(g).all() and np.isfinite(design).all() and np.isfinite(v).all()):
        raise OutOfDomainError("gaps", "not finite", "finite, with finite angles and covariance")
    whiten = _whitener(v)
    unknowns = ALL_UNKNOWNS if tells_apart(design, ALL_UNKNOWNS) else OFFSET_UNKNOWNS
    if not tells_apart(design, unknowns):
        raise OutOfDomainError("station_angles", station_angles, "three or more, spread round the shaft")
    used = design[:, :unknowns]
    left, size, right = np.linalg.svd(whiten @ used, full_matrices=False)
    inverse = right.T / size
    found = inverse @ (left.T @ (whiten @ g))
    residuals = g - used @ found
    return Centring(
        offset=Vector(float(found[1]), float(found[2])),
        mean_gap=float(found[0]),
        run_out=Vector(float(found[3]), float(found[4])) if unknowns > OFFSET_UNKNOWNS else None,
        covariance=inverse @ inverse.T,
        residuals=residuals,
        chi_square=float(np.sum((whiten @ residuals) ** 2)),
        degrees_of_freedom=g.size - unknowns,
    )


def tells_apart(design: FloatArray, unknowns: int) -> bool:
    """Whether readings at these places can tell the first unknowns of the gap model apart.

    Parameters
    ----------
    design : ndarray [1], shape (n, 5)
        From `gap_design`.
    unknowns : int [1]
        3 for mean gap and offset, 5 with run-out.

    Returns
    -------
    bool
        False where stations or shaft angles are too few or too much alike.

    References
    ----------
    [golub2013] section 5.5, rank deficiency seen from singular values

    Examples
    --------
    >>> compass = gap_design(np.radians([0.0, 90.0, 180.0, 270.0]), 0.0)
    >>> tells_apart(compass, 3), tells_apart(compass, 5)
    (True, False)
    """
    if len(design) < unknowns:
        return False
    size = np.linalg.svd(design[:, :unknowns], compute_uv=False)
    return bool(size[-1] * _WORST_CONDITION > size[0])


def _whitener(covariance: FloatArray) -> FloatArray:
    """Inverse of the Cholesky factor: multiplied by it, readings have unit covariance."""
    try:
        factor = np.linalg.cholesky(covariance)
    except np.linalg.LinAlgError:
        raise OutOfDomainError("covariance", "singular", "positive definite") from None
    return np.linalg.inv(factor)
