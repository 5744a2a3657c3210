"""The JSON Schema of the sheet format, for editors that complete and check while one types."""

from __future__ import annotations

from typing import Any

from fitwright.formats.sheet.document import FORMAT, SheetDocument


def sheet_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of an engine sheet.

    It describes the form: keys, words, types. What a sheet says as a whole (references, units,
    chains) only `read_sheet` checks.
    """
    schema = SheetDocument.model_json_schema()
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **schema,
        "title": f"fitwright engine sheet, format {FORMAT}",
    }
