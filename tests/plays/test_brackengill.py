"""The Brackengill Eleven, in inches and thou: every reading by the keys of a numeric keypad alone."""

from collections import Counter

import pytest

from fitwright.assess.results import State
from fitwright.examples import sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.records.entry import NewEntry
from tests.plays import slips
from tests.plays.bench_day import gauges, readings_shipped, shelf, verdicts_shipped
from tests.plays.entering import start_from_example
from tests.plays.measuring import Measuring
from tests.plays.person import person_at
from tests.plays.served_shop import shop_with
from tests.support.examples import measured

pytestmark = pytest.mark.long

EXAMPLE = "brackengill-eleven"
IN_WORDS = ("setting", "part", "stated size", "state", "check-back")
"""What has words and is no reading; the Corrie Five is entered by the forms for these."""
SLIPS = {
    ("main.1.bore", "front"): slips.point_misplaced,
    ("main.1.journal", "front/0"): slips.instead,
    ("main.2.journal", "front/90"): slips.undone,
    ("rod.2.pin", "front/0"): slips.passed_on,
    ("cylinder.3.bore", "middle/0"): slips.read_twice,
    ("ring.2.top.gap", "whole"): slips.contradicted,
}
NO_GAUGE_HERE = "2"
"""The number of the answer why something is not measured."""


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    with shop_with(tmp_path_factory.mktemp("brackengill"), shelf(EXAMPLE)) as shop:
        yield shop


@pytest.fixture(scope="module")
def sheet():
    return read_sheet(sheet_text(EXAMPLE))


def sit_down(person):
    """Who measures, who types, and how warm it is: the words that a sitting begins with."""
    person.measures_at("mains")
    page = person.page
    page.locator("select[name=measured_by]").select_option("restorer")
    page.locator("select[name=typed_by]").select_option("improver")
    page.locator("input[name=temperature]").fill("64 degF")
    page.locator("form.begin button.take").click()
    page.locator("#sitting .line").wait_for()


def leave_out(measuring, subjects):
    """What cannot be measured yet: passed over with a reason, by its number."""
    measuring.goes_to("lash")
    for subject in subjects:
        chain = measuring.sheet.fits[subject].routes[0].chain
        measuring.to_place((chain[0].dimension, "whole"))
        seen = measuring.person.says("**", enter=measuring.enter)
        assert seen.asks == "because"
        assert measuring.line(NO_GAUGE_HERE).state == "kept"


def test_the_brackengill_eleven_by_numeric_keypad(served, browser, sheet):
    with person_at(browser, served.address, EXAMPLE) as person:
        start_from_example(person, EXAMPLE)
        sit_down(person)
        measuring = Measuring(person, sheet, gauges(EXAMPLE), slips=dict(SLIPS))
        waiting, left_out = [], []
        for entry in measured(EXAMPLE):
            if entry["kind"] == "reading":
                waiting.append(entry)
            elif entry["kind"] in IN_WORDS:
                measuring.takes(waiting)
                waiting = []
                served.shop.write([NewEntry(**entry)])
            elif entry["kind"] == "not measured":
                left_out.append(entry["body"]["subject"])
        measuring.takes(waiting)
        leave_out(measuring, left_out)
        person.tells("The Brackengill Eleven by numeric keypad", measuring.readings)
    assert not measuring.slips
    agree(served, left_out)


def agree(served, left_out):
    """The record holds what the shipped one does, one reading twice, and proves the same."""
    more = Counter(served.readings(EXAMPLE)) - Counter(readings_shipped(EXAMPLE))
    assert [each[:2] for each in more.elements()] == [("cylinder.3.bore", "middle/0")]
    assert not Counter(readings_shipped(EXAMPLE)) - Counter(served.readings(EXAMPLE))
    assert served.entries(EXAMPLE)["not measured"] == len(left_out) == 8
    for state in State:
        assert served.verdicts(EXAMPLE, state) == verdicts_shipped(EXAMPLE, state)
