"""How the solution moves with each parameter: the implicit function theorem on the balance of flows."""

from __future__ import annotations

import numpy as np

from fitwright.physics.network.elements.kinds import BEARING, CRANK_DRILLING, RELIEF_VALVE
from fitwright.physics.network.kernels.elimination import assemble, factor, solve_factored
from fitwright.physics.network.kernels.imbalance import pressure_at
from fitwright.physics.network.kernels.laws import thrown_pressure
from fitwright.physics.network.kernels.layout import (
    BY_CLEARANCE,
    BY_PLUNGER,
    BY_PRELOAD,
    CURVE_START,
    CURVE_STOP,
    DOWNSTREAM,
    FIRST,
    KIND,
    LINK_PART,
    LINK_SIZE,
    UPSTREAM,
    Law,
    Layout,
    Oil,
    oil_at,
)
from fitwright.physics.network.kernels.newton import Work
from fitwright.physics.network.kernels.options import inner
from fitwright.physics.network.kernels.rows import copy, fill
from fitwright.quantity import FloatArray

RELATIVE_STEP = 1e-4  # of differences of one element's law, which are of fourth order
LEAST_STEP = 1e-7  # where a size is zero, in its unit
COMMON = 3
OIL_STEPS = (1e-4, 1e-2)  # of viscosity factor, temperature change in kelvin


@inner
def _differenced(
    law: Law,
    kind: int,
    size: int,
    up: float,
    down: float,
    sizes: FloatArray,
    curves: FloatArray,
    oil: Oil,
    notes: FloatArray,
) -> float:
    """Slope of a part's flow by one of its sizes, by a central difference of fourth order."""
    value = sizes[size]
    step = RELATIVE_STEP * abs(value) if value != 0.0 else LEAST_STEP
    found = 0.0
    for at in (-2, -1, 1, 2):
        weight = (8.0 if abs(at) == 1 else -1.0) * (1.0 if at > 0 else -1.0)
        sizes[size] = value + at * step
        found += weight * law(kind, up, down, sizes, curves, oil, notes)[0]
    sizes[size] = value
    slope: float = found / (12.0 * step)
    return slope


@inner
def _by_size(
    law: Law,
    kind: int,
    size: int,
    up: float,
    down: float,
    own: FloatArray,
    curves: FloatArray,
    oil: Oil,
    notes: FloatArray,
) -> float:
    """Slope of a part's flow by one of its sizes, from its law where the law gives it."""
    if kind == BEARING and size == 0:
        law(kind, up, down, own, curves, oil, notes)
        return float(notes[BY_CLEARANCE])
    if kind == RELIEF_VALVE and size < 2:
        law(kind, up, down, own, curves, oil, notes)
        return float(notes[BY_PRELOAD if size == 0 else BY_PLUNGER])
    return _differenced(law, kind, size, up, down, own, curves, oil, notes)


@inner
def by_speed(
    law: Law,
    kind: int,
    up: float,
    down: float,
    sizes: FloatArray,
    curves: FloatArray,
    oil: Oil,
    notes: FloatArray,
) -> float:
    r"""Slope of a part's flow by the speed of the crank, at fixed pressures.

    Parameters
    ----------
    law : callable
        `laws.flow_through`.
    kind : int
        One of `elements.kinds`.
    up, down : float [Pa]
        Gauge pressures at its two ends.
    sizes : ndarray
        From its first size on.
    curves : ndarray, shape (n, 14)
        Of a bearing; empty for all else.
    oil : Oil
        Oil and speed.
    notes : ndarray, shape (12)
        Of the part.

    Returns
    -------
    float [m3/rad]
        Slope.

    Notes
    -----
    A difference of fourth order, but for crank drillings: what spin adds is large against the drop that
    drives the flow, so there it is the slope by pressure times

    .. math:: \frac{d \Delta p}{d \omega} = \frac{2 \Delta p}{\omega}

    References
    ----------
    [white2011] rigid-body rotation of a fluid
    """
    if kind == CRANK_DRILLING:
        if oil.angular_speed == 0.0:
            return 0.0
        slope = law(kind, up, down, sizes, curves, oil, notes)[1]
        return slope * 2.0 * thrown_pressure(sizes, oil) / oil.angular_speed
    step = RELATIVE_STEP * max(oil.angular_speed, 1.0)
    found = 0.0
    for at in (-2, -1, 1, 2):
        weight = (8.0 if abs(at) == 1 else -1.0) * (1.0 if at > 0 else -1.0)
        there = Oil(
            oil.angular_speed + at * step, oil.temperature, oil.density, oil.viscosity, oil.parameters
        )
        found += weight * law(kind, up, down, sizes, curves, there, notes)[0]
    return found / (12.0 * step)


@inner
def _speed_column(
    layout: Layout,
    pressures: FloatArray,
    speed: float,
    oil: Oil,
    work: Work,
    surplus: FloatArray,
    flows: FloatArray,
) -> None:
    """Slopes by the factor on the speed."""
    fill(surplus, 0.0)
    fill(flows, 0.0)
    for part in range(layout.parts.shape[0]):
        up = pressure_at(pressures, layout.parts[part, UPSTREAM])
        down = pressure_at(pressures, layout.parts[part, DOWNSTREAM])
        own = work.sizes[layout.parts[part, FIRST] :]
        curves = layout.curves[layout.parts[part, CURVE_START] : layout.parts[part, CURVE_STOP]]
        slope = by_speed(layout.law, layout.parts[part, KIND], up, down, own, curves, oil, work.notes[part])
        _add(layout, part, speed * slope, surplus, flows)


