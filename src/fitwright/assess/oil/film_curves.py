"""The curves of a bearing of one length ratio, as the circuit's computation looks them up."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from fitwright.physics.bearings.curves import SteadyCurves, short_bearing_curves


@lru_cache(maxsize=64)
def curves_for(length_ratio: float) -> SteadyCurves:
    """The curves of a bearing as long as `length_ratio` times its diameter."""
    return short_bearing_curves(length_ratio, np.linspace(0.0, 0.99, 100)[1:])
