"""Where the pressure of hot oil falls as speed rises, and what makes it fall."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi
from typing import Final

from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.solving import BuildCircuit
from fitwright.assess.oil.what_if import WhatIf
from fitwright.physics.network.limits import speed_effects

FILLING: Final = "filling"
HARDLY: Final = 20.0
"""A pressure that falls by less than this for each rad/s is told as level [Pa s/rad]."""


def falls_of(build: BuildCircuit, points: Sequence[OilPoint], what_if: WhatIf) -> tuple[str, ...]:
    """A sentence for the first speed from which on the pressure falls up to the last point, if it does."""
    effects = speed_effects(build.solved(points, what_if), build.posed.sheet.gauge)
    falling = effects.slope < -HARDLY
    if not falling[-1]:
        return ()
    first = len(points) - 1
    while first > 0 and falling[first - 1]:
        first -= 1
    speed = round(points[first].angular_speed * 30.0 / pi, -1)
    reason = effects.reasons()[-1]
    why = (
        "the chambers of the pump no longer fill"
        if reason == FILLING
        else f"the {reason} take more with speed than the pump adds"
    )
    return (f"With hot oil the pressure falls from about {speed:.0f} rev/min on: {why}.",)
