"""The pump stages at a solved point: what they displace, leak, deliver and let by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isfinite, pi
from typing import TYPE_CHECKING, Final

from fitwright.assess.oil.results import PumpState
from fitwright.physics.network.elements import Pump, Relief
from fitwright.physics.network.sizes import VISCOSITY_FACTOR, value_of
from fitwright.physics.network.solution import Solution
from fitwright.physics.oil.oil import dynamic_viscosity
from fitwright.physics.pump.drive import drive_torque
from fitwright.physics.pump.leakage import leakage_flow

if TYPE_CHECKING:
    from fitwright.assess.oil.solving import BuildCircuit

FILLED: Final = 0.98
"""Below this share of filled chambers the pump no longer fills."""


def pump_states(build: BuildCircuit, solution: Solution, at: int) -> Iterator[PumpState]:
    """Each pressure stage at one point."""
    for path in build.circuit.paths:
        if isinstance(path.element, Pump):
            yield _state(build, solution, at, path.name, path.element)


def _state(build: BuildCircuit, solution: Solution, at: int, name: str, pump: Pump) -> PumpState:
    path = build.circuit.path(name)
    stage = build.posed.sheet.pumps[name.removeprefix("pumps.")]
    inlet = float(solution.pressure_at(path.upstream)[0, at])
    rise = float(solution.pressure_at(path.downstream)[0, at]) - inlet
    delivered = float(solution.flow_in(name)[0, at])
    if not isfinite(rise):
        return PumpState(stage.id, stage.title, None, None, None, None, None, None, None, None)
    values = dict(zip(build.circuit.parameter_names, solution.parameters[0, at], strict=True))
    speed = float(solution.angular_speeds[at]) * value_of(pump.speed_ratio, values)
    displacement = value_of(pump.displacement_per_radian, values)
    viscosity = values[VISCOSITY_FACTOR] * float(
        dynamic_viscosity(solution.oil, float(solution.oil_temperatures[at]))
    )
    leakage = sum(
        leakage_flow(
            [each.path for each in pump.leaks],
            [value_of(each.clearance, values) for each in pump.leaks],
            pressure_rise=rise,
            angular_speed=speed,
            dynamic_viscosity=viscosity,
        ).tolist()
    )
    relieved = _relieved(build, solution, at, path.downstream)
    displaced = float(displacement * speed)
    return PumpState(
        id=stage.id,
        title=stage.title,
        displaced=displaced,
        leakage=leakage,
        delivered=delivered,
        relieved=relieved,
        reserve=relieved / delivered if delivered > 0.0 else None,
        fill=min(1.0, (delivered + leakage) / displaced) if displaced > 0.0 else None,
        inlet_pressure=inlet,
        drive_torque=drive_torque(2.0 * pi * displacement, rise),
    )


def _relieved(build: BuildCircuit, solution: Solution, at: int, outlet: str) -> float:
    """What the relief valves at the outlet of a stage let by."""
    return sum(
        float(solution.flow_in(each.name)[0, at])
        for each in build.circuit.paths
        if isinstance(each.element, Relief) and each.upstream == outlet
    )


def filling_limit(build: BuildCircuit, solution: Solution, points: Sequence[int]) -> float | None:
    """Speed of the crank [rad/s] from which chambers no longer fill wholly; None where they always do.

    Between the two speeds of `points` (rising) where it happens, evenly.
    """
    before: tuple[float, float] | None = None
    for at in points:
        fills = [each.fill for each in pump_states(build, solution, at) if each.fill is not None]
        now = float(solution.angular_speeds[at]), min(fills, default=1.0)
        if now[1] < FILLED:
            if before is None or before[1] <= now[1]:
                return now[0]
            share = (before[1] - FILLED) / (before[1] - now[1])
            return before[0] + share * (now[0] - before[0])
        before = now
    return None
