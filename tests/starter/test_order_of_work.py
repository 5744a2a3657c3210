"""The assembly of starter sheets: an order of work that can be walked for every layout, no maker's values."""

from __future__ import annotations

from functools import cache

import pytest

from fitwright.formats.sheet.reader import read_sheet
from fitwright.model.fastener import NOT_STATED
from fitwright.model.sheet import Sheet
from fitwright.model.step import PointKind
from fitwright.starter.answers import Answers
from fitwright.starter.plan import plan_of
from fitwright.starter.sheet import write_sheet
from tests.starter.grid import ENGINES, grid
from tests.support.walking import held_before, walked

GRID = tuple(grid())
each_engine = pytest.mark.parametrize("answers", GRID, ids=range(len(GRID)))


@cache
def sheet_of(answers: Answers) -> Sheet:
    return read_sheet(write_sheet(answers))


@each_engine
def test_every_step_can_be_done_in_turn(answers: Answers) -> None:
    sheet = sheet_of(answers)
    assert sorted(walked(sheet)) == sorted(sheet.steps)


@each_engine
def test_every_group_is_tightened_once_and_has_no_value_yet(answers: Answers) -> None:
    sheet = sheet_of(answers)
    tightened = [group for step in sheet.steps.values() for group in step.tightens]
    assert sorted(tightened) == sorted(sheet.tightening_groups)
    for group in sheet.tightening_groups.values():
        assert (group.thread, group.passes) == (NOT_STATED, ())
        assert (group.property_class, group.lubricant, group.source) == (None, None, None)
        places = {(each.x, each.y) for each in group.fasteners}
        assert len(places) in {1, len(group.fasteners)}


@each_engine
def test_steps_come_after_what_they_wait_for_in_the_file(answers: Answers) -> None:
    sheet = sheet_of(answers)
    turn = {name: number for number, name in enumerate(sheet.steps)}
    late = [
        (step.id, before)
        for step in sheet.steps.values()
        for before in step.after
        if turn[before] > turn[step.id]
    ]
    assert not late


@each_engine
def test_every_critical_fit_stops_something_before_a_hold_point(answers: Answers) -> None:
    """A critical fit is asked for by a hold point, or by a step that must be done before the last one."""
    sheet = sheet_of(answers)
    asked = {fit for step in sheet.steps.values() for fit in step.fits}
    critical = {fit.id for fit in sheet.fits.values() if fit.limit_class.value == "critical"}
    assert critical <= asked


HOLDS = {
    "all": {"bottom_end.looked_at", "oil_system.looked_at", "head.looked_at", "primed", "first_start.ready"},
    "bottom-end": {"bottom_end.looked_at"},
    "head": {"head.looked_at"},
    "pump": {"oil_system.looked_at"},
}
OF_A_PUMP = {"oil_system.looked_at", "primed"}


@each_engine
def test_hold_points_are_those_of_the_job(answers: Answers) -> None:
    sheet, plan = sheet_of(answers), plan_of(answers)
    holds = {step.id for step in sheet.steps.values() if step.point is PointKind.HOLD}
    assert holds == HOLDS[plan.only] - (OF_A_PUMP if plan.pump == "none" else set())
    if plan.only == "all":
        assert held_before(sheet, "first_start.run") == holds
    without = walked(sheet, released=False)
    assert "first_start.run" not in without


@each_engine
def test_one_time_parts_are_new_in_some_step(answers: Answers) -> None:
    sheet = sheet_of(answers)
    replaced = {part for step in sheet.steps.values() for part in step.replaces}
    assert replaced == {part.id for part in sheet.parts.values() if part.one_time_use}


@pytest.mark.parametrize("engine", ENGINES)
def test_what_is_hidden_was_looked_at_first(engine: str) -> None:
    sheet = sheet_of(ENGINES[engine])
    asked = {fit for step in sheet.steps.values() for fit in step.fits}
    hidden = {each for step in sheet.steps.values() for each in step.hides}
    assert {each for each in hidden if each in sheet.fits or each in sheet.dimensions} <= asked


