"""The bearings of a circuit at its solved points: film, warmth and flow of each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import isfinite
from typing import TYPE_CHECKING

import numpy as np

from fitwright.assess.oil.results import Band, BearingState, FilmState
from fitwright.model import circuit as sheet
from fitwright.physics.bearings.supply import BearingSupply, bearing_supply, load_at_speed
from fitwright.physics.bearings.touching import PredictedFilm, film_over_roughness
from fitwright.physics.network.elements import Bearing
from fitwright.physics.network.sizes import value_of
from fitwright.physics.network.solution import Solution
from fitwright.physics.numerics.errors import NotConvergedError

if TYPE_CHECKING:
    from fitwright.assess.oil.solving import BuildCircuit


@dataclass(frozen=True, slots=True)
class BearingsAt:
    """Tells the bearings at one point of a solution."""

    build: BuildCircuit
    solution: Solution
    at: int

    def states(self) -> Iterator[BearingState]:
        """Each bearing of the circuit, in the order of the sheet."""
        for path in self.build.posed.sheet.paths.values():
            if isinstance(path.element, sheet.Bearing):
                yield self._state(path, path.element)

    def _state(self, path: sheet.OilPath, part: sheet.Bearing) -> BearingState:
        found = self._supply(path)
        pressure = float(self.solution.pressure_at(path.from_node)[0, self.at])
        roughness = self._roughness(part)
        state, thickness = self._film(part, found, roughness)
        return BearingState(
            id=path.id,
            title=path.title,
            group=path.group,
            state=state,
            film_thickness=Band(thickness),
            eccentricity_ratio=None if found is None else found.eccentricity_ratio,
            film_temperature=None if found is None else found.film_temperature,
            friction_power=None if found is None else found.friction_power,
            flow=Band(None if found is None else found.flow * path.count),
            feed_pressure=Band(pressure if isfinite(pressure) else None),
            feed_margin=self._margin(path),
            supplied_share=None if found is None else found.supplied_share,
            starved=found is not None and found.starved,
            roughness=roughness,
        )

    def _supply(self, path: sheet.OilPath) -> BearingSupply | None:
        element = self.build.circuit.path(f"paths.{path.id}").element
        pressure = float(self.solution.pressure_at(path.from_node)[0, self.at])
        if not isinstance(element, Bearing) or not isfinite(pressure):
            return None
        names = self.build.circuit.parameter_names
        values = dict(zip(names, self.solution.parameters[0, self.at], strict=True))
        speed = float(self.solution.angular_speeds[self.at])
        load = load_at_speed(
            value_of(element.load, values),
            growth_with_speed_squared=value_of(element.load_growth, values),
            angular_speed=speed,
        )
        try:
            return bearing_supply(
                element.bearing,
                element.steady_curves,
                self.solution.oil,
                gauge_pressure=pressure,
                supply_temperature=float(self.solution.oil_temperatures[self.at]),
                angular_speed=speed * value_of(element.speed_ratio, values),
                load=load,
                radial_clearance=value_of(element.radial_clearance, values),
            )
        except NotConvergedError:
            return None

    def _roughness(self, part: sheet.Bearing) -> float | None:
        given = part.surface_roughness or self.build.posed.sheet.surface_roughness
        return given.si if given is not None else None

    @staticmethod
    def _film(
        part: sheet.Bearing, found: BearingSupply | None, roughness: float | None
    ) -> tuple[FilmState, float | None]:
        if found is None:
            return FilmState.NOT_CONVERGED, None
        if part.load is None and part.inertia_load is None:
            return FilmState.NO_LOAD, None
        film = film_over_roughness(
            found.minimum_film_thickness, journal_roughness=roughness or 0.0, bearing_roughness=0.0
        )
        if not isinstance(film, PredictedFilm) or not found.inside_curves:
            return FilmState.TOUCHING, None
        return FilmState.FILM, film.thickness

    def _margin(self, path: sheet.OilPath) -> float | None:
        """The least pressure on the way from the main to a big end [Pa]; None for other bearings."""
        for feed in self.build.posed.sheet.paths.values():
            if isinstance(feed.element, sheet.BigEndFeed) and feed.to_node == path.from_node:
                return self._least_on_the_way(feed)
        return None

    def _least_on_the_way(self, feed: sheet.OilPath) -> float | None:
        """Half density times speed squared times the difference of squared radii, from the groove inwards."""
        from fitwright.physics.network.elements import CrankDrilling
        from fitwright.physics.oil.oil import density

        element = self.build.circuit.path(f"paths.{feed.id}").element
        ends = [float(self.solution.pressure_at(node)[0, self.at]) for node in (feed.from_node, feed.to_node)]
        if not isinstance(element, CrankDrilling) or not np.isfinite(ends).all():
            return None
        radii = np.array(element.station_radii)
        oil = float(density(self.solution.oil, float(self.solution.oil_temperatures[self.at])))
        speed = float(self.solution.angular_speeds[self.at])
        spun = 0.5 * oil * speed**2 * (radii**2 - radii[0] ** 2)
        lost = np.linspace(0.0, ends[0] + spun[-1] - ends[1], len(radii))
        return float((ends[0] + spun - lost).min())
