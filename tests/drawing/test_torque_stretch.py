"""Torque against stretch: each fastener where it was read, the one that stands apart named."""

import re
import xml.etree.ElementTree as ET

import pytest

from fitwright.drawing.charts.torque_stretch import TorqueAndStretch, torque_stretch
from tests.support.compare import absolute, verified

SVG = "{http://www.w3.org/2000/svg}"
READ = [(52.0, 150), (53.0, 151), (51.0, 149), (52.5, 152), (54.0, 148), (51.5, 150), (53.0, 149)]
ALIKE = [TorqueAndStretch(k, f"bolt {k}", torque, um * 1e-6) for k, (torque, um) in enumerate(READ, start=1)]
APART = TorqueAndStretch(8, "bolt 8", 58.0, 121e-6, "little stretch at full torque")


def marks(picture):
    """Where the marks of those stand that do not stand apart, in the order in which they were read."""
    circles = ET.fromstring(picture.svg).iter(f"{SVG}circle")
    return [(float(e.get("cx")), float(e.get("cy"))) for e in circles if e.get("class") == "ch-mark-full"]


@pytest.mark.parametrize("family", ["mm", "inch"])
def test_marks_stand_where_torque_and_stretch_were_read(family):
    points = marks(torque_stretch(ALIKE, family=family))
    (x0, y0), (x1, y1) = points[2], points[4]
    wide, high = (x1 - x0) / (148 - 149), (y1 - y0) / (54.0 - 51.0)
    got = [((x - x0) / wide + 149, (y - y0) / high + 51.0) for x, y in points]
    for (stretch, torque), read in zip(got, READ, strict=True):
        verified(
            [torque, stretch], list(map(float, read)), by="where the mark stands", tolerance=absolute(0.1)
        )


def test_the_one_that_stands_apart_has_a_mark_of_its_own_and_a_sentence():
    picture = torque_stretch([*ALIKE, APART])
    assert len(marks(picture)) == len(ALIKE)
    assert picture.svg.count("bp-apart") == 1
    assert "8 (bolt 8) stands apart: little stretch at full torque." in picture.svg
    assert "bp-apart" not in torque_stretch(ALIKE).svg


def test_the_window_of_stretch_is_bracketed_and_said_in_the_readers_unit():
    window = {"stretch_low": 140e-6, "stretch_high": 160e-6}
    picture = torque_stretch(ALIKE, **window)
    assert picture.svg.count('class="ch-limit"') == 2
    assert "stretch wanted from 0.140 mm to 0.160 mm" in picture.svg
    inch = torque_stretch(ALIKE, family="inch", **window)
    assert "thou" in inch.svg
    assert "lbf·ft" in inch.svg
    assert not re.search(r"\bmm\b|N·m", inch.svg)


@pytest.mark.parametrize("width", [350.0, 780.0])
@pytest.mark.parametrize("fasteners", [[], ALIKE[:1], [*ALIKE, APART]], ids=["none", "one", "eight"])
def test_writing_stands_on_the_picture_and_on_no_other_writing(width, fasteners):
    picture = torque_stretch(fasteners, width=width, stretch_low=140e-6)
    assert "nan" not in picture.svg
    for index, box in enumerate(picture.texts):
        assert box.x >= 0.0, box
        assert box.x + box.width <= width + 12.0, box
        assert box.y + box.height <= picture.height + 1.0, box
        assert not any(box.overlaps(other) for other in picture.texts[index + 1 :]), box
