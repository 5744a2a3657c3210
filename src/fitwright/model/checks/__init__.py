"""Checks of a whole sheet that need no file: everything that is wrong with it, all at once.

`references` that lead nowhere, `limits` that contradict themselves, `fits` whose chains mix what
cannot be added, `dimensions`, `stations`, the `engine` itself. The paths of problems are those of
the sheet format, with ids in place of families.
"""

from __future__ import annotations

from collections.abc import Callable

from fitwright.model.checks.dimensions import check_dimensions
from fitwright.model.checks.engine import check_engine
from fitwright.model.checks.fits import check_fits
from fitwright.model.checks.limits import check_limits
from fitwright.model.checks.references import check_references
from fitwright.model.checks.stations import check_stations
from fitwright.model.problem import Problem
from fitwright.model.sheet import Sheet


def _nothing_excused(_section: str, _name: str) -> bool:
    return False


def check(sheet: Sheet, *, excused: Callable[[str, str], bool] = _nothing_excused) -> tuple[Problem, ...]:
    """All problems of a sheet.

    Parameters
    ----------
    sheet : Sheet
        The sheet.
    excused : callable (section, id) -> bool
        Ids that are no problem to refer to although the sheet lacks them, because they have
        problems of their own.

    Returns
    -------
    tuple of Problem
        Empty for a sound sheet.
    """
    return (
        *check_engine(sheet.engine),
        *check_references(sheet, excused),
        *check_dimensions(sheet),
        *check_limits(sheet),
        *check_fits(sheet),
        *check_stations(sheet),
    )


__all__ = ["check"]
