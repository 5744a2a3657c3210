"""Flow into each node less flow out of it, from the laws of all parts."""

from __future__ import annotations

from fitwright.physics.network.elements.kinds import PUMP
from fitwright.physics.network.kernels.layout import (
    CURVE_START,
    CURVE_STOP,
    DOWNSTREAM,
    FIRST,
    KIND,
    UPSTREAM,
    Layout,
    Oil,
)
from fitwright.physics.network.kernels.options import inner
from fitwright.physics.network.kernels.rows import fill
from fitwright.quantity import FloatArray

LEAST_FLOW = 1e-9  # m3/s, what imbalances are held against while the pumps stand still


@inner
def pressure_at(pressures: FloatArray, node: int) -> float:
    """Gauge pressure of a node; nothing at the sump.

    Parameters
    ----------
    pressures : ndarray [Pa], shape (n)
        Of all nodes.
    node : int
        Place of the node, -1 for the sump.

    Returns
    -------
    float [Pa]
        Gauge pressure.

    References
    ----------
    [white2011] gauge pressure
    """
    return 0.0 if node < 0 else pressures[node]


@inner
def imbalances(
    layout: Layout,
    pressures: FloatArray,
    sizes: FloatArray,
    oil: Oil,
    flows: FloatArray,
    by_upstream: FloatArray,
    by_downstream: FloatArray,
    surplus: FloatArray,
    notes: FloatArray,
) -> tuple[float, float, float]:
    r"""Flow into each node less flow out of it.

    Parameters
    ----------
    layout : Layout
        The circuit.
    pressures : ndarray [Pa], shape (n)
        Gauge pressures.
    sizes : ndarray
        All sizes.
    oil : Oil
        Oil and speed.
    flows, by_upstream, by_downstream : ndarray, shape (m)
        Filled with flow of each part [m3/s] and its slopes.
    surplus : ndarray [m3/s], shape (n)
        Filled with what is too much at each node.
    notes : ndarray, shape (m, 12)
        What else the laws know of each part.

    Returns
    -------
    tuple of float [m3/s]
        Largest imbalance, sum of all, and what they are held against: the flow of the pumps.

    Notes
    -----
    .. math:: F_i = \sum_{j \to i} q_j - \sum_{i \to j} q_j

    Pumps that stand still would leave nothing to hold an imbalance against: 1e-9 m3/s is the least.

    References
    ----------
    [white2011] conservation of mass in a steady flow
    """
    fill(surplus, 0.0)
    pumped = LEAST_FLOW
    parts, curves, law = layout.parts, layout.curves, layout.law
    for part in range(parts.shape[0]):
        up, down = parts[part, UPSTREAM], parts[part, DOWNSTREAM]
        flow, slope_up, slope_down = law(
            parts[part, KIND],
            pressure_at(pressures, up),
            pressure_at(pressures, down),
            sizes[parts[part, FIRST] :],
            curves[parts[part, CURVE_START] : parts[part, CURVE_STOP]],
            oil,
            notes[part],
        )
        flows[part], by_upstream[part], by_downstream[part] = flow, slope_up, slope_down
        if up >= 0:
            surplus[up] -= flow
        if down >= 0:
            surplus[down] += flow
        if parts[part, KIND] == PUMP:
            pumped += abs(flow)
    largest, total = 0.0, 0.0
    for node in range(surplus.size):
        size = abs(surplus[node])
        total += size
        largest = size if not size <= largest else largest
    return largest, total, pumped
