"""Nothing half done, nothing switched off, and no place of one machine in what we ship."""

import re

from tests.support.codebase import tracked_text

HERE = "tests/architecture/test_words.py"
OPEN_ENDS = re.compile(r"\b(TODO|FIXME|XXX|HACK)\b|raise NotImplementedError")
SWITCHED_OFF = re.compile(
    r"\bpytest\.(skip|xfail|importorskip)\b|\bmark\.(skip|skipif|xfail)\b|unittest\.skip"
)
MACHINE_PLACES = re.compile(
    r"(?<![\w.])/(work|root|home|Users)/|https?://[^\s/]*(pypi|artifact|mirror)[^\s/]*/simple"
)

SHIPPED = (
    *(f"src/**/*.{ending}" for ending in ("py", "toml", "csv", "md", "html", "js", "css", "svg")),
    "docs/**/*.md",
    "docs/**/*.toml",
    "*.md",
)


def offenders(pattern, *globs):
    return [
        f"{path}:{number}: {line.strip()}"
        for path, text in tracked_text(*globs)
        if path != HERE
        for number, line in enumerate(text.splitlines(), start=1)
        if pattern.search(line)
    ]


def test_no_open_ends():
    found = offenders(OPEN_ENDS, *SHIPPED)
    assert not found, "\n".join(found)


def test_no_test_is_switched_off():
    found = offenders(SWITCHED_OFF, "tests/**/*.py", "benchmarks/**/*.py")
    assert not found, "\n".join(found)


def test_no_machine_places():
    found = offenders(MACHINE_PLACES, *SHIPPED, "tests/**/*.py", "requirements/*", "pyproject.toml", "run")
    assert not found, "\n".join(found)
