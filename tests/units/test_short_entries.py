"""Short entries: last digits and signed deviations become whole sizes that can be read again."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.units import (
    QuantityError,
    last_digits_pattern,
    parse_deviation,
    parse_last_digits,
    parse_nearest_last_digits,
    parse_quantity,
)


def test_last_digits_fill_the_pattern():
    size = parse_last_digits("92", "55.9__", "mm")
    assert (size.si, size.decimals, size.typed) == (0.055992, 3, "55.9[92] mm")


@pytest.mark.parametrize("typed", ["9", "923", "9.2", "+9", "", "9 2"])
def test_other_than_the_digits_asked_for_is_refused(typed):
    with pytest.raises(QuantityError, match=r'write 2 digits for "55.9__", or the full size'):
        parse_last_digits(typed, "55.9__", "mm")


def test_a_pattern_comes_from_the_size_expected():
    assert last_digits_pattern(0.055992, "mm", 3) == "55.9__"
    assert last_digits_pattern(0.055992, "mm", 3, blanks=3) == "55.___"
    assert last_digits_pattern(0.0508, "in", 4) == "2.00__"


def test_the_nearest_size_is_meant_across_a_round_number():
    assert parse_nearest_last_digits("03", 0.055992, "mm", 3).typed == "56.0[03] mm"
    assert parse_nearest_last_digits("97", 0.056003, "mm", 3).typed == "55.9[97] mm"
    with pytest.raises(QuantityError, match="fits two sizes equally well"):
        parse_nearest_last_digits("42", 0.055992, "mm", 3)


def test_a_deviation_counts_the_divisions_of_the_gauge():
    size = parse_deviation("+3", "55.980 mm", "0.001 mm")
    assert (size.si, size.decimals) == (0.055983, 3)
    assert parse_deviation("-0.5", "2.2000 in", "1 thou").magnitude == 2.1995
    assert parse_deviation("\u22122", "55.980 mm", "0.001 mm").si == 0.055978
    assert parse_deviation("0", "55.980 mm", "0.001 mm").si == 0.05598


def test_a_deviation_may_have_its_own_unit():
    size = parse_deviation("-0.5 thou", "55.980 mm", "0.001 mm")
    assert size.si == parse_quantity("55.9673 mm").si
    assert size.typed == "55.980 mm [-0.5 thou]"


def test_a_deviation_without_a_sign_is_refused():
    with pytest.raises(QuantityError, match=r'write "\+3" or "-3"'):
        parse_deviation("3", "55.980 mm", "0.001 mm")


@given(st.integers(0, 99), st.integers(0, 999_999), st.sampled_from(["mm", "in", "thou"]))
def test_a_stored_last_digits_text_reads_again_as_the_same(digits, steps, unit):
    nominal = parse_quantity(f"{steps // 1000}.{steps % 1000:03d} {unit}").si
    size = parse_last_digits(f"{digits:02d}", last_digits_pattern(nominal, unit, 3), unit)
    again = parse_quantity(size.typed)
    assert again == size
    assert abs(again.magnitude - steps / 1000) < 0.1


@given(st.integers(-999, 999), st.integers(1000, 99_999))
def test_a_stored_deviation_text_reads_again_as_the_same(count, steps):
    base = f"{steps / 1000:.3f} mm"
    size = parse_deviation(f"{count:+d}", base, "0.001 mm")
    assert parse_quantity(size.typed) == size
    assert size.si == parse_quantity(f"{(steps + count) / 1000:.3f} mm").si


@given(st.integers(0, 99), st.integers(50_000, 60_000))
def test_the_nearest_size_is_never_further_than_half_a_cycle(digits, steps):
    nominal = parse_quantity(f"{steps / 1000:.3f} mm").si
    try:
        size = parse_nearest_last_digits(f"{digits:02d}", nominal, "mm", 3)
    except QuantityError as refused:
        assert refused.key == "last_digits"  # noqa: PT017 a tie is refused, all else is read
        assert abs(steps - digits) % 100 == 50
    else:
        assert round(size.magnitude * 1000) % 100 == digits
        assert abs(round(size.magnitude * 1000) - steps) < 50
