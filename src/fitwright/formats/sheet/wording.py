"""Problems of form in plain words: what the tables' own validation found, and what to write instead."""

from __future__ import annotations

import typing
from collections.abc import Iterable
from datetime import date, time
from enum import Enum
from typing import Any, Literal

from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from fitwright.formats.sheet.fields import LONGEST_TEXT, Table
from fitwright.model.problem import Path, Problem, meant

_WANTED = {
    "string_type": "text",
    "int_type": "a whole number",
    "float_type": "a number",
    "bool_type": "true or false",
    "list_type": "a list",
    "dict_type": "a table",
    "model_type": "a table",
    "amount_type": "an amount",
}
_BOUNDS = {
    "greater_than_equal": ("ge", "or more"),
    "less_than_equal": ("le", "or less"),
    "greater_than": ("gt", "exclusive or more"),
    "less_than": ("lt", "exclusive or less"),
}


def problem_of(fault: ErrorDetails, table: type[Table], path: Path) -> Problem:
    """The problem that stands behind one fault which the validation of a table reports."""
    place = fault["loc"]
    whole = (*path, *place)
    kind, value = fault["type"], fault["input"]
    if kind == "extra_forbidden":
        return _unknown_key(table, place, whole)
    if kind == "missing":
        field = field_at(table, place)
        return Problem(whole, f'"{place[-1]}" is missing', _example(str(place[-1]), field))
    if kind in {"literal_error", "enum"}:
        return _unknown_word(table, place, whole, value)
    if kind in _WANTED:
        what = f"{kind_of(value)} where {_WANTED[kind]} belongs"
        return Problem(whole, what, _wanted_form(kind, value))
    return Problem(whole, *_other(fault))


def field_at(table: type[Table], place: Iterable[str | int]) -> FieldInfo | None:
    """The field that a place inside a table leads to; None where it leads to none."""
    current: type[Table] | None = table
    field: FieldInfo | None = None
    for name in place:
        if isinstance(name, int):
            continue
        field = fields_of(current).get(name) if current else None
        current = table_in(field.annotation) if field else None
    return field


def fields_of(table: type[Table]) -> dict[str, FieldInfo]:
    """The fields of a table by the key that stands in the file."""
    return {info.alias or name: info for name, info in table.model_fields.items()}


def table_in(annotation: Any) -> type[Table] | None:  # noqa: ANN401 - any annotation
    """The table that an annotation holds, inside a list, a mapping or an option."""
    if isinstance(annotation, type) and issubclass(annotation, Table):
        return annotation
    return next(
        (found for inner in typing.get_args(annotation) if (found := table_in(inner)) is not None), None
    )


def words_in(annotation: Any) -> tuple[str, ...]:  # noqa: ANN401 - any annotation
    """The closed list of words that an annotation allows; empty where any text is allowed."""
    if typing.get_origin(annotation) is Literal:
        return tuple(map(str, typing.get_args(annotation)))
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return tuple(str(member.value) for member in annotation)
    return tuple(word for inner in typing.get_args(annotation) for word in words_in(inner))


def kind_of(value: Any) -> str:  # noqa: ANN401 - raw TOML
    """What a raw value is, in a person's words."""
    for types, words in (
        (bool, "true or false"),
        (int | float, "a number"),
        (str, "text"),
        (list, "a list"),
        (dict, "a table"),
        (date | time, "a date or time"),
    ):
        if isinstance(value, types):
            return words
    return "something else"


def _unknown_key(table: type[Table], place: tuple[str | int, ...], whole: Path) -> Problem:
    parent = field_at(table, place[:-1])
    owner = table_in(parent.annotation) if parent else table
    known = fields_of(owner or table)
    name = str(place[-1])
    accepted = meant(name, known) or f"keys here: {', '.join(known)}"
    return Problem(whole, f'unknown key "{name}"', accepted, at_key=True)


def _unknown_word(table: type[Table], place: tuple[str | int, ...], whole: Path, value: Any) -> Problem:  # noqa: ANN401
    field = field_at(table, place)
    words = words_in(field.annotation) if field else ()
    listed = f"write {_listed(words)}"
    if not isinstance(value, str):
        return Problem(whole, f"{kind_of(value)} where a word belongs", listed)
    guess = meant(value, words)
    return Problem(whole, f'"{value}" is no word for this', f"{guess} {listed}".strip())


def _listed(words: tuple[str, ...]) -> str:
    quoted = [f'"{word}"' for word in words]
    return " or ".join([", ".join(quoted[:-1]), quoted[-1]]) if len(quoted) > 1 else "".join(quoted)


def _example(name: str, field: FieldInfo | None) -> str:
    if field is None:
        return f"write {name} = ..."
    words = words_in(field.annotation)
    if words:
        return f"write {name} = {_listed(words)}"
    about = (field.description or "").rstrip(".")
    return f"write {name} = ... ({about[:1].lower()}{about[1:]})"


def _wanted_form(kind: str, value: Any) -> str:  # noqa: ANN401 - raw TOML
    if kind == "amount_type":
        nested = isinstance(value, dict)
        return "ids with dots need quotes" if nested else 'write it as "67.08 mm"'
    if kind == "string_type" and isinstance(value, int | float) and not isinstance(value, bool):
        return f'write "{value}"'
    if kind == "bool_type":
        return "write true or false without quotes"
    if kind in {"int_type", "float_type"} and isinstance(value, str):
        return "write it without quotes"
    return f"write {_WANTED[kind]}"


def _unfit_text(fault: ErrorDetails) -> tuple[str, str]:
    match fault["type"]:
        case "string_too_short":
            return "an empty text", "write something or leave the key out"
        case "string_too_long":
            return f"a text of {len(fault['input'])} characters", f"write at most {LONGEST_TEXT}"
        case _:
            return fault["msg"], "write it anew"


def _other(fault: ErrorDetails) -> tuple[str, str]:
    kind, context = fault["type"], fault.get("ctx", {})
    if kind in _BOUNDS:
        name, words = _BOUNDS[kind]
        return f"{fault['input']} is out of range", f"write {context[name]} {words}"
    if kind in {"string_too_short", "string_too_long", "hidden"}:
        return _unfit_text(fault)
    if kind in {"too_short", "too_long"}:
        count = context.get("min_length") or context.get("max_length")
        return f"a list of {context['actual_length']}", f"write a list of {count}"
    if kind == "int_from_float":
        return f"{fault['input']} where a whole number belongs", "write it without decimals"
    return fault["msg"][:1].lower() + fault["msg"][1:], ""
