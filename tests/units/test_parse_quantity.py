"""What people write, and what is made of it."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.units import DIMENSIONS, QuantityError, parse_quantity, units_of
from tests.support.compare import verified

# text, magnitude, unit, decimals, SI value worked out by hand from the exact definitions
AMOUNTS = [
    ("67.08 mm", 67.08, "mm", 2, 0.06708),
    ("10,5 mm", 10.5, "mm", 1, 0.0105),
    ("1,234 mm", 1.234, "mm", 3, 0.001234),
    (".0002 in", 0.0002, "in", 4, 0.0002 * 0.0254),
    ("5. mm", 5, "mm", 0, 0.005),
    ("+0.5 thou", 0.5, "thou", 1, 0.0127e-3),
    ("-0.5 thou", -0.5, "thou", 1, -0.0127e-3),
    ("\u22120.5 thou", -0.5, "thou", 1, -0.0127e-3),
    ("2.5 mil", 2.5, "thou", 1, 0.0635e-3),
    ("2 1/2 in", 2.5, "in", 1, 0.0635),
    ("2-1/2 in", 2.5, "in", 1, 0.0635),
    ('2 1/2"', 2.5, "in", 1, 0.0635),
    ("2\u00bd in", 2.5, "in", 1, 0.0635),
    ("3/64 in", 0.046875, "in", 6, 0.001190625),
    ("1/2 thou", 0.5, "thou", 1, 0.0127e-3),
    ('0.0025"', 0.0025, "in", 4, 0.0635e-3),
    ("0.8 \u00b5m", 0.8, "um", 1, 0.8e-6),
    ("0.8 \u03bcm", 0.8, "um", 1, 0.8e-6),
    ("57.8 cc", 57.8, "cc", 1, 57.8e-6),
    ("57.8 mL", 57.8, "cc", 1, 57.8e-6),
    ("3 cu in", 3, "cu in", 0, 3 * 16.387064e-6),
    ("45 deg", 45, "deg", 0, math.pi / 4),
    ("45\u00b0", 45, "deg", 0, math.pi / 4),
    ("8 oz in", 8, "ozf in", 0, 8 * 0.45359237 / 16 * 9.80665 * 0.0254),
    ("90 lbf ft", 90, "lbf ft", 0, 90 * 1.3558179483314004),
    ("90 ft-lb", 90, "lbf ft", 0, 90 * 1.3558179483314004),
    ("90 ft lbf", 90, "lbf ft", 0, 90 * 1.3558179483314004),
    ("90 lb-ft", 90, "lbf ft", 0, 90 * 1.3558179483314004),
    ("90 in-lb", 90, "lbf in", 0, 90 * 1.3558179483314004 / 12),
    ("61 N\u00b7m", 61, "N m", 0, 61.0),
    ("61 Nm", 61, "N m", 0, 61.0),
    ("6 kgf m", 6, "kgf m", 0, 58.8399),
    ("6 mkg", 6, "kgf m", 0, 58.8399),
    ("3 bar", 3, "bar", 0, 3e5),
    ("300 kPa", 300, "kPa", 0, 3e5),
    ("43.5 psi", 43.5, "psi", 1, 43.5 * 0.45359237 * 9.80665 / 0.0254**2),
    ("4.5 kgf/cm\u00b2", 4.5, "kgf/cm2", 1, 4.5 * 98066.5),
    ("90 degC", 90, "degC", 0, 363.15),
    ("90 \u00b0C", 90, "degC", 0, 363.15),
    ("230 \u00b0F", 230, "degF", 0, 383.15),
    ("230 F", 230, "degF", 0, 383.15),
    ("300 K", 300, "K", 0, 300.0),
    ("1e-6 /K", 1e-6, "/K", 6, 1e-6),
    ("11.5 \u00d710\u207b\u2076/K", 11.5e-6, "/K", 7, 11.5e-6),
    ("14 lbf/in", 14, "lbf/in", 0, 14 * 0.45359237 * 9.80665 / 0.0254),
    ("8 N/mm", 8, "N/mm", 0, 8000.0),
    ("600 rev/min", 600, "rpm", 0, 20 * math.pi),
    ("600 rpm", 600, "rpm", 0, 20 * math.pi),
    ("11.2 mm2/s", 11.2, "mm2/s", 1, 11.2e-6),
    ("11.2 cSt", 11.2, "mm2/s", 1, 11.2e-6),
    ("3.5 mPa s", 3.5, "mPa s", 1, 3.5e-3),
    ("5 %", 5, "%", 0, 0.05),
    ("10.5:1", 10.5, "1", 1, 10.5),
]


@pytest.mark.parametrize("text, magnitude, unit, decimals, si", AMOUNTS)
def test_an_amount_is_read(text, magnitude, unit, decimals, si):
    quantity = parse_quantity(text)
    assert (quantity.typed, quantity.unit, quantity.decimals) == (text, unit, decimals)
    assert quantity.magnitude == magnitude
    assert quantity.si_unit == DIMENSIONS[quantity.dimension].si_unit
    verified(quantity.si, si, by="exact definitions, by hand", tolerance=4e-16)


@pytest.mark.parametrize(
    "text, key, says",
    [
        ("1,234.5 mm", "grouping", 'write "1234.5"'),
        ("1.234,5 mm", "grouping", 'write "1234.5"'),
        ("1,234,567 mm", "grouping", 'write "1234567"'),
        ("1 234 mm", "grouping", 'write "1234"'),
        ("1'234 mm", "grouping", 'write "1234"'),
        ("2 tenths", "ambiguous_unit", '"0.0002 in" or "0.2 mm"'),
        ("2 mills", "ambiguous_unit", '"thou" or "mm"'),
        ("8 pints", "ambiguous_unit", "imp pt"),
        ("5 mPa", "ambiguous_unit", '"MPa"'),
        ("45 nm", "ambiguous_unit", '"N m"'),
        ("5 thuo", "unknown_unit", '"thou"'),
        ("55.45² mm", "unknown_unit", "unknown unit"),
        ("5²", "unknown_unit", "unknown unit"),
        ("12", "no_unit", '"12 mm"'),
        ("3/8", "fraction", '"3/8 in"'),
        ("3/8 mm", "fraction", '"0.375 mm"'),
        ("2 3/2 in", "improper", "2 1/2 in"),
        ("1/0 in", "zero_below", "3/8 in"),
        ("", "empty", "67.08 mm"),
        ("about 2 thou", "no_number", "67.08 mm"),
        ("1e99 mm", "exponent", "67.08 mm"),
        ("1e16 mm", "too_large", "67.08 mm"),
        ("-1e13 m", "too_large", "67.08 mm"),
        ("9" * 200, "too_long", "67.08 mm"),
        ("-300 degC", "below_zero", "90 degC"),
    ],
)
def test_what_is_refused_says_what_to_write(text, key, says):
    with pytest.raises(QuantityError) as refused:
        parse_quantity(text)
    assert refused.value.key == key
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize(
    "text, dimension, unit, si",
    [
        ("32 lb", "force", "lbf", 32 * 0.45359237 * 9.80665),
        ("32 lb", "mass", "lb", 32 * 0.45359237),
        ("1 oz in", "imbalance", "oz in", 0.45359237 / 16 * 0.0254),
        ("1 oz in", "torque", "ozf in", 0.45359237 / 16 * 0.0254 * 9.80665),
        ("70 degC", "temperature_difference", "degC", 70.0),
        ("90 F", "temperature_difference", "degF", 50.0),
        ("40 kg", "force", "kgf", 40 * 9.80665),
        ("10.5", "ratio", "1", 10.5),
    ],
)
def test_the_dimension_wanted_decides(text, dimension, unit, si):
    quantity = parse_quantity(text, dimension=dimension)
    assert (quantity.unit, quantity.dimension) == (unit, dimension)
    verified(quantity.si, si, by="exact definitions, by hand", tolerance=4e-16)


def test_another_dimension_is_refused_in_words():
    with pytest.raises(QuantityError, match="is a pressure where a length is wanted"):
        parse_quantity("4 bar", dimension="length")


def test_the_default_unit_is_for_numbers_without_one():
    assert parse_quantity("2.1", default_unit="thou").si == parse_quantity("2.1 thou").si
    assert parse_quantity("2.1 mm", default_unit="thou").si == 0.0021
    assert parse_quantity("3/8", default_unit="in").si == 0.009525
    with pytest.raises(QuantityError, match='write "3/8 in"'):
        parse_quantity("3/8", default_unit="mm")


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_each_example_of_a_dimension_reads_as_that_dimension(dimension):
    assert parse_quantity(DIMENSIONS[dimension].example, dimension=dimension).dimension == dimension


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_each_canonical_unit_reads_as_itself(dimension):
    for unit in units_of(dimension):
        assert parse_quantity(f"3 {unit}", dimension=dimension).unit == unit


@given(st.integers(-(10**7), 10**7), st.integers(0, 5))
def test_inch_and_equal_millimetre_texts_give_the_same_float(steps, decimals):
    """25.4 times a number of n decimals has n + 1 decimals: the equal sheet can be written exactly."""
    inches = f"{'-' if steps < 0 else ''}{abs(steps) // 10**decimals}"
    if decimals:
        inches += f".{abs(steps) % 10**decimals:0{decimals}d}"
    whole = steps * 254
    sign, digits = ("-" if whole < 0 else ""), f"{abs(whole):0{decimals + 2}d}"
    millimetres = f"{sign}{digits[: -(decimals + 1)]}.{digits[-(decimals + 1) :]}"
    assert parse_quantity(f"{inches} in").si == parse_quantity(f"{millimetres} mm").si


@given(st.text(max_size=30))
def test_any_text_is_read_or_refused_in_one_sentence(text):
    try:
        quantity = parse_quantity(text, default_unit="mm")
    except QuantityError as refused:
        sentence = str(refused)
    else:
        sentence = ""
        assert math.isfinite(quantity.si)
    assert "; write " in sentence or not sentence


@given(st.decimals(min_value=0, max_value=10**5, places=4, allow_nan=False))
def test_comma_and_point_mean_the_same(number):
    assert parse_quantity(f"{number:f} mm").si == parse_quantity(f"{number:f} mm".replace(".", ",")).si


@pytest.mark.parametrize(
    "text, unit, dimension, example",
    [
        ("two", "in", "length", "2.641 in"),
        ("two", "thou", None, "2.5 thou"),
        ("2 tenths over", "in", "length", "2.641 in"),
        ("3 bar", "in", "length", "2.641 in"),
        ("warm", "degF", "temperature", "68 degF"),
        ("a lot", "bar", "pressure", "4.5 bar"),
        ("a lot", None, "torque", "61 N m"),
        ("two", "mm", "length", "67.08 mm"),
    ],
)
def test_the_example_in_a_refusal_is_one_of_the_place(text, unit, dimension, example):
    with pytest.raises(QuantityError) as refused:
        parse_quantity(text, default_unit=unit, dimension=dimension)
    assert f'"{example}"' in str(refused.value)
