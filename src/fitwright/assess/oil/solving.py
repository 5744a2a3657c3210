"""The circuit of a build solved: best estimates at many points, and samples of engines that agree with it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cached_property
from os import cpu_count
from typing import Final

import numpy as np
from numpy.typing import NDArray

from fitwright.assess.oil.bands import Strata
from fitwright.assess.oil.draws import Pool, pool_of
from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.posed import PosedCircuit
from fitwright.assess.oil.what_if import WhatIf
from fitwright.physics.network.circuit import Circuit
from fitwright.physics.network.compile import CompiledCircuit, compile_circuit
from fitwright.physics.network.derivatives import derivatives
from fitwright.physics.network.solution import Solution
from fitwright.physics.network.solve import solve
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.oil import Oil
from fitwright.quantity import FloatArray

SMALLEST_GAP: Final = 1e-6
"""No what-if closes a clearance below this [m]."""


def on_every_core(work: Callable[[int], None], pieces: int) -> None:
    """Do pieces of work at once, as many as there are cores; compiled code lets the others run."""
    with ThreadPoolExecutor(cpu_count() or 1) as workers:
        list(workers.map(work, range(pieces)))


@dataclass(frozen=True, eq=False)
class ReadyCircuit:
    """A circuit that is ready, whatever oil it is filled with.

    Attributes
    ----------
    posed : PosedCircuit
        With a circuit.
    """

    posed: PosedCircuit

    @cached_property
    def circuit(self) -> Circuit:
        """The network."""
        assert self.posed.circuit is not None  # noqa: S101 - made only of one that is ready
        return self.posed.circuit

    @cached_property
    def compiled(self) -> CompiledCircuit:
        """The network as arrays."""
        return compile_circuit(self.circuit)

    @cached_property
    def measured(self) -> tuple[str, ...]:
        """Parameters whose value is that of a fit or dimension, in the order of the pool."""
        return tuple(name for name in self.posed.sizes if name in self.circuit.parameters)

    @cached_property
    def columns(self) -> NDArray[np.intp]:
        """Where they stand among the parameters."""
        return self.posed.columns(self.measured)

    @cached_property
    def pool(self) -> Pool:
        """The engines that agree with what is known."""
        return pool_of([self.posed.sizes[name] for name in self.measured])

    @cached_property
    def places(self) -> Mapping[str, int]:
        """Where each parameter stands."""
        return {name: at for at, name in enumerate(self.circuit.parameter_names)}


@dataclass(frozen=True, eq=False)
class BuildCircuit:
    """A circuit that is ready, with the oil that it is filled with."""

    ready: ReadyCircuit
    oil: Oil

    @property
    def posed(self) -> PosedCircuit:
        """The circuit as it was asked about."""
        return self.ready.posed

    @property
    def circuit(self) -> Circuit:
        """The network."""
        return self.ready.circuit

    @property
    def measured(self) -> tuple[str, ...]:
        """Parameters whose value is that of a fit or dimension, in the order of the pool."""
        return self.ready.measured

    @property
    def pool(self) -> Pool:
        """The engines that agree with what is known."""
        return self.ready.pool

    def values(self, temperatures: FloatArray, what_if: WhatIf) -> FloatArray:
        """Best values of all parameters at oil temperatures [K], shape (p, k)."""
        found = np.tile(self.circuit.nominal(), (len(temperatures), 1))
        found[:, self.ready.columns] = self.pool.best_at(temperatures)
        return self.changed(found, what_if)

    def changed(self, values: FloatArray, what_if: WhatIf) -> FloatArray:
        """The same parameters, shape (..., k), as a what-if has them; `values` are changed in place.

        Raises
        ------
        OutOfDomainError
            If a valve would be fully open below the pressure at which it begins to open.
        """
        for name, value in what_if.sizes.items():
            self._put(values, name, value, what_if)
        for name in what_if.sizes:
            self._check_valve(values, name)
        for group, change in what_if.clearance_changes.items():
            for name in self.posed.groups[group]:
                at = self._column(name)
                moved = values[..., at] + change / self.posed.sense_factors.get(name, 1.0)
                values[..., at] = np.maximum(moved, SMALLEST_GAP)
        for preload in {self.preload_of(relief) for relief in self.posed.sheet.reliefs}:  # two may share one
            values[..., self._column(preload)] += what_if.shim
        for relief in self.posed.sheet.reliefs.values():
            values[..., self._column(f"reliefs.{relief.id}.seat_leak_lift")] += what_if.seat_leak_lift
        for name in self.circuit.parameters:
            if name.startswith("pumps.") and name.endswith(".speed_ratio"):
                values[..., self._column(name)] *= what_if.pump_speed_factor
        return values

    def _put(self, values: FloatArray, name: str, value: float, what_if: WhatIf) -> None:
        """Put an amount; a valve that opens at another pressure is fully open so much later too."""
        column, full = self._column(name), _fully_open(name)
        if full in self.ready.places and full not in what_if.sizes:
            values[..., self._column(full)] += value - values[..., column]
        values[..., column] = value

    def _check_valve(self, values: FloatArray, name: str) -> None:
        begins = name.replace("full_pressure", "opening_pressure")
        full = _fully_open(begins)
        if begins not in self.ready.places or full not in self.ready.places:
            return
        opening = float(np.max(values[..., self._column(begins)]))
        wide = float(np.min(values[..., self._column(full)]))
        if wide <= opening:
            raise OutOfDomainError(
                full, wide, f"above the pressure at which it begins to open, {opening:g} Pa"
            )

    def preload_of(self, relief: str) -> str:
        """The parameter that is the preload length of a relief valve."""
        preload = self.posed.sheet.reliefs[relief].preload_length
        return getattr(preload, "subject", f"reliefs.{relief}.preload_length")

    def solved(
        self, points: Sequence[OilPoint], what_if: WhatIf, values: FloatArray | None = None
    ) -> Solution:
        """All points solved; for samples with `values` of shape (s, p, k) or (s, 1, k)."""
        speeds, temperatures = speeds_and_temperatures(points, what_if)
        given = self.values(temperatures, what_if)[np.newaxis] if values is None else values
        return solve(
            self.ready.compiled,
            self.oil,
            angular_speeds=speeds,
            oil_temperatures=temperatures,
            parameters=given,
            spread=on_every_core,
        )

    def slopes(self, solution: Solution, names: Sequence[str]) -> FloatArray:
        """Exact derivatives of the pressure at the gauge by parameters, shape (p, len(names))."""
        found = derivatives(solution, parameters=names)
        gauge = self.circuit.nodes.index(self.posed.sheet.gauge)
        return found.gauge_pressure[:, gauge][:, self.posed.columns(tuple(names))]

    def sampled(
        self, points: Sequence[OilPoint], what_if: WhatIf, best: Solution
    ) -> tuple[Solution, list[Strata]]:
        """Each point solved for engines chosen by what they do to the pressure at the gauge there."""
        _, temperatures = speeds_and_temperatures(points, what_if)
        slopes = np.nan_to_num(self.slopes(best, self.measured))
        middle = self.pool.best_at(temperatures)
        chosen = [
            Strata.of((self.pool.at(float(each)) - middle[at]) @ slopes[at])
            for at, each in enumerate(temperatures)
        ]
        values = np.repeat(self.values(temperatures, WhatIf())[np.newaxis], len(chosen[0].rows), axis=0)
        for at, each in enumerate(temperatures):
            values[:, at, self.ready.columns] = self.pool.at(float(each), chosen[at].rows)
        return self.solved(points, what_if, self.changed(values, what_if)), chosen

    def _column(self, name: str) -> int:
        return self.ready.places[name]


def _fully_open(name: str) -> str:
    """The parameter of full opening that goes with one of a valve's opening; none for others."""
    opening = "opening_pressure"
    return f"{name.removesuffix(opening)}full_pressure" if name.endswith(opening) else ""


def speeds_and_temperatures(points: Sequence[OilPoint], what_if: WhatIf) -> tuple[FloatArray, FloatArray]:
    """Speeds of the crank [rad/s] and oil temperatures [K] of points, as a what-if has them."""
    speeds = np.array([each.angular_speed for each in points])
    temperatures = np.array([each.oil_temperature + what_if.temperature_change for each in points])
    return speeds, temperatures
