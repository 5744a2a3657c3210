"""What solving a circuit gives, with what it took and where it failed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.network.circuit import Circuit
from fitwright.physics.network.compile import CompiledCircuit
from fitwright.physics.network.ordering import IntArray
from fitwright.physics.numerics.errors import NotConvergedError
from fitwright.physics.oil.oil import Oil
from fitwright.quantity import FloatArray

BoolArray = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Solution:
    """Pressures and flows for s samples of the parameters at p operating points.

    Attributes
    ----------
    compiled : CompiledCircuit
        The circuit.
    oil : Oil
        The oil.
    angular_speeds, oil_temperatures : array (p,) [rad/s], [K]
        The operating points.
    parameters : array (s, p, k)
        Values in the order of `Circuit.parameter_names`.
    place_pressures : array (s, p, n) [Pa]
        Gauge pressures in the order of elimination, with the nodes inside paths.
    part_flows : array (s, p, m) [m3/s]
        Flows of all parts of the paths.
    converged : array (s, p)
        Whether every node balances within the tolerance; where not, pressures and flows are NaN.
    iterations : array (s, p)
        Newton steps, those of the fallbacks with them.
    mass_residual : array (s, p) [1]
        Largest imbalance of a node over the flow of the pumps, from the laws at the pressures stated.
    tolerance : float [1]
        Of the mass residual.
    """

    compiled: CompiledCircuit
    oil: Oil
    angular_speeds: FloatArray
    oil_temperatures: FloatArray
    parameters: FloatArray
    place_pressures: FloatArray
    part_flows: FloatArray
    converged: BoolArray
    iterations: IntArray
    mass_residual: FloatArray
    tolerance: float

    @property
    def circuit(self) -> Circuit:
        """The circuit that was solved."""
        return self.compiled.circuit

    @property
    def gauge_pressure(self) -> FloatArray:
        """Gauge pressure [Pa] (s, p, nodes), in the order of `Circuit.nodes`."""
        return self.place_pressures[..., self.compiled.node_places]

    @property
    def flow(self) -> FloatArray:
        """Flow [m3/s] (s, p, paths), in the order of `Circuit.paths`."""
        return self.part_flows[..., self.compiled.path_parts]

    def pressure_at(self, node: str) -> FloatArray:
        """Gauge pressure [Pa] (s, p) at a node; nothing at the sump."""
        if node not in self.circuit.nodes:
            return np.zeros(self.converged.shape)
        return self.place_pressures[..., self.compiled.node_places[self.circuit.nodes.index(node)]]

    def flow_in(self, path: str) -> FloatArray:
        """Flow [m3/s] (s, p) in a path."""
        return self.part_flows[..., self.compiled.path_parts[self.circuit.path_index(path)]]

    def of_points(self, points: Sequence[int]) -> Solution:
        """The same for some of the operating points only."""
        chosen = list(points)
        return replace(
            self,
            angular_speeds=self.angular_speeds[chosen],
            oil_temperatures=self.oil_temperatures[chosen],
            parameters=self.parameters[:, chosen],
            place_pressures=self.place_pressures[:, chosen],
            part_flows=self.part_flows[:, chosen],
            converged=self.converged[:, chosen],
            iterations=self.iterations[:, chosen],
            mass_residual=self.mass_residual[:, chosen],
        )

    def require_converged(self) -> None:
        """Raise `NotConvergedError` unless every point of every sample converged."""
        if not self.converged.all():
            failed = ~self.converged
            worst = self.mass_residual[failed]
            raise NotConvergedError(
                "balance of the circuit's flows",
                int(self.iterations[failed].max()),
                float(np.inf if np.isnan(worst).any() else worst.max()),
                self.tolerance,
            )
