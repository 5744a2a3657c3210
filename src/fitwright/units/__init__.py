"""Text and display units <-> SI: the only place where units other than SI exist.

`table` is the closed list of units with exact factors; `grammar` reads numbers; `spellings` finds
the unit that was written; `quantity` puts the two together; `bench` reads short entries (last
digits, deviations); `rounding` and `display` go the other way; `families` says in which units a
shop reads each dimension; `wording` words the questions of the slip guard (`model.slips`).

Everything inside fitwright is in SI floats. A value typed in inches and the equal value typed in
millimetres give the same float.
"""

from __future__ import annotations

from fitwright.units.bench import (
    last_digits_pattern,
    parse_deviation,
    parse_last_digits,
    parse_nearest_last_digits,
)
from fitwright.units.errors import QuantityError, UnitsError, UnknownUnitError
from fitwright.units.quantity import PARSER_VERSION, Quantity, decimals_for, parse_quantity
from fitwright.units.spellings import definition_of, units_of
from fitwright.units.table import DIMENSIONS

__all__ = [
    "DIMENSIONS",
    "PARSER_VERSION",
    "Quantity",
    "QuantityError",
    "UnitsError",
    "UnknownUnitError",
    "decimals_for",
    "definition_of",
    "last_digits_pattern",
    "parse_deviation",
    "parse_last_digits",
    "parse_nearest_last_digits",
    "parse_quantity",
    "units_of",
]
