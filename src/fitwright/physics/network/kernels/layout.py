"""The circuit and the state of the oil as flat arrays, which the kernels read."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numba import njit
from numpy.typing import NDArray

from fitwright.physics.oil.kernels.viscosity import VISCOSITY_FACTOR, density_at, viscosity
from fitwright.quantity import FloatArray

IntArray = NDArray[np.int64]


class Layout(NamedTuple):
    """A compiled circuit; nodes are counted in the order of elimination, -1 is the sump.

    Parts are the pieces of the paths: m of them, with n nodes; k parameters of
    its own with l links to sizes that follow them.
    """

    kind: IntArray  # (m,) of each part
    upstream: IntArray  # (m,) node
    downstream: IntArray  # (m,) node
    first: IntArray  # (m,) where its sizes begin in `sizes`
    sizes: FloatArray  # all sizes, those that follow a parameter at their nominal value
    link_start: IntArray  # (k + 1,) first link of each of the circuit's own parameters
    link_part: IntArray  # (l,)
    link_size: IntArray  # (l,) which of the part's sizes
    link_factor: FloatArray  # (l,)
    link_offset: FloatArray  # (l,)
    curve_start: IntArray  # (m,) first row of the part's curves in `curves`
    curve_stop: IntArray  # (m,)
    curves: FloatArray  # (rows, 14)
    corner_upstream: IntArray  # (m,) where the part adds to the matrix: (up, up), -1 for nowhere
    corner_downstream: IntArray  # (m,) (down, down)
    side_upstream: IntArray  # (m,) (up, down)
    side_downstream: IntArray  # (m,) (down, up)
    entries: int  # of the matrix, with those that elimination fills
    diagonal: IntArray  # (n,)
    lower: IntArray
    lower_row: IntArray
    lower_column: IntArray
    update_start: IntArray
    update_target: IntArray
    update_source: IntArray
    upper_start: IntArray
    upper: IntArray
    upper_column: IntArray
    fed: IntArray  # (n,) 1 where the pump presses, 0 where it draws; for a first guess


class Oil(NamedTuple):
    """Oil and speed at one operating point."""

    angular_speed: float
    temperature: float
    density: float
    viscosity: float
    parameters: FloatArray


@njit(cache=True, nogil=True, error_model="numpy")
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
    work[:] = oil
    work[VISCOSITY_FACTOR] = oil[VISCOSITY_FACTOR] * common[0]
    warm = temperature + common[1]
    return Oil(angular_speed * common[2], warm, density_at(oil, warm), viscosity(work, warm, 0.0), work)


@njit(cache=True, nogil=True, error_model="numpy")
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
    sizes[:] = layout.sizes
    for own in range(layout.link_start.size - 1):
        for link in range(layout.link_start[own], layout.link_start[own + 1]):
            place = layout.first[layout.link_part[link]] + layout.link_size[link]
            sizes[place] = layout.link_factor[link] * parameters[own] + layout.link_offset[link]
