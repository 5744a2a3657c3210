"""Fasteners of one joint held against each other: whose stretch does not go with its torque."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Final

import numpy as np

from fitwright.physics.fasteners.friction import Bearing, friction_from_torque
from fitwright.physics.fasteners.thread import Thread
from fitwright.physics.numerics.domain import require_above_zero
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, MetrePerNewton, NewtonMetre, Number

ODD_FROM: Final[Number] = 3.5
"""Robust standard deviations from the middle at which a fastener counts as odd."""
FEWEST: Final = 4
"""Fewer fasteners have no middle that one odd one could not move."""
_NORMAL: Final = 1.4826
_COVERAGE: Final = 1.96


class Oddness(Enum):
    """Which way a fastener differs from the others of its joint."""

    NONE = "like the others"
    STIFF_TO_TURN = "little stretch for its torque"
    EASY_TO_TURN = "much stretch for its torque"


@dataclass(frozen=True, slots=True)
class TightenedFastener:
    """One fastener with the torque and the stretch seen on it.

    Attributes
    ----------
    name : str
        Which one it is.
    torque : float [N m]
        Last torque.
    stretch : float [m]
        Length tightened less length free.
    """

    name: str
    torque: NewtonMetre
    stretch: Metre


@dataclass(frozen=True, slots=True)
class JudgedFastener:
    """One fastener held against the others.

    Attributes
    ----------
    name : str
        Which one it is.
    deviation : float [1]
        Torque over stretch, over that of the middle one, less one.
    score : float [1]
        Deviation over the robust standard deviation of the joint.
    oddness : Oddness
        Which way it differs, if it does.
    apparent_friction : float [1], optional
        Coefficient that explains torque and stretch; None without resilience.
    """

    name: str
    deviation: Number
    score: Number
    oddness: Oddness
    apparent_friction: Number | None = None


@dataclass(frozen=True, slots=True)
class JudgedGroup:
    """The fasteners of a joint held against each other.

    Attributes
    ----------
    fasteners : tuple of JudgedFastener
        In the order given.
    spread : float [1]
        Robust standard deviation of torque over stretch, over its middle, the measuring included.
    enough : bool
        Whether there are enough to find an odd one.
    """

    fasteners: tuple[JudgedFastener, ...]
    spread: Number
    enough: bool

    @property
    def odd(self) -> tuple[JudgedFastener, ...]:
        """Those that differ."""
        return tuple(each for each in self.fasteners if each.oddness is not Oddness.NONE)


def judge_group(
    fasteners: Sequence[TightenedFastener],
    *,
    thread: Thread | None = None,
    bearing: Bearing | None = None,
    resilience: MetrePerNewton | None = None,
    torque_spread: Number = 0.04,
    reading_spread: Metre = 5e-6,
) -> JudgedGroup:
    r"""The odd ones among alike fasteners, by torque and stretch.

    Parameters
    ----------
    fasteners : sequence of TightenedFastener
        Alike fasteners of one joint, or of all joints of one kind.
    thread : Thread, optional
        For the apparent friction.
    bearing : Bearing, optional
        For the apparent friction.
    resilience : float [m/N], optional
        Of the grip, for the apparent friction.
    torque_spread : float [1]
        Half-width of the wrench's 95 % interval, over the torque.
    reading_spread : float [m]
        Half-width of the 95 % interval of a stretch.

    Returns
    -------
    JudgedGroup
        Every fastener with its deviation; none is odd where there are fewer than four.

    Raises
    ------
    OutOfDomainError
        If a torque or a stretch is not above zero, or two fasteners have one name.

    Notes
    -----
    With r = ln(torque / stretch), the middle is the median, the spread 1.4826 times the median of the
    distances from it, and never less than measuring alone explains:

    .. math:: u = \sqrt{(U_T / 1.96)^2 + (U_{\Delta l} / 1.96 / \Delta l)^2}

    A fastener 3.5 spreads away is odd. A median holds against nearly half of them being odd. Little stretch
    for its torque: friction, a dry face, galling. Much stretch for its torque: yield, a softer fastener, less
    friction, or a wrong free length.

    References
    ----------
    [iglewicz1993] modified z-score with the median
    [iso16047_2005] total coefficient of friction

    Examples
    --------
    >>> rods = [TightenedFastener(name, 46.0, 1e-3 * stretch) for name, stretch in
    ...         (("1a", 0.152), ("1b", 0.149), ("2a", 0.151), ("2b", 0.150), ("3a", 0.148))]
    >>> found = judge_group([*rods, TightenedFastener("4b", 50.0, 0.118e-3)])
    >>> [(each.name, each.oddness.value) for each in found.odd]
    [('4b', 'little stretch for its torque')]
    """
    if len({each.name for each in fasteners}) != len(fasteners):
        raise OutOfDomainError("names", [each.name for each in fasteners], "different from each other")
    if not fasteners:
        return JudgedGroup((), 0.0, enough=False)
    torques = np.array([each.torque for each in fasteners])
    stretches = np.array([each.stretch for each in fasteners])
    require_above_zero(torque=torques, stretch=stretches)
    ratios = np.log(torques / stretches)
    distances = ratios - np.median(ratios)
    measuring = float(np.hypot(torque_spread, reading_spread / np.median(stretches))) / _COVERAGE
    spread = max(_NORMAL * float(np.median(np.abs(distances))), measuring, 1e-9)
    enough = len(fasteners) >= FEWEST
    judged = tuple(
        JudgedFastener(
            name=each.name,
            deviation=float(np.expm1(distance)),
            score=float(distance) / spread,
            oddness=_oddness(float(distance) / spread) if enough else Oddness.NONE,
            apparent_friction=_friction(each, thread, bearing, resilience),
        )
        for each, distance in zip(fasteners, distances, strict=True)
    )
    return JudgedGroup(judged, spread, enough)


def _oddness(score: Number) -> Oddness:
    if abs(score) < ODD_FROM:
        return Oddness.NONE
    return Oddness.STIFF_TO_TURN if score > 0.0 else Oddness.EASY_TO_TURN


def _friction(
    fastener: TightenedFastener,
    thread: Thread | None,
    bearing: Bearing | None,
    resilience: MetrePerNewton | None,
) -> Number | None:
    if thread is None or bearing is None or resilience is None:
        return None
    return friction_from_torque(
        thread, bearing, torque=fastener.torque, preload=fastener.stretch / resilience
    )
