"""Nodes of the film: dense where it is thin, and on the edges of the feeds."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.bearings.geometry import Bearing, Feed, JournalPosition
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray

END_DENSITY = 0.6
"""How much denser the nodes are at the ends of the bearing: zero is even, one is unbounded."""


@dataclass(frozen=True, slots=True)
class FilmGrid:
    """How many steps the film is divided into.

    Attributes
    ----------
    around : int
        Steps around the circumference.
    along : int
        Steps along the whole bearing, an even number.
    """

    around: int = 96
    along: int = 32

    def __post_init__(self) -> None:
        if self.around < 8:
            raise OutOfDomainError("around", self.around, "8 or more")
        if self.along < 4 or self.along % 2:
            raise OutOfDomainError("along", self.along, "even, 4 or more")


@dataclass(frozen=True, slots=True, eq=False)
class FilmNodes:
    """Nodes in angles and in journal radii, film thickness over radial clearance, and what is fixed.

    `mirrored` nodes cover half of a symmetric bearing, from its middle to its end. `face_film` is the film
    midway to the next node around. `feed_pressure` is in pascal.
    """

    angles: FloatArray
    places: FloatArray
    film: FloatArray
    face_film: FloatArray
    kinds: NDArray[np.int8]
    feed_pressure: FloatArray
    mirrored: bool


def film_nodes(
    bearing: Bearing,
    position: JournalPosition,
    grid: FilmGrid,
    *,
    angles: FloatArray | None = None,
) -> FilmNodes:
    """Nodes for a position of the journal.

    Parameters
    ----------
    bearing : Bearing
        Sizes and feeds.
    position : JournalPosition
        Where the journal lies.
    grid : FilmGrid
        Steps around and along.
    angles : array (n,) [rad] or None
        Nodes around made for a place nearby; made anew if nothing is said.

    Returns
    -------
    FilmNodes
        Half of the bearing where it is symmetric.

    Raises
    ------
    OutOfDomainError
        If journal and bearing touch.

    Notes
    -----
    Half of the nodes around are spread evenly, half gather about the thinnest film with the spread of the
    pressure there, sqrt(2 (1 - e) / e). Those nearest to the edges and the middle of a feed move there.

    References
    ----------
    [pinkus1961] geometry of the film
    """
    radius = 0.5 * bearing.journal_diameter
    half_length = 0.5 * bearing.bearing_length / radius
    mirrored = (
        bearing.taper == 0.0 and position.tilt == 0.0 and all(feed.place == 0.0 for feed in bearing.feeds)
    )
    if angles is None:
        angles = _angles(bearing.feeds, position, grid.around)
    places = _places(bearing.feeds, radius, half_length, grid.along, mirrored=mirrored)
    middles = 0.5 * (angles + np.append(angles[1:], angles[0] + 2.0 * np.pi))
    film = _film(bearing, position, angles, places / half_length)
    face_film = _film(bearing, position, middles, places / half_length)
    if not min(film.min(), face_film.min()) > 0.0:
        raise OutOfDomainError("eccentricity_ratio", position.eccentricity_ratio, "so that nothing touches")
    kinds, feed_pressure = _fixed(bearing, angles, places * radius, mirrored=mirrored)
    return FilmNodes(angles, places, film, face_film, kinds, feed_pressure, mirrored)


def parabolic_weights(places: FloatArray) -> FloatArray:
    r"""Weights of nodes that integrate a parabola exactly: what pressure along a short bearing is.

    Parameters
    ----------
    places : array (n,) [1]
        Ascending, three or more.

    Returns
    -------
    array (n,) [1]
        Weights whose product with values at the nodes is the integral.

    Notes
    -----
    Trapezoids, less h^3 f'' / 12 on each, with f'' of the parabolas through three nodes, averaged.

    References
    ----------
    [abramowitz1964] 25.4.1, error of the trapezoidal rule

    Examples
    --------
    >>> places = np.array([0.0, 0.3, 0.7, 1.0])
    >>> round(float(parabolic_weights(places) @ places**2), 12)
    0.333333333333
    """
    step = np.diff(places)
    bend = np.zeros((places.size, places.size))
    for k in range(1, places.size - 1):
        before, after = step[k - 1], step[k]
        bend[k, k - 1 : k + 2] = 1.0 / before, -1.0 / before - 1.0 / after, 1.0 / after
        bend[k] *= 2.0 / (before + after)
    bend[0], bend[-1] = bend[1], bend[-2]
    weights: FloatArray = -(step**3 / 24.0) @ (bend[1:] + bend[:-1])
    weights[1:] += 0.5 * step
    weights[:-1] += 0.5 * step
    return weights


def _film(bearing: Bearing, position: JournalPosition, angles: FloatArray, shares: FloatArray) -> FloatArray:
    """Film thickness over radial clearance; `shares` are places over half of the length."""
    along = shares[np.newaxis, :]
    lean = position.tilt * along * np.cos(angles - position.tilt_angle)[:, np.newaxis]
    mean = position.eccentricity_ratio * np.cos(angles - position.angle)[:, np.newaxis]
    film: FloatArray = 1.0 + bearing.taper / bearing.radial_clearance * along - mean - lean
    return film


def _angles(feeds: tuple[Feed, ...], position: JournalPosition, count: int) -> FloatArray:
    """Ascending from the widest gap (or from the first line across), less than a turn."""
    e = min(position.eccentricity_ratio + abs(position.tilt), 0.999)
    spread = 2.0 * np.sqrt(2.0 * (1.0 - e) / max(e, 1e-3))
    fine = np.linspace(-np.pi, np.pi, 4001)
    share = 0.5 * fine / (2.0 * np.pi) + 0.25 * np.arctan(fine / spread) / np.arctan(np.pi / spread)
    angles = position.angle + np.interp(np.arange(count) / count - 0.5, share, fine)
    for feed in feeds:
        for edge in sorted({feed.angle - feed.half_arc, feed.angle + feed.half_arc, feed.angle}):
            if feed.half_arc < np.pi:
                away = np.remainder(angles - edge + np.pi, 2.0 * np.pi) - np.pi
                nearest = int(np.argmin(np.abs(away)))
                angles[nearest] -= away[nearest]
    return np.sort(angles)


def _places(
    feeds: tuple[Feed, ...], radius: float, half_length: float, count: int, *, mirrored: bool
) -> FloatArray:
    """Ascending from the middle or from the end of negative places."""
    share = np.linspace(0.0, 1.0, count // 2 + 1)
    half = half_length * ((1.0 - END_DENSITY) * share + END_DENSITY * np.sin(0.5 * np.pi * share))
    places = half if mirrored else np.concatenate((-half[:0:-1], half))
    for feed in feeds:
        for edge in sorted({feed.place - feed.half_width, feed.place + feed.half_width, feed.place}):
            inner = slice(0 if mirrored else 1, -1)
            if places[0] < edge / radius < places[-1]:
                nearest = int(np.argmin(np.abs(places[inner] - edge / radius)))
                places[inner][nearest] = edge / radius
    return places


def _fixed(
    bearing: Bearing, angles: FloatArray, places: FloatArray, *, mirrored: bool
) -> tuple[NDArray[np.int8], FloatArray]:
    """Kinds of the nodes as the kernels count them, and the pressure of the feeds."""
    from fitwright.physics.bearings.kernels.film import END, SUPPLY

    kinds = np.zeros((angles.size, places.size), dtype=np.int8)
    pressure = np.zeros(kinds.shape)
    if not bearing.sealed_ends:
        kinds[:, -1] = END
        if not mirrored:
            kinds[:, 0] = END
    for feed in bearing.feeds:
        away = np.abs(np.remainder(angles - feed.angle + np.pi, 2.0 * np.pi) - np.pi)[:, np.newaxis]
        off = np.abs(places - feed.place)[np.newaxis, :]
        if feed.is_round:
            inside = (away / feed.half_arc) ** 2 + (off / feed.half_width) ** 2 <= 1.0 + 1e-9
        else:
            inside = (away <= feed.half_arc + 1e-9) & (off <= feed.half_width * (1.0 + 1e-9) + 1e-12)
        kinds[inside] = SUPPLY
        pressure[inside] = feed.gauge_pressure
    return kinds, pressure
