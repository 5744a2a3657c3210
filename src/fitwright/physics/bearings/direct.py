"""Dimensionless characteristics by direct solution: what the tables are made of and checked against."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.bearings.curves import SteadyCurves, checked_eccentricity_ratios
from fitwright.physics.bearings.film import FilmSolution, film_solution
from fitwright.physics.bearings.geometry import Bearing, Feed, JournalMotion, JournalPosition
from fitwright.physics.bearings.grids import FilmGrid, FilmNodes, film_nodes, parabolic_weights
from fitwright.physics.bearings.sums import peak_pressure
from fitwright.physics.numerics.errors import NotConvergedError
from fitwright.quantity import FloatArray, Number, Numbers, Radian

CLEARANCE = 1e-3
"""Radial clearance over journal radius of the sample bearing; nothing dimensionless depends on it."""

MOST_DIRECTIONS = 100
DIRECTION_TOLERANCE = 1e-9


def direct_film(length_ratio: Number, eccentricity_ratio: Number, *, grid: FilmGrid) -> FilmSolution:
    """Film of a sample bearing that is fed without pressure along its widest gap.

    Parameters
    ----------
    length_ratio : float [1]
        Bearing length over journal diameter.
    eccentricity_ratio : float [1]
        Above zero and below one.
    grid : FilmGrid
        Steps around and along.

    Returns
    -------
    FilmSolution
        Of a journal of 1 m radius, 1 mm radial clearance, 1 Pa s and one revolution per second.

    References
    ----------
    [raimondi1958] where the film begins
    """
    bearing = Bearing(2.0, 2.0 * length_ratio, CLEARANCE, feeds=(Feed(np.pi, half_width=np.inf),))
    motion = JournalMotion(journal_speed=2.0 * np.pi)
    return film_solution(
        bearing, JournalPosition(eccentricity_ratio), motion, dynamic_viscosity=1.0, grid=grid
    )


def direct_curves(
    length_ratio: Number, eccentricity_ratio: Numbers, *, grid: FilmGrid | None = None
) -> SteadyCurves:
    """Characteristics of a steadily loaded full bearing by solving its film at each eccentricity.

    Parameters
    ----------
    length_ratio : float [1]
        Bearing length over journal diameter.
    eccentricity_ratio : array (n,) [1]
        Ascending, above zero and below one.
    grid : FilmGrid or None
        Steps around and along; 96 by 32 if nothing is said.

    Returns
    -------
    SteadyCurves
        On the eccentricity ratios given.

    Raises
    ------
    OutOfDomainError
        If the length ratio is not positive or the eccentricity ratios do not ascend between zero and one.

    Notes
    -----
    The oil enters at the widest gap without pressure and fills it, as the published tables have it; the film
    ruptures where pressure and its gradient vanish and nothing feeds it again before the widest gap.

    References
    ----------
    [raimondi1958] the convention

    Examples
    --------
    >>> curves = direct_curves(0.5, [0.2, 0.8], grid=FilmGrid(48, 16))
    >>> curves.sommerfeld_number.round(2)
    array([2.03, 0.09])
    """
    e = checked_eccentricity_ratios(eccentricity_ratio)
    films = [direct_film(length_ratio, float(one), grid=grid or FilmGrid()) for one in e]
    length, unit = 2.0 * length_ratio, CLEARANCE * 2.0 * length_ratio
    load = np.array([film.load for film in films])
    return SteadyCurves(
        length_ratio=length_ratio,
        eccentricity_ratio=e,
        sommerfeld_number=2.0 * length / load / CLEARANCE**2,
        attitude_angle=np.array([film.attitude_angle for film in films]),
        side_flow=np.array([film.side_flow for film in films]) / unit,
        friction_variable=np.array([film.friction_torque for film in films]) / load / CLEARANCE,
        friction_variable_full_film=np.array([film.friction_torque_full_film for film in films])
        / load
        / CLEARANCE,
        pressure_ratio=load / (2.0 * length) / np.array([film.maximum_pressure for film in films]),
    )


def direct_mobility(
    length_ratio: Number,
    eccentricity_ratio: Number,
    load_angle: Radian,
    *,
    grid: FilmGrid | None = None,
    start: Radian | None = None,
) -> tuple[Number, Number, Number]:
    r"""Mobility of a journal by solving films that are squeezed until the force has the load's direction.

    Parameters
    ----------
    length_ratio : float [1]
        Bearing length over journal diameter.
    eccentricity_ratio : float [1]
        Zero or more, below one.
    load_angle : float [rad]
        From the eccentricity to the load.
    grid : FilmGrid or None
        Steps around and along; 96 by 32 if nothing is said.
    start : float [rad] or None
        From the eccentricity to the motion, where to begin to seek; the load's angle if nothing is said.

    Returns
    -------
    tuple of 3 [1]
        Components of the mobility vector along the load and across it, a quarter turn ahead; P / pmax.

    Raises
    ------
    OutOfDomainError
        If length ratio or eccentricity ratio mean nothing.
    NotConvergedError
        If the direction of the motion is not found.

    Notes
    -----
    The journal moves without turning, and the film carries where it is under pressure, p >= 0, the whole
    circumference being full the moment before. A load F then moves the journal's axis by

    .. math:: \frac{d \vec\varepsilon}{dt} = \frac{F (c/R)^2}{\mu L D} \vec M

    References
    ----------
    [booker1965] the mobility vector

    Examples
    --------
    >>> along, across, _ = direct_mobility(0.5, 0.6, 0.5, grid=FilmGrid(48, 16))
    >>> round(along, 2), round(across, 2)
    (0.25, 0.19)
    """
    bearing = Bearing(2.0, 2.0 * length_ratio, CLEARANCE)
    nodes = film_nodes(bearing, JournalPosition(eccentricity_ratio), grid or FilmGrid())
    ruptured = np.zeros(nodes.kinds.shape, dtype=np.bool_)
    wanted = _turned(load_angle)
    low, high = (0.0, np.pi) if wanted >= 0.0 else (-np.pi, 0.0)
    direction = min(max(wanted if start is None else start, low), high)
    slope, before, ahead = 1.0, np.nan, np.inf
    for count in range(MOST_DIRECTIONS):
        force, peak = _squeezed(nodes, direction, ruptured)
        previous, ahead = ahead, _turned(float(np.arctan2(force[1], force[0])) - wanted)
        if abs(ahead) <= DIRECTION_TOLERANCE or high - low <= DIRECTION_TOLERANCE:
            size, away = float(np.hypot(*force)), direction - wanted
            mobility = length_ratio / (3.0 * size)
            ratio = size / (4.0 * length_ratio * peak)
            return mobility * float(np.cos(away)), mobility * float(np.sin(away)), ratio
        low, high = (low, direction) if ahead > 0.0 else (direction, high)
        if np.isfinite(previous) and direction != before:
            slope = (ahead - previous) / (direction - before)
        before = direction
        direction = direction - ahead / slope if slope > 0.0 else np.nan
        if not low < direction < high or count % 4 == 3:  # the secant can creep along a bent curve
            direction = 0.5 * (low + high)
    raise NotConvergedError("direction of the motion", MOST_DIRECTIONS, abs(ahead), DIRECTION_TOLERANCE)


def _turned(angle: float) -> float:
    """The same direction between minus and plus half a turn."""
    return float(np.remainder(angle + np.pi, 2.0 * np.pi) - np.pi)


def _squeezed(nodes: FilmNodes, direction: float, ruptured: NDArray[np.bool_]) -> tuple[FloatArray, float]:
    """Force and peak pressure over 12 mu (R/c)^2 (and R^2) where a journal moves by a clearance a second."""
    from fitwright.physics.bearings.kernels.film import SUPPLY, solve_film

    squeeze = -np.cos(nodes.angles - direction)
    squeeze = np.ascontiguousarray(np.broadcast_to(squeeze[:, np.newaxis], nodes.film.shape))
    kinds = nodes.kinds.copy()
    # Behind the motion the gap widens and the film is ruptured: a line there opens the ring.
    kinds[int(np.argmax(squeeze[:, 0]))] = SUPPLY
    pressure = np.zeros(nodes.film.shape)
    ruptured &= kinds == 0
    _, iterations, wrong = solve_film(
        nodes.angles,
        nodes.places,
        nodes.film,
        nodes.face_film,
        squeeze,
        0.0,
        False,  # noqa: FBT003 - numba calls by position
        kinds,
        pressure,
        ruptured,
        MOST_DIRECTIONS,
    )
    if wrong:
        raise NotConvergedError("extent of the full film", iterations, float(wrong), 0.0)
    width = 0.5 * (np.roll(nodes.angles, -1) - np.roll(nodes.angles, 1))
    width[[0, -1]] += np.pi
    around = 2.0 * width * (pressure @ parabolic_weights(nodes.places))
    force = np.array([around @ np.cos(nodes.angles), around @ np.sin(nodes.angles)])
    return force, peak_pressure(nodes.angles, pressure)
