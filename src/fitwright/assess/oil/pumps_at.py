"""The pump stages at a solved point: what they displace, leak, deliver and let by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isfinite, pi
from typing import TYPE_CHECKING

import numpy as np

from fitwright.assess.oil.results import PumpState
from fitwright.physics.network.elements import Pump, Relief
from fitwright.physics.network.limits import FILLED
from fitwright.physics.network.machines import PumpStates
from fitwright.physics.network.sizes import value_of
from fitwright.physics.network.solution import Solution
from fitwright.physics.pump.drive import drive_torque

if TYPE_CHECKING:
    from fitwright.assess.oil.solving import BuildCircuit


def pump_states(build: BuildCircuit, solution: Solution, states: PumpStates, at: int) -> Iterator[PumpState]:
    """Each pressure stage at one point."""
    for column, name in enumerate(states.paths):
        path = build.circuit.path(name)
        stage = build.posed.sheet.pumps[name.removeprefix("pumps.")]
        delivered = float(states.net_flow[0, at, column])
        if not isfinite(delivered) or not isinstance(path.element, Pump):
            yield PumpState(stage.id, stage.title, None, None, None, None, None, None, None, None)
            continue
        values = dict(zip(build.circuit.parameter_names, solution.parameters[0, at], strict=True))
        inlet = float(states.inlet_gauge_pressure[0, at, column])
        rise = float(states.outlet_gauge_pressure[0, at, column]) - inlet
        relieved = _relieved(build, solution, at, path.downstream)
        revolution = 2.0 * pi * value_of(path.element.displacement_per_radian, values)
        yield PumpState(
            id=stage.id,
            title=stage.title,
            displaced=float(states.theoretical_flow[0, at, column]),
            leakage=float(states.leakage_flow[0, at, column]),
            delivered=delivered,
            relieved=relieved,
            reserve=relieved / delivered if delivered > 0.0 else None,
            fill=float(states.fill_share[0, at, column]),
            inlet_pressure=inlet,
            drive_torque=drive_torque(revolution, rise),
        )


def _relieved(build: BuildCircuit, solution: Solution, at: int, outlet: str) -> float:
    """What the relief valves at the outlet of a stage let by."""
    return sum(
        float(solution.flow_in(each.name)[0, at])
        for each in build.circuit.paths
        if isinstance(each.element, Relief) and each.upstream == outlet
    )


def filling_limit(solution: Solution, states: PumpStates, points: Sequence[int]) -> float | None:
    """Speed of the crank [rad/s] from which chambers no longer fill wholly; None where they always do.

    Between the two speeds of `points` (rising) where it happens, evenly.
    """
    before: tuple[float, float] | None = None
    for at in points:
        now = float(solution.angular_speeds[at]), float(np.min(states.fill_share[0, at]))
        if now[1] < FILLED:
            if before is None or before[1] <= now[1]:
                return now[0]
            share = (before[1] - FILLED) / (before[1] - now[1])
            return before[0] + share * (now[0] - before[0])
        before = now
    return None
