"""The balance of an oil circuit written a second time: plain Python, dictionaries, no compiled circuit.

It reads the same description and calls nothing of the solver: own laws where they are short, the public
functions of passages, bearings and relief valve where they are not. Pressures: `scipy.optimize.root`.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import root

from fitwright.physics.bearings.supply import bearing_supply
from fitwright.physics.network.circuit import SUMP, Circuit
from fitwright.physics.network.elements import (
    AnnularLeak,
    Bearing,
    ChainTensioner,
    Cooler,
    CrankDrilling,
    Element,
    Filter,
    Jet,
    LaminarResistance,
    Orifice,
    Pipe,
    Pump,
    Relief,
    SlotLeak,
)
from fitwright.physics.network.sizes import Named, Size
from fitwright.physics.oil.oil import Oil, density, dynamic_viscosity
from fitwright.physics.passages.orifices import orifice_flow
from fitwright.physics.passages.pipes import pipe_flow
from fitwright.physics.pump.relief import relief_flow

Law = Callable[[float, float], float]


class Equations:
    """All flows of a circuit at one operating point, as functions of the pressures."""

    def __init__(
        self,
        circuit: Circuit,
        oil: Oil,
        angular_speed: float,
        temperature: float,
        parameters: dict[str, float] | None = None,
    ) -> None:
        self.values = {**circuit.parameters, **(parameters or {})}
        self.oil, self.speed, self.temperature = oil, angular_speed, temperature
        self.rho = float(density(oil, temperature))
        self.mu = float(dynamic_viscosity(oil, temperature))
        self.pieces: list[tuple[str, str, str, Law]] = []
        for path in circuit.paths:
            parts = path.element.parts()
            ends = [path.upstream, *(f"{path.name}/{at}" for at in range(1, len(parts))), path.downstream]
            for at, part in enumerate(parts):
                self.pieces.append((path.name, ends[at], ends[at + 1], self._law(part)))
        names = [node for _, up, down, _ in self.pieces for node in (up, down) if node != SUMP]
        self.nodes = list(dict.fromkeys(names))

    def _of(self, size: Size | None) -> float:
        assert size is not None
        return size.factor * self.values[size.parameter] + size.offset if isinstance(size, Named) else size

    def _law(self, element: Element) -> Law:
        for kind, make in _LAWS.items():
            if isinstance(element, kind):
                return make(self, element)
        raise TypeError(type(element))

    def flows(self, pressures: dict[str, float]) -> list[tuple[str, str, str, float]]:
        """Name of the path, both nodes and flow of each piece."""
        at = {**pressures, SUMP: 0.0}
        return [(name, up, down, law(at[up], at[down])) for name, up, down, law in self.pieces]

    def surplus(self, pressures: NDArray[np.float64]) -> NDArray[np.float64]:
        """Flow into each node less flow out of it."""
        found = dict.fromkeys(self.nodes, 0.0)
        for _, up, down, flow in self.flows(dict(zip(self.nodes, pressures.tolist(), strict=True))):
            if up != SUMP:
                found[up] -= flow
            if down != SUMP:
                found[down] += flow
        return np.array([found[node] for node in self.nodes])

    def solved(self, near: dict[str, float]) -> dict[str, float]:
        """Pressures at which all nodes balance, sought from some that are near."""
        start = np.array([near.get(node, np.nan) for node in self.nodes])
        for at, node in enumerate(self.nodes):
            if math.isnan(start[at]):  # inside a path: halfway between its ends
                _, up, down, _ = next(piece for piece in self.pieces if node in piece[1:3])
                start[at] = 0.5 * (near.get(up, 0.0) + near.get(down, 0.0))
        scale, flow = 1e5, 1e-4
        found = root(lambda x: self.surplus(x * scale) / flow, start / scale, method="hybr", tol=1e-13)
        assert np.abs(found.fun).max() < 1e-9, (found.message, np.abs(found.fun).max())
        return dict(zip(self.nodes, (found.x * scale).tolist(), strict=True))


def _step(value: float, first: float, last: float) -> float:
    share = min(max((value - first) / (last - first), 0.0), 1.0)
    return share**2 * (3.0 - 2.0 * share)


def _pipe(e: Equations, it: Pipe) -> Law:
    sizes = {
        "diameter": e._of(it.diameter),
        "length": e._of(it.length),
        "roughness": e._of(it.roughness),
        "loss_coefficient": e._of(it.loss_coefficient),
    }
    count = e._of(it.count)
    return lambda up, down: (
        count * float(pipe_flow(up - down, density=e.rho, dynamic_viscosity=e.mu, **sizes))
    )


def _hole(e: Equations, drop: float, diameter: float, coefficient: float) -> float:
    return float(
        orifice_flow(
            drop,
            diameter=diameter,
            density=e.rho,
            dynamic_viscosity=e.mu,
            discharge_coefficient=coefficient,
        )
    )


def _orifice(e: Equations, it: Orifice) -> Law:
    diameter, coefficient, count = e._of(it.diameter), e._of(it.discharge_coefficient), e._of(it.count)
    return lambda up, down: count * _hole(e, up - down, diameter, coefficient)


def _filter(e: Equations, it: Filter) -> Law:
    resistance, diameter = e._of(it.resistance), e._of(it.bypass_diameter)
    first, last = e._of(it.bypass_opening_pressure), e._of(it.bypass_full_pressure)

    def flow(up: float, down: float) -> float:
        drop = up - down
        past = _hole(e, drop, diameter, e._of(it.bypass_discharge_coefficient)) if diameter else 0.0
        return drop / (resistance * e.mu) + _step(drop, first, last) * past

    return flow


def _cooler(e: Equations, it: Cooler) -> Law:
    warm = _step(e.temperature, e._of(it.opening_temperature), e._of(it.full_temperature))
    leak, resistance = e._of(it.leak_share), e._of(it.resistance)

    def flow(up: float, down: float) -> float:
        drop = up - down
        core = max(leak, 0.0) + (1.0 - leak) * warm
        shut = leak + (1.0 - leak) * (1.0 - warm)
        valve = _step(drop, e._of(it.bypass_opening_pressure), e._of(it.bypass_full_pressure))
        past = _hole(e, drop, e._of(it.bypass_diameter), e._of(it.bypass_discharge_coefficient))
        return core * drop / (resistance * e.mu) + (shut + (1.0 - shut) * valve) * past

    return flow


def _jet(e: Equations, it: Jet) -> Law:
    first, last = e._of(it.opening_pressure), e._of(it.full_pressure)
    diameter, coefficient, count = e._of(it.diameter), e._of(it.discharge_coefficient), e._of(it.count)

    def flow(up: float, down: float) -> float:
        share = _step(up - down, first, last) if first > 0.0 else 1.0
        return count * share * _hole(e, up - down, diameter, coefficient)

    return flow


def _bearing(e: Equations, it: Bearing) -> Law:
    load = e._of(it.load) + e._of(it.load_growth) * e.speed**2
    clearance, speed, count = e._of(it.radial_clearance), e.speed * e._of(it.speed_ratio), e._of(it.count)

    def flow(up: float, down: float) -> float:
        found = bearing_supply(
            it.bearing,
            it.steady_curves,
            e.oil,
            gauge_pressure=up - down,
            supply_temperature=e.temperature,
            angular_speed=speed,
            load=load,
            radial_clearance=clearance,
        )
        return count * found.flow

    return flow


def _crank(e: Equations, it: CrankDrilling) -> Law:
    sizes = {
        "diameter": e._of(it.diameter),
        "length": e._of(it.length),
        "roughness": e._of(it.roughness),
        "loss_coefficient": e._of(it.entry_loss_coefficient) + e._of(it.loss_coefficient),
    }
    squares = it.station_radii[-1] ** 2 - it.station_radii[0] ** 2
    thrown = 0.5 * e.rho * (e.speed * e._of(it.speed_ratio)) ** 2 * squares
    count = e._of(it.fed_share) * e._of(it.count)
    return lambda up, down: (
        count * float(pipe_flow(up - down + thrown, density=e.rho, dynamic_viscosity=e.mu, **sizes))
    )


def _gap(e: Equations, diameter: float, clearance: float, length: float, eccentricity: float) -> float:
    """Conductance of an annulus."""
    return math.pi * diameter * clearance**3 * (1.0 + 1.5 * eccentricity**2) / (12.0 * e.mu * length)


def _annulus(e: Equations, it: AnnularLeak) -> Law:
    conductance = _gap(
        e, e._of(it.diameter), e._of(it.radial_clearance), e._of(it.length), e._of(it.eccentricity_ratio)
    )
    return lambda up, down: e._of(it.count) * conductance * (up - down)


def _slot(e: Equations, it: SlotLeak) -> Law:
    conductance = e._of(it.width) * e._of(it.gap) ** 3 / (12.0 * e.mu * e._of(it.length))
    return lambda up, down: e._of(it.count) * conductance * (up - down)


def _tensioner(e: Equations, it: ChainTensioner) -> Law:
    conductance = _gap(
        e,
        e._of(it.plunger_diameter),
        e._of(it.radial_clearance),
        e._of(it.land_length),
        e._of(it.eccentricity_ratio),
    )
    vent, coefficient = e._of(it.vent_diameter), e._of(it.vent_discharge_coefficient)
    return lambda up, down: (
        conductance * (up - down) + (_hole(e, up - down, vent, coefficient) if vent else 0.0)
    )


def _laminar(e: Equations, it: LaminarResistance) -> Law:
    return lambda up, down: e._of(it.count) * (up - down) / (e._of(it.resistance) * e.mu)


def _pump(e: Equations, it: Pump) -> Law:
    speed = e.speed * e._of(it.speed_ratio)
    swept = e._of(it.displacement_per_radian) * speed
    area = e._of(it.filling_area)

    def flow(up: float, down: float) -> float:
        head = up - e._of(it.release_gauge_pressure) - e.rho * speed**2 * e._of(it.centrifugal_area)
        above = 0.5 * (head + math.sqrt(head**2 + 4.0 * 500.0**2))
        most = area * math.sqrt(2.0 * above / e.rho)
        filled: float = (swept**-8 + most**-8) ** -0.125
        for leak in it.leaks:
            gap = e._of(leak.clearance)
            filled -= leak.path.pressure_coefficient * gap**3 * (down - up) / e.mu
            filled -= leak.path.drag_coefficient * gap * speed
        return filled

    return flow


def _relief(e: Equations, it: Relief) -> Law:
    valve = replace(
        it.valve,
        preload_length=e._of(it.preload_length),
        plunger_radial_clearance=e._of(it.plunger_radial_clearance),
        seat_leak_lift=e._of(it.seat_leak_lift),
        spring_rate=e._of(it.spring_rate),
    )
    return lambda up, down: float(relief_flow(valve, up - down, density=e.rho, dynamic_viscosity=e.mu).flow)


_LAWS: dict[type[Element], Callable[..., Law]] = {
    Pipe: _pipe,
    Orifice: _orifice,
    Filter: _filter,
    Cooler: _cooler,
    Jet: _jet,
    Bearing: _bearing,
    CrankDrilling: _crank,
    AnnularLeak: _annulus,
    SlotLeak: _slot,
    ChainTensioner: _tensioner,
    LaminarResistance: _laminar,
    Pump: _pump,
    Relief: _relief,
}
