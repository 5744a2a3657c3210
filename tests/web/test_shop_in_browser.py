"""The shop in a real browser: an empty shop filled by hand, a setting that drifts, without script too."""

import shutil

import pytest

from tests.support.serving import served
from tests.web.test_browser import page_of

NARROW = {"viewport": {"width": 390, "height": 800}}
TARGETS = (
    ".choices a, .lines h3 a, .blade-row a, button, select, summary, .links a, "
    "input:not([type=hidden]):not([type=checkbox])"
)
SMALL = f"""[...document.querySelectorAll('main')[0].querySelectorAll('{TARGETS}')]
.filter((each) => each.offsetParent && each.getBoundingClientRect().height < 44)
.map((each) => each.outerHTML.slice(0, 120))"""


@pytest.fixture(scope="module")
def demo(prepared, tmp_path_factory):
    folder = shutil.copytree(prepared, tmp_path_factory.mktemp("shop-browser") / "shop")
    with served(folder) as server:
        yield server.address


@pytest.fixture
def empty(tmp_path):
    with served(tmp_path / "empty") as server:
        yield server.address


@pytest.fixture
def page(browser):
    with page_of(browser) as (opened, errors):
        yield opened
        assert errors == []


def kept(page, form):
    """What came of a form, once the bench has answered."""
    page.wait_for_selector(f"#form-{form} .said.kept")
    return page.inner_text(f"#form-{form} .said.kept")


def take(page, form):
    page.click(f"#form-{form} button.take")


def test_an_empty_shop_is_filled_by_hand(page, empty):
    page.goto(f"{empty}/shop")
    page.click("text=Enter who measures")
    page.fill("#form-person input[name=name]", "Builder")
    take(page, "person")
    assert "Kept as entry 1: Builder" in kept(page, "person")
    assert page.inner_text("#now h3") == "Builder"  # the list beside the form shows it at once
    page.click("text=Instruments")
    page.select_option("select[name=kind]", "bore gauge")
    page.click("text=Go on")
    form = page.locator("#form-instrument")
    assert form.locator("input[name=resolution]").input_value() == "0.001 mm"
    assert form.locator("input[name=typical]").is_checked()
    form.locator("input[name=title]").fill("Bore gauge 35 to 160 mm")
    form.locator("input[name=repeatability]").fill(".00005 in")
    page.wait_for_selector("#instrument-repeatability-echo:has-text('thou')")
    assert page.inner_text("#instrument-repeatability-echo") == "0.00005 in (0.0013 mm, 0.05 thou)"
    take(page, "instrument")
    assert "B1, Bore gauge 35 to 160 mm" in kept(page, "instrument")
    page.click("#form-instrument .said a >> nth=0")
    page.wait_for_url("**/shop/instruments/B1")
    assert "It was never set, so nothing is known of a master yet" in page.inner_text("#now")


def test_what_was_refused_stays_and_what_is_typed_elsewhere_too(browser, demo):
    with page_of(browser) as (page, errors):
        page.goto(f"{demo}/shop/instruments/M3")
        page.click("#form-change summary >> nth=0")
        page.fill("#form-change input[name=title]", "Micrometer of the second bench")
        page.click("#form-calibration summary >> nth=0")
        page.fill("#form-calibration input[name=uncertainty]", "a little")
        take(page, "calibration")
        page.wait_for_selector("#form-calibration .said.refused")
        assert page.input_value("#form-calibration input[name=uncertainty]") == "a little"
        assert page.input_value("#form-change input[name=title]") == "Micrometer of the second bench"
        page.reload()
        assert page.input_value("#form-calibration input[name=uncertainty]") == "a little"
        assert page.input_value("#form-calibration input[name=certificate]") == ""
        page.click("#form-calibration summary >> nth=0")
        page.fill("#form-calibration input[name=uncertainty]", "0.0008")
        take(page, "calibration")
        assert "M3 is calibrated to 0.0008 mm" in kept(page, "calibration")
        assert all("422" in each for each in errors), errors  # a browser notes the refusal itself


def test_a_question_about_a_zero_is_answered_by_one_touch(page, demo):
    page.goto(f"{demo}/shop/settings?gauge=M3")
    page.fill("#form-setting input[name=zero]", "0.2")
    take(page, "setting")
    page.wait_for_selector("#form-setting .said.question")
    assert "Does it rest below zero" in page.inner_text("#form-setting .said.question")
    page.click("#form-setting .answers button >> nth=0")
    assert "Kept as entries" in kept(page, "setting")
    assert "M3" in page.inner_text("#now li >> nth=0")


def test_a_drift_shows_on_another_browser_without_a_reload(browser, demo):
    with page_of(browser) as (looking, _), page_of(browser) as (entering, errors):
        looking.goto(f"{demo}/shop/settings/S-033")
        assert "Not looked at again" in looking.inner_text("#now")
        entering.goto(f"{demo}/shop/settings/S-033")
        entering.fill("#form-check-back input[name=drift]", "+0.006")
        take(entering, "check-back")
        assert "Main 4 running clearance" in kept(entering, "check-back")
        looking.wait_for_selector("#now >> text=Un-proved by its drift", timeout=5000)
        assert errors == []


def test_a_blade_is_measured_by_touching_it(page, demo):
    page.goto(f"{demo}/shop/blades")
    page.click("a:has-text('0.70') >> nth=0")
    assert page.is_visible("#form-measure input[name=thickness]")
    assert page.input_value("#form-measure select[name=blade]") == "0.70"
    page.fill("#form-measure input[name=thickness]", "0.703")
    take(page, "measure")
    assert "Blade 0.70 of F1 is 0.703 mm" in kept(page, "measure")
    assert "0.703 mm" in page.inner_text(".blade-row")


def test_a_study_is_entered_on_its_grid(page, demo):
    page.goto(f"{demo}/shop/instruments/M2")
    page.click("text=Study it with people and parts")
    page.select_option("select[name=parts]", "2")
    page.click("text=Another grid")
    for index, cell in enumerate(page.locator(".grid td input").all()):
        cell.fill(f"46.99{index}")
    take(page, "study")
    assert "It tells" in kept(page, "study")
    page.click("#form-study .said a >> nth=0")
    page.wait_for_url("**/shop/studies/GS-1")
    assert "46.990, 46.991" in page.inner_text("#now")


def test_everything_is_done_without_script(browser, demo):
    with page_of(browser, java_script_enabled=False) as (page, errors):
        page.goto(f"{demo}/shop/rules")
        page.click("#form-rule summary")
        page.select_option("#form-rule select[name=limit_class]", "critical")
        page.fill("#form-rule input[name=probability]", "0.97")
        take(page, "rule")
        assert "critical limits are proven from 0.97 on" in page.inner_text("#form-rule .said.kept")
        page.click("#now summary")
        page.click("#now li a >> nth=0")
        page.fill("#form-take-back input[name=reason]", "only tried")
        take(page, "take-back")
        assert "taken back by entry" in page.inner_text("#now")
        assert errors == []


@pytest.mark.parametrize(
    "path", ["", "/instruments/B1", "/blades/F1?blade=0.05", "/settings", "/studies?gauge=M3", "/sources"]
)
def test_nothing_is_cut_off_on_a_telephone_and_targets_are_large(browser, demo, path):
    with page_of(browser, **NARROW) as (page, errors):
        page.goto(f"{demo}/shop{path}")
        wide = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
        assert page.evaluate(wide) <= 0
        small = page.evaluate(SMALL)
        assert small == []
        assert errors == []
