"""What a drawing says of its place: words, planes and angles where they lie, marks, hostile words, style."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from fitwright.drawing.part_place import (
    NoSuchPlaceError,
    part_place_drawing,
    place_name,
    standalone,
)
from fitwright.drawing.part_place.choosing import picture_of
from fitwright.drawing.part_place.shapes import corners, hatch
from fitwright.drawing.part_place.subject import subject_of
from fitwright.formats.sheet.reader import read_sheet
from fitwright.model.dimension import Dimension, Place, Sense
from tests.drawing.part_place.geometry import arrows, mark_point, marks_of, of_class, words_of

PLANES = ("front", "middle", "rear")
CORRIE = Path(__file__).parents[3] / "src" / "fitwright" / "examples" / "corrie_five" / "sheet.toml"


@pytest.fixture(scope="module")
def sheet():
    return read_sheet(CORRIE.read_text(encoding="utf-8"))


def dimension_of(title, sense="diametral", *, gauges=(), planes=(), angles=(), names=()):
    """A dimension of no known engine."""
    places = tuple(Place(name) for name in names)
    places += tuple(Place(f"{plane}/{angle}", plane, angle) for plane in planes for angle in angles)
    return Dimension(
        "thing.size", title, Sense(sense), None, places=places or (Place("whole"),), instruments=tuple(gauges)
    )


def drawn(sheet, dimension, place, read=()):
    return ET.fromstring(part_place_drawing(sheet, dimension, dimension.place(place), read))


def test_the_place_is_said_in_words(sheet):
    pin = dimension_of("Main journal 2", planes=("front", "rear"), angles=("0", "45"))
    svg = drawn(sheet, pin, "front/45")
    assert svg.get("aria-label") == "Main journal 2, front plane, 45 degrees"
    assert words_of(svg, "place-label") == ["front plane, 45°"]


@pytest.mark.parametrize(
    "names, place, words",
    [
        (("whole",), "whole", "Lug"),
        (("a", "b"), "b", "Lug, place b"),
        (("mesh_1", "mesh_2"), "mesh_2", "Lug, mesh 2"),
        (("top@0", "top@90"), "top@90", "Lug, top (deck), crank at 90 degrees"),
        (("right@0",), "right@0", "Lug, right (exhaust side), crank at 0 degrees"),
        (("0", "90", "180"), "180", "Lug, 180 degrees"),
        (("1", "2"), "2", "Lug, place 2"),
    ],
)
def test_named_places_are_said_as_one_says_them(sheet, names, place, words):
    lug = dimension_of("Lug", "radial", names=names)
    assert place_name(sheet, lug, lug.place(place)) == words


def test_planes_lie_along_a_part_and_angles_where_they_are_seen(sheet):
    pin = dimension_of("Main journal", planes=PLANES, angles=("0", "60", "90", "120"))
    svg = drawn(sheet, pin, "middle/60")
    at = {place.id: mark_point(svg, place.id) for place in pin.places}
    columns = [{at[f"{plane}/{angle}"][0] for angle in ("0", "60", "90", "120")} for plane in PLANES]
    assert [len(column) for column in columns] == [1, 1, 1]
    front, middle, rear = (column.pop() for column in columns)
    assert front < middle < rear
    top, sixty, side, below = (at[f"front/{angle}"][1] for angle in ("0", "60", "90", "120"))
    half = (side - top) / 2
    assert top < sixty < side < below
    assert abs((side - sixty) - half) < 0.2
    assert abs((below - side) - half) < 0.2


def test_a_standing_part_has_its_planes_from_the_top_down(sheet):
    bore = dimension_of(
        "Cylinder bore", gauges=("bore gauge",), planes=("top", "middle", "bottom"), angles=("0", "90")
    )
    svg = drawn(sheet, bore, "middle/90")
    heights = [mark_point(svg, f"{plane}/90")[1] for plane in ("top", "middle", "bottom")]
    assert heights == sorted(heights)
    assert heights[0] < heights[1] < heights[2]


def test_a_micrometer_points_inwards_and_a_bore_gauge_outwards(sheet):
    for gauge, inwards in (("outside micrometer", True), ("bore gauge", False)):
        thing = dimension_of("Thing", gauges=(gauge,), planes=("front",), angles=("0",))
        svg = drawn(sheet, thing, "front/0")
        (one_tail, one_tip), (other_tail, other_tip) = arrows(svg)
        tails, tips = abs(one_tail[1] - other_tail[1]), abs(one_tip[1] - other_tip[1])
        assert (tails > tips) == inwards


def test_read_places_are_ticked_and_the_others_open(sheet):
    pin = dimension_of("Pin", planes=("front", "rear"), angles=("0", "90"))
    svg = drawn(sheet, pin, "rear/0", read=("front/0", "rear/0", "of another dimension"))
    found, ticked = marks_of(svg)
    assert len(found) == 4
    assert sorted(ticked) == ["front/0", "rear/0"]
    assert all(
        each.find("{http://www.w3.org/2000/svg}path") is not None for each in of_class(svg, "place-read")
    )


def test_unknown_words_get_a_plain_block(sheet):
    for sense, name in (("linear", "block_height"), ("axial", "block_length")):
        unknown = dimension_of("Quill", sense, names=("x", "y"))
        assert picture_of(subject_of(sheet, unknown)).__name__ == name
        assert arrows(drawn(sheet, unknown, "y"))


@pytest.mark.parametrize(
    "title, sense, gauge, picture",
    [
        ("Head, flatness over its diagonals", "linear", "straight-edge", "flat_face"),
        ("Second ring in its groove, side clearance", "axial", "feeler blades", "ring_side_gap"),
        ("Distributor gear, backlash", "linear", "dial indicator", "backlash"),
        ("Tappet clearance, exhaust", "linear", "feeler blades", "cam_lash"),
        ("Stud, breakaway", "torque", "torque wrench", "torque"),
        ("Balancer weight", "mass", "scales", "scales"),
        ("Gudgeon bush in the small end", "diametral", "three-point inside micrometer", "bush"),
    ],
)
def test_the_words_of_the_trade_choose_the_picture(sheet, title, sense, gauge, picture):
    found = picture_of(subject_of(sheet, dimension_of(title, sense, gauges=(gauge,))))
    assert found.__name__ == picture


HOSTILE = '<script>alert("x")</script>&\'"'


def test_hostile_words_stay_words(sheet):
    thing = dimension_of(HOSTILE, names=(HOSTILE, "two"))
    svg = drawn(sheet, thing, HOSTILE, read=(HOSTILE,))
    assert not [each for each in svg.iter() if each.tag.endswith("script")]
    assert svg.get("aria-label").startswith(HOSTILE)
    assert HOSTILE in words_of(svg, "place-label")
    assert marks_of(svg)[1] == [HOSTILE]


def test_a_place_that_the_dimension_has_not_is_refused(sheet):
    pin = dimension_of("Pin", planes=("front",), angles=("0",))
    with pytest.raises(NoSuchPlaceError, match=r'"thing\.size" has no place "rear/0"') as refused:
        part_place_drawing(sheet, pin, Place("rear/0", "rear", "0"), ())
    assert (refused.value.dimension, refused.value.place) == ("thing.size", "rear/0")


def test_by_itself_a_drawing_is_black_on_white(sheet):
    pin = dimension_of("Pin", planes=("front",), angles=("0",))
    drawing = part_place_drawing(sheet, pin, pin.places[0], ())
    alone = standalone(drawing)
    assert len(alone) > len(drawing)
    (style,) = [each.text for each in ET.fromstring(alone).iter() if each.tag.endswith("style")]
    assert "var(" not in style
    assert "stroke-width:3" in style
    assert alone.replace(f"<style>{style}</style>", "") == drawing


def test_other_words_of_the_engine_change_no_picture(sheet):
    """Only what the sheet says of the dimension counts, not which engine it is."""
    pin = dimension_of("Main journal", planes=("front",), angles=("0",))
    other = replace(sheet, engine=replace(sheet.engine, id="other", name="Other"))
    assert part_place_drawing(sheet, pin, pin.places[0], ()) == part_place_drawing(
        other, pin, pin.places[0], ()
    )


def test_hatching_stays_inside_of_the_metal():
    lines = hatch([corners(10, 10, 60, 40), corners(30, 20, 20, 20)])
    assert lines
    for piece in lines[1:].split("M"):
        start, step = piece.split("l")
        x, y = map(float, start.split())
        dx, dy = map(float, step.split())
        middle = (x + dx / 2, y + dy / 2)
        assert dx == -dy
        assert 9 <= x <= x + dx <= 71
        assert 9 <= y + dy <= y <= 51
        assert not (31 < middle[0] < 49 and 21 < middle[1] < 39)
