from __future__ import annotations

import re
from pathlib import Path

from fitwright.data.cautions import cautions
from fitwright.formats.sheet import check_sheet, read_sheet
from tests.support.sheet_reference import PAGE, field_reference, page_with
from tests.support.walking import walked

GUIDE = Path(__file__).resolve().parents[2] / "docs" / "how-to" / "write-an-engine-sheet.md"


def test_the_page_of_the_format_lists_every_key_as_it_is() -> None:
    written = PAGE.read_text(encoding="utf-8")
    assert written == page_with(field_reference()), "run python -m tests.support.sheet_reference"
    assert "| `fitted` |" in written


def test_the_guide_builds_a_sound_sheet() -> None:
    sheet = read_sheet(_sheet_of_the_guide())
    assert list(sheet.fits) == ["main.1.running_clearance", "main.2.running_clearance"]
    assert len(sheet.stations["mains"].order) == 10


def test_the_guide_describes_an_assembly_that_can_be_walked() -> None:
    sheet = read_sheet(_sheet_of_the_guide())
    assert list(sheet.tightening_groups) == ["main_caps", "rod_bolts", "flywheel"]
    assert sheet.tightening_groups["flywheel"].passes == ()
    assert [each.id[-1] for each in sheet.tightening_groups["flywheel"].fasteners] == list("15372648")
    assert walked(sheet) == list(sheet.steps)
    assert "sump.on" not in walked(sheet, released=False)


def test_the_guide_lists_every_caution() -> None:
    guide = GUIDE.read_text(encoding="utf-8")
    assert [key for key in cautions() if f"`{key}`" not in guide] == []


def test_the_guide_shows_a_problem_as_it_is_told() -> None:
    text = _sheet_of_the_guide().replace('part = "crank"', 'part = "crnk"', 1)
    (problem,) = check_sheet(text)[1]
    assert f"```\n{problem}\n```" in GUIDE.read_text(encoding="utf-8")


def test_the_page_of_the_format_shows_a_problem_as_it_is_told() -> None:
    page = PAGE.read_text(encoding="utf-8")
    shown = re.search(r"^sheet\.toml:\d+:\d+: dimension .*$", page, re.MULTILINE)
    assert shown is not None
    text = "\n" * 10 + '[dimensions."main.{1..6}.journal"]\n\nnominal=67.08\ntitle = "J"\nsense = "radial"\n'
    told = [str(problem) for problem in check_sheet(text)[1]]
    assert shown[0] in told


def _sheet_of_the_guide() -> str:
    return "\n".join(re.findall(r"```toml\n(.*?)```", GUIDE.read_text(encoding="utf-8"), re.DOTALL))
