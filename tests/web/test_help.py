"""Help in the browser: the index, every page, links that stay inside, and Markdown that brings no HTML."""

import re

import pytest

from fitwright.web.pages import help_pages
from fitwright.web.pages.help_pages import library, page, writing
from fitwright.web.pages.help_pages.library import PAGES, help_page
from fitwright.web.pages.help_pages.writing import html_of
from tests.support.contexts import unread


@pytest.mark.parametrize("name", PAGES)
def test_every_page_of_help_is_shown(looking, name):
    answer = looking.get(f"/help/{name}")
    assert answer.status_code == 200
    assert f"<h1>{help_page(name).title}</h1>" in answer.text
    assert str(help_page(name).body) in answer.text
    assert len(re.findall("<h1", answer.text)) == 1


def test_the_index_names_every_page_and_what_it_is_about(looking):
    found = looking.get("/help").text
    for name in PAGES:
        assert f'<h2><a href="/help/{name}">{help_page(name).title}</a></h2>' in found
        assert str(help_page(name).about) in found


def test_every_link_of_the_help_leads_somewhere(looking):
    pages = {name: looking.get(f"/help/{name}").text for name in PAGES}
    for name, text in pages.items():
        for path, anchor in re.findall(r'href="/help/([a-z-]+)#?([a-z-]*)"', text):
            assert path in PAGES, name
            assert not anchor or f'id="{anchor}"' in pages[path]


def test_help_is_there_before_anything_else(asking, empty_shop):
    client = asking(empty_shop)
    assert client.get("/help").status_code == client.get("/help/measure").status_code == 200
    assert 'href="/help/builds"' in client.get("/").text


@pytest.mark.parametrize("name", ["nothing", "..%2Fpyproject", "<b>"])
def test_help_that_is_not_there_is_said(looking, name):
    answer = looking.get(f"/help/{name}")
    assert answer.status_code == 404
    assert "<b>" not in answer.text


def test_markdown_brings_no_html_and_no_link_that_leads_away():
    evil = (
        "<script>alert(1)</script> [a](javascript:alert(1)) [b](https://example.org) ![c](x.png) [d](../e.md)"
    )
    found = str(html_of(evil))
    assert "<script" not in found
    assert "<a " not in found
    assert "<img" not in found
    assert "&lt;script&gt;" in found
    assert "b " in found


def test_headings_can_be_jumped_to():
    assert '<h2 id="with-blades">With blades</h2>' in html_of("## With blades")


def test_every_field_of_the_pages_of_help_is_shown_somewhere(looking, read):
    looking.get("/help")
    looking.get("/help/measure")
    assert not unread([help_pages, page, library, writing], read)
