"""What the tables say of a bearing of one length ratio: its steady curves, and its mobility."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from fitwright.data.bearing_tables import bearing_tables
from fitwright.physics.bearings.curves import SteadyCurves, short_bearing_curves
from fitwright.physics.bearings.mobility import MobilityMap, short_bearing_map


@lru_cache(maxsize=64)
def curves_for(length_ratio: float) -> SteadyCurves:
    """The curves of a bearing as long as `length_ratio` times its diameter, out of the tables.

    A shorter bearing than theirs is short enough for the closed form.

    Raises
    ------
    OutOfDomainError
        If the bearing is longer than those of the tables.
    """
    tables = bearing_tables()
    if length_ratio < tables.length_ratio[0]:
        return short_bearing_curves(length_ratio, np.linspace(0.0, 0.99, 100)[1:])
    return tables.curves(length_ratio)


@lru_cache(maxsize=64)
def mobility_for(length_ratio: float) -> MobilityMap:
    """The mobility of such a bearing; likewise by the closed form where it is short enough.

    Raises
    ------
    OutOfDomainError
        If the bearing is longer than those of the tables.
    """
    tables = bearing_tables()
    if length_ratio < tables.length_ratio[0]:
        return short_bearing_map(length_ratio)
    return tables.mobility_map(length_ratio)
