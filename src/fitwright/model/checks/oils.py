"""Oils of a sheet: each described in one way that gives its viscosity, and one of them planned."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from fitwright.model.amount import Written
from fitwright.model.oil import Oil
from fitwright.model.problem import Path, Problem
from fitwright.model.sheet import Sheet

GRADE: Final = re.compile(r"(0|5|10|15|20|25)W(-(8|12|16|20|30|40|50|60))?|8|12|16|20|30|40|50|60")
"""The grades of SAE J300 as one writes them."""

_TYPICAL: Final = {
    "kinematic_viscosity_40": (2e-6, 2e-3, "105 mm2/s"),
    "kinematic_viscosity_100": (1e-6, 1e-4, "11.4 mm2/s"),
    "high_shear_viscosity_150": (5e-4, 2e-2, "3.7 mPa s"),
    "density_15": (600.0, 1200.0, "860 kg/m3"),
    "pressure_viscosity_coefficient": (1e-9, 1e-7, "18 /GPa"),
    "measured_viscosity": (1e-6, 1e-2, "105 mm2/s"),
    "measured_at": (233.0, 473.0, "40 degC"),
}
"""Between which values [SI] each amount of an oil lies, and how one is written."""


def check_oils(sheet: Sheet) -> Iterator[Problem]:
    """Problems of all oils."""
    for oil in sheet.oils.values():
        path: Path = ("oils", oil.id)
        yield from _check_basis(oil, path)
        yield from _check_values(oil, path)
    planned = [oil.id for oil in sheet.oils.values() if oil.planned]
    if len(sheet.oils) > 1 and not planned:
        first = next(iter(sheet.oils))
        mend = "write planned = true under one of them"
        yield Problem(("oils", first), "none of the oils is planned", mend)
    for name in planned[1:]:
        what = f"{planned[0]} is planned already"
        yield Problem(("oils", name, "planned"), what, "write planned = true under one of them")


def _check_basis(oil: Oil, path: Path) -> Iterator[Problem]:
    sheet_values = (oil.kinematic_viscosity_40, oil.kinematic_viscosity_100)
    given = [value for value in sheet_values if value is not None]
    if len(given) == 1:
        missing = "40" if sheet_values[0] is None else "100"
        what = f"one kinematic viscosity of the data sheet is given, that at {missing} degrees is missing"
        yield Problem(
            path, what, f"write kinematic_viscosity_{missing} = ..., or measured_viscosity with measured_at"
        )
    if (oil.measured_viscosity is None) != (oil.measured_at is None):
        missing = "measured_at" if oil.measured_at is None else "measured_viscosity"
        yield Problem(path, f"a measured viscosity without {missing}", f"write {missing} = ...")
    if not given and oil.grade is None and oil.measured_viscosity is None:
        mend = (
            "write kinematic_viscosity_40 and kinematic_viscosity_100 of its data sheet, or its grade, "
            "or measured_viscosity with measured_at"
        )
        yield Problem(path, "nothing says how thick this oil is", mend)
    if oil.grade is not None and not GRADE.fullmatch(oil.grade):
        yield Problem(
            (*path, "grade"), f'"{oil.grade}" is no grade of SAE J300', 'write it as "10W-40" or "30"'
        )


def _check_values(oil: Oil, path: Path) -> Iterator[Problem]:
    for name, (least, most, example) in _TYPICAL.items():
        value: Written | None = getattr(oil, name)
        if value is not None and not least <= value.si <= most:
            what = f"{value.written} is no such value of an engine oil"
            yield Problem((*path, name), what, f'check number and unit; write it as "{example}"')
    cold, hot = oil.kinematic_viscosity_40, oil.kinematic_viscosity_100
    if cold is not None and hot is not None and cold.si <= hot.si:
        what = f"{hot.written} at 100 degrees is not below {cold.written} at 40 degrees"
        yield Problem((*path, "kinematic_viscosity_100"), what, "write the thinner one here")
