"""The whole engine sheet as tables, before anything is expanded."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, get_args

from pydantic import Field

from fitwright.formats.sheet.fields import FamilyKey, Table
from fitwright.formats.sheet.oil_tables import CircuitTable, OilTable
from fitwright.formats.sheet.path_tables import PATH_TABLES, AnyPathTable, EachPath
from fitwright.formats.sheet.pump_tables import PUMP_TABLES, AnyPumpTable, EachPump, ReliefTable
from fitwright.formats.sheet.subjects import DimensionTable, FitTable, StationTable
from fitwright.formats.sheet.tables import (
    ConditionTable,
    EngineTable,
    MaterialTable,
    PartTable,
    SourceTable,
    TemperatureCaseTable,
)
from fitwright.formats.sheet.work_tables import ConsumableTable, StepTable, TighteningGroupTable

FORMAT: Final = 1
"""The format version that this program writes; older ones are raised to it (`upgrade`)."""


def kinds_of(table: type[Table]) -> tuple[str, ...]:
    """The words for its kind that one table stands for."""
    return get_args(table.model_fields["kind"].annotation)


class WholeCircuitTable(CircuitTable):
    """The oil circuit: where the gauge reads, and the states in which the engine is looked at."""

    pumps: dict[FamilyKey, EachPump] = Field(
        default_factory=dict, description="Stages of the oil pump, by id; braces stand for families."
    )
    reliefs: dict[FamilyKey, ReliefTable] = Field(default_factory=dict, description="Relief valves, by id.")
    paths: dict[FamilyKey, EachPath] = Field(
        default_factory=dict, description="Paths of the oil, by id; braces stand for families."
    )


class SheetDocument(Table):
    """An engine sheet: the description of an engine type."""

    format: int = Field(ge=1, le=FORMAT, description="Format version of the file.")
    engine: EngineTable = Field(description="The engine type.")
    sources: dict[FamilyKey, SourceTable] = Field(
        default_factory=dict, description="Where limits come from, by id."
    )
    materials: dict[FamilyKey, MaterialTable] = Field(default_factory=dict, description="Materials, by id.")
    parts: dict[FamilyKey, PartTable] = Field(
        default_factory=dict, description="Positions of parts, by id; braces stand for families."
    )
    conditions: dict[FamilyKey, ConditionTable] = Field(
        default_factory=dict, description="Conditions that dimensions are valid in, by id."
    )
    temperature_cases: dict[FamilyKey, TemperatureCaseTable] = Field(
        default_factory=dict, description="Named states of temperature, by id."
    )
    dimensions: dict[FamilyKey, DimensionTable] = Field(
        default_factory=dict, description="Measurable sizes, by id; braces stand for families."
    )
    fits: dict[FamilyKey, FitTable] = Field(
        default_factory=dict, description="Fits, by id; braces stand for families."
    )
    stations: dict[FamilyKey, StationTable] = Field(
        default_factory=dict, description="Places of work, by id; braces stand for families."
    )
    oils: dict[FamilyKey, OilTable] = Field(
        default_factory=dict, description="Oils, by id: the one planned, and others by name."
    )
    circuit: WholeCircuitTable | None = Field(None, description="The oil circuit.")
    consumables: dict[FamilyKey, ConsumableTable] = Field(
        default_factory=dict, description="What is used up in assembly, by id."
    )
    tightening_groups: dict[FamilyKey, TighteningGroupTable] = Field(
        default_factory=dict,
        description="Fasteners that are tightened together, by id; braces stand for families.",
    )
    steps: dict[FamilyKey, StepTable] = Field(
        default_factory=dict, description="The order of work, by id; braces stand for families."
    )


SECTIONS: Final[Mapping[str, type[Table]]] = MappingProxyType(
    {
        "sources": SourceTable,
        "materials": MaterialTable,
        "parts": PartTable,
        "conditions": ConditionTable,
        "temperature_cases": TemperatureCaseTable,
        "dimensions": DimensionTable,
        "fits": FitTable,
        "stations": StationTable,
        "oils": OilTable,
        "circuit.pumps": AnyPumpTable,
        "circuit.reliefs": ReliefTable,
        "circuit.paths": AnyPathTable,
        "consumables": ConsumableTable,
        "tightening_groups": TighteningGroupTable,
        "steps": StepTable,
    }
)
"""The sections that hold entries by id, with the table of one entry, in the order of the file.

Where an entry's kind decides its table, it is the one that stands in until the kind is known.
"""

VARIANTS: Final[Mapping[str, Mapping[str, type[Table]]]] = MappingProxyType(
    {
        section: MappingProxyType({word: table for table in tables for word in kinds_of(table)})
        for section, tables in (("circuit.pumps", PUMP_TABLES), ("circuit.paths", PATH_TABLES))
    }
)
"""Sections in which the kind of an entry decides its table: section -> kind -> table."""


def table_of(section: str, entry: object) -> type[Table]:
    """The table of one entry of a section."""
    kind = entry.get("kind") if isinstance(entry, dict) else None
    known = VARIANTS.get(section, {})
    return known.get(kind, SECTIONS[section]) if isinstance(kind, str) else SECTIONS[section]
