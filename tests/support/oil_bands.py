"""Bands in no time, for tests of pages: the best estimate of the desk with a band put round it.

The bands themselves are tested where they are made (tests/assess); a page only shows them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from fitwright.assess.oil.desk import OilDesk
from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.results import Band, PointState, Prediction
from fitwright.assess.oil.what_if import WhatIf

LOW, HIGH = 0.93, 1.06


def banded_at_once(desk: OilDesk, what_if: WhatIf | None = None, also: Sequence[OilPoint] = ()) -> Prediction:
    """In place of `OilDesk.banded`."""
    found = desk.best(what_if, also)
    return replace(
        found,
        curves=tuple(
            replace(each, gauge_pressure=tuple(map(_band, each.gauge_pressure))) for each in found.curves
        ),
        points=tuple(map(_point, found.points)),
    )


def _band(band: Band) -> Band:
    return band if band.best is None else Band(band.best, LOW * band.best, HIGH * band.best)


def _point(point: PointState) -> PointState:
    return replace(
        point,
        gauge_pressure=_band(point.gauge_pressure),
        nodes=tuple(replace(each, gauge_pressure=_band(each.gauge_pressure)) for each in point.nodes),
        paths=tuple(replace(each, flow=_band(each.flow)) for each in point.paths),
        bearings=tuple(replace(each, film_thickness=_band(each.film_thickness)) for each in point.bearings),
    )
