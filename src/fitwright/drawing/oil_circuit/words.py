"""What is said at each element and node of a drawn circuit, and what its state is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from fitwright.assess.oil.results import Band, NodeState, PathState, PointState
from fitwright.drawing.canvas import Line
from fitwright.drawing.oil_circuit.graph import SUMP, Edge
from fitwright.drawing.oil_circuit.titles import common_title
from fitwright.drawing.oil_figures import NOT_CONVERGED, OilReader

STEPS = (0.3, 1.0, 3.0, 10.0, 30.0)
"""Flows [L/min] from which a line is drawn one step wider."""

SECTIONS: Final = ("paths.", "pumps.", "reliefs.")


class Flowing(StrEnum):
    """The state of an element: how its line is drawn."""

    NOT_ASKED = "plain"
    FLOWS = "flows"
    BACKWARDS = "backwards"
    STILL = "still"
    SHUT = "shut"
    UNKNOWN = "unknown"


def _own_id(name: str) -> str:
    """The id that the sheet gives a path, stage or valve, without its section before it.

    >>> _own_id("paths.main.1"), _own_id("main.1")
    ('main.1', 'main.1')
    """
    return next((name.removeprefix(each) for each in SECTIONS if name.startswith(each)), name)


@dataclass(frozen=True, slots=True)
class Words:
    """Figures of one operating point, or none where only the circuit itself is drawn."""

    reader: OilReader
    point: PointState | None = None
    gauge: str = ""

    def paths(self, edge: Edge) -> list[PathState]:
        """States of all elements that are drawn as one."""
        if self.point is None:
            return []
        return [each for each in self.point.paths if _own_id(each.id) in edge.members]

    def flow(self, edge: Edge) -> float | None:
        """The flow of all of them together [m3/s], along the element; None where it is not known."""
        flows = [each.flow.best for each in self.paths(edge)]
        known = [each for each in flows if each is not None]
        return sum(known) if known and len(known) == len(flows) == len(edge.members) else None

    def flowing(self, edge: Edge) -> Flowing:
        """How the line of an element is drawn."""
        if self.point is None:
            return Flowing.NOT_ASKED
        paths, flow = self.paths(edge), self.flow(edge)
        if flow is None:
            return Flowing.UNKNOWN
        if paths and all(each.shut for each in paths):
            return Flowing.SHUT
        if flow == 0.0:
            return Flowing.STILL
        return Flowing.FLOWS if flow > 0.0 else Flowing.BACKWARDS

    def width(self, edge: Edge) -> int:
        """Step of the line's width, 0 to 5; 1 where no flow is known."""
        flow = self.flow(edge)
        if flow is None:
            return 1
        litres = abs(flow) * 6e4
        return sum(litres >= step for step in STEPS)

    def of_edge(self, edge: Edge) -> list[Line]:
        """Title, how many, and flow of an element."""
        lines = [(edge.title, "title")]
        if self.point is None:
            return [*lines, (f"{edge.count} alike", "small")] if edge.count > 1 else lines
        together = [(f"{edge.count} together", "small")] if edge.count > 1 else []
        shut = [each.shut for each in self.paths(edge)]
        flow = self.reader.flow(self.flow(edge))
        if shut and any(shut):
            which = "shut" if all(shut) else f"{sum(shut)} of {len(shut)} shut"
            said = which if all(shut) and not self.flow(edge) else f"{which}, {flow}"
            return [*lines, (said, "number"), *together]
        return [*lines, (flow, "number"), *together]

    def of_node(self, members: Sequence[str], pieces: int = 0) -> list[Line]:
        """Title, pressure and band of a node; from the lowest to the highest of several.

        A gallery says of how many pieces it is, and what the gauge reads that is somewhere on it.
        """
        states = self.nodes(members)
        titles = [_plain(state.title) for state in states] if states else [_plain(each) for each in members]
        lines = [(common_title(titles) or f"{len(titles)} nodes", "title")]
        if self.point is None:
            return lines
        bests = [state.gauge_pressure.best for state in states]
        known = [each for each in bests if each is not None]
        if not known or len(known) != len(members):
            return [*lines, (NOT_CONVERGED, "number")]
        if len(members) == 1:
            band = states[0].gauge_pressure
            edges = self.reader.edges(band)
            return [*lines, (self.reader.pressure(band), "number"), *([(edges, "small")] if edges else [])]
        low, high = min(known), max(known)
        lines.append((f"{self.reader.between(low, high)} {self.reader.pressure_unit}", "number"))
        return [*lines, *self._read(members), *([(f"{pieces} pieces as one", "small")] if pieces else [])]

    def _read(self, members: Sequence[str]) -> list[Line]:
        """What the gauge reads, where it is at one of several nodes."""
        if self.gauge not in members or self.point is None:
            return []
        band = self.point.gauge_pressure
        edges = self.reader.edges(band)
        said = [(f"gauge {self.reader.pressure(band)}", "number")]
        return [*said, *([(f"gauge {edges}", "small")] if edges else [])]

    def nodes(self, members: Sequence[str]) -> list[NodeState]:
        """States of nodes."""
        if self.point is None:
            return []
        found = {each.id: each for each in self.point.nodes}
        found.setdefault(SUMP, NodeState(SUMP, SUMP, Band(0.0)))
        return [found[each] for each in members if each in found]

    def name(self, edge: Edge) -> str:
        """An element in one line, for who hears it."""
        return ": ".join(words for words, _ in self.of_edge(edge))

    def heading(self) -> list[Line]:
        """Which point is drawn, and that nothing was found where that is so."""
        if self.point is None:
            return []
        reader, point = self.reader, self.point
        where = f"{reader.speed(point.angular_speed)}, oil {reader.temperature(point.oil_temperature)}"
        lines = [(f"{point.title}: {where}" if point.title else where, "heading")]
        if not point.converged:
            lines.append(("No solution was found at this point: nothing here has a number.", "title"))
        return lines


def _plain(name: str) -> str:
    """A title, or an id that stands for one as words."""
    return name if " " in name else name.replace("_", " ").replace(".", " ")
