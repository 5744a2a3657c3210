"""The Corrie Five from an empty shop to the end of its scenario, as two people would do it in the browser."""

import time

import pytest

from fitwright.assess.results import State
from fitwright.examples import record_entries, sheet_text
from fitwright.formats.sheet import read_sheet
from tests.plays.bench_day import SHELF, gauges, verdicts_shipped
from tests.plays.entering import Entering
from tests.plays.measuring import Measuring
from tests.plays.person import person_at
from tests.plays.served_shop import shop_with

EXAMPLE = "corrie-five"


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    with shop_with(tmp_path_factory.mktemp("corrie"), ()) as shop:
        yield shop


def start(builder):
    body = next(each["body"] for each in record_entries(EXAMPLE) if each["kind"] == "build started")
    builder.opens("/builds/new/example")
    page = builder.page
    page.locator(f"input[name=example][value={EXAMPLE}]").check()
    for name in ("title", "job_number", "engine_number", "duty", "code", "owner_words"):
        page.locator(f"[name={name}]").fill(body[name])
    page.locator("button[value=start]").click()
    page.wait_for_url(f"**/builds/{EXAMPLE}*")


def test_the_corrie_five(served, browser):
    with person_at(browser, served.address, EXAMPLE) as builder:
        sheet = read_sheet(sheet_text(EXAMPLE))
        entering = Entering(builder, "builder")
        measuring = Measuring(builder, sheet, gauges(EXAMPLE))
        entries = record_entries(EXAMPLE)
        clock = time.monotonic()
        for entry in entries:
            if entry["kind"] in SHELF:
                entering.enters(entry)
        print("shelf", time.monotonic() - clock, entering.entered)
        start(builder)
        first_parts = [e["body"] for e in entries if e["kind"] == "part" and e["body"].get("position")]
        entering.parts(first_parts, sheet.stations)
        stated = [e["body"] for e in entries if e["kind"] == "stated size"]
        entering.stated(stated[:60])
        print("parts", time.monotonic() - clock)
        waiting = []
        for entry in entries:
            kind = entry["kind"]
            if kind in SHELF or (kind == "part" and entry["body"].get("position")):
                continue
            if kind == "reading":
                waiting.append(entry)
                continue
            measuring.takes(waiting)
            waiting.clear()
            if kind == "sitting" and entry["body"]["code"] == "T-01":
                builder.measures_at("mains")
                builder.page.locator("select[name=measured_by]").select_option("builder")
                builder.page.locator("select[name=typed_by]").select_option("apprentice")
                builder.page.locator("input[name=temperature]").fill("20.5 degC")
                builder.page.locator("form.begin button.take").click()
                builder.page.locator("#sitting .line").wait_for()
            elif kind in entering.forms:
                entering.enters(entry)
            elif kind == "stated size" and entry["body"] in stated[60:]:
                entering.stated([entry["body"]])
        measuring.takes(waiting)
        print(measuring.asked)
        builder.tells("Corrie", measuring.readings)
    for state in State:
        assert served.verdicts(EXAMPLE, state) == verdicts_shipped(EXAMPLE, state)
