"""A path of the sheet's circuit as an element of its computation.

What a sheet leaves out counts as usual: a sharp edge, a smooth wall, one velocity head lost where a
passage ends, sharp-edged holes.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import singledispatchmethod
from math import isclose, pi, radians, sqrt
from typing import Final

from fitwright.assess.oil.film_curves import curves_for
from fitwright.assess.oil.parameters import Parameters
from fitwright.model import circuit as sheet
from fitwright.model.amount import Written
from fitwright.physics.bearings.fed_bearing import (
    FedBearing,
    Feed,
    FeedHole,
    FullGroove,
    PartialGroove,
    film_length_ratio,
)
from fitwright.physics.network import elements
from fitwright.physics.network.sizes import Size
from fitwright.physics.passages.edges import entrance_loss_coefficient, mitre_loss_coefficient

END_LOSS: Final = 1.0
"""Where a passage ends its velocity head is lost."""

SHARP_HOLE: Final = 0.62
"""Discharge coefficient of a sharp-edged hole."""

JET_HOLE: Final = 0.8
"""Discharge coefficient of a jet: a short tube with a good edge."""

OPENING_RANGE: Final = 1.25
"""A valve whose full opening is not stated is fully open at this many times its opening pressure."""

RATED_DENSITY: Final = 860.0
"""Density taken for the kinematic viscosity at which a filter or cooler is rated [kg/m3]."""

LIGHT_LOAD: Final = 0.3e6
"""Load over projected area of a bearing for which no load is stated [Pa]."""

USUAL_GROOVE: Final = 0.2
"""Width of a groove over the length of its bearing, where the sheet leaves it out."""


@dataclass(frozen=True, slots=True)
class PathElements:
    """Makes the elements of one circuit, and collects the parameters that they follow."""

    parameters: Parameters
    circuit: sheet.Circuit

    def element(self, path: sheet.OilPath) -> elements.Element:
        """The element of one path."""
        return self._of(path.element, path)

    def _size(self, path: sheet.OilPath, name: str, *, scale: float = 1.0) -> Size | None:
        return self.parameters.of(f"paths.{path.id}", path.element, name, scale=scale)

    def _given(self, path: sheet.OilPath, name: str, *, scale: float = 1.0) -> Size:
        """A size that every sheet gives."""
        found = self._size(path, name, scale=scale)
        if found is None:
            raise ValueError(f"path {path.id}: no {name}")
        return found

    def _number(self, path: sheet.OilPath, name: str, usual: float = 0.0) -> float:
        return self.parameters.number(path.element, name, usual)

    def _edge(self, path: sheet.OilPath) -> float:
        """Loss at the edge where oil enters, in velocity heads."""
        ratio = self._number(path, "edge_radius") / self._number(path, "diameter")
        return float(entrance_loss_coefficient(min(ratio, 1.0)))

    @singledispatchmethod
    def _of(self, part: object, path: sheet.OilPath) -> elements.Element:
        raise TypeError(f"path {path.id}: no law for {type(part).__name__}")

    @_of.register
    def _(self, part: sheet.Passage, path: sheet.OilPath) -> elements.Element:
        return elements.Pipe(
            self._given(path, "diameter"),
            self._given(path, "length"),
            roughness=_si(part.roughness),
            loss_coefficient=self._ends(part, path) + (part.loss_coefficient or 0.0),
            count=float(path.count),
        )

    def _ends(self, part: sheet.Passage, path: sheet.OilPath) -> float:
        """Loss at both ends; none where a passage of one bore goes on, as between pieces of a gallery."""
        begins = part.edge_radius is not None or not self._goes_on(path, path.from_node, at_end=True)
        ends = not self._goes_on(path, path.to_node, at_end=False)
        return begins * self._edge(path) + ends * END_LOSS

    def _goes_on(self, path: sheet.OilPath, node: str, *, at_end: bool) -> bool:
        """Whether another passage of the same bore ends (or begins) at a node."""
        bore = self._number(path, "diameter")
        return any(
            (other.to_node if at_end else other.from_node) == node
            and isclose(self.parameters.number(other.element, "diameter", 0.0), bore)
            for other in self.circuit.paths.values()
            if isinstance(other.element, sheet.Passage) and other is not path
        )

    @_of.register
    def _(self, part: sheet.Intersection, path: sheet.OilPath) -> elements.Element:
        angle = part.angle.si if part.angle is not None else radians(90.0)
        turn = float(mitre_loss_coefficient(angle))
        rounded = self._edge(path) / float(entrance_loss_coefficient(0.0))
        return elements.DrilledIntersection(
            self._given(path, "diameter"), loss_coefficient=turn * rounded, count=float(path.count)
        )

    @_of.register
    def _(self, part: sheet.Restrictor, path: sheet.OilPath) -> elements.Element:
        length = self._size(path, "length")
        if part.discharge_coefficient is None and length is not None:
            loss = self._edge(path) + END_LOSS
            return elements.Restrictor(self._given(path, "diameter"), length, loss, float(path.count))
        coefficient = SHARP_HOLE if part.discharge_coefficient is None else part.discharge_coefficient
        return elements.Orifice(self._given(path, "diameter"), coefficient, float(path.count))

    @_of.register
    def _(self, part: sheet.Strainer, path: sheet.OilPath) -> elements.Element:
        diameter = sqrt(4.0 / pi * self._number(path, "open_area"))
        coefficient = SHARP_HOLE if part.discharge_coefficient is None else part.discharge_coefficient
        return elements.Orifice(diameter, coefficient, float(path.count))

    @_of.register
    def _(self, part: sheet.Filter, path: sheet.OilPath) -> elements.Element:
        opening = self._size(path, "bypass_opening_pressure")
        bypass = self._size(path, "bypass_diameter", scale=sqrt(path.count))
        one = _resistance(part.rated_pressure_drop, part.rated_flow, part.rated_viscosity)
        resistance = one / path.count
        if opening is None or bypass is None:
            return elements.Filter(resistance)
        return elements.Filter(resistance, opening, self._full(path, "bypass_"), bypass)

    @_of.register
    def _(self, part: sheet.Cooler, path: sheet.OilPath) -> elements.Element:
        diameter, length = self._number(path, "tube_diameter"), self._number(path, "tube_length")
        return elements.Cooler(
            128.0 * length / (pi * diameter**4 * part.tube_count * path.count),  # laminar, all tubes abreast
            self._given(path, "bypass_diameter", scale=sqrt(path.count)),
            part.opening_temperature.si,
            part.full_temperature.si,
        )

    @_of.register
    def _(self, part: sheet.Jet, path: sheet.OilPath) -> elements.Element:
        coefficient = JET_HOLE if part.discharge_coefficient is None else part.discharge_coefficient
        opening = self._size(path, "opening_pressure")
        diameter, count = self._given(path, "diameter"), float(path.count)
        if opening is None:
            return elements.Orifice(diameter, coefficient, count)
        return elements.Jet(diameter, opening, self._full(path), coefficient, count)

    @_of.register
    def _(self, part: sheet.Bearing, path: sheet.OilPath) -> elements.Element:
        diameter, length = self._number(path, "journal_diameter"), self._number(path, "length")
        angle = part.feed_angle.si if part.feed_angle is not None else 0.0
        bearing = FedBearing(diameter, length, self._feed(part, path, length), angle)
        load, by_speed = _load(part, diameter * length)
        return elements.Bearing(
            bearing,
            curves_for(film_length_ratio(bearing)),
            self._given(path, "diametral_clearance", scale=0.5),
            load,
            by_speed,
            part.speed_ratio,
            float(path.count),
        )

    def _feed(self, part: sheet.Bearing, path: sheet.OilPath, length: float) -> Feed:
        width = self._number(path, "groove_width", USUAL_GROOVE * length)
        if part.feed is sheet.BearingFeed.FULL_GROOVE:
            return FullGroove(width)
        if part.feed is sheet.BearingFeed.HOLE:
            return FeedHole(self._number(path, "hole_diameter", USUAL_GROOVE * length))
        arc = part.groove_arc.si if part.groove_arc is not None else pi
        return PartialGroove(width, arc)

    @_of.register
    def _(self, part: sheet.BigEndFeed, path: sheet.OilPath) -> elements.Element:
        inlet, outlet = self._number(path, "inlet_radius"), self._number(path, "outlet_radius")
        inner = self._number(path, "innermost_radius", inlet)
        stations = (inlet, inner, outlet) if inner < min(inlet, outlet) else (inlet, outlet)
        return elements.CrankDrilling(
            self._given(path, "diameter"),
            self._given(path, "length"),
            stations,
            roughness=_si(part.roughness),
            entry_loss_coefficient=self._edge(path),
            loss_coefficient=END_LOSS + (part.loss_coefficient or 0.0),
            fed_share=part.feed_arc.si / (2.0 * pi) if part.feed_arc is not None else 1.0,
            count=float(path.count),
        )

    @_of.register
    def _(self, part: sheet.AnnularLeak, path: sheet.OilPath) -> elements.Element:
        leak = elements.AnnularLeak(
            self._given(path, "diameter"),
            self._given(path, "diametral_clearance", scale=0.5),
            self._given(path, "length"),
            part.eccentricity_ratio or 0.0,
            float(path.count * part.lands),
        )
        feed = self._size(path, "feed_diameter")
        if feed is None:
            return leak
        return elements.Series((elements.Orifice(feed, SHARP_HOLE, float(path.count)), leak))

    @_of.register
    def _(self, part: sheet.Slot, path: sheet.OilPath) -> elements.Element:
        del part
        gap, width, length = (self._given(path, name) for name in ("clearance", "width", "length"))
        return elements.SlotLeak(gap, width, length, float(path.count))

    @_of.register
    def _(self, part: sheet.Tensioner, path: sheet.OilPath) -> elements.Element:
        del part
        return elements.ChainTensioner(
            self._given(path, "diameter"),
            self._given(path, "diametral_clearance", scale=0.5),
            self._given(path, "length", scale=1.0 / path.count),  # so many lands side by side
            vent_diameter=self._size(path, "bleed_diameter", scale=sqrt(path.count)) or 0.0,
        )

    @_of.register
    def _(self, part: sheet.TurbochargerFeed, path: sheet.OilPath) -> elements.Element:
        return elements.TurbochargerFeed(
            self._given(path, "line_diameter"),
            self._given(path, "line_length"),
            self._size(path, "restrictor_diameter"),
            self._bushes(part, path),
            count=float(path.count),
        )

    def _bushes(self, part: sheet.TurbochargerFeed, path: sheet.OilPath) -> float | None:
        """Resistance of the lands of a turbocharger's bushes, where the sheet describes them [1/m3]."""
        if part.bush_clearance is None or part.bush_diameter is None or part.bush_length is None:
            return None
        gap = 0.5 * self._number(path, "bush_clearance")
        length, diameter = self._number(path, "bush_length"), self._number(path, "bush_diameter")
        return 12.0 * length / (pi * diameter * gap**3 * (part.bush_count or 1))

    def _full(self, path: sheet.OilPath, prefix: str = "") -> Size:
        """The pressure at which a valve is fully open."""
        full = self._size(path, f"{prefix}full_pressure")
        if full is not None:
            return full
        return self._given(path, f"{prefix}opening_pressure", scale=OPENING_RANGE)


def _si(written: Written | None) -> float:
    return written.si if written is not None else 0.0


def _resistance(drop: Written, flow: Written, viscosity: Written) -> float:
    """Pressure drop over dynamic viscosity and flow [1/m3]."""
    return drop.si / (viscosity.si * RATED_DENSITY * flow.si)


def _load(part: sheet.Bearing, projected_area: float) -> tuple[float, float]:
    """The load at every speed [N], and what grows with the square of the crank's [N s2/rad2]."""
    if part.load is None and part.inertia_load is None:
        return LIGHT_LOAD * projected_area, 0.0
    by_speed = 0.0
    if part.inertia_load is not None and part.inertia_load_speed is not None:
        by_speed = part.inertia_load.si / part.inertia_load_speed.si**2
    return _si(part.load), by_speed
