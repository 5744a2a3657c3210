# ruff: noqa: E501 - one row for each slip
"""Consumables, tightening groups and the order of work: what is read, and every slip told with its mend."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.formats.sheet import check_sheet, read_sheet
from fitwright.formats.sheet.diff import differences
from fitwright.formats.sheet.show import sheet_text
from fitwright.formats.sheet.writer import write_sheet
from fitwright.model.amount import Written
from fitwright.model.fastener import GripSection, Locking, Pass, TighteningMethod
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
        "  Joint sealant: sealant, workable for 10 min, hard after 24 h, not on oil drillings, batch and expiry are recorded",
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
        ('cautions = ["rolling_over"]\n', "", "step bottom_end: cautions: rolling_over taken out"),
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
