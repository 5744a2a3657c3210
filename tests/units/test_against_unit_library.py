"""Every row of the table held against the unit library, in exact fractions."""

from __future__ import annotations

import math
from fractions import Fraction

import pint
import pytest

from fitwright.units.table import DIMENSIONS, UNITS
from tests.support.compare import absolute, verified

# The library counts a revolution as 2 pi; displacement is a volume for each revolution.
HOLDS_PI = {"angle", "angular_speed", "torsional_stiffness"}
SI_IN_THE_LIBRARY = {"m3/rev": "m**3", "1": "dimensionless", "1/K": "1/K"}


@pytest.fixture(scope="module")
def library():
    return pint.UnitRegistry(non_int_type=Fraction)


def si_spelling(si_unit):
    known = SI_IN_THE_LIBRARY.get(si_unit, si_unit)
    for power in "23":
        known = known.replace(f"m{power}", f"m**{power}")
    return known.replace(" ", "*").replace("****", "**").replace("rad", "radian")


@pytest.mark.parametrize("definition", UNITS, ids=lambda unit: f"{unit.dimension}: {unit.name}")
def test_factor_and_offset_agree(library, definition):
    si = si_spelling(DIMENSIONS[definition.dimension].si_unit)
    delta = "delta_degC" if definition.dimension == "temperature_difference" else si
    if definition.dimension == "temperature":
        for magnitude in (0, 100, -40):
            theirs = library.Quantity(Fraction(magnitude), definition.oracle).to("K").magnitude
            ours = magnitude * definition.factor + definition.offset
            verified(float(ours), float(theirs), by="unit library", tolerance=absolute(1e-12))
        return
    theirs = library.Quantity(Fraction(1), definition.oracle).to(delta).magnitude
    if definition.dimension in HOLDS_PI:
        verified(float(definition.factor), float(theirs), by="unit library", tolerance=4e-16)
    else:
        assert definition.factor == theirs, "exact in both"


def test_angles_are_exact_to_the_last_bit_of_pi():
    degree = next(unit for unit in UNITS if unit.name == "deg")
    verified(float(degree.factor), math.radians(1), by="math.radians", tolerance=3e-16)
