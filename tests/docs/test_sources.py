"""Sources are complete, keyed alike, and whatever is cited is there."""

import ast
import re
import tomllib

import pytest

from tests.support.codebase import ROOT, relative, source_files
from tests.support.compare import SOURCES
from tests.support.docstrings import source_keys

TABLES = tomllib.loads(SOURCES.read_text(encoding="utf-8"))
KEY = re.compile(r"[a-z][a-z0-9_]*\d{4}[a-z]?")
CITED = re.compile(rf"\[({KEY.pattern})\](?!\()")


@pytest.mark.parametrize("key", TABLES)
def test_a_source_says_what_it_is(key):
    table = TABLES[key]
    assert KEY.fullmatch(key), "a key ends with the year of the edition: white2011, iso1_2022"
    assert isinstance(table["year"], int)
    assert all(table[field].strip() for field in ("title", "authors", "where"))
    assert table.keys() <= {"title", "authors", "year", "where", "note"}


def test_no_source_stands_twice():
    named = [(table["title"].casefold(), table["year"]) for table in TABLES.values()]
    assert len(set(named)) == len(named)


def test_sources_are_sorted():
    assert list(TABLES) == sorted(TABLES)


@pytest.mark.parametrize("page", sorted([*ROOT.glob("*.md"), *ROOT.glob("docs/**/*.md")]), ids=relative)
def test_what_a_page_cites_is_there(page):
    assert set(CITED.findall(page.read_text("utf-8"))) <= TABLES.keys()


def test_what_a_docstring_cites_is_there():
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    unknown = [
        f"{relative(path)}: [{key}]"
        for path in source_files()
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, documented)
        for key in source_keys(ast.get_docstring(node) or "")
        if key not in TABLES
    ]
    assert not unknown, "\n".join(unknown)
