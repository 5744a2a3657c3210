from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

import fitwright
from fitwright.formats.sheet.document import SECTIONS, SheetDocument
from fitwright.formats.sheet.schema import sheet_schema
from fitwright.formats.sheet.wording import fields_of, table_in

HERE = Path(__file__).resolve()
SHEETS = sorted(
    [
        *(HERE.parents[1] / "data" / "sheets").glob("*.toml"),
        *(Path(fitwright.__file__).parent / "examples").glob("*/sheet.toml"),
    ]
)


@pytest.fixture(scope="module")
def validator() -> Draft202012Validator:
    schema = sheet_schema()
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_every_sheet_agrees_with_the_schema(validator: Draft202012Validator, path: Path) -> None:
    document = tomllib.loads(path.read_text(encoding="utf-8"))
    assert [error.message for error in validator.iter_errors(document)] == []


@pytest.mark.parametrize(
    "old, new",
    [
        ('units = "mm"', 'units = "cm"'),
        ('title = "Block"', 'titel = "Block"'),
        ('bore = "88.00 mm"', "bore = 88.0"),
        ("mains = 2", 'mains = "2"'),
        ("[parts.block]", "[parts.Block]"),
        ("format = 1", "format = 2"),
        ('sense = "volume"\n', ""),
    ],
)
def test_the_schema_refuses_what_the_reader_refuses(
    validator: Draft202012Validator, small_text: str, old: str, new: str
) -> None:
    assert old in small_text
    document = tomllib.loads(small_text.replace(old, new, 1))
    assert list(validator.iter_errors(document))


def test_every_table_and_every_key_is_described() -> None:
    schema = sheet_schema()
    tables: list[dict[str, Any]] = [schema, *schema["$defs"].values()]
    for table in tables:
        assert table.get("description"), table
        for key, field in table.get("properties", {}).items():
            assert field.get("description"), f"{key} has no description"
    assert "null" not in str(schema)


def test_the_sections_are_those_of_the_document() -> None:
    fields = {key: table_in(field.annotation) for key, field in fields_of(SheetDocument).items()}
    assert {key: table for key, table in fields.items() if key not in {"format", "engine"}} == SECTIONS
