"""The field reference of the sheet format, made from its tables.

`python -m tests.support.sheet_reference` writes it into docs/how-to/engine-sheet-format.md, between
the two marks; a test holds the page to it.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from fitwright.formats.sheet.document import SECTIONS
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
}
_HEADINGS = {
    "LayoutTable": "[engine.layout]",
    "DirectionsTable": "[engine.directions]",
    "LimitTable": "limits of a dimension or fit",
    "CompressionTable": "compression",
    "PressTable": "press",
    "CentringTable": "centring",
    "EyeCheckTable": "eye_checks of a station",
}


def field_reference() -> str:
    """All tables with their keys, as Markdown."""
    tables = sheet_schema()["$defs"]
    named = [("[engine]", "EngineTable")]
    named += [(f"[{section}.an_id]", table.__name__) for section, table in SECTIONS.items()]
    lines: list[str] = []
    for heading, name in named:
        lines += _table(heading, tables[name], tables)
        if name == "DimensionTable":
            lines += [f"Kinds of instrument: {', '.join(INSTRUMENT_KINDS)}.", ""]
        for below in _SUBTABLES.get(name, ()):
            lines += _table(_HEADINGS[below], tables[below], tables)
    return "\n".join(lines).strip()


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
