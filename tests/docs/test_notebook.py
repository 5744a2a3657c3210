"""The notebook page runs as it stands."""

from __future__ import annotations

import doctest
from pathlib import Path

PAGE = Path(__file__).parents[2] / "docs" / "how-to" / "ask-in-a-notebook.md"


def test_the_notebook_page_runs():
    failed, tried = doctest.testfile(str(PAGE), module_relative=False)
    assert tried > 10
    assert failed == 0
