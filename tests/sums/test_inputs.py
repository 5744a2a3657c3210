"""How inputs are read: numbers in SI, texts with a unit, and what is refused with which words."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.sums import SUMS, SumError, run
from fitwright.sums.exchange import answers, parsed
from fitwright.sums.forms import Amount, Choice, Count, Group, Input, Named, Several, Words
from fitwright.sums.raw import Repeated
from tests.support.compare import absolute, verified

LENGTH = Amount("length", above=0.0)


def test_a_bare_number_is_si_and_a_text_has_its_unit():
    assert LENGTH.read(0.00005, "gap") == LENGTH.read("0.05 mm", "gap") == 5e-5
    assert LENGTH.read("2 thou", "gap") == 5.08e-5


def test_a_bare_temperature_is_kelvin():
    hot = Amount("temperature")
    assert hot.read(383.15, "temperature") == hot.read("110 degC", "temperature") == hot.read("230 F", "t")
    with pytest.raises(SumError, match="below absolute zero"):
        hot.read(-5.0, "temperature")


def test_a_bare_rotational_speed_is_revolutions_a_second():
    speed = Amount("angular_speed", bare_unit="rev/s")
    verified(
        [speed.read(100, "rotational_speed"), speed.read("6000 rpm", "rotational_speed")],
        [200.0 * math.pi] * 2,
        by="100 turns a second",
        tolerance=1e-15,
    )
    assert speed.unit == "rev/s"


@pytest.mark.parametrize(
    "raw,words",
    [
        ("0.04", 'is a number without a unit; write "0.04 mm"'),
        ("0.04 thuo", 'unknown unit "thuo"; write "thou"'),
        ("4 bar", "is a pressure where a length is wanted"),
        (math.nan, "not a finite number"),
        (math.inf, "not a finite number"),
        (10**400, "not a finite number"),
        (1e300, "beyond anything"),
        (1e-300, "beyond anything"),
        (-0.001, "must be above 0 mm"),
        (True, "true is no number"),
        (None, "nothing is no number"),
        ([1.0], "a list is no number"),
        ({}, "an object is no number"),
    ],
)
def test_what_is_refused_says_so(raw, words):
    with pytest.raises(SumError) as refused:
        LENGTH.read(raw, "gap")
    assert str(refused.value).startswith("gap: ")
    assert words in str(refused.value)


def test_words_choices_counts_and_names():
    assert Words().read(" 7 ", "part") == Words().read(7, "part") == "7"
    assert Choice(("does not go", "goes")).read("Does-Not-Go", "answer") == "does not go"
    assert Count(1, 4).read("3", "largest_stack") == Count(1, 4).read(3.0, "n") == 3
    assert Named(Amount("angle"), {"bottom": math.pi}).read("Bottom", "angle") == math.pi
    with pytest.raises(SumError, match="did you mean"):
        Choice(("goes", "drags")).read("drag", "answer")
    with pytest.raises(SumError, match="whole number from 1 to 4"):
        Count(1, 4).read(2.5, "largest_stack")
    with pytest.raises(SumError, match="is no text"):
        Words().read("", "part")
    with pytest.raises(SumError, match="at most 100"):
        Words().read("x" * 101, "part")


def test_all_that_is_wrong_is_said_at_once_with_its_place():
    form = Several(Group((Input("size", LENGTH, "size", required=True), Input("name", Words(), "name"))))
    with pytest.raises(SumError) as refused:
        form.read([{"size": "1 mm"}, {"size": "1"}, {"name": "bore"}, {"sise": 1}], "members")
    text = str(refused.value)
    assert 'size of item 2 of members: "1" is a number without a unit' in text
    assert "size of item 3 of members: missing" in text
    assert 'item 4 of members: unknown key "sise"; did you mean "size"?' in text


def test_a_key_given_twice_is_refused():
    assert isinstance(parsed('{"a": 1, "a": 2}')["a"], Repeated)
    with pytest.raises(SumError, match="given twice"):
        run("convert", parsed('{"amount": "1 mm", "amount": "2 mm"}'))


@pytest.mark.parametrize("text", ["", "{", '{"a": 1,}', "nonsense", "[" * 100_000, "1" * 5000])
def test_what_is_no_json_is_refused(text):
    with pytest.raises(SumError):
        parsed(text)


def test_a_bad_object_in_a_list_does_not_stop_the_others():
    found = list(answers(SUMS["convert"], [{"amount": "1 in"}, 5, None, {}, {"amount": "1 in"}]))
    assert ["error" in each for each in found] == [False, True, True, True, False]
    assert found[0] == found[4]


def test_a_huge_list_is_answered_item_by_item():
    several = [{"amount": f"{number} thou", "to": "mm"} for number in range(1, 5001)]
    last = list(answers(SUMS["convert"], several))[-1]
    verified(last["converted"]["value"], 127.0, by="5000 thou are 5 in", tolerance=absolute(0.0))


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=6,
)


@given(name=st.sampled_from(list(SUMS)), noise=anything, data=st.data())
def test_no_input_breaks_a_sum(name, noise, data):
    asked = SUMS[name]
    key = data.draw(st.sampled_from([each.key for each in asked.inputs]))
    for inputs in (noise, {**asked.example, key: noise}):
        (answer,) = answers(asked, [inputs])
        assert "error" in answer or "working" in answer


@given(
    name=st.sampled_from(list(SUMS)),
    number=st.sampled_from([0, 1, -1, 1e-15, 1e15, -1e15, 1e-9, 1e9, 0.5, 293.15]),
    data=st.data(),
)
def test_extreme_numbers_have_an_answer_or_a_sentence(name, number, data):
    asked = SUMS[name]
    key = data.draw(st.sampled_from([each.key for each in asked.inputs]))
    (answer,) = answers(asked, [{**asked.example, key: number}])
    assert "error" in answer or "working" in answer
