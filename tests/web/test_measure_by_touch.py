"""Measure on a tablet and a phone, by taps: where keys move, what a thumb on its way does, what is typed."""

import shutil

import pytest

from tests.support.serving import served
from tests.web.test_browser import CODE, page_of

MEASURE = f"/builds/{CODE}/measure"
BY_TOUCH = {"has_touch": True, "is_mobile": True}
TABLET = {"viewport": {"width": 820, "height": 1180}} | BY_TOUCH
PHONE = {"viewport": {"width": 390, "height": 844}} | BY_TOUCH


@pytest.fixture(scope="module")
def address(prepared, tmp_path_factory):
    folder = shutil.copytree(prepared, tmp_path_factory.mktemp("touch") / "shop")
    with served(folder) as server:
        yield server.address


@pytest.fixture
def tablet(browser, address):
    with page_of(browser, **TABLET) as (page, errors):
        page.goto(f"{address}{MEASURE}/mains?at=main.2.journal%7Cfront%2F0")
        yield page
        assert errors == []


def taps(page, keys):
    for key in keys:
        page.tap(f'.keypad [data-key="{key}"]')
    page.tap(".keypad .take")
    page.locator("#outbox").wait_for(state="hidden")


def test_a_thumb_on_its_way_to_a_key_answers_no_question(tablet):
    taps(tablet, "5.5992")
    tablet.locator("#asked[data-waits=slip]").wait_for()
    tablet.evaluate("document.querySelector('#asked button[name=answer]').click()")
    assert tablet.locator("#asked[data-waits]").count() == 1
    assert "nothing is kept yet" in tablet.inner_text("#said")
    tablet.wait_for_timeout(800)
    tablet.tap("#asked button[value='/']")
    tablet.locator("#asked:not([data-waits])").wait_for(state="attached")
    assert "was not entered" in tablet.inner_text("#said")


def test_the_keys_stay_where_they_are_when_a_reading_is_kept(tablet):
    before = tablet.locator(".keypad .take").bounding_box()
    taps(tablet, "91")
    assert "Kept" in tablet.inner_text("#said")
    assert tablet.locator(".keypad .take").bounding_box() == before


def test_own_words_can_be_typed_where_they_are_asked_for(tablet):
    assert tablet.get_attribute("#typed", "inputmode") == "none"
    taps(tablet, "**")
    tablet.locator("#asked[data-waits=because]").wait_for()
    assert tablet.get_attribute("#typed", "inputmode") == "text"
    tablet.wait_for_timeout(800)
    tablet.tap("#asked button[value='/']")
    tablet.locator("#asked:not([data-waits])").wait_for(state="attached")
    assert tablet.get_attribute("#typed", "inputmode") == "none"


def test_the_unit_chosen_says_how_a_size_is_typed_at_once(tablet):
    assert "last digits" in tablet.inner_text("#pattern")
    tablet.tap(".units label:has-text('thou')")
    tablet.wait_for_selector("#pattern:has-text('in thou, or with a unit')")
    tablet.tap(".units label:has-text('mm')")
    tablet.wait_for_selector("#pattern:has-text('last digits')")


def test_a_station_opens_at_the_place_and_not_below_it(browser, address):
    with page_of(browser, **PHONE) as (page, errors):
        page.goto(f"{address}{MEASURE}/lash")
        page.wait_for_timeout(300)
        assert page.evaluate("scrollY") == 0
        assert errors == []
