"""Loss coefficients of inlet edges and mitre bends, each by a named author.

Authors differ by up to a factor of four where an edge is well rounded, so none is "the" value: a default is
stated, and the range over all of them goes with it.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, Literal, TypeAlias, get_args

import numpy as np

from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.numerics.monotone import monotone_interpolation
from fitwright.quantity import FloatArray, Numbers, Radians

EntranceAuthor: TypeAlias = Literal["crane", "harris", "idelchik", "miller", "rennels", "swamee"]
MitreAuthor: TypeAlias = Literal["blevins", "rennels"]
ENTRANCE_AUTHORS: Final = get_args(EntranceAuthor)
DEFAULT_AUTHOR: Final = "rennels"

_TABLES: Final[Mapping[str, tuple[tuple[float, ...], tuple[float, ...]]]] = MappingProxyType(
    {
        "crane": ((0.0, 0.02, 0.04, 0.06, 0.1, 0.15), (0.5, 0.28, 0.24, 0.15, 0.09, 0.04)),
        "harris": (
            (0.0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.12, 0.16),
            (0.44, 0.35, 0.28, 0.22, 0.17, 0.13, 0.1, 0.07, 0.03, 0.0),
        ),
        "idelchik": (
            (0.0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.12, 0.16, 0.2),
            (0.5, 0.44, 0.37, 0.31, 0.26, 0.22, 0.2, 0.15, 0.09, 0.06, 0.03),
        ),
        # Read off a curve, as a public program does.
        "miller": (
            (0.0, 0.01, 0.02, 0.03, 0.04, 0.05, 0.06, 0.08, 0.1, 0.12, 0.15, 0.2, 0.3),
            (0.51, 0.422, 0.357, 0.302, 0.253, 0.208, 0.17, 0.113, 0.082, 0.068, 0.062, 0.0585, 0.055),
        ),
    }
)
_BLEVINS: Final = (
    (0.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 120.0),
    (0.0, 0.025, 0.055, 0.1, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.5),
)


def entrance_loss_coefficient(
    radius_over_diameter: Numbers, author: EntranceAuthor = DEFAULT_AUTHOR
) -> FloatArray:
    r"""Loss coefficient of the edge through which oil enters a pipe or drilling, flush with a wall.

    Parameters
    ----------
    radius_over_diameter : array_like [1], shape (*s)
        Radius of the edge over the diameter of the pipe; zero for a sharp edge.
    author : str
        Whose values: `crane`, `harris`, `idelchik`, `miller`, `rennels` or `swamee`.

    Returns
    -------
    ndarray [1], shape (*s)
        Loss coefficient on the speed in the pipe.

    Raises
    ------
    OutOfDomainError
        If a ratio is negative or the author is none of them.

    Notes
    -----
    .. math:: K_{Rennels} = 0.0696 (1 - 0.569 \tfrac{r}{d}) \lambda^2 + (\lambda - 1)^2, \quad
              \lambda = 1 + 0.622 (1 - 0.3 \sqrt{r/d} - 0.7 r/d)^4

    .. math:: K_{Swamee} = \frac{0.5}{1 + 36 (r/d)^{1.2}}

    The others are tables. The default is Rennels: the newest analysis and the largest values, so that a drop
    is not promised too small. A standard uncertainty of 0.29 times the width of `entrance_loss_range` goes
    with any of them. For turbulent flow.

    References
    ----------
    [rennels2012] rounded entrance
    [idelchik1966] rounded inlet
    [miller1990] rounded inlet
    [crane2009] rounded entrance
    [harris1930] rounding of intakes
    [swamee2008] rounded entrance

    Examples
    --------
    >>> entrance_loss_coefficient([0.0, 0.05]).round(3).tolist()
    [0.57, 0.297]
    >>> entrance_loss_coefficient([0.0, 0.05], "idelchik").round(3).tolist()
    [0.5, 0.22]
    """
    require_within(radius_over_diameter=radius_over_diameter)
    ratio = np.asarray(radius_over_diameter, dtype=float)
    if author == "rennels":
        return _rennels(ratio)
    if author == "swamee":
        return np.asarray(0.5 / (1.0 + 36.0 * ratio**1.2))
    if author not in _TABLES:
        raise OutOfDomainError("author", repr(author), f"one of {', '.join(ENTRANCE_AUTHORS)}")
    return monotone_interpolation(ratio, *_TABLES[author])


def entrance_loss_range(radius_over_diameter: Numbers) -> tuple[FloatArray, FloatArray]:
    r"""Smallest and largest loss coefficient of an inlet edge over all authors.

    Parameters
    ----------
    radius_over_diameter : array_like [1], shape (*s)
        Radius of the edge over the diameter of the pipe.

    Returns
    -------
    tuple of ndarray [1], shape (*s)
        The smallest and the largest.

    Raises
    ------
    OutOfDomainError
        If a ratio is negative.

    Notes
    -----
    The six authors of `entrance_loss_coefficient`.

    References
    ----------
    [rennels2012] comparison with older data

    Examples
    --------
    >>> least, most = entrance_loss_range(0.1)
    >>> round(float(least), 2), round(float(most), 2)
    (0.05, 0.2)
    """
    each = [entrance_loss_coefficient(radius_over_diameter, author) for author in ENTRANCE_AUTHORS]
    return np.min(each, axis=0), np.max(each, axis=0)


def mitre_loss_coefficient(
    angle: Radians, author: MitreAuthor = DEFAULT_AUTHOR, *, reynolds_number: Numbers = 1e5
) -> FloatArray:
    r"""Loss coefficient of a sharp bend, as where one drilling meets another.

    Parameters
    ----------
    angle : array_like [rad], shape (*s)
        Angle by which the flow turns; a right angle turns by pi / 2.
    author : str
        Whose values: `blevins` or `rennels`.
    reynolds_number : array_like [1], broadcastable to (*s)
        Reynolds number on the diameter; only the values of Blevins change with it.

    Returns
    -------
    ndarray [1], shape (*s)
        Loss coefficient on the speed in the pipe.

    Raises
    ------
    OutOfDomainError
        If an angle is not within 0 to 2.6 rad (2.1 rad for Blevins), a Reynolds number not above zero, or the
        author none of them.

    Notes
    -----
    .. math:: K_{Rennels} = 0.42 \sin\tfrac{\alpha}{2} + 2.56 \sin^3\tfrac{\alpha}{2}

    Blevins has a table, times (2e5 / Re)^0.2. For equal diameters and turbulent flow; at Re = 1e5 the two
    differ by 5 % at a right angle and by a quarter at 15 degrees. Drillings that cross with a drill point
    beyond the crossing are not in these data.

    References
    ----------
    [rennels2012] mitre bends
    [blevins1984] mitre bends

    Examples
    --------
    >>> round(float(mitre_loss_coefficient(np.pi / 2)), 3)
    1.202
    """
    require_above_zero(reynolds_number=reynolds_number)
    turned = np.asarray(angle, dtype=float)
    if author == "rennels":
        require_within(0.0, 2.62, angle=turned)
        sine = np.sin(0.5 * turned)
        return np.asarray(0.42 * sine + 2.56 * sine**3)
    if author != "blevins":
        raise OutOfDomainError("author", repr(author), "one of blevins, rennels")
    require_within(0.0, 2.1, angle=turned)
    base = np.interp(np.degrees(turned), *_BLEVINS)
    return np.asarray(base * (2e5 / np.asarray(reynolds_number, dtype=float)) ** 0.2)


def _rennels(ratio: FloatArray) -> FloatArray:
    """Rounded entrance; fully rounded from a radius of one diameter on."""
    r = np.minimum(ratio, 1.0)
    contraction = 1.0 + 0.622 * (1.0 - 0.3 * np.sqrt(r) - 0.7 * r) ** 4
    return np.asarray(0.0696 * (1.0 - 0.569 * r) * contraction**2 + (contraction - 1.0) ** 2)
