"""The section shows every station once, to scale, with no label over another and nothing unescaped."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations
from math import hypot, radians
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.drawing.engine_section import StationState, section_drawing, standalone_svg, station_states
from fitwright.drawing.engine_section.leaders import cross
from fitwright.model.amount import Written
from fitwright.model.engine import Layout
from fitwright.starter.answers import WORDS
from tests.support.codebase import PACKAGE
from tests.support.compare import verified
from tests.support.engine_layouts import ENGINES, engine

SVG = "{http://www.w3.org/2000/svg}"
each_engine = pytest.mark.parametrize("name", ENGINES)
each_view = pytest.mark.parametrize("view", ["along", "across"])


def states(sheet, **counts):
    return {
        station.id: StationState(station.id, station.title, href=f"/build/x#{station.id}", **counts)
        for station in sheet.stations.values()
    }


def drawn(name, view, **options):
    sheet = engine(name)
    return section_drawing(sheet, states(sheet, outside=1, unproven=12, not_measured=7), view=view, **options)


def assert_sound(sheet, section):
    """What holds for every drawing of every engine."""
    root = ET.fromstring(section.svg)
    links = [link.get("data-station") for link in root.iter(f"{SVG}a")]
    assert sorted(links) == sorted(sheet.stations)
    assert sorted(mark.station for mark in section.marks) == sorted(sheet.stations)
    for first, second in combinations(section.texts, 2):
        assert not first.overlaps(second), (first, second)
    for box in section.texts:
        assert box.x >= -0.01
        assert box.y >= 0.0
        assert box.x + box.width <= section.width + 0.01
        assert box.y + box.height <= section.height
    # On a page of 820 px the drawing is 784 units on 788 px.
    assert all(mark.height >= 44.0 and mark.width >= 44.0 for mark in section.marks)
    assert "style=" not in section.svg
    assert "nan" not in section.svg


@each_engine
@each_view
@pytest.mark.parametrize("inverted", [False, True])
def test_every_station_stands_there_once_and_no_writing_is_on_another(name, view, inverted):
    assert_sound(engine(name), drawn(name, view, inverted=inverted))


LAYOUT_WORDS = {
    "arrangement": WORDS["arrangement"],
    "bearings": WORDS["bearings"],
    "valve_train": (None, *WORDS["valve_train"]),
    "valve_adjustment": (None, *WORDS["valve_adjustment"]),
    "pump": (None, *WORDS["pump"]),
    "rotation": ("clockwise from the nose", "anticlockwise from the nose"),
}
sizes = st.none() | st.floats(0.02, 0.4).map(lambda size: Written(f"{size * 1e3:.3f} mm", size, "mm"))


@given(
    words=st.fixed_dictionaries({key: st.sampled_from(values) for key, values in LAYOUT_WORDS.items()}),
    sizes=st.fixed_dictionaries(dict.fromkeys(("bore", "stroke", "rod_length"), sizes)),
    counts=st.tuples(st.integers(1, 16), st.integers(1, 18), st.integers(1, 6), st.integers(0, 6)),
    degrees=st.integers(15, 175),
    turned=st.floats(0.0, 12.0),
    cooling=st.sampled_from([None, "water", "air"]),
)
@settings(max_examples=60, deadline=None)
def test_any_layout_that_a_sheet_can_state_is_drawn(words, sizes, counts, degrees, turned, cooling):
    base = engine("inline six")
    cylinders, mains, valves, stages = counts
    layout = Layout(
        **words,
        **sizes,
        cylinders=cylinders,
        mains=mains,
        valves_per_cylinder=valves,
        pump_stages=stages,
        bank_angle=Written(f"{degrees} deg", radians(degrees), "deg"),
    )
    sheet = replace(base, engine=replace(base.engine, layout=layout, cooling=cooling))
    for view in ("along", "across"):
        assert_sound(sheet, section_drawing(sheet, states(sheet, within=3), view=view, crank_angle=turned))


@each_engine
@each_view
def test_leaders_do_not_cross_and_end_inside_the_page(name, view):
    section = drawn(name, view)
    root = ET.fromstring(section.svg)
    lines = [
        tuple(float(line.get(key)) for key in ("x1", "y1", "x2", "y2"))
        for line in root.iter(f"{SVG}line")
        if line.get("class") == "es-leader"
    ]
    for (a, b, c, d), (e, f, g, h) in combinations(lines, 2):
        assert not cross((a, b), (c, d), (e, f), (g, h))
    leading = [mark for mark in section.marks if mark.point]
    assert all(0 <= mark.point[0] <= section.width for mark in leading)
    assert len(lines) >= len(leading)


def measured(section, words):
    """Length on the page of the dimension line that carries some words."""
    root = ET.fromstring(section.svg)
    group = next(
        group
        for group in root.iter(f"{SVG}g")
        if any(text.text == words for text in group.findall(f"{SVG}text"))
    )
    ends = [
        (float(line.get(f"x{end}")), float(line.get(f"y{end}")))
        for line in group.findall(f"{SVG}line")
        if line.get("class") == "es-measure"
        for end in (1, 2)
    ]
    return max(hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(ends, 2))


def test_bore_stroke_and_rod_are_drawn_in_their_true_ratio():
    along, across = drawn("corrie-five", "along"), drawn("corrie-five", "across")
    got = [
        measured(along, "Ø 83.50 mm") / measured(along, "84.00 mm"),
        measured(across, "142.50 mm") / measured(across, "84.00 mm"),
        measured(across, "216.20 mm") / measured(across, "Ø 83.50 mm"),
        measured(across, "84.00 mm") / across.scale,
    ]
    want = [83.5 / 84.0, 142.5 / 84.0, 216.2 / 83.5, 84.0]
    verified(got, want, by="sizes of the sheet", tolerance=5e-4)


def test_an_inch_sheet_is_dimensioned_as_it_is_written():
    section = drawn("brackengill-eleven", "across")
    got = measured(section, "8.000 in") / measured(section, "4.200 in")
    verified(got, 8.0 / 4.2, by="sizes of the sheet", tolerance=5e-4)


def without_sizes(sheet):
    empty = dict.fromkeys(("bore", "stroke", "rod_length", "compression_height", "firing_order"))
    layout = replace(sheet.engine.layout, **empty)
    dimensions = {key: replace(each, nominal=None) for key, each in sheet.dimensions.items()}
    return replace(sheet, engine=replace(sheet.engine, layout=layout), dimensions=dimensions)


@each_view
def test_what_is_not_stated_is_not_said_to_be_to_scale(view):
    sheet = without_sizes(engine("corrie-five"))
    section = section_drawing(sheet, states(sheet), view=view)
    assert_sound(sheet, section)
    text = " ".join(section.notes)
    assert "To scale" not in text
    assert "Not to scale in bore, stroke, rod length" in text
    assert "firing order not stated" in text
    assert "es-measure" not in section.svg


def test_a_size_that_cannot_be_is_not_drawn_as_stated_and_said_so():
    sheet = engine("corrie-five")
    slipped = replace(sheet.engine.layout, rod_length=Written("1425 mm", 1.425, "mm"))
    sheet = replace(sheet, engine=replace(sheet.engine, layout=slipped))
    section = section_drawing(sheet, {}, view="across")
    assert any("rod length" in note and "too far" in note for note in section.notes)
    assert "1425 mm" not in section.svg


@pytest.mark.parametrize(
    "counts, said, cls",
    [
        ({"outside": 1, "not_measured": 2, "within": 4}, "1 outside, 2 not measured", "es-touch-outside"),
        ({"unproven": 3}, "3 unproven", "es-touch-unproven"),
        ({"not_measured": 5}, "5 not measured", "es-touch-not-measured"),
        ({"within": 4, "within_rule_of_thumb": 2}, "4 within, 2 within a rule of thumb", "es-touch-within"),
        ({}, "nothing judged here", "es-touch-none"),
    ],
)
def test_a_state_is_a_word_and_a_mark_and_has_a_name(counts, said, cls):
    sheet = engine("corrie-five")
    section = section_drawing(sheet, {"mains": StationState("mains", "Mains", href="/m", **counts)})
    root = ET.fromstring(section.svg)
    link = next(root.iter(f"{SVG}a"))
    assert link.get("aria-label") == f"Mains: {said}"
    assert link.get("href") == "/m"
    assert cls in link.find(f"{SVG}rect").get("class")
    written = [text.text for text in link.findall(f"{SVG}text") if text.get("class") != "mark-question"]
    assert " ".join(written) == f"Mains {said}"
    marks = [each for each in link if (each.get("class") or "").startswith("mark")]
    assert len(marks) == bool(counts)


def test_hot_states_are_drawn_on_the_same_engine_and_called_estimates():
    sheet = engine("corrie-five")
    hot = {"mains": StationState("mains", "Mains", words="opens by 0.061 mm", href="/m")}
    cold, warm = (section_drawing(sheet, {}, hot=flag, hot_states=hot) for flag in (False, True))
    assert "opens by" not in cold.svg
    link = next(ET.fromstring(warm.svg).iter(f"{SVG}a"))
    assert link.get("aria-label") == "Mains: opens by 0.061 mm, hot, estimated"
    assert cold.scale == warm.scale


def test_upside_down_the_sump_is_above_and_the_sides_change_over():
    places = {}
    for inverted in (False, True):
        section = drawn("corrie-five", "across", inverted=inverted)
        places[inverted] = {box.words: box for box in section.texts}
        assert "scale(" not in section.svg
    assert places[False]["sump"].y > places[False]["deck"].y
    assert places[True]["sump"].y < places[True]["deck"].y
    assert places[False]["exhaust side"].x > places[False]["inlet side"].x
    assert places[True]["exhaust side"].x < places[True]["inlet side"].x


def test_a_station_of_one_main_bearing_leads_to_that_bearing():
    sheet = engine("corrie-five")
    single = {
        f"main_{n}": replace(sheet.stations["mains"], id=f"main_{n}", title=f"Main {n}") for n in (1, 2, 5)
    }
    sheet = replace(sheet, stations=single)
    marks = {mark.station: mark for mark in section_drawing(sheet, {}).marks}
    assert marks["main_1"].point[0] < marks["main_2"].point[0] < marks["main_5"].point[0]
    assert {mark.place for mark in marks.values()} == {"main"}


def test_words_of_a_sheet_stay_words():
    sheet = engine("corrie-five")
    hostile = '<script>alert("x")</script>&\'"'
    stations = {"a": replace(sheet.stations["mains"], id="a", title=hostile)}
    named = replace(
        sheet.engine, name=hostile, directions=replace(sheet.engine.directions, top=hostile, right=hostile)
    )
    sheet = replace(sheet, engine=named, stations=stations)
    state = {"a": StationState("a", hostile, words=hostile, href=f"/{hostile}")}
    for view in ("along", "across"):
        section = section_drawing(sheet, state, view=view)
        root = ET.fromstring(section.svg)
        assert not list(root.iter(f"{SVG}script"))
        assert next(root.iter(f"{SVG}a")).get("href") == f"/{hostile}"


def test_many_stations_find_room():
    sheet = engine("corrie-five")
    many = {
        f"s{n}": replace(
            sheet.stations["mains"], id=f"s{n}", title=f"Ridiculously-long-station-name-{n} bearings"
        )
        for n in range(60)
    }
    sheet = replace(sheet, stations=many)
    for view in ("along", "across"):
        assert_sound(sheet, section_drawing(sheet, states(sheet, within=1), view=view))


def test_states_are_counted_from_verdicts():
    class Found:
        def __init__(self, station, verdict, source_kind="engine maker"):
            self.station, self.verdict, self.source_kind = station, verdict, source_kind

    sheet = engine("corrie-five")
    verdicts = [
        Found("mains", "within"),
        Found("mains", "within", "rule of thumb"),
        Found("mains", "outside"),
        Found("pump", "not-measured", "rule of thumb"),
        Found(None, "outside"),
    ]
    found = station_states(sheet, verdicts, lambda station: f"/s/{station}")
    assert set(found) == set(sheet.stations)
    assert (found["mains"].within, found["mains"].within_rule_of_thumb, found["mains"].outside) == (1, 1, 1)
    assert found["pump"].said() == "1 not measured"
    assert found["pump"].href == "/s/pump"


@each_view
def test_every_class_has_its_style_on_the_page_and_in_the_file(view):
    used = set()
    for name in ENGINES:
        used |= set(
            re.findall(
                r"\bes-[a-z-]+(?=[ \"])", " ".join(re.findall(r'class="[^"]*"', drawn(name, view).svg))
            )
        )
    page = (PACKAGE / "web" / "static" / "section.css").read_text(encoding="utf-8")
    file = standalone_svg(engine("corrie-five"), {}, view=view)
    # Names of groups and of hatchings that add nothing to the outline of cut metal.
    plain = {"es-other", "es-close", "es-station", "es-touch-within"}
    assert not {cls for cls in used - plain if f".{cls}" not in page}
    assert not {cls for cls in used - plain if f".{cls}" not in file}


@each_view
def test_the_file_is_well_formed_and_small(view):
    for name in ENGINES:
        text = standalone_svg(engine(name), {}, view=view)
        assert ET.fromstring(text.encode()).tag == f"{SVG}svg"
        assert len(text) < 120_000
