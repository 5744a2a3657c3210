"""Every place of every dimension of many sheets has its drawing: well formed, small, one place lit."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from fitwright.drawing.part_place import part_place_drawing
from fitwright.drawing.part_place.spots import DIRECTIONS
from fitwright.formats.sheet.reader import read_sheet
from fitwright.model.dimension import Sense
from fitwright.starter.answers import Answers
from fitwright.starter.sheet import write_sheet
from tests.drawing.part_place.geometry import angles_of, arrows, classes, lit_of, marks_of
from tests.starter.grid import ENGINES

EXAMPLES = Path(__file__).parents[3] / "src" / "fitwright" / "examples"
SHEETS = {path.parent.name: path for path in sorted(EXAMPLES.glob("*/sheet.toml"))}
STARTED = ENGINES | {
    "head alone": Answers(name="Grid", only="head", valve_adjustment="hydraulic"),
    "screws": Answers(name="Grid", valve_train="overhead camshaft", valve_adjustment="screws"),
    "twin in a vee": Answers(name="Grid", arrangement="vee", rods_per_pin=1, cylinders=2),
}
LIMIT = 6000


@cache
def sheet_of(name):
    if name in SHEETS:
        return read_sheet(SHEETS[name].read_text(encoding="utf-8"))
    return read_sheet(write_sheet(STARTED[name]))


def drawings(name):
    """Each drawing of a sheet, half of the other places read."""
    sheet = sheet_of(name)
    for dimension in sheet.dimensions.values():
        for number, place in enumerate(dimension.places):
            read = {each.id for each in dimension.places[:number]}
            yield dimension, place, read, part_place_drawing(sheet, dimension, place, read)


every_sheet = pytest.mark.parametrize("name", [*SHEETS, *STARTED])


@every_sheet
def test_each_place_has_a_small_drawing_with_itself_lit(name):
    largest = 0
    for dimension, place, read, drawing in drawings(name):
        svg = ET.fromstring(drawing)
        where = f"{dimension.id} at {place.id}"
        assert svg.get("role") == "img", where
        assert dimension.title in svg.get("aria-label"), where
        assert lit_of(svg).get("data-place") == place.id, where
        assert arrows(svg), f"{where}: nothing says what is measured"
        found, ticked = marks_of(svg)
        assert sorted(found) == sorted(each.id for each in dimension.places), where
        assert set(ticked) == read, where
        assert "style" not in drawing, where
        assert "id=" not in drawing.replace("data-place", ""), where
        largest = max(largest, len(drawing.encode()))
        assert largest < LIMIT, where
    print(f"{name}: largest drawing {largest} bytes")


@every_sheet
def test_the_arrows_stand_at_the_angle_of_the_place(name):
    drawn = 0
    for dimension, place, _, drawing in drawings(name):
        wanted = angle_said(place)
        if wanted is None or dimension.sense not in (Sense.DIAMETRAL, Sense.RADIAL):
            continue
        found = angles_of(ET.fromstring(drawing))
        off = min(abs((angle - wanted + 90) % 180 - 90) for angle in found)
        assert off < 0.5, f"{dimension.id} at {place.id}: arrows at {found}, wanted {wanted}"
        drawn += 1
    print(f"{name}: {drawn} angles drawn")


@every_sheet
def test_every_class_of_a_drawing_has_its_rule(name):
    from fitwright.drawing.part_place.standalone import STYLE

    page = Path(__file__).parents[3] / "src" / "fitwright" / "web" / "static" / "place.css"
    rules = page.read_text(encoding="utf-8")
    used = {each for *_, drawing in drawings(name) for each in classes(ET.fromstring(drawing))}
    used -= {"part-place", "place-lit"}
    assert {each for each in used if f".{each}" not in rules} == set()
    assert {each for each in used if f".{each}" not in STYLE} == set()


def angle_said(place):
    """The angle that a place says in degrees, if it says any."""
    direction = place.id.partition("@")[0]
    if "@" in place.id and direction in DIRECTIONS:
        return DIRECTIONS[direction]
    return float(place.angle) if place.angle is not None and place.angle.isdigit() else None
