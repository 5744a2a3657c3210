"""What an address holds of a sum: its inputs as typed, and an address that holds them.

Single inputs stand under their key; those of a list of objects under `list.number.key`, so that a form
without script sends the same as a link. A number without a unit gets that of its field before it goes
into an address: a bookmark means the same in whichever units it is opened.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final
from urllib.parse import quote, urlencode

from fitwright.sums.crossed import Crossed, cells_of, table_of
from fitwright.sums.declaration import Sum
from fitwright.sums.forms import Form, Group, Several
from fitwright.units.families import Family

_OF_A_ROW: Final = re.compile(r"([a-z_]+)\.(\d{1,3})\.([a-z_]+)")
MOST_ROWS: Final = 200
"""Items of one list that a page takes."""


@dataclass(frozen=True, slots=True)
class TypedRow:
    """One item of a list as it stands in the form: its number there, and what was typed."""

    number: int
    values: Mapping[str, str]

    @property
    def blank(self) -> bool:
        """Whether nothing stands in it."""
        return not self.values


@dataclass(frozen=True, slots=True)
class Filled:
    """A form as it was filled in."""

    single: Mapping[str, str] = field(default_factory=dict)
    rows: Mapping[str, tuple[TypedRow, ...]] = field(default_factory=dict)
    names: frozenset[str] = frozenset()

    def given(self, key: str) -> tuple[TypedRow, ...]:
        """The items of a list in which anything stands."""
        return tuple(row for row in self.rows.get(key, ()) if not row.blank)


def is_rows(form: Form) -> bool:
    """Whether an input is a list of objects, which has fields of its own for each."""
    return isinstance(form, Several) and isinstance(form.form, Group) and not form.form.alone


def filled(asked: Sum, params: Iterable[tuple[str, str]]) -> Filled:
    """The form that an address fills in; what no input is called is passed over."""
    params = [(name, value.strip(" \r\n")) for name, value in params]  # a leading tab is a cell
    keys = {each.key for each in asked.inputs if not is_rows(each.form)}
    single = {name: value for name, value in params if name in keys and value}
    typed: dict[str, dict[int, dict[str, str]]] = {}
    for name, value in params:
        found = _OF_A_ROW.fullmatch(name)
        if found and _has(asked, found[1], found[3]):
            row = typed.setdefault(found[1], {}).setdefault(int(found[2]), {})
            if value:
                row[found[3]] = value
    rows = {
        key: tuple(TypedRow(number, held[number]) for number in sorted(held)[:MOST_ROWS])
        for key, held in typed.items()
    }
    return Filled(single, rows, frozenset(name for name, _ in params))


def _has(asked: Sum, key: str, inner: str) -> bool:
    for each in asked.inputs:
        if each.key == key and isinstance(each.form, Several) and isinstance(each.form.form, Group):
            return inner in {one.key for one in each.form.form.inputs}
    return False


def inputs_of(asked: Sum, form: Filled) -> dict[str, object]:
    """The inputs that were given; none where nothing is typed but what the form began with."""
    if _untouched(asked, form):
        return {}
    given: dict[str, object] = {}
    for each in asked.inputs:
        if is_rows(each.form):
            rows = [dict(row.values) for row in form.given(each.key)]
            if rows:
                given[each.key] = rows
        elif each.key in form.single and not _only_heads(each.form, form.single[each.key]):
            given[each.key] = form.single[each.key]
    return given


def _untouched(asked: Sum, form: Filled) -> bool:
    for each in asked.inputs:
        if isinstance(each.form, Several) and is_rows(each.form):
            for number, row in enumerate(form.given(each.key)):
                start = each.form.starts[number] if number < len(each.form.starts) else {}
                if dict(row.values) != dict(start):
                    return False
        elif each.key in form.single and not _only_heads(each.form, form.single[each.key]):
            return False
    return True


def _only_heads(form: Form, text: str) -> bool:
    """Whether a table holds the names of people and parts, and no reading."""
    return isinstance(form, Crossed) and not any(any(line[1:]) for line in cells_of(text)[1:])


def pairs_of(inputs: Mapping[str, object]) -> list[tuple[str, str]]:
    """Inputs as an address holds them."""
    found: list[tuple[str, str]] = []
    for key, value in inputs.items():
        if isinstance(value, list | tuple) and value and isinstance(value[0], Mapping):
            for number, row in enumerate(value, start=1):
                found += [(f"{key}.{number}.{inner}", _text(each)) for inner, each in row.items()]
        else:
            found.append((key, _text(value)))
    return found


def example_inputs(asked: Sum) -> dict[str, object]:
    """The example of a sum as its form holds it."""
    crossed = {each.key for each in asked.inputs if isinstance(each.form, Crossed)}
    return {
        key: table_of(value) if key in crossed and isinstance(value, Sequence) else value
        for key, value in asked.example.items()
    }


def sum_address(name: str, inputs: Mapping[str, object], family: Family | None = None, *more: str) -> str:
    """The page of a sum with inputs; `more` are words without a value, such as json."""
    pairs = [*pairs_of(inputs), *([("units", family)] if family else [])]
    asked = "&".join([*([urlencode(pairs)] if pairs else []), *more])
    return f"/sums/{quote(name)}" + (f"?{asked}" if asked else "")


def _text(value: object) -> str:
    if isinstance(value, list | tuple):
        return "; ".join(map(_text, value))
    return f"{value:g}" if isinstance(value, float) else str(value)
