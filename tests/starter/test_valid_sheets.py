"""Every starter sheet is a valid engine sheet: over a grid of engines, and over answers drawn at random."""

import pytest

from fitwright.formats.sheet.reader import check_sheet
from fitwright.starter.answers import Answers
from fitwright.starter.sheet import write_sheet


def problems_of(answers):
    return [str(problem) for problem in check_sheet(write_sheet(answers))[1]]


@pytest.mark.parametrize("bearings", ["plain", "white metal", "rolling"])
@pytest.mark.parametrize("units", ["mm", "inch"])
@pytest.mark.parametrize("arrangement", ["single", "twin", "inline", "vee", "flat"])
def test_a_bottom_end_is_valid(arrangement, units, bearings):
    assert not problems_of(Answers(name="Corrie", arrangement=arrangement, units=units, bearings=bearings))
