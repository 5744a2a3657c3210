"""The pages in a real browser: readings by form, keyboard only, without script, with the network gone."""

import json
import shutil
import subprocess
import sys
from contextlib import contextmanager

import pytest

from tests.support.serving import served

CODE = "corrie-five"
FIT = f"/builds/{CODE}/fits/main.4.running_clearance"
LASH = f"/builds/{CODE}/fits/valve.1.inlet.a.lash"
PAGES = [
    "/",
    f"/builds/{CODE}/fits",
    f"/builds/{CODE}/fits?state=both",
    f"/builds/{CODE}/fits?only=outside",
    FIT,
    LASH,
]
WATCH = """
window.refused = [];
document.addEventListener("securitypolicyviolation", (event) => window.refused.push(event.violatedDirective));
"""


@pytest.fixture(scope="module")
def address(prepared, tmp_path_factory):
    """The demo shop served by the real program."""
    folder = shutil.copytree(prepared, tmp_path_factory.mktemp("browser") / "shop")
    with served(folder) as server:
        yield Place(server.address, folder)


class Place:
    """Where the server is, and where its shop lies."""

    def __init__(self, address, folder):
        self.address, self.folder = address, folder

    def check(self, subject):
        """What `fitwright check --json` says of one fit, in a process of its own."""
        program = "from fitwright.cli import main; main()"
        command = [sys.executable, "-c", program, "check", CODE, "--data", str(self.folder), "--json"]
        command.append("--no-oil")
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        return next(each for each in json.loads(done.stdout)["fits"] if each["id"] == subject)


@contextmanager
def page_of(browser, **options):
    """A page that is watched: at the end no error in its console, nothing refused by the policy."""
    context = browser.new_context(**options)
    page = context.new_page()
    errors = []
    page.on("console", lambda message: errors.append(message.text) if message.type == "error" else None)
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.add_init_script(WATCH)
    yield page, errors
    if options.get("java_script_enabled", True):
        assert page.evaluate("window.refused") == []
    context.close()


@pytest.fixture
def page(browser):
    with page_of(browser) as (opened, errors):
        yield opened
        assert errors == []


@pytest.fixture
def watched(browser):
    """A page of which this test judges the console itself: a browser notes each answer from 400 on."""
    with page_of(browser) as (opened, errors):
        yield opened, errors


@pytest.mark.parametrize("path", PAGES)
def test_a_page_opens_without_an_error_and_without_a_violation(page, address, path):
    assert page.goto(address.address + path).ok
    loaded = "document.fonts.ready.then((all) => [...all].filter((font) => font.status === 'loaded').length)"
    assert page.evaluate(loaded)


def more(page):
    """Open what the form keeps closed."""
    page.evaluate("document.querySelectorAll('form details').forEach((each) => { each.open = true })")


def at_form(page, address, fit=FIT):
    """Open a fit, and the form in it."""
    page.goto(address.address + fit)
    page.click("#here > summary")


def said(page):
    """The words of the answer, once there is one."""
    page.wait_for_selector("#answer .said")
    return page.inner_text("#answer .said")


def test_a_reading_by_form_is_kept_and_its_verdict_is_the_same_everywhere(page, address):
    at_form(page, address, FIT.replace("main.4", "main.2"))
    page.select_option("select[name=place]", "main.2.housing_bore|front/0")
    more(page)
    page.select_option("select[name=setting]", "S-034")
    page.fill("input[name=value]", "60.5110")
    page.click("button.take")
    assert "Kept as entry" in said(page)
    assert page.evaluate("document.activeElement.name") == "value"
    assert page.input_value("input[name=value]") == ""
    assert page.input_value("select[name=place]") == "main.2.housing_bore|front/60"
    words = page.inner_text("#fit .verdict .word")
    value = page.inner_text("#fit .verdict .value")
    assert words in page.inner_text("#spoken")
    found = address.check("main.2.running_clearance")
    assert found["words"] == words
    assert f"{found['value'] * 1e3:.4f}" in value.partition(" mm")[0].split(" to ")
    housing = address.check("main.2.housing_bore")
    assert len(housing["readings"]) == 7


def test_a_slip_is_asked_and_the_guess_taken(page, address):
    at_form(page, address)
    page.select_option("select[name=place]", "main.4.journal|front/0")
    page.fill("input[name=value]", "560.00")
    page.press("input[name=value]", "Enter")
    page.wait_for_selector("#question")
    assert "A question first" in page.inner_text("#answer")
    assert page.evaluate("document.activeElement.id") == "question"
    assert page.input_value("input[name=value]") == "560.00"
    page.keyboard.press("Enter")  # a hand that does not look changes nothing
    assert page.is_visible("#question")
    guess = page.inner_text("#question button >> nth=0")
    page.click("#question button >> nth=0")
    page.wait_for_selector("#answer .said.kept, #answer .said.unused")
    assert guess.removeprefix("Take ") in said(page)


