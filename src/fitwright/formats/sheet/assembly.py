"""From the tables of a sheet to the sheet: families expanded, amounts read, every fault collected."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from fitwright.formats.sheet.amounts import AmountReader
from fitwright.formats.sheet.crank_train import crank_train_of
from fitwright.formats.sheet.document import FORMAT
from fitwright.formats.sheet.fields import Table
from fitwright.formats.sheet.findings import Findings
from fitwright.formats.sheet.fitted import fit_of
from fitwright.formats.sheet.measured import dimension_of, station_of
from fitwright.formats.sheet.members import Families, MemberTexts
from fitwright.formats.sheet.oil_circuit import SizeReader, circuit_of, oil_of, path_of, pump_of, relief_of
from fitwright.formats.sheet.oil_tables import OilTable
from fitwright.formats.sheet.order_of_work import consumable_of, group_of, step_of
from fitwright.formats.sheet.path_tables import PathTable
from fitwright.formats.sheet.pump_tables import PumpTable, ReliefTable
from fitwright.formats.sheet.structure import Tables
from fitwright.formats.sheet.subjects import DimensionTable, FitTable, StationTable
from fitwright.formats.sheet.surroundings import (
    condition_of,
    engine_of,
    material_of,
    part_of,
    source_of,
    temperature_case_of,
)
from fitwright.formats.sheet.tables import (
    ConditionTable,
    MaterialTable,
    PartTable,
    SourceTable,
    TemperatureCaseTable,
)
from fitwright.formats.sheet.work_tables import ConsumableTable, StepTable, TighteningGroupTable
from fitwright.model.engine import Engine, Layout
from fitwright.model.problem import Problem
from fitwright.model.sheet import Sheet

TableT = TypeVar("TableT", bound=Table)
MadeT = TypeVar("MadeT")

_NO_ENGINE = Engine("", "", "", "mm", Layout("", 0, 0))
"""Stands where the engine's table has no sound form, in a sheet that is never given out."""


@dataclass(frozen=True, slots=True)
class Assembled:
    """A sheet as far as it could be put together, and which key each of its ids came from."""

    sheet: Sheet
    problems: tuple[Problem, ...]
    key_of: dict[tuple[str, str], str]


def assemble(tables: Tables, digest: str) -> Assembled:
    """The sheet that tables describe."""
    findings = Findings()
    families = Families(findings)
    amounts = AmountReader(findings, tables.engine.units if tables.engine else "mm")

    def each(
        section: str, table: type[TableT], make: Callable[[TableT, MemberTexts], MadeT]
    ) -> dict[str, MadeT]:
        return {
            member.id: make(entry, member)
            for key, entry in tables.of(section, table).items()
            for member in families.members(section, key)
        }

    sizes = SizeReader(amounts, findings)
    pumps = each("circuit.pumps", PumpTable, lambda table, at: pump_of(table, at, sizes))
    reliefs = each("circuit.reliefs", ReliefTable, lambda table, at: relief_of(table, at, sizes))
    paths = each("circuit.paths", PathTable, lambda table, at: path_of(table, at, sizes))
    written = tables.circuit.crank_train if tables.circuit else None
    train = crank_train_of(written, sizes, findings) if written is not None else None
    dimensions = each("dimensions", DimensionTable, lambda table, at: dimension_of(table, at, amounts))
    sheet = Sheet(
        format=FORMAT,
        engine=engine_of(tables.engine, amounts) if tables.engine else _NO_ENGINE,
        sources=each("sources", SourceTable, source_of),
        materials=each("materials", MaterialTable, lambda table, at: material_of(table, at, amounts)),
        parts=each("parts", PartTable, part_of),
        conditions=each("conditions", ConditionTable, condition_of),
        temperature_cases=each(
            "temperature_cases",
            TemperatureCaseTable,
            lambda table, at: temperature_case_of(table, at, amounts, families),
        ),
        dimensions=dimensions,
        fits=each("fits", FitTable, lambda table, at: fit_of(table, at, amounts, findings)),
        stations=each("stations", StationTable, lambda table, at: station_of(table, at, dimensions.values())),
        oils=each("oils", OilTable, lambda table, at: oil_of(table, at, amounts)),
        circuit=circuit_of(tables.circuit, amounts, pumps, reliefs, paths, train) if tables.circuit else None,
        consumables=each("consumables", ConsumableTable, lambda table, at: consumable_of(table, at, amounts)),
        tightening_groups=each(
            "tightening_groups",
            TighteningGroupTable,
            lambda table, at: group_of(table, at, amounts, findings),
        ),
        steps=each("steps", StepTable, lambda table, at: step_of(table, at, findings)),
        digest=digest,
    )
    return Assembled(sheet, findings.problems, families.key_of)
