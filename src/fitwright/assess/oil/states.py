"""Everything at the named operating points, told from solutions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import isfinite
from typing import TYPE_CHECKING

import numpy as np

from fitwright.assess.oil.bands import Strata, edges_on_pool
from fitwright.assess.oil.bearings_at import BearingsAt
from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.pumps_at import pump_states
from fitwright.assess.oil.results import Band, BearingState, GroupFlow, NodeState, PathState, PointState
from fitwright.assess.oil.titles import node_title
from fitwright.physics.network.elements import Jet, Relief
from fitwright.physics.network.machines import Machines, machines
from fitwright.physics.network.outputs import BigEndFeeds, FlowBudget, big_end_feeds, flow_budget
from fitwright.physics.network.sizes import value_of
from fitwright.physics.network.solution import Solution
from fitwright.quantity import FloatArray

if TYPE_CHECKING:
    from fitwright.assess.oil.solving import BuildCircuit

HARDLY_OPEN = 1e-9
"""A relief valve that lets less than this by is told as shut [m3/s]."""


@dataclass(frozen=True, slots=True)
class PointTeller:
    """Tells the points of a solution that stand from `first` on.

    `gauge_edges` holds the band of the pressure at the gauge of each, shape (points, 2); `edges` the
    bands of all that is at a point, for each or for none.
    """

    build: BuildCircuit
    points: Sequence[OilPoint]
    solution: Solution
    first: int
    machines: Machines
    flows: FlowBudget
    feeds: BigEndFeeds
    gauge_edges: FloatArray | None = None
    edges: Sequence[PointEdges] = ()
    misalignment: float = 0.0

    @classmethod
    def of(
        cls,
        build: BuildCircuit,
        points: Sequence[OilPoint],
        solution: Solution,
        first: int,
        *,
        gauge_edges: FloatArray | None = None,
        edges: Sequence[PointEdges] = (),
        misalignment: float = 0.0,
    ) -> PointTeller:
        """From a solution alone: what its machines do is worked out."""
        states = machines(solution)
        flows, feeds = flow_budget(solution, states=states), big_end_feeds(solution)
        return cls(build, points, solution, first, states, flows, feeds, gauge_edges, edges, misalignment)

    def states(self) -> Iterator[PointState]:
        """Each point."""
        for row, point in enumerate(self.points):
            yield self._state(row, point)

    def _state(self, row: int, point: OilPoint) -> PointState:
        at = self.first + row
        nodes = tuple(self._nodes(row))
        paths = tuple(self._paths(row))
        gauge = next(each for each in nodes if each.is_gauge)
        pumps = tuple(pump_states(self.build, self.solution, self.machines.pumps, at))
        return PointState(
            title=point.title,
            angular_speed=point.angular_speed,
            oil_temperature=float(self.solution.oil_temperatures[at]),
            converged=bool(self.solution.converged[0, at]),
            gauge_pressure=gauge.gauge_pressure,
            nodes=nodes,
            paths=paths,
            budget=tuple(self._budget(row)),
            bearings=tuple(self._bearings(row)),
            pumps=pumps,
        )

    def _budget(self, row: int) -> Iterator[GroupFlow]:
        """What leaves to the sump, or by the relief valve to the pump, and its share of all that leaves."""
        flows = self.flows.flow[0, self.first + row]
        delivered = float(flows.sum())
        for column, group in enumerate(self.flows.groups):
            flow, known = float(flows[column]), isfinite(delivered) and delivered > 0.0
            band = band_of(flow, self.edges[row].budget[:, column] if self.edges else None)
            yield GroupFlow(group, band, flow / delivered if known else None)

    def _nodes(self, row: int) -> Iterator[NodeState]:
        pressures = self.solution.gauge_pressure[0, self.first + row]
        for column, node in enumerate(self.build.circuit.nodes):
            is_gauge = node == self.build.posed.sheet.gauge
            band = self._band(row, column, pressures[column])
            if is_gauge and self.gauge_edges is not None:
                band = band_of(float(pressures[column]), self.gauge_edges[row])
            yield NodeState(node, node_title(node), band, is_gauge)

    def _paths(self, row: int) -> Iterator[PathState]:
        circuit, at = self.build.posed.sheet, self.first + row
        flows = self.solution.flow[0, at]
        told = {f"pumps.{one.id}": (one.title, one.kind.value, 1) for one in circuit.pumps.values()}
        told |= {f"reliefs.{one.id}": (one.title, "relief valve", 1) for one in circuit.reliefs.values()}
        told |= {f"paths.{one.id}": (one.title, one.kind.value, one.count) for one in circuit.paths.values()}
        for column, path in enumerate(self.build.circuit.paths):
            title, kind, count = told[path.name]
            yield PathState(
                id=path.name,
                title=title,
                kind=kind,
                group=path.group,
                from_node=path.upstream,
                to_node=path.downstream,
                count=count,
                flow=self._band(row, len(self.build.circuit.nodes) + column, flows[column]),
                shut=self._is_shut(at, column),
            )

    def _is_shut(self, at: int, column: int) -> bool:
        path = self.build.circuit.paths[column]
        if isinstance(path.element, Relief):
            return bool(self.solution.flow[0, at, column] < HARDLY_OPEN)
        if not isinstance(path.element, Jet):
            return False
        values = dict(zip(self.build.circuit.parameter_names, self.solution.parameters[0, at], strict=True))
        drop = self.solution.pressure_at(path.upstream) - self.solution.pressure_at(path.downstream)
        return bool(drop[0, at] <= value_of(path.element.opening_pressure, values))

    def _bearings(self, row: int) -> Iterator[BearingState]:
        edges = self.edges[row].films if self.edges else None
        bearings = self.machines.bearings
        yield from BearingsAt(
            self.build, self.solution, bearings, self.feeds, self.first + row, edges, self.misalignment
        ).told()

    def _band(self, row: int, column: int, best: float) -> Band:
        return band_of(float(best), self.edges[row].answers[:, column] if self.edges else None)


def only_gauge(
    build: BuildCircuit, points: Sequence[OilPoint], solution: Solution, first: int
) -> Iterator[PointState]:
    """Of each point, standing from `first` on in a solution, the pressure at the gauge and nothing else."""
    pressures = solution.pressure_at(build.posed.sheet.gauge)[0]
    for at, point in enumerate(points, first):
        yield PointState(
            title=point.title,
            angular_speed=point.angular_speed,
            oil_temperature=float(solution.oil_temperatures[at]),
            converged=bool(solution.converged[0, at]),
            gauge_pressure=band_of(float(pressures[at])),
            nodes=(),
            paths=(),
            budget=(),
            bearings=(),
            pumps=(),
        )


def band_of(best: float, edges: FloatArray | None = None) -> Band:
    """A band without numbers that are none."""
    if not isfinite(best):
        return Band(None)
    if edges is None or not np.isfinite(edges).all():
        return Band(best)
    return Band(best, float(min(edges[0], best)), float(max(edges[1], best)))


@dataclass(frozen=True, slots=True)
class Answers:
    """All that is banded closely, sample by sample.

    Attributes
    ----------
    solution : Solution
        Of all samples at all points.
    budget : ndarray [m3/s], shape (s, p, groups)
        What each group takes.
    films : ndarray [m], shape (s, p, bearings)
        Film thicknesses.
    """

    solution: Solution
    budget: FloatArray
    films: FloatArray

    @classmethod
    def of(cls, solution: Solution) -> Answers:
        """From a solution of samples."""
        states = machines(solution)
        budget = flow_budget(solution, states=states)
        return cls(solution, budget.flow, states.bearings.minimum_film_thickness)


@dataclass(frozen=True, slots=True)
class PointEdges:
    """Bands at one point.

    Attributes
    ----------
    answers : ndarray, shape (2, nodes + paths)
        Of all node pressures [Pa] and path flows [m3/s].
    budget : ndarray, shape (2, groups)
        Of what each group takes [m3/s].
    films : ndarray, shape (2, bearings)
        Of all film thicknesses [m].
    """

    answers: FloatArray
    budget: FloatArray
    films: FloatArray

    @classmethod
    def of(cls, build: BuildCircuit, answers: Answers, strata: Strata, at: int) -> PointEdges:
        """From the answers at the point `at` for the engines of its strata."""
        solution = answers.solution
        parts = (
            solution.gauge_pressure[:, at],
            solution.flow[:, at],
            answers.budget[:, at],
            answers.films[:, at],
        )
        pool = build.pool.at(float(solution.oil_temperatures[at]))
        found = edges_on_pool(pool, strata, np.concatenate(parts, axis=1))
        ends = np.cumsum([each.shape[1] for each in parts])
        return cls(found[:, : ends[1]], found[:, ends[1] : ends[2]], found[:, ends[2] :])
