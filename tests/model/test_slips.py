"""The slip guard on SI numbers alone."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.model.slip_table import SLIPS
from fitwright.model.slips import Window, plausible_window, question_for


class Plain:
    """Words for a value of no particular unit."""

    def __init__(self, value):
        self.value = value

    @property
    def typed(self):
        return f"{self.value:.12g}"

    elsewhere = typed

    def same_digits(self, value):
        return f"{value:.12g}"

    in_full = about = same_digits


def ask(value, **known):
    return question_for(value, wording=Plain(value), **known)


@pytest.mark.parametrize(
    "known, low, high",
    [
        ({"lower": 4e-5, "upper": 8e-5}, 2e-5, 16e-5),
        ({"lower": -4e-5, "upper": -2e-5}, -8e-5, -1e-5),
        ({"lower": -1e-5, "upper": 2e-5}, -2e-5, 4e-5),
        ({"upper": 2e-5}, 0.0, 4e-5),
        ({"lower": 2e-3}, 1e-3, 2e-2),
        ({"nominal": 0.05}, 0.049, 0.051),
        ({"nominal": 0.05, "lower": 0.0499, "upper": 0.0501}, 0.049, 0.051),
        ({"nominal": 5e-5, "lower": 3e-5, "upper": 7e-5}, 1.5e-5, 14e-5),
    ],
)
def test_the_window_comes_from_limits_or_nominal(known, low, high):
    window = plausible_window(**known)
    assert window.low == pytest.approx(low, rel=1e-12)
    assert window.high == pytest.approx(high, rel=1e-12)


def test_a_temperature_window_is_taken_in_degrees_celsius():
    window = plausible_window(lower=353.15, upper=383.15, dimension="temperature")
    assert (window.low, window.high) == pytest.approx((313.15, 493.15))


def test_nothing_known_nothing_asked():
    assert plausible_window() is None
    assert plausible_window(nominal=0.0) is None
    assert ask(1.0) is None


def test_a_window_from_the_sheet_is_widened_to_hold_both_limits():
    window = Window(5e-5, 6e-5)
    assert ask(4.5e-5, lower=4e-5, upper=8e-5, window=window) is None
    assert ask(7.9e-5, lower=4e-5, upper=8e-5, window=window) is None
    assert ask(9.0e-5, lower=4e-5, upper=8e-5, window=window) is not None


def test_an_open_window_is_worded_without_its_ends():
    assert "(" not in ask(1.0, window=Window(-math.inf, 0.5), dimension="density").text


@pytest.mark.parametrize("factor", [1000, 1 / 1000, 25.4, 1 / 25.4, 10, 1 / 10])
@given(share=st.floats(0.0, 1.0), lower=st.floats(1e-5, 1e-2), ratio=st.floats(1.01, 1.9))
def test_every_usual_slip_of_a_good_size_is_held_with_the_size_among_its_guesses(factor, share, lower, ratio):
    """For limits narrower than 2:1 the window is narrower than 8:1, so that each slip leaves it."""
    good = lower * (1 + share * (ratio - 1))
    slipped = good * factor
    question = ask(slipped, lower=lower, upper=lower * ratio)
    assert question is not None
    assert any(guess.value == pytest.approx(good, rel=1e-12) for guess in question.guesses)


limits = st.tuples(st.floats(1e-6, 1e-2), st.floats(1.01, 5.0))


@given(limits, st.floats(0.0, 1.0))
def test_a_value_inside_its_limits_is_never_asked_about(pair, share):
    lower, upper = pair[0], pair[0] * pair[1]
    assert ask(min(upper, lower + share * (upper - lower)), lower=lower, upper=upper) is None


@given(limits, st.floats(1e-9, 1e1), st.floats(1.0, 10.0))
def test_a_value_further_out_is_asked_about_as_well(pair, value, further):
    """Monotone: once a value above the window is asked about, so is each larger one."""
    lower, upper = pair[0], pair[0] * pair[1]
    if value > 2 * upper:
        assert ask(value, lower=lower, upper=upper) is not None
        assert ask(value * further, lower=lower, upper=upper) is not None


@given(limits, st.floats(-1.0, 1e1))
def test_the_question_is_the_same_each_time_and_its_guesses_lie_inside_the_window(pair, value):
    lower, upper = pair[0], pair[0] * pair[1]
    first, second = (ask(value, lower=lower, upper=upper) for _ in range(2))
    assert first == second
    for guess in first.guesses if first else ():
        assert lower / 2 <= guess.value <= 2 * upper
        assert guess.value != value


def test_keys_differ_for_other_values_and_other_doubts():
    keys = {ask(value, lower=4.5e-5, upper=7e-5).key for value in (2.8e-5, 2.9e-5, 5.5e-8, 5.5e-2, 0.4)}
    assert len(keys) == 5


def test_factors_of_two_need_limits_narrower_than_two_to_one():
    assert ask(2.8e-5, lower=4.5e-5, upper=7.0e-5).key.startswith("radial:")
    assert ask(1.0e-4, lower=4.5e-5, upper=7.0e-5).key.startswith("total:")
    assert ask(2.8e-5, lower=3.5e-5, upper=7.0e-5) is None


@pytest.mark.parametrize("dimension", SLIPS)
def test_the_slips_of_a_dimension_undo_each_other_in_pairs(dimension):
    """So a slip is found whichever way round it was made (rare ones and shifts aside)."""
    factors = [slip.factor for slip in SLIPS[dimension] if not slip.shift and not slip.rare]
    for factor in factors:
        assert any(abs(factor * other - 1) < 1e-12 for other in factors)
