"""Rotor sets: drawn to scale, clearances as large as said, every measured one with both readings."""

import math
import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest

from fitwright.drawing.rotor_set import Clearances, RotorBody, gear_set, rotor_set
from fitwright.physics.pump.spur import SpurPair
from fitwright.physics.pump.trochoid import RotorPair
from tests.support.compare import absolute, verified

MM = 1e-3
EIGHT = RotorPair(8, 2.5 * MM, 30 * MM, 6.5 * MM, 12 * MM)
BODY = RotorBody(66 * MM, 28 * MM, across_flats=24 * MM)
MEASURED = Clearances(tip=0.08 * MM, body=0.14 * MM, end=0.0535 * MM, backlash=0.15 * MM)
GEARS = SpurPair(11, 3.5 * MM, math.radians(20.0), 25 * MM, 45.5 * MM, 38.5 * MM)


def rotors(**change):
    return rotor_set(EIGHT, BODY, MEASURED, **{"angle": 0.3, **change})


def gears(**change):
    return gear_set(GEARS, MEASURED, shaft_diameter=14 * MM, **{"angle": 0.1, **change})


each_kind = pytest.mark.parametrize("draw", [rotors, gears], ids=["rotors", "gears"])


def outlines(picture):
    """Every closed run of straight lines of the rotors' metal, in the units of the picture."""
    metal = re.findall(r'<path d="([^"]+)" class="rs-rotor"', picture.svg)
    parts = [part for data in metal for part in re.findall(r"M([^MZz]+)z", data) if "L" in part]
    return [np.array([list(map(float, each.split())) for each in part.split("L")]) for part in parts]


def apart(one, other):
    """Least distance of two outlines, from the points of one to the lines of the other."""
    first, second = one[:, 0] + 1j * one[:, 1], other[:, 0] + 1j * other[:, 1]
    along = np.roll(second, -1) - second
    steps = np.where(along == 0.0, 1.0, along)
    share = np.clip(((first[:, None] - second) / steps).real, 0.0, 1.0)
    return np.abs(first[:, None] - second - share * along).min()


@pytest.mark.parametrize("factor", [1.0, 5.0, 15.0])
@pytest.mark.parametrize("angle", [0.0, 0.3, 2.0])
def test_tips_are_as_far_apart_as_measured_times_the_factor(factor, angle):
    picture = rotors(factor=factor, angle=angle)
    outer, inner = outlines(picture)[:2]
    got = apart(inner, outer) / scale_of(picture)
    verified(
        got / MM, factor * 0.08, by="points of one outline to lines of the other", tolerance=absolute(0.012)
    )


def scale_of(picture):
    """Units of the picture for a metre: the hub is the circle through the corners of its flats."""
    hub = outlines(picture)[2]
    middle = hub.mean(axis=0)
    return np.hypot(*(hub - middle).T).max() / (14 * MM)


def test_the_inner_rotor_is_to_scale():
    picture = rotors(factor=1.0)
    _, inner, hub = outlines(picture)[:3]
    radii = np.hypot(*(inner - hub.mean(axis=0)).T) / scale_of(picture) / MM
    want = [26.0 - 0.04, 21.0 - 0.04]
    by = "tip and root, half of the tip clearance off"
    verified([radii.max(), radii.min()], want, by=by, tolerance=absolute(0.01))


@pytest.mark.parametrize("factor", [1.0, 10.0])
def test_gears_keep_their_gap_to_the_body_and_their_backlash(factor):
    picture = gears(factor=factor)
    one, other = outlines(picture)[:2]
    centres = [points.mean(axis=0) for points in (one, other)]
    scale = np.hypot(*(centres[0] - centres[1])) / (38.5 * MM)
    tip = np.hypot(*(one - centres[0]).T).max() / scale
    verified(tip / MM, 22.75, by="outside diameter", tolerance=absolute(0.02))
    got = apart(one, other) / scale / MM
    working = math.acos(GEARS.base_diameter / GEARS.centre_distance)
    want = 0.5 * factor * 0.15 * math.cos(working)
    verified(got, want, by="half of the backlash along the normal", tolerance=absolute(0.03))


@each_kind
def test_every_clearance_is_read_in_both_units(draw):
    said = [box.words for box in draw().texts]
    assert {"0.080 mm", "3.15 thou", "0.0535 mm", "2.11 thou"} <= set(said)
    inch = [box.words for box in draw(family="inch").texts]
    assert inch.index("3.15 thou") < inch.index("0.080 mm")


def test_what_was_not_measured_says_so():
    picture = rotor_set(EIGHT, BODY, Clearances(tip=0.08 * MM))
    assert [box.words for box in picture.texts].count("not measured") == 2


@each_kind
@pytest.mark.parametrize("width", [350.0, 780.0])
def test_writing_stands_on_the_picture_and_on_no_other_writing(draw, width):
    for angle in np.linspace(0.0, 2.0, 5):
        picture = draw(width=width, factor=10.0, angle=float(angle))
        boxes = picture.texts
        for index, box in enumerate(boxes):
            assert box.x >= 0.0, box
            assert box.x + box.width <= width, box
            assert box.y >= 0.0, box
            assert box.y + box.height <= picture.height + 1.0, box
            assert not any(box.overlaps(other) for other in boxes[index + 1 :]), box


@each_kind
def test_the_note_says_how_large_clearances_are(draw):
    def notes(**change):
        return " ".join(box.words for box in draw(**change).texts)

    assert "All drawn to scale, clearances too." in notes()
    assert "clearances drawn 12 times" in notes(factor=12.0)
    assert "as far as there is room" in notes(factor=200.0)
    assert "as far as there is room" not in notes(factor=12.0)


def test_the_caution_stands_with_the_ports_alone():
    assert any("kidney" in box.words for box in rotors().texts)
    assert not any("kidney" in box.words for box in rotors(ports=False).texts)
    assert 'class="rs-port"' not in rotors(ports=False).svg


@each_kind
def test_the_drawing_is_whole_named_and_without_style(draw):
    picture = draw()
    root = ET.fromstring(picture.svg)
    assert root.get("role") == "img"
    assert root.get("aria-label")
    assert "0.080 mm or 3.15 thou" in (root.findtext("{http://www.w3.org/2000/svg}desc") or "")
    assert "style" not in picture.svg
    assert "nan" not in picture.svg


def test_it_turns_with_the_rotor():
    """A turn of the inner rotor by one tooth brings the same outlines, its mark elsewhere."""
    step = 2.0 * math.pi / 8.0
    first, second = rotors(angle=0.2), rotors(angle=0.2 + step)
    one, other = outlines(first)[1], outlines(second)[1]
    assert apart(one, other) < 0.02
    assert np.hypot(*(one[0] - other[0])) > 20.0
