"""Links between documents resolve, every page can be reached, and commands that are named exist."""

import re
import subprocess

import pytest

from tests.support.codebase import ROOT, relative

PAGES = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")])
LINK = re.compile(r"(?<!!)\[[^\]]*\]\(([^)\s]+)\)|!\[[^\]]*\]\(([^)\s]+)\)")
each_page = pytest.mark.parametrize("page", [pytest.param(page, id=relative(page)) for page in PAGES])


def prose(page):
    """Text without fenced blocks and inline code, where brackets mean something else."""
    return re.sub(
        r"`[^`\n]*`", "", re.sub(r"^```.*?^```", "", page.read_text("utf-8"), flags=re.DOTALL | re.MULTILINE)
    )


def targets(page):
    for plain, picture in LINK.findall(prose(page)):
        target = plain or picture
        if not re.match(r"[a-z]+:", target):
            yield target


def anchors(page):
    titles = re.findall(r"^#+ (.+)$", page.read_text("utf-8"), flags=re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", title.lower()).replace(" ", "-") for title in titles}


@each_page
def test_internal_links_resolve(page):
    broken = []
    for target in targets(page):
        path, _, anchor = target.partition("#")
        found = (page.parent / path).resolve() if path else page
        if not found.exists() or (anchor and anchor not in anchors(found)):
            broken.append(target)
    assert not broken


def test_every_page_can_be_reached_from_the_readme():
    reached, waiting = set(), [ROOT / "README.md"]
    while waiting:
        page = waiting.pop()
        if page not in reached and page.suffix == ".md":
            reached.add(page)
            waiting += [(page.parent / target.partition("#")[0]).resolve() for target in targets(page)]
    lost = [relative(page) for page in PAGES if page not in reached]
    assert not lost


@each_page
def test_commands_of_the_script_exist(page):
    usage = subprocess.run([ROOT / "run", "help"], capture_output=True, text=True, check=True).stdout
    known = set(re.findall(r"^\./run (\w+)", usage, flags=re.MULTILINE)) | {"help"}
    named = set(re.findall(r"\./run (\w+)", page.read_text("utf-8")))
    assert named <= known
