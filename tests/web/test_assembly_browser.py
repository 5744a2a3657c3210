"""Assembly in a browser: by keyboard alone, by touch, typed ahead, live on two devices, without script."""

from datetime import timedelta

import pytest

from fitwright.records.kinds import Loosening, Tightening
from fitwright.web.app import create_app
from fitwright.wiring import open_shop
from tests.support.assembly_shop import CODE, Workshop
from tests.support.serving import serving
from tests.web.test_browser import page_of

ASSEMBLY = f"/builds/{CODE}/assembly"
CAPS = f"{ASSEMBLY}/groups/caps"
TABLET = {"viewport": {"width": 820, "height": 1180}, "has_touch": True, "is_mobile": True}


@pytest.fixture
def workshop(tmp_path):
    shop = open_shop(tmp_path / "small")
    yield Workshop.open(shop)
    shop.close()


@pytest.fixture
def address(workshop):
    with serving(create_app(workshop.shop)) as found:
        yield found


@pytest.fixture
def page(browser, address):
    with page_of(browser) as (page, errors):
        yield page
        assert errors == []


def kept(page, words="Kept."):
    page.locator("#came", has_text=words).wait_for()


def tightened(shop):
    """Fasteners, pass and torque of each tightening in the record."""
    return [
        (tuple(each.body["fasteners"]), each.body["number"], each.body["torque"]["typed"])
        for each in shop.record.entries()
        if each.kind == Tightening.kind
    ]


def test_a_pass_by_keyboard_alone_one_after_the_other(page, address, workshop):
    page.goto(f"{address}{CAPS}?at=c1#typed")
    assert page.evaluate("document.activeElement.id") == "typed"
    for name in ("c1", "c2", "c3", "c4"):
        assert page.input_value("[name=at]") == name
        page.keyboard.type("25")
        page.keyboard.press("Enter")
        kept(page, f"{name}: pass 1")
    assert [each[:2] for each in tightened(workshop.shop)] == [((f"c{k}",), 1) for k in range(1, 5)]
    page.locator("h2", has_text="Pass 2").wait_for()


def test_what_is_typed_before_an_answer_came_goes_in_order(page, address, workshop):
    page.goto(f"{address}{CAPS}?at=c1#typed")
    page.route("**/tighten*", lambda route: (page.wait_for_timeout(250), route.continue_()))
    for text in ("25", "25.1", "25.2", "25.3"):
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    kept(page, "c4: pass 1")
    assert [(names[0], typed) for names, _, typed in tightened(workshop.shop)] == [
        ("c1", "25"),
        ("c2", "25.1"),
        ("c3", "25.2"),
        ("c4", "25.3"),
    ]


@pytest.mark.parametrize("pace", [7, 23, 61])
def test_lines_stay_whole_at_whatever_pace_they_are_typed(page, address, workshop, pace):
    """Each key is struck for itself, so that an answer comes between any two of them."""
    page.goto(f"{address}{CAPS}?at=c1#typed")
    lines = ["25.01", "25.12", "25.23", "25.34"]
    for text in lines:
        page.keyboard.type(text, delay=pace)
        page.keyboard.press("Enter", delay=pace)
    kept(page, "c4: pass 1")
    assert [typed for _, _, typed in tightened(workshop.shop)] == lines


def test_lines_typed_beyond_the_last_fastener_of_a_pass_are_named_as_not_kept(page, address, workshop):
    page.goto(f"{address}{CAPS}?at=c4#typed")
    page.route("**/tighten*", lambda route: (page.wait_for_timeout(250), route.continue_()))
    workshop.story.tightens("caps", "c1", "c2", "c3", number=1, torque=25)
    workshop.tell()
    for text in ("25", "45", "46"):
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    kept(page, "c4: pass 1")
    kept(page, "Typed and not kept: 45, 46.")
    assert len(tightened(workshop.shop)) == 2


def test_a_line_begun_before_a_refusal_comes_back_when_the_refused_one_is_mended(browser, address, workshop):
    with page_of(browser) as (page, _):
        page.goto(f"{address}{CAPS}?at=c1#typed")
        page.route("**/tighten*", lambda route: (page.wait_for_timeout(250), route.continue_()))
        for keys in ("2x5", "Enter", "25.1", "Enter", "25"):
            page.keyboard.press(keys) if keys == "Enter" else page.keyboard.type(keys)
        page.locator("#came .refused").wait_for()
        page.wait_for_function("document.querySelector('#typed').value === '2x5'")
        page.fill("#typed", "25")
        page.keyboard.press("Enter")
        kept(page, "c2: pass 1")
        page.keyboard.type(".2")
        page.keyboard.press("Enter")
        kept(page, "c3: pass 1")
        assert [typed for _, _, typed in tightened(workshop.shop)] == ["25", "25.1", "25.2"]


