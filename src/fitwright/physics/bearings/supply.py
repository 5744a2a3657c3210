"""What a fed bearing draws from its gallery, and how warm its film becomes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from fitwright.physics.bearings.curves import SteadyCurves, curve_coefficients
from fitwright.physics.bearings.fed_bearing import FedBearing, bearing_parameters, film_length_ratio
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.oil.oil import Oil, oil_parameters
from fitwright.quantity import (
    CubicMetrePerSecond,
    FloatArray,
    Kelvin,
    Metre,
    Newton,
    NewtonSecondSquared,
    Number,
    Pascal,
    RadianPerSecond,
    Watt,
)

STARVED_SHARE: Number = 0.25
"""Flow over hydrodynamic demand below which a bearing is called starved: it carries 6 to 15 % less there."""

HOT_RISE: Kelvin = 100.0
"""Warming from feed to outlet above which the heat balance is called beyond its range [K]."""


@dataclass(frozen=True, slots=True)
class BearingSupply:
    """Flow, temperatures and film of a bearing at the pressure of its feed.

    Attributes
    ----------
    flow : float [m3/s]
        Drawn from the feed.
    pressure_flow : float [m3/s]
        Pushed through by the feed's pressure.
    hydrodynamic_demand : float [m3/s]
        What the turning journal would squeeze out at the ends if it got it.
    flow_by_pressure : float [m3/(s Pa)]
        Derivative of the flow by the supply pressure, warming included.
    flow_by_clearance : float [m2/s]
        Derivative of the flow by the radial clearance, warming included.
    film_temperature : float [K]
        That the film's viscosity belongs to.
    outlet_temperature : float [K]
        Of the oil that leaves.
    eccentricity_ratio : float [1]
        Displacement of the journal over the radial clearance.
    minimum_film_thickness : float [m]
        Smallest gap of smooth, round, parallel parts; hold it against the roughness.
    friction_power : float [W]
        Power that the film turns into heat.
    supplied_share : float [1]
        Flow over hydrodynamic demand; infinite without demand.
    inside_curves : bool
        Whether the load lies inside the curves; if not, the film is thinner than given.
    iterations : int
        Evaluations of the heat balance.
    cautions : tuple of str
        What limits the result.
    """

    flow: CubicMetrePerSecond
    pressure_flow: CubicMetrePerSecond
    hydrodynamic_demand: CubicMetrePerSecond
    flow_by_pressure: float
    flow_by_clearance: float
    film_temperature: Kelvin
    outlet_temperature: Kelvin
    eccentricity_ratio: Number
    minimum_film_thickness: Metre
    friction_power: Watt
    supplied_share: Number
    inside_curves: bool
    iterations: int
    cautions: tuple[str, ...]

    @property
    def starved(self) -> bool:
        """Whether the feed passes too little for the film to carry as computed."""
        return self.supplied_share < STARVED_SHARE


def load_at_speed(
    load: Newton, *, growth_with_speed_squared: NewtonSecondSquared, angular_speed: RadianPerSecond
) -> Newton:
    r"""Stated load of a bearing that grows with the square of the speed.

    Parameters
    ----------
    load : float [N]
        At rest.
    growth_with_speed_squared : float [N s2]
        Of the load, by the square of the angular speed.
    angular_speed : float [rad/s]
        Of the journal.

    Returns
    -------
    float [N]
        Load at the speed.

    Notes
    -----
    .. math:: W = W_0 + k \omega^2

    A stated stand-in for a mean load over the cycle; the orbit takes the load as it turns.

    References
    ----------
    [heywood1988] inertia forces of the crank train grow with the square of the speed

    Examples
    --------
    >>> load_at_speed(2000.0, growth_with_speed_squared=0.01, angular_speed=600.0)
    5600.0
    """
    return load + growth_with_speed_squared * angular_speed**2


def bearing_supply(
    bearing: FedBearing,
    curves: SteadyCurves,
    oil: Oil,
    *,
    gauge_pressure: Pascal,
    supply_temperature: Kelvin,
    angular_speed: RadianPerSecond,
    load: Newton,
    radial_clearance: Metre,
    largest_iterations: int = 60,
) -> BearingSupply:
    r"""Flow, film temperature and film thickness of a fed bearing under a steady load.

    Parameters
    ----------
    bearing : FedBearing
        The bearing and its feed.
    curves : SteadyCurves
        At the length ratio of `film_length_ratio`.
    oil : Oil
        The oil.
    gauge_pressure : float [Pa]
        At the feed; may be negative.
    supply_temperature : float [K]
        Of the oil at the feed.
    angular_speed : float [rad/s]
        Of the journal against the bearing.
    load : float [N]
        Steady load.
    radial_clearance : float [m]
        Half of the diametral clearance.
    largest_iterations : int
        Evaluations of the heat balance at most.

    Returns
    -------
    BearingSupply
        Flow with its derivatives, temperatures, film and cautions.

    Raises
    ------
    OutOfDomainError
        If a size means nothing or the curves are those of another length ratio.
    NotConvergedError
        If the heat balance did not close.

    Notes
    -----
    A full groove passes its pressure flow Q_p and no more: the flow along the axis, summed around a parallel
    journal, falls evenly from groove to end, ruptured film or not. Out of a feed of axial extent a the
    journal drags a share of the hydrodynamic side flow Q_h besides, which fades where no pressure is left:

    .. math:: Q = Q_p + \left(\frac{a}{L}\right)^{0.7} \frac{p}{\sqrt{p^2 + p_0^2}} Q_h, \quad
              \rho c\, Q\, (T_2 - T_1) = \lambda P_f, \quad T_f = T_1 + w (T_2 - T_1)

    The share is fitted to direct solutions. A supply pressure below zero fades to nothing within some kPa.
    Friction with the gap full of oil all round. The film of a starved bearing is thinner and warmer than
    computed; it is cautioned, not corrected.

    References
    ----------
    [iso7902_1_2013] heat balance, mean film temperature
    [jakobsson1957] mass-conserving rupture of the film

    Examples
    --------
    >>> import numpy as np
    >>> from fitwright.physics.bearings.curves import short_bearing_curves
    >>> from fitwright.physics.bearings.fed_bearing import FullGroove
    >>> main = FedBearing(0.056, 0.022, FullGroove(0.004))
    >>> curves = short_bearing_curves(film_length_ratio(main), np.linspace(0.05, 0.98, 40))
    >>> found = bearing_supply(main, curves, Oil(105e-6, 11.4e-6, 880.0), gauge_pressure=2.4e5,
    ...                        supply_temperature=383.15, angular_speed=94.2, load=500.0,
    ...                        radial_clearance=27.5e-6)
    >>> round(found.flow * 6e4, 3), round(found.film_temperature - 273.15, 1), found.starved
    (0.287, 110.7, False)
    """
    from fitwright.physics.bearings.kernels.supply import bearing_supply as kernel

    _check(bearing, curves, radial_clearance, load)
    found = kernel(
        float(gauge_pressure),
        float(supply_temperature),
        float(angular_speed),
        float(load),
        float(radial_clearance),
        bearing_parameters(bearing),
        _coefficients(curves),
        oil_parameters(oil),
        largest_iterations,
    )
    if not found[11]:
        raise NotConvergedError("heat balance of a bearing", found[12], float("nan"), 1e-12)
    share = found[0] / found[9] if found[9] > 0.0 else math.inf
    return BearingSupply(
        flow=found[0],
        pressure_flow=found[8],
        hydrodynamic_demand=found[9],
        flow_by_pressure=found[1],
        flow_by_clearance=found[2],
        film_temperature=found[3],
        outlet_temperature=found[4],
        eccentricity_ratio=found[5],
        minimum_film_thickness=found[6],
        friction_power=found[7],
        supplied_share=share,
        inside_curves=found[10],
        iterations=found[12],
        cautions=tuple(_cautions(share, found[4] - supply_temperature, inside=found[10])),
    )


@lru_cache(maxsize=64)
def _coefficients(curves: SteadyCurves) -> FloatArray:
    """Of the same curves, once."""
    return curve_coefficients(curves)


def _cautions(share: float, rise: float, *, inside: bool) -> list[str]:
    said = []
    if share < STARVED_SHARE:
        said.append(
            f"Starved: the feed passes {share:.0%} of what the journal would squeeze out; the film is thinner"
            " and warmer than computed."
        )
    if rise > HOT_RISE:
        said.append("The oil warms by more than 100 K on its way: beyond the range of the heat balance.")
    if not inside:
        said.append("The load is above what the curves reach: no film thickness can be given.")
    return said


def _check(bearing: FedBearing, curves: SteadyCurves, clearance: float, load: float) -> None:
    ratio = film_length_ratio(bearing)
    if abs(curves.length_ratio - ratio) > 1e-6 * ratio:
        raise OutOfDomainError("curves.length_ratio", curves.length_ratio, f"that of the film, {ratio:.6g}")
    if not 0.0 < clearance < 0.05 * bearing.journal_diameter:
        raise OutOfDomainError("radial_clearance", clearance, "positive and small against the journal")
    if not load >= 0.0:
        raise OutOfDomainError("load", load, "zero or more")
