from __future__ import annotations

from math import prod

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.model.braces import (
    MOST_MEMBERS,
    brace_count,
    expand,
    expand_all,
    fill,
    fill_and_expand,
)
from fitwright.model.errors import BraceError

words = st.lists(st.from_regex(r"[a-z][a-z_]{0,5}", fullmatch=True), min_size=1, max_size=4, unique=True)
ranges = st.tuples(st.integers(0, 30), st.integers(0, 8)).map(lambda pair: (pair[0], pair[0] + pair[1]))


def test_ranges_words_and_gaps_expand_in_order() -> None:
    names = [member.name for member in expand("valve.{1..2,4}.{inlet,exhaust}.{a,b}.lash")]
    assert len(names) == 12
    assert names[:3] == ["valve.1.inlet.a.lash", "valve.1.inlet.b.lash", "valve.1.exhaust.a.lash"]
    assert names[-1] == "valve.4.exhaust.b.lash"


@given(st.lists(st.one_of(words, ranges), min_size=1, max_size=3))
@settings(max_examples=60)
def test_a_key_stands_for_the_product_of_its_braces(choices: list[list[str] | tuple[int, int]]) -> None:
    texts, counts = [], []
    for choice in choices:
        if isinstance(choice, tuple):
            texts.append(f"{{{choice[0]}..{choice[1]}}}")
            counts.append(choice[1] - choice[0] + 1)
        else:
            texts.append("{" + ",".join(choice) + "}")
            counts.append(len(choice))
    key = "x." + ".".join(texts)
    members = expand(key)
    assert brace_count(key) == len(choices)
    assert len(members) == prod(counts)
    assert len({member.name for member in members}) == len(members)
    for member in members:
        assert member.name == "x." + ".".join(member.values)
        assert fill("x." + ".".join(["{}"] * len(choices)), member.values) == member.name
        assert fill("x." + ".".join(f"{{{n}}}" for n in range(len(choices))), member.values) == member.name


@given(st.text(alphabet="ab1.{},", max_size=20))
@settings(max_examples=200)
def test_any_key_expands_or_says_why_not(key: str) -> None:
    try:
        members = expand(key)
    except BraceError as error:
        refused = error
    else:
        refused = None
    if refused is not None:
        assert 1 <= refused.position <= len(key)
        assert refused.problem
        assert refused.write
    else:
        assert 1 <= len(members) <= MOST_MEMBERS
        assert all("{" not in member.name and "}" not in member.name for member in members)


@given(st.text(alphabet="ab 1.{}0,", max_size=20), st.lists(st.sampled_from(["1", "inlet"]), max_size=3))
@settings(max_examples=200)
def test_any_text_is_filled_or_says_why_not(text: str, values: list[str]) -> None:
    try:
        filled = fill(text, tuple(values))
    except BraceError as error:
        refused = error
    else:
        refused = None
    if refused is not None:
        assert refused.text == text
    else:
        assert "{" not in filled
        assert "}" not in filled


@pytest.mark.parametrize(
    "key, words",
    [
        ("main.{6..1}.x", "runs downwards"),
        ("main.{1..6", "without its partner"),
        ("main.1..6}", "without its partner"),
        ("main.{}.x", "names no members"),
        ("main.{1..3,2}.x", "names a member twice"),
        ("main.{1..99999}.x", "too long"),
        ("a.{1..100}.{1..100}", "more than 1000 members"),
        ("a.{Inlet,exhaust}", "names no members"),
    ],
)
def test_a_key_that_stands_for_nothing_says_so(key: str, words: str) -> None:
    with pytest.raises(BraceError, match=words):
        expand(key)


@pytest.mark.parametrize(
    "text, values, words",
    [
        ("{} {} {}", ("1", "a"), "more values than the key's 2"),
        ("{2}", ("1", "a"), "more values"),
        ("{} {0}", ("1", "a"), "mixed"),
        ("{}", (), "no braces to fill"),
        ("{x}", ("1",), "filled by nothing"),
        ("{", ("1",), "without its partner"),
    ],
)
def test_a_text_that_cannot_be_filled_says_so(text: str, values: tuple[str, ...], words: str) -> None:
    with pytest.raises(BraceError, match=words):
        fill(text, values)


def test_one_brace_fills_every_place_and_fewer_places_take_the_first_values() -> None:
    assert fill("{} and {} again", ("3",)) == "3 and 3 again"
    assert fill("cylinder {}", ("3", "inlet")) == "cylinder 3"


def test_lists_fill_first_and_expand_then() -> None:
    assert fill_and_expand("rod.{}.shell_{upper,lower}", ("4",)) == ("rod.4.shell_upper", "rod.4.shell_lower")
    assert expand_all(["{top,left}@{0,180}"]) == ("top@0", "top@180", "left@0", "left@180")