def test_digits_typed_while_one_waits_stand_in_the_next_field(page, address):
    page.goto(f"{address}{CAPS}?at=c1#typed")
    page.route("**/tighten*", lambda route: (page.wait_for_timeout(250), route.continue_()))
    page.keyboard.type("25")
    page.keyboard.press("Enter")
    page.keyboard.type("2")
    kept(page, "c1: pass 1")
    page.keyboard.type("6")
    assert page.input_value("[name=at]") == "c2"
    assert page.input_value("#typed") == "26"


def test_what_a_torque_would_do_stands_there_before_enter(page, address):
    page.goto(f"{address}{CAPS}?at=c1&pass=3#typed")
    page.keyboard.type("80")
    page.locator("#echo", has_text="Above the sheet's value.").wait_for()
    assert "80 N·m (59 lbf·ft)" in page.inner_text("#echo")
    assert "preload between" in page.inner_text("#effect")


def test_the_keypad_on_a_tablet_keeps_its_place(browser, address, workshop):
    with page_of(browser, **TABLET) as (page, errors):
        page.goto(f"{address}{CAPS}?at=c1#typed")
        assert page.get_attribute("#typed", "inputmode") == "none"
        for key in ("2", "6", "back", "5"):
            page.tap(f'#tighten [data-key="{key}"]')
        assert page.input_value("#typed") == "25"
        box = page.locator(".keypad .take").bounding_box()
        assert box["height"] >= 72
        page.tap(".keypad .take")
        kept(page, "c1: pass 1")
        assert len(tightened(workshop.shop)) == 1
        assert errors == []


def test_a_thumb_on_its_way_to_a_key_answers_no_question(browser, address, workshop):
    with page_of(browser, **TABLET) as (page, _):
        page.goto(f"{address}{CAPS}?at=c3#typed")  # out of order: a question comes
        page.fill("#typed", "25")
        page.tap(".keypad .take")
        page.locator("#tighten .question").wait_for()
        page.evaluate("document.querySelector('#tighten .question button').click()")
        page.wait_for_timeout(800)
        assert tightened(workshop.shop) == []
        page.tap("#tighten .question button[value=keep]")
        kept(page, "c3: pass 1")


def test_all_of_a_pass_then_done_on_another_device_at_once(browser, address, workshop):
    story = workshop.story
    story.lays_crank_in()
    story.new.pop()
    workshop.tell()
    with page_of(browser) as (other, errors), page_of(browser) as (page, _):
        other.goto(f"{address}{ASSEMBLY}")
        page.goto(f"{address}{ASSEMBLY}")
        page.click(".step-card button.take")
        page.locator("#entry", has_text="Kept as entry").wait_for()
        for each in (page, other):
            each.locator("#stage-1 li", has_text="Lay the crank in done").wait_for()
        workshop.says(Loosening(group="caps", fasteners=("c2",), because="looked at again"))
        other.locator("#changed", has_text="Changed since: 1").wait_for()
        assert errors == []


def test_a_time_left_counts_on_and_ends_in_a_fresh_page(browser, address, workshop):
    workshop.story.uses("sealant", "cover_on")
    workshop.tell()
    with page_of(browser) as (page, errors):
        page.clock.install()
        page.goto(f"{address}{ASSEMBLY}")
        left = page.locator("#consumables [data-until]").first
        assert left.inner_text() in ("1 d", "24 h")
        page.clock.fast_forward(timedelta(hours=2).total_seconds() * 1000)
        page.wait_for_function(
            "/^2[12] h/.test(document.querySelector('#consumables [data-until]').textContent)"
        )
        assert errors == []


def test_everything_is_there_without_script(browser, address, workshop):
    with page_of(browser, java_script_enabled=False) as (page, _):
        page.goto(f"{address}{CAPS}")
        page.select_option("[name=wrench]", "T3")
        page.click("button[name=all]")
        assert "Kept." in page.inner_text("#came")
        page.click("ol.fasteners a >> nth=0")
        page.fill("#typed", "60")
        page.press("#typed", "Enter")
        assert "question first" in page.inner_text("#came")
        page.click("button[value=keep]")
        assert "Kept." in page.inner_text("#came")
        page.click("#came button")
        assert "Take an entry back" in page.inner_text("#entry") or "Kept" in page.inner_text("#entry")
    assert [each[:2] for each in tightened(workshop.shop)] == [(("c1", "c2", "c3", "c4"), 1), (("c1",), 2)]
