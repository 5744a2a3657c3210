"""Any circuit is drawn whole: every element once, no writing on other writing, words where no number is."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.assess.oil.results import Band
from fitwright.drawing.oil_circuit import NARROW, PAGE, circuit_drawing
from fitwright.drawing.oil_circuit.gathering import gathered
from fitwright.drawing.oil_circuit.graph import Symbol, graph_of
from fitwright.drawing.oil_circuit.order import branches_of, course_of
from fitwright.drawing.oil_circuit.symbols import HALF, symbol
from fitwright.drawing.oil_circuit.titles import common_title
from fitwright.drawing.oil_style import standalone
from fitwright.examples import EXAMPLES
from fitwright.model.circuit import PathKind
from tests.drawing.oil.sound import SVG, assert_sound, words_of
from tests.support.engine_layouts import engine
from tests.support.oil_circuits import CIRCUITS, circuit, five_cylinder, path, point_of, pump, relief

WIDTHS = (NARROW, PAGE, 1100.0)
each_circuit = pytest.mark.parametrize("name", CIRCUITS)
each_width = pytest.mark.parametrize("width", WIDTHS)


def symbols(root):
    return [each for each in root.iter(f"{SVG}g") if "oc-symbol" in each.get("class", "")]


@each_circuit
@each_width
@pytest.mark.parametrize("family", ["mm", "inch"])
@pytest.mark.parametrize("gather", [True, False])
def test_every_circuit_is_drawn_whole(name, width, family, gather):
    drawn = CIRCUITS[name]()
    picture = circuit_drawing(drawn, point_of(drawn), width=width, family=family, gather=gather)
    root = assert_sound(picture)
    graph = graph_of(drawn)
    graph = gathered(graph) if gather else graph
    assert len(symbols(root)) == len(graph.edges)
    said = words_of(picture)
    assert ("psi" in said) == (family == "inch")
    assert ("bar" in said) == (family == "mm")
    if not gather and width == PAGE:
        for part in drawn.connections():
            assert part.title.split()[0] in said


@each_circuit
@each_width
def test_without_an_operating_point_there_are_no_figures(name, width):
    picture = circuit_drawing(CIRCUITS[name](), width=width)
    assert_sound(picture)
    assert not re.search(r"bar|L/min", words_of(picture))


@each_circuit
@each_width
def test_what_did_not_converge_has_words_instead_of_numbers(name, width):
    drawn = CIRCUITS[name]()
    picture = circuit_drawing(drawn, point_of(drawn, converged=False), width=width)
    root = assert_sound(picture)
    said = " ".join(box.words for box in picture.texts)
    assert "No solution was found" in said
    assert "not converged" in said
    assert not re.search(r"\d (bar|L/min)", said)
    lines = [each.get("class") for each in root.iter(f"{SVG}line") if "oc-line" in each.get("class")]
    assert sum("oc-unknown" in each for each in lines) >= len(symbols(root))


def sheets_with_a_circuit():
    names = ("vee eight, dry sump", "vee twin, air, rolling", "side-valve four", *EXAMPLES)
    return {name: drawn for name in names if (drawn := engine(name).circuit) is not None}


def test_the_circuits_of_the_examples_and_of_new_sheets_are_drawn_whole():
    found = sheets_with_a_circuit()
    assert len(found) == 5
    for drawn in found.values():
        point = point_of(drawn)
        for width in WIDTHS:
            picture = circuit_drawing(drawn, point, width=width)
            assert len(symbols(assert_sound(picture))) == len(gathered(graph_of(drawn)).edges)
        apart = circuit_drawing(drawn, point, gather=False)
        assert len(symbols(assert_sound(apart))) == len(graph_of(drawn).edges)


def test_the_circuits_of_the_examples_fit_on_a_page_of_paper():
    for drawn in (engine("corrie-five").circuit, engine("brackengill-eleven").circuit):
        picture = circuit_drawing(drawn, point_of(drawn), width=PAGE)
        assert picture.height <= 2.0 * picture.width


def test_a_gallery_in_pieces_is_one_place_that_says_what_the_gauge_reads():
    drawn = engine("corrie-five").circuit
    point = point_of(drawn)
    found = gathered(graph_of(drawn))
    assert found.members[found.gauge] == tuple(f"gallery.{n}" for n in range(1, 7))
    assert found.pieces[found.gauge] == 5
    said = words_of(circuit_drawing(drawn, point))
    band = point.gauge_pressure
    assert f"gauge {band.best / 1e5:.1f} bar" in said
    assert f"gauge {band.low / 1e5:.1f} to {band.high / 1e5:.1f}" in said
    apart = gathered(graph_of(drawn), ["passages"])
    assert apart.members[apart.gauge] == ("gallery.6",)


def test_what_corresponds_is_one_whatever_its_family_and_what_lies_side_by_side_is_not():
    found = {
        edge.title: edge.count for edge in gathered(graph_of(engine("vee eight, dry sump").circuit)).edges
    }
    assert found["Main 1 to 4"] == 4
    assert found["Big end 1 to 8"] == 8
    two = gathered(graph_of(five_cylinder()))
    cams = [edge.title for edge in two.edges if "cam" in edge.title]
    assert cams == ["Inlet cam 1 to 7", "Exhaust cam 1 to 7"]


def test_no_pump_is_swallowed_by_a_gallery():
    found = gathered(graph_of(CIRCUITS["long chain"]()))
    assert {"n0", "n1", "n2"} <= set(found.members)
    assert not found.pieces


def test_equal_parts_are_one_and_can_be_asked_for_by_themselves():
    drawn = five_cylinder()
    together = gathered(graph_of(drawn))
    titles = {edge.title: edge for edge in together.edges}
    assert titles["Main 1 to 5"].count == 5
    assert titles["Main 6"].count == 1
    assert titles["Big end 1 to 5"].members == tuple(f"big_end.{n}" for n in range(1, 6))
    assert titles["Inlet cam 1 to 7"].count == 7
    apart = gathered(graph_of(drawn), ["big ends"])
    assert [edge.title for edge in apart.edges if edge.title.startswith("Big end")] == [
        f"Big end {n}" for n in range(1, 6)
    ]
    assert {"Main 1", "Main 5"} <= {edge.title for edge in apart.edges}
    assert "Inlet cam 1 to 7" in {edge.title for edge in apart.edges}


def test_the_flow_of_several_is_their_sum_and_their_pressure_from_lowest_to_highest():
    drawn = five_cylinder()
    point = point_of(drawn)
    flows = [each.flow.best * 6e4 for each in point.paths if each.id.startswith("big_end.")]
    pressures = [each.gauge_pressure.best / 1e5 for each in point.nodes if each.id.startswith("pin_")]
    said = words_of(circuit_drawing(drawn, point))
    assert f"{sum(flows):.1f} L/min, 5 together" in said
    assert f"{min(pressures):.2f} to {max(pressures):.2f} bar" in said


def test_one_member_without_a_flow_leaves_the_sum_without_a_number():
    drawn = five_cylinder()
    point = point_of(drawn)
    paths = tuple(replace(each, flow=Band(None)) if each.id == "main.3" else each for each in point.paths)
    said = words_of(circuit_drawing(drawn, replace(point, paths=paths)))
    assert "not converged, 5 together" in said


@each_width
def test_what_is_shut_is_drawn_shut_and_said(width):
    drawn = five_cylinder()
    open_, shut = (
        circuit_drawing(drawn, point_of(drawn, shut=ids), width=width) for ids in ((), ("jets", "relief"))
    )
    assert "oc-bar" not in open_.svg
    assert shut.svg.count('class="oc-bar"') == 2
    assert words_of(shut).count("shut") == 2


@each_width
def test_what_is_selected_is_framed_and_what_leads_somewhere_can_be_touched(width):
    drawn = five_cylinder()
    hrefs = {part.id: f"/x?a={part.id}&b" for part in drawn.connections()}
    picture = circuit_drawing(drawn, point_of(drawn), width=width, selected="big_end.4", hrefs=hrefs)
    root = assert_sound(picture)
    assert root.get("role") == "group"
    assert sum(each.get("class") == "oc-selected" for each in root.iter(f"{SVG}rect")) == 1
    links = list(root.iter(f"{SVG}a"))
    assert len(links) == len(gathered(graph_of(drawn)).edges)
    assert all(each.get("aria-label") for each in links)
    for link in links:
        rect = link.find(f"{SVG}rect")
        assert float(rect.get("height")) >= 44.0, link.get("data-path")
        assert float(rect.get("width")) >= 44.0


def test_a_wider_line_is_more_oil():
    drawn = five_cylinder()
    point = point_of(drawn)
    for step, litres in enumerate((0.1, 0.5, 2.0, 5.0, 15.0, 60.0)):
        paths = tuple(replace(each, flow=Band(-litres / 6e4)) for each in point.paths)
        svg = circuit_drawing(drawn, replace(point, paths=paths), gather=False).svg
        assert set(re.findall(r"oc-line oc-w(\d) oc-backwards", svg)) == {str(step)}


def test_the_way_of_the_oil_is_the_trunk_and_a_return_to_the_inlet_stands_beside_the_pump():
    vee = CIRCUITS["air-cooled vee"]()
    course = course_of(branches_of(gathered(graph_of(vee))))
    assert [each.edge.id for each in course.trunk] == ["tank_line", "front", "filter"]
    assert [each.id for each in course.trunk[1].beside] == ["relief"]
    assert [each.id for each in course.trunk[2].beside] == ["way_round"]
    assert [each.edge.id for each in course.others] == ["second"]


@pytest.mark.parametrize("kind", Symbol)
def test_a_symbol_keeps_to_its_room(kind):
    numbers = [float(each) for each in re.findall(r'(?:cy|y1|y2|y)="(-?[\d.]+)"', symbol(kind))]
    assert all(abs(each) <= HALF for each in numbers)
    assert symbol(kind)


def test_titles_are_gathered_by_what_they_have_in_common():
    assert common_title(["Main 1", "Main 2", "Main 3", "Main 5"]) == "Main 1, 2, 3, 5"
    assert common_title(["Jet", "Jet"]) == "Jet"
    assert common_title(["a <b>", "c <b>"]) == "a, c <b>"
    assert common_title(["Left bank of many words in it here", "Right bank of as many words there"]) == ""


def test_titles_are_escaped():
    drawn = circuit(
        [pump("p", "sump", "a")],
        [],
        [path("leak", PathKind.SLOT, "a", "sump", title='"<Leak> & more"')],
        gauge="a",
    )
    assert_sound(circuit_drawing(drawn, point_of(drawn), hrefs={"leak": "/x"}))


def test_a_file_of_its_own_carries_its_style():
    text = standalone(circuit_drawing(five_cylinder()))
    assert text.startswith("<?xml")
    assert ".oc-line{" in text or ".oc-line {" in text


NODES = [f"n{n}" for n in range(9)]


@given(
    ends=st.lists(
        st.tuples(st.sampled_from([*NODES, "sump"]), st.sampled_from([*NODES, "sump"])), max_size=24
    ),
    kinds=st.lists(st.sampled_from(PathKind), min_size=24, max_size=24),
    back=st.sampled_from(["sump", "n0"]),
    gather=st.booleans(),
    width=st.sampled_from(WIDTHS),
)
@settings(max_examples=120, deadline=None)
def test_any_graph_is_drawn_with_every_element_once(ends, kinds, back, gather, width):
    paths = [path("pick_up", PathKind.STRAINER, "sump", "n0")]
    paths += [
        path(f"p.{n}", kind, start, end)
        for n, ((start, end), kind) in enumerate(zip(ends, kinds, strict=False))
        if start != end
    ]
    drawn = circuit([pump("pump", "n0", "n1")], [relief("relief", "n1", back)], paths, gauge="n1")
    picture = circuit_drawing(drawn, point_of(drawn), width=width, gather=gather)
    root = assert_sound(picture)
    graph = graph_of(drawn)
    assert len(symbols(root)) == len((gathered(graph) if gather else graph).edges)


def test_a_state_is_found_by_the_id_of_the_sheet_with_its_section_or_without():
    """A prediction names `paths.main.1`, the sheet `main.1`."""
    drawn = five_cylinder()
    bare = point_of(drawn)
    named = replace(bare, paths=tuple(replace(each, id=f"paths.{each.id}") for each in bare.paths))
    assert circuit_drawing(drawn, named).svg == circuit_drawing(drawn, bare).svg
    assert "not converged" not in circuit_drawing(drawn, named).svg
