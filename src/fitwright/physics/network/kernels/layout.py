"""The circuit and the state of the oil as flat arrays, which the kernels read."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, TypeAlias

import numpy as np
from numba import types
from numpy.typing import NDArray

from fitwright.physics.network.kernels.options import inner
from fitwright.physics.network.kernels.rows import copy
from fitwright.physics.oil.kernels.viscosity import VISCOSITY_FACTOR, density_at, viscosity
from fitwright.quantity import FloatArray

IntArray = NDArray[np.int64]
Law: TypeAlias = Callable[..., tuple[float, float, float]]


# Columns of `Layout.parts`; -1 is the sump, or nowhere in the matrix.
KIND, UPSTREAM, DOWNSTREAM, FIRST, CURVE_START, CURVE_STOP = 0, 1, 2, 3, 4, 5
CORNER_UPSTREAM, CORNER_DOWNSTREAM, SIDE_UPSTREAM, SIDE_DOWNSTREAM = 6, 7, 8, 9
# Columns of `Layout.links` and `Layout.lower`.
LINK_PART, LINK_SIZE = 0, 1
ENTRY, ROW, COLUMN, FIRST_UPDATE, LAST_UPDATE = 0, 1, 2, 3, 4


class Layout(NamedTuple):
    """A compiled circuit; nodes are counted in the order of elimination, -1 is the sump.

    Parts are the pieces of the paths: m of them, with n nodes; k parameters of
    its own with l links to sizes that follow them. Few arrays: every function takes the whole apart.
    """

    parts: IntArray  # (m, 10) of each part: kind, nodes, where its sizes, curves and matrix entries are
    sizes: FloatArray  # all sizes, those that follow a parameter at their nominal value
    link_start: IntArray  # (k + 1,) first link of each of the circuit's own parameters
    links: IntArray  # (l, 2) part, and which of its sizes
    link_values: FloatArray  # (l, 2) factor, offset
    curves: FloatArray  # (rows, 14)
    entries: int  # of the matrix, with those that elimination fills
    diagonal: IntArray  # (n,) where the pivots are stored
    lower: IntArray  # (e, 5) entries below the diagonal: where stored, row, column, its updates
    updates: IntArray  # (u, 2) entry from which the multiple of another is taken
    upper_start: IntArray  # (n + 1,)
    uppers: IntArray  # (v, 2) entries right of the diagonal, row by row: where stored, column
    fed: IntArray  # (n,) 1 where the pump presses, 0 where it draws; for a first guess
    law: Law  # `laws.flow_through`, called by its address


class Oil(NamedTuple):
    """Oil and speed at one operating point."""

    angular_speed: float
    temperature: float
    density: float
    viscosity: float
    parameters: FloatArray


_FLOAT = types.float64
_FLOATS = types.Array(_FLOAT, 1, "C")
LAW_TYPE = types.UniTuple(_FLOAT, 3)(  # type: ignore[no-untyped-call]  # as in numba's manual
    types.int64,
    _FLOAT,
    _FLOAT,
    _FLOATS,
    types.Array(_FLOAT, 2, "C"),
    types.NamedTuple((_FLOAT, _FLOAT, _FLOAT, _FLOAT, _FLOATS), Oil),  # type: ignore[no-untyped-call]
    _FLOATS,
)
"""Type of the law of all parts: kind, pressures, sizes, curves, oil, notes; flow and its two slopes."""

# Notes of a bearing: film and outlet temperature, eccentricity ratio, smallest film thickness, friction
# power, pressure flow, hydrodynamic demand, inside its curves, heat balanced, load, slope of the flow by the
# radial clearance, flow of one. Of a pump: swept, filled, leakage and net flow, both pressures. Of a relief
# valve: lift, slopes of the flow by the plunger's radial clearance and by the preload.
NOTES = 12
FILM_TEMPERATURE, BY_CLEARANCE = 0, 10
BY_PLUNGER, BY_PRELOAD = 1, 2


@inner
def oil_at(
    angular_speed: float, temperature: float, common: FloatArray, oil: FloatArray, work: FloatArray
) -> Oil:
    """Oil at an operating point, with the parameters applied that every circuit has.

    Parameters
    ----------
    angular_speed : float [rad/s]
        Of the crank.
    temperature : float [K]
        Of the oil.
    common : ndarray, shape (3)
        Factor on the viscosity, change of the temperature in kelvin, factor on the speed.
    oil : ndarray
        From `oil_parameters`.
    work : ndarray
        Room for a changed copy of it.

    Returns
    -------
    Oil
        Oil and speed.

    References
    ----------
    [astm_d341_2020] viscosity over temperature
    """
    copy(work, oil)
    work[VISCOSITY_FACTOR] = oil[VISCOSITY_FACTOR] * common[0]
    warm = temperature + common[1]
    return Oil(angular_speed * common[2], warm, density_at(oil, warm), viscosity(work, warm, 0.0), work)


@inner
def fill_sizes(layout: Layout, parameters: FloatArray, sizes: FloatArray) -> None:
    """Write all sizes that follow from the parameters.

    Parameters
    ----------
    layout : Layout
        The circuit.
    parameters : ndarray, shape (k)
        Values in the order of `Circuit.parameter_names`.
    sizes : ndarray
        Filled.
    """
    copy(sizes, layout.sizes)
    for own in range(layout.link_start.size - 1):
        for link in range(layout.link_start[own], layout.link_start[own + 1]):
            part, size = layout.links[link, LINK_PART], layout.links[link, LINK_SIZE]
            place = layout.parts[part, FIRST] + size
            sizes[place] = layout.link_values[link, 0] * parameters[own] + layout.link_values[link, 1]
