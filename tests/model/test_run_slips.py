"""Slips that only a run of readings shows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.model.run_slips import Move, alike_question, moved_question

# Six places that differ by more than the gauge's micrometre, as measured once before.
EARLIER = [55.992e-3, 55.985e-3, 56.001e-3, 55.978e-3, 55.996e-3, 55.989e-3]
SPREAD = 1e-6


def test_readings_typed_one_place_early_go_on():
    readings = [EARLIER[0], *EARLIER[2:], None]
    question = moved_question(
        readings, EARLIER, standard_deviation=SPREAD, places=["1F", "1R", "2F", "2R", "3F", "3R"]
    )
    assert question.move == Move("on", 1, 4)
    assert question.text == "The readings from 1R to 3F look one place off. Move them one place on?"


def test_readings_after_one_that_was_typed_twice_go_back():
    readings = [*EARLIER[:2], EARLIER[1], *EARLIER[2:5]]
    assert moved_question(readings, EARLIER, standard_deviation=SPREAD).move == Move("back", 2, 5)


def test_two_swapped_places():
    readings = list(EARLIER)
    readings[1], readings[4] = readings[4], readings[1]
    question = moved_question(readings, EARLIER, standard_deviation=SPREAD)
    assert question.move == Move("swap", 1, 4)
    assert question.text == "The readings at 2 and 5 look swapped. Swap them?"


def test_a_worn_part_is_no_slip():
    """All places a hundredth off, or one far off: no move explains it."""
    assert moved_question([size - 1e-5 for size in EARLIER], EARLIER, standard_deviation=SPREAD) is None
    one_off = [*EARLIER[:3], EARLIER[3] - 5e-5, *EARLIER[4:]]
    assert moved_question(one_off, EARLIER, standard_deviation=SPREAD) is None


def test_equal_expectations_show_no_shift():
    assert moved_question([5e-5] * 4 + [None], [5e-5] * 5, standard_deviation=SPREAD) is None


def test_nothing_read_nothing_asked():
    assert moved_question([None] * 3, [None] * 3, standard_deviation=SPREAD) is None
    assert moved_question(EARLIER, [None] * 6, standard_deviation=SPREAD) is None


def test_wrong_arguments_are_refused():
    with pytest.raises(ValueError, match="5 readings for 6 places"):
        moved_question(EARLIER[:5], EARLIER, standard_deviation=SPREAD)
    with pytest.raises(ValueError, match="above zero"):
        moved_question(EARLIER, EARLIER, standard_deviation=0.0)


@given(st.lists(st.floats(-3.0, 3.0), min_size=6, max_size=6))
def test_readings_within_their_spread_are_never_called_shifted(noise):
    readings = [size + n * SPREAD for size, n in zip(EARLIER, noise, strict=True)]
    assert moved_question(readings, EARLIER, standard_deviation=SPREAD) is None


@given(st.integers(0, 2), st.lists(st.floats(-1.0, 1.0), min_size=6, max_size=6))
def test_a_shift_is_found_through_the_noise(first, noise):
    noisy = [size + n * SPREAD for size, n in zip(EARLIER, noise, strict=True)]
    readings = [*noisy[:first], *noisy[first + 1 :], None]
    assert moved_question(readings, EARLIER, standard_deviation=SPREAD).move == Move("on", first, 4)


@pytest.mark.parametrize("move", [Move("on", 1, 3), Move("back", 1, 3), Move("swap", 1, 3)])
def test_a_move_keeps_readings_apart_and_leaves_the_others(move):
    targets = [move.target(place) for place in range(move.first, move.last + 1)]
    assert len(set(targets)) == len(targets)
    assert move.target(0) == 0
    assert move.target(4) == 4


def test_five_alike_to_the_last_digit_are_noticed():
    assert alike_question([5.3e-5] * 5, division=1e-6).key == "alike:5:5.3e-05"
    assert alike_question([5.1e-5, *[5.3e-5] * 5], division=1e-6).text.startswith("The last 5 readings")
    assert alike_question([5.3e-5] * 4, division=1e-6) is None
    assert alike_question([*[5.3e-5] * 5, 5.1e-5], division=1e-6) is None
    assert alike_question([], division=1e-6) is None


def test_a_coarse_division_gives_equal_readings_by_nature():
    assert alike_question([5e-5] * 5, division=1e-5, standard_deviation=1.5e-6) is None
    assert alike_question([5e-5] * 5, division=1e-6, standard_deviation=1.5e-6) is not None
