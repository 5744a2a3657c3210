"""The places of a station in measuring order, from either end, part by part or plane by plane."""

import pytest

from fitwright.bench.order import Stop, next_stop, stops
from fitwright.examples import sheet_text
from fitwright.formats.sheet import read_sheet


@pytest.fixture(scope="module")
def corrie():
    return read_sheet(sheet_text("corrie-five"))


def journals(found):
    return [(stop.dimension[5], stop.place) for stop in found if stop.dimension.endswith(".journal")]


def test_places_finish_one_part_before_the_next(corrie):
    found = journals(stops(corrie, "mains"))
    assert found[:5] == [
        ("1", "front/0"),
        ("1", "front/90"),
        ("1", "rear/0"),
        ("1", "rear/90"),
        ("2", "front/0"),
    ]
    assert len(found) == 24


def test_planes_go_along_all_parts(corrie):
    found = journals(stops(corrie, "mains", way="planes"))
    assert [part for part, place in found[:12]] == [part for part in "123456" for _ in range(2)]
    assert {place for _, place in found[:12]} == {"front/0", "front/90"}


@pytest.mark.parametrize("way", ["places", "planes"])
def test_from_the_end_it_is_the_same_way_backwards(corrie, way):
    forwards = stops(corrie, "mains", way=way)
    assert stops(corrie, "mains", from_the_end=True, way=way) == forwards[::-1]
    assert len(set(forwards)) == len(forwards) == len(stops(corrie, "mains"))


def test_the_next_place_is_after_this_one_then_from_the_start():
    order = [Stop("a", "1"), Stop("a", "2"), Stop("b", "1")]
    assert next_stop(order, set(), None) == order[0]
    assert next_stop(order, {("a", "1")}, order[2]) == order[1]
    assert next_stop(order, {("b", "1")}, order[1]) == order[0]
    assert next_stop(order, {("a", "1"), ("a", "2"), ("b", "1")}, order[0]) is None
