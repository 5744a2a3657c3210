"""Engine sheets: TOML text <-> `fitwright.model.sheet.Sheet`.

`reader` reads (`read_sheet`, `check_sheet`); on the way `structure` validates the form against the
tables (`document`, `tables`, `subjects`, `oil_tables`, `pump_tables`, `path_tables`, `fields`),
`assembly` expands families and reads amounts (`surroundings`, `measured`, `fitted`, `oil_circuit`), the
model's own checks judge the whole, and `placing` puts each problem at its line and column
(`positions`). `sections` names what entries stand in, `upgrade` raises older format versions.

The other way: `plain` and `plain_circuit` give the plain tables behind a sheet, `writer` their text with
families found again (`templates`), `editing` changes one limit in a file and keeps its comments. `diff`
says how two sheets differ, `show` and `show_oil` what one says, `schema` what an editor may know of the
format.
"""

from __future__ import annotations

from fitwright.formats.sheet.problems import SheetProblem, SheetProblemsError
from fitwright.formats.sheet.reader import check_sheet, read_sheet

__all__ = ["SheetProblem", "SheetProblemsError", "check_sheet", "read_sheet"]
