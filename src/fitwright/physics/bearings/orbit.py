"""Path of a journal in its clearance over the cycle of an engine, by the mobility method."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fitwright.physics.bearings.curves import SteadyCurves
from fitwright.physics.bearings.mobility import MobilityMap
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.quantity import (
    CubicMetrePerSecond,
    FloatArray,
    Metre,
    Newtons,
    Number,
    Pascal,
    PascalSecond,
    Radian,
    RadianPerSecond,
    RadiansPerSecond,
    Watt,
)

STEP_TOLERANCE: Number = 1e-5
"""Error of a step as a share of the film that is left."""

CLOSING_DISTANCE: Number = 1e-6
"""Distance in eccentricity ratio between end and beginning at which the path counts as closed."""


@dataclass(frozen=True, slots=True, eq=False)
class Orbit:
    """Closed path of a journal and what follows from it.

    Attributes
    ----------
    crank_angle : array (n,) [rad]
        Even crank angles over the cycle.
    eccentricity_ratio : array (n, 2) [1]
        Place of the journal in the frame of the bearing, over the radial clearance.
    film_thickness : array (n,) [m]
        Smallest gap at each crank angle.
    film_pressure : array (n,) [Pa]
        Peak pressure of the film at each crank angle.
    minimum_film_thickness : float [m]
        Smallest of the cycle; hold it against the roughness.
    minimum_film_angle : float [rad]
        Crank angle there.
    peak_film_pressure : float [Pa]
        Largest of the cycle.
    peak_pressure_angle : float [rad]
        Crank angle there.
    mean_flow : float [m3/s]
        Mean of the oil that the moving journal squeezes out at the ends of the bearing.
    mean_power : float [W]
        Mean power that the film turns into heat.
    cycles : int
        Cycles until the path closed.
    closing_distance : float [1]
        Distance in eccentricity ratio between end and beginning of the last one.
    steps : int
        Steps of the last cycle.
    """

    crank_angle: FloatArray
    eccentricity_ratio: FloatArray
    film_thickness: FloatArray
    film_pressure: FloatArray
    minimum_film_thickness: Metre
    minimum_film_angle: Radian
    peak_film_pressure: Pascal
    peak_pressure_angle: Radian
    mean_flow: CubicMetrePerSecond
    mean_power: Watt
    cycles: int
    closing_distance: Number
    steps: int


def orbit(
    mobility: MobilityMap,
    load: Newtons,
    *,
    relative_speed: RadiansPerSecond,
    crank_speed: RadianPerSecond,
    journal_diameter: Metre,
    radial_clearance: Metre,
    dynamic_viscosity: PascalSecond,
    cycle_angle: Radian = 4.0 * math.pi,
    film_count: int = 1,
    curves: SteadyCurves | None = None,
    tolerance: Number = STEP_TOLERANCE,
    closing_distance: Number = CLOSING_DISTANCE,
    largest_cycles: int = 200,
) -> Orbit:
    r"""Closed path of a journal under a load that turns and changes over the cycle.

    Parameters
    ----------
    mobility : MobilityMap
        Map at the length ratio of one film.
    load : array (n, 2) [N]
        Load on the journal at n even crank angles from zero on, the last one interval before the end of the
        cycle, in a frame that is fixed to the bearing; towards where it presses the journal.
    relative_speed : array_like [rad/s]
        Speed of the journal against the bearing, at the same crank angles or one for all: that of the crank
        in a main bearing, that of the crank less that of the rod in a big end.
    crank_speed : float [rad/s]
        Speed at which the cycle is run through.
    journal_diameter : float [m]
        Diameter of the journal.
    radial_clearance : float [m]
        Half of the diametral clearance.
    dynamic_viscosity : float [Pa s]
        In the film, one over the cycle.
    cycle_angle : float [rad]
        Crank angle of the cycle: two turns with four strokes, one with two.
    film_count : int [1]
        Two for a bearing with a full groove, each film of the length of one land; else one.
    curves : SteadyCurves or None
        Of the same film, for the flow; None takes that of the short bearing.
    tolerance : float [1]
        Error of a step as a share of the film that is left.
    closing_distance : float [1]
        Distance in eccentricity ratio at which the path counts as closed.
    largest_cycles : int [1]
        Cycles at most.

    Returns
    -------
    Orbit
        The closed path, smallest film, peak pressure, mean flow and loss.

    Raises
    ------
    OutOfDomainError
        If a size or speed is not positive, or the load is not of that shape.
    NotConvergedError
        If a step missed its tolerance, or the path did not close.

    Notes
    -----
    .. math:: \frac{d\vec\varepsilon}{dt} = \frac{F (c/R)^2}{\mu L D} \vec M(\vec\varepsilon)
              + \frac{\omega_j - \omega_b}{2} \hat z \times \vec\varepsilon

    in the frame of the bearing. Round, rigid, smooth, parallel parts, one viscosity, oil wherever pressure
    forms: feed holes, grooves in the loaded half and starvation are left out, so that the smallest film of
    an elastic big end is another one; good for comparing clearances and oils. The squeezed flow is that of
    the short bearing, 2 R L c |v|, of a finite one the share of that which it has under a steady load at
    the same eccentricity; of what two films squeeze out, half returns to their groove. Loss: shear of a
    full gap, and load times squeeze speed. A light steady load on a wide bearing closes slowly.

    References
    ----------
    [booker1971] mobility method, loads in the frame of the bearing
    [dormand1980] step control

    Examples
    --------
    >>> from fitwright.physics.bearings.mobility import short_bearing_map
    >>> found = orbit(short_bearing_map(0.4), np.tile([0.0, -3000.0], (72, 1)), relative_speed=400.0,
    ...               crank_speed=400.0, journal_diameter=0.05, radial_clearance=25e-6,
    ...               dynamic_viscosity=0.01)
    >>> round(found.minimum_film_thickness * 1e6, 2), found.closing_distance < 1e-6
    (7.6, True)
    """
    from fitwright.physics.bearings.kernels.orbit import closed_orbit, squeeze_along

    forces, speeds = _checked(load, relative_speed, crank_speed)
    for name, value in (
        ("journal_diameter", journal_diameter),
        ("radial_clearance", radial_clearance),
        ("dynamic_viscosity", dynamic_viscosity),
        ("cycle_angle", cycle_angle),
    ):
        if not value > 0.0:
            raise OutOfDomainError(name, value, "positive")
    n, radius = len(forces), 0.5 * journal_diameter
    length = mobility.length_ratio * journal_diameter
    pace = (radial_clearance / radius) ** 2 / (dynamic_viscosity * length * journal_diameter * crank_speed)
    forces = forces / film_count
    path = np.zeros((n, 2))
    chart = (mobility.planes, mobility.largest_depth, mobility.length_ratio)
    cycles, distance, sound, steps = closed_orbit(
        forces,
        0.5 * speeds / crank_speed,
        cycle_angle / n,
        pace,
        *chart,
        tolerance,
        closing_distance,
        largest_cycles,
        path,
    )
    if not sound:
        raise NotConvergedError("step of the orbit", cycles, float("nan"), tolerance)
    if distance > closing_distance:
        raise NotConvergedError("closed orbit", cycles, distance, closing_distance)
    found = np.empty((n, 4))
    squeeze_along(forces, path, *chart, found)
    e = np.hypot(path[:, 0], path[:, 1])
    speed = pace * crank_speed * radial_clearance  # of a squeeze, over mobility times load
    shear = 2.0 * math.pi * dynamic_viscosity * radius**3 * length / radial_clearance
    power = shear * speeds**2 / np.sqrt(1.0 - e**2)
    power += np.hypot(forces[:, 0], forces[:, 1]) * speed * found[:, 2]
    flow = 2.0 * radius * length * speed * np.hypot(found[:, 0], found[:, 1])
    if curves is not None:
        flow = flow * np.interp(
            e, curves.eccentricity_ratio, curves.side_flow / (2.0 * math.pi * curves.eccentricity_ratio)
        )
    pressure = np.hypot(forces[:, 0], forces[:, 1]) / (length * journal_diameter * found[:, 3])
    film = radial_clearance * (1.0 - e)
    least, least_at = _lowest(film)
    highest, highest_at = _lowest(-pressure)
    return Orbit(
        crank_angle=np.arange(n) * cycle_angle / n,
        eccentricity_ratio=path,
        film_thickness=film,
        film_pressure=pressure,
        minimum_film_thickness=least,
        minimum_film_angle=least_at * cycle_angle / n,
        peak_film_pressure=-highest,
        peak_pressure_angle=highest_at * cycle_angle / n,
        mean_flow=float(flow.mean()),
        mean_power=float(power.mean()) * film_count,
        cycles=cycles,
        closing_distance=distance,
        steps=steps,
    )


def _checked(
    load: Newtons, relative_speed: RadiansPerSecond, crank_speed: float
) -> tuple[FloatArray, FloatArray]:
    forces = np.ascontiguousarray(load, dtype=np.float64)
    if forces.ndim != 2 or forces.shape[1] != 2 or len(forces) < 8:
        raise OutOfDomainError("load", f"of shape {forces.shape}", "of shape (n, 2) with eight rows or more")
    if not np.isfinite(forces).all():
        raise OutOfDomainError("load", load, "finite")
    if not crank_speed > 0.0:
        raise OutOfDomainError("crank_speed", crank_speed, "positive")
    return forces, np.ascontiguousarray(
        np.broadcast_to(np.asarray(relative_speed, dtype=np.float64), len(forces))
    )


def _lowest(values: FloatArray) -> tuple[float, float]:
    """Lowest of a periodic row and where, by the parabola through the lowest and its neighbours."""
    i, n = int(np.argmin(values)), len(values)
    before, here, after = values[(i - 1) % n], values[i], values[(i + 1) % n]
    bend = before - 2.0 * here + after
    if not bend > 0.0:
        return float(here), float(i)
    shift = 0.5 * (before - after) / bend
    return float(here - 0.125 * (before - after) ** 2 / bend), (i + float(shift)) % n
