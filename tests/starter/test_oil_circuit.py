"""The oil circuit that a starter sheet assumes: for every layout, and said to be assumed."""

from math import pi

import pytest

from fitwright.assess.judging import Judge
from fitwright.assess.oil.posed import posed_circuit
from fitwright.assess.results import State
from fitwright.formats.sheet.reader import read_sheet
from fitwright.model.amount import Written
from fitwright.model.circuit import (
    Bearing,
    PathKind,
    PumpKind,
    Reference,
    StagePurpose,
    StatedDisplacement,
    given_sizes,
)
from fitwright.records.projection import BuildState, ShopState
from fitwright.starter.answers import Answers
from fitwright.starter.plan import plan_of
from fitwright.starter.sheet import write_sheet
from fitwright.starter.subjects.oil_circuit import NO_PUMP
from fitwright.starter.subjects.oil_draws import feeding_main
from tests.support.compare import verified
from tests.support.engine_layouts import LAYOUTS, engine


def plan_for(name):
    return plan_of(Answers(name=name, **LAYOUTS[name]))


PUMPED = [name for name in LAYOUTS if plan_for(name).pump != "none" and plan_for(name).only == "all"]
DRY = [name for name in LAYOUTS if name not in PUMPED]


def sizes_of(circuit):
    for _, name, parts in circuit.parts():
        for part in parts:
            yield from ((name, size, rule) for _, size, rule in given_sizes(part))


@pytest.mark.parametrize("name", PUMPED)
def test_every_layout_with_a_pump_gets_a_circuit_that_says_what_it_assumes(name):
    sheet = engine(name)
    circuit = sheet.circuit
    assert circuit is not None
    assert circuit.assumed
    assert sheet.oil is not None
    assert sheet.oil.grade
    text = write_sheet(Answers(name=name, **LAYOUTS[name]))
    assert "# ASSUMED: a usual circuit" in text
    assert 0.0 < circuit.idle_speed.si < circuit.top_speed.si


@pytest.mark.parametrize("name", DRY)
def test_without_a_pump_there_is_none_and_the_sheet_says_why(name):
    assert engine(name).circuit is None
    if plan_for(name).only == "all":
        assert NO_PUMP[0] in write_sheet(Answers(name=name, **LAYOUTS[name]))


@pytest.mark.parametrize("name", PUMPED)
def test_clearances_are_those_that_are_measured(name):
    sheet = engine(name)
    clearances = [(owner, size) for owner, size, rule in sizes_of(sheet.circuit) if rule.clearance]
    named = [size.subject for _, size in clearances if isinstance(size, Reference)]
    assumed = {owner for owner, size in clearances if isinstance(size, Written)}
    print(f"{name}: {len(named)} clearances named, assumed: {sorted(assumed)}")
    assert set(named) <= set(sheet.fits)
    assert all(sheet.fits[each].limits for each in named)
    assert assumed <= {"tensioner"}


@pytest.mark.parametrize("name", PUMPED)
def test_every_bearing_of_the_crank_is_there_once(name):
    plan, circuit = plan_for(name), engine(name).circuit
    groups = [path.group for path in circuit.paths.values()]
    assert groups.count("mains") == plan.mains
    assert groups.count("big ends") == plan.cylinders
    bearings = [path for path in circuit.paths.values() if isinstance(path.element, Bearing)]
    on_crank = [path for path in bearings if path.kind is PathKind.BEARING]
    assert len(on_crank) == (plan.mains + plan.cylinders if plan.plain else 0)


