"""The move that centres a housing, what it does to the gaps, and what the shaft's own rest position adds."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import Enum

import numpy as np

from fitwright.physics.fits.centring import Centring, Vector
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre, Metres, Number, Radian, Radians

RUNNING_LIFT: Number = 0.7
"""Share of half the clearance by which a running shaft lies higher than at rest; 0.5 to 0.9 is usual."""

RUNNING_LIFT_UNCERTAINTY: Number = 0.4 / math.sqrt(12.0)
"""Standard uncertainty of that share: anything from 0.5 to 0.9 is equally likely."""


class ShaftPosition(Enum):
    """Where the shaft lay in its clearance while the gaps were read."""

    AT_REST = "at rest"
    LIFTED = "lifted"
    IN_THE_MIDDLE = "in the middle"


@dataclass(frozen=True, slots=True)
class DirectionNames:
    """What the four directions are called on this engine, seen from the nose.

    Attributes
    ----------
    top : str
        Towards angle zero, such as "the deck".
    right : str
        Towards a quarter turn clockwise, such as "the exhaust side".
    bottom : str
        Towards half a turn, such as "the sump".
    left : str
        Towards three quarters, such as "the inlet side".
    """

    top: str
    right: str
    bottom: str
    left: str


@dataclass(frozen=True, slots=True)
class MovePart:
    """One part of a move, in words of the engine.

    Attributes
    ----------
    distance : float [m]
        How far, never negative.
    towards : str
        Which way.
    """

    distance: Metre
    towards: str


@dataclass(frozen=True, slots=True)
class Move:
    """A move of the housing.

    Attributes
    ----------
    vector : Vector
        In the engine's own directions.
    parts : tuple of MovePart
        The same in words, the larger part first; none for no move.
    as_hung : Vector
        Seen from the nose with the engine as it hangs: right and up in the room.
    """

    vector: Vector
    parts: tuple[MovePart, ...]
    as_hung: Vector


@dataclass(frozen=True, slots=True)
class SagCorrection:
    """What to add to an offset that was read on a still shaft to get that of the running shaft.

    Attributes
    ----------
    correction : Vector
        To be added to the offset of the housing.
    covariance : ndarray [m2], shape (2, 2)
        From the clearance and from how high the shaft runs.
    """

    correction: Vector
    covariance: FloatArray


def down_in_engine(attitude: Radian) -> Vector:
    r"""Direction of gravity in the engine's own directions, of length one.

    Parameters
    ----------
    attitude : float [rad]
        How far the engine is turned clockwise on its stand, seen from the nose; half a turn is upside down.

    Returns
    -------
    Vector
        Unit vector.

    Notes
    -----
    .. math:: (\sin\psi, -\cos\psi)

    References
    ----------
    [golub2013] 5.1, plane rotations

    Examples
    --------
    >>> down_in_engine(0.0).up, round(down_in_engine(math.pi).up, 12)
    (-1.0, 1.0)
    """
    return Vector(math.sin(attitude), -math.cos(attitude))


def centring_move(
    offset: Vector, names: DirectionNames, *, aim: Vector | None = None, attitude: Radian = 0.0
) -> Move:
    """Move of the housing that takes its offset away, or leaves the offset that is aimed at.

    Parameters
    ----------
    offset : Vector
        Where the housing's centre lies now, seen from the shaft.
    names : DirectionNames
        What the directions are called.
    aim : Vector or None
        Offset to leave, such as a little high for a shaft that lifts when it runs; None for none.
    attitude : float [rad]
        How far the engine is turned clockwise on its stand, seen from the nose.

    Returns
    -------
    Move
        Vector, parts in words, and the vector as the engine hangs.

    References
    ----------
    [golub2013] 5.1, plane rotations

    Examples
    --------
    >>> names = DirectionNames("the deck", "the exhaust side", "the sump", "the inlet side")
    >>> move = centring_move(Vector(-0.03e-3, -0.11e-3), names)
    >>> [(round(part.distance * 1e3, 2), part.towards) for part in move.parts]
    [(0.11, 'the deck'), (0.03, 'the exhaust side')]
    """
    wanted = Vector(0.0, 0.0) if aim is None else aim
    vector = wanted.plus(offset.reversed())
    sideways = MovePart(abs(vector.right), names.right if vector.right > 0.0 else names.left)
    upright = MovePart(abs(vector.up), names.top if vector.up > 0.0 else names.bottom)
    parts = sorted((part for part in (sideways, upright) if part.distance > 0.0), key=lambda p: -p.distance)
    return Move(vector=vector, parts=tuple(parts), as_hung=vector.turned(attitude))


def gaps_after_move(gaps: Metres, *, station_angles: Radians, move: Vector) -> FloatArray:
    r"""Gaps to expect once the housing has been moved.

    Parameters
    ----------
    gaps : array_like [m], shape (n)
        Gaps before the move.
    station_angles : array_like [rad], shape (n)
        Where round the shaft each gap was read.
    move : Vector
        How the housing is moved.

    Returns
    -------
    ndarray [m], shape (n)
        Gaps after it; a negative one means that the move would touch.

    Notes
    -----
    .. math:: g' = g + m_{right} \sin\theta + m_{up} \cos\theta

    References
    ----------
    [muralikrishnan2009] offset circle, limacon approximation

    Examples
    --------
    >>> gaps_after_move([0.1, 0.3], station_angles=[0.0, math.pi], move=Vector(0.0, 0.1)).round(3).tolist()
    [0.2, 0.2]
    """
    theta = np.asarray(station_angles, dtype=float)
    return np.asarray(np.asarray(gaps, dtype=float) + move.right * np.sin(theta) + move.up * np.cos(theta))


def sag_correction(
    diametral_clearance: Metre,
    *,
    clearance_uncertainty: Metre = 0.0,
    position: ShaftPosition = ShaftPosition.AT_REST,
    attitude: Radian = 0.0,
    attitude_in_service: Radian = 0.0,
    running_lift: Number = RUNNING_LIFT,
    running_lift_uncertainty: Number = RUNNING_LIFT_UNCERTAINTY,
) -> SagCorrection:
    r"""Difference between where the shaft lay while gaps were read and where it runs.

    Parameters
    ----------
    diametral_clearance : float [m]
        Running clearance of the bearing next to the housing.
    clearance_uncertainty : float [m]
        Standard uncertainty of that clearance.
    position : ShaftPosition
        Whether the shaft rested, was lifted with a lever, or was held in the middle.
    attitude : float [rad]
        How far the engine was turned clockwise on its stand, seen from the nose.
    attitude_in_service : float [rad]
        The same for the engine in its place of work.
    running_lift : float [1]
        How far the running shaft lies above its rest, as a share of half the clearance: a rule of thumb.
    running_lift_uncertainty : float [1]
        Standard uncertainty of that share.

    Returns
    -------
    SagCorrection
        To be added to the offset of the housing.

    Raises
    ------
    OutOfDomainError
        If the clearance is negative.

    Notes
    -----
    With s = 1 at rest, -1 lifted, 0 in the middle, and d the direction of gravity:

    .. math:: \Delta e = s \tfrac{c}{2} d_{stand} - (1-k) \tfrac{c}{2} d_{service}

    References
    ----------
    [jcgm100_2008] 5.1.2, propagation of the uncertainties of clearance and lift

    Examples
    --------
    >>> sag = sag_correction(0.055e-3)
    >>> round(sag.correction.up * 1e3, 4)
    -0.0192
    """
    if not diametral_clearance >= 0.0:
        raise OutOfDomainError("diametral_clearance", diametral_clearance, "zero or more")
    half = 0.5 * diametral_clearance
    sign = {ShaftPosition.AT_REST: 1.0, ShaftPosition.LIFTED: -1.0, ShaftPosition.IN_THE_MIDDLE: 0.0}[
        position
    ]
    stand, service = down_in_engine(attitude), down_in_engine(attitude_in_service)
    share = np.array(
        [
            sign * stand.right - (1.0 - running_lift) * service.right,
            sign * stand.up - (1.0 - running_lift) * service.up,
        ]
    )
    by_clearance = 0.5 * share * clearance_uncertainty
    by_lift = half * np.array([service.right, service.up]) * running_lift_uncertainty
    return SagCorrection(
        correction=Vector(*(half * share).tolist()),
        covariance=np.outer(by_clearance, by_clearance) + np.outer(by_lift, by_lift),
    )


def corrected_for_sag(centring: Centring, sag: SagCorrection) -> Centring:
    """Offset of the housing from the running shaft, from the offset read on the still one.

    Parameters
    ----------
    centring : Centring
        As read.
    sag : SagCorrection
        What the shaft's position adds.

    Returns
    -------
    Centring
        With offset and covariance corrected; gaps, run-out and residuals stay those of the readings.

    References
    ----------
    [jcgm102_2011] 6.2, independent contributions to a covariance matrix

    Examples
    --------
    >>> from fitwright.physics.fits.centring import centre_from_gaps
    >>> turn = np.radians([0.0, 90.0, 180.0, 270.0])
    >>> found = centre_from_gaps([0.08e-3, 0.15e-3, 0.29e-3, 0.21e-3], station_angles=turn,
    ...                          shaft_angles=0.0, covariance=np.eye(4) * 25e-12)
    >>> round(corrected_for_sag(found, sag_correction(0.055e-3)).offset.up * 1e3, 3)
    -0.124
    """
    covariance = centring.covariance.copy()
    covariance[1:3, 1:3] += sag.covariance
    return replace(centring, offset=centring.offset.plus(sag.correction), covariance=covariance)
