"""The engine sheet: everything that is known about an engine type before anything is measured."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from fitwright.model.circuit import Circuit
from fitwright.model.dimension import Condition, Dimension
from fitwright.model.engine import Engine
from fitwright.model.fastener import TighteningGroup
from fitwright.model.fit import Fit
from fitwright.model.limit import Source
from fitwright.model.oil import Oil
from fitwright.model.part import Material, Part, TemperatureCase
from fitwright.model.station import Station
from fitwright.model.step import Consumable, Step


@dataclass(frozen=True, slots=True)
class Sheet:
    """An engine sheet with all families expanded; mappings keep the order of the file."""

    format: int
    engine: Engine
    sources: Mapping[str, Source]
    materials: Mapping[str, Material]
    parts: Mapping[str, Part]
    conditions: Mapping[str, Condition]
    temperature_cases: Mapping[str, TemperatureCase]
    dimensions: Mapping[str, Dimension]
    fits: Mapping[str, Fit]
    stations: Mapping[str, Station]
    oils: Mapping[str, Oil] = field(default_factory=dict)
    circuit: Circuit | None = None
    consumables: Mapping[str, Consumable] = field(default_factory=dict)
    tightening_groups: Mapping[str, TighteningGroup] = field(default_factory=dict)
    steps: Mapping[str, Step] = field(default_factory=dict)
    digest: str = field(default="", compare=False)

    @property
    def oil(self) -> Oil | None:
        """The oil planned: the one so marked, or the only one."""
        if len(self.oils) == 1:
            return next(iter(self.oils.values()))
        return next((oil for oil in self.oils.values() if oil.planned), None)
