"""A crossed study as a table: one line for each part, one column for each reading of each person.

This is how such a study stands in a workbook, so that it can be pasted as it is. The first line
names the person of each column (an empty cell is the one before it); its own first cell may name the
unit of bare numbers. Cells stand between tabs, or between semicolons.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from fitwright.sums.errors import InputError, MissingInputError
from fitwright.sums.forms import Amount, Several
from fitwright.units import UnknownUnitError, definition_of

Reading = Mapping[str, object]


@dataclass(frozen=True, slots=True)
class Crossed:
    """Readings of every part by every person, as a list of objects or as a table."""

    rows: Several
    indication: Amount
    starts: str = ""

    def read(self, raw: object, place: str) -> tuple[object, ...]:
        """Every reading."""
        return self.rows.read(readings_in(raw, place) if isinstance(raw, str) else raw, place)

    def schema(self) -> dict[str, object]:
        """The list of objects, or a text."""
        table = {"type": "string", "description": "a table: a line for each part, a column for each reading"}
        return {"anyOf": [self.rows.schema(), table]}


def cells_of(text: str) -> list[list[str]]:
    r"""The cells of a table, line by line; empty lines are none.

    >>> cells_of("mm;builder\n1;55.99")
    [['mm', 'builder'], ['1', '55.99']]
    """
    mark = "\t" if "\t" in text else ";"
    lines = [[cell.strip() for cell in line.split(mark)] for line in text.splitlines()]
    return [line for line in lines if any(line)]


def readings_in(text: str, place: str, unit: str = "") -> list[Reading]:
    """The readings of a table, line by line; a bare number is in the unit that the table or `unit` names.

    Raises
    ------
    InputError
        If the table has cells that no person is named for, or some of its cells are empty.
    """
    head, *lines = cells_of(text) or [[]]
    own = unit_of(head)
    people = people_of(head)
    if not people or not lines:
        raise MissingInputError(place, "give a first line with people, then a line for each part")
    found, lacking = list[Reading](), list[str]()
    for line in lines:
        if len(line) > len(people) + 1 and any(line[len(people) + 1 :]):
            raise InputError(place, f"part {line[0]}: more readings than people in the first line")
        cells = [*line[1:], *[""] * len(people)][: len(people)]
        for number, (person, cell) in enumerate(zip(people, cells, strict=True)):
            if cell:
                indication = with_unit(cell, own or unit)
                found.append({"person": person, "part": line[0] or "?", "indication": indication})
            else:
                lacking.append(
                    f"{person}, part {line[0] or '?'}, reading {people[:number].count(person) + 1}"
                )
    if lacking:
        more = "" if len(lacking) == 1 else f"; {len(lacking)} readings are missing"
        raise MissingInputError(place, f"give {lacking[0]}{more}")
    return found


def unit_of(head: Sequence[str]) -> str:
    """The unit that the first cell of a table names, if it is one of length."""
    try:
        return definition_of(head[0], "length").name if head else ""
    except UnknownUnitError:
        return ""


def people_of(head: Sequence[str]) -> list[str]:
    """Who took the readings of each column."""
    people: list[str] = []
    for cell in head[1:]:
        people.append(cell or (people[-1] if people else ""))
    return people


def with_unit(cell: str, unit: str) -> str:
    """A cell with its unit: its own, else the one given."""
    bare = not any(each.isalpha() or each == '"' for each in cell)
    return f"{cell} {unit}" if bare and unit else cell


def table_of(readings: Sequence[Mapping[str, object]]) -> str:
    """A table of readings, for a page; repeats of a person on a part in their order."""
    people = list(dict.fromkeys(str(each["person"]) for each in readings))
    parts = list(dict.fromkeys(str(each["part"]) for each in readings))
    by_cell = {
        key: [str(each["indication"]) for each in group]
        for key, group in groupby(sorted(readings, key=_cell), key=_cell)
    }
    repeats = {person: max(len(by_cell.get((person, part), ())) for part in parts) for person in people}
    head = ["", *(person for person in people for _ in range(repeats[person]))]
    lines = [
        [part, *(cell for person in people for cell in _padded(by_cell.get((person, part)), repeats[person]))]
        for part in parts
    ]
    return "\n".join(";".join(line) for line in [head, *lines])


def _cell(each: Mapping[str, object]) -> tuple[str, str]:
    return str(each["person"]), str(each["part"])


def _padded(cells: Sequence[str] | None, length: int) -> list[str]:
    return [*(cells or ()), *[""] * length][:length]
