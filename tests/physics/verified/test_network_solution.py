"""Pressures and flows of circuits against a second writing of their equations, and against closed forms."""

import math
from functools import cache

import numpy as np
import pytest

from fitwright.physics.network.circuit import SUMP
from fitwright.physics.network.compile import compile_circuit
from fitwright.physics.network.elements import (
    Cooler,
    Filter,
    Jet,
    LaminarResistance,
    Orifice,
    Pipe,
    Pump,
    Series,
    SlotLeak,
)
from fitwright.physics.network.sizes import COMMON, Named
from fitwright.physics.network.solve import solve
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.oil.oil import density, dynamic_viscosity
from tests.support.compare import absolute, verified
from tests.support.network_engines import STRAIGHT, THICK, brackengill, corrie, small, turning
from tests.support.network_equations import Equations

ENGINES = {"five": (corrie, THICK), "eleven": (brackengill, STRAIGHT)}
FLOW = 1.6e-6 * 100.0  # of the bare pump at 100 rad/s


@cache
def compiled(engine):
    return compile_circuit(ENGINES[engine][0]())


def at(engine, per_minute, celsius, **options):
    return solve(
        compiled(engine),
        ENGINES[engine][1],
        angular_speeds=turning(*np.atleast_1d(per_minute)),
        oil_temperatures=np.atleast_1d(celsius) + 273.15,
        **options,
    )


@pytest.mark.parametrize(
    "engine, per_minute, celsius",
    [
        ("eleven", 600.0, 85.0),
        ("eleven", 4500.0, 95.0),
        ("eleven", 1200.0, 18.0),
        ("five", 900.0, 110.0),
        ("five", 8000.0, 120.0),
    ],
)
def test_pressures_are_those_of_equations_written_a_second_time(engine, per_minute, celsius):
    found = at(engine, per_minute, celsius, tolerance=1e-12)
    circuit, oil = found.circuit, found.oil
    pressures = dict(zip(circuit.nodes, found.gauge_pressure[0, 0].tolist(), strict=True))
    equations = Equations(circuit, oil, found.angular_speeds[0], found.oil_temperatures[0])
    second = equations.solved({node: 1.05 * value for node, value in pressures.items()})
    # A node at the inlet lies near nothing: what counts there is the pressure against one bar.
    scale = np.maximum(np.abs([second[node] for node in circuit.nodes]), 1e4)
    verified(
        found.gauge_pressure[0, 0] / scale,
        np.array([second[node] for node in circuit.nodes]) / scale,
        by="scipy.optimize.root on a second writing of the equations",
        tolerance=absolute(1e-6),
    )
    flows = {}
    for name, _, _, flow in equations.flows(second):
        flows.setdefault(name, flow)
    pumped = flows["pump"]
    verified(
        found.flow[0, 0] / pumped,
        np.array([flows[path.name] for path in circuit.paths]) / pumped,
        by="flows of the second writing over that of the pump",
        tolerance=absolute(1e-6),
    )


@pytest.mark.parametrize("engine", ENGINES)
def test_every_point_from_cranking_to_far_beyond_the_limit_is_solved(engine):
    speeds, warmth = np.meshgrid(np.linspace(200.0, 9000.0, 15), np.linspace(-10.0, 150.0, 9))
    found = at(engine, speeds.ravel(), warmth.ravel())
    print("worst mass residual", found.mass_residual.max(), "iterations", found.iterations.mean())
    assert found.converged.all()
    assert found.mass_residual.max() <= 1e-9
    alone = [
        at(engine, *point) for point in zip(speeds[::7, ::3].ravel(), warmth[::7, ::3].ravel(), strict=True)
    ]
    assert all(each.converged.all() for each in alone)
    verified(
        [each.pressure_at("outlet")[0, 0] for each in alone],
        found.pressure_at("outlet").reshape(speeds.shape)[::7, ::3].ravel(),
        by="each point from the first guess, not from its neighbour",
        tolerance=1e-7,
    )


