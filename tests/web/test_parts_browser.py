"""Parts in a real browser: a shell swap seen before and after, another browser told, one undo, a photo."""

import io

import pytest
from PIL import Image

from fitwright.records.kinds import Note
from fitwright.web.app import create_app
from fitwright.wiring import open_shop
from tests.support.serving import serving
from tests.web.test_browser import page_of

PARTS = "/builds/corrie-five/parts"


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


def choose_swap(page, place):
    page.goto(place + PARTS)
    page.click("text=Swap two parts")
    page.select_option("select[name=one]", "main.3.shell_upper")
    page.select_option("select[name=other]", "main.4.shell_upper")
    page.wait_for_selector("#effects >> text=5 readings are kept and then no longer used")


def test_a_swap_is_seen_before_it_is_written_told_to_another_browser_and_undone(browser, page, place):
    with page_of(browser) as (other, errors):
        other.goto(place + PARTS)
        choose_swap(page, place)
        assert "Main 4 running clearance" in page.inner_text("#effects")
        assert "Everything read still speaks" in other.inner_text("#now")
        page.select_option("select[name=person]", "builder")
        page.click("button.take")
        page.wait_for_selector(".said.kept >> text=Kept as entries")
        assert page.evaluate("document.activeElement.id") == "entry"
        page.wait_for_selector("#now >> text=Main 4 upper shell changed since")
        other.wait_for_selector("#now >> text=Main 4 upper shell changed since")
        page.click(".said.kept button:has-text('Take back')")
        page.wait_for_selector(".said.kept >> text=count again")
        other.wait_for_selector("#now >> text=Everything read still speaks")
        assert errors == []


def test_what_is_typed_stays_while_another_writes_and_over_a_reload(page, place, folder):
    page.goto(f"{place}{PARTS}?do=note&list=photos")
    page.fill("textarea[name=text]", "Tang marks on shell 4")
    shop = open_shop(folder)
    shop.write([shop.entry(Note(text="Written by another"), build="corrie-five")])
    shop.close()
    page.wait_for_selector("#now >> text=Written by another")
    assert page.input_value("textarea[name=text]") == "Tang marks on shell 4"
    page.reload()
    assert page.input_value("textarea[name=text]") == "Tang marks on shell 4"


def test_a_photo_is_sent_and_seen(page, place):
    out = io.BytesIO()
    Image.new("RGB", (640, 480), (120, 90, 60)).save(out, "JPEG")
    page.goto(f"{place}{PARTS}?do=photo&list=photos")
    page.set_input_files(
        "input[type=file]", {"name": "p.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}
    )
    page.fill("input[name=caption]", "Tang marks")
    page.click("button.take")
    page.wait_for_selector(".said.kept >> text=Kept as entry")
    sent = page.locator(".photos figure", has_text="Tang marks").locator("img")
    sent.scroll_into_view_if_needed()
    assert sent.evaluate("(picture) => picture.decode().then(() => picture.naturalWidth)") == 480


def test_a_swap_by_keyboard_without_script(browser, place):
    with page_of(browser, java_script_enabled=False) as (page, _):
        page.goto(f"{place}{PARTS}?do=swap&one=main.3.shell_upper&other=main.4.shell_upper")
        page.focus("noscript button")
        page.keyboard.press("Enter")
        assert "5 readings are kept" in page.inner_text("#effects")
        page.focus("button.take")
        page.keyboard.press("Enter")
        assert "Kept as entries" in page.inner_text(".said.kept")
