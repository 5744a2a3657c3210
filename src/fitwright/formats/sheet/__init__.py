"""Engine sheets: TOML text <-> `fitwright.model.sheet.Sheet`.

`reader` reads (`read_sheet`, `check_sheet`); on the way `structure` validates the form against the
tables (`document`, `tables`, `subjects`, `fields`), `assembly` expands families and reads amounts
(`surroundings`, `measured`, `fitted`), the model's own checks judge the whole, and `placing` puts
each problem at its line and column (`positions`). `upgrade` raises older format versions.
"""

from __future__ import annotations

from fitwright.formats.sheet.problems import SheetProblem, SheetProblemsError
from fitwright.formats.sheet.reader import check_sheet, read_sheet

__all__ = ["SheetProblem", "SheetProblemsError", "check_sheet", "read_sheet"]
