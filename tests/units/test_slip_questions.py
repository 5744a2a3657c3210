"""Slips as they are typed, from the text to the question and back through its guesses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.model.slips import question_for, range_question, zero_question
from fitwright.units import parse_quantity
from fitwright.units.wording import SlipWording
from tests.support.compare import verified


def ask(typed, low=None, high=None, nominal=None, dimension="length"):
    quantity = parse_quantity(typed, dimension=dimension)
    known = {
        name: parse_quantity(text, dimension=dimension).si
        for name, text in (("lower", low), ("upper", high), ("nominal", nominal))
        if text is not None
    }
    return question_for(quantity.si, wording=SlipWording(quantity), dimension=dimension, **known)


def labels(question):
    return [guess.label for guess in question.guesses]


def test_thousandths_of_a_thou():
    question = ask("0.0022 thou", "1.8 thou", "3.5 thou")
    assert question.text == "0.0022 thou would be 0.056 µm; did you mean 0.0022 in?"
    assert labels(question) == ["0.0022 in"]


def test_the_point_one_place_off():
    for limits in ({"low": "5.59 mm", "high": "5.61 mm"}, {}):
        question = ask("56.00 mm", nominal="5.600 mm", **limits)
        assert labels(question) == ["5.600 mm"]


def test_radial_for_diametral_where_the_limits_can_tell():
    question = ask("0.028 mm", "0.045 mm", "0.070 mm")
    assert question.text == "Is 0.028 mm radial, or one side of two? Then the whole is 0.056 mm."
    assert ask("0.028 mm", "0.030 mm", "0.070 mm") is None, "limits wider than 2:1 cannot tell"


def test_total_for_one_side():
    assert labels(ask("0.107 mm", "0.045 mm", "0.070 mm")) == ["0.0535 mm"]


def test_half_a_thou_written_as_0_05():
    assert labels(ask("0.05 thou", "0.3 thou", "0.8 thou")) == ["0.5 thou"]
    assert labels(ask("0.05 mm", "0.3 thou", "0.8 thou"))[0] == "0.0005 in"


@pytest.mark.parametrize(
    "typed, low, high, dimension, guess",
    [
        ("0.002 mm", "1.8 thou", "3.5 thou", "length", "0.002 in"),
        ("0.055 thou", "1.8 thou", "3.5 thou", "length", "0.055 mm"),
        ("2.2 in", "1.8 thou", "3.5 thou", "length", "2.2 thou"),
        ("53 mm", "0.040 mm", "0.070 mm", "length", "53 µm"),
        ("2.2 mm", "1.8 thou", "3.5 thou", "length", "2.2 thou"),
        ("0.535 mm", "0.040 mm", "0.070 mm", "length", "0.0535 mm"),
        ("\u22120.05 mm", "0.030 mm", "0.070 mm", "length", "0.05 mm"),
        ("90 lbf ft", "85 lbf in", "95 lbf in", "torque", "90 lbf·in"),
        ("6 N m", "57 N m", "59.5 N m", "torque", "6 kgf·m"),
        ("45 N m", "58 N m", "64 N m", "torque", "45 lbf·ft"),
        ("230 degC", "80 degC", "110 degC", "temperature", "230 °F"),
        ("43 bar", "2.5 bar", "3.5 bar", "pressure", "43 psi"),
        ("300 bar", "2 bar", "4 bar", "pressure", "300 kPa"),
        ("3000 rpm", "1480 rpm", "1520 rpm", "angular_speed", None),
    ],
)
def test_units_taken_for_each_other(typed, low, high, dimension, guess):
    question = ask(typed, low, high, dimension=dimension)
    assert (question and labels(question)) == (guess and [guess])


def test_far_off_without_an_explanation_is_asked_plainly():
    question = ask("76.08 mm", nominal="67.08 mm")
    assert question.text == "76.08 mm is far from what is expected (65.7 mm to 68.4 mm). Keep it?"
    assert question.guesses == ()


def test_a_gauge_at_rest_below_zero_is_asked_for_its_sign():
    """The gauge's own limit is 1.6 % of 10 bar."""
    quantity = parse_quantity("-0.2 bar")
    question = zero_question(quantity.si, limit=0.16e5, wording=SlipWording(quantity))
    assert [(guess.label, guess.value) for guess in question.guesses] == [
        ("\u22120.2 bar", -0.2e5),
        ("0.2 bar", 0.2e5),
    ]
    assert "0.16 bar" in question.text
    within = parse_quantity("-0.1 bar")
    assert zero_question(within.si, limit=0.16e5, wording=SlipWording(within)) is None


def test_a_small_torque_on_a_large_wrench():
    quantity = parse_quantity("5 N m")
    question = range_question(quantity.si, low=40.0, high=200.0, wording=SlipWording(quantity))
    assert "(from 40 N·m to 200 N·m)" in question.text
    assert range_question(quantity.si, low=None, high=200.0, wording=SlipWording(quantity)) is None


numbers = st.builds(
    lambda steps, places: f"{steps / 10**places:.{places}f}", st.integers(1, 9999), st.integers(0, 4)
)


@given(
    numbers,
    st.sampled_from(["mm", "thou", "in", "um"]),
    st.floats(1e-5, 1e-4),
    st.floats(1.05, 4.0),
)
def test_each_guess_can_be_typed_and_means_what_the_question_says(number, unit, lower, ratio):
    quantity = parse_quantity(f"{number} {unit}")
    question = question_for(quantity.si, wording=SlipWording(quantity), lower=lower, upper=lower * ratio)
    for guess in question.guesses if question else ():
        again = parse_quantity(guess.label)
        if abs(again.si - guess.value) > 1e-12 * abs(guess.value):
            verified(
                again.si, guess.value, by="the factor of the slip", tolerance=again.resolution / again.si
            )
        assert lower / 2 <= guess.value <= 2 * lower * ratio


@given(st.integers(1, 9999), st.floats(1e-5, 1e-4), st.floats(1.05, 4.0))
def test_an_inch_text_and_the_equal_millimetre_text_are_asked_alike(steps, lower, ratio):
    """Only the words differ: whether something is asked depends on the value alone."""
    thou = parse_quantity(f"{steps / 1000:.3f} thou")
    millimetres = parse_quantity(f"{steps * 254 / 10**7:.7f} mm")
    assert thou.si == millimetres.si
    asked = [
        question_for(quantity.si, wording=SlipWording(quantity), lower=lower, upper=lower * ratio)
        for quantity in (thou, millimetres)
    ]
    assert (asked[0] is None) == (asked[1] is None)