@pytest.mark.parametrize("engine", ENGINES)
def test_what_flows_into_a_node_flows_out_of_it(engine):
    found = at(engine, [300.0, 900.0, 4000.0, 8000.0], [-10.0, 110.0, 95.0, 140.0])
    circuit = found.circuit
    surplus = np.zeros((len(circuit.nodes), 4))
    for path, flow in zip(circuit.paths, np.moveaxis(found.flow[0], -1, 0), strict=True):
        for node, sign in ((path.upstream, -1.0), (path.downstream, 1.0)):
            if node != SUMP:
                surplus[circuit.nodes.index(node)] += sign * flow
    inner = np.abs(surplus / found.flow_in("pump")[0])
    verified(inner.max(), 0.0, by="sum of the stated flows at each node", tolerance=absolute(1e-9))


def test_samples_are_what_each_gives_alone():
    circuit = compiled("five").circuit
    chance = np.random.default_rng(3)
    samples = np.tile(circuit.nominal(), (6, 3, 1))
    own = len(circuit.own_parameters())
    samples[..., :own] *= 1.0 + 0.06 * chance.standard_normal(samples[..., :own].shape)
    points = {"per_minute": [900.0, 3000.0, 7000.0], "celsius": [110.0, 60.0, 120.0]}
    together = at("five", **points, parameters=samples)
    assert together.converged.all()
    for sample in range(6):
        for point in range(3):
            alone = at(
                "five",
                points["per_minute"][point],
                points["celsius"][point],
                parameters=samples[sample, point],
            )
            verified(
                together.gauge_pressure[sample, point],
                alone.gauge_pressure[0, 0],
                by="the sample alone, from the first guess",
                tolerance=absolute(0.05),
            )


def test_parameters_that_every_circuit_has_do_what_changing_the_point_does():
    names = compiled("eleven").circuit.parameter_names
    changed = compiled("eleven").circuit.nominal()
    for name, value in zip(COMMON, (1.0, 7.0, 1.25), strict=True):
        changed[names.index(name)] = value
    verified(
        at("eleven", 2000.0, 80.0, parameters=changed).gauge_pressure,
        at("eleven", 2500.0, 87.0).gauge_pressure,
        by="the changed operating point itself",
        tolerance=absolute(0.01),
    )


def test_a_thicker_oil_by_its_factor():
    circuit = small({"leak": ("gallery", SUMP, SlotLeak(30e-6, 0.1, 0.01))})
    thick = circuit.nominal()
    thick[0] = 1.5
    pressures = [
        solve(circuit, THICK, angular_speeds=100.0, oil_temperatures=350.0, parameters=each).gauge_pressure
        for each in (None, thick)
    ]
    verified(pressures[1] / pressures[0], [[[1.5]]], by="laminar leak", tolerance=1e-9)


def test_a_laminar_circuit_is_a_circuit_of_resistors():
    circuit = small(
        {
            "line": ("gallery", "end", LaminarResistance(2e11)),
            "one": ("end", SUMP, LaminarResistance(6e11)),
            "two": ("end", SUMP, LaminarResistance(4e11, 3.0)),
            "rest": ("gallery", SUMP, LaminarResistance(5e11)),
        }
    )
    found = solve(circuit, THICK, angular_speeds=100.0, oil_temperatures=350.0)
    mu = float(dynamic_viscosity(THICK, 350.0))
    beside = 1.0 / (1.0 / 6e11 + 3.0 / 4e11)
    total = mu / (1.0 / (2e11 + beside) + 1.0 / 5e11)
    gallery = FLOW * total
    verified(
        found.gauge_pressure[0, 0],
        [gallery, gallery * beside / (2e11 + beside)],
        by="resistors in series and side by side",
        tolerance=1e-9,
    )