def test_a_slip_can_be_kept_as_typed(page, address):
    # At a journal of its own: what is kept once at a dimension is not asked there again.
    at_form(page, address, FIT.replace("main.4", "main.5"))
    page.select_option("select[name=place]", "main.5.journal|rear/0")
    page.fill("input[name=value]", "560.10")
    page.click("button.take")
    page.wait_for_selector("#question")
    page.click("#question >> text=as typed")
    page.wait_for_selector("#question strong:has-text('75')")
    page.click("#question >> text=as typed")  # and the micrometer does not reach so far: asked as well
    page.wait_for_selector("#answer .said.kept, #answer .said.unused")
    assert "560.10 mm" in said(page)


def test_a_blade_is_answered_by_one_touch(page, address):
    at_form(page, address, LASH)
    page.select_option("select[name=blade]", "F3:0.19")
    page.click("button:has-text('goes') >> nth=0")
    assert "F3:0.19 goes" in said(page)
    found = address.check("valve.1.inlet.a.lash")
    assert found["words"] == page.inner_text("#fit .verdict .word")


def test_what_was_refused_stands_in_the_form(watched, address):
    page, _ = watched
    at_form(page, address)
    page.fill("input[name=value]", "sixty")
    page.click("button.take")
    page.wait_for_selector("#answer .said.refused")
    assert page.input_value("input[name=value]") == "sixty"


def test_when_the_bench_does_not_answer_it_is_said_and_nothing_is_lost(watched, address):
    page, _ = watched
    at_form(page, address)
    page.select_option("select[name=place]", "main.4.housing_bore|rear/0")
    page.fill("input[name=value]", "60.5120")
    page.context.set_offline(True)
    page.click("button.take")
    page.wait_for_selector("#no-answer:visible")
    assert "did not answer" in page.inner_text("#no-answer")
    assert page.input_value("input[name=value]") == "60.5120"
    page.context.set_offline(False)
    page.click("button.take")
    page.wait_for_selector("#answer .said.kept, #answer .said.unused")
    assert "Kept as entry" in said(page)


def test_without_script_the_form_works_and_leads_back(browser, address):
    with page_of(browser, java_script_enabled=False) as (page, _):
        at_form(page, address)
        page.locator("select[name=place]").select_option("main.4.journal|front/0")
        page.locator("input[name=value]").fill("56.0000")
        page.locator("button.take").click()
        assert "Kept as entry" in page.locator("#answer").inner_text()
        page.reload()  # sends the form again, which changes nothing
        assert "Kept as entry" in page.locator("#answer").inner_text()
        page.locator("input[name=value]").fill("fifty-six")
        page.locator("button.take").click()
        assert "Not taken" in page.locator("#answer").inner_text()
        assert page.locator("input[name=value]").input_value() == "fifty-six"
        page.locator("text=All fits").click()
        assert f"/builds/{CODE}/fits" in page.url
        assert page.url.endswith("#fit-main.4.running_clearance")


def tab_to(page, wanted):
    """Press Tab until the element wanted has the focus."""
    for _ in range(80):
        page.keyboard.press("Tab")
        if page.evaluate(f"document.activeElement.matches({wanted!r})"):
            return
    pytest.fail(f"{wanted} is not reached with Tab")


def test_from_the_builds_to_a_reading_with_the_keyboard_only(page, address):
    page.goto(address.address + "/")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    tab_to(page, f"h2 a[href*='{CODE}']")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**/builds/{CODE}*")
    tab_to(page, f"nav a[href*='{CODE}/fits']")
    page.keyboard.press("Enter")
    page.wait_for_url(f"**/builds/{CODE}/fits*")
    tab_to(page, "h3 a[href*='main.1.running_clearance']")
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline == "solid"
    page.keyboard.press("Enter")
    page.wait_for_url("**/fits/main.1.running_clearance*")
    tab_to(page, "#here > summary")
    page.keyboard.press("Enter")
    tab_to(page, "input[name=value]")
    page.keyboard.type("56.0470")
    page.keyboard.press("Enter")
    page.wait_for_selector("#answer .said")
    assert page.evaluate("document.activeElement.name") == "value"
    page.keyboard.type("56.0460")
    page.keyboard.press("Enter")
    page.wait_for_selector("#answer .said:has-text('56.0460')")


def test_the_unit_beside_the_value_follows_the_gauge(page, address):
    at_form(page, address)
    assert page.inner_text("#unit") == "mm"
    more(page)
    page.select_option("select[name=instrument]", "V1")
    assert page.inner_text("#unit") == "thou"
    assert page.inner_text("#unit-again") == "thou"
