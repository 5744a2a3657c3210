"""The Brackengill Eleven, in inches and thou: every reading by the keys of a numeric keypad alone."""

import pytest

from fitwright.assess.results import State
from fitwright.examples import record_entries, sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.records.entry import NewEntry
from tests.plays.bench_day import gauges, shelf, verdicts_shipped
from tests.plays.measuring import Measuring
from tests.plays.person import person_at
from tests.plays.served_shop import shop_with

EXAMPLE = "brackengill-eleven"


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    with shop_with(tmp_path_factory.mktemp("brackengill"), shelf(EXAMPLE)) as shop:
        yield shop


def test_the_brackengill_eleven_by_numeric_keypad(served, browser):
    served.starts(EXAMPLE, sheet_text(EXAMPLE))
    with person_at(browser, served.address, EXAMPLE) as person:
        sheet = read_sheet(sheet_text(EXAMPLE))
        measuring = Measuring(person, sheet, gauges(EXAMPLE))
        waiting = []
        for entry in record_entries(EXAMPLE):
            if entry["kind"] == "reading":
                waiting.append(entry)
                continue
            measuring.takes(waiting)
            waiting.clear()
            if entry["kind"] in ("setting", "part", "stated size", "state", "check-back"):
                served.shop.write([NewEntry(**entry)])
            if entry["kind"] == "sitting" and entry["body"]["code"] == "B-01":
                person.measures_at("mains")
                person.page.locator("select[name=measured_by]").select_option("restorer")
                person.page.locator("select[name=typed_by]").select_option("improver")
                person.page.locator("input[name=temperature]").fill("64 degF")
                person.page.locator("form.begin button.take").click()
                person.page.locator("#sitting .line").wait_for()
        measuring.takes(waiting)
        print(measuring.asked)
        person.tells("Brackengill", measuring.readings)
    for state in State:
        assert served.verdicts(EXAMPLE, state) == verdicts_shipped(EXAMPLE, state)
