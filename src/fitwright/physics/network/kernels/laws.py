"""Flow through each kind of element and its slopes by the pressures at its two ends."""

from __future__ import annotations

import numpy as np
from numba import cfunc

from fitwright.physics.bearings.kernels.supply import LARGEST_ITERATIONS, bearing_supply
from fitwright.physics.network.elements.kinds import (
    ANNULAR_LEAK,
    BEARING,
    CHAIN_TENSIONER,
    COOLER,
    CRANK_DRILLING,
    FILTER,
    JET,
    LAMINAR_RESISTANCE,
    ORIFICE,
    PIPE,
    PUMP,
    SLOT_LEAK,
)
from fitwright.physics.network.kernels.layout import (
    BY_CLEARANCE,
    BY_PLUNGER,
    BY_PRELOAD,
    FILM_TEMPERATURE,
    LAW_TYPE,
    Oil,
)
from fitwright.physics.network.kernels.options import inner
from fitwright.physics.passages.kernels.passages import annulus, orifice, pipe, slot
from fitwright.physics.pump.kernels.pump import pump_flow
from fitwright.physics.pump.kernels.relief import relief_flow_slopes
from fitwright.quantity import FloatArray

FILLING = 3  # sizes that the pump's filling has


@inner
def _opening(value: float, begins: float, ends: float) -> tuple[float, float]:
    """Smooth step from 0 to 1 without a kink at either end, and its slope."""
    x = (value - begins) / (ends - begins)
    if x <= 0.0:
        return 0.0, 0.0
    if x >= 1.0:
        return 1.0, 0.0
    return x * x * (3.0 - 2.0 * x), 6.0 * x * (1.0 - x) / (ends - begins)


@inner
def _jet(drop: float, sizes: FloatArray, oil: Oil) -> tuple[float, float]:
    """Orifice behind a valve; sizes: diameter, opening and full pressure, coefficient, count."""
    flow, slope = orifice(drop, sizes[0], sizes[3], oil.density, oil.viscosity)
    if sizes[1] > 0.0:
        share, share_slope = _opening(drop, sizes[1], sizes[2])
        flow, slope = share * flow, share * slope + share_slope * flow
    return sizes[4] * flow, sizes[4] * slope


@inner
def _filter_flow(drop: float, sizes: FloatArray, oil: Oil) -> tuple[float, float]:
    """Laminar medium and bypass; sizes: resistance, opening and full drop, diameter, coefficient."""
    slope = 1.0 / (sizes[0] * oil.viscosity)
    flow = slope * drop
    if sizes[3] > 0.0 and drop > sizes[1]:
        share, share_slope = _opening(drop, sizes[1], sizes[2])
        past, past_slope = orifice(drop, sizes[3], sizes[4], oil.density, oil.viscosity)
        flow += share * past
        slope += share * past_slope + share_slope * past
    return flow, slope


@inner
def _cooler(drop: float, sizes: FloatArray, oil: Oil) -> tuple[float, float]:
    """Core and bypass; sizes: resistance, diameter, two temperatures, two drops, coefficient, leak share."""
    open_share, _ = _opening(oil.temperature, sizes[2], sizes[3])
    leak = sizes[7]
    core = (leak + (1.0 - leak) * open_share) / (sizes[0] * oil.viscosity)
    closed = leak + (1.0 - leak) * (1.0 - open_share)
    valve, valve_slope = _opening(drop, sizes[4], sizes[5])
    share = closed + (1.0 - closed) * valve
    past, past_slope = orifice(drop, sizes[1], sizes[6], oil.density, oil.viscosity)
    return core * drop + share * past, core + share * past_slope + (1.0 - closed) * valve_slope * past


@inner
def thrown_pressure(sizes: FloatArray, oil: Oil) -> float:
    r"""What a crank drilling's spin adds to the pressure from its beginning to its end.

    Parameters
    ----------
    sizes : ndarray
        As `CrankDrilling.slots` gives them.
    oil : Oil
        Oil and speed.

    Returns
    -------
    float [Pa]
        Pressure at the end less that at the beginning, without flow.

    Notes
    -----
    .. math:: \Delta p = \tfrac12 \rho \omega^2 (r_{end}^2 - r_{begin}^2)

    References
    ----------
    [white2011] rigid-body rotation of a fluid
    """
    speed = oil.angular_speed * sizes[7]
    change: float = 0.5 * oil.density * speed * speed * (sizes[9] * sizes[9] - sizes[8] * sizes[8])
    return change


@inner
def _tensioner(drop: float, sizes: FloatArray, oil: Oil) -> tuple[float, float]:
    """Leak along the plunger, and a vent; sizes: those of the annulus, then the vent's."""
    flow, slope = annulus(drop, sizes[0], sizes[1], sizes[3], sizes[2], oil.viscosity)
    if sizes[4] > 0.0:
        vent, vent_slope = orifice(drop, sizes[4], sizes[5], oil.density, oil.viscosity)
        return flow + vent, slope + vent_slope
    return flow, slope


