"""Sizes that somebody states: a drawing, a box label, a certificate."""

from __future__ import annotations

from math import sqrt

from fitwright.assess.gauges import place_key
from fitwright.model.dimension import Dimension
from fitwright.physics.metrology.readings import ValueReading
from fitwright.physics.metrology.unknowns import Shared, Unknown
from fitwright.records.projection import StatedSizeRecord

_UNIFORM = sqrt(3.0)


def stated_reading(stated: StatedSizeRecord, dimension: Dimension, place: str) -> ValueReading:
    """A stated size as metrology sees it: its tolerance taken as uniform.

    One label speaks for all places at once, so its error is shared by them.
    """
    size, tolerance = stated.body.size, stated.body.tolerance
    half_width = abs(tolerance.si if tolerance is not None else size.si * 1e-3)
    unknown = Unknown(f"stated:{stated.entry.id}", half_width / _UNIFORM)
    tiny = max(half_width * 1e-6, 1e-12)
    return ValueReading(
        key=f"{stated.entry.id}:{place}",
        place=place_key(dimension, place),
        value=size.si,
        repeatability=tiny,
        shared=(Shared(unknown, 1.0),),
    )
