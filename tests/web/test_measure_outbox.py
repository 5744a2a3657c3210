"""The lines of Measure while the bench is killed, starts anew, says nothing, or has no room left."""

from __future__ import annotations

import re
from urllib.parse import urlsplit

import pytest

from fitwright.bench.progress import reading_words
from fitwright.web.app import create_app
from fitwright.wiring import open_shop
from tests.support.little_room import files_up_to
from tests.support.serving import served, serving

CODE = "corrie-five"
MAINS = f"/builds/{CODE}/measure/mains?at=main.2.journal%7Cfront%2F0"
SOON = 15_000
LITTLE = 4000
"""Bytes: less than a page of the database's log, more than a head file."""
KEPT = """
() => document.querySelector("#outbox").hidden && document.querySelector("#said").dataset.state === "kept"
"""


def types(page, *lines):
    for line in lines:
        page.fill("#typed", line)
        page.press("#typed", "Enter")


def readings(folder):
    shop = open_shop(folder)
    try:
        return [reading_words(each) for each in shop.bench(CODE).build.readings.values()]
    finally:
        shop.close()


@pytest.fixture
def page(browser):
    context = browser.new_context()
    yield context.new_page()
    context.close()


def waits(page, words):
    page.wait_for_function(
        "(words) => document.querySelector('#outbox').textContent.includes(words)", arg=words
    )


def test_lines_typed_while_the_bench_is_killed_and_started_anew_are_kept_once_each(page, folder):
    before = len(readings(folder))
    with served(folder) as server:
        port = urlsplit(server.address).port
        page.goto(server.address + MAINS)
        types(page, "92")
        page.wait_for_function(KEPT)
        server.process.kill()
        server.process.wait()
        types(page, "91", "90")
        waits(page, "The bench does not answer. Nothing is lost")
        assert page.locator("#outbox li").all_inner_texts()[:2] == ["91: not kept yet", "90: not kept yet"]
    with served(folder, port=port):
        page.wait_for_function(KEPT, timeout=SOON)
        types(page, "93")
        page.wait_for_function(KEPT)
    assert readings(folder)[before:] == ["55.992 mm", "55.991 mm", "55.990 mm", "55.993 mm"]


def test_a_line_whose_answer_was_lost_counts_once(page, folder):
    before = len(readings(folder))
    with served(folder) as server:
        page.goto(server.address + MAINS)

        def lose(route):
            route.fetch()
            route.abort()

        page.route(re.compile(r"/measure/mains\?"), lose, times=2)
        types(page, "92")
        waits(page, "does not answer")
        types(page, "/")
        page.wait_for_function(KEPT, timeout=SOON)
        assert "Taken back: 55.9[92] mm" in page.inner_text("#said") or "55.992" in page.inner_text("#said")
    assert readings(folder)[before:] == ["55.992 mm"]


def test_another_shop_at_the_same_address_gets_nothing_unseen(page, prepared, folder, tmp_path, begun_shop):
    with served(folder) as server:
        port = urlsplit(server.address).port
        page.goto(server.address + MAINS)
    with served(tmp_path / "begun", port=port):
        types(page, "92")
        page.wait_for_function(
            "() => document.querySelector('#said').textContent.includes('No build')", timeout=SOON
        )
        assert page.input_value("#typed") == "92"
    assert begun_shop.record.head().seq == 1


def test_a_bench_without_room_says_so_and_goes_on_when_there_is_some(page, opened, folder):
    shop = opened(folder)
    before = len(shop.bench(CODE).build.readings)
    with serving(create_app(shop)) as address:
        page.goto(address + MAINS)
        with files_up_to(LITTLE):
            types(page, "92", "91")
            waits(page, "Not kept")
            waits(page, "Enter tries again")
            said = page.locator("#outbox li").all_inner_texts()
            assert said[:2] == ["92: not kept yet", "91: not kept yet"]
            assert len(said[2]) < 300, said[2]
        types(page, "")
        page.wait_for_function(KEPT, timeout=SOON)
    assert len(shop.bench(CODE).build.readings) == before + 2
