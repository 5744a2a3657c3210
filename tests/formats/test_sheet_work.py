# ruff: noqa: E501 - one row for each slip
"""Consumables, tightening groups and the order of work: what is read, and every slip told with its mend."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from fitwright.formats.sheet import check_sheet, read_sheet
from fitwright.formats.sheet.diff import differences
from fitwright.formats.sheet.show import sheet_text
from fitwright.formats.sheet.writer import write_sheet
from fitwright.model.amount import Written
from fitwright.model.fastener import GripSection, Locking, Pass, TighteningMethod
from fitwright.model.group_cautions import group_cautions
from fitwright.model.sheet import Sheet
from fitwright.model.step import ConsumableKind, PhotoWanted, PointKind

SHEET = Path(__file__).resolve().parents[1] / "data" / "sheets" / "work.toml"


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


def names(sheet: Sheet, group: str) -> list[str]:
    return [each.id.rpartition(".")[2] for each in sheet.tightening_groups[group].fasteners]


def test_a_consumable_keeps_its_times(sheet: Sheet) -> None:
    sealant = sheet.consumables["sealant"]
    assert sealant.kind is ConsumableKind.SEALANT
    assert sealant.pot_life == Written("10 min", 600.0, "min", 0)
    assert sealant.cure_time is not None
    assert sealant.cure_time.si == 86400.0
    assert (sealant.not_on, sealant.source, sealant.place_in_source) == ("oil drillings", "manual", "p. 4")
    assert sealant.batch_wanted
    assert not sheet.consumables["locker"].batch_wanted
    assert sheet.consumables["paste"].friction == "assembly paste"


def test_a_group_of_a_family_has_the_fasteners_of_its_member(sheet: Sheet) -> None:
    group = sheet.tightening_groups["main_cap.2"]
    assert [each.id for each in group.fasteners] == ["main_cap.2.bolt.a", "main_cap.2.bolt.b"]
    assert (group.title, group.family) == ("Main cap 2", "main_cap.{1..2}")
    assert group.method is TighteningMethod.TORQUE_AND_ANGLE
    assert group.passes[0] == Pass(torque=Written("25 N m", 25.0, "N m", 0))
    assert group.passes[2].angle is not None
    assert group.passes[2].angle.si == pytest.approx(1.0471975512)
    assert (group.source, group.place_in_source, group.critical) == ("manual", "p. 9", True)


def test_rows_and_the_order_from_the_centre_outwards(sheet: Sheet) -> None:
    head = sheet.tightening_groups["head"]
    assert names(sheet, "head") == ["2", "5", "4", "1", "3", "6"]
    assert {each.id: (each.x, each.y) for each in head.fasteners}["head.bolt.3"] == (0.09, 0.035)
    assert head.passes[2].after_heat
    assert (head.tapped_in, head.clamped, head.blind) == ("aluminium", "aluminium", True)


def test_a_circle_and_the_order_crosswise(sheet: Sheet) -> None:
    flywheel = sheet.tightening_groups["flywheel"]
    assert names(sheet, "flywheel") == ["1", "4", "2", "5", "3", "6"]
    first = flywheel.fasteners[0]
    assert (first.x, first.y) == (0.015, 0.025980762)
    assert flywheel.passes == ()
    assert flywheel.locking is Locking.THREADLOCKER


def test_places_of_each_and_an_order_by_name(sheet: Sheet) -> None:
    assert names(sheet, "pump") == ["2", "1", "3"]
    assert [(each.x, each.y) for each in sheet.tightening_groups["pump"].fasteners] == [
        (0.0, 0.0175),
        (-0.02, 0.0),
        (0.02, 0.0),
    ]


def test_stretch_and_grip(sheet: Sheet) -> None:
    rod = sheet.tightening_groups["rod"]
    assert rod.grip == (
        GripSection(Written("24 mm", 0.024, "mm", 0), Written("7 mm", 0.007, "mm", 0)),
        GripSection(Written("10 mm", 0.01, "mm", 0)),
    )
    window = rod.passes[1]
    assert window.stretch_low is not None
    assert window.stretch_high is not None
    assert (window.stretch_low.si, window.stretch_high.si) == (0.00012, 0.00014)
    assert window.upto is not None
    assert window.upto.si == 46.0
    assert rod.fasteners[0].x is None


def test_a_step_says_what_it_waits_for_and_what_it_hides(sheet: Sheet) -> None:
    close = sheet.steps["main.2.close"]
    assert (close.fits, close.tightens) == (("main.2.running_clearance",), ("main_cap.2",))
    assert close.photos == (PhotoWanted("cap", "The arrow on cap 2."),)
    step = sheet.steps["bottom_end"]
    assert step.after == ("main.1.close", "main.2.close")
    assert (step.point, step.invited) == (PointKind.HOLD, "second person")
    assert step.hides[-1] == "main_cap.2"
    assert sheet.steps["sump_on"].point is PointKind.WITNESS


def test_what_is_written_reads_back_equal(sheet: Sheet) -> None:
    written = write_sheet(sheet)
    assert read_sheet(written) == sheet
    assert '[tightening_groups."main_cap.{1..2}"]' in written
    assert '[steps."main.{1..2}.close"]' in written


def test_the_sheet_is_shown_in_words(sheet: Sheet) -> None:
    shown = sheet_text(sheet)
    for line in (
        "  Joint sealant: sealant, workable for 10 min, cured after 24 h, not on oil drillings, batch and expiry are recorded",
        "  main_cap.{1..2}: Main cap 1, 2 of M10x1.25, 10.9, with Assembly paste, critical",
        "    torque and angle: 25 N m; then 40 N m; then 60 deg further (manual p. 9)",
        "    stretch: 20 N m; then stretch 0.12 mm to 0.14 mm, cross-check 38 N m to 46 N m",
        "    torque: 20 N m; then 45 N m; then 45 N m, after a heat cycle",
        "    torque: no value yet",
        "    in this order: pump.bolt.2, pump.bolt.1, pump.bolt.3",
        "    Caution: Stop where a bolt turns on without getting tighter.",
        "    bottom_end: Bottom end before it is closed (hold point, second person invited)",
        "    sump_on: Sump on (witness point, nobody in particular invited)",
        "      waits for: after bottom_end; tightened rod",
        "      tightens head; new head_gasket",
        "      photo main.1.close/cap: The arrow on cap 1.",
    ):
        assert f"\n{line}\n" in shown, line


@pytest.mark.parametrize(
    "old, new, sentence",
    [
        ('"40 N m" }', '"42 N m" }', "tightening group main_cap.{1..2}: pass 2, torque 40 N m -> 42 N m"),
        (
            'cure_time = "24 h"\nnot_on',
            'cure_time = "12 h"\nnot_on',
            "consumable sealant: cure time 24 h -> 12 h",
        ),
        ('cautions = ["engine_stand"]\n', "", "step bottom_end: cautions: engine_stand taken out"),
        ('point = "witness point"\n', "", "step sump_on: point witness point -> none"),
        (
            'order = "crosswise"\n',
            "",
            "tightening group flywheel: fasteners: another order, flywheel.bolt.1, flywheel.bolt.2",
        ),
        ('circle = "60 mm"', 'circle = "64 mm"', "tightening group flywheel: pattern, x:"),
    ],
)
def test_differences_are_told(text: str, sheet: Sheet, old: str, new: str, sentence: str) -> None:
    found = differences(sheet, read_sheet(changed(text, old, new)))
    assert any(sentence in each for each in found), found


SLIPS = [
    ('kind = "sealant"', 'kind = "glue"', 'consumable sealant, kind: "glue" is no word for this'),
    ('pot_life = "10 min"', 'pot_life = "10 mm"', "consumable sealant, pot_life: "),
    ("columns = 3,", "columns = 4,", "tightening group head, pattern: 8 places for 6 fasteners"),
    ('column_spacing = "90 mm"', 'column_spacing = ["90 mm"]', None),
    ('column_spacing = "90 mm"', 'column_spacing = ["90 mm", "85 mm", "80 mm"]', "tightening group head, pattern, column_spacing: 3 distances for 3 columns; write one distance, or 2 of them"),
    ('circle = "60 mm", first_at', 'circle = "60 mm", rows = 2, first_at', "tightening group flywheel, pattern: circle and rows are all given"),
    ('circle = "60 mm", first_at', "first_at", "tightening group flywheel, pattern: first_at without a circle"),
    ('pattern = { circle = "60 mm", first_at = "30 deg" }\n', "", 'tightening group flywheel, order: the order "crosswise" comes from a pattern'),
    ('y = ["0 mm", "17.5 mm", "0 mm"]', 'y = ["0 mm", "17.5 mm"]', "tightening group pump, pattern: 3 of x and 2 of y"),
    ('"pump.bolt.{1,3}"]', '"pump.bolt.{1,4}"]', 'tightening group pump, order: "pump.bolt.4" is no fastener of this group; did you mean "pump.bolt.'),
    ('"pump.bolt.{1,3}"]', '"pump.bolt.{1,2,3}"]', 'tightening group pump, order: "pump.bolt.2" stands twice in the order'),
    ('"pump.bolt.{1,3}"]', '"pump.bolt.1"]', 'tightening group pump, order: the order leaves out "pump.bolt.3"'),
    ('fasteners = ["rod.bolt.{a,b}"]', "fasteners = []", "tightening group rod, fasteners: a list of 0"),
    ('fasteners = ["rod.bolt.{a,b}"]', 'fasteners = ["Rod bolt"]', 'tightening group rod, fasteners: "Rod bolt" is no id'),
    ('torque = "20 N m" }, { torque = "45', 'torque = "20 mm" }, { torque = "45', "tightening group head, pass 1, torque: "),
    ('length = "24 mm"', 'length = "0 mm"', 'tightening group rod, grip 1, length: "0 mm" is not above zero'),
    ('{ id = "cap",', '{ id = "The cap",', 'step main.{1..2}.close, photos: "The cap" is no id'),
    ('point = "hold point"', 'point = "halt"', 'step bottom_end, point: "halt" is no word for this'),
    ('stage = "Head"\n', "", 'step head_on, stage: "stage" is missing'),
    ('locking = "threadlocker"', 'locking = "glue"', "tightening group flywheel, locking"),
    # what names something else
    ('source = "manual"\nat = "p. 4"', 'source = "manul"', 'consumable sealant, source: there is no source "manul"; did you mean "manual"?'),
    ('source = "manual"\nat = "p. 9"', 'source = "manul"', 'tightening group main_cap.{1..2}, source: there is no source "manul" (and so for 1 more of this family)'),
    ('tapped_in = "aluminium"', 'tapped_in = "aluminum"', 'tightening group head, tapped_in: there is no material "aluminum"; did you mean "aluminium"?'),
    ('clamped = "aluminium"', 'clamped = "wood"', 'tightening group head, clamped: there is no material "wood"; add it, or take it out here'),
    ('fits = ["main.{}.running_clearance"]', 'fits = ["main.{}.clearance"]', 'step main.{1..2}.close, fits: there is no fit or dimension "main.1.clearance" (and so for 1 more of this family); did you mean "main.1.running_clearance"?'),
    ('tightens = ["rod"]', 'tightens = ["rods"]', 'step bottom_end, tightens: there is no tightening group "rods"; did you mean "rod"?'),
    ('tightened = ["rod"]', 'tightened = ["rods"]', 'step head_on, tightened: there is no tightening group "rods"'),
    ('after = ["bottom_end"]', 'after = ["bottom_and"]', 'step head_on, after: there is no step "bottom_and"; did you mean "bottom_end"?'),
    ('eye_checks = ["bottom_end.oil_holes"]', 'eye_checks = ["oil_holes"]', 'step bottom_end, eye_checks: there is no eye check "oil_holes"; did you mean "bottom_end.oil_holes"?'),
    ('replaces = ["head_gasket"]', 'replaces = ["gasket"]', 'step head_on, replaces: there is no part (or group/fastener) "gasket"'),
    ('replaces = ["head_gasket"]', 'replaces = ["flywheel/flywheel.bolt.{1..6}"]', None),
    ('replaces = ["head_gasket"]', 'replaces = ["crank"]', 'step head_on, replaces: "crank" may be used again, for all that the sheet says; write one_time_use'),
    ('uses = ["sealant"]', 'uses = ["sealer"]', 'step sump_on, uses: there is no consumable "sealer"; did you mean "sealant"?'),
    ('cured = ["locker"]', 'cured = ["lock"]', 'step sump_on, cured: there is no consumable "lock"; did you mean "locker"?'),
    ('hides = ["main.{1..2}.running_clearance", "main_cap.{1..2}"]', 'hides = ["main.1", "case", "main.1.bore"]', 'step bottom_end, hides: there is no fit, dimension, part or tightening group "main.1"'),
    # tightening groups by themselves
    ('fasteners = ["rod.bolt.{a,b}"]', 'fasteners = ["head.bolt.1"]', 'tightening group rod, fasteners: "head.bolt.1" belongs to the tightening group head already; name it in one of them'),
    ('fasteners = ["rod.bolt.{a,b}"]', 'fasteners = ["rod.bolt.{a,b}", "rod.bolt.a"]', 'tightening group rod, fasteners: "rod.bolt.a" is named 2 times; name it once'),
    ('{ torque = "45 N m", after_heat = true }', "{ after_heat = true }", "tightening group head, pass 3: this pass asks for nothing"),
    ('{ torque = "45 N m" }, {', '{ torque = "15 N m" }, {', "tightening group head, pass 2, torque: 15 N m after 20 N m in the pass before; write passes rising"),
    ('{ torque = "20 N m" }, { torque = "45 N m" }, { torque = "45 N m", after_heat = true }', '{ torque = "20 N m", after_heat = true }, { torque = "45 N m" }', "tightening group head, pass 2: a pass before the heat cycle stands after one that follows it"),
    ('upto = "46 N m"', 'upto = "36 N m"', "tightening group rod, pass 2, upto: 36 N m is not above 38 N m; write the lower end first"),
    ('torque = "38 N m", upto', "upto", "tightening group rod, pass 2, upto: an upper end without a torque"),
    ('stretch_low = "0.12 mm", stretch_high = "0.14 mm"', 'stretch_low = "0.14 mm", stretch_high = "0.12 mm"', "tightening group rod, pass 2, stretch_high: 0.12 mm is not above 0.14 mm"),
    (', stretch_low = "0.12 mm"', "", "tightening group rod, pass 2: half a window: stretch_low is missing; write stretch_low = ..."),
    ('method = "stretch"\n', "", 'tightening group rod, method: a stretch among the passes of the method torque; write method = "stretch"'),
    ('method = "torque and angle"\n', "", "tightening group main_cap.{1..2}, method: an angle among the passes of the method torque"),
    ('{ angle = "60 deg" }', '{ torque = "45 N m" }', "tightening group main_cap.{1..2}, method: the method torque and angle without an angle"),
    ('{ torque = "25 N m" }, { torque = "40 N m" }, {', "{", "tightening group main_cap.{1..2}, pass 1, angle: an angle, and nothing says from which torque it is turned"),
    ('passes = [{ torque = "20 N m" }, { torque = "38 N m", upto = "46 N m", stretch_low = "0.12 mm", stretch_high = "0.14 mm" }]', 'passes = [{ torque = "20 N m" }]', "tightening group rod, method: the method stretch without a stretch"),
    ('bearing_diameter_outer = "14 mm"\n', "", "tightening group head: half a face: bearing_diameter_outer is missing"),
    ('bearing_diameter_outer = "14 mm"', 'bearing_diameter_outer = "9 mm"', "tightening group head, bearing_diameter_outer: a face of 9 mm around a hole of 9.5 mm"),
    # what stands in tables
    ('thread = "M9x1.25"', 'thread = "M9x1.2"', 'tightening group head, thread: no table has the thread "M9x1.2"; write "M9", "M9x1" or "M9x0.75"'),
    ('thread = "M9x1.25"', 'thread = "9x1.25"', 'tightening group head, thread: no table has the thread "9x1.25"'),
    ('thread = "M9x1.25"', 'thread = "2BA"', None),
    ('thread = "M9x1.25"\nproperty_class = "10.9"', 'thread = "M9"\nproperty_class = "10.8"', 'tightening group head, property_class: no table has the property class "10.8"; write "10.9'),
    ('thread = "M9x1.25"\nproperty_class = "10.9"', 'thread = "M9"\nproperty_class = "high-tensile"', None),
    ('thread = "M9x1.25"\nproperty_class = "10.9"', 'thread = "M20"\nproperty_class = "9.8"', "tightening group head, property_class: property class 9.8 is not made 20 mm thick; check class and thread"),
    ('passes = [{ torque = "9.5 N m" }]', 'passes = [{ torque = "95 lbf ft" }]', "tightening group pump, pass 1, torque: 95 lbf ft is too large for M6x1.0; check number and unit (N m, lbf ft, lbf in)"),
    ('passes = [{ torque = "9.5 N m" }]', 'passes = [{ torque = "95 lbf in" }]', None),
    ('passes = [{ torque = "9.5 N m" }]', 'passes = [{ torque = "0.1 N m" }]', "tightening group pump, pass 1, torque: 0.1 N m is too small for M6x1.0"),
    ('lubricant = "engine oil"', 'lubricant = "pasta"', 'tightening group head, lubricant: "pasta" is no consumable and no usual lubricant; did you mean "paste"?'),
    ('friction = "assembly paste"', 'friction = "honey"', 'consumable paste, friction: "honey" is no usual lubricant; write '),
    ('cautions = ["engine_stand"]', 'cautions = ["engine stand"]', 'step bottom_end, cautions: there is no caution "engine stand"; did you mean "engine_stand"?'),
    # steps by themselves
    ('note = "Washers all the same way round."', 'invited = "a friend"', "step head_on, invited: a friend is invited, and it is no hold point or witness point"),
    ('words = "The arrow on cap {}." }]', 'words = "The arrow." }, { id = "cap", words = "The cap." }]', 'step main.{1..2}.close, photos: the photo "cap" is named twice'),
    ('tightened = ["rod"]', 'tightened = ["rod", "head"]', 'step head_on, tightened: "head" is to be tightened before this step, and in it'),
]  # fmt: skip


@pytest.mark.parametrize("old, new, told", SLIPS)
def test_every_slip_is_told_with_its_line(text: str, old: str, new: str, told: str | None) -> None:
    _, problems = check_sheet(changed(text, old, new))
    if told is None:
        assert problems == ()
        return
    assert any(str(problem).partition(": ")[2].startswith(told) for problem in problems), problems
    heading = line_of(text, old)
    assert all(abs(problem.line - heading) <= 12 for problem in problems), problems


def test_several_slips_are_told_at_once(text: str) -> None:
    wrong = changed(
        changed(text, 'order = "crosswise"', 'order = "crossways"'), 'kind = "sealant"', "kind = 1"
    )
    _, problems = check_sheet(wrong)
    assert len(problems) >= 2
    assert [problem.line for problem in problems] == sorted(problem.line for problem in problems)


@pytest.mark.parametrize(
    "changes, told",
    [
        (
            [('after = ["main.{1..2}.close"]', 'after = ["sump_on"]')],
            "step bottom_end, after: none of these can begin: bottom_end waits for sump_on, and sump_on waits for bottom_end; take one of them out",
        ),
        (
            [('fits = ["main.{}.running_clearance"]', 'after = ["head_on"]')],
            "step main.{1..2}.close, after: none of these can begin: main.1.close waits for head_on, and head_on waits for bottom_end, and bottom_end waits for main.1.close",
        ),
        (
            [('fits = ["main.{}.running_clearance"]', 'after = ["main.1.close"]')],
            "step main.{1..2}.close, after: none of these can begin: main.1.close waits for main.1.close",
        ),
        (
            [('fits = ["main.{}.running_clearance"]', 'tightened = ["head"]')],
            "step main.{1..2}.close, tightened: none of these can begin: main.1.close waits for head_on, and",
        ),
    ],
)
def test_a_circle_of_waiting_is_told_in_words(text: str, changes: list[tuple[str, str]], told: str) -> None:
    for old, new in changes:
        text = changed(text, old, new)
    _, problems = check_sheet(text)
    assert [str(problem).partition(": ")[2].startswith(told) for problem in problems] == [True], problems


def test_a_group_tightened_in_two_steps_makes_no_circle(text: str) -> None:
    again = '\n[steps.head_again]\ntitle = "Head again"\nstage = "After the run"\nafter = ["sump_on"]\ntightens = ["head"]\n'
    waiting = changed(text, 'cured = ["locker"]', 'tightened = ["head"]')
    sheet, problems = check_sheet(waiting + again)
    assert problems == ()
    assert sheet is not None


def test_threadlocker_on_a_joint_that_is_tightened_again_is_cautioned(text: str, sheet: Sheet) -> None:
    assert list(group_cautions(sheet.tightening_groups["flywheel"], sheet)) == []
    for old, new in (
        ('lubricant = "engine oil"', 'lubricant = "locker"'),
        ('lubricant = "engine oil"', 'lubricant = "engine oil"\nlocking = "threadlocker"'),
    ):
        locked = read_sheet(changed(text, old, new))
        told = list(group_cautions(locked.tightening_groups["head"], locked))
        assert told[0] == "Stop where a bolt turns on without getting tighter."
        assert told[1].startswith("Threadlocker on a joint that is tightened again after a heat cycle")
        assert f"    Caution: {told[1]}\n" in sheet_text(locked)


def test_the_assembly_needs_no_tables_where_there_is_none() -> None:
    code = (
        "import sys; from fitwright.formats.sheet import read_sheet; "
        f"read_sheet(open({str(SHEET.with_name('small.toml'))!r}, encoding='utf-8').read()); "
        "sys.exit('fitwright.data.threads' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
