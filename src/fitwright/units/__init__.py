"""Text and display units <-> SI: the only place where units other than SI exist.

`table` is the closed list of units with exact factors; `grammar` reads numbers; `spellings` finds
the unit that was written; `quantity` puts the two together; `short_entries` reads short entries (last
digits, deviations); `rounding` and `display` go the other way; `families` says in which units a
shop reads each dimension; `wording` words the questions of the slip guard (`model.slips`).

Everything inside fitwright is in SI floats. A value typed in inches and the equal value typed in
millimetres give the same float.
"""

from __future__ import annotations

from fitwright.units.display import (
    Shown,
    approximately,
    at_resolution,
    both_units,
    echo,
    format_number,
    format_value,
    format_with_uncertainty,
)
from fitwright.units.errors import QuantityError, UnitsError, UnknownUnitError
from fitwright.units.families import Family, shop_unit
from fitwright.units.quantity import PARSER_VERSION, Quantity, decimals_for, parse_quantity
from fitwright.units.short_entries import (
    last_digits_pattern,
    parse_deviation,
    parse_last_digits,
    parse_nearest_last_digits,
)
from fitwright.units.spellings import definition_of, units_of
from fitwright.units.table import DIMENSIONS
from fitwright.units.wording import SlipWording

__all__ = [
    "DIMENSIONS",
    "PARSER_VERSION",
    "Family",
    "Quantity",
    "QuantityError",
    "Shown",
    "SlipWording",
    "UnitsError",
    "UnknownUnitError",
    "approximately",
    "at_resolution",
    "both_units",
    "decimals_for",
    "definition_of",
    "echo",
    "format_number",
    "format_value",
    "format_with_uncertainty",
    "last_digits_pattern",
    "parse_deviation",
    "parse_last_digits",
    "parse_nearest_last_digits",
    "parse_quantity",
    "shop_unit",
    "units_of",
]
