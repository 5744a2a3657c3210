"""Laws of pipes at every element of flat arrays, compiled."""

from __future__ import annotations

import numpy as np
from numba import njit

from fitwright.physics.passages.kernels.pipe import friction, pipe, pipe_drop
from fitwright.quantity import FloatArray


@njit(cache=True, nogil=True, error_model="numpy")
def frictions(reynolds: FloatArray, relative_roughness: FloatArray) -> FloatArray:
    r"""Friction factor at each element.

    Parameters
    ----------
    reynolds : ndarray [1], shape (n)
        Reynolds numbers.
    relative_roughness : ndarray [1], shape (n)
        Roughness heights over the diameter.

    Returns
    -------
    ndarray [1], shape (n)
        Friction factors.

    References
    ----------
    [colebrook1939] transition between smooth and rough pipes
    """
    found = np.empty(len(reynolds))
    for i in range(len(found)):
        found[i], _ = friction(reynolds[i], relative_roughness[i])
    return found


@njit(cache=True, nogil=True, error_model="numpy")
def flows(
    pressure_drop: FloatArray,
    diameter: FloatArray,
    length: FloatArray,
    roughness: FloatArray,
    loss_coefficient: FloatArray,
    density: FloatArray,
    viscosity: FloatArray,
) -> FloatArray:
    r"""Flow of a pipe at each element.

    Parameters
    ----------
    pressure_drop : ndarray [Pa], shape (n)
        Pressure upstream minus downstream.
    diameter : ndarray [m], shape (n)
        Inside diameter.
    length : ndarray [m], shape (n)
        Length.
    roughness : ndarray [m], shape (n)
        Roughness height of the wall.
    loss_coefficient : ndarray [1], shape (n)
        Sum of the loss coefficients.
    density : ndarray [kg/m3], shape (n)
        Density.
    viscosity : ndarray [Pa s], shape (n)
        Dynamic viscosity.

    Returns
    -------
    ndarray [m3/s], shape (n)
        Volume flow, NaN where none was found.

    References
    ----------
    [white2011] pipe flow, flow rate unknown
    """
    found = np.empty(len(pressure_drop))
    for i in range(len(found)):
        found[i], _ = pipe(
            pressure_drop[i],
            diameter[i],
            length[i],
            roughness[i],
            loss_coefficient[i],
            density[i],
            viscosity[i],
        )
    return found


@njit(cache=True, nogil=True, error_model="numpy")
def drops(
    flow: FloatArray,
    diameter: FloatArray,
    length: FloatArray,
    roughness: FloatArray,
    loss_coefficient: FloatArray,
    density: FloatArray,
    viscosity: FloatArray,
) -> FloatArray:
    r"""Pressure drop of a pipe at each element.

    Parameters
    ----------
    flow : ndarray [m3/s], shape (n)
        Volume flow.
    diameter : ndarray [m], shape (n)
        Inside diameter.
    length : ndarray [m], shape (n)
        Length.
    roughness : ndarray [m], shape (n)
        Roughness height of the wall.
    loss_coefficient : ndarray [1], shape (n)
        Sum of the loss coefficients.
    density : ndarray [kg/m3], shape (n)
        Density.
    viscosity : ndarray [Pa s], shape (n)
        Dynamic viscosity.

    Returns
    -------
    ndarray [Pa], shape (n)
        Pressure drop.

    References
    ----------
    [white2011] head loss of pipes and minor losses
    """
    found = np.empty(len(flow))
    for i in range(len(found)):
        found[i], _ = pipe_drop(
            flow[i], diameter[i], length[i], roughness[i], loss_coefficient[i], density[i], viscosity[i]
        )
    return found
