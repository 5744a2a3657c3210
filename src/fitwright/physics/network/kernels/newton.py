"""Node pressures by Newton's method, damped; where it fails, by steps in time, and from low speed up."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numba import njit

from fitwright.physics.network.elements.kinds import CRANK_DRILLING, ORIFICE, PIPE
from fitwright.physics.network.kernels.elimination import assemble, factor, solve_factored
from fitwright.physics.network.kernels.laws import imbalances, pressure_at, thrown_pressure
from fitwright.physics.network.kernels.layout import Layout, Oil
from fitwright.quantity import FloatArray

FIRST_GUESS = 2.0e5  # Pa, of all nodes that the pump presses
HALVINGS = 8
PSEUDO_STEPS = 10  # how many times as many steps in pseudo-time as Newton steps are allowed
STAGES = 12  # of the speed, from low to the one asked for


class Work(NamedTuple):
    """Room for one solution."""

    sizes: FloatArray
    flows: FloatArray
    by_upstream: FloatArray
    by_downstream: FloatArray
    surplus: FloatArray
    step: FloatArray
    trial: FloatArray
    matrix: FloatArray
    oil: FloatArray


@njit(cache=True, nogil=True, error_model="numpy")
def room(layout: Layout, oil: FloatArray) -> Work:
    """New room for solutions of a circuit.

    Parameters
    ----------
    layout : Layout
        The circuit.
    oil : ndarray
        From `oil_parameters`.

    Returns
    -------
    Work
        Arrays of the right length.

    References
    ----------
    [kelley2003] what Newton's method keeps
    """
    parts, nodes = layout.kind.size, layout.diagonal.size
    return Work(
        np.empty(layout.sizes.size),
        np.empty(parts),
        np.empty(parts),
        np.empty(parts),
        np.empty(nodes),
        np.empty(nodes),
        np.empty(nodes),
        np.empty(layout.entries),
        np.empty(oil.size),
    )


@njit(cache=True, nogil=True, error_model="numpy")
def measure(layout: Layout, pressures: FloatArray, oil: Oil, work: Work) -> tuple[float, float, float]:
    """Imbalances at some pressures, with flows and slopes left in the room for work.

    Parameters
    ----------
    layout : Layout
        The circuit.
    pressures : ndarray [Pa], shape (n)
        Gauge pressures.
    oil : Oil
        Oil and speed.
    work : Work
        Holds the sizes; filled.

    Returns
    -------
    tuple of float [m3/s]
        As `laws.imbalances` gives them.

    References
    ----------
    [white2011] conservation of mass in a steady flow
    """
    return imbalances(
        layout,
        pressures,
        work.sizes,
        oil,
        work.flows,
        work.by_upstream,
        work.by_downstream,
        work.surplus,
    )


@njit(cache=True, nogil=True, error_model="numpy")
def _take_chords(layout: Layout, pressures: FloatArray, oil: Oil, work: Work) -> bool:
    """Where the step would turn the flow of a turbulent passage, raise its slope to flow over drop.

    From a large drop to a small one the tangent of a square law overshoots to the other side, and back
    again; the chord does not. False where no slope was raised.
    """
    raised = False
    for part in range(layout.kind.size):
        kind = layout.kind[part]
        if kind not in (PIPE, ORIFICE, CRANK_DRILLING):
            continue
        up, down = layout.upstream[part], layout.downstream[part]
        drop = pressure_at(pressures, up) - pressure_at(pressures, down)
        if kind == CRANK_DRILLING:
            drop += thrown_pressure(work.sizes[layout.first[part] :], oil)
        change = pressure_at(work.step, up) - pressure_at(work.step, down)
        if drop * (drop + change) >= 0.0:
            continue
        chord = work.flows[part] / drop
        if chord > 1.01 * work.by_upstream[part]:
            work.by_upstream[part], work.by_downstream[part] = chord, -chord
            raised = True
    return raised


@njit(cache=True, nogil=True, error_model="numpy")
def _step(layout: Layout, shift: float, work: Work) -> bool:
    """Newton's step into `work.step`, its diagonal raised by a share of itself; False where there is none."""
    assemble(layout, work.by_upstream, work.by_downstream, work.matrix)
    if shift > 0.0:
        for node in range(layout.diagonal.size):
            work.matrix[layout.diagonal[node]] *= 1.0 + shift
    if not factor(layout, work.matrix):
        return False
    work.step[:] = work.surplus
    solve_factored(layout, work.matrix, work.step)
    return True


@njit(cache=True, nogil=True, error_model="numpy")
def _relative(largest: float, pumped: float) -> float:
    """Largest imbalance over the pumps' flow."""
    return largest / pumped