@inner
def _own_column(
    layout: Layout,
    own: int,
    pressures: FloatArray,
    oil: Oil,
    work: Work,
    surplus: FloatArray,
    flows: FloatArray,
) -> None:
    """Slopes of the surplus of each node and the flow of each part by one of the circuit's parameters."""
    fill(surplus, 0.0)
    fill(flows, 0.0)
    for link in range(layout.link_start[own], layout.link_start[own + 1]):
        part = layout.links[link, LINK_PART]
        up = pressure_at(pressures, layout.parts[part, UPSTREAM])
        down = pressure_at(pressures, layout.parts[part, DOWNSTREAM])
        own_sizes = work.sizes[layout.parts[part, FIRST] :]
        curves = layout.curves[layout.parts[part, CURVE_START] : layout.parts[part, CURVE_STOP]]
        notes = work.notes[part]
        slope = _by_size(
            layout.law,
            layout.parts[part, KIND],
            layout.links[link, LINK_SIZE],
            up,
            down,
            own_sizes,
            curves,
            oil,
            notes,
        )
        _add(layout, part, layout.link_values[link, 0] * slope, surplus, flows)


@inner
def _add(layout: Layout, part: int, slope: float, surplus: FloatArray, flows: FloatArray) -> None:
    flows[part] += slope
    if layout.parts[part, UPSTREAM] >= 0:
        surplus[layout.parts[part, UPSTREAM]] -= slope
    if layout.parts[part, DOWNSTREAM] >= 0:
        surplus[layout.parts[part, DOWNSTREAM]] += slope


@inner
def _oil_column(
    layout: Layout,
    which: int,
    pressures: FloatArray,
    speed: float,
    temperature: float,
    common: FloatArray,
    oil: FloatArray,
    work: Work,
    surplus: FloatArray,
    flows: FloatArray,
) -> None:
    """The same by the factor on the viscosity, or by the temperature; they change the oil for all parts."""
    fill(surplus, 0.0)
    fill(flows, 0.0)
    moved = np.empty(COMMON)
    copy(moved, common)
    room = np.empty(oil.size)
    step = OIL_STEPS[which]
    for at in (-2, -1, 1, 2):
        weight = (8.0 if abs(at) == 1 else -1.0) * (1.0 if at > 0 else -1.0) / (12.0 * step)
        moved[which] = common[which] + at * step
        there = oil_at(speed, temperature, moved, oil, room)
        for part in range(layout.parts.shape[0]):
            up = pressure_at(pressures, layout.parts[part, UPSTREAM])
            down = pressure_at(pressures, layout.parts[part, DOWNSTREAM])
            own = work.sizes[layout.parts[part, FIRST] :]
            curves = layout.curves[layout.parts[part, CURVE_START] : layout.parts[part, CURVE_STOP]]
            flow = layout.law(layout.parts[part, KIND], up, down, own, curves, there, work.notes[part])[0]
            _add(layout, part, weight * flow, surplus, flows)


@inner
def slopes_at(
    layout: Layout,
    pressures: FloatArray,
    parameters: FloatArray,
    wanted: FloatArray,
    speed: float,
    temperature: float,
    oil: FloatArray,
    work: Work,
    pressure_slopes: FloatArray,
    flow_slopes: FloatArray,
) -> bool:
    r"""Slopes of the solution by each parameter that is wanted.

    Parameters
    ----------
    layout : Layout
        The circuit.
    pressures : ndarray [Pa], shape (n)
        A solution.
    parameters : ndarray, shape (k)
        Its parameters.
    wanted : ndarray, shape (k)
        Zero for those that are left out.
    speed : float [rad/s]
        Of the crank.
    temperature : float [K]
        Of the oil.
    oil : ndarray
        From `oil_parameters`.
    work : Work
        Holds sizes and slopes at the solution; its flows are used up.
    pressure_slopes : ndarray, shape (k, n)
        Filled.
    flow_slopes : ndarray, shape (k, m)
        Filled.

    Returns
    -------
    bool
        False where the solution has no slopes.

    Notes
    -----
    .. math:: \frac{dp}{d\theta} = -\left(\frac{\partial F}{\partial p}\right)^{-1}
              \frac{\partial F}{\partial \theta}

    References
    ----------
    [krantz2013] implicit function theorem
    """
    own = layout.link_start.size - 1
    common = parameters[own:]
    assemble(layout, work.by_upstream, work.by_downstream, work.matrix)
    if not factor(layout, work.matrix):
        return False
    room = np.empty(oil.size)
    state = oil_at(speed, temperature, common, oil, room)
    for at in range(own + COMMON):
        if wanted[at] == 0.0:
            fill(pressure_slopes[at], 0.0)
            fill(flow_slopes[at], 0.0)
            continue
        flows = work.flows
        if at < own:
            _own_column(layout, at, pressures, state, work, work.step, flows)
        elif at == own + 2:
            _speed_column(layout, pressures, speed, state, work, work.step, flows)
        else:
            _oil_column(layout, at - own, pressures, speed, temperature, common, oil, work, work.step, flows)
        solve_factored(layout, work.matrix, work.step)
        copy(pressure_slopes[at], work.step)
        for part in range(flows.size):
            slope = flows[part]
            if layout.parts[part, UPSTREAM] >= 0:
                slope += work.by_upstream[part] * work.step[layout.parts[part, UPSTREAM]]
            if layout.parts[part, DOWNSTREAM] >= 0:
                slope += work.by_downstream[part] * work.step[layout.parts[part, DOWNSTREAM]]
            flow_slopes[at, part] = slope
    return True