def test_an_orifice_and_a_long_pipe_against_their_equations():
    circuit = small(
        {
            "hole": ("gallery", "pipe", Orifice(4e-3, 0.7)),
            "pipe": ("pipe", SUMP, Pipe(10e-3, 2.0)),
        }
    )
    found = solve(circuit, THICK, angular_speeds=100.0, oil_temperatures=300.0)
    rho, mu = float(density(THICK, 300.0)), float(dynamic_viscosity(THICK, 300.0))
    pipe = 128.0 * mu * 2.0 * FLOW / (math.pi * 10e-3**4)
    verified(found.pressure_at("pipe")[0, 0], pipe, by="Hagen-Poiseuille", tolerance=1e-9)
    fast = solve(circuit, THICK, angular_speeds=1500.0, oil_temperatures=400.0)
    flow = 1.6e-6 * 1500.0 * fast.flow_in("pump")[0, 0] / (1.6e-6 * 1500.0)
    rho = float(density(THICK, 400.0))
    hole = 0.5 * rho * (flow / (0.7 * math.pi / 4.0 * 4e-3**2)) ** 2
    drop = fast.pressure_at("gallery")[0, 0] - fast.pressure_at("pipe")[0, 0]
    verified(drop, hole, by="square law; its laminar start is left out", tolerance=1e-3)


def test_a_filter_opens_its_bypass_and_a_cooler_its_core():
    strainer = Filter(4e10, 1.2e5, 2.2e5, 10e-3)
    found = solve(
        small({"filter": ("gallery", SUMP, strainer)}),
        THICK,
        angular_speeds=100.0,
        oil_temperatures=[280.0, 400.0],
    )
    thin = float(dynamic_viscosity(THICK, 400.0)) * 4e10 * FLOW
    cold = float(dynamic_viscosity(THICK, 280.0)) * 4e10 * FLOW
    assert cold > 20e5
    assert 1.2e5 < found.pressure_at("gallery")[0, 0] < 2.2e5
    verified(found.pressure_at("gallery")[0, 1], thin, by="medium alone", tolerance=1e-9)
    cooler = Cooler(1e11, 6e-3, 353.15, 363.15, leak_share=1e-6)
    warm = solve(
        small({"cooler": ("gallery", SUMP, cooler)}),
        THICK,
        angular_speeds=100.0,
        oil_temperatures=[330.0, 380.0],
    )
    core = float(dynamic_viscosity(THICK, 380.0)) * 1e11 * FLOW
    verified(warm.pressure_at("gallery")[0, 1], core, by="core alone", tolerance=1e-4)
    hole = 0.5 * float(density(THICK, 330.0)) * (FLOW / (0.62 * math.pi / 4.0 * 36e-6)) ** 2
    verified(warm.pressure_at("gallery")[0, 0], hole, by="bypass alone, square law", tolerance=0.02)


def test_a_jet_stays_shut_below_its_pressure():
    jets = {
        "jet": ("gallery", SUMP, Jet(2e-3, 3e5, 4e5)),
        "rest": ("gallery", SUMP, LaminarResistance(Named("r"))),
    }
    circuit = small(jets, {"r": 1e11})
    mu = float(dynamic_viscosity(THICK, 350.0))
    weak, strong = (
        solve(
            circuit,
            THICK,
            angular_speeds=100.0,
            oil_temperatures=350.0,
            parameters=[pressure / (mu * FLOW), 1.0, 0.0, 1.0],
        )
        for pressure in (2.9e5, 9e5)
    )
    assert weak.flow_in("jet")[0, 0] == 0.0
    verified(weak.pressure_at("gallery")[0, 0], 2.9e5, by="the rest alone", tolerance=1e-9)
    assert strong.flow_in("jet")[0, 0] > 0.3 * FLOW
    assert 3e5 < strong.pressure_at("gallery")[0, 0] < 9e5


