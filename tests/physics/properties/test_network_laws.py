"""Laws that oil circuits keep whatever their sizes."""

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.physics.network.circuit import SUMP, Circuit, Path
from fitwright.physics.network.compile import compile_circuit
from fitwright.physics.network.elements import (
    AnnularLeak,
    Jet,
    LaminarResistance,
    Orifice,
    Pipe,
    Pump,
    Relief,
    SlotLeak,
)
from fitwright.physics.network.ordering import elimination
from fitwright.physics.network.sizes import Named
from fitwright.physics.network.solve import solve
from fitwright.physics.pump.relief import ReliefValve
from tests.support.network_engines import THICK, brackengill, corrie, small, turning

FEW = settings(max_examples=15, deadline=None)

bores = st.floats(0.5e-3, 12e-3)
lengths = st.floats(5e-3, 1.0)
speeds = st.floats(20.0, 900.0)
temperatures = st.floats(263.15, 423.15)


@st.composite
def elements(draw):
    kind = draw(st.sampled_from(["pipe", "hole", "gap", "slot", "jet", "resistance"]))
    bore, length = draw(bores), draw(lengths)
    return {
        "pipe": Pipe(bore, length, 0.0, draw(st.floats(0.0, 4.0))),
        "hole": Orifice(bore, draw(st.floats(0.55, 0.98))),
        "gap": AnnularLeak(8.0 * bore, 40e-6, 0.1 * length),
        "slot": SlotLeak(60e-6, 10.0 * bore, 0.1 * length),
        "jet": Jet(bore, 1e5, 2e5),
        "resistance": LaminarResistance(draw(st.floats(1e9, 1e13))),
    }[kind]


@st.composite
def circuits(draw):
    """A tree of a few nodes behind a pump, each node with a way to the sump, and perhaps a loop."""
    nodes = ["gallery", *(f"node {at}" for at in range(draw(st.integers(1, 6))))]
    paths = {}
    for at, node in enumerate(nodes[1:], start=1):
        parent = nodes[draw(st.integers(0, at - 1))]
        paths[f"to {node}"] = (parent, node, draw(elements().filter(lambda it: not isinstance(it, Jet))))
    for node in nodes:
        paths[f"out of {node}"] = (node, SUMP, draw(elements()))
    if draw(st.booleans()) and len(nodes) > 2:
        paths["loop"] = (nodes[-1], nodes[-2], Pipe(draw(bores), draw(lengths)))
    return paths


def pressures(circuit, speed=200.0, temperature=360.0, **options):
    found = solve(
        circuit, THICK, angular_speeds=speed, oil_temperatures=temperature, tolerance=1e-11, **options
    )
    found.require_converged()
    return found


@FEW
@given(paths=circuits(), speed=speeds, temperature=temperatures)
def test_any_circuit_balances(paths, speed, temperature):
    found = solve(small(paths), THICK, angular_speeds=speed, oil_temperatures=temperature)
    assert found.converged.all()
    assert (found.gauge_pressure >= -1e-3).all()


@FEW
@given(paths=circuits(), speed=speeds, data=st.data())
def test_the_order_of_paths_is_of_no_account(paths, speed, data):
    shuffled = dict(data.draw(st.permutations(list(paths.items()))))
    one, other = pressures(small(paths), speed), pressures(small(shuffled), speed)
    for node in one.circuit.nodes:
        assert math.isclose(
            one.pressure_at(node)[0, 0], other.pressure_at(node)[0, 0], rel_tol=1e-7, abs_tol=1e-2
        )


@FEW
@given(paths=circuits(), speed=speeds, data=st.data())
def test_turning_a_path_round_turns_its_flow(paths, speed, data):
    name = data.draw(st.sampled_from([name for name, it in paths.items() if not isinstance(it[2], Jet)]))
    up, down, element = paths[name]
    one = pressures(small(paths), speed)
    other = pressures(small({**paths, name: (down, up, element)}), speed)
    pumped = one.flow_in("pump")[0, 0]
    assert abs(one.flow_in(name)[0, 0] + other.flow_in(name)[0, 0]) < 1e-8 * pumped


@FEW
@given(paths=circuits(), element=elements(), speed=speeds)
def test_two_alike_side_by_side_are_one_with_a_count_of_two(paths, element, speed):
    if not hasattr(element, "count"):
        return
    double = type(element)(
        **{name: getattr(element, name) for name in element.SLOTS if name != "count"}, count=2.0
    )
    one = pressures(small({**paths, "a": ("gallery", SUMP, element), "b": ("gallery", SUMP, element)}), speed)
    other = pressures(small({**paths, "ab": ("gallery", SUMP, double)}), speed)
    assert math.isclose(one.pressure_at("gallery")[0, 0], other.pressure_at("gallery")[0, 0], rel_tol=1e-8)


@FEW
@given(bore=bores, length=lengths, share=st.floats(0.1, 0.9), speed=speeds)
def test_a_pipe_cut_in_two_is_the_same_pipe(bore, length, share, speed):
    whole = pressures(small({"pipe": ("gallery", SUMP, Pipe(bore, length))}), speed)
    cut = pressures(
        small(
            {
                "first": ("gallery", "cut", Pipe(bore, share * length)),
                "second": ("cut", SUMP, Pipe(bore, (1.0 - share) * length)),
            }
        ),
        speed,
    )
    full = whole.pressure_at("gallery")[0, 0]
    assert math.isclose(cut.pressure_at("gallery")[0, 0], full, rel_tol=1e-8)
    assert math.isclose(cut.pressure_at("cut")[0, 0], (1.0 - share) * full, rel_tol=1e-8)


