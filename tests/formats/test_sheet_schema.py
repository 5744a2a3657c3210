from __future__ import annotations

import tomllib
from dataclasses import MISSING, fields
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

import fitwright
from fitwright.formats.sheet.document import SECTIONS, VARIANTS, SheetDocument, WholeCircuitTable
from fitwright.formats.sheet.oil_tables import CircuitTable
from fitwright.formats.sheet.pump_tables import ReliefTable
from fitwright.formats.sheet.schema import sheet_schema
from fitwright.formats.sheet.wording import fields_of, table_in
from fitwright.model.circuit import ELEMENTS, ROTORS, OilPath, PumpStage, Relief

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
    inside = {
        f"circuit.{key}": field
        for key, field in fields_of(WholeCircuitTable).items()
        if key not in fields_of(CircuitTable)
    }
    fields = {**fields_of(SheetDocument), **inside}
    named = set(fields) - {"format", "engine", "circuit"}
    assert named == set(SECTIONS)
    for key in named - set(VARIANTS):
        assert table_in(fields[key].annotation) == SECTIONS[key]


def test_every_kind_of_path_and_pump_has_the_table_of_what_lies_in_it() -> None:
    parts = (("circuit.paths", ELEMENTS, OilPath), ("circuit.pumps", ROTORS, PumpStage))
    for section, classes, around in parts:
        assert set(VARIANTS[section]) == set(classes)
        for kind, inner in classes.items():
            table = VARIANTS[section][kind].model_fields
            wanted = {each.name: each for each in fields(inner)}
            shared = {each.name for each in fields(around)} - {"id", "family", "rotors", "element"}
            assert set(table) == set(wanted) | shared, kind
            for name, each in wanted.items():
                needed = each.default is MISSING and each.default_factory is MISSING
                assert table[name].is_required() == needed, f"{kind}: {name}"


def test_the_table_of_a_relief_valve_has_its_fields() -> None:
    assert set(ReliefTable.model_fields) == {each.name for each in fields(Relief)} - {"id"}
