"""A load cycle of one bearing as a CSV file: crank angle, load across and along the bearing.

The first line names the columns with their units, in any order: `crank angle [deg], across [N], along [N]`.
Along points to the cylinder's head (mains) or to the small end (rods), across a quarter turn behind it,
seen so that the crank turns anticlockwise. Angles rise from zero over one turn or two.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

import numpy as np

from fitwright.formats.errors import FormatError
from fitwright.physics.train.load_cycle import WIDEST_GAP, LoadCycle
from fitwright.quantity import FloatArray
from fitwright.units import definition_of
from fitwright.units.errors import UnknownUnitError

COLUMNS: Final = {"crank angle": "angle", "across": "force", "along": "force"}
"""What each column measures."""

LARGEST: Final = 4_000_000
MOST_ROWS: Final = 100_000
_HEADING: Final = re.compile(
    r"^\s*(?P<name>[a-z _]+?)\s*[\[(]\s*(?P<unit>[^\])]+?)\s*[\])]\s*$", re.IGNORECASE
)
_FORM: Final = "write: crank angle [deg], across [N], along [N]"
_SLACK: Final = 1e-9


class LoadCycleError(FormatError):
    """A file that is no load cycle: one sentence with the line."""

    def __init__(self, file: str, line: int, what: str, mend: str) -> None:
        """Build the message."""
        self.line = line
        super().__init__(f"{file}:{line}: {what}; {mend}")


def read_load_cycle(content: bytes, *, file: str = "the file") -> LoadCycle:
    """The load cycle in the bytes of a CSV file.

    Parameters
    ----------
    content : bytes
        UTF-8, columns separated by commas, semicolons or tabs; empty lines and lines behind # do not count.
    file : str
        What problems call the file.

    Returns
    -------
    LoadCycle
        In SI. The cycle is one turn where no angle lies above 360 degrees, else two; a last row that ends
        the cycle repeats the first one and is left out.

    Raises
    ------
    LoadCycleError
        If a line cannot be read, angles do not rise, or leave a gap.
    """
    lines = list(_lines(content, file))
    if not lines:
        raise LoadCycleError(file, 1, "an empty file", _FORM)
    columns = _columns(*lines[0], file)
    if len(lines) - 1 > MOST_ROWS:
        raise LoadCycleError(file, lines[-1][0], f"{len(lines) - 1} rows", f"write at most {MOST_ROWS}")
    rows = [(number, _row(cells, number, columns, file)) for number, cells in lines[1:]]
    return _cycle(rows, file)


def _lines(content: bytes, file: str) -> Iterator[tuple[int, list[str]]]:
    """Numbers and cells of the lines that count."""
    if len(content) > LARGEST:
        raise LoadCycleError(file, 1, f"{len(content)} bytes", f"write at most {LARGEST}")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        at = content.count(b"\n", 0, error.start) + 1
        raise LoadCycleError(file, at, "no UTF-8 text", "save it as CSV in UTF-8") from error
    separator: str | None = None
    for number, line in enumerate(text.splitlines(), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        if separator is None:
            separator = next((each for each in ("\t", ";", ",") if each in line), ",")
        yield number, [cell.strip() for cell in line.split(separator)]


def _columns(number: int, cells: Sequence[str], file: str) -> dict[str, tuple[int, float]]:
    """Where each column stands, and how large its unit is."""
    found: dict[str, tuple[int, float]] = {}
    for at, cell in enumerate(cells):
        match = _HEADING.match(cell)
        name = re.sub(r"[ _]+", " ", match["name"].lower()) if match else ""
        if match is None or name not in COLUMNS:
            raise LoadCycleError(file, number, f'"{cell}" is no column of a load cycle with its unit', _FORM)
        if name in found:
            raise LoadCycleError(file, number, f'two columns "{name}"', "leave one of them out")
        try:
            definition = definition_of(match["unit"], COLUMNS[name])
        except UnknownUnitError as error:
            what = f'"{match["unit"]}" is no unit of a {COLUMNS[name]}'
            raise LoadCycleError(file, number, what, _FORM) from error
        found[name] = (at, float(definition.factor))
    missing = [name for name in COLUMNS if name not in found]
    if missing:
        raise LoadCycleError(file, number, f'no column "{missing[0]}"', _FORM)
    return found


def _row(
    cells: Sequence[str], number: int, columns: dict[str, tuple[int, float]], file: str
) -> tuple[float, float, float]:
    if len(cells) != len(columns):
        what = f"{len(cells)} cells where {len(columns)} belong"
        raise LoadCycleError(file, number, what, "write one number for each column, with a decimal point")
    values = []
    for name in COLUMNS:
        at, size = columns[name]
        try:
            value = float(cells[at])
        except ValueError as error:
            what = f'"{cells[at]}" is no number ({name})'
            raise LoadCycleError(file, number, what, "write it as 1250.5") from error
        if not math.isfinite(value):
            raise LoadCycleError(file, number, f'"{cells[at]}" is no load or angle', "write a number")
        values.append(value * size)
    return values[0], values[1], values[2]


def _cycle(rows: list[tuple[int, tuple[float, float, float]]], file: str) -> LoadCycle:
    if len(rows) < 2:
        raise LoadCycleError(file, rows[-1][0] if rows else 1, "hardly any rows", "write a whole cycle")
    last = rows[-1][0]
    angles = [values[0] for _, values in rows]
    turn = 2.0 * math.pi
    cycle_angle = turn if angles[-1] <= turn + _SLACK else 2.0 * turn
    for (_, before), (number, after) in pairwise(rows):
        if not after[0] > before[0]:
            raise LoadCycleError(
                file, number, "an angle that does not rise", "write rows in the order of the angle"
            )
    if angles[0] < -_SLACK or angles[-1] > cycle_angle + _SLACK:
        line = rows[0][0] if angles[0] < 0.0 else last
        raise LoadCycleError(
            file, line, "an angle outside of the cycle", "write angles from 0 to 360 or 720 degrees"
        )
    table = np.array([values for _, values in rows])
    if angles[-1] > cycle_angle - _SLACK and angles[0] < _SLACK:
        if not np.allclose(table[0, 1:], table[-1, 1:], rtol=1e-3, atol=1.0):
            what = "the end of the cycle is its beginning again, with another load"
            raise LoadCycleError(file, last, what, "leave the last row out, or mend it")
        table = table[:-1]
    _check_gaps(table[:, 0], cycle_angle, [number for number, _ in rows], file)
    return LoadCycle(np.maximum(table[:, 0], 0.0), table[:, 1:].copy(), cycle_angle)


def _check_gaps(angles: FloatArray, cycle_angle: float, numbers: list[int], file: str) -> None:
    steps = np.diff(np.append(angles, angles[0] + cycle_angle))
    wide = np.flatnonzero(steps > WIDEST_GAP + _SLACK)
    if len(wide):
        widest = int(wide[0])
        what = f"a gap of {math.degrees(steps[widest]):.0f} degrees after this row"
        raise LoadCycleError(
            file, numbers[widest], what, f"write at least every {math.degrees(WIDEST_GAP):.0f}"
        )