@inner
def _pump(
    up: float, down: float, sizes: FloatArray, oil: Oil, notes: FloatArray
) -> tuple[float, float, float]:
    """Net flow, slopes by inlet and outlet pressure; sizes as `Pump.slots` gives them."""
    leaks = int(sizes[5])
    speed = oil.angular_speed * sizes[1]
    flow, by_outlet, by_inlet, leakage = pump_flow(
        down,
        up,
        speed,
        oil.viscosity,
        oil.density,
        sizes[0],
        sizes[2 : 2 + FILLING],
        sizes[6 : 6 + leaks],
        sizes[6 + leaks : 6 + 2 * leaks],
        sizes[6 + 2 * leaks : 6 + 3 * leaks],
    )
    notes[0], notes[1], notes[2] = sizes[0] * speed, flow + leakage, leakage
    notes[3], notes[4], notes[5] = flow, up, down
    return flow, by_inlet, by_outlet


@cfunc(LAW_TYPE, cache=True, error_model="numpy")
def flow_through(  # noqa: C901, PLR0912  # one list of all kinds, compiled in one piece
    kind: int,
    up: float,
    down: float,
    s: FloatArray,
    curves: FloatArray,
    oil: Oil,
    notes: FloatArray,
) -> tuple[float, float, float]:
    """Flow of one part, by the law of its kind.

    Compiled for itself and called by its address, so that what calls it need not be compiled with it.

    Parameters
    ----------
    kind : int
        One of `elements.kinds`.
    up, down : float [Pa]
        Gauge pressures at its two ends.
    s : ndarray
        Its sizes, from the first on.
    curves : ndarray, shape (n, 14)
        Of a bearing; empty for all else.
    oil : Oil
        Oil and speed.
    notes : ndarray, shape (12)
        Filled with what else is known: see `layout`. A bearing's film temperature is read first, as a
        place to begin; zero for no idea.

    Returns
    -------
    tuple of float [m3/s]
        Flow, and its slopes by the upstream and the downstream pressure [m3/(s Pa)].

    Notes
    -----
    The load of a bearing is W = W0 + k w^2. A heat balance that stays open gives no flow, but NaN.

    References
    ----------
    [white2011] pipes, orifices, gaps
    [heywood1988] inertia forces of the crank train grow with the square of the speed
    """
    drop = up - down
    if kind == PIPE:
        flow, slope = pipe(drop, s[0], s[1], s[2], s[3], oil.density, oil.viscosity)
        flow, slope = s[4] * flow, s[4] * slope
    elif kind == BEARING:
        load = s[1] + s[2] * oil.angular_speed * oil.angular_speed
        found = bearing_supply(
            drop,
            oil.temperature,
            oil.angular_speed * s[3],
            load,
            s[0],
            s[5:],
            curves,
            oil.parameters,
            LARGEST_ITERATIONS,
            notes[FILM_TEMPERATURE],
        )
        closed = 1.0 if found[11] else np.nan
        flow, slope = closed * s[4] * found[0], closed * s[4] * found[1]
        notes[0], notes[1], notes[2], notes[3] = found[3], found[4], found[5], found[6]
        notes[4], notes[5], notes[6] = found[7], found[8], found[9]
        notes[7] = 1.0 if found[10] else 0.0
        notes[8] = 1.0 if found[11] else 0.0
        notes[9], notes[BY_CLEARANCE], notes[11] = load, s[4] * found[2], found[0]
        if not found[11]:
            notes[FILM_TEMPERATURE] = 0.0
    elif kind == ORIFICE:
        flow, slope = orifice(drop, s[0], s[1], oil.density, oil.viscosity)
        flow, slope = s[2] * flow, s[2] * slope
    elif kind == ANNULAR_LEAK:
        flow, slope = annulus(drop, s[0], s[1], s[3], s[2], oil.viscosity)
        flow, slope = s[4] * flow, s[4] * slope
    elif kind == CRANK_DRILLING:
        thrown, loss = thrown_pressure(s, oil), s[3] + s[4]
        flow, slope = pipe(drop + thrown, s[0], s[1], s[2], loss, oil.density, oil.viscosity)
        flow, slope = s[5] * s[6] * flow, s[5] * s[6] * slope
    elif kind == JET:
        flow, slope = _jet(drop, s, oil)
    elif kind == FILTER:
        flow, slope = _filter_flow(drop, s, oil)
    elif kind == COOLER:
        flow, slope = _cooler(drop, s, oil)
    elif kind == SLOT_LEAK:
        flow, slope = slot(drop, s[0], s[1], s[2], oil.viscosity, 0.0)
        flow, slope = s[3] * flow, s[3] * slope
    elif kind == CHAIN_TENSIONER:
        flow, slope = _tensioner(drop, s, oil)
    elif kind == LAMINAR_RESISTANCE:
        slope = s[1] / (s[0] * oil.viscosity)
        flow = slope * drop
    elif kind == PUMP:
        return _pump(up, down, s, oil, notes)
    else:
        found_there = relief_flow_slopes(drop, s[0], s[1], s[2], s[3:], oil.density, oil.viscosity)
        flow, slope = found_there[0], found_there[1]
        notes[0], notes[BY_PLUNGER], notes[BY_PRELOAD] = found_there[4], found_there[2], found_there[3]
    return flow, slope, -slope
