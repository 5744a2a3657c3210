"""Films of mains and big ends over the cycle: the journal's path by mobility, in the film as warm as it is.

Clearance, film temperature and viscosity are those of the solved circuit; the load is that of the crank
train, or of a file. A film thinner than three times the roughness has no number, a path that does not
close neither.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import isfinite
from typing import Final

import numpy as np

from fitwright.assess.oil.crank_train import ANGLES, PosedTrain
from fitwright.assess.oil.film_curves import curves_for, mobility_for
from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.results import CycleFilm, CycleFilms, FilmCourse, FilmState
from fitwright.assess.oil.sizes import KnownSize
from fitwright.assess.oil.solving import BuildCircuit
from fitwright.assess.oil.what_if import WhatIf
from fitwright.model import circuit as sheet
from fitwright.physics.bearings.fed_bearing import FedBearing, FullGroove, film_length_ratio
from fitwright.physics.bearings.orbit import Orbit, orbit
from fitwright.physics.bearings.supply import STARVED_SHARE
from fitwright.physics.bearings.touching import PredictedFilm, film_over_roughness
from fitwright.physics.network.elements import Bearing
from fitwright.physics.network.machines import machines
from fitwright.physics.network.sizes import value_of
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.physics.oil.oil import dynamic_viscosity
from fitwright.physics.train.bearing_loads import speed_of_pin_in_rod
from fitwright.physics.train.load_cycle import LoadCycle, even_loads
from fitwright.quantity import FloatArray, RadiansPerSecond

NO_TRAIN: Final = (
    "The sheet describes no crank train, so that films over the cycle are not worked out: write "
    "[circuit.crank_train] into it, or give a load cycle of one bearing."
)
BELOW_IDLE: Final = (
    "Below idle no gas pressure is stated, so that films over the cycle are not worked out for this speed."
)
STATED: Final = (
    "Loads are those of the crank train with the gas pressure as the sheet states it, not modelled; at part "
    "load it is less."
)
ONE_STATED: Final = "The gas pressure is stated for one speed alone, and taken as it is at every other."
SHARED: Final = (
    "Mains share the loads of the throws as if the crank were cut at each of them; a stiff crank in a stiff "
    "block shares them otherwise."
)
RIGID: Final = (
    "Parts are round, rigid and parallel, the film as warm and as thick as under the steady load of the "
    "sheet, and full of oil wherever pressure forms. What is left out (bending, feed holes and half grooves "
    "under load, warming over the cycle) makes a real film thinner or thicker: compare clearances and oils "
    "by these numbers, and release no engine by them."
)
AS_CRANK: Final = "The sheet describes no crank train: a pin is taken to turn in its rod like the crank."


@dataclass(frozen=True, slots=True)
class CycleAsk:
    """Films over the cycle at one operating point of a build that is ready."""

    build: BuildCircuit
    train: PosedTrain | None
    point: OilPoint
    what_if: WhatIf

    def of_train(self) -> CycleFilms:
        """Of every main and big end under the loads of the crank train."""
        train = self.train
        if train is None or train.problem:
            return self._nothing(NO_TRAIN if train is None else train.problem)
        if self.point.angular_speed < 0.999 * self.build.posed.sheet.idle_speed.si:
            return self._nothing(BELOW_IDLE)
        try:
            loads = train.loads(self.point.angular_speed)
        except PhysicsError as error:
            return self._nothing(f"The loads of the crank train cannot be worked out: {error}.")
        bearings = _Bearings.of(self.build, self.point, self.what_if, train.cycle_angle)
        found = [
            bearings.film(name, loads.main[at], self.point.angular_speed)
            for at, name in enumerate(train.sheet.mains)
        ]
        found.extend(
            _with_cylinder(bearings.film(name, loads.big_end[at], loads.relative_speed[at]), train, at)
            for at, name in enumerate(train.sheet.big_ends)
        )
        single = (ONE_STATED,) if len(train.gas) == 1 else ()
        peak = train.gas_at(self.point.angular_speed).peak_pressure
        return self._told(found, train.cycle_angle, peak, (STATED, *single, SHARED, RIGID))

    def of_file(self, name: str, cycle: LoadCycle) -> CycleFilms:
        """Of one bearing under a load cycle from a file."""
        path = self.build.posed.sheet.paths.get(name)
        if path is None or path.kind is not sheet.PathKind.BEARING:
            known = [each.id for each in self.build.posed.sheet.paths.values() if _is_bearing(each)]
            return self._nothing(f"The circuit has no bearing {name}; it has {', '.join(known)}.")
        try:
            load = even_loads(cycle, ANGLES)
        except PhysicsError as error:
            return self._nothing(f"The load cycle cannot be used: {error}.")
        speed, cautions = self._speed_in(name, cycle.cycle_angle)
        bearings = _Bearings.of(self.build, self.point, self.what_if, cycle.cycle_angle)
        return self._told([bearings.film(name, load, speed)], cycle.cycle_angle, None, (*cautions, RIGID))

    def _speed_in(self, name: str, cycle_angle: float) -> tuple[RadiansPerSecond, tuple[str, ...]]:
        """Speed of a journal in its bearing; for a big end it changes as the rod swings."""
        speed = self.point.angular_speed
        train = self.train if self.train is not None and not self.train.problem else None
        if train is None:
            return speed, (AS_CRANK,) if self.build.posed.sheet.paths[name].group == "big ends" else ()
        if name not in train.sheet.big_ends:
            return speed, ()
        found = speed_of_pin_in_rod(
            train.geometry, angular_speed=speed, count=ANGLES, cycle_angle=cycle_angle
        )
        return found, ()

    def _told(
        self, films: list[CycleFilm], cycle_angle: float, peak: float | None, cautions: tuple[str, ...]
    ) -> CycleFilms:
        warmer = self.point.oil_temperature + self.what_if.temperature_change
        return CycleFilms(
            self.point.title, self.point.angular_speed, warmer, cycle_angle, tuple(films), peak, cautions
        )

    def _nothing(self, problem: str) -> CycleFilms:
        return no_films(self.point, problem)


def middle_words(unmeasured: Sequence[KnownSize]) -> tuple[str, ...]:
    """How many sizes enter without having been measured."""
    if not unmeasured:
        return ()
    count = len(unmeasured)
    which = "One size is" if count == 1 else f"{count} sizes are"
    return (f"{which} not measured: the middle of the limits counts, or what the sheet states.",)


def no_films(point: OilPoint, problem: str) -> CycleFilms:
    """Films of a point at which none can be worked out, and why."""
    return CycleFilms(point.title, point.angular_speed, point.oil_temperature, 0.0, (), None, problem=problem)


@dataclass(frozen=True, slots=True)
class _State:
    """What the circuit says of a bearing: radial clearance [m], viscosity of the film [Pa s], its feed."""

    bearing: FedBearing
    radial_clearance: float
    viscosity: float
    starved: bool
    balanced: bool


@dataclass(frozen=True, slots=True)
class _Bearings:
    """The bearings of a circuit that is solved at one point."""

    build: BuildCircuit
    states: dict[str, _State]
    crank_speed: float
    cycle_angle: float
    misalignment: float

    @classmethod
    def of(cls, build: BuildCircuit, point: OilPoint, what_if: WhatIf, cycle_angle: float) -> _Bearings:
        """Solve the circuit at the point."""
        return cls(
            build,
            dict(_states(build, point, what_if)),
            point.angular_speed,
            cycle_angle,
            what_if.misalignment,
        )

    def film(self, name: str, load: FloatArray, relative_speed: RadiansPerSecond) -> CycleFilm:
        """The film of one bearing under a load over the cycle, shape (n, 2) [N]."""
        path = self.build.posed.sheet.paths[name]
        state = self.states[name]
        found = CycleFilm(
            id=name,
            title=path.title,
            group=path.group,
            state=FilmState.NOT_CONVERGED,
            peak_load=float(np.hypot(load[:, 0], load[:, 1]).max()),
            roughness=self._roughness(path.element),
            starved=state.starved,
        )
        if not state.balanced:
            return _because(found, "the circuit is not solved here")
        try:
            return self._told(found, load, self._path(state, load, relative_speed))
        except PhysicsError as error:
            return _because(found, str(error))

    def _path(self, state: _State, load: FloatArray, relative_speed: RadiansPerSecond) -> Orbit:
        ratio = film_length_ratio(state.bearing)
        return orbit(
            mobility_for(ratio),
            load,
            relative_speed=relative_speed,
            crank_speed=self.crank_speed,
            journal_diameter=state.bearing.journal_diameter,
            radial_clearance=state.radial_clearance,
            dynamic_viscosity=state.viscosity,
            cycle_angle=self.cycle_angle,
            film_count=2 if isinstance(state.bearing.feed, FullGroove) else 1,
            curves=curves_for(ratio),
        )

    def _told(self, found: CycleFilm, load: FloatArray, path: Orbit) -> CycleFilm:
        tilted = 0.5 * self.misalignment
        thickness = path.minimum_film_thickness - tilted
        film = film_over_roughness(thickness, journal_roughness=found.roughness or 0.0, bearing_roughness=0.0)
        if not isinstance(film, PredictedFilm):
            return replace(found, state=FilmState.TOUCHING)
        return replace(
            found,
            state=FilmState.FILM,
            film_thickness=film.thickness,
            film_angle=path.minimum_film_angle,
            peak_pressure=path.peak_film_pressure,
            peak_pressure_angle=path.peak_pressure_angle,
            mean_flow=path.mean_flow,
            power_loss=path.mean_power,
            course=FilmCourse(path.crank_angle, path.film_thickness - tilted, path.eccentricity_ratio, load),
        )

    def _roughness(self, part: object) -> float | None:
        given = getattr(part, "surface_roughness", None) or self.build.posed.sheet.surface_roughness
        return given.si if given is not None else None


def _states(build: BuildCircuit, point: OilPoint, what_if: WhatIf) -> Iterator[tuple[str, _State]]:
    """Every bearing of the circuit, by its id."""
    solution = build.solved([point], what_if)
    bearings = machines(solution).bearings
    values = dict(zip(build.circuit.parameter_names, solution.parameters[0, 0], strict=True))
    for column, name in enumerate(bearings.paths):
        element = build.circuit.path(name).element
        assert isinstance(element, Bearing)  # noqa: S101 - a bearing's state is that of a bearing
        temperature = float(bearings.film_temperature[0, 0, column])
        clearance = value_of(element.radial_clearance, values)
        speed = point.angular_speed * value_of(element.speed_ratio, values)
        shear_rate = 0.5 * speed * element.bearing.journal_diameter / clearance
        balanced = isfinite(temperature) and bool(bearings.heat_balanced[0, 0, column])
        thick = float(dynamic_viscosity(build.oil, temperature, shear_rate)) if balanced else float("nan")
        starved = bool(bearings.supplied_share[0, 0, column] < STARVED_SHARE)
        yield name.removeprefix("paths."), _State(element.bearing, clearance, thick, starved, balanced)


def _is_bearing(path: sheet.OilPath) -> bool:
    return path.kind is sheet.PathKind.BEARING


def _because(film: CycleFilm, why: str) -> CycleFilm:
    return replace(film, why=why)


def _with_cylinder(film: CycleFilm, train: PosedTrain, at: int) -> CycleFilm:
    """A big end knows its cylinder, and how far that is past its firing top where the film is thinnest."""
    if film.film_angle is None:
        return replace(film, cylinder=at + 1)
    after = (film.film_angle - train.places[at].firing_angle) % train.cycle_angle
    return replace(film, cylinder=at + 1, after_firing=after)
