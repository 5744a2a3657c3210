"""Values in SI as text: rounding, both units, the resolution of the original."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.units import parse_quantity
from fitwright.units.display import (
    both_units,
    echo,
    format_number,
    format_value,
    format_with_uncertainty,
)
from fitwright.units.families import shop_unit
from fitwright.units.rounding import in_unit
from fitwright.units.table import DIMENSIONS

decimal_texts = st.builds(
    lambda steps, decimals: f"{Decimal(steps).scaleb(-decimals):.{decimals}f}",
    st.integers(-(10**8), 10**8),
    st.integers(0, 6),
)


@given(decimal_texts, st.sampled_from(["thou", "in", "mm", "um", "psi", "lbf ft", "degF", "cc", "rpm"]))
def test_what_was_typed_comes_back_to_the_digit(number, unit):
    quantity = parse_quantity(f"{abs(Decimal(number)):f} {unit}")
    shown = format_value(quantity.si, quantity.unit, quantity.decimals)
    assert parse_quantity(shown).si == quantity.si
    assert Decimal(shown.split(" ")[0]) == abs(Decimal(number))


@pytest.mark.parametrize(
    "number, decimals, text",
    [
        ("0.0535", 3, "0.054"),
        ("0.0525", 3, "0.052"),
        ("-0.0125", 3, "\u22120.012"),
        ("-0.0004", 3, "0.000"),
        ("1249", -1, "1250"),
        ("2.5", 0, "2"),
    ],
)
def test_rounding_is_half_to_even_with_a_true_minus_and_no_negative_zero(number, decimals, text):
    assert format_number(Decimal(number), decimals) == text


@given(st.integers(1, 10**6), st.sampled_from(["mm", "thou", "in", "psi", "lbf ft"]))
def test_a_typed_tie_stays_a_tie_on_its_way_through_binary_floats(steps, unit):
    typed = Decimal(10 * steps + 5).scaleb(-4)
    shown = format_value(parse_quantity(f"{typed} {unit}").si, unit, 3)
    assert shown.split(" ")[0] == str(typed.quantize(Decimal("0.001"), rounding=ROUND_HALF_EVEN))


@pytest.mark.parametrize(
    "typed, shown",
    [
        ("55.992 mm", "55.992 mm (2.2044 in)"),
        ("0.0535 mm", "0.0535 mm (2.11 thou)"),
        (".0022 in", "0.0022 in (0.056 mm, 2.2 thou)"),
        ("1.5 thou", "1.5 thou (0.038 mm)"),
        ("0.0005 in", "0.0005 in (0.013 mm, 0.5 thou)"),
        ("6 kgf m", "6 kgf·m (59 N·m, 43 lbf·ft)"),
        ("230 F", "230 °F (110 °C)"),
        ("45 deg", "45°"),
        ("\u22120.2 bar", "\u22120.2 bar (\u22123 psi)"),
    ],
)
def test_the_echo_keeps_the_typed_digits_and_the_resolution_of_the_original(typed, shown):
    assert echo(parse_quantity(typed)) == shown


def test_both_units_the_preferred_one_first():
    assert both_units(53.5e-6, "length", prefer="mm", resolution=1e-7) == "0.0535 mm (2.11 thou)"
    assert both_units(53.5e-6, "length", prefer="inch", resolution=1e-7) == "2.11 thou (0.0535 mm)"
    assert both_units(67.08e-3, "length", prefer="inch", resolution=1e-5) == "2.641 in (67.08 mm)"
    assert both_units(3e5, "pressure", prefer="mm") == "3.00 bar (43.5 psi)"
    assert both_units(0.4125, "mass", prefer="inch") == "412.5 g"


def test_an_inch_shop_reads_small_lengths_in_thou_and_large_ones_in_inches():
    assert shop_unit("length", "inch", 0.0025) == "thou"
    assert shop_unit("length", "inch", -0.0025) == "thou"
    assert shop_unit("length", "inch", 0.00254) == "in"


@pytest.mark.parametrize("dimension", DIMENSIONS)
@pytest.mark.parametrize("family", ["mm", "inch"])
def test_each_dimension_has_a_shop_unit_that_shows_and_reads_back(dimension, family):
    value = parse_quantity(DIMENSIONS[dimension].example, dimension=dimension).si
    unit = shop_unit(dimension, family, value)
    shown = format_value(value, unit, dimension=dimension)
    back = parse_quantity(shown.replace("\u2212", "-"), dimension=dimension)
    assert abs(back.si - value) <= back.resolution


@pytest.mark.parametrize(
    "value, u, limits, text",
    [
        (53.5e-6, 1.2e-6, [], "0.0535 mm (u 0.0012 mm)"),
        (53.5e-6, 0.996e-6, [], "0.0535 mm (u 0.0010 mm)"),
        (53.5e-6, 12e-6, [], "0.054 mm (u 0.012 mm)"),
        (69.96e-6, 1.2e-6, [70e-6], "0.06996 mm (u 0.00120 mm)"),
        (70e-6, 1.2e-6, [70e-6], "0.0700 mm (u 0.0012 mm)"),
        (69.96e-6, 1.2e-6, [30e-6], "0.0700 mm (u 0.0012 mm)"),
        (-53.5e-6, 1.2e-6, [], "\u22120.0535 mm (u 0.0012 mm)"),
    ],
)
def test_uncertainty_to_two_digits_and_the_value_to_match(value, u, limits, text):
    assert str(format_with_uncertainty(value, u, "mm", limits=limits)) == text


def test_an_uncertainty_of_temperature_has_no_offset():
    assert str(format_with_uncertainty(363.15, 1.23, "degC")) == "90.0 °C (u 1.2 °C)"


@given(st.floats(1e-6, 1e-3), st.floats(1e-7, 1e-4), st.floats(1e-6, 1e-3))
def test_a_rounded_value_is_never_on_the_other_side_of_a_limit(value, u, limit):
    shown = format_with_uncertainty(value, u, "mm", limits=[limit])
    number, bound = Decimal(shown.value), in_unit(limit, "mm")
    exact = in_unit(value, "mm")
    assert (number - bound) * (exact - bound) >= 0
