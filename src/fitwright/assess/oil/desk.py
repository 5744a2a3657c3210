"""The oil system of one build: asked again and again, with what-ifs, at the state of one record."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING, Final

import numpy as np

from fitwright.assess.oil.costs import costs_at, faults_at
from fitwright.assess.oil.crank_train import PosedTrain, posed_train
from fitwright.assess.oil.falls import falls_of
from fitwright.assess.oil.filling import Filling, filling_of
from fitwright.assess.oil.findings import findings_of
from fitwright.assess.oil.oils import OilInUse, oil_in_use
from fitwright.assess.oil.orbits import CycleAsk, middle_words, no_films
from fitwright.assess.oil.points import OilPoint, curve_speeds, curve_temperatures, named_points
from fitwright.assess.oil.posed import PosedCircuit, posed_circuit
from fitwright.assess.oil.pumps_at import filling_limit
from fitwright.assess.oil.results import CycleFilms, PointState, Prediction, PressureCurve
from fitwright.assess.oil.sizes import Basis, KnownSize, known_size
from fitwright.assess.oil.sliders import Slider, sliders_of
from fitwright.assess.oil.solving import BuildCircuit, ReadyCircuit
from fitwright.assess.oil.states import Answers, PointEdges, PointTeller, band_of, only_gauge
from fitwright.assess.oil.stops import stop_values
from fitwright.assess.oil.what_if import WhatIf
from fitwright.assess.oil.words import (
    CAUTIONS,
    NOT_MODELLED,
    name_of,
    not_known_words,
    scavenging_words,
    title_of,
)
from fitwright.model.circuit import Circuit
from fitwright.model.sheet import Sheet
from fitwright.physics.network.solution import Solution
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.physics.train.load_cycle import LoadCycle
from fitwright.quantity import FloatArray

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge

NO_CIRCUIT: Final = "The sheet describes no oil circuit: write one into it, and the pressure is predicted."

KEPT: Final = 16
"""Predictions with bands that are kept."""

MOST_CLOSELY: Final = 24
"""With more points than this only the pressure at the gauge has a band at each."""

BANDED_SPEEDS: Final = 3
"""Every so many of a curve's speeds has a band."""


@dataclass(frozen=True, slots=True)
class OilCase:
    """What is known of the oil system of a build at one state of its record; predictions follow from it.

    `before` are sizes as received, where a rework changed them; `problem` says why there is no circuit;
    `train` is the crank train, where the sheet describes one.
    """

    sheet: Sheet
    filling: Filling
    posed: PosedCircuit | None
    before: tuple[KnownSize, ...] = ()
    problem: str = ""
    train: PosedTrain | None = None

    def says_as_much_as(self, other: OilCase) -> bool:
        """Whether the same predictions follow from both."""
        return self._rests_on() == other._rests_on()

    def _rests_on(self) -> tuple[object, ...]:
        sizes = self.posed.sizes if self.posed is not None else {}
        return self.sheet.digest, self.filling.oil, dict(sizes), self.before, self.problem, self.train


def oil_case(judge: Judge, received: Judge | None = None) -> OilCase:
    """Gather it; afterwards neither judge is asked again."""
    filling = filling_of(judge.sheet, judge.build)
    if judge.sheet.circuit is None:
        return OilCase(judge.sheet, filling, None, problem=NO_CIRCUIT)
    try:
        posed = posed_circuit(judge, judge.sheet.circuit)
    except PhysicsError as error:
        return OilCase(judge.sheet, filling, None, problem=f"The circuit cannot be computed: {error}.")
    before = () if received is None else tuple(_changed_since(received, posed))
    problem = "" if posed.circuit is not None else not_known_words(posed.not_known)
    return OilCase(judge.sheet, filling, posed, before, problem, posed_train(judge, judge.sheet.circuit))


