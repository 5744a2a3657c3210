"""What a torque would do before it is recorded."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.assess.assembly.results import Side
from fitwright.assess.assembly.torque_effect import torque_effect
from fitwright.model.fastener import Fastener, TighteningGroup
from tests.support.assembly import assembling

SHEET = assembling().sheet
CAPS = SHEET.tightening_groups["caps"]
RODS = SHEET.tightening_groups["rods"]


def test_the_sheet_s_own_torque_needs_nobody_s_permission():
    found = torque_effect(SHEET, CAPS, torque=52.0)
    assert (found.side, found.wants_permission) == (None, False)
    assert found.against_sheet == pytest.approx(0.0, abs=1e-12)
    assert found.words[0].startswith("Calculated from friction you chose")
    assert "it governs" in found.caution


def test_above_the_sheet_shows_utilisation_and_stripping_margin():
    found = torque_effect(SHEET, CAPS, torque=60.0)
    assert (found.side, found.wants_permission) == (Side.ABOVE, True)
    said = " ".join(found.words)
    for words in ("% of yield", "of proof load", "The thread strips at", "more than the sheet's"):
        assert words in said


def test_far_above_says_that_it_may_yield_and_strips_first():
    said = torque_effect(SHEET, CAPS, torque=90.0).words
    assert (
        said[0] == "At the upper end of the band it may yield: then it is scrap, unless it is made for that."
    )
    assert any("before it is reached" in words for words in said)


def test_an_earlier_pass_is_held_against_its_own_figure():
    assert torque_effect(SHEET, CAPS, torque=25.0, number=1).side is None
    assert torque_effect(SHEET, CAPS, torque=25.0).side is Side.BELOW


def test_another_lubricant_tells_the_torque_of_equal_preload():
    found = torque_effect(SHEET, CAPS, torque=52.0, lubricant="engine oil")
    assert (found.side, found.other_lubricant) == (Side.OTHERWISE, True)
    equal = torque_effect(SHEET, CAPS, torque=found.equal_torque, lubricant="engine oil")
    assert equal.against_sheet == pytest.approx(0.0, abs=1e-9)


def test_a_stretch_says_more_than_the_torque_beside_it():
    found = torque_effect(SHEET, RODS, torque=50.0, stretch=0.118e-3)
    assert found.side is Side.BELOW
    assert found.against_sheet < -0.2


def test_without_a_lubricant_a_torque_says_no_preload():
    bare = TighteningGroup(id="x", title="X", thread="M8", fasteners=(Fastener("a"),))
    found = torque_effect(SHEET, bare, torque=20.0)
    assert found.preload is None
    assert "half a specification" in found.not_computed
    strange = TighteningGroup(id="x", title="X", thread="M8 of sorts", fasteners=(), lubricant="engine oil")
    assert "is not known" in torque_effect(SHEET, strange, torque=20.0).not_computed


@given(st.floats(1.0, 200.0), st.floats(1.0, 200.0))
def test_more_torque_is_more_of_everything(one, other):
    low, high = (torque_effect(SHEET, CAPS, torque=each).preload for each in sorted((one, other)))
    assert low.preload <= high.preload
    assert low.yield_utilisation <= high.yield_utilisation
    assert low.stripping_margin >= high.stripping_margin
