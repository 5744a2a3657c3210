"""The oil circuit of the five-cylinder example, with 61 nodes and 23 bearings: many points, many samples."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from numba import njit
from scipy.optimize import root

from benchmarks.figure import Figure, timed
from fitwright.physics.network.compile import CompiledCircuit, compile_circuit
from fitwright.physics.network.kernels.layout import fill_sizes, oil_at
from fitwright.physics.network.kernels.newton import measure, room
from fitwright.physics.network.solution import Solution
from fitwright.physics.network.solve import solve
from fitwright.physics.oil.oil import oil_parameters
from tests.support.network_engines import THICK, corrie, turning

RUNS = 7
SPEEDS, TEMPERATURES = (
    each.ravel()
    for each in np.meshgrid(turning(*np.linspace(200.0, 9000.0, 20)), np.linspace(263.15, 423.15, 10))
)


def figures() -> Iterator[Figure]:
    """Points, samples, and the same points by a general solver on the same compiled residual."""
    compiled = compile_circuit(corrie())
    nodes = compiled.layout.diagonal.size
    found = _solved(compiled)
    ours = min(timed(lambda: _solved(compiled), RUNS, warm_up=2))
    where = f"{nodes} nodes, 200 to 9000 rev/min, -10 to 150 C, least of {RUNS} runs, 2 threads"
    yield Figure("200 points of the oil circuit", 1e3 * ours, "ms", where, most=50.0)
    yield Figure(
        "largest imbalance of these over the pump's flow", found.mass_residual.max(), "", where, most=1e-9
    )
    seconds, solved = _by_a_general_solver(compiled, found)
    yield Figure(
        "the same by scipy's hybr, over that",
        seconds / ours,
        "times",
        f"same residual, one thread, from the point before; it solved {solved} of {SPEEDS.size}",
        least=5.0,
    )
    samples = _samples(compiled)
    many = _solved(compiled, parameters=samples)
    processor = time.process_time()
    taken = min(timed(lambda: _solved(compiled, parameters=samples), 3, warm_up=0))
    processor = (time.process_time() - processor) / 3.0
    yield Figure(
        "200 points of the oil circuit with 200 samples each",
        taken,
        "s",
        f"{int(many.converged.sum())} of 40,000 solved, clearances 4 % about their values;"
        f" {processor:.1f} s of processor time, 2 threads",
        most=4.0,
    )


def _in_two_threads(work: Callable[[int], None], pieces: int) -> None:
    with ThreadPoolExecutor(2) as pool:
        list(pool.map(work, range(pieces)))


def _solved(compiled: CompiledCircuit, **options: np.ndarray) -> Solution:
    return solve(
        compiled,
        THICK,
        angular_speeds=SPEEDS,
        oil_temperatures=TEMPERATURES,
        spread=_in_two_threads,
        **options,
    )


def _samples(compiled: CompiledCircuit) -> np.ndarray:
    """Samples of all clearances, the same at every point."""
    circuit, chance = compiled.circuit, np.random.default_rng(1)
    drawn = np.tile(circuit.nominal(), (200, 1, 1))
    for at, name in enumerate(circuit.parameter_names):
        if name.endswith("clearance") or name in ("pump.end", "pump.tip", "pump.body", "relief.plunger"):
            drawn[:, 0, at] *= 1.0 + 0.04 * chance.standard_normal(200)
    return drawn


@njit(cache=True)
def _surplus(layout, pressures, parameters, point, oil, work):
    speed, temperature = point
    fill_sizes(layout, parameters, work.sizes)
    common = parameters[layout.link_start.size - 1 :]
    _, _, pumped = measure(layout, pressures, oil_at(speed, temperature, common, oil, work.oil), work)
    return work.surplus / pumped


@njit(cache=True)
def _room(layout, oil):
    return room(layout, oil)


def _by_a_general_solver(compiled: CompiledCircuit, found: Solution) -> tuple[float, int]:
    """Seconds for all points, in the order of rising temperature and speed, and how many were solved."""
    layout, oil = compiled.layout, oil_parameters(THICK)
    parameters, work = compiled.circuit.nominal(), _room(layout, oil)
    near, solved = found.place_pressures[0, 0] / 1e5, 0
    _surplus(layout, near * 1e5, parameters, (SPEEDS[0], TEMPERATURES[0]), oil, work)
    begun = time.perf_counter()
    for point in zip(SPEEDS, TEMPERATURES, strict=True):

        def residual(x, point=point):
            return _surplus(layout, x * 1e5, parameters, point, oil, work)

        result = root(residual, near, method="hybr", options={"xtol": 1e-10})
        if np.abs(result.fun).max() <= 1e-9:
            solved, near = solved + 1, result.x
    return time.perf_counter() - begun, solved
