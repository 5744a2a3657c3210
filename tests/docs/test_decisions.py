"""Every decision has its number and title, its date and its reason, and stands in the index."""

import datetime as dt
import re

import pytest

from tests.support.codebase import ROOT

FOLDER = ROOT / "docs" / "decisions"
DECISIONS = sorted(path for path in FOLDER.glob("*.md") if path.name != "index.md")


@pytest.mark.parametrize("path", DECISIONS, ids=lambda path: path.stem)
def test_a_decision_is_complete(path):
    number, title = re.fullmatch(r"(\d{4})-([a-z0-9]+(?:-[a-z0-9]+)*)\.md", path.name).groups()
    text = path.read_text("utf-8")
    assert re.match(rf"# {number} \S", text), f"the title begins with {number}"
    dt.date.fromisoformat(re.search(r"^Date: (\S+)$", text, flags=re.MULTILINE)[1])
    reason = re.search(r"^## Why\n+(.+?)(?=^## |\Z)", text, flags=re.MULTILINE | re.DOTALL)
    assert reason, "a section named Why"
    assert len(reason[1].split()) >= 10
    assert title
    assert len(text.splitlines()) <= 80, "half a page, a page at most"


def test_numbers_run_without_gap_or_double():
    assert [int(path.name[:4]) for path in DECISIONS] == list(range(1, len(DECISIONS) + 1))


def test_the_index_names_each():
    index = (FOLDER / "index.md").read_text("utf-8")
    assert [path.name for path in DECISIONS if f"({path.name})" not in index] == []


def test_every_dependency_has_its_line():
    project = (ROOT / "pyproject.toml").read_text("utf-8")
    wanted = {name.lower() for name in re.findall(r'"([A-Za-z][\w-]*)>=', project)}
    table = (FOLDER / "0002-libraries.md").read_text("utf-8").lower()
    assert [
        name
        for name in sorted(wanted)
        if not re.search(rf"^\| .*\b{re.escape(name)}\b", table, flags=re.MULTILINE)
    ] == []
