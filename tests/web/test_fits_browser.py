"""Fits in a real browser: searched while one types, told of what others write, a reading put right."""

import time

import httpx
import pytest

from fitwright.web.app import create_app
from fitwright.wiring import open_shop
from tests.support.serving import form_of, serving
from tests.web.test_browser import page_of

CODE = "corrie-five"
FITS = f"/builds/{CODE}/fits"
LASH = f"{FITS}/valve.3.inlet.a.lash"
LINE = '[id="fit-valve.3.inlet.a.lash"] .word'
VISIBLE = "[...document.querySelectorAll('#now .fit')].map((each) => each.id.slice(4))"


@pytest.fixture
def place(folder):
    shop = open_shop(folder)
    with serving(create_app(shop)) as address:
        yield address
    shop.close()


@pytest.fixture
def page(browser):
    with page_of(browser, viewport={"width": 820, "height": 1180}) as (opened, errors):
        yield opened
        assert errors == []


def until(page, expression, arg=None):
    """Wait until an expression holds, asked from outside: the policy lets nothing be evaluated inside."""
    for _ in range(100):
        if page.evaluate(expression, arg):
            return
        time.sleep(0.05)
    pytest.fail(f"it never came to {expression}")


def tried(place, blade="F3:0.20", answer="does not go"):
    """Somebody at another device tries a blade at a valve."""
    with httpx.Client(base_url=place, timeout=30) as client:
        form = form_of(client.get(LASH).text)
        sent = form | {"place": "valve.3.inlet.a.cam_gap|whole", "blade": blade, "answer": answer}
        assert "Kept as entry" in client.post(f"/builds/{CODE}/readings", data=sent).text


def test_a_search_answers_while_it_is_typed_and_stands_in_the_address(page, place):
    page.goto(place + FITS)
    assert len(page.evaluate(VISIBLE)) == 195
    page.focus("#q")
    page.keyboard.type("end play")
    until(page, "document.querySelectorAll('#now .fit').length === 3")
    assert page.evaluate(VISIBLE) == [
        "crank.end_float",
        "camshaft.inlet.end_float",
        "camshaft.exhaust.end_float",
    ]
    assert "q=end+play" in page.url
    assert "3 of 195 fits" in page.inner_text("#hits")
    assert page.evaluate("document.activeElement.id") == "q"
    page.click("a:has-text('critical 1')")
    page.wait_for_url("**critical=1**")
    assert page.evaluate(VISIBLE) == ["crank.end_float"]
    page.select_option("select[name=sort]", "in-hand")
    page.wait_for_url("**sort=in-hand**")
    page.go_back()
    until(page, "!location.search.includes('sort')")
    until(page, "document.querySelectorAll('#now .fit').length === 1")
    page.go_back()
    until(page, "document.querySelectorAll('#now .fit').length === 3")
    assert page.input_value("#q") == "end play"


def test_what_others_write_changes_its_line_and_nobody_loses_his_place(page, place):
    page.goto(place + FITS)
    link = page.locator(LINE.replace(".word", "h3 a"))
    link.scroll_into_view_if_needed()
    link.focus()
    page.wait_for_timeout(300)  # lines above it take their true height as they are drawn
    value = page.inner_text(LINE)
    line = page.locator(LINE.replace(" .word", ""))
    top = line.bounding_box()["y"]
    tried(place)
    until(page, f"(was) => document.querySelector({LINE!r}).innerText !== was", value)
    assert abs(line.bounding_box()["y"] - top) < 3
    assert page.evaluate("document.activeElement.getAttribute('href')").startswith(LASH)


def test_a_line_that_no_longer_belongs_goes(page, place):
    page.goto(f"{place}{FITS}?only=within&q=valve+3")
    assert "valve.3.inlet.a.lash" in page.evaluate(VISIBLE)
    tried(place, "F3:0.15", "does not go")
    until(page, "!document.getElementById('fit-valve.3.inlet.a.lash')")
    assert page.url.endswith("?only=within&q=valve+3")


def test_an_opened_fit_hears_of_a_reading_and_keeps_what_is_typed(page, place):
    page.goto(place + LASH)
    page.wait_for_selector("#history .moments")
    page.click("#here > summary")
    page.evaluate("document.querySelectorAll('form details').forEach((each) => { each.open = true })")
    page.fill("input[name=note]", "half typed")
    rows = page.locator(".readings tr[id]").count()
    tried(place)
    until(page, "(was) => document.querySelectorAll('.readings tr[id]').length > was", rows)
    assert page.input_value("input[name=note]") == "half typed"
    page.wait_for_selector("#history .moments")


def test_a_reading_is_put_right_on_the_page_of_its_fit(page, place):
    page.goto(f"{place}{FITS}/main.4.running_clearance")
    word = page.inner_text("#fit .verdict .value")
    page.locator(".readings tr:not(.unused)", has_text="56.045").locator("text=change").click()
    page.wait_for_selector("form.changing")
    page.fill("form.changing input[name=reason]", "misread by a division")
    page.fill("form.changing input[name=value]", "56.047")
    page.click("form.changing button:has-text('Correct it')")
    page.wait_for_selector("#answer .said.kept")
    assert "Reading corrected" in page.inner_text("#answer")
    assert page.inner_text("#fit .verdict .value") != word
    assert page.locator("s", has_text="56.045").count() == 1
    page.wait_for_selector("#history .moments >> text=a reading corrected: misread by a division")


def test_without_script_filters_search_and_correction_work(browser, place):
    with page_of(browser, java_script_enabled=False) as (page, _):
        page.goto(place + FITS)
        page.locator("#q").fill("rod bearing 4")
        page.locator("button:has-text('Show')").click()
        assert "q=rod+bearing+4" in page.url
        page.locator("h3 a").first.click()
        page.locator("text=How it came to be so").click()
        assert page.locator(".moments li").count() > 0
        page.go_back()
        page.locator(".readings tr:not(.unused)[id]").first.locator("text=change").click()
        page.locator("form.changing input[name=reason]").fill("wrong part on the bench")
        page.locator("text=Take it back").click()
        assert "Reading withdrawn" in page.locator("#answer").inner_text()
