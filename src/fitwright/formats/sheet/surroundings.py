"""From tables to the model: the engine, sources, materials, parts, conditions, temperature cases."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from fitwright.formats.sheet.amounts import AmountReader
from fitwright.formats.sheet.members import Families, MemberTexts
from fitwright.formats.sheet.tables import (
    ConditionTable,
    EngineTable,
    LayoutTable,
    MaterialTable,
    PartTable,
    SourceTable,
    TemperatureCaseTable,
)
from fitwright.model.braces import expand
from fitwright.model.dimension import Condition
from fitwright.model.engine import Directions, Engine, Layout
from fitwright.model.errors import BraceError
from fitwright.model.limit import Source
from fitwright.model.part import Material, Part, TemperatureCase

_LAYOUT_LENGTHS: Final = ("bore", "stroke", "rod_length", "compression_height")
_USUAL_EXPANSION_UNCERTAINTY: Final = 1e-6
_USUAL_TEMPERATURE_UNCERTAINTY: Final = 5.0
"""What the model takes where a sheet says nothing [1/K, K]; a test holds them to its defaults."""


def engine_of(table: EngineTable, amounts: AmountReader) -> Engine:
    """The engine of a sheet."""
    return Engine(
        id=table.id,
        name=table.name,
        revision=table.revision,
        unit_family=table.units,
        layout=_layout(table.layout, amounts),
        duty=table.duty,
        aspiration=table.aspiration,
        cooling=table.cooling,
        piston=table.piston,
        directions=Directions(**table.directions.model_dump()),
        facts=dict(table.facts),
        note=table.note,
    )


def _layout(table: LayoutTable, amounts: AmountReader) -> Layout:
    path = ("engine", "layout")
    as_written: dict[str, Any] = {
        name: amounts.optional(getattr(table, name), "length", (*path, name), positive=True)
        for name in _LAYOUT_LENGTHS
    }
    as_written["bank_angle"] = amounts.optional(
        table.bank_angle, "angle", (*path, "bank_angle"), positive=True
    )
    return Layout(**{**table.model_dump(), **as_written})


def source_of(table: SourceTable, member: MemberTexts) -> Source:
    """A source of limits."""
    return Source(member.id, table.title, table.kind, table.edition, table.note)


def material_of(table: MaterialTable, member: MemberTexts, amounts: AmountReader) -> Material:
    """A material."""
    path, expansion = member.path, "thermal_expansion"
    uncertainty = amounts.optional_si(
        table.expansion_uncertainty, expansion, (*path, "expansion_uncertainty"), positive=True
    )
    return Material(
        id=member.id,
        title=table.title,
        expansion=amounts.si(table.expansion, expansion, (*path, "expansion")),
        expansion_uncertainty=_USUAL_EXPANSION_UNCERTAINTY if uncertainty is None else uncertainty,
        youngs_modulus=amounts.optional_si(
            table.youngs_modulus, "pressure", (*path, "youngs_modulus"), positive=True
        ),
        poisson_ratio=table.poisson_ratio,
        source=table.source,
    )


def part_of(table: PartTable, member: MemberTexts) -> Part:
    """A position of a part."""
    return Part(
        id=member.id,
        title=member.text(table.title, "title"),
        material=member.text(table.material, "material"),
        one_time_use=table.one_time_use,
        note=member.optional(table.note, "note"),
    )


def condition_of(table: ConditionTable, member: MemberTexts) -> Condition:
    """A condition."""
    return Condition(member.id, table.title, table.kind, table.lubricant)


def temperature_case_of(
    table: TemperatureCaseTable, member: MemberTexts, amounts: AmountReader, families: Families
) -> TemperatureCase:
    """A temperature case, its families of parts expanded."""
    path = member.path
    uncertainty = amounts.optional_si(
        table.standard_uncertainty, "temperature_difference", (*path, "standard_uncertainty"), positive=True
    )
    temperatures = {
        part: amounts.si(value, "temperature", (*path, "parts", key))
        for key, value in table.parts.items()
        for part in _part_names(key, member, families)
    }
    return TemperatureCase(
        id=member.id,
        title=table.title,
        default=amounts.si(table.default, "temperature", (*path, "default")),
        parts=temperatures,
        standard_uncertainty=_USUAL_TEMPERATURE_UNCERTAINTY if uncertainty is None else uncertainty,
    )


def _part_names(key: str, member: MemberTexts, families: Families) -> Iterator[str]:
    try:
        for part in expand(key):
            yield part.name
    except BraceError as error:
        families.findings.add_text_error((*member.path, "parts", key), error, at_key=True)
