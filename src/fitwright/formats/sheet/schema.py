"""The JSON Schema of the sheet format, for editors that complete and check while one types."""

from __future__ import annotations

from typing import Any

from fitwright.formats.sheet.document import FORMAT, SheetDocument


def sheet_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of an engine sheet.

    It describes the form: keys, words, types. What a sheet says as a whole (references, units,
    chains) only `read_sheet` checks.
    """
    schema: dict[str, Any] = _as_in_toml(SheetDocument.model_json_schema())
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **schema,
        "title": f"fitwright engine sheet, format {FORMAT}",
    }


def _as_in_toml(node: Any) -> Any:  # noqa: ANN401 - any part of a schema
    """Without what TOML does not have (null) and what says nothing (titles made from names)."""
    if isinstance(node, list):
        return [_as_in_toml(each) for each in node]
    if not isinstance(node, dict):
        return node
    kept = {key: value for key, value in node.items() if not _says_nothing(key, value)}
    cleaned = {key: _as_in_toml(value) for key, value in kept.items()}
    if "patternProperties" in cleaned:
        cleaned["additionalProperties"] = False
    choices = [each for each in cleaned.pop("anyOf", []) if each != {"type": "null"}]
    if len(choices) == 1:
        return {**choices[0], **cleaned}
    return {**cleaned, "anyOf": choices} if choices else cleaned


def _says_nothing(key: str, value: Any) -> bool:  # noqa: ANN401 - any part of a schema
    return (key == "title" and isinstance(value, str)) or (key == "default" and value is None)