def _changed_since(received: Judge, posed: PosedCircuit) -> Iterator[KnownSize]:
    for name, now in posed.sizes.items():
        then = known_size(received, name)
        unsure = max(then.standard_uncertainty, now.standard_uncertainty)
        if then.basis is Basis.MEASURED and abs(then.value - now.value) > unsure:
            yield then


@dataclass(eq=False)
class OilDesk:
    """Predictions of one case, asked again and again; may be asked from several threads."""

    case: OilCase
    _banded: dict[str, Prediction] = field(default_factory=dict)

    @property
    def circuit(self) -> Circuit | None:
        """The circuit as the sheet describes it; None where it describes none."""
        return self.case.sheet.circuit

    @cached_property
    def _ready(self) -> ReadyCircuit:
        assert self.case.posed is not None  # noqa: S101 - asked only where there is a circuit
        return ReadyCircuit(self.case.posed)

    @cached_property
    def sliders(self) -> tuple[Slider, ...]:
        """What may be moved to see what if."""
        return sliders_of(self.case.posed) if self.case.posed is not None else ()

    def best(self, what_if: WhatIf | None = None, also: Sequence[OilPoint] = ()) -> Prediction:
        """The best estimate, without bands; `also` are further points to look at."""
        return self._predicted(what_if or WhatIf(), also, banded=False)

    def glance(
        self, what_if: WhatIf | None = None, also: Sequence[OilPoint] = (), *, row: int = 0
    ) -> Prediction:
        """The best estimate for an answer while a slider moves, with one row of the points looked at.

        The others have only the pressure at the gauge; costs, faults, falls and the filling limit are left.
        """
        return self._predicted(what_if or WhatIf(), also, banded=False, looked_at=row)

    def banded(self, what_if: WhatIf | None = None, also: Sequence[OilPoint] = ()) -> Prediction:
        """The best estimate with its 95 % bands; kept once worked out."""
        asked = what_if or WhatIf()
        key = repr((asked, tuple(also)))
        if key not in self._banded:
            while len(self._banded) >= KEPT:
                self._banded.pop(next(iter(self._banded)), None)
            self._banded[key] = self._predicted(asked, also, banded=True)
        return self._banded[key]

    @property
    def unmeasured(self) -> tuple[KnownSize, ...]:
        """The sizes of the circuit that are not measured."""
        sizes = self.case.posed.sizes.values() if self.case.posed is not None else ()
        return tuple(each for each in sizes if each.basis is not Basis.MEASURED)

    @property
    def engine_name(self) -> str:
        """What the engine may be called: without its name while a critical size is unmeasured."""
        return name_of(self.case.sheet.engine.name, self.unmeasured)

    def films_over_cycle(self, point: OilPoint, what_if: WhatIf | None = None) -> CycleFilms:
        """Films of mains and big ends at a point over the cycle, under the loads of the crank train."""
        return self._over_cycle(point, what_if or WhatIf(), CycleAsk.of_train)

    def films_under(
        self, cycle: LoadCycle, bearing: str, point: OilPoint, what_if: WhatIf | None = None
    ) -> CycleFilms:
        """The film of one bearing (the id of its path) at a point, under a load cycle from elsewhere."""
        return self._over_cycle(point, what_if or WhatIf(), lambda ask: ask.of_file(bearing, cycle))

    def _over_cycle(
        self, point: OilPoint, what_if: WhatIf, asked: Callable[[CycleAsk], CycleFilms]
    ) -> CycleFilms:
        if self.case.problem or self.case.posed is None or self.case.posed.circuit is None:
            return no_films(point, self.case.problem)
        try:
            oil = self._oil(what_if)
            if oil is None:
                return no_films(point, self._no_oil())
            found = asked(CycleAsk(BuildCircuit(self._ready, oil.oil), self.case.train, point, what_if))
            return replace(found, cautions=(*found.cautions, *middle_words(self.unmeasured)))
        except PhysicsError as error:
            return no_films(point, f"The circuit cannot be computed: {error}.")

    def _no_oil(self) -> str:
        return f"{self.case.filling.problem[:1].upper()}{self.case.filling.problem[1:]}."

    def _oil(self, what_if: WhatIf) -> OilInUse | None:
        given = self.case.sheet.oils.get(what_if.oil) if what_if.oil else self.case.filling.oil
        return oil_in_use(given).with_fuel(what_if.fuel_share) if given is not None else None

    def _predicted(
        self, what_if: WhatIf, also: Sequence[OilPoint], *, banded: bool, looked_at: int | None = None
    ) -> Prediction:
        posed, circuit = self.case.posed, self.circuit
        if self.case.problem or posed is None or posed.circuit is None or circuit is None:
            return self._nothing(self.case.problem)
        try:
            oil = self._oil(what_if)
            if oil is None:
                return self._nothing(self._no_oil())
            asked = _Asked.of(circuit, also)
            build = BuildCircuit(self._ready, oil.oil)
            best = _solved(build, asked, what_if)
            if looked_at is not None:
                points = _glanced(build, asked, what_if, best, looked_at)
                return self._told(build, oil, points, _curves(build, asked, what_if, best))
            return self._weighed(build, oil, asked, what_if, best, banded=banded)
        except PhysicsError as error:
            return self._nothing(f"The circuit cannot be computed: {error}.")

    def _nothing(self, problem: str) -> Prediction:
        posed = self.case.posed
        return Prediction(
            title=title_of(self.case.sheet.engine.name, ()),
            oil=None,
            sizes={} if posed is None else posed.sizes,
            unmeasured=(),
            not_known=() if posed is None else posed.not_known,
            curves=(),
            points=(),
            costs=(),
            faults=(),
            stops=(),
            filling_limit=None,
            cautions=CAUTIONS,
            not_modelled=NOT_MODELLED,
            problem=problem,
        )

    def _told(
        self,
        build: BuildCircuit,
        oil: OilInUse,
        points: tuple[PointState, ...],
        curves: tuple[PressureCurve, ...],
    ) -> Prediction:
        unmeasured = self.unmeasured
        return Prediction(
            title=title_of(self.case.sheet.engine.name, unmeasured),
            oil=oil.used,
            sizes=build.posed.sizes,
            unmeasured=unmeasured,
            not_known=(),
            curves=curves,
            points=points,
            costs=(),
            faults=(),
            stops=stop_values(self.case.sheet, points),
            filling_limit=None,
            cautions=(*CAUTIONS, *oil.used.cautions, *scavenging_words(build.posed.scavenging)),
            not_modelled=NOT_MODELLED,
        )

    def _weighed(
        self,
        build: BuildCircuit,
        oil: OilInUse,
        asked: _Asked,
        what_if: WhatIf,
        best: Solution,
        *,
        banded: bool,
    ) -> Prediction:
        """All there is, with what each size and fault costs, and why the pressure falls."""
        edges = _banded_edges(build, asked, what_if) if banded else None
        teller = PointTeller.of(
            build,
            asked.points,
            best,
            asked.curve_count,
            gauge_edges=edges.gauge if edges is not None else None,
            edges=edges.closely if edges is not None else (),
            misalignment=what_if.misalignment,
        )
        points = tuple(_with_findings(build, each, what_if) for each in teller.states())
        curves = _curves(build, asked, what_if, best, edges.curves if edges is not None else None)
        idle = build.solved(asked.points[:1], what_if)
        return replace(
            self._told(build, oil, points, curves),
            filling_limit=filling_limit(best, teller.machines.pumps, asked.hottest),
            costs=costs_at(build, asked.points[0], what_if, idle, self.case.before),
            faults=faults_at(build, asked.points[0], what_if),
            falls=falls_of(build, [asked.curve_points[at] for at in asked.hottest], what_if),
        )


