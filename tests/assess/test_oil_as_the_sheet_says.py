"""What the sheet says of a path is what is computed: how many there are, and how a clearance is stated."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from fitwright.assess.oil.costs import faults_at
from fitwright.assess.oil.desk import OilDesk, oil_case
from fitwright.assess.oil.parameters import Parameters
from fitwright.assess.oil.paths import PathElements
from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.posed import posed_circuit
from fitwright.assess.oil.solving import BuildCircuit, ReadyCircuit
from fitwright.assess.oil.what_if import WhatIf
from fitwright.assess.results import State
from fitwright.model import circuit as sheet
from fitwright.model.amount import Written
from fitwright.model.circuit import Reference
from fitwright.model.dimension import Sense
from fitwright.physics.network import elements
from fitwright.physics.network.circuit import Circuit, Path
from fitwright.physics.network.compile import compile_circuit
from fitwright.physics.network.solve import solve
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.oil import Oil
from tests.support.oil_circuits import circuit as circuit_of
from tests.support.story import Story

OIL = Oil(100e-6, 12e-6, 870.0)
IDLE = OilPoint("hot idle", 900 * pi / 30, 383.15)


def mm(value):
    return Written(f"{value} mm", value * 1e-3, "mm")


def bar(value):
    return Written(f"{value} bar", value * 1e5, "bar")


SEVERAL = {
    "filter": (
        sheet.PathKind.FILTER,
        sheet.Filter(
            Written("20 L/min", 20 / 6e4, "L/min"),
            bar(0.4),
            Written("24 mm2/s", 24e-6, "mm2/s"),
            bar(0.5),
            bar(1.0),
            mm(6.0),
        ),
    ),
    "cooler": (
        sheet.PathKind.COOLER,
        sheet.Cooler(
            mm(3.0),
            mm(300.0),
            mm(5.0),
            Written("80 degC", 353.15, "degC"),
            Written("95 degC", 368.15, "degC"),
            10,
        ),
    ),
    "tensioner": (
        sheet.PathKind.TENSIONER,
        sheet.Tensioner(mm(0.06), mm(20.0), mm(25.0), mm(1.0)),
    ),
    "turbocharger": (
        sheet.PathKind.TURBOCHARGER,
        sheet.TurbochargerFeed(
            mm(1.3), mm(6.0), mm(450.0), mm(14.0), Written("0.09 mm", 9e-5, "mm"), mm(6.0), 4
        ),
    ),
    "big-end feed": (
        sheet.PathKind.BIG_END_FEED,
        sheet.BigEndFeed(mm(2.0), mm(60.0), mm(28.0), mm(44.0)),
    ),
    "follower": (
        sheet.PathKind.FOLLOWER,
        sheet.AnnularLeak(mm(0.08), mm(30.0), mm(10.0), feed_diameter=mm(1.0)),
    ),
}


def gallery_pressure(paths):
    """Of a small pump with nothing but these paths behind it, from the gallery to the sump."""
    parameters = Parameters(None)  # every size is an amount: nothing is asked of a build
    made = PathElements(parameters, circuit_of([], [], paths))
    pump = Path("pump", "sump", "gallery", elements.Pump(1e-6), "pump")
    vent = Path("vent", "gallery", "sump", elements.Orifice(1e-3), "vent")
    ways = [Path(each.id, "gallery", "sump", made.element(each), each.group) for each in paths]
    found = solve(
        compile_circuit(Circuit((pump, vent, *ways), parameters.values)),
        OIL,
        angular_speeds=[100.0],
        oil_temperatures=[362.0],
    )
    assert found.converged.all()
    return float(found.pressure_at("gallery")[0, 0])


@pytest.mark.parametrize("name", SEVERAL)
def test_two_of_a_path_pass_what_two_paths_pass(name):
    kind, part = SEVERAL[name]
    one = sheet.OilPath("a", "A", kind, "gallery", "sump", part, "leaks")
    alone = gallery_pressure([one])
    both = gallery_pressure([replace(one, count=2)])
    apart = gallery_pressure([one, replace(one, id="b")])
    print(f"{name}: one {alone / 1e5:.4f} bar, two {both / 1e5:.4f} bar, one and one {apart / 1e5:.4f} bar")
    assert both == pytest.approx(apart, rel=2e-3)  # an orifice creeps a little later the wider it is
    assert alone > 1.02 * apart


@pytest.fixture(scope="module")
def judge():
    return Story.of("corrie-five").assessor(State.CURRENT).judge


def build_of(judge, circuit):
    posed = posed_circuit(judge, circuit)
    assert posed.circuit is not None
    return BuildCircuit(ReadyCircuit(posed), OIL)


def moved_by(build, what_if):
    """How far a what-if moves each parameter at hot idle."""
    temperature = np.array([IDLE.oil_temperature])
    change = build.values(temperature, what_if) - build.values(temperature, WhatIf())
    return dict(zip(build.circuit.parameter_names, change[0], strict=False))


@pytest.mark.parametrize(
    "group, name, sense",
    [
        ("mains", "main.3.running_clearance", Sense.DIAMETRAL),
        ("pump body clearance", "pump.outer_rotor_clearance", Sense.DIAMETRAL),
        ("pump tip clearance", "pump.tip_clearance", Sense.RADIAL),
        ("pump end clearance", "pump.end_clearance", Sense.AXIAL),
    ],
)
def test_a_group_changes_by_what_is_said_as_its_clearance_is_stated(judge, group, name, sense):
    assert judge.sheet.fits[name].sense is sense
    moved = moved_by(build_of(judge, judge.sheet.circuit), WhatIf(clearance_changes={group: 2e-5}))
    assert moved[name] == pytest.approx(2e-5)


def test_a_fit_stated_on_the_radius_moves_by_half_of_a_change_on_the_diameter(judge):
    """The tip clearance of the sheet is radial; here it stands for the body's, which is diametral."""
    circuit = judge.sheet.circuit
    stage = replace(
        circuit.pumps["pressure"], body_clearance=Reference("pump.tip_clearance"), tip_clearance=None
    )
    build = build_of(judge, replace(circuit, pumps={"pressure": stage}))
    moved = moved_by(build, WhatIf(clearance_changes={"pump body clearance": 2e-5}))
    assert moved["pump.tip_clearance"] == pytest.approx(1e-5)


