"""Steadily loaded bearings out of the tables: one, or a million at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.bearings.tables import BearingTables
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metres, Newtons, PascalSeconds, RadiansPerSecond

BEYOND_TABLES = (
    "some loads squeeze the film below the smallest share of the clearance in the tables: no number there"
)


@dataclass(frozen=True, slots=True, eq=False)
class SteadyPoint:
    """Films of bearings; every array has the shape to which the arguments broadcast.

    Attributes
    ----------
    eccentricity_ratio : array [1]
        Distance of the centres over the radial clearance.
    minimum_film_thickness : array [m]
        Smallest gap.
    attitude_angle : array [rad]
        From the direction of the load to the thinnest film, in the direction of rotation.
    sommerfeld_number : array [1]
        (mu N / P)(R/c)^2 with N in revolutions per second.
    side_flow : array [m3/s]
        Hydrodynamic flow out of both ends.
    friction_torque : array [N m]
        At the journal; the ruptured film counts by the share of the gap that it fills.
    friction_torque_full_film : array [N m]
        The same with shear over the whole circumference.
    maximum_film_pressure : array [Pa]
        Largest gauge pressure.
    inside : array of bool
        Whether the tables reach so far; where not, the numbers above are not numbers.
    cautions : tuple of str
        What to know about the numbers.
    """

    eccentricity_ratio: FloatArray
    minimum_film_thickness: FloatArray
    attitude_angle: FloatArray
    sommerfeld_number: FloatArray
    side_flow: FloatArray
    friction_torque: FloatArray
    friction_torque_full_film: FloatArray
    maximum_film_pressure: FloatArray
    inside: NDArray[np.bool_]
    cautions: tuple[str, ...]


def steady_point(
    tables: BearingTables,
    *,
    journal_diameter: Metres,
    bearing_length: Metres,
    radial_clearance: Metres,
    dynamic_viscosity: PascalSeconds,
    angular_speed: RadiansPerSecond,
    load: Newtons,
) -> SteadyPoint:
    r"""Where journals run under steady loads, and what their films do.

    Parameters
    ----------
    tables : BearingTables
        Dimensionless characteristics.
    journal_diameter : array_like [m]
        Diameter of the journal.
    bearing_length : array_like [m]
        Length of the film.
    radial_clearance : array_like [m]
        Half of the difference of the diameters.
    dynamic_viscosity : array_like [Pa s]
        Viscosity of the film.
    angular_speed : array_like [rad/s]
        Of the journal in a bearing and under a load that stand still; its sign does not matter.
    load : array_like [N]
        Steady load, zero or more.

    Returns
    -------
    SteadyPoint
        All arguments broadcast against each other.

    Raises
    ------
    OutOfDomainError
        If a size, a viscosity or a load means nothing, or a length ratio lies outside the tables.

    Notes
    -----
    .. math:: S = \frac{\mu N}{P} \left(\frac{R}{c}\right)^2, \; P = \frac{W}{L D}, \;
              Q_s = q R c N L, \; M = 2 \frac{(R/c) f}{S} \frac{\mu N L R^3}{c}

    A full bearing, flooded without pressure at its widest gap. A load that brings the film below a hundredth
    of the clearance, as any load at rest does, lies outside the tables: no number, and a caution.

    References
    ----------
    [raimondi1958] dimensionless characteristics
    [deboor2001] interpolation

    Examples
    --------
    >>> from fitwright.data.bearing_tables import bearing_tables
    >>> point = steady_point(
    ...     bearing_tables(), journal_diameter=0.05, bearing_length=0.025, radial_clearance=25e-6,
    ...     dynamic_viscosity=0.01, angular_speed=[0.0, 300.0], load=2000.0)
    >>> point.inside.tolist(), round(float(point.eccentricity_ratio[1]), 1)
    ([False, True], 0.6)
    """
    from fitwright.physics.bearings.kernels.steady import steady_points

    arguments = (journal_diameter, bearing_length, radial_clearance, dynamic_viscosity, angular_speed, load)
    arrays = np.broadcast_arrays(*(np.asarray(one, dtype=np.float64) for one in arguments))
    diameter, length, clearance, viscosity, speed, force = arrays
    _check(diameter, length, clearance, viscosity, force)
    logarithm = np.log(length / diameter)
    _check_reach(tables, logarithm)
    per_second = np.abs(speed) / (2.0 * np.pi)
    radius = 0.5 * diameter
    drag = viscosity * per_second * (radius / clearance) ** 2
    pressure = force / (length * diameter)
    with np.errstate(divide="ignore", invalid="ignore"):
        inverse = np.where(pressure > 0.0, pressure / drag, 0.0)
        sommerfeld = drag / pressure
    found = np.empty((7, inverse.size))
    steady_points(
        np.log(tables.length_ratio),
        tables.eccentricity_ratio,
        tables.coefficients,
        logarithm.ravel(),
        inverse.ravel(),
        found,
    )
    e, attitude, flow, film, full, peak, reached = (row.reshape(inverse.shape) for row in found)
    inside = reached > 0.0
    torque = 2.0 * viscosity * per_second * length * radius**3 / clearance
    return SteadyPoint(
        eccentricity_ratio=e,
        minimum_film_thickness=clearance * (1.0 - e),
        attitude_angle=attitude,
        sommerfeld_number=sommerfeld,
        side_flow=flow * radius * clearance * per_second * length,
        friction_torque=film * torque,
        friction_torque_full_film=full * torque,
        maximum_film_pressure=pressure / peak,
        inside=inside,
        cautions=() if inside.all() else (BEYOND_TABLES,),
    )


def _check(
    diameter: FloatArray, length: FloatArray, clearance: FloatArray, viscosity: FloatArray, load: FloatArray
) -> None:
    positive = {
        "journal_diameter": diameter,
        "bearing_length": length,
        "radial_clearance": clearance,
        "dynamic_viscosity": viscosity,
    }
    for name, values in positive.items():
        if not ((values > 0.0) & (values < np.inf)).all():
            raise OutOfDomainError(name, values.min() if values.ndim else float(values), "positive")
    if not ((load >= 0.0) & (load < np.inf)).all():
        raise OutOfDomainError("load", load.min() if load.ndim else float(load), "zero or more")


def _check_reach(tables: BearingTables, logarithm: FloatArray) -> None:
    """Length ratios have to lie inside the tables."""
    first, last = np.log(tables.length_ratio[[0, -1]])
    outside = logarithm[~((logarithm >= first - 1e-12) & (logarithm <= last + 1e-12))]
    if outside.size:
        domain = f"between {tables.length_ratio[0]:.3g} and {tables.length_ratio[-1]:.3g} of it"
        raise OutOfDomainError("bearing_length", f"{np.exp(outside.flat[0]):.4g} of the diameter", domain)