@dataclass(frozen=True, slots=True)
class _Edges:
    """Bands: along the curves (2, points of all curves), at the gauge (points, 2), of all else at points."""

    curves: FloatArray
    gauge: FloatArray
    closely: list[PointEdges]


@dataclass(frozen=True, slots=True)
class _Asked:
    """The points of all curves, one after the other, and after them the named ones."""

    temperatures: tuple[float, ...]
    speeds: FloatArray
    points: tuple[OilPoint, ...]

    @classmethod
    def of(cls, circuit: Circuit, also: Sequence[OilPoint]) -> _Asked:
        return cls(curve_temperatures(circuit), curve_speeds(circuit), (*named_points(circuit), *also))

    @property
    def curve_points(self) -> list[OilPoint]:
        return [OilPoint("", float(speed), each) for each in self.temperatures for speed in self.speeds]

    @property
    def hottest(self) -> range:
        """The points of the curve of the hottest oil."""
        return range((len(self.temperatures) - 1) * len(self.speeds), self.curve_count)

    @property
    def curve_count(self) -> int:
        return len(self.temperatures) * len(self.speeds)


def _solved(build: BuildCircuit, asked: _Asked, what_if: WhatIf) -> Solution:
    return build.solved([*asked.curve_points, *asked.points], what_if)


