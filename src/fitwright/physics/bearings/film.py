"""The film of a journal bearing by direct solution: pressure, filling, forces, flows, shear."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.bearings.extent import coarse_extent
from fitwright.physics.bearings.geometry import Bearing, JournalMotion, JournalPosition
from fitwright.physics.bearings.grids import FilmGrid, FilmNodes, film_nodes
from fitwright.physics.bearings.sums import FilmFields, film_sums
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.quantity import (
    CubicMetrePerSecond,
    FloatArray,
    Metre,
    Newton,
    NewtonMetre,
    Number,
    Pascal,
    PascalSecond,
    Radian,
)

MOST_ITERATIONS = 100


@dataclass(frozen=True, slots=True, eq=False)
class FilmSolution:
    """A solved film; fields have the shape (nodes around, nodes along).

    Attributes
    ----------
    angles : array (n,) [rad]
        Nodes around the bearing.
    places : array (m,) [m]
        Nodes along the bearing from its middle; only to one end where the film is symmetric.
    film_thickness : array (n, m) [m]
        Gap between journal and bearing.
    gauge_pressure : array (n, m) [Pa]
        Pressure.
    film_fraction : array (n, m) [1]
        Share of the gap that is filled; one in the full film.
    load : float [N]
        Load that the film carries: force of the film on the bearing.
    load_angle : float [rad]
        Its direction.
    attitude_angle : float [rad]
        From the load to the thinnest film, positive in the direction of rotation.
    side_flow : float [m3/s]
        Out of both ends.
    end_flows : tuple of float [m3/s]
        Out of the end of negative and of positive places.
    supply_flow : float [m3/s]
        Net flow out of the feeds into the film.
    flow_around : array (n,) [m3/s]
        Flow from each node to the next around, over the whole length.
    friction_torque : float [N m]
        Torque that holds the journal back; the ruptured film counts by the share that is filled.
    friction_torque_full_film : float [N m]
        The same with shear over the whole circumference, as the published tables have it.
    bearing_torque : float [N m]
        Torque on the bearing in the direction of the journal's speed, with the film only.
    maximum_pressure : float [Pa]
        Largest gauge pressure.
    iterations : int
        Linear solutions.
    mass_residual : float [1]
        Sum of the imbalances of all volumes over the sum of what drives them.
    ruptured : array (n, m)
        Where the film is ruptured.
    """

    angles: FloatArray
    places: FloatArray
    film_thickness: FloatArray
    gauge_pressure: FloatArray
    film_fraction: FloatArray
    load: Newton
    load_angle: Radian
    attitude_angle: Radian
    side_flow: CubicMetrePerSecond
    end_flows: tuple[CubicMetrePerSecond, CubicMetrePerSecond]
    supply_flow: CubicMetrePerSecond
    flow_around: FloatArray
    friction_torque: NewtonMetre
    friction_torque_full_film: NewtonMetre
    bearing_torque: NewtonMetre
    maximum_pressure: Pascal
    iterations: int
    mass_residual: Number
    ruptured: NDArray[np.bool_]

    @property
    def minimum_film_thickness(self) -> Metre:
        """Smallest gap at a node [m]."""
        return float(self.film_thickness.min())


def film_solution(
    bearing: Bearing,
    position: JournalPosition,
    motion: JournalMotion,
    *,
    dynamic_viscosity: PascalSecond,
    grid: FilmGrid | None = None,
    start: FilmSolution | None = None,
    keep_nodes: bool = False,
    most_iterations: int = MOST_ITERATIONS,
) -> FilmSolution:
    r"""Solve the film of a bearing.

    Parameters
    ----------
    bearing : Bearing
        Sizes and feeds.
    position : JournalPosition
        Where the journal lies.
    motion : JournalMotion
        Speeds; those of the place of the thinnest film belong to `load_speed`.
    dynamic_viscosity : float [Pa s]
        Viscosity of the film.
    grid : FilmGrid or None
        Steps around and along; 96 by 32 if nothing is said.
    start : FilmSolution or None
        A solution on the same grid nearby, which saves iterations.
    keep_nodes : bool
        Whether to stay on the nodes of that solution, for differences without noise.
    most_iterations : int
        Linear solutions after which it gives up.

    Returns
    -------
    FilmSolution
        Fields, forces, flows and torques.

    Raises
    ------
    OutOfDomainError
        If nothing moves or feeds the film, viscosity is not positive, nothing feeds a turning
        film, or journal and bearing touch.
    NotConvergedError
        If the extent of the full film is not found.

    Notes
    -----
    Reynolds' equation for the share theta of the gap that is filled,

    .. math:: \nabla\cdot\left(\frac{h^3}{12 \mu} \nabla p\right)
              = \frac{\omega_j + \omega_b - 2 \omega_l}{2} \frac{\partial (\theta h)}{\partial \varphi}
              + \frac{\partial (\theta h)}{\partial t}, \quad p \ge 0, \; \theta \le 1, \; p (1 - \theta) = 0

    for smooth, rigid, parallel or tilted surfaces, one viscosity, no inertia, rupture at the pressure of
    the surroundings. A steady film (no squeeze) conserves the oil where it is ruptured: film forms anew only
    where oil arrives. With squeeze, the film is taken as full a moment before: what the gap was filled with
    earlier is not known to a single solution. Ends lie in oil-free surroundings.

    References
    ----------
    [elrod1981] one equation for full and ruptured film
    [jakobsson1957] what happens at rupture and formation

    Examples
    --------
    >>> from fitwright.physics.bearings.geometry import Feed
    >>> bearing = Bearing(0.05, 0.025, 25e-6, feeds=(Feed(np.pi, half_width=np.inf),))
    >>> film = film_solution(bearing, JournalPosition(0.6), JournalMotion(300.0), dynamic_viscosity=0.01)
    >>> film.mass_residual < 1e-9, round(film.load), round(np.degrees(film.attitude_angle))
    (True, 1870, 48)
    """
    from fitwright.physics.bearings.kernels.film import solve_film

    kept = start.angles if keep_nodes and start is not None else None
    nodes = film_nodes(bearing, position, grid or FilmGrid(), angles=kept)
    scale, wedge, squeeze = _drive(bearing, position, motion, nodes)
    if not 0.0 < dynamic_viscosity < np.inf:
        raise OutOfDomainError("dynamic_viscosity", dynamic_viscosity, "positive")
    conserving = wedge != 0.0 and not squeeze.any()
    # A groove all round that holds no pressure gives nothing to the film that turns beside it.
    if conserving and not any(feed.gauge_pressure > 0.0 or feed.half_arc < np.pi for feed in bearing.feeds):
        raise OutOfDomainError("feeds", bearing.feeds, "such that oil reaches the film")
    unit = 6.0 * dynamic_viscosity * scale * (0.5 * bearing.journal_diameter / bearing.radial_clearance) ** 2
    pressure = nodes.feed_pressure / unit
    if start is not None and start.ruptured.shape == nodes.kinds.shape:
        ruptured = start.ruptured & (nodes.kinds == 0)
    else:
        ruptured = coarse_extent(nodes, squeeze, pressure, wedge, conserving=conserving)
    emptiness, iterations, wrong = solve_film(
        nodes.angles,
        nodes.places,
        nodes.film,
        nodes.face_film,
        squeeze,
        wedge,
        conserving,
        nodes.kinds,
        pressure,
        ruptured,
        most_iterations,
    )
    if wrong < 0:
        raise OutOfDomainError("feeds", bearing.feeds, "such that oil reaches the film")
    if wrong:
        raise NotConvergedError("extent of the full film", iterations, float(wrong), 0.0)
    fields = FilmFields(pressure, emptiness, squeeze, wedge, conserving=conserving)
    sums = film_sums(nodes, fields)
    radius, clearance = 0.5 * bearing.journal_diameter, bearing.radial_clearance
    flow_unit = 0.5 * clearance * scale * radius**2
    shear_unit = dynamic_viscosity * (motion.journal_speed - motion.bearing_speed) * radius**4 / clearance
    dragging = unit * clearance * radius**2 * sums.drag
    load_angle = float(np.arctan2(sums.force[1], sums.force[0]))
    turn = np.copysign(1.0, motion.entrainment_speed) * (position.angle - load_angle)
    return FilmSolution(
        angles=nodes.angles,
        places=nodes.places * radius,
        film_thickness=nodes.film * clearance,
        gauge_pressure=pressure * unit,
        film_fraction=sums.fill,
        load=unit * radius**2 * float(np.hypot(*sums.force)),
        load_angle=load_angle,
        attitude_angle=float(np.remainder(turn + np.pi, 2.0 * np.pi) - np.pi),
        side_flow=flow_unit * sum(sums.end_flows),
        end_flows=(flow_unit * sums.end_flows[0], flow_unit * sums.end_flows[1]),
        supply_flow=flow_unit * sums.supply_flow,
        flow_around=flow_unit * sums.flow_around,
        friction_torque=shear_unit * sums.shear + dragging,
        friction_torque_full_film=shear_unit * sums.full_shear + dragging,
        bearing_torque=shear_unit * sums.shear - dragging,
        maximum_pressure=unit * sums.maximum_pressure,
        iterations=iterations,
        mass_residual=sums.mass_residual,
        ruptured=ruptured,
    )


def _drive(
    bearing: Bearing, position: JournalPosition, motion: JournalMotion, nodes: FilmNodes
) -> tuple[float, float, FloatArray]:
    """Speed that everything is measured in, entrainment and squeeze in it."""
    outward, sideways = motion.eccentricity_rate, position.eccentricity_ratio * motion.whirl_speed
    scale = max(abs(motion.entrainment_speed), 2.0 * abs(outward), 2.0 * abs(sideways))
    if not np.isfinite(scale):
        raise OutOfDomainError("motion", motion, "finite")
    if scale == 0.0:
        if not any(feed.gauge_pressure > 0.0 for feed in bearing.feeds):
            raise OutOfDomainError("motion", motion, "not all zero where no pressure is fed")
        scale = 1.0
    angle = nodes.angles - position.angle
    rate = -2.0 / scale * (outward * np.cos(angle) + sideways * np.sin(angle))
    squeeze = np.ascontiguousarray(np.broadcast_to(rate[:, np.newaxis], nodes.film.shape))
    return scale, motion.entrainment_speed / scale, squeeze