@FEW
@given(paths=circuits(), element=elements(), speed=speeds)
def test_one_more_way_out_never_raises_a_pressure(paths, element, speed):
    one = pressures(small(paths), speed)
    other = pressures(small({**paths, "more": ("gallery", SUMP, element)}), speed)
    for node in one.circuit.nodes:
        least = one.pressure_at(node)[0, 0]
        assert other.pressure_at(node)[0, 0] <= least + 1e-6 * abs(least) + 1e-2


@FEW
@given(side=elements(), rest=elements(), speed=speeds)
def test_both_sides_of_a_mirror_have_the_same_pressure(side, rest, speed):
    paths = {"left": ("gallery", "l", side), "right": ("gallery", "r", side)}
    paths |= {f"end {node}": (node, SUMP, rest) for node in "lr"}
    paths |= {f"leak {node}": (node, SUMP, LaminarResistance(1e12)) for node in ("l", "r", "gallery")}
    found = pressures(small(paths), speed)
    assert math.isclose(
        found.pressure_at("l")[0, 0], found.pressure_at("r")[0, 0], rel_tol=1e-9, abs_tol=1e-4
    )


@FEW
@given(engine=st.sampled_from([corrie, brackengill]), data=st.data(), wider=st.floats(1.02, 2.5))
def test_opening_a_clearance_never_raises_the_gallery_below_relief(engine, data, wider):
    compiled = compiled_engines()[engine]
    circuit = compiled.circuit
    name = data.draw(st.sampled_from([it for it in circuit.own_parameters() if it.endswith("clearance")]))
    opened = np.array([circuit.nominal()] * 2)
    opened[1, circuit.parameter_names.index(name)] *= wider
    found = pressures(compiled, turning(750.0), 383.15, parameters=opened[:, np.newaxis]).pressure_at(
        "gallery 1"
    )[:, 0]
    assert found[1] <= found[0] + 1e-6 * found[0]


def compiled_engines(made={}):  # noqa: B006  # kept between examples
    for engine in (corrie, brackengill):
        made.setdefault(engine, compile_circuit(engine()))
    return made


@FEW
@given(preload=st.floats(2e-3, 12e-3), speed=speeds)
def test_a_relief_valve_holds_the_pressure_of_its_spring(preload, speed):
    valve = ReliefValve(8e3, preload, 12e-3, 6e-3)
    circuit = Circuit(
        (
            Path("pump", SUMP, "gallery", Pump(1.6e-6, filling_area=0.1)),
            Path("relief", "gallery", SUMP, Relief(valve)),
            Path("leak", "gallery", SUMP, LaminarResistance(1e14)),
        )
    )
    pressure = pressures(circuit, speed).pressure_at("gallery")[0, 0]
    cracking = 8e3 * preload / (0.25 * math.pi * 12e-3**2)
    assert cracking * 0.99 < pressure < cracking + 8e3 * 6e-3 / (0.25 * math.pi * 12e-3**2)


@FEW
@given(
    size=st.integers(1, 14),
    links=st.lists(st.tuples(st.integers(0, 13), st.integers(0, 13)), max_size=20),
    seed=st.integers(0, 2**31),
)
def test_elimination_solves_any_pattern(size, links, seed):
    links = [(one, other) for one, other in links if one != other and max(one, other) < size]
    steps = elimination(size, links)
    place = {node: at for at, node in enumerate(steps.order)}
    chance = np.random.default_rng(seed)
    dense, stored = np.zeros((size, size)), np.zeros(len(steps.entries))
    for one, other in links:
        for row, column in ((place[one], place[other]), (place[other], place[one])):
            dense[row, column] = -chance.uniform(0.1, 1.0)
    np.fill_diagonal(dense, np.abs(dense).sum(axis=0) + 0.1)
    for (row, column), at in steps.entries.items():
        stored[at] = dense[row, column]
    right = chance.standard_normal(size)
    want = np.linalg.solve(dense, right)
    assert np.allclose(eliminated(steps, stored, right), want, rtol=1e-10, atol=1e-12)


def eliminated(steps, matrix, right):
    """What the kernel does, from the lists of steps."""
    found = right.copy()
    for step, entry in enumerate(steps.lower):
        matrix[entry] /= matrix[steps.diagonal[steps.lower_column[step]]]
        for at in range(steps.update_start[step], steps.update_start[step + 1]):
            matrix[steps.update_target[at]] -= matrix[entry] * matrix[steps.update_source[at]]
        found[steps.lower_row[step]] -= matrix[entry] * found[steps.lower_column[step]]
    for node in reversed(range(found.size)):
        for at in range(steps.upper_start[node], steps.upper_start[node + 1]):
            found[node] -= matrix[steps.upper[at]] * found[steps.upper_column[at]]
        found[node] /= matrix[steps.diagonal[node]]
    return found


@FEW
@given(hole=st.floats(1e-3, 6e-3), factor=st.floats(0.5, 2.0))
def test_a_size_that_follows_a_parameter_is_that_size(hole, factor):
    named = small({"hole": ("gallery", SUMP, Orifice(Named("bore", factor, 1e-4)))}, {"bore": hole})
    plain = small({"hole": ("gallery", SUMP, Orifice(factor * hole + 1e-4))})
    assert pressures(named).pressure_at("gallery") == pressures(plain).pressure_at("gallery")
