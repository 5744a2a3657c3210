"""The curves of a bearing of one length ratio, as the circuit's computation looks them up."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from fitwright.data.bearing_tables import bearing_tables
from fitwright.physics.bearings.curves import SteadyCurves, short_bearing_curves


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
