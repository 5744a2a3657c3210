"""Node pressures and path flows at which all flows balance."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeAlias

import numpy as np

from fitwright.physics.network.circuit import Circuit
from fitwright.physics.network.compile import CompiledCircuit, compile_circuit
from fitwright.physics.network.ordering import IntArray
from fitwright.physics.network.solution import Solution
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.oil import Oil, oil_parameters
from fitwright.quantity import FloatArray, Kelvins, Number, Numbers, RadiansPerSecond

MASS_TOLERANCE = 1e-9
"""Largest imbalance of any node over the flow of the pump for which a point counts as solved."""

LARGEST_ITERATIONS = 60
PIECES = 4

Spread: TypeAlias = Callable[[Callable[[int], None], int], None]
"""Does pieces of work: `spread(work, pieces)` calls `work(0)` to `work(pieces - 1)`, perhaps at once."""


def one_after_the_other(work: Callable[[int], None], pieces: int) -> None:
    """Do the pieces in the thread that asks.

    Parameters
    ----------
    work : callable
        Does one piece, by its number.
    pieces : int
        How many there are.
    """
    for piece in range(pieces):
        work(piece)


def solve(
    circuit: Circuit | CompiledCircuit,
    oil: Oil,
    *,
    angular_speeds: RadiansPerSecond,
    oil_temperatures: Kelvins,
    parameters: Numbers | None = None,
    tolerance: Number = MASS_TOLERANCE,
    largest_iterations: int = LARGEST_ITERATIONS,
    spread: Spread = one_after_the_other,
) -> Solution:
    r"""Solve a circuit at operating points, for samples of its parameters.

    Parameters
    ----------
    circuit : Circuit or CompiledCircuit
        The circuit; compile it once where it is solved more than once.
    oil : Oil
        The oil.
    angular_speeds : array_like [rad/s], shape (p)
        Of the crank, zero or more.
    oil_temperatures : array_like [K], shape (p)
        Of the oil that the pump delivers; broadcast with the speeds.
    parameters : array_like [1], shape (k), (s, 1, k), (1, p, k) or (s, p, k), or None
        Values [SI] in the order of `Circuit.parameter_names`; None takes the circuit's own.
    tolerance : float [1]
        Largest imbalance of a node over the pumps' flow.
    largest_iterations : int
        Newton steps at most in one attempt.
    spread : callable
        Does pieces of the work; one that uses threads makes use of more than one core.

    Returns
    -------
    Solution
        Pressures, flows and, point by point, whether they balance. Where they do not they are NaN.

    Raises
    ------
    OutOfDomainError
        If a speed is negative, a temperature not above zero, or the parameters have another shape.

    Notes
    -----
    At every node what flows in flows out,

    .. math:: F_i(p) = \sum_j q_j(p_{u_j}, p_{d_j}) = 0

    by Newton's method in the node pressures, with steps halved until the summed imbalance falls. A flow
    never falls with its upstream and never rises with its downstream pressure: the matrix is an M-matrix
    by columns, which needs no pivoting. Where Newton's method stops, implicit steps in pseudo-time with
    growing length follow; where these stop, the speed is raised from a low one.

    References
    ----------
    [kelley2003] damped Newton's method, pseudo-transient continuation
    [george1981] sparse elimination

    Examples
    --------
    A pump of 10 cm3 a turn at 900 rev/min through a hole of 3.5 mm:

    >>> from fitwright.physics.network.circuit import Path, SUMP
    >>> from fitwright.physics.network.elements import Orifice, Pump
    >>> paths = (Path("pump", SUMP, "gallery", Pump(1.59e-6)),
    ...          Path("jet", "gallery", SUMP, Orifice(3.5e-3)))
    >>> found = solve(Circuit(paths), Oil(105e-6, 11.4e-6, 880.0), angular_speeds=[94.2],
    ...               oil_temperatures=363.15)
    >>> found.gauge_pressure.shape, round(float(found.pressure_at("gallery")[0, 0]) / 1e5, 2)
    ((1, 1, 1), 2.62)
    """
    compiled = circuit if isinstance(circuit, CompiledCircuit) else compile_circuit(circuit)
    speeds, temperatures = _points(angular_speeds, oil_temperatures)
    values = _parameters(compiled.circuit, parameters, speeds.size)
    order = _to_and_fro(speeds, temperatures)
    pieces = np.array_split(order, min(PIECES, max(speeds.size, 1)))
    run = _Run(compiled, speeds, temperatures, values, oil_parameters(oil), tolerance, largest_iterations)
    spread(lambda piece: run.solve(pieces[piece]), len(pieces))
    converged = run.residual <= tolerance
    run.pressures[~converged], run.flows[~converged] = np.nan, np.nan
    return Solution(
        compiled,
        oil,
        speeds,
        temperatures,
        values,
        run.pressures,
        run.flows,
        converged,
        run.steps,
        run.residual,
        tolerance,
    )


class _Run:
    """One call of `solve`: what is given, and the results that its pieces fill."""

    def __init__(
        self,
        compiled: CompiledCircuit,
        speeds: FloatArray,
        temperatures: FloatArray,
        values: FloatArray,
        oil: FloatArray,
        *limits: float,
    ) -> None:
        self.layout, self.speeds, self.temperatures = compiled.layout, speeds, temperatures
        self.values, self.oil = values, oil
        self.tolerance, self.limit = limits[0], int(limits[1])
        shape, nodes = values.shape[:2], compiled.layout.diagonal.size
        self.pressures = np.empty((*shape, nodes))
        self.flows = np.empty((*shape, compiled.layout.parts.shape[0]))
        self.steps: IntArray = np.zeros(shape, dtype=np.int64)
        self.residual = np.empty(shape)

    def solve(self, points: IntArray) -> None:
        """Solve some points for all samples: first the middle of the samples, then each from there."""
        from fitwright.physics.network.kernels.points import solve_points, solve_samples

        given: tuple[Any, ...] = (self.layout, points, self.speeds, self.temperatures)
        found: tuple[Any, ...] = (self.pressures, self.flows, self.steps, self.residual)
        limits: tuple[Any, ...] = (self.oil, self.tolerance, self.limit)
        if len(self.values) == 1:
            solve_points(*given, self.values[0], *limits, *(each[0] for each in found))  # type: ignore[call-arg]
            return
        middle = self.values[0] + (self.values - self.values[0]).mean(axis=0)
        room = tuple(np.empty_like(each[0]) for each in found)
        solve_points(*given, middle, *limits, *room)  # type: ignore[call-arg]
        pressures, _, _, residual = room
        pressures[~(residual <= self.tolerance)] = np.nan
        self.pressures[:, points] = pressures[points]
        slopes = self._slopes(points, middle, pressures)
        solve_samples(*given, self.values, *limits, middle, slopes, *found)  # type: ignore[call-arg]

    def _slopes(self, points: IntArray, middle: FloatArray, pressures: FloatArray) -> FloatArray:
        """Slopes (p, k, n) of the middle's pressures by the parameters that vary between samples."""
        from fitwright.physics.network.kernels.points import slopes_of_points

        varied = (self.values != self.values[0]).any(axis=(0, 1)).astype(np.float64)
        shape = (*middle.shape, pressures.shape[1])
        slopes, flow_slopes = np.zeros(shape), np.zeros((*middle.shape, self.flows.shape[2]))
        slopes_of_points(
            self.layout,
            points,
            self.speeds,
            self.temperatures,
            middle,
            varied,
            self.oil,
            pressures,
            slopes,
            flow_slopes,
        )
        return slopes


