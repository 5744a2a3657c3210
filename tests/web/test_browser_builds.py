"""In a real browser: a build started by questions, its sheet edited and taken over, an entry taken back."""

import shutil

import pytest

from tests.support.serving import served
from tests.web.test_browser import page_of

CODE = "corrie-five"
AT_SHEET, AT_RECORD = f"/builds/{CODE}/sheet", f"/builds/{CODE}/record"


@pytest.fixture(scope="module")
def server(prepared, tmp_path_factory):
    folder = shutil.copytree(prepared, tmp_path_factory.mktemp("builds") / "shop")
    with served(folder) as found:
        yield found.address


@pytest.fixture
def page(browser):
    with page_of(browser) as (opened, errors):
        yield opened
        assert errors == []


def test_lines_fill_in_by_themselves_and_other_browsers_news_show(page, browser, server):
    page.goto(f"{server}/")
    page.wait_for_selector(".waiting", state="detached")
    assert page.locator(".counts").count() == page.locator("article").count()
    page.goto(f"{server}/builds/{CODE}/record")  # this browser looks at the build
    page.goto(f"{server}/")
    assert page.locator(".news").count() == 0
    with page_of(browser) as (other, _):
        other.goto(f"{server}/builds/{CODE}/record/700")
        other.fill("[name=reason]", "seen by another")
        other.click("button[value=take-back]")
        other.wait_for_selector("#outcome .kept")
    page.wait_for_selector(".news")
    assert page.inner_text(".news") == "1 withdrawal since you looked"
    page.click(".news a")
    assert page.locator(".entry").count() == 1
    assert "seen by another" in page.inner_text(".entry")


def test_questions_that_do_not_matter_go_away_with_what_was_typed_kept(page, server):
    page.goto(f"{server}/builds/new/questions")
    page.fill("[name=name]", "Trial Twin")
    page.fill("[name=valves_per_cylinder]", "4")
    page.select_option("[name=valve_train]", "two-stroke")
    page.wait_for_selector("[data-question=valves_per_cylinder]", state="hidden")
    page.select_option("[name=valve_train]", "pushrod")
    page.wait_for_selector("[data-question=valves_per_cylinder]", state="visible")
    assert page.input_value("[name=valves_per_cylinder]") == "4"
    page.fill("[name=bore]", "eighty")
    page.wait_for_selector("#w-bore:has-text('does not start with a number')")
    page.reload()
    page.wait_for_selector("#w-bore:has-text('does not start with a number')")
    assert page.input_value("[name=name]") == "Trial Twin"
    assert page.input_value("[name=valve_train]") == "pushrod"
    page.fill("[name=bore]", "82 mm")
    page.wait_for_selector("#made .summary:has-text('Trial Twin')")
    page.click("button[value=start]")
    page.wait_for_url("**/builds/trial-twin")
    assert "Trial Twin" in page.inner_text("h1")


def test_a_sheet_is_mended_where_it_is_wrong_and_taken_over(page, server):
    page.goto(f"{server}/builds/{CODE}/sheet")
    own = page.input_value("#text")
    assert page.inner_text(".gutter").split()[:3] == ["1", "2", "3"]
    page.evaluate(SELECT, 'revision = "A"')
    page.keyboard.type("revision = B")
    page.wait_for_selector("#findings li[data-line]")
    line = own[: own.index('revision = "A"')].count("\n") + 1
    assert page.inner_text(".gutter b") == f"✗ {line}"
    assert page.inner_text("#at-line").startswith(f"Line {line}: this is not TOML")
    page.keyboard.press("Escape")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.dataset.line") == str(line)
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "text"
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "text"  # it indents there
    page.reload()
    page.wait_for_selector("#draft-note:visible")
    page.wait_for_selector("#findings li[data-line]")
    page.click("#drop-draft")
    page.wait_for_selector("#draft-note", state="hidden")
    assert page.input_value("#text") == own
    page.evaluate(SELECT, 'revision = "A"')
    page.keyboard.type('revision = "B"')
    page.wait_for_selector("#findings:has-text('revision A -> B')")
    page.select_option("#subject", "main.{1..6}.running_clearance")
    page.fill("[name=limit-0-upper]", "0.070 mm")
    page.click("button[value='change:0']")
    page.wait_for_selector("#findings:has-text('0.065 mm -> 0.070 mm')")
    page.fill("[name=reason]", "wider on purpose")
    page.click("button[value=take-over]")
    page.wait_for_selector("#outcome:has-text('Kept as entry')")
    assert page.is_hidden("#draft-note")
    page.reload()
    assert '"B"' in page.input_value("#text")
    assert page.is_hidden("#draft-note")


SELECT = """(words) => {
  const field = document.querySelector("#text"), at = field.value.indexOf(words);
  field.focus();
  field.setSelectionRange(at, at + words.length);
}"""


def test_readings_of_a_file_are_taken_in_after_a_look(page, server, tmp_path):
    file = tmp_path / "readings.csv"
    file.write_text(
        "dimension,place,value,unit\nmain.4.journal,front/0,55.9905,mm\nmain.4.journal,rear/0,x,mm\n"
    )
    page.goto(f"{server}/builds/{CODE}/record/import")
    page.set_input_files("[name=file]", str(file))
    page.click("button[value=check]")
    page.wait_for_selector("#checked")
    assert "1 row cannot be taken in" in page.inner_text("#checked")
    page.check("[name=only_good]")
    page.click("button[value=take]")
    page.wait_for_selector("#outcome .kept")
    assert page.inner_text("#outcome").startswith("1 reading taken in from readings.csv, 1 row left out.")


def test_without_script_a_build_is_started_and_looked_at(browser, server, tmp_path):
    with page_of(browser, java_script_enabled=False) as (page, _):
        page.goto(f"{server}/builds/new/example")
        page.fill("[name=code]", "plain")
        page.click("button[value=start]")
        assert page.url.endswith("/builds/plain")
        page.goto(f"{server}/?whole=yes")
        assert page.locator(".counts").count() == page.locator("article").count()


def test_nothing_is_wider_than_a_narrow_screen(browser, server):
    with page_of(browser, viewport={"width": 320, "height": 800}) as (page, _):
        for path in (
            "/",
            "/builds/new/questions",
            f"/builds/{CODE}/sheet",
            f"/builds/{CODE}/record",
            "/shop/record/keeping",
        ):
            page.goto(server + path)
            assert page.evaluate("document.documentElement.scrollWidth") <= 320, path
