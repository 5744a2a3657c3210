"""Lines that a numeric keypad can type."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.bench.keypad import Because, BladeDid, Entered, On, TakeBack, ToStation, read_line


@pytest.mark.parametrize(
    "text, means",
    [
        ("", None),
        ("  ", None),
        ("92", Entered("92")),
        ("55.992", Entered("55.992")),
        ("-3", Entered("-3")),
        ("+12", Entered("+12")),
        ("*", On()),
        ("*7", On(7)),
        ("*.", ToStation()),
        ("*.12", ToStation(12)),
        ("**", Because()),
        ("/", TakeBack()),
        ("/92", TakeBack("92")),
        ("1/2 in", Entered("1/2 in")),
        ("back", TakeBack()),
        ("undo", TakeBack()),
    ],
)
@pytest.mark.parametrize("by_blades", [True, False])
def test_what_a_line_means_whatever_reads_the_place(text, means, by_blades):
    assert read_line(text, by_blades=by_blades) == means


@pytest.mark.parametrize(
    "text, means",
    [
        ("+", BladeDid("", "goes")),
        ("-", BladeDid("", "does not go")),
        ("+-", BladeDid("", "drags")),
        ("0.06+", BladeDid("0.06", "goes")),
        ("0.06-", BladeDid("0.06", "does not go")),
        ("0.06+-", BladeDid("0.06", "drags")),
        ("0.06 +", BladeDid("0.06", "goes")),
        ("4/1.5+", BladeDid("4+1.5", "goes")),
        ("F2:0.06-", BladeDid("F2:0.06", "does not go")),
        ("0.06 goes", Entered("0.06 goes")),
    ],
)
def test_a_sign_behind_a_blade_is_its_answer(text, means):
    assert read_line(text, by_blades=True) == means


def test_at_a_gauge_a_sign_behind_a_number_is_no_blade():
    assert read_line("0.06-", by_blades=False) == Entered("0.06-")


@given(st.text(alphabet="0123456789.+-*/", min_size=1, max_size=8), st.booleans())
def test_every_line_of_a_keypad_means_something(text, by_blades):
    assert read_line(text, by_blades=by_blades) is not None
