"""Pages of help: one for each page of the bench, reached from the how-to pages, with keys that are there."""

import re

import pytest

from fitwright.bench.keypad import Because, BladeDid, Entered, On, TakeBack, ToStation, read_line
from fitwright.web.pages.help_pages.library import INDEX, PAGES, help_page, text_of
from fitwright.web.pages.help_pages.writing import anchor_of, links_of
from tests.support.codebase import PACKAGE, ROOT

FOLDER = PACKAGE / "help"
every_page = pytest.mark.parametrize("name", [*PAGES, INDEX])


def test_the_pages_are_those_of_the_package():
    assert {path.stem for path in FOLDER.iterdir()} == {*PAGES, INDEX}


def test_every_page_of_the_bench_has_its_help():
    asked = {
        name
        for path in (PACKAGE / "web").rglob("*.py")
        for name in re.findall(r'help_page="([a-z-]+)"', path.read_text("utf-8"))
    }
    assert asked
    assert asked <= set(PAGES)


def test_every_page_is_reached_from_the_how_to_page():
    text = (ROOT / "docs" / "how-to" / "use-the-bench-in-the-browser.md").read_text("utf-8")
    assert re.findall(r"src/fitwright/help/([a-z-]+)\.md", text) == list(PAGES)


@every_page
def test_links_lead_to_pages_and_headings_that_are_there(name):
    for link in links_of(text_of(name)):
        found = re.fullmatch(r"([a-z-]+)\.md(?:#([a-z-]+))?", link)
        assert found, link
        assert found[1] in PAGES
        if found[2]:
            titles = re.findall(r"^#+ (.+)$", text_of(found[1]), re.MULTILINE)
            assert found[2] in map(anchor_of, titles)


@every_page
def test_a_page_is_short_and_begins_with_what_it_is_about(name):
    text = text_of(name)
    assert re.match(r"# .+\n\n[A-Z]", text)
    assert len(text.splitlines()) < 110
    assert len(help_page(name).about.striptags()) < 260


def codes(name, heading):
    """The first cell of each row of the table under a heading, code by code."""
    part = text_of(name).split(f"## {heading}\n")[1].split("\n## ")[0]
    return [
        re.findall(r"`([^`]+)`", line.split("|")[1]) for line in part.splitlines() if line.startswith("| `")
    ]


def test_what_the_help_says_can_be_typed_is_read_so():
    sizes, *rest = codes("measure", "What to type")
    assert [read_line(each) for each in sizes] == [Entered("92")]
    *sizes_in_full, blades, pairs, signs = rest
    for typed in (each for row in sizes_in_full for each in row if each != "thou"):
        assert read_line(typed) == Entered(typed)
    answers = ["goes", "does not go", "drags"]
    assert [read_line(each, by_blades=True) for each in blades] == [
        BladeDid("0.06", each) for each in answers
    ]
    assert [read_line(each, by_blades=True) for each in pairs] == [BladeDid("4+1.5", "goes")]
    assert [read_line(each, by_blades=True) for each in signs] == [BladeDid("", each) for each in answers]


def test_the_keys_in_the_help_do_what_it_says():
    meant = [On(), On(7), ToStation(), ToStation(3), Because(), TakeBack(), TakeBack("92")]
    keys = [each for row in codes("measure", "Keys") for each in row]
    assert [read_line(each) for each in keys[: len(meant)]] == meant


def test_pages_about_work_that_can_hurt_say_so():
    assert "lock the stand" in text_of("engine").lower()
    assert "lock the stand" in text_of("measure").lower()
    assert "burn" in text_of("sums")
    assert "Before metal comes off" in text_of("fits")
