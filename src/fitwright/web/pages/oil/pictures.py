"""The pictures of the page, each for wide and for narrow screens: the same drawings as in print."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

from markupsafe import Markup

from fitwright.assess.oil.results import PointState, Prediction, StopValue
from fitwright.drawing.canvas import Picture
from fitwright.drawing.charts.costs import costs
from fitwright.drawing.charts.film import films
from fitwright.drawing.charts.flow_budget import flow_budget, taken_at
from fitwright.drawing.charts.pressure_speed import pressure_speed
from fitwright.drawing.charts.shown import Selected, StartReading
from fitwright.drawing.oil_circuit import circuit_drawing
from fitwright.model.circuit import Circuit
from fitwright.units.families import Family

PHONE: Final = 350.0
PAGE: Final = 780.0
BROAD: Final = 1130.0
"""Widths in units of 1 px."""

MOST_COSTS: Final = 12

SAME: Final = 0.05
"""Oil temperatures that differ by less are one [K]."""


_NONE: Final = Markup()


@dataclass(frozen=True, slots=True)
class Pictures:
    """A picture for wide screens and the same for narrow ones; only one of them is shown."""

    wide: Markup
    narrow: Markup
    broad: Markup = _NONE


def pressure_pictures(
    curves: Prediction,
    point: PointState,
    family: Family,
    *,
    what_if: Prediction | None = None,
    solid: str,
    stops: Sequence[StopValue] = (),
    readings: Sequence[StartReading] = (),
) -> Pictures:
    """Pressure over speed for each oil temperature; what is changed stands dashed over it."""
    drawn = any(abs(each.oil_temperature - point.oil_temperature) < SAME for each in curves.curves)
    selected = Selected(point.angular_speed, point.oil_temperature) if drawn else None

    def draw(width: float) -> Picture:
        return pressure_speed(
            curves.curves,
            family=family,
            width=width,
            stops=stops,
            selected=selected,
            what_if=what_if.curves if what_if is not None else (),
            solid=solid,
            readings=readings,
        )

    return _both(draw)


def circuit_pictures(
    circuit: Circuit, point: PointState, family: Family, hrefs: Mapping[str, str]
) -> Pictures:
    """The circuit with the pressures and flows of one point."""
    point = _as_drawn(point)

    def draw(width: float) -> Picture:
        return circuit_drawing(circuit, point, family=family, width=width, hrefs=hrefs)

    return Pictures(_shown(draw(PAGE)), _shown(draw(PHONE)), _shown(draw(BROAD)))


def budget_pictures(point: PointState, family: Family) -> Pictures:
    """Where the oil goes."""
    return _both(lambda width: flow_budget(taken_at(point), family=family, width=width))


def film_pictures(point: PointState, family: Family) -> Pictures:
    """The films of the bearings."""
    return _both(lambda width: films(point.bearings, family=family, width=width))


def cost_pictures(found: Prediction, family: Family) -> Pictures:
    """What each size costs of the pressure."""
    return _both(lambda width: costs(found.costs, family=family, width=width, most=MOST_COSTS))


def fault_pictures(found: Prediction, family: Family) -> Pictures:
    """What each fault would cost."""
    return _both(lambda width: costs(found.faults, family=family, width=width, most=MOST_COSTS))


def _as_drawn(point: PointState) -> PointState:
    """The same with its paths under the ids that the sheet gives them, as the drawing knows them."""
    paths = tuple(replace(each, id=each.id.partition(".")[2]) for each in point.paths)
    return replace(point, paths=paths)


def _both(draw: Callable[[float], Picture]) -> Pictures:
    return Pictures(_shown(draw(PAGE)), _shown(draw(PHONE)))


def _shown(picture: Picture) -> Markup:
    return Markup(picture.svg)  # noqa: S704  (our own drawing, all text in it escaped)
