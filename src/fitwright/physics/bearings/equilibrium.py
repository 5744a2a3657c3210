"""Where a journal comes to lie under a steady load, by direct solution of its film."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.physics.bearings.curves import short_bearing_curves
from fitwright.physics.bearings.film import FilmSolution, film_solution
from fitwright.physics.bearings.geometry import Bearing, JournalMotion, JournalPosition
from fitwright.physics.bearings.grids import FilmGrid
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.quantity import FloatArray, Newton, Number, PascalSecond, Radian

MOST_SOLUTIONS = 80
MOST_BY_DIRECTION = 12
LONGEST_STEP = 1.0
NODES_REACH = 0.25
"""Nodes are made anew where the journal is displaced by more than this part of its distance to the wall."""


@dataclass(frozen=True, slots=True, eq=False)
class Equilibrium:
    """A journal at rest in its load.

    Attributes
    ----------
    position : JournalPosition
        Where it lies.
    film : FilmSolution
        The film there.
    solutions : int
        Films that were solved to find it.
    residual : float [1]
        What is left of the difference between load and film force, over the load.
    """

    position: JournalPosition
    film: FilmSolution
    solutions: int
    residual: Number


def bearing_equilibrium(
    bearing: Bearing,
    motion: JournalMotion,
    *,
    load: Newton,
    dynamic_viscosity: PascalSecond,
    load_angle: Radian = 0.0,
    grid: FilmGrid | None = None,
    tolerance: Number = 1e-6,
    most_solutions: int = MOST_SOLUTIONS,
) -> Equilibrium:
    r"""Find where the film carries the load, in size and direction.

    Parameters
    ----------
    bearing : Bearing
        Sizes and feeds.
    motion : JournalMotion
        Speeds, without squeeze.
    load : float [N]
        Load on the journal.
    dynamic_viscosity : float [Pa s]
        Viscosity of the film.
    load_angle : float [rad]
        Direction of the load in the bearing.
    grid : FilmGrid or None
        Steps around and along; 96 by 32 if nothing is said.
    tolerance : float [1]
        Difference between load and film force over the load at which it is content.
    most_solutions : int
        Films after which it gives up.

    Returns
    -------
    Equilibrium
        Position and film.

    Raises
    ------
    OutOfDomainError
        If the load is not positive, or something squeezes or nothing turns the film.
    NotConvergedError
        If no place is found.

    Notes
    -----
    Broyden's method on the logarithm of the force and on its direction, over
    ln(e / (1 - e)) and the direction of the eccentricity; it begins at the short bearing's place and
    with its slopes, and each film begins at the one before. Where that goes astray, as with a light load
    under a strong feed on one side, Newton's method on the components of the force.

    References
    ----------
    [broyden1965] update of the slopes
    [dubois1953] the place to begin at

    Examples
    --------
    >>> from fitwright.physics.bearings.geometry import Feed
    >>> bearing = Bearing(0.05, 0.025, 25e-6, feeds=(Feed(np.pi, half_width=np.inf),))
    >>> found = bearing_equilibrium(bearing, JournalMotion(300.0), load=2000.0, dynamic_viscosity=0.01)
    >>> round(found.position.eccentricity_ratio, 3), found.residual < 1e-6
    (0.613, True)
    """
    speed = motion.entrainment_speed
    if not 0.0 < load < np.inf:
        raise OutOfDomainError("load", load, "positive")
    if speed == 0.0 or motion.eccentricity_rate != 0.0 or motion.whirl_speed != 0.0:
        raise OutOfDomainError("motion", motion, "turning, without squeeze")
    start, slopes = _beginning(bearing, load, dynamic_viscosity * abs(speed))
    search = _Search(bearing, motion, load, load_angle, dynamic_viscosity, grid, tolerance, most_solutions)
    return _by_direction(search, start, slopes) or _by_components(search, start)


@dataclass(slots=True, eq=False)
class _Search:
    """What is sought, and the films solved on the way."""

    bearing: Bearing
    motion: JournalMotion
    load: float
    load_angle: float
    dynamic_viscosity: float
    grid: FilmGrid | None
    tolerance: float
    most_solutions: int
    solutions: int = 0
    film: FilmSolution | None = None
    nodes_for: JournalPosition | None = None

    def force_at(self, eccentricity_ratio: float, attitude: float) -> FloatArray:
        """Force over the load, along the load and ahead of it, where the journal lies by its attitude."""
        if self.solutions >= self.most_solutions:
            raise NotConvergedError("equilibrium of the journal", self.solutions, np.inf, self.tolerance)
        self.solutions += 1
        position = self.position(eccentricity_ratio, attitude)
        keep = self.nodes_for is not None and _distance(position, self.nodes_for) < NODES_REACH * (
            1.0 - eccentricity_ratio
        )
        self.nodes_for = self.nodes_for if keep else position
        self.film = film_solution(
            self.bearing,
            position,
            self.motion,
            dynamic_viscosity=self.dynamic_viscosity,
            grid=self.grid,
            start=self.film,
            keep_nodes=keep,
        )
        ahead = self.turn * (self.film.load_angle - self.load_angle)
        size = self.film.load / self.load
        return np.array([size * np.cos(ahead), size * np.sin(ahead)])

    def position(self, eccentricity_ratio: float, attitude: float) -> JournalPosition:
        return JournalPosition(eccentricity_ratio, self.load_angle + self.turn * attitude)

    @property
    def turn(self) -> float:
        return float(np.copysign(1.0, self.motion.entrainment_speed))


def _distance(one: JournalPosition, other: JournalPosition) -> float:
    """Between two places of the journal, over the radial clearance."""
    first = one.eccentricity_ratio * np.exp(1j * one.angle)
    return float(abs(first - other.eccentricity_ratio * np.exp(1j * other.angle)))


def _by_direction(search: _Search, place: FloatArray, slopes: FloatArray) -> Equilibrium | None:
    """Broyden's method on the logarithm of the force and its direction; nothing if it goes astray."""
    excess: FloatArray = np.zeros(2)
    step: FloatArray = np.zeros(2)
    for count in range(min(MOST_BY_DIRECTION, search.most_solutions)):
        e = 1.0 / (1.0 + float(np.exp(-place[0])))
        force = search.force_at(e, float(place[1]))
        residual = float(np.hypot(force[0] - 1.0, force[1]))
        if residual <= search.tolerance and search.film is not None:
            return Equilibrium(search.position(e, float(place[1])), search.film, search.solutions, residual)
        before = excess
        excess = np.array([float(np.log(np.hypot(*force))), float(np.arctan2(force[1], force[0]))])
        if count:
            correction = np.outer(excess - before - slopes @ step, step) / (step @ step)
            slopes = np.asarray(slopes + correction, dtype=np.float64)
        step = np.asarray(-np.linalg.solve(slopes, excess), dtype=np.float64)
        step *= min(1.0, LONGEST_STEP / float(np.abs(step).max()))
        place = place + step
    return None