def _glanced(
    build: BuildCircuit, asked: _Asked, what_if: WhatIf, best: Solution, row: int
) -> tuple[PointState, ...]:
    """One point whole, of the others the pressure at the gauge."""
    here = best.of_points([asked.curve_count + row])
    teller = PointTeller.of(build, asked.points[row : row + 1], here, 0, misalignment=what_if.misalignment)
    looked = [_with_findings(build, each, what_if) for each in teller.states()]
    points = list(only_gauge(build, asked.points, best, asked.curve_count))
    return (*points[:row], *looked, *points[row + 1 :])


def _banded_edges(build: BuildCircuit, asked: _Asked, what_if: WhatIf) -> _Edges:
    """Bands of some speeds of each curve, even between them, and of all points; all solved together."""
    every = len(asked.speeds)
    rows = sorted({*range(0, every, BANDED_SPEEDS), every - 1})
    on_curves = [OilPoint("", float(asked.speeds[row]), each) for each in asked.temperatures for row in rows]
    points = [*on_curves, *asked.points]
    solution, strata = build.sampled(points, what_if, build.solved(points, what_if))
    pressures = solution.pressure_at(build.posed.sheet.gauge)
    found = np.array([each.edges(pressures[:, at]) for at, each in enumerate(strata)])
    curves = found[: len(on_curves)].reshape(len(asked.temperatures), len(rows), 2)
    even = [
        [np.interp(asked.speeds, asked.speeds[rows], curve[:, side]) for curve in curves] for side in (0, 1)
    ]
    answers = Answers.of(solution)
    closely = range(len(on_curves), len(points)) if len(asked.points) <= MOST_CLOSELY else ()
    return _Edges(
        np.array(even).reshape(2, -1),
        found[len(on_curves) :],
        [PointEdges.of(build, answers, strata[at], at) for at in closely],
    )


def _curves(
    build: BuildCircuit, asked: _Asked, what_if: WhatIf, best: Solution, edges: FloatArray | None = None
) -> tuple[PressureCurve, ...]:
    pressures = best.pressure_at(build.posed.sheet.gauge)[0]
    found = []
    for row, temperature in enumerate(asked.temperatures):
        places = range(row * len(asked.speeds), (row + 1) * len(asked.speeds))
        bands = tuple(band_of(pressures[at], None if edges is None else edges[:, at]) for at in places)
        speeds = tuple(float(each) for each in asked.speeds)
        found.append(PressureCurve(temperature + what_if.temperature_change, speeds, bands))
    return tuple(found)


def _with_findings(build: BuildCircuit, point: PointState, what_if: WhatIf) -> PointState:
    return replace(point, findings=findings_of(build, point, what_if)) if point.converged else point
