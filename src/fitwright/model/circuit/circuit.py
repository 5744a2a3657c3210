"""The oil circuit as a whole: its parts, where the gauge reads, and in which states it is looked at."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from fitwright.model.amount import Written
from fitwright.model.circuit.crank_train import CrankTrain
from fitwright.model.circuit.paths import OilPath
from fitwright.model.circuit.pumps import PumpStage, StagePurpose
from fitwright.model.circuit.relief import Relief


class StopAction(StrEnum):
    """What one does below a stop value."""

    STOP = "stop"
    INVESTIGATE = "investigate"


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """A speed of the crank and a temperature of the oil in the gallery, with a name."""

    title: str
    speed: Written
    oil_temperature: Written


@dataclass(frozen=True, slots=True)
class Stop:
    """A value at which one stops the engine or looks into it, and who says so.

    Either the lowest pressure at the gauge, at a speed and temperature of the oil, or the longest time
    until the gauge first lifts. It has a source (`source`, an id) or a person who answers for it.
    """

    action: StopAction = StopAction.STOP
    lowest_pressure: Written | None = None
    speed: Written | None = None
    oil_temperature: Written | None = None
    first_pressure_within: Written | None = None
    source: str | None = None
    place_in_source: str | None = None
    person: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Circuit:
    """The oil circuit; mappings keep the order of the file.

    `gauge` is the node where the gauge reads. `oil_temperatures` are those of hot oil in the gallery
    for which hot idle is looked at. `surface_roughness` is the combined Rq of bearings that give none
    of their own. `crank_train` gives the loads of mains and big ends over the cycle; without it there are
    only those that bearings state. `assumed` says in words what in it is assumed and has to be replaced.
    """

    gauge: str
    idle_speed: Written
    top_speed: Written
    oil_temperatures: tuple[Written, ...]
    pumps: Mapping[str, PumpStage]
    reliefs: Mapping[str, Relief]
    paths: Mapping[str, OilPath]
    fill: Written | None = None
    surface_roughness: Written | None = None
    crank_train: CrankTrain | None = None
    operating_points: tuple[OperatingPoint, ...] = ()
    stops: tuple[Stop, ...] = ()
    assumed: str | None = None
    note: str | None = None

    @property
    def nodes(self) -> tuple[str, ...]:
        """All nodes, in the order in which pumps, relief valves and paths name them."""
        ends = ((each.from_node, each.to_node) for each in self.connections())
        return tuple(dict.fromkeys(node for pair in ends for node in pair if node is not None))

    def connections(self) -> Iterator[PumpStage | Relief | OilPath]:
        """Pressure stages, relief valves and paths: all that joins two nodes."""
        yield from (stage for stage in self.pumps.values() if stage.purpose is StagePurpose.PRESSURE)
        yield from self.reliefs.values()
        yield from self.paths.values()

    def parts(self) -> Iterator[tuple[str, str, tuple[Any, ...]]]:
        """Section of the sheet format, id, and the dataclasses that hold the sizes of each part."""
        for stage in self.pumps.values():
            yield "pumps", stage.id, (stage, stage.rotors)
        for relief in self.reliefs.values():
            yield "reliefs", relief.id, (relief,)
        for path in self.paths.values():
            yield "paths", path.id, (path.element,)
