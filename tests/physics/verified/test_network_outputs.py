"""Flow budget, feed of the big ends, and why pressure falls: against other ways to the same figures."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from fitwright.physics.bearings.supply import bearing_supply
from fitwright.physics.network.circuit import SUMP, Circuit, Path
from fitwright.physics.network.compile import compile_circuit
from fitwright.physics.network.derivatives import derivatives
from fitwright.physics.network.elements import CrankDrilling, Orifice, Pump, SlotLeak
from fitwright.physics.network.limits import filling_limit_speed, speed_effects
from fitwright.physics.network.machines import machines
from fitwright.physics.network.outputs import big_end_feeds, flow_budget, relief_flow_share
from fitwright.physics.network.sizes import SPEED_FACTOR
from fitwright.physics.network.solve import solve
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.oil import density, dynamic_viscosity
from fitwright.physics.pump.relief import relief_flow
from tests.support.compare import absolute, verified
from tests.support.network_engines import STRAIGHT, THICK, brackengill, corrie, small, turning

ENGINES = {"five": (corrie, THICK), "eleven": (brackengill, STRAIGHT)}


@cache
def solved(engine):
    circuit, oil = ENGINES[engine]
    return solve(
        compile_circuit(circuit()),
        oil,
        angular_speeds=turning(300.0, 900.0, 4000.0, 8000.0),
        oil_temperatures=np.array([283.15, 383.15, 373.15, 393.15]),
    )


@pytest.mark.parametrize("engine", ENGINES)
def test_the_budget_adds_up_to_what_the_pump_sweeps(engine):
    budget = flow_budget(solved(engine))
    used = budget.flow.sum(axis=-1) + budget.fill_loss + budget.leakage_flow
    verified(used / budget.theoretical_flow, np.ones((1, 4)), by="swept flow", tolerance=1e-8)
    assert "inlet" not in budget.groups
    share = relief_flow_share(solved(engine))
    verified(share, budget.of("relief") / solved(engine).flow_in("pump"), by="the budget", tolerance=1e-12)


def test_states_are_those_of_each_part_alone():
    found = solved("five")
    state = machines(found)
    rho, mu = float(density(THICK, 373.15)), float(dynamic_viscosity(THICK, 373.15))
    path = found.circuit.path("relief")
    drop = found.pressure_at("tee")[0, 2] - found.pressure_at("inlet")[0, 2]
    valve = replace(path.element.valve, plunger_radial_clearance=0.0215e-3)
    alone = relief_flow(valve, drop, density=rho, dynamic_viscosity=mu)
    verified(state.reliefs.flow[0, 2, 0], alone.flow, by="the valve alone", tolerance=1e-9)
    verified(state.reliefs.lift[0, 2, 0], alone.lift, by="the valve alone", tolerance=1e-9)
    at = state.bearings.paths.index("rod 3")
    rod = found.circuit.path("rod 3").element
    clearance = 0.5 * found.circuit.parameters["rod.3.clearance"]
    bearing = bearing_supply(
        rod.bearing,
        rod.steady_curves,
        THICK,
        gauge_pressure=found.pressure_at("rod 3")[0, 2],
        supply_temperature=373.15,
        angular_speed=found.angular_speeds[2],
        load=300.0 + 9.0e-3 * found.angular_speeds[2] ** 2,
        radial_clearance=clearance,
    )
    mine = state.bearings
    verified(
        [
            mine.flow[0, 2, at],
            mine.film_temperature[0, 2, at],
            mine.minimum_film_thickness[0, 2, at],
            mine.friction_power[0, 2, at],
            mine.supplied_share[0, 2, at],
        ],
        [
            bearing.flow,
            bearing.film_temperature,
            bearing.minimum_film_thickness,
            bearing.friction_power,
            bearing.supplied_share,
        ],
        by="the bearing alone",
        tolerance=1e-9,
    )
    assert mine.heat_balanced.all()
    assert mine.starved[0, 2, at] == bearing.starved
    verified(
        state.pumps.theoretical_flow[0, 1] * 6e4, [900.0 * 10.016e-3], by="displacement", tolerance=1e-12
    )


def stopped_drilling(radii, **sizes):
    """A crank drilling to a closed end: nothing flows, only spin counts."""
    drilling = CrankDrilling(5e-3, 0.06, radii, **sizes)
    pump = Path("pump", SUMP, "main", Pump(1.6e-7))
    crank = Path("crank", "main", "pin", drilling)
    shut = Path("big end", "pin", SUMP, SlotLeak(1e-9, 0.1, 0.02))
    return Circuit((pump, crank, shut, Path("leak", "main", SUMP, Orifice(1e-3))))


def test_spin_alone_lowers_and_raises_the_pressure_in_a_drilling():
    found = solve(
        stopped_drilling((0.028, 0.0, 0.06)), STRAIGHT, angular_speeds=838.0, oil_temperatures=363.15
    )
    feeds, rho = big_end_feeds(found), float(density(STRAIGHT, 363.15))
    entry = found.pressure_at("main")[0, 0]
    spin = 0.5 * rho * 838.0**2
    verified(
        [feeds.lowest_gauge_pressure[0, 0, 0], feeds.gauge_pressure_at_pin[0, 0, 0]],
        [entry - spin * 0.028**2, entry + spin * (0.06**2 - 0.028**2)],
        by="rigid rotation",
        tolerance=absolute(1.0),
    )
    assert feeds.lowest_radius[0, 0, 0] == 0.0
    verified(
        feeds.lowest_absolute_pressure,
        feeds.lowest_gauge_pressure + 101325.0,
        by="atmosphere",
        tolerance=1e-12,
    )
    outward = solve(stopped_drilling((0.028, 0.06)), STRAIGHT, angular_speeds=838.0, oil_temperatures=363.15)
    verified(
        big_end_feeds(outward).lowest_gauge_pressure[0, 0, 0],
        outward.pressure_at("main")[0, 0],
        by="lowest where it begins",
        tolerance=1e-9,
    )


def test_the_lowest_pressure_on_the_way_by_looking_everywhere():
    found = solved("eleven")
    feeds = big_end_feeds(found)
    drilling = found.circuit.path("crank 2").element
    for point in range(4):
        rho = float(density(STRAIGHT, found.oil_temperatures[point]))
        speed = found.flow_in("crank 2")[0, point] / (0.25 * np.pi * drilling.diameter**2)
        behind = found.pressure_at("main 2")[0, point] - 0.5 * 0.5 * rho * speed**2
        spin = 0.5 * rho * found.angular_speeds[point] ** 2
        first, middle, last = drilling.station_radii
        along = np.linspace(0.0, 1.0, 200_001)
        radii = np.interp(along, [0.0, 0.5, 1.0], [first, middle, last])
        lost = behind + spin * (last**2 - first**2) - found.pressure_at("rod 2")[0, point]
        way = behind - along * lost + spin * (radii**2 - first**2)
        verified(
            feeds.lowest_gauge_pressure[0, point, 1],
            min(way.min(), found.pressure_at("main 2")[0, point]),
            by="two hundred thousand places",
            tolerance=absolute(0.5),
        )


@pytest.mark.parametrize("engine, node", [("five", "gallery 6"), ("eleven", "gallery 1")])
def test_what_the_paths_add_is_the_derivative_by_speed(engine, node):
    found = solved(engine)
    effects = speed_effects(found, node)
    slope = derivatives(found, parameters=[SPEED_FACTOR]).of_pressure(
        found.circuit.nodes.index(node), SPEED_FACTOR
    )
    verified(
        effects.slope * found.angular_speeds / 1e5,
        slope / 1e5,
        by="derivative by the factor on the speed",
        tolerance=absolute(1e-6),
    )
    verified(sum(effects.by_group().values()), effects.slope, by="all groups", tolerance=absolute(1e-6))


def test_pressure_falls_where_the_pump_no_longer_fills():
    compiled = compile_circuit(corrie())
    limit = filling_limit_speed(compiled, THICK, oil_temperature=393.15, lowest=100.0, highest=1400.0)
    speeds = np.array([0.5, 0.999, 1.001]) * limit
    found = solve(compiled, THICK, angular_speeds=speeds, oil_temperatures=393.15)
    fill = machines(found).pumps.fill_share[0, :, 0]
    assert fill[1] > 0.98 > fill[2]
    far = solve(compiled, THICK, angular_speeds=2.2 * limit, oil_temperatures=393.15)
    effects = speed_effects(far, "gallery 6")
    assert effects.falling().all()
    assert effects.reasons() == ("filling",)
    assert speed_effects(found, "gallery 6").reasons()[0] == ""


def test_pressure_falls_where_rods_throw_out_more_than_the_pump_adds():
    crank = CrankDrilling(8e-3, 0.06, (0.028, 0.08), loss_coefficient=0.0, entry_loss_coefficient=0.0)
    circuit = small(
        {
            "crank": ("gallery", "pin", crank),
            "big end": ("pin", SUMP, Orifice(9e-3)),
        }
    )
    found = solve(circuit, STRAIGHT, angular_speeds=[100.0, 1000.0], oil_temperatures=363.15)
    effects = speed_effects(found, "gallery")
    assert effects.reasons() == ("crank", "crank")
    with pytest.raises(OutOfDomainError):
        speed_effects(found, "nowhere")


def test_filling_that_is_never_or_always_short():
    compiled = compile_circuit(small({"hole": ("gallery", SUMP, Orifice(9e-3))}))
    bounds = {"oil_temperature": 363.15, "lowest": 50.0, "highest": 500.0}
    assert filling_limit_speed(compiled, STRAIGHT, **bounds) is None
    choked = Circuit(
        (
            Path("pump", SUMP, "gallery", Pump(1.6e-6, filling_area=1e-7)),
            Path("hole", "gallery", SUMP, Orifice(9e-3)),
        )
    )
    assert filling_limit_speed(compile_circuit(choked), STRAIGHT, **bounds) == 50.0