def _to_and_fro(speeds: FloatArray, temperatures: FloatArray) -> IntArray:
    """Order of the points by temperature, and at each by speed, rising and falling by turns."""
    _, row = np.unique(temperatures, return_inverse=True)
    order: IntArray = np.lexsort((np.where(row % 2 == 0, speeds, -speeds), row)).astype(np.int64)
    return order


def _points(angular_speeds: RadiansPerSecond, oil_temperatures: Kelvins) -> tuple[FloatArray, FloatArray]:
    speeds, temperatures = np.broadcast_arrays(
        np.atleast_1d(np.asarray(angular_speeds, dtype=np.float64)),
        np.atleast_1d(np.asarray(oil_temperatures, dtype=np.float64)),
    )
    if speeds.ndim != 1:
        raise OutOfDomainError("angular_speeds", f"of shape {speeds.shape}", "one row of operating points")
    if not ((speeds >= 0.0) & np.isfinite(speeds)).all():
        raise OutOfDomainError("angular_speeds", angular_speeds, "zero or more")
    if not ((temperatures > 0.0) & np.isfinite(temperatures)).all():
        raise OutOfDomainError("oil_temperatures", oil_temperatures, "above zero kelvin")
    return np.array(speeds), np.array(temperatures)


def _parameters(circuit: Circuit, parameters: Numbers | None, points: int) -> FloatArray:
    values = circuit.nominal() if parameters is None else np.asarray(parameters, dtype=np.float64)
    names = len(circuit.parameter_names)
    while values.ndim < 3:
        values = values[np.newaxis]
    if values.ndim > 3 or values.shape[2] != names or values.shape[1] not in (1, points):
        raise OutOfDomainError(
            "parameters",
            f"of shape {values.shape}",
            f"(samples, points or 1, {names}) as the circuit names them",
        )
    if not np.isfinite(values).all():
        raise OutOfDomainError("parameters", "not finite in places", "finite")
    return np.array(np.broadcast_to(values, (values.shape[0], points, names)), order="C")
