"""The how-to page says which columns the code accepts."""

import re

from fitwright.formats.readings.columns import ACCEPTED
from tests.support.codebase import ROOT

PAGE = (ROOT / "docs" / "how-to" / "import-and-export.md").read_text(encoding="utf-8")


def test_the_page_lists_the_columns_as_the_code_has_them():
    rows = re.findall(r"^\| `(\w+)` \| (.+) \|$", PAGE, re.MULTILINE)
    assert {name: text.replace("\\|", "|") for name, text in rows} == dict(ACCEPTED)
    assert [name for name, _ in rows] == list(ACCEPTED)
