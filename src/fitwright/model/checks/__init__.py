"""Checks of a whole sheet that need no file: everything that is wrong with it, all at once.

`references` that lead nowhere, `limits` that contradict themselves, `fits` whose chains mix what
cannot be added, `dimensions`, `stations`, the `engine` itself. The paths of problems are those of
the sheet format, with ids in place of families.
"""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.model.checks.dimensions import check_dimensions
from fitwright.model.checks.engine import check_engine
from fitwright.model.checks.fits import check_fits
from fitwright.model.checks.limits import check_limits
from fitwright.model.checks.references import check_references
from fitwright.model.checks.stations import check_stations
from fitwright.model.problem import Problem
from fitwright.model.sheet import Sheet


def check(sheet: Sheet, *, also_known: Mapping[str, frozenset[str]] | None = None) -> tuple[Problem, ...]:
    """All problems of a sheet.

    Parameters
    ----------
    sheet : Sheet
        The sheet.
    also_known : mapping of str to frozenset of str, optional
        Ids by section that the sheet lacks and that may be referred to all the same, because what
        is wrong with them has been said already.

    Returns
    -------
    tuple of Problem
        Empty for a sound sheet.
    """
    return (
        *check_engine(sheet.engine),
        *check_references(sheet, also_known or {}),
        *check_dimensions(sheet),
        *check_limits(sheet),
        *check_fits(sheet),
        *check_stations(sheet),
    )


__all__ = ["check"]
