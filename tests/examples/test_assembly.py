"""The assembly of the example sheets: the joints of the manuals, an order of work that can be walked."""

from __future__ import annotations

import pytest

from fitwright.data.cautions import cautions
from fitwright.data.fasteners import lubricant_of, property_class_of, usual_bearing
from fitwright.data.threads import thread_of
from fitwright.examples import EXAMPLES, sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.formats.sheet.writer import write_sheet
from fitwright.model.fastener import TighteningGroup, TighteningMethod
from fitwright.model.sheet import Sheet
from fitwright.model.step import PointKind
from fitwright.physics.fasteners.band import preload_band
from fitwright.physics.fasteners.friction import Bearing
from fitwright.physics.fasteners.stress import utilisation
from tests.support.walking import held_before, walked

JOINTS = {
    "corrie-five": {
        "main_caps": ("M10x1.25", "10.9", 12, ["25 N m", "45 N m", "52 N m"]),
        "rod_bolts": ("M9x1.0", "12.9", 10, ["20 N m", "42 N m"]),
        "head_nuts": ("M11x1.5", "12.9", 12, ["30 N m", "55 N m", "75 N m", "75 N m"]),
        "cam_caps": ("M6x1.0", "8.8", 24, ["5 N m", "10 N m"]),
        "flywheel": ("M10x1.25", "12.9", 8, ["30 N m", "65 N m"]),
        "damper_bolt": ("M14x1.5", "12.9", 1, ["180 N m"]),
        "pump_body": ("M6x1.0", "8.8", 7, ["5 N m", "9.5 N m"]),
        "pump_cover": ("M5x0.8", "8.8", 6, ["2.5 N m", "5 N m"]),
        "pickup": ("M6x1.0", "8.8", 3, ["9.5 N m"]),
        "jet_bolts": ("M8x1.0", "8.8", 5, ["16 N m"]),
    },
    "brackengill-eleven": {
        "main_caps": ("3/8 BSF", "8.8", 6, ["14 lbf ft", "28 lbf ft"]),
        "big_end_bolts": ("5/16 BSF", "8.8", 8, ["9 lbf ft", "18 lbf ft"]),
        "head_nuts": ("7/16 BSF", "6.8", 14, ["18 lbf ft", "30 lbf ft", "42 lbf ft", "42 lbf ft"]),
        "flywheel": ("3/8 BSF", "8.8", 6, ["15 lbf ft", "30 lbf ft"]),
        "pump_body": ("5/16 BSF", "6.8", 3, ["6 lbf ft", "12 lbf ft"]),
        "pump_cover": ("1/4 BSF", "6.8", 5, ["30 lbf in", "60 lbf in"]),
        "rocker_pillars": ("5/16 BSF", "6.8", 4, ["6 lbf ft", "12 lbf ft"]),
    },
}
"""Joint: thread, class, how many, torques of the passes as written."""

HOLDS = {
    "bottom_end.looked_at": "sump.on",
    "oil_system.looked_at": "sump.on",
    "head.looked_at": "covers.on",
    "primed": "cranked",
    "first_start.ready": "first_start.run",
}
"""Hold points, each with the step that must not be done before it."""


def sheet_of(name: str) -> Sheet:
    return read_sheet(sheet_text(name), name=f"{name}/sheet.toml")


@pytest.mark.parametrize("name", EXAMPLES)
def test_joints_are_those_of_the_makers_table(name: str) -> None:
    found = {
        group.id: (
            group.thread,
            group.property_class,
            len(group.fasteners),
            [each.torque.written for each in group.passes if each.torque is not None],
        )
        for group in sheet_of(name).tightening_groups.values()
    }
    assert found == JOINTS[name]


def test_rod_bolts_of_the_corrie_go_by_their_stretch() -> None:
    rods = sheet_of("corrie-five").tightening_groups["rod_bolts"]
    last = rods.passes[-1]
    assert rods.method is TighteningMethod.STRETCH
    written = [
        each and each.written for each in (last.stretch_low, last.stretch_high, last.torque, last.upto)
    ]
    assert written == ["0.140 mm", "0.160 mm", "42 N m", "50 N m"]
    grip = [(each.length.written, each.diameter and each.diameter.written) for each in rods.grip]
    assert grip == [("26 mm", "7.8 mm"), ("12 mm", None)]


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_joint_has_places_a_source_and_metals(name: str) -> None:
    for group in sheet_of(name).tightening_groups.values():
        assert group.source == "manual"
        assert group.lubricant is not None
        assert group.clamped is not None
        places = [(each.x, each.y) for each in group.fasteners]
        assert None not in {x for x, _ in places} | {y for _, y in places}
        assert len(set(places)) == len(places), group.id


