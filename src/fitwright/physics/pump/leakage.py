"""One leak of a pump: what its clearance lets back, by pressure and by moving walls."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import (
    FloatArray,
    KilogramPerCubicMetre,
    Metre,
    Metres,
    Number,
    Pascal,
    PascalSecond,
    RadianPerSecond,
    SquareMetre,
)

LAMINAR_REYNOLDS: Final = 1000.0
"""Reynolds number on twice the clearance up to which the cube law is held to."""


class Gap(StrEnum):
    """The measured clearance that a leak goes through; the value is its name in words."""

    END = "end clearance"
    TIP = "tip clearance"
    BODY = "clearance of the outer rotor in the body"
    SHAFT = "clearance of the drive shaft in its bore"


@dataclass(frozen=True, slots=True)
class LeakagePath:
    """A leak that goes through one clearance.

    Attributes
    ----------
    name : str
        What leaks, in words.
    pressure_coefficient : float [1]
        Flow by pressure = coefficient x clearance cubed x pressure rise / viscosity.
    drag_coefficient : float [m2]
        Flow by moving walls = coefficient x clearance x angular speed; negative where it carries oil
        towards the outlet.
    gap : Gap
        Which clearance it is, and how that is measured: end clearance is that of both faces together, tip
        clearance the gap between two lobes, body and shaft clearance are on the radius.
    to_sump : bool
        Whether the oil is lost to the sump, and not led back to the inlet.
    width : float [m]
        Extent of the gap across the flow, for its Reynolds number; NaN where it is not known.
    """

    name: str
    pressure_coefficient: Number
    drag_coefficient: SquareMetre
    gap: Gap = Gap.END
    to_sump: bool = False
    width: Metre = math.nan


def leakage_flow(
    paths: Sequence[LeakagePath],
    clearances: Metres,
    *,
    pressure_rise: Pascal,
    angular_speed: RadianPerSecond,
    dynamic_viscosity: PascalSecond,
) -> FloatArray:
    r"""What each path leaks from the outlet of a pump.

    Parameters
    ----------
    paths : sequence of LeakagePath
        The leaks.
    clearances : array_like [m], shape (k)
        The clearance of each path, at the temperature of the oil.
    pressure_rise : float [Pa]
        Outlet pressure less inlet pressure.
    angular_speed : float [rad/s]
        Of the driven rotor.
    dynamic_viscosity : float [Pa s]
        Of the oil in the gaps.

    Returns
    -------
    ndarray [m3/s], shape (k)
        Flow of each path.

    Raises
    ------
    OutOfDomainError
        If the numbers of paths and clearances differ, or a clearance is negative.

    Notes
    -----
    .. math:: Q_k = a_k h_k^3 \frac{\Delta p}{\mu} + b_k h_k \omega

    References
    ----------
    [ivantysyn2001] laminar gaps with moving walls

    Examples
    --------
    >>> path = LeakagePath("side faces", 3.0, 0.0)
    >>> lost = leakage_flow([path], [40e-6], pressure_rise=3e5, angular_speed=100.0, dynamic_viscosity=0.012)
    >>> round(float(lost[0]) * 60e3, 3)
    0.288
    """
    h = np.asarray(clearances, dtype=float)
    if h.shape != (len(paths),) or (h < 0.0).any():
        raise OutOfDomainError("clearances", h.tolist(), "zero or more, one for each path")
    a = np.array([path.pressure_coefficient for path in paths])
    b = np.array([path.drag_coefficient for path in paths])
    return np.asarray(a * h**3 * pressure_rise / dynamic_viscosity + b * h * angular_speed)


def both_faces(share: Number = 0.5) -> Number:
    r"""What both side faces let through together, over one face with the whole end clearance.

    Parameters
    ----------
    share : float [1]
        Share of the end clearance at one face: 0.5 for a rotor in the middle, 1 for one against the cover.

    Returns
    -------
    float [1]
        Factor on the cube of the whole end clearance: 1/4 in the middle, which is the least, up to 1.

    Raises
    ------
    OutOfDomainError
        If the share is none.

    Notes
    -----
    .. math:: s^3 + (1 - s)^3

    References
    ----------
    [white2011] plane Poiseuille flow

    Examples
    --------
    >>> both_faces(), both_faces(1.0)
    (0.25, 1.0)
    """
    if not 0.0 <= share <= 1.0:
        raise OutOfDomainError("share", share, "from 0 to 1")
    return share**3 + (1.0 - share) ** 3


def leakage_cautions(
    paths: Sequence[LeakagePath],
    flows: Sequence[float] | FloatArray,
    *,
    density: KilogramPerCubicMetre,
    dynamic_viscosity: PascalSecond,
) -> tuple[str, ...]:
    r"""Which leaks are too fast for the cube law.

    Parameters
    ----------
    paths : sequence of LeakagePath
        The leaks.
    flows : sequence of float [m3/s], shape (k)
        What each of them lets through.
    density : float [kg/m3]
        Of the oil.
    dynamic_viscosity : float [Pa s]
        Of the oil in the gaps.

    Returns
    -------
    tuple of str
        One sentence for each path that is beyond the laminar range.

    Notes
    -----
    .. math:: Re = \frac{2 \rho |Q|}{\mu w}

    Beyond about a thousand, entrance losses and turbulence let less through than the cube law says.

    References
    ----------
    [white2011] plane Poiseuille flow, its range

    Examples
    --------
    >>> path = LeakagePath("side faces", 3.0, 0.0, width=0.05)
    >>> leakage_cautions([path], [1e-5], density=850.0, dynamic_viscosity=0.012)
    ()
    """
    said = []
    for path, flow in zip(paths, flows, strict=True):
        reynolds = 2.0 * density * abs(flow) / (dynamic_viscosity * path.width)
        if reynolds > LAMINAR_REYNOLDS:
            said.append(f"{path.name.capitalize()}: no longer laminar, it leaks less than computed.")
    return tuple(said)
