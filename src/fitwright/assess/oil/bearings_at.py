"""The bearings of a circuit at its solved points: film, warmth and flow of each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite
from typing import TYPE_CHECKING

from fitwright.assess.oil.results import Band, BearingState, FilmState
from fitwright.model import circuit as sheet
from fitwright.physics.bearings.supply import STARVED_SHARE
from fitwright.physics.bearings.touching import LEAST_FILM_PARAMETER, PredictedFilm, film_over_roughness
from fitwright.physics.network.machines import BearingStates
from fitwright.physics.network.outputs import BigEndFeeds
from fitwright.physics.network.solution import Solution
from fitwright.quantity import FloatArray

if TYPE_CHECKING:
    from fitwright.assess.oil.solving import BuildCircuit


@dataclass(frozen=True, slots=True)
class BearingsAt:
    """Tells the bearings at one point of a solution.

    `edges` holds the band of each one's film thickness, shape (2, bearings); None without bands.
    `misalignment` is how far each journal is tilted from end to end [m].
    """

    build: BuildCircuit
    solution: Solution
    states: BearingStates
    feeds: BigEndFeeds
    at: int
    edges: FloatArray | None = None
    misalignment: float = 0.0

    def told(self) -> Iterator[BearingState]:
        """Each bearing of the circuit, in the order of the sheet."""
        for path in self.build.posed.sheet.paths.values():
            if isinstance(path.element, sheet.Bearing):
                yield self._told(path, path.element, self.states.paths.index(f"paths.{path.id}"))

    def _told(self, path: sheet.OilPath, part: sheet.Bearing, column: int) -> BearingState:
        balanced = bool(self.states.heat_balanced[0, self.at, column])
        share = self._value(self.states.supplied_share, column) if balanced else None
        roughness = self._roughness(part)
        state, thickness = self._film(part, column, roughness)
        flow = self._value(self.states.flow, column)
        return BearingState(
            id=path.id,
            title=path.title,
            group=path.group,
            state=state,
            film_thickness=self._film_band(thickness, column, roughness),
            eccentricity_ratio=self._value(self.states.eccentricity_ratio, column),
            film_temperature=self._value(self.states.film_temperature, column),
            friction_power=self._value(self.states.friction_power, column),
            flow=Band(None if flow is None else flow * path.count),
            feed_pressure=Band(_finite(self.solution.pressure_at(path.from_node)[0, self.at])),
            feed_margin=self._margin(path),
            supplied_share=share,
            starved=share is not None and share < STARVED_SHARE,
            roughness=roughness,
        )

    def _value(self, states: FloatArray, column: int) -> float | None:
        return _finite(states[0, self.at, column])

    def _film_band(self, thickness: float | None, column: int, roughness: float | None) -> Band:
        """A lower edge at which the surfaces would touch has no number."""
        if thickness is None or self.edges is None:
            return Band(thickness)
        low, high = (_finite(each - 0.5 * self.misalignment) for each in self.edges[:, column])
        touching = low is not None and low < LEAST_FILM_PARAMETER * (roughness or 0.0)
        return Band(thickness, None if touching else low, high)

    def _roughness(self, part: sheet.Bearing) -> float | None:
        given = part.surface_roughness or self.build.posed.sheet.surface_roughness
        return given.si if given is not None else None

    def _film(
        self, part: sheet.Bearing, column: int, roughness: float | None
    ) -> tuple[FilmState, float | None]:
        thickness = self._value(self.states.minimum_film_thickness, column)
        if thickness is None or not self.states.heat_balanced[0, self.at, column]:
            return FilmState.NOT_CONVERGED, None
        if part.load is None and part.inertia_load is None:
            return FilmState.NO_LOAD, None
        thickness -= 0.5 * self.misalignment
        if thickness <= 0.0:
            return FilmState.TOUCHING, None
        film = film_over_roughness(thickness, journal_roughness=roughness or 0.0, bearing_roughness=0.0)
        if not isinstance(film, PredictedFilm) or not self.states.inside_curves[0, self.at, column]:
            return FilmState.TOUCHING, None
        return FilmState.FILM, film.thickness

    def _margin(self, path: sheet.OilPath) -> float | None:
        """The least pressure on the way from the main to a big end [Pa]; None for other bearings."""
        for column, name in enumerate(self.feeds.paths):
            if self.build.circuit.path(name).downstream == path.from_node:
                return _finite(self.feeds.lowest_gauge_pressure[0, self.at, column])
        return None


def _finite(value: float) -> float | None:
    return float(value) if isfinite(value) else None
