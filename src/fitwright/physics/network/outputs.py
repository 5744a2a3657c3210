"""What is asked of a solved circuit: flow budget, reserve, feed of the big ends."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.physics.network.circuit import SUMP
from fitwright.physics.network.elements.crank_drilling import CrankDrilling
from fitwright.physics.network.elements.pump import Pump
from fitwright.physics.network.elements.relief import Relief
from fitwright.physics.network.machines import Machines, machines
from fitwright.physics.network.sizes import COMMON, SPEED_FACTOR, TEMPERATURE_CHANGE, Named, Size
from fitwright.physics.network.solution import Solution
from fitwright.physics.oil.oil import density
from fitwright.quantity import FloatArray, Pascal

ATMOSPHERIC_PRESSURE: Pascal = 101_325.0
"""Standard pressure of the air, which gauge pressures are counted from."""


@dataclass(frozen=True, slots=True, eq=False)
class FlowBudget:
    """Where the oil goes; each array of shape (s, p, groups) or (s, p).

    Attributes
    ----------
    groups : tuple of str
        Groups of the paths, in the order in which they appear; relief valves are a group of their own name.
    flow : array [m3/s]
        What leaves to the sump, or by a relief valve to the pump, in each group.
    theoretical_flow : array [m3/s]
        Swept by the pumps with full chambers.
    fill_loss : array [m3/s]
        What does not get into the chambers.
    leakage_flow : array [m3/s]
        What the pumps' gaps let back.
    """

    groups: tuple[str, ...]
    flow: FloatArray
    theoretical_flow: FloatArray
    fill_loss: FloatArray
    leakage_flow: FloatArray

    def of(self, group: str) -> FloatArray:
        """Flow (s, p) [m3/s] of one group."""
        return np.asarray(self.flow[..., self.groups.index(group)])


def flow_budget(solution: Solution, *, states: Machines | None = None) -> FlowBudget:
    r"""Share out the flow of the pumps over the groups of paths.

    Parameters
    ----------
    solution : Solution
        A solved circuit.
    states : Machines or None
        Of its machines, where they are known already.

    Returns
    -------
    FlowBudget
        Flows of the groups; with losses of the pumps they add up to the theoretical flow.

    Notes
    -----
    A path counts where its oil leaves the circuit: at the sump, or at a relief valve, whatever it passed
    before. Paths that carry oil from the sump to the pump count nothing.

    .. math:: V \omega = Q_{fill\,loss} + Q_{leak} + \sum_g Q_g

    References
    ----------
    [white2011] conservation of mass in a steady flow

    Examples
    --------
    >>> from fitwright.physics.network.circuit import Circuit, Path, SUMP
    >>> from fitwright.physics.network.elements import Orifice, Pump
    >>> from fitwright.physics.network.solve import solve
    >>> from fitwright.physics.oil.oil import Oil
    >>> paths = (Path("pump", SUMP, "gallery", Pump(1.59e-6)),
    ...          Path("jets", "gallery", SUMP, Orifice(2e-3, count=4.0), "jets"),
    ...          Path("restrictor", "gallery", SUMP, Orifice(2e-3), "head"))
    >>> found = solve(Circuit(paths), Oil(105e-6, 11.4e-6, 880.0), angular_speeds=94.2,
    ...               oil_temperatures=363.15)
    >>> budget = flow_budget(found)
    >>> budget.groups, (budget.flow[0, 0] * 6e4).round(2).tolist()
    (('jets', 'head'), [7.19, 1.8])
    """
    leaving = [at for at, path in enumerate(solution.circuit.paths) if _leaves(path.downstream, path.element)]
    names = [solution.circuit.paths[at].group for at in leaving]
    groups = tuple(dict.fromkeys(names))
    flows = solution.flow
    found = np.zeros((*solution.converged.shape, len(groups)))
    for at, name in zip(leaving, names, strict=True):
        found[..., groups.index(name)] += flows[..., at]
    pumps = (machines(solution) if states is None else states).pumps
    return FlowBudget(
        groups,
        found,
        pumps.theoretical_flow.sum(axis=-1),
        (pumps.theoretical_flow - pumps.filled_flow).sum(axis=-1),
        pumps.leakage_flow.sum(axis=-1),
    )


def _leaves(downstream: str, element: object) -> bool:
    return isinstance(element, Relief) or (downstream == SUMP and not isinstance(element, Pump))


def relief_flow_share(solution: Solution) -> FloatArray:
    r"""Reserve of the pump: the share of its flow that goes over the relief valves.

    Parameters
    ----------
    solution : Solution
        A solved circuit.

    Returns
    -------
    ndarray [1], shape (s, p)
        Zero where nothing is left over; NaN where the pump stands still.

    Notes
    -----
    .. math:: R = \frac{\sum Q_{relief}}{\sum Q_{pump}}

    References
    ----------
    [ivantysyn2001] pump and pressure relief valve

    Examples
    --------
    >>> from fitwright.physics.network.circuit import Circuit, Path, SUMP
    >>> from fitwright.physics.network.elements import Orifice, Pump
    >>> from fitwright.physics.network.solve import solve
    >>> from fitwright.physics.oil.oil import Oil
    >>> paths = (Path("pump", SUMP, "gallery", Pump(1.59e-6)), Path("jet", "gallery", SUMP, Orifice(2e-3)))
    >>> found = solve(Circuit(paths), Oil(105e-6, 11.4e-6, 880.0), angular_speeds=94.2,
    ...               oil_temperatures=363.15)
    >>> relief_flow_share(found).tolist()
    [[0.0]]
    """
    circuit = solution.circuit
    pumped = _sum(solution, circuit.of_kind(Pump))
    past = _sum(solution, circuit.of_kind(Relief))
    share: FloatArray = np.divide(past, pumped, out=np.full_like(past, np.nan), where=pumped > 0.0)
    return share


def _sum(solution: Solution, places: tuple[int, ...]) -> FloatArray:
    flow: FloatArray = solution.flow[..., list(places)].sum(axis=-1)
    return flow


@dataclass(frozen=True, slots=True, eq=False)
class BigEndFeeds:
    """Pressure on the way to each big end; arrays of shape (s, p, drillings).

    Attributes
    ----------
    paths : tuple of str
        Names of the crank drillings.
    gauge_pressure_at_entry, gauge_pressure_at_pin : array [Pa]
        In the main's groove, and where the oil comes out at the pin.
    lowest_gauge_pressure : array [Pa]
        The lowest on the way: the margin of the feed. Below nothing the oil is drawn rather than pushed.
    lowest_radius : array [m]
        Distance from the crank's axis where that is.
    """

    paths: tuple[str, ...]
    gauge_pressure_at_entry: FloatArray
    gauge_pressure_at_pin: FloatArray
    lowest_gauge_pressure: FloatArray
    lowest_radius: FloatArray

    @property
    def lowest_absolute_pressure(self) -> FloatArray:
        """The lowest pressure on the way [Pa], counted from nothing; oil cannot be pulled below zero."""
        return self.lowest_gauge_pressure + ATMOSPHERIC_PRESSURE


def big_end_feeds(solution: Solution) -> BigEndFeeds:
    r"""Lowest pressure on the way from each main to its big end.

    Parameters
    ----------
    solution : Solution
        A solved circuit.

    Returns
    -------
    BigEndFeeds
        Pressures along the crank drillings.

    Notes
    -----
    Along a drilling with the radius r(x) from the crank's axis, behind an entry that costs its loss,

    .. math:: p(x) = p_{main} - K_{entry} \tfrac12 \rho v^2 - \frac{x}{l} \Delta p_{friction}
              + \tfrac12 \rho \omega^2 (r(x)^2 - r_0^2)

    The speed v is that while the drilling is fed. All other losses are spread evenly over the length.
    Between two stations the radius changes evenly, so that each piece has its lowest pressure at an end or
    where the slope is zero. The oil in the groove is taken as at rest.

    References
    ----------
    [white2011] rigid-body rotation of a fluid

    Examples
    --------
    >>> from fitwright.physics.network.circuit import Circuit, Path, SUMP
    >>> from fitwright.physics.network.elements import CrankDrilling, Orifice, Pump
    >>> from fitwright.physics.network.solve import solve
    >>> from fitwright.physics.oil.oil import Oil
    >>> drilling = CrankDrilling(5e-3, 0.07, (0.028, 0.0, 0.06))
    >>> paths = (Path("pump", SUMP, "main", Pump(1.59e-7)), Path("crank", "main", "pin", drilling),
    ...          Path("big end", "pin", SUMP, Orifice(3e-3)))
    >>> found = solve(Circuit(paths), Oil(105e-6, 11.4e-6, 880.0), angular_speeds=600.0,
    ...               oil_temperatures=363.15)
    >>> feeds = big_end_feeds(found)
    >>> (feeds.gauge_pressure_at_entry - feeds.lowest_gauge_pressure).round(-3).tolist()
    [[[130000.0]]]
    """
    circuit = solution.circuit
    places = circuit.of_kind(CrankDrilling)
    shape = (*solution.converged.shape, len(places))
    entry, pin, lowest, radius = (np.empty(shape) for _ in range(4))
    for at, place in enumerate(places):
        path = circuit.paths[place]
        entry[..., at], pin[..., at] = (
            solution.pressure_at(path.upstream),
            solution.pressure_at(path.downstream),
        )
        lowest[..., at], radius[..., at] = _lowest(solution, place, entry[..., at], pin[..., at])
    names = tuple(circuit.paths[place].name for place in places)
    return BigEndFeeds(names, entry, pin, lowest, radius)


def _lowest(
    solution: Solution, place: int, entry: FloatArray, pin: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Lowest pressure along one drilling, and the radius where it is; each of shape (s, p)."""
    drilling = solution.circuit.paths[place].element
    assert isinstance(drilling, CrankDrilling)  # noqa: S101  # it was looked up by its kind
    values = _Values(solution)
    warm = solution.oil_temperatures + values.common(TEMPERATURE_CHANGE)
    rho = density(solution.oil, warm)
    speed = solution.angular_speeds * values.common(SPEED_FACTOR) * values.of(drilling.speed_ratio)
    spin = 0.5 * rho * speed**2
    share = values.of(drilling.fed_share) * values.of(drilling.count)
    mean_speed = solution.flow[..., place] / (share * 0.25 * np.pi * values.of(drilling.diameter) ** 2)
    loss = values.of(drilling.entry_loss_coefficient) * 0.5 * rho * mean_speed * np.abs(mean_speed)
    radii = drilling.station_radii
    behind = entry - np.maximum(loss, 0.0)
    friction = behind - pin + spin * (radii[-1] ** 2 - radii[0] ** 2)
    lowest, where = entry.copy(), np.full_like(entry, radii[0])
    for piece in range(len(radii) - 1):
        for part in _candidates(radii[piece], radii[piece + 1], spin, friction / (len(radii) - 1)):
            r = radii[piece] + part * (radii[piece + 1] - radii[piece])
            along = (piece + part) / (len(radii) - 1)
            pressure = behind - along * friction + spin * (r**2 - radii[0] ** 2)
            lower = pressure < lowest
            lowest, where = np.where(lower, pressure, lowest), np.where(lower, r, where)
    return np.where(np.isnan(pin), np.nan, lowest), np.where(np.isnan(pin), np.nan, where)


def _candidates(first: float, last: float, spin: FloatArray, friction: FloatArray) -> list[FloatArray]:
    """Shares of a piece at which its pressure can be lowest: both ends, and where the slope is zero."""
    change = last - first
    bend = 2.0 * spin * change**2
    flat = np.divide(
        friction - 2.0 * spin * first * change, bend, out=np.zeros_like(friction), where=bend > 0.0
    )
    return [np.zeros_like(friction), np.ones_like(friction), np.clip(flat, 0.0, 1.0)]


class _Values:
    """Values of sizes and common parameters, for all samples and points."""

    def __init__(self, solution: Solution) -> None:
        self._parameters = solution.parameters
        self._names = solution.circuit.parameter_names

    def of(self, size: Size) -> FloatArray:
        """A size, of shape (s, p) or a single number."""
        if isinstance(size, Named):
            value = self._parameters[..., self._names.index(size.parameter)]
            return np.asarray(size.factor * value + size.offset)
        return np.asarray(float(size))

    def common(self, name: str) -> FloatArray:
        """A parameter that every circuit has, of shape (s, p)."""
        assert name in COMMON  # noqa: S101  # names in this module
        return np.asarray(self._parameters[..., self._names.index(name)])
