"""Oil in a real browser: sliders by keyboard, the address, the way back, two browsers, a phone, no script."""

import re

import httpx
import pytest

from fitwright.web.app import create_app
from fitwright.wiring import open_shop
from tests.support.serving import serving
from tests.web.test_browser import page_of
from tests.web.test_fits_browser import until

CODE = "corrie-five"
OIL = f"/builds/{CODE}/oil"
MAINS = '[data-slider]:has(input[name="w.mains"])'
LEAD = "document.querySelector('.oil-lead .number').textContent"
CHANGED = "!!document.querySelector('#oil-now .oil-changed')"


@pytest.fixture
def place(folder):
    shop = open_shop(folder)
    shop.oil(CODE).best()  # compiled now, so that no page is late for it
    with serving(create_app(shop)) as address:
        yield address
    shop.close()


@pytest.fixture
def page(browser):
    with page_of(browser, viewport={"width": 1280, "height": 1000}) as (opened, errors):
        yield opened
        assert errors == []


def pressure(page):
    return float(page.evaluate(LEAD).split()[0])


def test_a_slider_answers_by_keyboard_and_the_address_follows(page, place):
    page.goto(place + OIL)
    measured = pressure(page)
    page.focus(f"{MAINS} input[type=range]")
    for _ in range(20):
        page.keyboard.press("ArrowRight")
    until(page, "location.search.includes('w.mains=0.020')")
    assert page.input_value('input[name="w.mains"]') == "0.020"
    assert pressure(page) < measured
    assert "\N{MINUS SIGN}" in page.evaluate(LEAD)
    moved = pressure(page)
    page.reload()
    assert pressure(page) == pytest.approx(moved, abs=0.051)
    assert page.input_value(f"{MAINS} input[type=range]") == "0.02"


def test_a_number_may_be_typed_and_the_way_back_leads_to_what_was_before(page, place):
    page.goto(place + OIL)
    page.fill('input[name="w.shim"]', "1 mm")
    until(page, CHANGED)
    until(page, "location.search.includes('w.shim=1')")
    page.go_back()
    page.wait_for_selector(".oil-changed", state="detached")  # the page is loaded anew
    page.wait_for_selector(".oil-lead")
    assert page.input_value('input[name="w.shim"]') == "0.00"


def test_what_cannot_be_read_is_said_at_the_field_and_the_figures_stay(page, place):
    page.goto(place + OIL)
    before = page.evaluate(LEAD)
    page.fill('input[name="w.mains"]', "wide")
    until(page, "!!document.querySelector('#move-mains-note .oil-wrong')")
    assert page.evaluate(LEAD) == before


def test_bands_follow_without_another_touch_and_opened_figures_stay_open(page, place):
    page.goto(place + OIL)
    page.click("#films summary")
    page.fill('input[name="w.mains"]', "0.03")
    until(page, CHANGED)
    until(page, "document.querySelector('.oil-lead').textContent.includes('95 % band')")
    assert page.evaluate("document.querySelector('#films').open")
    page.select_option('select[name="w.oil"]', index=1)
    until(page, "location.search.includes('w.oil=')")
    assert page.evaluate("document.querySelector('#films').open")


def test_a_reading_typed_elsewhere_comes_in_and_what_is_typed_here_stays(page, place):
    page.goto(place + OIL)
    page.fill('#enter-reading input[name="speed"]', "2500")
    before = page.locator("#oil-readings li").count()
    with httpx.Client(base_url=place, timeout=60) as client:
        form = re.search(r'<form class="record oil-enter".*?</form>', client.get(OIL).text, re.DOTALL)[0]
        fields = dict(re.findall(r'<input type="hidden" name="([\w:.-]+)" value="([^"]*)"', form))
        typed = {"person": "builder", "speed": "900", "temperature": "90", "gauge": "1.1", "zero": "0"}
        sent = client.post(f"{OIL}/readings?units=mm", data=fields | typed)
        assert "Kept as entry" in sent.text
    until(page, f"document.querySelectorAll('#oil-readings li').length > {before}")
    assert "below the band" in page.inner_text("#oil-readings")
    until(page, "!!document.querySelector('#oil-now .ch-reading')")
    assert page.input_value('#enter-reading input[name="speed"]') == "2500"


def test_a_reading_is_typed_and_kept_by_keyboard_alone(page, place):
    page.goto(place + OIL)
    page.focus('#enter-reading input[name="speed"]')
    for text in ("900", "110", "2.6", "0"):
        page.keyboard.type(text)
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_selector(".said.kept")
    assert "900 rev/min, oil 110" in page.inner_text("#oil-readings")


def test_the_rotors_turn_with_their_slider(page, place):
    page.goto(place + OIL)
    page.focus('[data-slider]:has(input[name="angle"]) input[type=range]')
    page.keyboard.press("End")
    until(page, "document.querySelector('#rotor-sets').textContent.includes('turned by 0')")
    page.keyboard.press("ArrowLeft")
    until(page, "document.querySelector('#rotor-sets').textContent.includes('turned by 357')")
    page.check('input[name="clearances"]')
    until(page, "document.querySelector('#rotor-sets').textContent.includes('times')")


def test_on_a_phone_the_sliders_are_folded_and_their_answer_stays_in_sight(browser, place):
    with page_of(browser, viewport={"width": 390, "height": 800}) as (page, errors):
        page.goto(place + OIL)
        assert not page.is_visible('input[name="w.mains"]')
        page.click(".oil-move > summary")
        page.fill('input[name="w.mains"]', "0.04")
        until(page, CHANGED)
        echo = page.locator("#oil-echo").bounding_box()
        assert 0 <= echo["y"] < echo["y"] + echo["height"] <= 800
        assert page.inner_text("#oil-echo").split()[0] == page.evaluate(LEAD).split()[0]
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        assert errors == []


def test_everything_is_asked_and_answered_without_script(browser, place):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(place + OIL)
    assert page.locator("[data-slider] input[type=range]:visible").count() == 0
    page.fill('input[name="w.mains"]', "0.04")
    page.click('#what-if button[type="submit"]')
    assert "mains +0.040 mm" in page.inner_text(".oil-changed")
    page.click("a:text-is('As measured')")
    assert page.locator(".oil-changed").count() == 0
    page.fill("#own-speed", "4000")
    page.click("button:text-is('Look there')")
    assert "4000 rev/min" in page.inner_text(".oil-lead")
    page.fill("#rotor-angle", "30")
    page.click("button:text-is('Turn')")
    assert "turned by 30°" in page.content()
    context.close()
