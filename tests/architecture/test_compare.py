"""The helper that every compared number goes through really compares."""

import math

import pytest

from tests.support.compare import absolute, golden, published, verified

KINDS = {
    "published": lambda got, want, tolerance: published(
        got, want, source="jcgm100_2008", place="H.1", tolerance=tolerance, why="printed to 3 figures"
    ),
    "verified": lambda got, want, tolerance: verified(got, want, by="hand working", tolerance=tolerance),
    "golden": lambda got, want, tolerance: golden(got, want, name="a number", tolerance=tolerance),
}
each_kind = pytest.mark.parametrize("kind", KINDS)


@each_kind
def test_prints_and_returns_the_largest_deviation(kind, capsys):
    assert KINDS[kind]([1.0, 2.02], [1.0, 2.0], 0.011) == pytest.approx(0.01)
    printed = capsys.readouterr().out
    assert printed.startswith(f"{kind}: deviation 0.01 relative of 0.011 relative allowed")


@each_kind
@pytest.mark.parametrize(
    "got, want, tolerance",
    [
        (1.0011, 1.0, 1e-3),
        (1.0011, 1.0, absolute(1e-3)),
        ([1.0, 2.1], [1.0, 2.0], 1e-3),
        (math.nan, 1.0, 1.0),
        (math.inf, 1.0, 1.0),
        ([1.0], 1.0, 1.0),
        ([], [], 1.0),
        (1.0, math.nan, 1.0),
        (0.0, 0.0, 1e-3),
    ],
    ids=["relative", "absolute", "array", "nan", "inf", "shape", "empty", "bad expectation", "zero"],
)
def test_refuses_what_does_not_agree(kind, got, want, tolerance):
    with pytest.raises(AssertionError):
        KINDS[kind](got, want, tolerance)


@each_kind
def test_zero_is_compared_absolutely(kind):
    assert KINDS[kind](1e-9, 0.0, absolute(1e-8)) == pytest.approx(1e-9)


def test_a_published_number_needs_a_known_source():
    with pytest.raises(AssertionError, match=r"not in docs/sources.toml"):
        published(1.0, 1.0, source="hearsay", place="p. 1", tolerance=1e-3, why="exact")


def test_a_message_names_the_place_of_the_worst_number():
    with pytest.raises(AssertionError, match=r"at \(1, 0\)"):
        verified([[1.0, 2.0], [3.5, 4.0]], [[1.0, 2.0], [3.0, 4.0]], by="hand", tolerance=1e-3)
