"""Orders of tightening that follow from the pattern: spirals, stars, and laws that hold for any pattern."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.model.bolt_pattern import Point, in_rows, on_a_circle
from fitwright.model.tightening_order import (
    ORDERS,
    SAME_RING,
    TighteningOrder,
    crosswise,
    from_the_centre_outwards,
)

POINTS = st.lists(
    st.tuples(st.integers(-200, 200), st.integers(-200, 200)), min_size=1, max_size=24, unique=True
)


def ranks(points: tuple[Point, ...]) -> list[int]:
    """Each point's turn, as listed, counted from 1."""
    order = from_the_centre_outwards(points)
    return [order.index(number) + 1 for number in range(len(points))]


def test_a_head_of_ten_is_tightened_in_a_spiral() -> None:
    turns = ranks(in_rows([0.09] * 4, [0.08], column_by_column=False))
    assert turns[:5] == [8, 4, 1, 5, 9]
    assert turns[5:] == [7, 3, 2, 6, 10]


def test_a_head_of_twelve_begins_with_the_four_in_the_middle() -> None:
    turns = ranks(in_rows([0.095] * 5, [0.11], column_by_column=False))
    assert turns[:6] == [10, 6, 1, 2, 7, 11]
    assert turns[6:] == [9, 5, 4, 3, 8, 12]


@pytest.mark.parametrize(
    "count, turns",
    [
        (1, [1]),
        (2, [1, 2]),
        (3, [1, 2, 3]),
        (4, [1, 3, 2, 4]),
        (5, [1, 3, 5, 2, 4]),
        (6, [1, 4, 2, 5, 3, 6]),
        (7, [1, 4, 7, 3, 6, 2, 5]),
        (8, [1, 5, 3, 7, 2, 6, 4, 8]),
    ],
)
def test_a_star_on_a_circle(count: int, turns: list[int]) -> None:
    assert [number + 1 for number in crosswise(on_a_circle(count, 0.08, 0.3))] == turns


def test_a_bolt_in_the_middle_comes_first() -> None:
    assert crosswise(((0.0, 0.05), (0.0, 0.0), (0.05, 0.0), (0.0, -0.05), (-0.05, 0.0))) == (1, 0, 3, 2, 4)


@given(st.sampled_from(list(TighteningOrder)), POINTS)
def test_every_fastener_has_one_turn(order: TighteningOrder, places: list[tuple[int, int]]) -> None:
    points = [(x / 1000.0, y / 1000.0) for x, y in places]
    assert sorted(ORDERS[order](points)) == list(range(len(points)))


@given(POINTS)
def test_a_spiral_never_turns_back_inwards(places: list[tuple[int, int]]) -> None:
    points = [(x / 1000.0, y / 1000.0) for x, y in places]
    middle = (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
    away = [math.dist(points[number], middle) for number in from_the_centre_outwards(points)]
    for before, after in pairwise(away):
        assert after >= before - SAME_RING * max(away) - 1e-9


@given(st.integers(2, 16), st.floats(0.0, 6.0))
def test_a_star_of_even_number_goes_in_opposite_pairs(half: int, first_at: float) -> None:
    points = on_a_circle(2 * half, 0.1, first_at)
    order = crosswise(points)
    for one, other in zip(order[::2], order[1::2], strict=True):
        assert math.dist(points[one], points[other]) == pytest.approx(0.1, abs=1e-8)


def test_places_on_a_circle_run_clockwise_from_the_top() -> None:
    top, right, *_ = on_a_circle(4, 0.06)
    assert (top, right) == ((0.0, 0.03), (0.03, 0.0))
    assert on_a_circle(3, 0.06, math.radians(90.0))[0] == (0.03, 0.0)


def test_rows_run_from_the_top_left_with_distances_of_their_own() -> None:
    points = in_rows([0.02, 0.04], [0.01, 0.03])
    assert points[:3] == ((-0.03, 0.02), (-0.03, 0.01), (-0.03, -0.02))
    assert points[-1] == (0.03, -0.02)
    assert sorted(points) == sorted(in_rows([0.02, 0.04], [0.01, 0.03], column_by_column=False))
