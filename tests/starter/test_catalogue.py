"""Every fit of the trade's catalogue that an engine has stands in its sheet, and no other."""

import re

import pytest

from fitwright.formats.sheet.reader import read_sheet
from fitwright.starter.plan import plan_of
from fitwright.starter.sheet import write_sheet
from tests.starter.catalogue import CATALOGUE
from tests.starter.grid import ENGINES


def ids_of(answers):
    sheet = read_sheet(write_sheet(answers))
    checks = {check.id for station in sheet.stations.values() for check in station.eye_checks}
    return {*sheet.fits, *sheet.dimensions, *checks}


def test_the_table_covers_the_catalogue():
    assert {number for row in CATALOGUE for number in row.numbers} == set(range(1, 86))


def test_what_is_left_out_is_left_out_for_a_reason():
    assert all(row.why_not for row in CATALOGUE if row.applies is not None)


@pytest.mark.parametrize("engine", ENGINES)
def test_each_fit_that_applies_is_there(engine):
    plan, ids = plan_of(ENGINES[engine]), ids_of(ENGINES[engine])
    missing = [
        f"{row.numbers}: {pattern}"
        for row in CATALOGUE
        if row.applies_to(plan)
        for pattern in row.patterns
        if not any(re.fullmatch(pattern, name) for name in ids)
    ]
    assert not missing


@pytest.mark.parametrize("engine", ENGINES)
def test_what_an_engine_does_not_have_is_not_there(engine):
    """Running clearances aside, whose ids serve more than one kind of bearing."""
    plan, ids = plan_of(ENGINES[engine]), ids_of(ENGINES[engine])
    surplus = [
        f"{row.numbers} ({row.why_not}): {name}"
        for row in CATALOGUE
        if not row.applies_to(plan) and "running_clearance" not in row.pattern
        for name in ids
        if re.fullmatch(row.pattern, name)
    ]
    assert not surplus


@pytest.mark.parametrize("row", CATALOGUE, ids=lambda row: "-".join(map(str, row.numbers)))
def test_each_row_applies_to_some_engine(row):
    assert any(row.applies_to(plan_of(answers)) for answers in ENGINES.values())
