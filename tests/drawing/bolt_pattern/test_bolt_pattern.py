"""Bolt patterns: where the sheet says, in the order of tightening, each state told without colour."""

import itertools
import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.assess.results import Verdict
from fitwright.drawing.bolt_pattern import FastenerShown, bolt_pattern, standalone
from fitwright.drawing.bolt_pattern.pattern import IN_ROWS, MORE_BELOW, TO_SCALE
from fitwright.drawing.bolt_pattern.places import layout_of
from fitwright.model.fastener import Fastener, TighteningGroup, readable_names
from tests.support.compare import verified

SVG = "{http://www.w3.org/2000/svg}"
HEAD = [(196, 86), (196, 0), (98, 0), (294, 86), (294, 0), (98, 86), (0, 86), (392, 0), (392, 86), (0, 0)]


def group_of(fasteners, title="Cylinder head"):
    return TighteningGroup("head", title, "M10x1.25", tuple(fasteners), ())


PLACED = group_of(Fastener(f"bolt {k}", x * 1e-3, y * 1e-3) for k, (x, y) in enumerate(HEAD, start=1))
UNPLACED = group_of(Fastener(f"bolt {k}") for k in range(1, 9))
STATES = (
    FastenerShown("bolt 1", "", Verdict.WITHIN, "within", (True,) * 3, ("90°",)),
    FastenerShown("bolt 2", "", Verdict.OUTSIDE, "outside", (True,) * 3, ("120°",)),
    FastenerShown("bolt 3", "", Verdict.UNPROVEN, "odd one out", (True,) * 3, ("90°",)),
    FastenerShown("bolt 4", word="loosened", passes=(False,) * 3, loosened=True),
    FastenerShown("bolt 5", word="pass 2 of 3", passes=(True, True, False), figures=("60 N m",)),
    FastenerShown("bolt 6", word="not yet", passes=(False,) * 3, next=True, address="?at=bolt+6"),
)


def orders(picture):
    """Where each number of the order stands."""
    texts = ET.fromstring(picture.svg).iter(f"{SVG}text")
    return {
        int(each.text): (float(each.get("x")), float(each.get("y")))
        for each in texts
        if "bp-order" in each.get("class")
    }


def notes(picture):
    return " ".join(box.words for box in picture.texts)


@pytest.mark.parametrize("width", [350.0, 780.0])
def test_heads_stand_as_the_sheet_places_them(width):
    at = orders(bolt_pattern(PLACED, width=width))
    scale = (at[8][0] - at[7][0]) / 392.0
    got = [[(x - at[10][0]) / scale, (at[10][1] - y) / scale] for _, (x, y) in sorted(at.items())]
    want = [list(map(float, each)) for each in HEAD]
    for one, other in zip(got, want, strict=True):
        verified(
            [1.0 + each for each in one], [1.0 + each for each in other], by="the places", tolerance=1e-3
        )


def test_without_places_they_stand_in_rows_and_that_is_said():
    picture = bolt_pattern(UNPLACED)
    at = orders(picture)
    assert len({y for _, y in at.values()}) == 2
    assert [at[k][0] for k in (1, 2, 3, 4)] == sorted(at[k][0] for k in (1, 2, 3, 4))
    assert IN_ROWS in notes(picture)
    assert TO_SCALE not in notes(picture)
    assert TO_SCALE in notes(bolt_pattern(PLACED))


def test_one_fastener_without_its_place_puts_all_in_rows():
    mixed = group_of([*PLACED.fasteners[:3], Fastener("bolt 4")])
    assert IN_ROWS in notes(bolt_pattern(mixed))


@pytest.mark.parametrize("group", [PLACED, UNPLACED], ids=["placed", "in rows"])
@pytest.mark.parametrize("width", [350.0, 780.0])
def test_writing_stands_on_the_picture_and_on_no_other_writing(group, width):
    picture = bolt_pattern(group, STATES, width=width)
    for index, box in enumerate(picture.texts):
        assert box.x >= 0.0, box
        assert box.x + box.width <= width, box
        assert box.y + box.height <= picture.height + 1.0, box
        assert not any(box.overlaps(other) for other in picture.texts[index + 1 :]), box


