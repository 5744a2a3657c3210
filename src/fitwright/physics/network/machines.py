"""What bearings, pumps and relief valves of a solved circuit do."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.physics.bearings.supply import STARVED_SHARE
from fitwright.physics.network.elements.bearing import Bearing
from fitwright.physics.network.elements.pump import Pump
from fitwright.physics.network.elements.relief import Relief
from fitwright.physics.network.ordering import IntArray
from fitwright.physics.network.solution import BoolArray, Solution
from fitwright.physics.oil.oil import oil_parameters
from fitwright.quantity import FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class BearingStates:
    """Bearings of a circuit, each array of shape (s, p, bearings); one bearing of those that are alike.

    Attributes
    ----------
    paths : tuple of str
        Names of the paths through bearings.
    flow, pressure_flow, hydrodynamic_demand : array [m3/s]
        Drawn; pushed through by the feed's pressure; what the journal would draw if it got it.
    film_temperature, outlet_temperature : array [K]
        That the film's viscosity belongs to; of the oil that leaves.
    eccentricity_ratio : array [1]
        Displacement of the journal over the radial clearance.
    minimum_film_thickness : array [m]
        Smallest gap of smooth, round, parallel parts.
    friction_power : array [W]
        Turned into heat.
    load : array [N]
        At the speed of the point.
    supplied_share : array [1]
        Flow drawn over the hydrodynamic demand; infinite without demand.
    inside_curves : array
        Whether the load lies inside the curves; if not, the film is thinner than given.
    heat_balanced : array
        Whether the bearing's heat balance closed.
    """

    paths: tuple[str, ...]
    flow: FloatArray
    pressure_flow: FloatArray
    hydrodynamic_demand: FloatArray
    film_temperature: FloatArray
    outlet_temperature: FloatArray
    eccentricity_ratio: FloatArray
    minimum_film_thickness: FloatArray
    friction_power: FloatArray
    load: FloatArray
    supplied_share: FloatArray
    inside_curves: BoolArray
    heat_balanced: BoolArray

    @property
    def starved(self) -> BoolArray:
        """Where the feed passes less than the journal would draw."""
        return np.asarray(self.supplied_share < STARVED_SHARE)


@dataclass(frozen=True, slots=True, eq=False)
class PumpStates:
    """Pumps of a circuit, each array of shape (s, p, pumps).

    Attributes
    ----------
    paths : tuple of str
        Names of the paths through pumps.
    theoretical_flow, filled_flow, leakage_flow, net_flow : array [m3/s]
        Swept by full chambers; what gets into them; what the gaps let back; what is left.
    inlet_gauge_pressure, outlet_gauge_pressure : array [Pa]
        On both sides.
    fill_share : array [1]
        Filled over theoretical flow; one while the pump stands still.
    """

    paths: tuple[str, ...]
    theoretical_flow: FloatArray
    filled_flow: FloatArray
    leakage_flow: FloatArray
    net_flow: FloatArray
    inlet_gauge_pressure: FloatArray
    outlet_gauge_pressure: FloatArray
    fill_share: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class ReliefStates:
    """Relief valves of a circuit, each array of shape (s, p, valves).

    Attributes
    ----------
    paths : tuple of str
        Names of the paths through relief valves.
    flow : array [m3/s]
        Let by.
    lift : array [m]
        Of the plunger.
    """

    paths: tuple[str, ...]
    flow: FloatArray
    lift: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Machines:
    """Bearings, pumps and relief valves of a solved circuit."""

    bearings: BearingStates
    pumps: PumpStates
    reliefs: ReliefStates


def machines(solution: Solution) -> Machines:
    """States of all bearings, pumps and relief valves, at the pressures found.

    Parameters
    ----------
    solution : Solution
        A solved circuit.

    Returns
    -------
    Machines
        States; NaN where a point did not converge.

    Notes
    -----
    Computed from the same laws as the solution. A bearing, pump or valve that is a part of a longer path
    (`Series`) is not found here.

    References
    ----------
    [iso7902_1_2013] heat balance of a pressure-fed bearing
    [ivantysyn2001] losses of displacement machines

    Examples
    --------
    >>> from fitwright.physics.network.circuit import Circuit, Path, SUMP
    >>> from fitwright.physics.network.elements import Orifice, Pump
    >>> from fitwright.physics.network.solve import solve
    >>> from fitwright.physics.oil.oil import Oil
    >>> paths = (Path("pump", SUMP, "gallery", Pump(1.59e-6)), Path("jet", "gallery", SUMP, Orifice(2e-3)))
    >>> found = solve(Circuit(paths), Oil(105e-6, 11.4e-6, 880.0), angular_speeds=94.2,
    ...               oil_temperatures=363.15)
    >>> pumps = machines(found).pumps
    >>> round(float(pumps.theoretical_flow[0, 0, 0]) * 6e4, 2), pumps.fill_share.round(3).tolist()
    (8.99, [[[1.0]]])
    """
    from fitwright.physics.network.kernels.states import states_of_points

    circuit, shape = solution.circuit, solution.converged.shape
    places = {kind: circuit.of_kind(kind) for kind in (Bearing, Pump, Relief)}
    parts: dict[type, IntArray] = {
        kind: solution.compiled.path_parts[np.array(found, dtype=np.int64)] for kind, found in places.items()
    }
    of_bearings = np.full((*shape, len(places[Bearing]), 12), np.nan)
    of_pumps = np.full((*shape, len(places[Pump]), 12), np.nan)
    of_reliefs = np.full((*shape, len(places[Relief]), 2), np.nan)
    states_of_points(
        solution.compiled.layout,
        parts[Bearing],
        parts[Pump],
        parts[Relief],
        solution.angular_speeds,
        solution.oil_temperatures,
        solution.parameters,
        oil_parameters(solution.oil),
        solution.place_pressures,
        of_bearings,
        of_pumps,
        of_reliefs,
    )
    names = {kind: tuple(circuit.paths[at].name for at in found) for kind, found in places.items()}
    return Machines(
        _bearings(names[Bearing], np.moveaxis(of_bearings, -1, 0)),
        _pumps(names[Pump], np.moveaxis(of_pumps, -1, 0)),
        ReliefStates(names[Relief], of_reliefs[..., 0], of_reliefs[..., 1]),
    )


def _bearings(names: tuple[str, ...], found: FloatArray) -> BearingStates:
    film, outlet, eccentricity, thickness, friction, pushed, demand, inside, balanced, load, _, flow = found
    share = np.divide(flow, demand, out=np.full_like(demand, np.inf), where=demand > 0.0)
    return BearingStates(
        paths=names,
        flow=flow,
        pressure_flow=pushed,
        hydrodynamic_demand=demand,
        film_temperature=film,
        outlet_temperature=outlet,
        eccentricity_ratio=eccentricity,
        minimum_film_thickness=thickness,
        friction_power=friction,
        load=load,
        supplied_share=np.where(np.isnan(flow), np.nan, share),
        inside_curves=inside > 0.5,
        heat_balanced=balanced > 0.5,
    )


def _pumps(names: tuple[str, ...], found: FloatArray) -> PumpStates:
    swept, filled, leakage, net, inlet, outlet = found[:6]
    share = np.divide(filled, swept, out=np.ones_like(swept), where=swept > 0.0)
    share = np.where(np.isnan(swept), np.nan, share)
    return PumpStates(names, swept, filled, leakage, net, inlet, outlet, share)