def test_a_shim_counts_once_where_two_relief_valves_have_one_preload(judge):
    circuit = judge.sheet.circuit
    main = circuit.reliefs["main"]
    build = build_of(judge, replace(circuit, reliefs={"main": main, "second": replace(main, id="second")}))
    moved = moved_by(build, WhatIf(shim=1e-3, seat_leak_lift=1e-5))
    assert moved["pump.relief_spring.preload_length"] == pytest.approx(1e-3)
    assert moved["reliefs.second.seat_leak_lift"] == pytest.approx(1e-5)


def test_a_turbocharger_keeps_its_feed_where_its_restrictor_is_left_out(judge):
    build = build_of(judge, judge.sheet.circuit)
    said = {each.id: each.title for each in faults_at(build, IDLE, WhatIf())}
    assert said["left out turbocharger"] == "Left out: Turbocharger feed, its restrictor"


def test_a_jet_that_opens_later_still_opens(judge):
    """Its full opening, 0.5 bar further on, moves with it: at a high pressure it gives the same."""
    build = build_of(judge, judge.sheet.circuit)
    plateau = OilPoint("pull", 6000 * pi / 30, 385.15)
    later = WhatIf(sizes={f"paths.jet.{each}.opening_pressure": 2.6e5 for each in range(1, 6)})
    assert moved_by(build, later)["paths.jet.1.full_pressure"] == pytest.approx(0.8e5)
    before, after = (
        float(build.solved([plateau], each).flow_in("paths.jet.1")[0, 0]) for each in (WhatIf(), later)
    )
    print(f"one jet on the plateau: {before * 1e6:.2f} mL/s, opening later {after * 1e6:.2f} mL/s")
    assert after == pytest.approx(before, rel=1e-6)


def test_a_jet_is_named_with_the_pressure_at_which_it_was_moved_to_open(judge):
    later = WhatIf(sizes={f"paths.jet.{each}.opening_pressure": 1.5e5 for each in range(1, 6)})
    said = OilDesk(oil_case(judge)).best(later).points[0].findings
    assert any(each.startswith("Jets that open at 1.5 bar (22 psi)") for each in said)


def test_a_valve_cannot_be_fully_open_before_it_opens(judge):
    build = build_of(judge, judge.sheet.circuit)
    with pytest.raises(OutOfDomainError, match="above the pressure at which it begins to open"):
        build.solved([IDLE], WhatIf(sizes={"paths.jet.1.full_pressure": 1.0e5}))