def test_a_series_is_the_same_as_its_nodes_written_out():
    pieces = (Pipe(4e-3, 0.3), Orifice(1.5e-3), LaminarResistance(1e11))
    written = small(
        {
            "a": ("gallery", "x", pieces[0]),
            "b": ("x", "y", pieces[1]),
            "c": ("y", SUMP, pieces[2]),
            "leak": ("gallery", SUMP, Orifice(3e-3)),
        }
    )
    short = small({"abc": ("gallery", SUMP, Series(pieces)), "leak": ("gallery", SUMP, Orifice(3e-3))})
    one, other = (
        solve(each, THICK, angular_speeds=200.0, oil_temperatures=360.0) for each in (written, short)
    )
    verified(other.pressure_at("gallery"), one.pressure_at("gallery"), by="nodes written out", tolerance=1e-9)
    verified(other.flow_in("abc"), one.flow_in("c"), by="flow at the other end", tolerance=1e-8)


def test_a_still_engine_has_no_pressure():
    found = at("eleven", 0.0, 40.0)
    assert found.converged.all()
    verified(
        found.gauge_pressure, np.zeros_like(found.gauge_pressure), by="no pump", tolerance=absolute(501.0)
    )
    bare = solve(
        small({"hole": ("gallery", SUMP, Orifice(2e-3))}), THICK, angular_speeds=0.0, oil_temperatures=300.0
    )
    verified(bare.gauge_pressure, [[[0.0]]], by="nothing moves", tolerance=absolute(1e-6))


def test_too_few_steps_are_said_and_nothing_is_stated():
    found = at("five", 900.0, 110.0, largest_iterations=1)
    assert not found.converged.any()
    assert np.isnan(found.gauge_pressure).all()
    assert np.isnan(found.flow).all()
    assert found.mass_residual[0, 0] > 1e-9
    with pytest.raises(NotConvergedError, match="balance of the circuit's flows"):
        found.require_converged()


def test_a_tolerance_that_rounding_cannot_reach_is_not_claimed():
    assert not at("five", 900.0, 110.0, tolerance=0.0).converged.any()


@pytest.mark.parametrize(
    "options",
    [
        {"angular_speeds": -1.0, "oil_temperatures": 300.0},
        {"angular_speeds": 1.0, "oil_temperatures": 0.0},
        {"angular_speeds": math.nan, "oil_temperatures": 300.0},
        {"angular_speeds": [[1.0]], "oil_temperatures": 300.0},
        {"angular_speeds": 1.0, "oil_temperatures": 300.0, "parameters": [1.0]},
        {"angular_speeds": 1.0, "oil_temperatures": 300.0, "parameters": [math.nan, 0.0, 1.0]},
        {"angular_speeds": 1.0, "oil_temperatures": 300.0, "parameters": np.ones((1, 2, 3))},
    ],
)
def test_what_means_nothing_is_refused(options):
    with pytest.raises(OutOfDomainError):
        solve(small({"hole": ("gallery", SUMP, Orifice(2e-3))}), THICK, **options)


def test_two_pumps_feed_one_gallery():
    circuit = small(
        {
            "second": (SUMP, "gallery", Pump(0.8e-6, filling_area=0.1)),
            "hole": ("gallery", SUMP, LaminarResistance(1e11)),
        }
    )
    found = solve(circuit, THICK, angular_speeds=100.0, oil_temperatures=350.0)
    mu = float(dynamic_viscosity(THICK, 350.0))
    verified(found.pressure_at("gallery")[0, 0], 1.5 * FLOW * mu * 1e11, by="both flows", tolerance=1e-9)


def test_pieces_may_be_done_at_once_in_threads():
    from concurrent.futures import ThreadPoolExecutor

    def spread(work, pieces):
        with ThreadPoolExecutor(2) as pool:
            list(pool.map(work, range(pieces)))

    points = {"per_minute": np.linspace(500.0, 6000.0, 24), "celsius": 90.0}
    verified(
        at("eleven", **points, spread=spread).gauge_pressure,
        at("eleven", **points).gauge_pressure,
        by="one piece after the other",
        tolerance=absolute(0.0),
    )
