"""Node pressures by Newton's method, damped; where it fails, by steps in time, and from low speed up."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from fitwright.physics.network.elements.kinds import CRANK_DRILLING, ORIFICE, PIPE
from fitwright.physics.network.kernels.elimination import assemble, factor, solve_factored
from fitwright.physics.network.kernels.imbalance import imbalances, pressure_at
from fitwright.physics.network.kernels.laws import thrown_pressure
from fitwright.physics.network.kernels.layout import (
    DOWNSTREAM,
    FIRST,
    KIND,
    NOTES,
    UPSTREAM,
    Layout,
    Oil,
)
from fitwright.physics.network.kernels.options import inner
from fitwright.physics.network.kernels.rows import add, copy, fill, known
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
    notes: FloatArray  # (m, 12) what the laws know of each part besides; see `layout`


@inner
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
    parts, nodes = layout.parts.shape[0], layout.diagonal.size
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
        np.zeros((parts, NOTES)),
    )


@inner
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
        work.notes,
    )


@inner
def _take_chords(layout: Layout, pressures: FloatArray, oil: Oil, work: Work) -> bool:
    """Where the step would turn the flow of a turbulent passage, raise its slope to flow over drop.

    From a large drop to a small one the tangent of a square law overshoots to the other side, and back
    again; the chord does not. False where no slope was raised.
    """
    raised = False
    for part in range(layout.parts.shape[0]):
        kind = layout.parts[part, KIND]
        if kind not in (PIPE, ORIFICE, CRANK_DRILLING):
            continue
        up, down = layout.parts[part, UPSTREAM], layout.parts[part, DOWNSTREAM]
        drop = pressure_at(pressures, up) - pressure_at(pressures, down)
        if kind == CRANK_DRILLING:
            drop += thrown_pressure(work.sizes[layout.parts[part, FIRST] :], oil)
        change = pressure_at(work.step, up) - pressure_at(work.step, down)
        if drop * (drop + change) >= 0.0:
            continue
        chord = work.flows[part] / drop
        if chord > 1.01 * work.by_upstream[part]:
            work.by_upstream[part], work.by_downstream[part] = chord, -chord
            raised = True
    return raised


@inner
def _step(layout: Layout, shift: float, work: Work) -> bool:
    """Newton's step into `work.step`, its diagonal raised by a share of itself; False where there is none."""
    assemble(layout, work.by_upstream, work.by_downstream, work.matrix)
    if shift > 0.0:
        for node in range(layout.diagonal.size):
            work.matrix[layout.diagonal[node]] *= 1.0 + shift
    if not factor(layout, work.matrix):
        return False
    copy(work.step, work.surplus)
    solve_factored(layout, work.matrix, work.step)
    return True


@inner
def _newton(
    layout: Layout, pressures: FloatArray, oil: Oil, tolerance: float, limit: int, work: Work
) -> tuple[int, float]:
    """Steps taken and relative imbalance reached; every step lowers the summed imbalance."""
    done, halvings, share, total, reached = 0, 0, 0.0, np.inf, np.inf
    fill(work.step, 0.0)
    while True:
        copy(work.trial, pressures)
        add(work.trial, share, work.step)
        largest, new_total, pumped = measure(layout, work.trial, oil, work)
        if new_total <= (1.0 - 1e-4 * share) * total or largest <= tolerance * pumped:
            copy(pressures, work.trial)
            total, reached = new_total, largest / pumped
            if reached <= tolerance or done == limit or not _step(layout, 0.0, work):
                return done, reached
            if _take_chords(layout, pressures, oil, work):
                _step(layout, 0.0, work)
            done, halvings, share = done + 1, 0, 1.0
        elif halvings == HALVINGS:
            return done, reached
        else:
            halvings, share = halvings + 1, 0.5 * share


@inner
def _in_time(
    layout: Layout, pressures: FloatArray, oil: Oil, tolerance: float, limit: int, work: Work
) -> tuple[int, float]:
    """The same by implicit steps in pseudo-time that lengthen as the imbalance falls.

    After a step that is refused the last slopes serve again, with a shorter step.
    """
    shift, total, reached = 1.0, np.inf, np.inf
    fill(work.step, 0.0)
    for done in range(limit):
        copy(work.trial, pressures)
        add(work.trial, 1.0, work.step)
        largest, new_total, pumped = measure(layout, work.trial, oil, work)
        if new_total <= total:
            shift *= 1.0 if total == np.inf else max(0.1, 0.7 * new_total / total)
            copy(pressures, work.trial)
            total, reached = new_total, largest / pumped
            if reached <= tolerance:
                return done, reached
        else:
            shift = 4.0 * shift + 1e-6
            measure(layout, pressures, oil, work)
        if not _step(layout, max(shift, 1e-14), work):
            return done, reached
    return limit, reached


@inner
def _begin(layout: Layout, pressures: FloatArray, oil: Oil, work: Work) -> None:
    """First guess: one pressure wherever the pump presses, more by what spin adds behind crank drillings."""
    for node in range(pressures.size):
        pressures[node] = FIRST_GUESS * layout.fed[node]
    for part in range(layout.parts.shape[0]):
        down = layout.parts[part, DOWNSTREAM]
        if layout.parts[part, KIND] == CRANK_DRILLING and down >= 0:
            thrown = thrown_pressure(work.sizes[layout.parts[part, FIRST] :], oil)
            pressures[down] = pressure_at(pressures, layout.parts[part, UPSTREAM]) + thrown


@inner
def balance(
    layout: Layout, pressures: FloatArray, oil: Oil, tolerance: float, limit: int, work: Work
) -> tuple[int, float]:
    """Find pressures at which the flows balance.

    First by Newton's method from the pressures given, then from a first guess, with steps in pseudo-time
    where Newton's method stops, then at rising speeds up to the one asked for.

    Parameters
    ----------
    layout : Layout
        The circuit.
    pressures : ndarray [Pa], shape (n)
        Where to begin, NaN for no idea; replaced by the solution, or the last state.
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
    steps, reached = 0, np.inf
    for attempt in range(0 if known(pressures) else 1, 2 + STAGES):
        speed = oil.angular_speed
        if attempt > 1:
            speed *= ((attempt - 1.0) / STAGES) ** 2
        state = Oil(speed, oil.temperature, oil.density, oil.viscosity, oil.parameters)
        if attempt in (1, 2):
            _begin(layout, pressures, state, work)
        more, reached = _newton(layout, pressures, state, tolerance, limit, work)
        steps += more
        if reached > tolerance and attempt > 0:
            more, reached = _in_time(layout, pressures, state, tolerance, PSEUDO_STEPS * limit, work)
            steps += more
        if reached <= tolerance and attempt < 2:
            break
    return steps, reached
