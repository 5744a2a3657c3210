# ruff: noqa: E501 - one row for each slip
"""Oils and the oil circuit of a sheet: what is read, and every slip told with its place and its mend."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.formats.sheet import check_sheet, read_sheet
from fitwright.formats.sheet.diff import differences
from fitwright.formats.sheet.editing import NewLimit, set_limit
from fitwright.formats.sheet.show import sheet_text
from fitwright.formats.sheet.writer import write_sheet
from fitwright.model.amount import Written
from fitwright.model.circuit import (
    Bearing,
    BearingFeed,
    InternalRotor,
    PathKind,
    PumpKind,
    Reference,
    StagePurpose,
    factor_between,
    given_sizes,
)
from fitwright.model.dimension import Sense
from fitwright.model.oil import OilBasis
from fitwright.model.sheet import Sheet

SHEET = Path(__file__).resolve().parents[1] / "data" / "sheets" / "oil.toml"


@pytest.fixture(scope="module")
def text() -> str:
    return SHEET.read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def sheet(text: str) -> Sheet:
    return read_sheet(text)


def changed(text: str, old: str, new: str) -> str:
    assert old in text, old
    return text.replace(old, new, 1)


def line_of(text: str, part: str) -> int:
    return text.count("\n", 0, text.index(part)) + 1


def test_the_planned_oil_is_found_and_each_says_what_it_rests_on(sheet: Sheet) -> None:
    assert sheet.oil is sheet.oils["race"]
    assert [oil.basis for oil in sheet.oils.values()] == [
        OilBasis.DATA_SHEET,
        OilBasis.GRADE,
        OilBasis.MEASURED,
    ]
    density = sheet.oils["race"].density_15
    assert density is not None
    assert density.si == 860.0


def test_the_sheet_has_every_kind_of_path_and_pump(sheet: Sheet) -> None:
    assert sheet.circuit is not None
    kinds = {path.kind for path in sheet.circuit.paths.values()}
    assert kinds == set(PathKind)
    assert {stage.kind for stage in sheet.circuit.pumps.values()} == set(PumpKind)


def test_a_size_is_an_amount_or_what_is_measured_for_it(sheet: Sheet) -> None:
    assert sheet.circuit is not None
    stage = sheet.circuit.pumps["pressure"]
    assert stage.end_clearance == Reference("pump.end_gap")
    assert stage.tip_clearance == Written("0.08 mm", 8e-5, "mm", 2)
    assert isinstance(stage.rotors, InternalRotor)
    assert (stage.rotors.inner_lobes, stage.purpose) == (4, StagePurpose.PRESSURE)
    relief = sheet.circuit.reliefs["main"]
    assert [round(shim.si, 9) for shim in relief.shims if isinstance(shim, Written)] == [0.0005, 0.0002]
    assert [name for name, _, _ in given_sizes(relief)].count("shims") == 2


def test_families_fill_nodes_titles_and_references(sheet: Sheet) -> None:
    assert sheet.circuit is not None
    feed = sheet.circuit.paths["pin.2.feed"]
    assert (feed.title, feed.from_node, feed.to_node) == ("Main 2 to its pin", "gallery.2", "pin.2")
    assert feed.family == "pin.{1..2}.feed"
    assert sheet.circuit.nodes[0] == "pump.inlet"
    assert "head" in sheet.circuit.nodes


def test_what_is_left_out_is_what_the_kind_has_usually(sheet: Sheet) -> None:
    assert sheet.circuit is not None
    paths = sheet.circuit.paths
    ratios = {
        name: element.speed_ratio
        for name, path in paths.items()
        if isinstance(element := path.element, Bearing)
    }
    assert (ratios["pin.1.bearing"], ratios["cam.1"], ratios["balancer"]) == (1.0, 0.5, 2.0)
    assert [paths[name].group for name in ("cam.1", "followers", "jet.1", "gallery")] == [
        "camshafts",
        "followers",
        "jets",
        "passages",
    ]
    cam = paths["cam.2"].element
    assert isinstance(cam, Bearing)
    assert cam.feed is BearingFeed.HOLE
    assert "speed_ratio = 2.0\n" in write_sheet(sheet)


def test_a_clearance_on_one_side_counts_twice_where_a_diametral_one_is_meant(sheet: Sheet) -> None:
    assert sheet.circuit is not None
    main = sheet.circuit.paths["main.2.bearing"].element
    (_, reference, rule), *_ = given_sizes(main)
    assert isinstance(reference, Reference)
    assert factor_between(sheet.fits[reference.subject].sense, rule.sense) == 2.0
    assert factor_between(Sense.LINEAR, rule.sense) == 1.0
    assert factor_between(Sense.DIAMETRAL, None) == 1.0


def test_a_crank_train_names_its_bearings_in_order(sheet: Sheet) -> None:
    assert sheet.circuit is not None
    train = sheet.circuit.crank_train
    assert train is not None
    assert train.mains == ("main.1.bearing", "main.2.bearing")
    assert train.big_ends == ("pin.1.bearing", "pin.2.bearing")
    assert [each.peak_pressure.written for each in train.gas_pressures] == ["20 bar", "75 bar"]
    assert train.pin_offset is not None
    assert train.pin_offset.si == pytest.approx(-0.0008)
    assert "[circuit.crank_train]\n" in write_sheet(sheet)


def test_a_slip_is_told_with_line_place_and_mend(text: str) -> None:
    slip = changed(
        text,
        'diametral_clearance = "main.1.running_clearance"',
        'diametral_clearance = "main.1.runing_clearance"',
    )
    (problem,) = check_sheet(slip, name="oil.toml")[1]
    assert str(problem) == (
        f"oil.toml:{line_of(slip, 'runing')}:23: oil path main.1.bearing, diametral_clearance: there is no fit "
        'or dimension "main.1.runing_clearance"; did you mean "main.1.running_clearance"?'
    )


SLIPS = [
    ('kinematic_viscosity_100 = "14.4 mm2/s"', "", "one kinematic viscosity of the data sheet is given, that at 100 degrees is missing"),
    ('kinematic_viscosity_100 = "14.4 mm2/s"', 'kinematic_viscosity_100 = "144 mm2/s"', "144 mm2/s is no such value of an engine oil"),
    ('density_15 = "860 kg/m3"', 'density_15 = "860 g/cm3"', "860 g/cm3 is no such value of an engine oil"),
    ('grade = "15W-40"', 'grade = "15W-45"', '"15W-45" is no grade of SAE J300'),
    ('grade = "15W-40"', "", "nothing says how thick this oil is"),
    ('measured_at = "40 degC"\n', "", "a measured viscosity without measured_at"),
    ("planned = true", "", "none of the oils is planned"),
    ('grade = "15W-40"', 'grade = "15W-40"\nplanned = true', "race is planned already"),
    ('gauge = "gallery.1"', 'gauge = "galery.1"', 'no path names the node "galery.1"'),
    ('gauge = "gallery.1"', 'guage = "gallery.1"', 'unknown key "guage"'),
    ('idle_speed = "1000 rpm"', 'idle_speed = "10000 rpm"', "10000 rpm is not below the top speed of 9000 rpm"),
    ('top_speed = "9000 rpm"', "top_speed = 9000", "a number without a unit"),
    ('oil_temperatures = ["90 degC", "110 degC"]', 'oil_temperatures = ["90 degC", "1100 degC"]', "1100 degC is far from anything in an oil circuit"),
    ('oil_temperatures = ["90 degC", "110 degC"]', "oil_temperatures = []", "an empty list"),
    ('surface_roughness = "0.4 um"', 'surface_roughness = "0 um"', '"0 um" is not above zero'),
    ('source = "manual", at', 'source = "board", at', "board is a source of kind shop, and no engine is stopped by that"),
    ('source = "manual", at', 'source = "manul", at', 'there is no source "manul"'),
    (', person = "Builder"', "", "nobody answers for this value"),
    ('person = "Builder"', 'person = "Builder", source = "manual"', "a source and a person"),
    ('lowest_pressure = "1 bar", speed = "1000 rpm",', 'lowest_pressure = "1 bar",', "a lowest pressure without the speed and oil temperature that it is for"),
    ('first_pressure_within = "10 s", person', "person", "a stop value that is not one thing"),
    ("outer_lobes = 5", "outer_lobes = 6", "6 outer lobes for 4 inner ones"),
    ('tooth_radius = "6 mm"', 'tooth_radius = "8 mm"', "30 mm is not twice generating radius less tooth radius plus eccentricity"),
    ('eccentricity = "2.5 mm"', 'eccentricity = "5 mm"', "5 mm is not a quarter of 30 mm less 20 mm"),
    ('kind = "internal rotor"', 'kind = "internal gear"', '"internal gear" is no word for this'),
    ("outer_teeth = 24", "outer_teeth = 20", "20 teeth in the ring leave no room for a crescent"),
    ('release_gauge_pressure = "-0.35 bar"', 'release_gauge_pressure = "0.35 bar"', "0.35 bar is no pressure between nothing and that of the air"),
    ("pump_stages = 2", "pump_stages = 3", "2 scavenge stages here, and 3 in the engine's layout"),
    ('purpose = "scavenge"\nspeed_ratio = 0.5\ninner', 'purpose = "scavenge"\nfrom = "sump"\nspeed_ratio = 0.5\ninner', "a scavenge stage has no nodes: it is counted in the ratio of displacements only"),
    ('from = "sump"\nto = "jets"', 'from = "sump"', 'a pressure stage without "to"'),
    ("without_relief = true\n", "", "no relief valve belongs to this pressure stage"),
    ("[circuit.reliefs.main]\n", '[circuit.reliefs.second]\ntitle = "Two"\nfrom = "gallery.1"\nto = "sump"\nspring_rate = "8 N/mm"\npreload_length = "7 mm"\nseat_diameter = "12 mm"\nfull_lift = "4 mm"\n\n[circuit.reliefs.main]\n', "a relief valve more than there are pressure stages (second is there)"),
    ('filling_area = "150 mm2"', 'filling_area = "150 mm2"\nwithout_relief = true', "main relieves it, and it says that it has no relief valve"),
    ('port_diameter = "4 mm"\n', "", "round ports without port_diameter"),
    ('land_length = "14 mm"', "", "plunger_clearance without land_length"),
    ('preload_length = "7 mm"', 'preload_length = "main.1.running_clearance"', "main.1.running_clearance is a clearance where a size belongs"),
    ('spring_rate = "pump.relief_spring.stiffness"', 'spring_rate = "main.1.journal"', "main.1.journal is stated as diametral where a spring rate belongs"),
    ('plunger_clearance = "0.04 mm"', 'plunger_clearance = "40 mm"', "40 mm is far from anything in an oil circuit"),
    ('end_clearance = "pump.end_gap"', 'end_clearance = "main.1.running_clearance"', "main.1.running_clearance is stated as diametral where axial is meant"),
    ('end_clearance = "pump.end_gap"', 'end_clearance = "main.1.journal"', "main.1.journal is no clearance"),
    ('shims = ["0.5 mm", "0.2 mm"]', 'shims = ["0.5 mm", "0.2 bar"]', '"0.2 bar" is a pressure where a length is wanted'),
    ('to = "pickup"', 'to = "pick up"', '"pick up" is no name of a node'),
    ('from = "pickup"\nto = "pump.inlet"', 'from = "pickup"\nto = "pickup"', "it leads from pickup back to pickup"),
    ('kind = "tensioner"\nfrom = "gallery.1"', 'kind = "tensioner"\nfrom = "galery.1"', 'no way leads from a pump to the node "galery.1"'),
    ('kind = "slot"\nfrom = "gallery.2"\nto = "sump"', 'kind = "slot"\nfrom = "gallery.2"\nto = "smup"', 'nothing else is joined to the node "smup", so no oil flows here'),
    ('kind = "tensioner"', 'kind = "tensoner"', '"tensoner" is no word for this'),
    ('line_length = "500 mm"', "", '"line_length" is missing'),
    ('line_length = "500 mm"', 'line_length = "500 mm"\nopening_pressure = "1 bar"', 'unknown key "opening_pressure"'),
    ('bypass_diameter = "12 mm"', "", "bypass_opening_pressure without bypass_diameter"),
    ('bypass_full_pressure = "2.5 bar"', 'bypass_full_pressure = "1.0 bar"', "1.5 bar is not below the bypass full pressure of 1.0 bar"),
    ('full_temperature = "92 degC"', 'full_temperature = "72 degC"', "80 degC is not below the full temperature of 72 degC"),
    ('groove_arc = "150 deg"\n', "", "a partial groove without groove_arc"),
    ('groove_width = "4 mm"\ngroove_arc', 'groove_width = "40 mm"\ngroove_arc', "40 mm is not below the length of 22 mm"),
    ('hole_diameter = "5 mm"', "", "a bearing fed by a hole without hole_diameter"),
    ('inertia_load_speed = "9000 rpm"', "", "inertia_load without inertia_load_speed"),
    ('inlet_radius = "25 mm"\ninnermost_radius = "0 mm"', 'inlet_radius = "25 mm"\ninnermost_radius = "30 mm"', "30 mm is not below the inlet radius of 25 mm"),
    ('innermost_radius = "0 mm"', 'innermost_radius = "-1 mm"', '"-1 mm" is below zero'),
    ('target_pressure = "3 bar"', "", "target_flow without target_pressure"),
    ("loss_coefficient = 1.5", "loss_coefficient = -1.5", "-1.5 is out of range"),
    ("eccentricity_ratio = 0.5", "eccentricity_ratio = 1.5", "1.5 is out of range"),
    ("count = 8", "count = 0", "0 is out of range"),
    ('[circuit.paths."jet.{1..2}"]', "[circuit.paths.jet.1]", "the id jet.1 has dots and stands without quotes"),
    ('[circuit.paths."jet.{1..2}"]', '[circuit.paths."cam.{2..3}"]', "cam.2 is given twice; line"),
    ('mains = "main.{1..2}.bearing"', 'mains = "main.{1..2}.bearng"', 'there is no oil path "main.1.bearng"'),
    ('mains = "main.{1..2}.bearing"', 'mains = "main.{1..}.bearing"', '"main.{1..}.bearing", character'),
    ('mains = "main.{1..2}.bearing"', 'mains = ["main.1.bearing", "main.1.bearing"]', "1 bearings here, and 2 main bearings in the engine's layout"),
    ('big_ends = "pin.{1..2}.bearing"', 'big_ends = ["pin.1.bearing", "jet.1"]', "jet.1 is a jet and no bearing"),
    ('big_ends = "pin.{1..2}.bearing"', 'big_ends = ["pin.1.bearing", "followers"]', "followers is a follower and no bearing"),
    ('bore = "80 mm"', "", "no bore, and none in the engine's layout"),
    ('rod_length = "130 mm"', 'rod_length = "70 mm"', "a rod of 70 mm for a stroke of 76 mm"),
    ('rotating_mass = "310 g"', 'rotating_mass = "310 kg"', "310 kg is far from anything in an oil circuit"),
    ('rotating_mass = "310 g"', 'rotating_mass = "main.1.journal"', "main.1.journal is stated as diametral where a mass belongs"),
    ("compression_ratio = 10.5", "compression_ratio = 105", "105 is far from anything in an oil circuit"),
    ("compression_exponent = 1.33", "compression_exponent = 1.8", "1.8 is out of range"),
    ('firing_angles = ["0 deg", "360 deg"]', "", "nothing says where the throws stand"),
    ('firing_angles = ["0 deg", "360 deg"]', 'firing_angles = ["0 deg"]', "1 firing angles for 2 cylinders"),
    ('{ speed = "1000 rpm"', '{ speed = "9500 rpm"', "9000 rpm after 9500 rpm"),
    ('peak_angle = "13 deg"', 'peak_angle = "130 deg"', "no pressure peaks 130 deg after the top"),
    ('peak_angle = "13 deg", ', "", '"peak_angle" is missing'),
]  # fmt: skip


@pytest.mark.parametrize("old, new, what", SLIPS, ids=[each[2][:40] for each in SLIPS])
def test_each_slip_is_told_once_and_says_what_to_write(text: str, old: str, new: str, what: str) -> None:
    slip = changed(text, old, new)
    sheet, problems = check_sheet(slip)
    assert sheet is None
    assert [problem for problem in problems if what in problem.what], [str(each) for each in problems]
    assert len({problem.line for problem in problems}) <= 3, [str(each) for each in problems]
    assert all(problem.path[0] in {"circuit", "oils"} for problem in problems)
    assert all(problem.accepted for problem in problems)


def test_all_slips_of_a_circuit_are_told_at_once(text: str) -> None:
    slips = [SLIPS[index] for index in (3, 17, 21, 35, 37, 48)]
    for old, new, _ in slips:
        text = changed(text, old, new)
    _, problems = check_sheet(text)
    assert len(problems) == len(slips)
    assert [each.line for each in problems] == sorted(each.line for each in problems)


@pytest.mark.parametrize("section", ["pumps", "reliefs", "paths"])
def test_a_section_that_is_no_table_is_told(text: str, section: str) -> None:
    slip = text[: text.index("[circuit]")] + '[circuit]\ngauge = "a"\nidle_speed = "900 rpm"\n'
    slip += f'top_speed = "9000 rpm"\noil_temperatures = "90 degC"\n{section} = 3\n'
    _, problems = check_sheet(slip)
    assert f"write [circuit.{section}.an_id] and its keys below" in [each.accepted for each in problems]


def test_a_circuit_without_a_pump_is_told(text: str) -> None:
    start, end = text.index("[circuit.pumps.pressure]"), text.index("[circuit.reliefs.main]")
    _, problems = check_sheet(text[:start] + text[end:].replace('from = "jets"', 'from = "gallery.1"'))
    assert "an oil circuit without a pump that feeds it" in [each.what for each in problems]


def test_a_circuit_that_is_no_table_is_told(text: str) -> None:
    slip = changed(text[: text.index("[circuit]")], "format = 1", "format = 1\ncircuit = 3")
    (problem,) = check_sheet(slip)[1]
    assert (problem.what, problem.accepted) == ("no table", "write [circuit] and its keys below")


def test_a_sheet_may_do_without_oil(text: str) -> None:
    sheet = read_sheet(text[: text.index("[oils.race]")].replace("pump_stages = 2", ""))
    assert (sheet.oil, sheet.circuit, sheet.oils) == (None, None, {})
    assert "circuit" not in write_sheet(sheet)


DIFFERENCES = [
    ('density_15 = "860 kg/m3"', 'density_15 = "870 kg/m3"', ("race: density 15 860 kg/m3 -> 870 kg/m3",)),
    ('fill = "7 L"', 'fill = "8 L"', ("circuit: fill 7 L -> 8 L",)),
    ('person = "Builder"', 'person = "Owner"', (
        "circuit: stops: (action investigate, first pressure within 10 s, person Builder) taken out",
        "circuit: stops: (action investigate, first pressure within 10 s, person Owner) added")),
    ('width = "20 mm"\necc', 'width = "22 mm"\necc', ("pump stage pressure: width 20 mm -> 22 mm",)),
    ('shims = ["0.5 mm", "0.2 mm"]', 'shims = ["0.5 mm"]', ("relief valve main: shims: 0.2 mm taken out",)),
    ('outlet_radius = "60 mm"', 'outlet_radius = "62 mm"', ("oil path pin.{1..2}.feed: outlet radius 60 mm -> 62 mm",)),
    ('diametral_clearance = "main.2.radial_clearance"', 'diametral_clearance = "main.2.running_clearance"', (
        "oil path main.2.bearing: diametral clearance main.2.radial_clearance -> main.2.running_clearance",)),
    ('stroke = "76 mm"', 'stroke = "78 mm"', ("circuit: crank train, stroke 76 mm -> 78 mm",)),
    ("[circuit.paths.cover_gap]", "[circuit.paths.end_gap]", ("oil path cover_gap: is now called end_gap",)),
]  # fmt: skip


@pytest.mark.parametrize("old, new, sentences", DIFFERENCES, ids=[each[1][:30] for each in DIFFERENCES])
def test_each_difference_has_its_sentence(
    text: str, sheet: Sheet, old: str, new: str, sentences: tuple[str, ...]
) -> None:
    assert differences(sheet, read_sheet(changed(text, old, new))) == sentences


def test_a_circuit_that_came_or_went_is_named(text: str, sheet: Sheet) -> None:
    without = read_sheet(text[: text.index("[circuit]")].replace("pump_stages = 2", ""))
    there, back = differences(without, sheet), differences(sheet, without)
    assert {"circuit: added", "oil path pin.{1..2}.feed: added", "relief valve main: added"} <= set(there)
    assert {"circuit: taken out", "pump stage pressure: taken out"} <= set(back)


def test_a_limit_is_set_beside_a_circuit(text: str, sheet: Sheet) -> None:
    more = set_limit(text, "main.{1..2}.running_clearance", NewLimit("manual", upper="0.06 mm"))
    assert read_sheet(more).circuit == sheet.circuit


def test_the_readable_form_names_oils_and_every_way_once(sheet: Sheet) -> None:
    text = sheet_text(sheet)
    for line in (
        "  Race oil: 105 mm2/s at 40 degC, 14.4 mm2/s at 100 degC, planned",
        "  Running-in oil: grade 15W-40, values in the middle of its range",
        "  What was in the drum: 95 mm2/s at 40 degC, measured",
        "  gauge at gallery.1, 1000 rpm to 9000 rpm, oil 90 degC, 110 degC",
        "  assumed: lengths of the drillings",
        "  stop: below 1 bar at 1000 rpm, 90 degC (manual p. 3)",
        "  investigate: no pressure within 10 s (Builder)",
        "  Pressure stage: internal rotor, pump.inlet to pump.outlet, pressure (by pump.end_gap)",
        "  Scavenge stage, rear: stated displacement, scavenge",
        "  Relief valve: relief valve, pump.outlet to pump.inlet (by pump.relief_spring.stiffness)",
        "  pin.{1..2}.feed: big-end feed, passages",
        "  followers: 8 times follower, head to sump, followers",
        "  main.1.bearing: bearing, gallery.1 to sump, mains (by main.1.running_clearance, main.1.journal)",
    ):
        assert f"\n{line}\n" in text, line
