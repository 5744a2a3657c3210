"""Where pressure falls as speed rises, and why; from which speed on the pump no longer fills."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.physics.network.compile import CompiledCircuit
from fitwright.physics.network.elements.element import Element
from fitwright.physics.network.elements.pump import Pump
from fitwright.physics.network.machines import machines
from fitwright.physics.network.solution import Solution
from fitwright.physics.network.solve import solve
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.oil import Oil, oil_parameters
from fitwright.quantity import FloatArray, Kelvin, Number, RadianPerSecond

FILLED = 0.98
"""Share of the theoretical flow below which filling is said to fall."""

_HALVINGS = 40


@dataclass(frozen=True, slots=True, eq=False)
class SpeedEffects:
    """What makes a node's pressure rise or fall with the speed of the crank, for one sample.

    Attributes
    ----------
    node : str
        Of which the pressure is looked at.
    slope : array (p,) [Pa s/rad]
        Of its gauge pressure by the angular speed, at constant oil temperature.
    paths : tuple of str
        All paths.
    share : array (p, paths) [Pa s/rad]
        What each path adds: the pump by what it sweeps, fills and leaks, bearings by what they draw and
        how warm they get, crank drillings by what they throw outwards. They add up to the slope.
    fill_share : array (p,) [1]
        Of the pumps.
    """

    node: str
    slope: FloatArray
    paths: tuple[str, ...]
    share: FloatArray
    fill_share: FloatArray
    groups: tuple[str, ...]
    kinds: tuple[type[Element], ...]

    def falling(self) -> FloatArray:
        """Where the pressure falls as speed rises, of shape (p,)."""
        return np.asarray(self.slope < 0.0)

    def by_group(self) -> dict[str, FloatArray]:
        """What each group of paths adds, each of shape (p,)."""
        found: dict[str, FloatArray] = {}
        for at, group in enumerate(self.groups):
            found[group] = found.get(group, np.zeros(len(self.slope))) + self.share[:, at]
        return found

    def reasons(self) -> tuple[str, ...]:
        """Why pressure falls at each point: `filling`, or the group that takes most; empty where it rises."""
        groups = {name: share for name, share in self.by_group().items() if name not in self._pump_groups()}
        said = []
        for point in range(len(self.slope)):
            if not self.slope[point] < 0.0:
                said.append("")
            elif self.fill_share[point] < FILLED:
                said.append("filling")
            else:
                said.append(min(groups, key=lambda name: float(groups[name][point])))
        return tuple(said)

    def _pump_groups(self) -> set[str]:
        return {group for group, kind in zip(self.groups, self.kinds, strict=True) if issubclass(kind, Pump)}


def speed_effects(solution: Solution, node: str, *, sample: int = 0) -> SpeedEffects:
    r"""Take apart the slope of a node's pressure by the speed of the crank.

    Parameters
    ----------
    solution : Solution
        A solved circuit.
    node : str
        Where the pressure is looked at, such as where the gauge sits.
    sample : int
        Which of the samples.

    Returns
    -------
    SpeedEffects
        The slope at each operating point, and what each path adds to it.

    Raises
    ------
    OutOfDomainError
        If the circuit has no such node.

    Notes
    -----
    By the implicit function theorem the slope is a sum over the paths j,

    .. math:: \frac{dp}{d\omega} = -\left(\frac{\partial F}{\partial p}\right)^{-1}
              \sum_j \frac{\partial F}{\partial q_j} \frac{\partial q_j}{\partial \omega}

    each with the pressures held; the slopes of the laws by speed are differences of fourth order.

    References
    ----------
    [krantz2013] implicit function theorem

    Examples
    --------
    A pump in front of a hole: all of the slope comes from the pump.

    >>> from fitwright.physics.network.circuit import Circuit, Path, SUMP
    >>> from fitwright.physics.network.elements import Orifice, Pump
    >>> paths = (Path("pump", SUMP, "gallery", Pump(1.59e-6)), Path("jet", "gallery", SUMP, Orifice(2e-3)))
    >>> found = solve(Circuit(paths), Oil(105e-6, 11.4e-6, 880.0), angular_speeds=94.2,
    ...               oil_temperatures=363.15)
    >>> effects = speed_effects(found, "gallery")
    >>> (effects.share[0] / effects.slope[0]).round(6).tolist()
    [1.0, 0.0]
    """
    from fitwright.physics.network.kernels.states import speed_shares

    compiled, circuit = solution.compiled, solution.circuit
    if node not in circuit.nodes:
        raise OutOfDomainError("node", repr(node), "a node of the circuit")
    shares = np.full((solution.angular_speeds.size, compiled.layout.parts.shape[0]), np.nan)
    speed_shares(
        compiled.layout,
        int(compiled.node_places[circuit.nodes.index(node)]),
        solution.angular_speeds,
        solution.oil_temperatures,
        solution.parameters[sample].copy(),
        oil_parameters(solution.oil),
        solution.place_pressures[sample].copy(),
        shares,
    )
    by_path = np.add.reduceat(shares, compiled.path_parts, axis=1)
    pumps = machines(solution).pumps
    filled = pumps.filled_flow[sample].sum(axis=-1)
    swept = pumps.theoretical_flow[sample].sum(axis=-1)
    return SpeedEffects(
        node,
        by_path.sum(axis=1),
        tuple(path.name for path in circuit.paths),
        by_path,
        np.divide(filled, swept, out=np.ones_like(swept), where=swept > 0.0),
        tuple(path.group or path.name for path in circuit.paths),
        tuple(type(path.element) for path in circuit.paths),
    )


def filling_limit_speed(
    compiled: CompiledCircuit,
    oil: Oil,
    *,
    oil_temperature: Kelvin,
    lowest: RadianPerSecond,
    highest: RadianPerSecond,
    fill_share: Number = FILLED,
) -> RadianPerSecond | None:
    """Speed of the crank from which on the pump's chambers no longer fill.

    Parameters
    ----------
    compiled : CompiledCircuit
        The circuit, with its own parameters.
    oil : Oil
        The oil.
    oil_temperature : float [K]
        Of the oil.
    lowest, highest : float [rad/s]
        Range that is looked through.
    fill_share : float [1]
        Share of the theoretical flow that is still called filled.

    Returns
    -------
    float [rad/s] or None
        The speed; the lowest where filling is short from there on, None where it is not up to the highest.

    Raises
    ------
    NotConvergedError
        If a point on the way was not solved.

    Notes
    -----
    Halving between the first of 33 even speeds that does not fill and the one before it.

    References
    ----------
    [ivantysyn2001] filling of displacement pumps

    Examples
    --------
    >>> from fitwright.physics.network.circuit import Circuit, Path, SUMP
    >>> from fitwright.physics.network.compile import compile_circuit
    >>> from fitwright.physics.network.elements import Orifice, Pump
    >>> pump = Pump(1.59e-6, release_gauge_pressure=-0.4e5, filling_area=1e-4)
    >>> paths = (Path("pump", SUMP, "gallery", pump), Path("jet", "gallery", SUMP, Orifice(9e-3)))
    >>> found = filling_limit_speed(compile_circuit(Circuit(paths)), Oil(105e-6, 11.4e-6, 880.0),
    ...                             oil_temperature=363.15, lowest=50.0, highest=900.0)
    >>> round(found)
    496
    """
    speeds = np.linspace(lowest, highest, 33)
    short = np.flatnonzero(_fill(compiled, oil, speeds, oil_temperature) < fill_share)
    if short.size == 0:
        return None
    if short[0] == 0:
        return lowest
    low, high = float(speeds[short[0] - 1]), float(speeds[short[0]])
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        if _fill(compiled, oil, np.array([middle]), oil_temperature)[0] < fill_share:
            high = middle
        else:
            low = middle
    return 0.5 * (low + high)


def _fill(compiled: CompiledCircuit, oil: Oil, speeds: FloatArray, temperature: Kelvin) -> FloatArray:
    found = solve(compiled, oil, angular_speeds=speeds, oil_temperatures=temperature)
    found.require_converged()
    share: FloatArray = machines(found).pumps.fill_share[0].min(axis=-1)
    return share