def share_of_yield(group: TighteningGroup, sheet: Sheet) -> float:
    """Stress over yield strength at the greatest torque of the sheet, with usual friction."""
    thread = thread_of(group.thread)
    consumable = sheet.consumables.get(group.lubricant or "")
    friction = lubricant_of((consumable.friction if consumable else group.lubricant) or "").friction
    outer, hole = group.bearing_diameter_outer, group.bearing_diameter_hole
    face = Bearing(outer.si, hole.si) if outer and hole else usual_bearing(thread).bearing
    torque = max(each.si for one in group.passes for each in (one.torque, one.upto) if each is not None)
    preload = preload_band(thread, face, friction, torque).preload
    shank = min((each.diameter.si for each in group.grip if each.diameter is not None), default=None)
    strength = property_class_of(group.property_class or "", thread).strength
    return utilisation(
        thread, strength, friction.usual.thread, preload, shank_diameter=shank
    ).yield_utilisation


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_joint_of_the_sheet_yields_and_none_is_slack(name: str) -> None:
    sheet = sheet_of(name)
    for group in sheet.tightening_groups.values():
        share = share_of_yield(group, sheet)
        print(f"{name} {group.id}: {share:.2f} of yield")
        assert 0.3 < share < 0.95, group.id


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_step_can_be_done_in_turn(name: str) -> None:
    sheet = sheet_of(name)
    assert sorted(walked(sheet)) == sorted(sheet.steps)
    assert 25 <= len({step.family or step.id for step in sheet.steps.values()}) <= 36


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_passes_a_hold_point(name: str) -> None:
    sheet = sheet_of(name)
    holds = {step.id for step in sheet.steps.values() if step.point is PointKind.HOLD}
    assert holds == set(HOLDS)
    for hold, behind in HOLDS.items():
        assert hold in held_before(sheet, behind)
        assert sheet.steps[hold].invited == "a second person"
    without = walked(sheet, released=False)
    assert not set(HOLDS.values()) & set(without)
    assert "bottom_end.looked_at" in without


@pytest.mark.parametrize("name", EXAMPLES)
def test_first_start_waits_for_every_hold_point(name: str) -> None:
    assert held_before(sheet_of(name), "first_start.run") == set(HOLDS)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_group_is_tightened_and_every_consumable_used(name: str) -> None:
    sheet = sheet_of(name)
    steps = sheet.steps.values()
    assert {group for step in steps for group in step.tightens} == set(sheet.tightening_groups)
    used = {each for step in steps for each in step.uses}
    named = {group.lubricant for group in sheet.tightening_groups.values()}
    assert used >= set(sheet.consumables)
    assert named & set(sheet.consumables) <= used
    twice = [group for group in sheet.tightening_groups if sum(group in step.tightens for step in steps) > 1]
    assert twice == ["head_nuts"]


@pytest.mark.parametrize("name", EXAMPLES)
def test_one_time_parts_are_new_and_dangerous_work_is_cautioned(name: str) -> None:
    sheet = sheet_of(name)
    replaced = {part for step in sheet.steps.values() for part in step.replaces}
    shells = {part for part in sheet.parts if "shell" in part}
    once = {part.id for part in sheet.parts.values() if part.one_time_use}
    assert once - shells <= replaced
    told = {key for step in sheet.steps.values() for key in step.cautions}
    assert told <= set(cautions())
    assert told >= {"lifting", "engine_stand", "springs", "priming", "first_start", "over_tightening", "fuel"}


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_is_hidden_was_asked_for_before(name: str) -> None:
    """Nothing limited is hidden without a step that waits for it, there or before."""
    sheet = sheet_of(name)
    asked = {each for step in sheet.steps.values() for each in step.fits}
    hidden = {each for step in sheet.steps.values() for each in step.hides if each in sheet.fits}
    assert hidden <= asked


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_whole_sheet_is_written_and_read_back(name: str) -> None:
    sheet = sheet_of(name)
    assert read_sheet(write_sheet(sheet)) == sheet
