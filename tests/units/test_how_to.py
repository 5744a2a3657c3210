"""The how-to page says what the code does."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fitwright.units import DIMENSIONS, QuantityError, echo, parse_quantity, units_of

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "how-to" / "units-and-slips.md").read_text(
    encoding="utf-8"
)


def rows(heading):
    section = PAGE.split(f"## {heading}\n")[1].split("\n## ")[0]
    found = re.findall(r"^\| `(.+?)` \| (.+) \|$", section, re.MULTILINE)
    assert len(found) > 5, "the table is there and is read"
    return found


@pytest.mark.parametrize("written, taken", rows("What you can write"))
def test_what_is_written_is_taken_as_the_page_says(written, taken):
    assert echo(parse_quantity(written)) == taken


@pytest.mark.parametrize("written, answer", rows("What is refused, and why"))
def test_what_is_refused_gets_the_answer_on_the_page(written, answer):
    with pytest.raises(QuantityError) as refused:
        parse_quantity(written)
    assert str(refused.value) == answer


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_the_page_lists_each_unit(dimension):
    units = ", ".join(f"`{unit}`" for unit in units_of(dimension))
    assert f"| {dimension.replace('_', ' ')} | {units} |" in PAGE
