"""One engine described and read in inches and in millimetres: the same sizes, verdicts and digits."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal, localcontext
from functools import cache
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.assess.results import FitVerdict, State
from fitwright.drawing.figures import Reader
from fitwright.examples import sheet_text
from fitwright.formats.sheet import read_sheet
from fitwright.units import parse_quantity
from tests.support.compare import absolute, verified
from tests.support.small_sheet import SHEET, small_story
from tests.support.story import Story

FAMILIES: tuple[Literal["mm", "inch"], ...] = ("mm", "inch")
DIGITS = 24
AMOUNT = re.compile(r"(?<![\w.])(-?\d+(?:\.\d+)?) mm(?![\w2/])")
NUMBER = re.compile(r"[-+]?\d*\.?\d+")


def in_inches(millimetres: str) -> str:
    """The same length in inches, to more digits than a float holds."""
    with localcontext() as context:
        context.prec = DIGITS
        return f"{Decimal(millimetres) / Decimal('25.4'):f}"


def inch_sheet(text: str) -> str:
    """A sheet with every length written in inches."""
    converted = AMOUNT.sub(lambda found: f"{in_inches(found[1])} in", text)
    return converted.replace('units = "mm"', 'units = "inch"')


def inch_body(value):
    """A body with every typed length in inches."""
    if isinstance(value, dict) and value.keys() >= {"typed", "unit", "si"} and value["unit"] == "mm":
        text = in_inches(NUMBER.search(value["typed"])[0])
        parsed = parse_quantity(text, default_unit="in", dimension="length")
        return value | {"typed": text, "unit": "in", "decimals": parsed.decimals, "si": parsed.si}
    if isinstance(value, dict):
        return {key: inch_body(each) for key, each in value.items()}
    if isinstance(value, (list, tuple)):
        return [inch_body(each) for each in value]
    return value


def inch_story(story: Story, text: str) -> Story:
    """A story told in inches."""
    new = [replace(entry, body=inch_body(entry.body)) for entry in story.new]
    return Story(read_sheet(inch_sheet(text)), story.build, new)


def sizes(found: FitVerdict):
    """All lengths of a verdict."""
    bounds = [
        each for bound in found.bounds for each in (bound.limit, bound.value, bound.standard_uncertainty)
    ]
    hot = [each for state in found.hot for each in (state.value, state.standard_uncertainty)]
    several = (found.value, found.standard_uncertainty, *found.interval, found.in_hand, *bounds, *hot)
    return [0.0 if each is None else each for each in several]


def alike(metric: FitVerdict, imperial: FitVerdict) -> None:
    """Same verdict, sizes to 1e-12 m, and the same digits in either unit."""
    assert (metric.verdict, metric.reason, metric.words) == (
        imperial.verdict,
        imperial.reason,
        imperial.words,
    )
    assert [b.verdict for b in metric.bounds] == [b.verdict for b in imperial.bounds]
    for family in FAMILIES:
        reader = Reader(family)
        assert reader.value(metric) == reader.value(imperial)
        assert reader.in_hand(metric) == reader.in_hand(imperial)


@cache
def both(state: State):
    story = Story.of("corrie-five")
    return story.verdicts(state), inch_story(story, sheet_text("corrie-five")).verdicts(state)


@pytest.mark.parametrize("state", list(State))
def test_the_corrie_five_in_inches(state):
    metric, imperial = both(state)
    assert len(metric) >= 120
    assert metric.keys() == imperial.keys()
    for name, found in metric.items():
        alike(found, imperial[name])
    lengths = [each for each, found in metric.items() if found.unit == "m"]
    assert len(lengths) > 150
    by = "the same engine written and read in inches"
    verified(
        [each for name in lengths for each in sizes(imperial[name])],
        [each for name in lengths for each in sizes(metric[name])],
        by=by,
        tolerance=absolute(1e-12),
    )


def test_the_conversion_reaches_everything():
    story = Story.of("corrie-five")
    told = inch_story(story, sheet_text("corrie-five"))
    assert not AMOUNT.search(inch_sheet(sheet_text("corrie-five")))
    units = {
        entry.body["observation"]["value"]["unit"]
        for entry in told.new
        if entry.kind == "reading" and entry.body["observation"]["type"] == "value"
    }
    assert "in" in units
    assert "mm" not in units
    assert told.sheet.engine.unit_family == "inch"


MICROMETRES = st.integers(min_value=-12, max_value=12)


@settings(max_examples=25, deadline=None)
@given(fitted=MICROMETRES, front=MICROMETRES, rear=MICROMETRES, seat=MICROMETRES)
def test_small_sheets_agree(fitted, front, rear, seat):
    story = small_story()
    for name, place, base, offset, gauge in (
        ("fitted", None, 55500, fitted, ("B", "S-BM")),
        ("journal", "front", 55450, front, ("M", "S-M")),
        ("journal", "rear", 55450, rear, ("N", "S-N")),
        ("seat_bore", None, 40000, seat, ("B", "S-BR")),
        ("seat_diameter", None, 40070, -seat, ("M", "S-M")),
    ):
        text = f"{(base + offset) / 1000:.3f}"
        story.reads(name, place, text, instrument=gauge[0], setting=gauge[1])
    metric, imperial = story.verdicts(), inch_story(story, SHEET).verdicts()
    for name, found in metric.items():
        alike(found, imperial[name])
        verified(sizes(imperial[name]), sizes(found), by="the same read in inches", tolerance=absolute(1e-12))