@njit(cache=True, nogil=True, error_model="numpy")
def _newton(
    layout: Layout, pressures: FloatArray, oil: Oil, tolerance: float, limit: int, work: Work
) -> tuple[int, float]:
    """Steps taken and relative imbalance reached; every step lowers the summed imbalance."""
    largest, total, pumped = measure(layout, pressures, oil, work)
    for done in range(limit):
        if largest <= tolerance * pumped:
            return done, _relative(largest, pumped)
        if not _step(layout, 0.0, work):
            return done, _relative(largest, pumped)
        if _take_chords(layout, pressures, oil, work):
            _step(layout, 0.0, work)
        share = 1.0
        for halving in range(HALVINGS + 1):
            work.trial[:] = pressures + share * work.step
            largest, new_total, pumped = measure(layout, work.trial, oil, work)
            if new_total <= (1.0 - 1e-4 * share) * total or largest <= tolerance * pumped:
                break
            share *= 0.5
            if halving == HALVINGS:
                largest, _, pumped = measure(layout, pressures, oil, work)
                return done + 1, _relative(largest, pumped)
        pressures[:] = work.trial
        total = new_total
    return limit, _relative(largest, pumped)


@njit(cache=True, nogil=True, error_model="numpy")
def _in_time(
    layout: Layout, pressures: FloatArray, oil: Oil, tolerance: float, limit: int, work: Work
) -> tuple[int, float]:
    """The same by implicit steps in pseudo-time that lengthen as the imbalance falls."""
    largest, total, pumped = measure(layout, pressures, oil, work)
    shift = 1.0
    for done in range(limit):
        if largest <= tolerance * pumped or not _step(layout, max(shift, 1e-14), work):
            return done, _relative(largest, pumped)
        work.trial[:] = pressures + work.step
        largest, new_total, pumped = measure(layout, work.trial, oil, work)
        if new_total <= total:
            pressures[:] = work.trial
            shift *= max(0.1, 0.7 * new_total / total)
            total = new_total
        else:
            shift = 4.0 * shift + 1e-6
            largest, total, pumped = measure(layout, pressures, oil, work)
    return limit, _relative(largest, pumped)


@njit(cache=True, nogil=True, error_model="numpy")
def _begin(layout: Layout, pressures: FloatArray, oil: Oil, work: Work) -> None:
    """First guess: one pressure wherever the pump presses, more by what spin adds behind crank drillings."""
    for node in range(pressures.size):
        pressures[node] = FIRST_GUESS * layout.fed[node]
    for part in range(layout.kind.size):
        down = layout.downstream[part]
        if layout.kind[part] == CRANK_DRILLING and down >= 0:
            thrown = thrown_pressure(work.sizes[layout.first[part] :], oil)
            pressures[down] = pressure_at(pressures, layout.upstream[part]) + thrown


@njit(cache=True, nogil=True, error_model="numpy")
def balance(
    layout: Layout,
    pressures: FloatArray,
    warm: int,
    oil: Oil,
    tolerance: float,
    limit: int,
    work: Work,
) -> tuple[int, float]:
    """Find pressures at which the flows balance.

    Parameters
    ----------
    layout : Layout
        The circuit.
    pressures : ndarray [Pa], shape (n)
        Where to begin, if `warm` is one; replaced by the solution, or the last state.
    warm : int
        Zero to begin with a first guess of its own.
    oil : Oil
        Oil and speed.
    tolerance : float [1]
        Largest imbalance over the flow of the pumps.
    limit : int
        Steps at most in one attempt.
    work : Work
        Holds the sizes; on return flows and slopes at the solution.

    Returns
    -------
    tuple of int and float [1]
        Steps in all, and the imbalance reached over the flow of the pumps.

    References
    ----------
    [kelley2003] damped Newton's method, pseudo-transient continuation
    """
    steps = 0
    if warm > 0:
        steps, reached = _newton(layout, pressures, oil, tolerance, limit, work)
        if reached <= tolerance:
            return steps, reached
    _begin(layout, pressures, oil, work)
    more, reached = _newton(layout, pressures, oil, tolerance, limit, work)
    steps += more
    if reached <= tolerance:
        return steps, reached
    more, reached = _in_time(layout, pressures, oil, tolerance, PSEUDO_STEPS * limit, work)
    steps += more
    if reached <= tolerance:
        return steps, reached
    more, reached = _up_the_speed(layout, pressures, oil, tolerance, limit, work)
    return steps + more, reached


@njit(cache=True, nogil=True, error_model="numpy")
def _up_the_speed(
    layout: Layout, pressures: FloatArray, oil: Oil, tolerance: float, limit: int, work: Work
) -> tuple[int, float]:
    """From a low speed up to the one asked for, each stage from the one before."""
    _begin(layout, pressures, oil, work)
    steps, reached = 0, np.inf
    for stage in range(1, STAGES + 1):
        speed = oil.angular_speed * (stage / STAGES) ** 2
        slow = Oil(speed, oil.temperature, oil.density, oil.viscosity, oil.parameters)
        more, reached = _newton(layout, pressures, slow, tolerance, limit, work)
        steps += more
        if reached > tolerance:
            more, reached = _in_time(layout, pressures, slow, tolerance, PSEUDO_STEPS * limit, work)
            steps += more
    return steps, reached