def _by_components(search: _Search, start: FloatArray) -> Equilibrium:
    """Newton's method on both components of the force, halving steps; also through the centre."""
    e = 1.0 / (1.0 + float(np.exp(-start[0])))
    place = e / (1.0 - e) * np.array([np.cos(start[1]), np.sin(start[1])])

    def lies(at: FloatArray) -> tuple[float, float]:
        size = float(np.hypot(*at))
        return size / (1.0 + size), float(np.arctan2(at[1], at[0]))

    def missing(at: FloatArray) -> FloatArray:
        force = search.force_at(*lies(at))
        return np.array([force[0] - 1.0, force[1]])

    off = missing(place)
    while True:
        residual = float(np.hypot(*off))
        if residual <= search.tolerance and search.film is not None:
            return Equilibrium(search.position(*lies(place)), search.film, search.solutions, residual)
        nudge = 1e-4 * (1.0 + float(np.hypot(*place)))
        slopes = np.stack([(missing(place + nudge * axis) - off) / nudge for axis in np.eye(2)], axis=-1)
        step = -np.linalg.solve(slopes, off)
        ahead = missing(place + step)
        while not np.hypot(*ahead) < residual:
            step = 0.5 * step
            ahead = missing(place + step)
        place, off = place + step, ahead


def _beginning(bearing: Bearing, load: float, drag: float) -> tuple[FloatArray, FloatArray]:
    """Place (logit of eccentricity, attitude) of the short bearing; slopes of force and direction there."""
    ratio = bearing.journal_diameter / (2.0 * bearing.radial_clearance)
    specific = load / (bearing.bearing_length * bearing.journal_diameter)
    sommerfeld = drag / (2.0 * np.pi) / specific * ratio**2
    logit = np.linspace(-5.0, 5.0, 101)
    curves = short_bearing_curves(
        bearing.bearing_length / bearing.journal_diameter, 1.0 / (1.0 + np.exp(-logit))
    )
    carried = -np.log(curves.sommerfeld_number)
    at = float(np.interp(-np.log(sommerfeld), carried, logit))
    steepness = float(np.interp(at, logit, np.gradient(carried, logit)))
    turning = float(np.interp(at, logit, np.gradient(curves.attitude_angle, logit)))
    attitude = float(np.interp(at, logit, curves.attitude_angle))
    return np.array([at, attitude]), np.array([[steepness, 0.0], [-turning, 1.0]])
