"""From raw TOML values to tables: every problem of form is collected, what is sound goes on.

A table with a problem is tried again without the values at fault, so that the checks after this
one still see the rest of it and a person gets all problems at once.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from pydantic import ValidationError

from fitwright.formats.sheet.document import SECTIONS, table_of
from fitwright.formats.sheet.fields import Table
from fitwright.formats.sheet.oil_tables import CircuitTable
from fitwright.formats.sheet.sections import CIRCUIT, section_path
from fitwright.formats.sheet.tables import EngineTable
from fitwright.formats.sheet.wording import field_at, problem_of
from fitwright.model.problem import Path, Problem, meant

TableT = TypeVar("TableT", bound=Table)
RawTable = dict[str, Any]


@dataclass
class Tables:
    """The tables of a sheet that have a sound form, by section and key as written.

    `unusable` holds the keys whose tables have no sound form: references to them are no problem
    of their own.
    """

    engine: EngineTable | None = None
    circuit: CircuitTable | None = None
    sections: dict[str, dict[str, Table]] = field(default_factory=lambda: {name: {} for name in SECTIONS})
    unusable: dict[str, list[str]] = field(default_factory=lambda: {name: [] for name in SECTIONS})
    problems: list[Problem] = field(default_factory=list)

    def of(self, section: str, table: type[TableT]) -> Mapping[str, TableT]:
        """The sound tables of one section."""
        return {key: entry for key, entry in self.sections[section].items() if isinstance(entry, table)}


def read_tables(document: RawTable) -> Tables:
    """All tables of a raw document (its format version apart), with the problems of their form."""
    tables = Tables()
    known = {"format", "engine", *(section_path(name)[0] for name in SECTIONS)}
    for name, value in document.items():
        if name not in known:
            accepted = meant(name, known) or f"tables here: {', '.join(sorted(known - {'format'}))}"
            tables.problems.append(Problem((name,), f'unknown key "{name}"', accepted, at_key=True))
        elif name == CIRCUIT:
            _read_circuit(tables, value)
        elif name in SECTIONS:
            _read_section(tables, name, value)
    if "engine" in document:
        tables.engine = _read_table(tables, EngineTable, document["engine"], ("engine",))
    else:
        tables.problems.append(Problem(("engine",), "the table [engine] is missing", "write [engine]"))
    return tables


def _read_circuit(tables: Tables, value: Any) -> None:  # noqa: ANN401 - raw TOML
    """The circuit's own keys, then the sections in it."""
    if not isinstance(value, dict):
        mend = "write [circuit] and its keys below"
        tables.problems.append(Problem((CIRCUIT,), "no table", mend))
        return
    inside = {section_path(section)[1]: section for section in SECTIONS if section_path(section)[1:]}
    own = {key: inner for key, inner in value.items() if key not in inside}
    tables.circuit = _read_table(tables, CircuitTable, own, (CIRCUIT,))
    for name, section in inside.items():
        _read_section(tables, section, value.get(name, {}))


def _read_section(tables: Tables, section: str, value: Any) -> None:  # noqa: ANN401 - raw TOML
    path = section_path(section)
    if not isinstance(value, dict):
        mend = f"write [{section}.an_id] and its keys below"
        tables.problems.append(Problem(path, "no table of entries", mend))
        return
    for key, entry in value.items():
        wanted = table_of(section, entry)
        if _is_nested(wanted, entry):
            tables.problems.append(_needs_quotes(section, key, entry))
            tables.unusable[section].extend(_nested_ids(wanted, key, entry))
            continue
        table = _read_table(tables, wanted, entry, (*path, key))
        if table is None:
            tables.unusable[section].append(key)
        else:
            tables.sections[section][key] = table


def _is_nested(table: type[Table], entry: Any) -> bool:  # noqa: ANN401 - raw TOML
    """Whether an entry is what `[dimensions.main.1.bore]` without quotes gives: tables only."""
    if not isinstance(entry, dict) or not entry:
        return False
    known = {info.alias or name for name, info in table.model_fields.items()}
    return all(isinstance(value, dict) and key not in known for key, value in entry.items())


def _nested_ids(table: type[Table], key: str, entry: RawTable) -> list[str]:
    """The ids that were meant where quotes are missing."""
    if not _is_nested(table, entry):
        return [key]
    return [name for inner, below in entry.items() for name in _nested_ids(table, f"{key}.{inner}", below)]


def _needs_quotes(section: str, key: str, entry: RawTable) -> Problem:
    name = _nested_ids(SECTIONS[section], key, entry)[0]
    what = f"the id {name} has dots and stands without quotes"
    return Problem((*section_path(section), key), what, f'write [{section}."{name}"]', at_key=True)


def _read_table(tables: Tables, table: type[TableT], value: Any, path: Path) -> TableT | None:  # noqa: ANN401
    try:
        return table.model_validate(value)
    except ValidationError as error:
        faults = error.errors(include_url=False)
    tables.problems.extend(problem_of(fault, table, path) for fault in faults)
    try:
        return table.model_validate(_mended(table, value, [fault["loc"] for fault in faults]))
    except ValidationError:
        return None


def _mended(table: type[Table], value: Any, places: list[Path]) -> Any:  # noqa: ANN401 - raw TOML
    """A copy without the values at these places; a list loses no element, it goes as a whole.

    A text that must be there is stood in for: what refers to it is not checked, since its place has
    a problem already.
    """
    pruned = copy.deepcopy(value)
    for place in places:
        names = list(place)
        while names and isinstance(names[-1], int):
            names.pop()
        parent = pruned
        for name in names[:-1]:
            parent = _step(parent, name)
        if names and isinstance(parent, dict):
            parent.pop(names[-1], None)
            field = field_at(table, names)
            if field is not None and field.is_required() and field.annotation is str:
                parent[names[-1]] = "?"
    return pruned


def _step(parent: Any, name: str | int) -> Any:  # noqa: ANN401 - raw TOML
    if isinstance(parent, dict):
        return parent.get(name)
    if isinstance(parent, list) and isinstance(name, int) and name < len(parent):
        return parent[name]
    return None