@pytest.mark.parametrize("engine", ENGINES)
def test_a_whole_engine_has_an_order_of_work_of_fair_length(engine: str) -> None:
    keys = {step.family or step.id for step in sheet_of(ENGINES[engine]).steps.values()}
    print(f"{engine}: {len(keys)} steps")
    assert 18 <= len(keys) <= 36


@pytest.mark.parametrize(
    "engine, there, not_there",
    [
        ("iron four", {"main_caps", "rod_bolts", "head_bolts", "cam_caps", "flywheel"}, {"case_bolts"}),
        ("white metal four", {"main_caps", "rocker_pillars"}, {"cam_caps"}),
        ("flat six", {"case_bolts", "rod_bolts", "head_bolts.left", "cam_caps.right"}, {"main_caps"}),
        ("roller single", {"case_bolts", "head_bolts"}, {"main_caps", "rod_bolts", "flywheel"}),
        ("two-stroke twin", {"case_bolts", "head_bolts.2"}, {"rod_bolts", "pump_body", "cam_caps"}),
        ("boosted five", {"cam_caps.inlet", "cam_caps.exhaust", "damper_bolt"}, {"rocker_pillars"}),
        ("side valve", {"main_caps"}, {"rocker_pillars", "cam_caps"}),
    ],
)
def test_joints_are_those_of_the_layout(engine: str, there: set[str], not_there: set[str]) -> None:
    groups = set(sheet_of(ENGINES[engine]).tightening_groups)
    assert there <= groups
    assert not not_there & groups


def test_a_flat_engine_gets_its_rods_before_its_case_is_closed() -> None:
    steps = sheet_of(ENGINES["flat six"]).steps
    assert steps["crank.in"].after == ("rods.tightened",)
    assert "rods.tightened" not in steps["piston.1.in"].after
    caps = sheet_of(ENGINES["iron four"]).steps
    assert caps["rods.tightened"].after == tuple(f"piston.{number}.in" for number in range(1, 5))


def test_a_camshaft_in_the_block_is_in_before_the_pump_that_it_drives() -> None:
    steps = sheet_of(ENGINES["white metal four"]).steps
    assert "camshafts.in" in steps["pump.on"].after
    assert steps["camshafts.in"].after == ("mains.tightened",)
    assert "camshafts.in" not in sheet_of(ENGINES["iron four"]).steps["pump.on"].after


def test_the_text_says_what_to_fill_in() -> None:
    metric, inch = (write_sheet(ENGINES[name]) for name in ("iron four", "white metal four"))
    assert '# passes = [{ torque = ".. N m" }, { torque = ".. N m" }]' in metric
    assert '# passes = [{ torque = ".. lbf ft" }, { torque = ".. lbf ft" }]' in inch
    for text in (metric, inch):
        assert "No value yet. From your manual, with its page:" in text
        assert "\ntorque" not in text


def test_filled_in_lines_make_a_group_with_values() -> None:
    """The lines to fill in, uncommented in place, are a sound group."""
    text = write_sheet(ENGINES["iron four"])
    start = text.index("[tightening_groups.rod_bolts]")
    group = text[start : text.index("\n\n", start)]
    for line, filled in (
        ('# thread = "M.."', 'thread = "M9x1"'),
        ('# property_class = ".."', 'property_class = "12.9"'),
        ('# lubricant = "engine_oil"', 'lubricant = "engine_oil"'),
        ('# passes = [{ torque = ".. N m" }, { torque = ".. N m" }]', 'passes = [{ torque = "40 N m" }]'),
    ):
        assert line in group
        group = group.replace(line, filled)
    sheet = read_sheet(text[:start] + group + text[text.index("\n\n", start) :])
    rods = sheet.tightening_groups["rod_bolts"]
    assert (rods.thread, rods.property_class, len(rods.passes)) == ("M9x1", "12.9", 1)
