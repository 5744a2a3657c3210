"""The field reference of the sheet format, made from its tables.

`python -m tests.support.sheet_reference` writes it into docs/how-to/engine-sheet-format.md, between
the two marks; a test holds the page to it.
"""

from __future__ import annotations

import inspect
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from fitwright.formats.sheet.document import SECTIONS, VARIANTS, kinds_of
from fitwright.formats.sheet.fields import Table
from fitwright.formats.sheet.path_tables import PATH_TABLES, PathTable
from fitwright.formats.sheet.pump_tables import PUMP_TABLES, PumpTable
from fitwright.formats.sheet.schema import sheet_schema
from fitwright.model.instruments import INSTRUMENT_KINDS

PAGE = Path(__file__).resolve().parents[2] / "docs" / "how-to" / "engine-sheet-format.md"
BEGIN = "<!-- fields: made by tests/support/sheet_reference.py -->"
END = "<!-- end of fields -->"
_SUBTABLES = {
    "EngineTable": ("LayoutTable", "DirectionsTable"),
    "DimensionTable": ("LimitTable",),
    "FitTable": ("CompressionTable", "PressTable", "CentringTable"),
    "StationTable": ("EyeCheckTable",),
    "TighteningGroupTable": ("PatternTable", "PassTable", "GripTable"),
    "StepTable": ("PhotoTable",),
}
_KINDS: dict[str, tuple[type[Table], tuple[type[Table], ...]]] = {
    "circuit.pumps": (PumpTable, PUMP_TABLES),
    "circuit.paths": (PathTable, PATH_TABLES),
}
_CIRCUIT = ("WholeCircuitTable", "OperatingPointTable", "StopTable", "CrankTrainTable", "GasPressureTable")
_HEADINGS = {
    "WholeCircuitTable": "[circuit]",
    "OperatingPointTable": "operating_points of the circuit",
    "StopTable": "stops of the circuit",
    "CrankTrainTable": "[circuit.crank_train]",
    "GasPressureTable": "gas_pressures of the crank train",
    "LayoutTable": "[engine.layout]",
    "DirectionsTable": "[engine.directions]",
    "LimitTable": "limits of a dimension or fit",
    "CompressionTable": "compression",
    "PressTable": "press",
    "CentringTable": "centring",
    "EyeCheckTable": "eye_checks of a station",
    "PatternTable": "pattern of a tightening group",
    "PassTable": "passes of a tightening group",
    "GripTable": "grip of a tightening group",
    "PhotoTable": "photos of a step",
}


def field_reference() -> str:
    """All tables with their keys, as Markdown."""
    tables = sheet_schema()["$defs"]
    lines = _with_subtables("[engine]", "EngineTable", tables)
    for section, table in SECTIONS.items():
        if section == "circuit.pumps":
            for name in _CIRCUIT:
                lines += _table(_HEADINGS[name], _without_sections(tables[name]), tables)
        if section in VARIANTS:
            lines += _with_kinds(section, tables)
        else:
            lines += _with_subtables(f"[{section}.an_id]", table.__name__, tables)
    return "\n".join(lines).strip()


def _with_subtables(heading: str, name: str, tables: dict[str, Any]) -> list[str]:
    lines = list(_table(heading, tables[name], tables))
    if name == "DimensionTable":
        lines += [f"Kinds of instrument: {', '.join(INSTRUMENT_KINDS)}.", ""]
    for below in _SUBTABLES.get(name, ()):
        lines += _table(_HEADINGS[below], tables[below], tables)
    return lines


def _without_sections(table: dict[str, Any]) -> dict[str, Any]:
    inside = {section.partition(".")[2] for section in SECTIONS}
    own = {key: field for key, field in table["properties"].items() if key not in inside}
    return {**table, "properties": own}


def _with_kinds(section: str, tables: dict[str, Any]) -> list[str]:
    """What all kinds of entry share, then what each kind has of its own."""
    base, kinds = _KINDS[section]
    shared = {info.alias or name for name, info in base.model_fields.items()}
    first = tables[kinds[0].__name__]
    common = {key: field for key, field in first["properties"].items() if key in shared}
    common["kind"] = {"description": common["kind"]["description"], "enum": list(VARIANTS[section])}
    every = {**first, "description": inspect.getdoc(base), "properties": common}
    lines = list(_table(f"[{section}.an_id]", every, tables))
    for kind in kinds:
        table = tables[kind.__name__]
        own = {key: field for key, field in table["properties"].items() if key not in shared}
        words = " or ".join(f'"{word}"' for word in kinds_of(kind))
        lines += _table(f"{section}, kind = {words}", {**table, "properties": own}, tables)
    return lines


def _table(heading: str, table: dict[str, Any], tables: dict[str, Any]) -> Iterator[str]:
    needed = set(table.get("required", ()))
    yield f"### {heading}"
    yield ""
    yield table["description"]
    yield ""
    yield "| key | what it is | form |"
    yield "| --- | --- | --- |"
    for key, field in table["properties"].items():
        form = _form(field, tables)
        without = "" if key in needed else _without(field)
        yield f"| `{key}` | {field['description']} | {form}{' **(needed)**' if key in needed else without} |"
    yield ""


def _without(field: dict[str, Any]) -> str:
    if "default" not in field or field["default"] in ([], {}):
        return ""
    default = field["default"]
    shown = str(default).lower() if isinstance(default, bool) else default
    return f"; without it `{shown}`"


def _form(field: dict[str, Any], tables: dict[str, Any]) -> str:
    if "$ref" in field:
        return _form(tables[field["$ref"].rpartition("/")[2]], tables)
    if "anyOf" in field:
        return " or ".join(dict.fromkeys(_form(each, tables) for each in field["anyOf"]))
    if "enum" in field:
        return ", ".join(f"`{word}`" for word in field["enum"])
    if field["type"] == "array":
        inner = _form(field["items"], tables)
        return "list of tables" if inner == "table" else f"list: {inner}"
    return _plain_form(field)


def _plain_form(field: dict[str, Any]) -> str:
    if field.get("format") == "amount or id":
        return "amount, or id of a fit or dimension"
    if field.get("format") == "amount":
        return "amount"
    words = {
        "string": "text",
        "integer": "whole number",
        "number": "plain number",
        "boolean": "`true`, `false`",
        "object": "table",
    }
    examples = field.get("examples", [])
    return words[field["type"]] + (f", as `{examples[0]}`" if examples else "")


def page_with(reference: str) -> str:
    """The page with this reference between its marks."""
    before, _, rest = PAGE.read_text(encoding="utf-8").partition(BEGIN)
    after = rest.partition(END)[2]
    return f"{before}{BEGIN}\n\n{reference}\n\n{END}{after}"


if __name__ == "__main__":
    PAGE.write_text(page_with(field_reference()), encoding="utf-8")
