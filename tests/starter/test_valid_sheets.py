"""Every starter sheet is a valid engine sheet: over a grid of engines, and over answers drawn at random."""

import pytest

from fitwright.formats.sheet.reader import check_sheet
from fitwright.starter.sheet import write_sheet
from tests.starter.grid import grid

GRID = tuple(grid())


def problems_of(answers):
    return [str(problem) for problem in check_sheet(write_sheet(answers))[1]]


@pytest.mark.parametrize("answers", GRID, ids=range(len(GRID)))
def test_a_starter_sheet_is_valid(answers):
    assert not problems_of(answers)
