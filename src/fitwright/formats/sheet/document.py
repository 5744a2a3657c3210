"""The whole engine sheet as tables, before anything is expanded."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from pydantic import Field

from fitwright.formats.sheet.fields import FamilyKey, Table
from fitwright.formats.sheet.subjects import DimensionTable, FitTable, StationTable
from fitwright.formats.sheet.tables import (
    ConditionTable,
    EngineTable,
    MaterialTable,
    PartTable,
    SourceTable,
    TemperatureCaseTable,
)

FORMAT: Final = 1
"""The format version that this program writes; older ones are raised to it (`upgrade`)."""


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
    }
)
"""The sections that hold entries by id, with the table of one entry, in the order of the file."""
