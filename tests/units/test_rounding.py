"""From floats to decimals of a unit, held against exact fractions."""

from decimal import Context, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.units.rounding import difference_in_unit, in_unit
from fitwright.units.table import UNITS

FIFTEEN = Context(prec=15)
values = st.floats(allow_nan=False, allow_infinity=False) | st.decimals(-1000, 1000, places=4).map(float)


def by_fractions(value, factor, offset=Fraction(0)):
    exact = (Fraction(repr(value)) - offset) / factor
    return FIFTEEN.divide(Decimal(exact.numerator), Decimal(exact.denominator)).normalize(FIFTEEN)


@given(values, st.sampled_from(UNITS))
def test_every_digit_is_that_of_the_exact_quotient(value, unit):
    found = in_unit(value, unit.name, unit.dimension)
    assert found.as_tuple() == by_fractions(value, unit.factor, unit.offset).as_tuple()


@given(values, st.sampled_from(UNITS))
def test_a_difference_knows_no_offset(value, unit):
    found = difference_in_unit(value, unit.name, unit.dimension)
    assert found.as_tuple() == by_fractions(value, unit.factor).as_tuple()


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_value_has_no_number(value):
    with pytest.raises(ValueError, match="no value in any unit"):
        in_unit(value, "bar")
    with pytest.raises(ValueError, match="no value in any unit"):
        difference_in_unit(value, "K", "temperature_difference")
