"""Derivatives of a circuit against differences of its whole solution."""

from functools import cache

import numpy as np
import pytest

from fitwright.physics.network.circuit import SUMP
from fitwright.physics.network.compile import compile_circuit
from fitwright.physics.network.derivatives import derivatives
from fitwright.physics.network.elements import LaminarResistance, Orifice, Pipe
from fitwright.physics.network.sizes import SPEED_FACTOR, TEMPERATURE_CHANGE, VISCOSITY_FACTOR, Named
from fitwright.physics.network.solve import solve
from tests.support.compare import absolute, verified
from tests.support.network_engines import STRAIGHT, THICK, brackengill, corrie, small, turning

ENGINES = {"five": (corrie, THICK), "eleven": (brackengill, STRAIGHT)}
# Changes that are held against the derivative: 0.01 mm of a clearance matters, not 1 m.
USUAL_CHANGE = {TEMPERATURE_CHANGE: 10.0, VISCOSITY_FACTOR: 0.1, SPEED_FACTOR: 0.1}


@cache
def compiled(engine):
    return compile_circuit(ENGINES[engine][0]())


def pressures(engine, speed, temperature, parameters):
    found = solve(
        compiled(engine),
        ENGINES[engine][1],
        angular_speeds=speed,
        oil_temperatures=temperature,
        parameters=parameters,
        tolerance=1e-12,
    )
    return found.gauge_pressure, found.flow


@pytest.mark.parametrize(
    "engine, per_minute, celsius",
    [("five", 900.0, 110.0), ("five", 6000.0, 115.0), ("five", 1500.0, 20.0), ("eleven", 600.0, 85.0)],
)
def test_each_derivative_is_the_slope_of_the_whole_solution(engine, per_minute, celsius):
    circuit, oil = compiled(engine).circuit, ENGINES[engine][1]
    speed, temperature = turning(per_minute)[0], celsius + 273.15
    found = derivatives(
        solve(compiled(engine), oil, angular_speeds=speed, oil_temperatures=temperature, tolerance=1e-12)
    )
    nominal = circuit.nominal()
    usual = np.array([USUAL_CHANGE.get(name, 0.1 * abs(value)) for name, value in circuit.parameters.items()])
    moved = np.flatnonzero(usual > 0.0)
    steps = 2e-3 * usual[moved]
    grid = np.tile(nominal, (4, moved.size, 1))
    for at, times in enumerate((-2.0, -1.0, 1.0, 2.0)):
        grid[at, np.arange(moved.size), moved] += times * steps
    pressure, flow = pressures(engine, np.full(moved.size, speed), temperature, grid)
    weights = np.array([1.0, -8.0, 8.0, -1.0]) / 12.0
    by_pressure = np.einsum("a,apn->pn", weights, pressure) / steps[:, np.newaxis]
    by_flow = np.einsum("a,apn->pn", weights, flow) / steps[:, np.newaxis]
    # In bar and litres per minute for the usual change of the parameter.
    scale = usual[moved, np.newaxis]
    verified(
        found.gauge_pressure[0][:, moved].T * scale / 1e5,
        by_pressure * scale / 1e5,
        by="differences of fourth order of the whole solution",
        tolerance=absolute(1e-6),
    )
    verified(
        found.flow[0][:, moved].T * scale * 6e4,
        by_flow * scale * 6e4,
        by="differences of fourth order of the whole solution",
        tolerance=absolute(1e-5),
    )


def test_a_seat_held_open_takes_nothing_at_first():
    """A cube law begins flat: that is why faults are solved, not read off the derivative."""
    found = solve(compiled("five"), THICK, angular_speeds=turning(900.0), oil_temperatures=383.15)
    slopes = derivatives(found, parameters=["relief.seat"])
    node = found.circuit.nodes.index("gallery 6")
    verified(slopes.of_pressure(node, "relief.seat") * 0.1e-3, [0.0], by="cube law", tolerance=absolute(1.0))


def test_closed_form():
    circuit = small(
        {
            "line": ("gallery", "end", LaminarResistance(Named("line"))),
            "leak": ("end", SUMP, LaminarResistance(Named("leak", 2.0, 1e10))),
        },
        {"line": 2e11, "leak": 3e11},
    )
    found = solve(circuit, THICK, angular_speeds=100.0, oil_temperatures=350.0)
    slopes = derivatives(found)
    gallery, end = found.gauge_pressure[0, 0]
    by_line = (gallery - end) / 2e11
    by_leak = 2.0 * end / (2.0 * 3e11 + 1e10)
    verified(
        slopes.gauge_pressure[0, :, :2],
        [[by_line, by_leak], [0.0, by_leak]],
        by="resistors in series",
        tolerance=absolute(1e-9 * by_leak),
    )
    verified(slopes.of_pressure(0, VISCOSITY_FACTOR), [gallery], by="all laminar", tolerance=1e-7)
    verified(slopes.of_pressure(0, SPEED_FACTOR), [gallery], by="all laminar", tolerance=1e-7)


def test_one_parameter_of_several_elements_and_only_those_asked_for():
    pipes = {name: ("gallery", SUMP, Pipe(Named("bore"), 0.2)) for name in ("one", "two")}
    found = solve(
        small({**pipes, "rest": ("gallery", SUMP, Orifice(Named("hole")))}, {"bore": 3e-3, "hole": 1e-3}),
        THICK,
        angular_speeds=100.0,
        oil_temperatures=350.0,
        tolerance=1e-12,
    )
    slopes = derivatives(found, parameters=["bore"])
    assert (slopes.gauge_pressure[..., 1:] == 0.0).all()
    twice = np.tile(found.circuit.nominal(), (2, 1))
    twice[:, 0] += [-1e-7, 1e-7]
    moved = solve(
        found.compiled,
        THICK,
        angular_speeds=100.0,
        oil_temperatures=350.0,
        parameters=twice[:, np.newaxis],
        tolerance=1e-12,
    )
    verified(
        slopes.of_pressure(0, "bore"),
        np.diff(moved.gauge_pressure[:, 0, 0]) / 2e-7,
        by="difference of the whole solution",
        tolerance=1e-5,
    )


def test_where_nothing_was_solved_there_is_no_derivative():
    found = solve(compiled("five"), THICK, angular_speeds=90.0, oil_temperatures=380.0, largest_iterations=1)
    assert np.isnan(derivatives(found).gauge_pressure).all()
