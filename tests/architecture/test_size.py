"""Modules stay small enough to read in one sitting."""

import tomllib
from pathlib import Path

from tests.support.codebase import ROOT, relative, source_files

HARD = 600
NEEDS_REASON = 400
REASONS = tomllib.loads(Path(__file__).with_name("long_modules.toml").read_text(encoding="utf-8"))


def lines(path):
    return len(path.read_text(encoding="utf-8").splitlines())


def test_no_module_is_too_long():
    long = {relative(path): lines(path) for path in source_files() if lines(path) > HARD}
    assert not long, f"more than {HARD} lines; divide them: {long}"


def test_a_long_module_has_its_reason():
    long = {relative(path): lines(path) for path in source_files() if lines(path) > NEEDS_REASON}
    unexplained = long.keys() - REASONS.keys()
    assert not unexplained, f"more than {NEEDS_REASON} lines and no reason in long_modules.toml: {long}"


def test_every_reason_is_still_needed():
    short = [path for path in REASONS if lines(ROOT / path) <= NEEDS_REASON]
    assert not short, f"short again; take the reasons out of long_modules.toml: {short}"
    assert all(reason.strip() for reason in REASONS.values())