@pytest.mark.parametrize("name", PUMPED)
def test_pump_and_relief_are_those_of_the_layout(name):
    plan, circuit = plan_for(name), engine(name).circuit
    scavenge = [each for each in circuit.pumps.values() if each.purpose is StagePurpose.SCAVENGE]
    (pressure,) = (each for each in circuit.pumps.values() if each.purpose is StagePurpose.PRESSURE)
    assert len(scavenge) == plan.pump_stages
    rotors = plan.pump in {"crank-driven internal rotor", "chain-driven"}
    assert (pressure.kind is PumpKind.INTERNAL_ROTOR) == rotors
    assert pressure.speed_ratio == (1.0 if plan.pump == "crank-driven internal rotor" else 0.5)
    (relief,) = circuit.reliefs.values()
    amounts = (relief.spring_rate, relief.preload_length, relief.seat_diameter)
    rate, preload, seat = (each.si for each in amounts)
    opening = rate * preload / (pi / 4 * seat**2)
    print(f"{name}: opens at {opening / 1e5:.2f} bar")
    assert 2.5e5 < opening < 5.5e5


def test_scavenge_stages_displace_twice_the_pressure_stage_together():
    from fitwright.physics.pump.spur import SpurPair, spur_displacement

    circuit = engine("vee eight, dry sump").circuit
    gears = circuit.pumps["stage.1"].rotors
    sizes = {name: size.si for name, size, _ in given_sizes(gears)}
    pair = SpurPair(teeth=gears.teeth, centre_distance=gears.teeth * sizes["module"], **sizes)
    scavenge = [
        each.rotors.displacement.si
        for each in circuit.pumps.values()
        if isinstance(each.rotors, StatedDisplacement)
    ]
    ratio = sum(scavenge) / spur_displacement(pair).displacement
    verified(ratio, 2.0, by="involute gears as written, against the usual estimate", tolerance=0.05)


def test_the_assumed_rotors_mesh_and_displace_what_is_said():
    from fitwright.physics.pump.chambers import rotor_displacement
    from fitwright.physics.pump.trochoid import RotorPair

    circuit = engine("inline three, rotor on the crank").circuit
    rotors = circuit.pumps["pump"].rotors
    sizes = {name: size.si for name, size, _ in given_sizes(rotors) if name != "outer_rotor_diameter"}
    found = rotor_displacement(RotorPair(inner_lobes=rotors.inner_lobes, **sizes))
    assert found.cautions == ()
    share = found.displacement / (3 * pi / 4 * 0.080**3)
    verified(share, 0.0045, by="chambers of the rotors as written", tolerance=0.01)


@pytest.mark.parametrize("name", PUMPED)
def test_each_pin_is_fed_by_a_main_beside_it_in_order(name):
    plan = plan_for(name)
    mains = [feeding_main(plan, rod) for rod in range(1, plan.cylinders + 1)]
    assert mains == sorted(mains)
    assert mains[0] == 1
    assert mains[-1] <= plan.mains


def test_a_two_stroke_with_a_pump_of_its_own_has_no_camshaft_to_feed():
    answers = Answers(name="Two", valve_train="two-stroke", pump="external spur")
    circuit = read_sheet(write_sheet(answers)).circuit
    kinds = {path.kind for path in circuit.paths.values()}
    assert PathKind.CAM_BEARING not in kinds
    assert PathKind.BEARING in kinds


def test_a_historic_engine_has_no_filter_and_an_inch_shop_reads_inches():
    text = write_sheet(Answers(name="Old", duty="historic", units="inch", bearings="white metal"))
    sheet = read_sheet(text)
    assert "filter" not in sheet.circuit.paths
    lengths = [
        size.unit
        for _, size, rule in sizes_of(sheet.circuit)
        if isinstance(size, Written) and rule.dimension == "length"
    ]
    assert set(lengths) <= {"in", "thou"}


@pytest.mark.parametrize("name", PUMPED)
def test_a_circuit_can_be_put_together_before_anything_is_measured(name):
    sheet = engine(name)
    judge = Judge(sheet, ShopState(), BuildState("build-1"), State.CURRENT)
    posed = posed_circuit(judge, sheet.circuit)
    assert not [each.id for each in posed.not_known]
    assert len(posed.circuit.paths) >= len(sheet.circuit.paths)
