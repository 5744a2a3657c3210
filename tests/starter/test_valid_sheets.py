"""Every starter sheet is a valid engine sheet: over a grid of engines, and over answers drawn at random."""

import pytest

from fitwright.assess.assessment import assess
from fitwright.assess.results import Verdict
from fitwright.formats.sheet.reader import check_sheet, read_sheet
from fitwright.records.projection import BuildState, ShopState
from fitwright.starter.sheet import write_sheet
from tests.starter.grid import ENGINES, grid

GRID = tuple(grid())


def problems_of(answers):
    return [str(problem) for problem in check_sheet(write_sheet(answers))[1]]


@pytest.mark.parametrize("answers", GRID, ids=range(len(GRID)))
def test_a_starter_sheet_is_valid(answers):
    assert not problems_of(answers)


@pytest.mark.parametrize("engine", ENGINES)
def test_a_starter_sheet_can_be_assessed_before_anything_is_measured(engine):
    sheet = read_sheet(write_sheet(ENGINES[engine]))
    assessed = assess(sheet, ShopState(), BuildState("build-1"))
    found = {**assessed.verdicts, **assessed.unlimited}
    assert {each.verdict for each in found.values()} == {Verdict.NOT_MEASURED}
    assert found.keys() >= sheet.fits.keys()