def test_no_two_states_look_alike_without_their_colours():
    def look(shown):
        plain = replace(shown, id="bolt 1", figures=(), address="")
        svg = bolt_pattern(group_of([Fastener("bolt 1", 0.0, 0.0)]), (plain,), ids=False).svg
        return re.sub(r"<text [^>]*fig-[^>]*>[^<]*</text>|<desc>.*?</desc>", "", svg)

    for one, other in itertools.combinations(STATES, 2):
        assert look(one) != look(other), (one.word, other.word)


def test_names_leave_out_what_tells_no_two_positions_apart():
    head = group_of(Fastener(f"head.stud_{k}") for k in range(3))
    caps = group_of(Fastener(f"main.{k}.bolt.{side}") for k in (1, 2) for side in "ab")
    assert list(readable_names(head).values()) == ["head stud 0", "head stud 1", "head stud 2"]
    assert readable_names(caps)["main.2.bolt.b"] == "main 2 bolt b"
    assert readable_names(group_of([Fastener("pump.bolt")])) == {"pump.bolt": "pump bolt"}
    assert "bolt 3" in bolt_pattern(group_of(Fastener(f"head.bolt.{k}") for k in range(1, 5))).svg


def test_what_was_left_out_for_want_of_room_is_said():
    assert MORE_BELOW not in notes(bolt_pattern(PLACED, STATES))
    assert MORE_BELOW in notes(bolt_pattern(PLACED, STATES, width=350.0)).replace("\n", " ")


def test_the_drawing_says_everything_in_words_too():
    root = ET.fromstring(bolt_pattern(PLACED, STATES).svg)
    said = root.findtext(f"{SVG}desc")
    assert root.get("aria-label") == "Bolt pattern: Cylinder head"
    for words in (
        "2: bolt 2, outside, pass 3 of 3, 120°",
        "5: bolt 5, pass 2 of 3, 60 N m",
        "6: bolt 6, not yet, next",
    ):
        assert words in said


def test_only_what_leads_somewhere_can_be_touched():
    touched = ET.fromstring(bolt_pattern(PLACED, STATES).svg)
    links = list(touched.iter(f"{SVG}a"))
    assert [each.get("href") for each in links] == ["?at=bolt+6"]
    assert links[0].get("aria-label") == "6: bolt 6, not yet, next"
    assert touched.get("role") == "group"
    assert ET.fromstring(bolt_pattern(PLACED).svg).get("role") == "img"


def test_names_of_a_sheet_are_escaped():
    name = 'bolt "<1>" & co'
    picture = bolt_pattern(group_of([Fastener(name)], "A <b> & c"), (FastenerShown(name, address='?a="<'),))
    assert ET.fromstring(picture.svg).get("aria-label") == "Bolt pattern: A <b> & c"


def test_as_a_file_it_is_black_on_white_and_needs_no_page():
    text = standalone(bolt_pattern(PLACED, STATES))
    assert "var(" not in text
    assert set(re.findall(r"#[0-9a-f]{6}\b", text)) == {"#000000", "#222222", "#555555", "#bbbbbb", "#ffffff"}
    ET.fromstring(text.encode())


@given(
    st.lists(st.tuples(st.floats(-2.0, 2.0), st.floats(-2.0, 2.0)), min_size=1, max_size=24),
    st.sampled_from([350.0, 780.0]),
)
def test_any_pattern_stands_on_the_picture(points, width):
    fasteners = [Fastener(f"f{k}", x, y) for k, (x, y) in enumerate(points)]
    layout = layout_of(fasteners, width)
    for x, y in layout.places.values():
        assert x - layout.head >= 0.0
        assert x + layout.head <= width
        assert y - layout.head >= 0.0
        assert y + layout.head <= layout.height
