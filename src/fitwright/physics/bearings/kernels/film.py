"""Pressure and filling of an oil film by finite volumes, whose ruptured part conserves the oil.

Nodes (i, j) lie around (i, closing on itself) and along (j) the bearing. Everything is dimensionless: film
thickness over radial clearance, lengths over journal radius, pressure over 6 mu omega (R/c)^2 and above that
of the ruptured film, flow over c omega R^2 / 2. A node is fixed, or full (its pressure is unknown), or
ruptured (its emptiness, one less the share of the gap that is filled, is unknown). The equations are linear
once it is known which is which; that is found by solving and switching the nodes whose answer contradicts
their kind, until none does. Upwind emptiness and central pressure make a matrix that needs no pivoting.
"""

from __future__ import annotations

import math

import numpy as np
from numba import njit
from numpy.typing import NDArray

from fitwright.physics.bearings.kernels.banded import factor_band, solve_band_once, solve_ring
from fitwright.quantity import FloatArray

FREE, END, SUPPLY = 0, 1, 2
DRYING = 1e-13
"""Share of its oil that a ruptured volume loses: a ring that nothing feeds any more is dry, not undecided."""


@njit(cache=True, nogil=True, error_model="numpy")
def conductances(
    angles: FloatArray, places: FloatArray, film: FloatArray, face_film: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
    """Flow per pressure difference to the next node around and along, and the widths of the volumes.

    Parameters
    ----------
    angles : array (n,)
        Nodes around, ascending within a turn.
    places : array (m,)
        Nodes along, ascending.
    film : array (n, m)
        Film thickness at the nodes.
    face_film : array (n, m)
        Film thickness midway to the next node around.

    Returns
    -------
    tuple of arrays (n, m), (n, m), (n,), (m,)
        Conductance around and along, width around and along.

    References
    ----------
    [patankar1980] volumes around nodes, fluxes at their faces
    """
    around, along = film.shape
    step = np.empty(around)
    for i in range(around):
        step[i] = angles[(i + 1) % around] - angles[i]
    step[around - 1] += 2.0 * np.pi
    width = np.empty(around)
    for i in range(around):
        width[i] = 0.5 * (step[i] + step[i - 1])
    depth = np.zeros(along)
    for j in range(along - 1):
        half = 0.5 * (places[j + 1] - places[j])
        depth[j] += half
        depth[j + 1] += half
    next_around = np.empty((around, along))
    next_along = np.zeros((around, along))
    for i in range(around):
        for j in range(along):
            next_around[i, j] = face_film[i, j] ** 3 * depth[j] / step[i]
            if j + 1 < along:
                middle = 0.5 * (film[i, j] + film[i, j + 1])
                next_along[i, j] = middle**3 * width[i] / (places[j + 1] - places[j])
    return next_around, next_along, width, depth


@njit(cache=True, nogil=True, error_model="numpy")
def numbering(  # noqa: C901 - two plain loops over the nodes
    kinds: NDArray[np.int8],
) -> tuple[NDArray[np.int64], NDArray[np.int64], int, int]:
    """Numbers of the free nodes (-1 for the others), node of each number, band width, and the border.

    Numbers run around the bearing from behind a line of fixed nodes right across it; without such a line the
    last row around is the border that closes the ring.

    Parameters
    ----------
    kinds : array (n, m)
        Free, end or supply.

    Returns
    -------
    tuple of arrays (n, m), (k,) and two int
        Numbers, nodes, band width, and how many of the last numbers are the border.

    References
    ----------
    [golub2013] band matrices
    """
    around, along = kinds.shape
    start, closed = 0, True
    for i in range(around):
        crossed = True
        for j in range(along):
            crossed = crossed and kinds[i, j] != FREE
        if crossed:
            start, closed = i, False
    numbers = np.full((around, along), -1)
    nodes = np.empty(around * along, np.int64)
    count, border = 0, 0
    for k in range(around):
        i = (start + k) % around
        for j in range(along):
            if kinds[i, j] == FREE:
                numbers[i, j] = count
                nodes[count] = i * along + j
                count += 1
                if closed and k == around - 1:
                    border += 1
    width = 1
    for i in range(around):
        for j in range(along):
            here, following = numbers[i, j], numbers[(i + 1) % around, j]
            if here >= 0 and count - border > following > here:
                width = max(width, following - here)
    return numbers, nodes[:count], width, border


@njit(cache=True, nogil=True, error_model="numpy")
def solve_film(
    angles: FloatArray,
    places: FloatArray,
    film: FloatArray,
    face_film: FloatArray,
    squeeze: FloatArray,
    wedge: float,
    conserving: bool,  # noqa: FBT001 - numba calls by position
    kinds: NDArray[np.int8],
    pressure: FloatArray,
    ruptured: NDArray[np.bool_],
    most: int,
) -> tuple[FloatArray, int, int]:
    """Solve for pressure (in place, as the ruptured nodes) and emptiness.

    Parameters
    ----------
    angles : array (n,)
        Nodes around, ascending within a turn.
    places : array (m,)
        Nodes along, ascending.
    film : array (n, m)
        Film thickness at the nodes.
    face_film : array (n, m)
        Film thickness midway to the next node around.
    squeeze : array (n, m)
        Twice the rate of change of the film thickness over omega.
    wedge : float
        Entraining speed over omega.
    conserving : bool
        Whether the emptiness is carried along; if not, every moment starts from a full film.
    kinds : array (n, m)
        Free, end or supply.
    pressure : array (n, m)
        That of fixed nodes; of all nodes afterwards.
    ruptured : array (n, m)
        Where to begin with a ruptured film; where it is ruptured afterwards.
    most : int
        Linear solutions after which it gives up.

    Returns
    -------
    tuple of array (n, m) and two int
        Emptiness; iterations; how many nodes still contradicted their kind, -1 where no oil reaches a ring
        of the film.

    References
    ----------
    [elrod1981] one equation for full and ruptured film
    [murty1974] switching all that contradict their kind
    """
    numbers, nodes, band_width, border = numbering(kinds)
    neighbours, conductance, outward, constant = _couplings(
        angles, places, film, face_film, squeeze, wedge, pressure, numbers, nodes
    )
    along, count, inner = film.shape[1], nodes.size, nodes.size - border
    empty = np.empty(count, np.bool_)
    for n in range(count):
        empty[n] = ruptured[nodes[n] // along, nodes[n] % along]
    band = np.empty((inner, 2 * band_width + 1))
    columns, rows = np.empty((inner, border)), np.empty((border, inner))
    corner, found = np.empty((border, border)), np.empty(count)
    iterations, switched = 0, 1
    while switched > 0 and iterations < most:
        iterations += 1
        for matrix in (band, columns, rows, corner):
            _clear(matrix)
        _assemble(neighbours, conductance, outward, empty, conserving, band, columns, rows, corner)
        for n in range(count):
            found[n] = constant[n]
            if conserving and empty[n]:
                found[n] -= DRYING * (max(outward[n, 0], 0.0) + max(outward[n, 1], 0.0))
        if border:
            found = solve_ring(band, band_width, found[:inner], columns, rows, corner, found[inner:])
        else:
            factor_band(band, band_width)
            solve_band_once(band, band_width, found)
        switched = _switch(found, empty)
    emptiness = np.zeros(film.shape)
    for n in range(count):
        i, j = nodes[n] // along, nodes[n] % along
        ruptured[i, j] = empty[n]
        pressure[i, j] = 0.0 if empty[n] else found[n]
        emptiness[i, j] = min(max(-found[n], 0.0), 1.0) if empty[n] else 0.0
    return emptiness, iterations, switched


@njit(cache=True, nogil=True, error_model="numpy")
def _couplings(
    angles: FloatArray,
    places: FloatArray,
    film: FloatArray,
    face_film: FloatArray,
    squeeze: FloatArray,
    wedge: float,
    pressure: FloatArray,
    numbers: NDArray[np.int64],
    nodes: NDArray[np.int64],
) -> tuple[NDArray[np.int64], FloatArray, FloatArray, FloatArray]:
    """Of each unknown: the four neighbours (-1: fixed or none), conductance and carried oil, right side."""
    next_around, next_along, width, depth = conductances(angles, places, film, face_film)
    around, along = film.shape
    neighbours = np.full((nodes.size, 4), -1)
    conductance, outward = np.zeros((nodes.size, 4)), np.zeros((nodes.size, 4))
    constant = np.empty(nodes.size)
    for n in range(nodes.size):
        i, j = nodes[n] // along, nodes[n] % along
        before, after = (i - 1) % around, (i + 1) % around
        conductance[n, 0], conductance[n, 1] = next_around[i, j], next_around[before, j]
        outward[n, 0] = wedge * face_film[i, j] * depth[j]
        outward[n, 1] = -wedge * face_film[before, j] * depth[j]
        constant[n] = -outward[n, 0] - outward[n, 1] - squeeze[i, j] * width[i] * depth[j]
        for side in range(4):
            a, b = i, j
            if side == 0:
                a = after
            elif side == 1:
                a = before
            elif side == 2:
                b = j + 1
            else:
                b = j - 1
            if 0 <= b < along:
                if side >= 2:
                    conductance[n, side] = next_along[i, min(j, b)]
                neighbours[n, side] = numbers[a, b]
                if numbers[a, b] < 0:
                    constant[n] += conductance[n, side] * pressure[a, b]
    return neighbours, conductance, outward, constant


@njit(cache=True, nogil=True, error_model="numpy")
def _clear(matrix: FloatArray) -> None:
    for i in range(matrix.shape[0]):
        for j in range(matrix.shape[1]):
            matrix[i, j] = 0.0


@njit(cache=True, nogil=True, error_model="numpy")
def _assemble(
    neighbours: NDArray[np.int64],
    conductance: FloatArray,
    outward: FloatArray,
    empty: NDArray[np.bool_],
    conserving: bool,  # noqa: FBT001 - numba calls by position
    band: FloatArray,
    columns: FloatArray,
    rows: FloatArray,
    corner: FloatArray,
) -> None:
    """Coefficients of the unknowns, in matrices full of zeros; a plain index into the band is quickest."""
    inner, wide = band.shape
    width, flat = wide // 2, band.reshape(-1)
    for n in range(empty.size):
        own = 0.0
        for side in range(4):
            own += _share(empty[n], conserving, conductance[n, side], outward[n, side])
            m = neighbours[n, side]
            if m < 0:
                continue
            weight = -_share(empty[m], conserving, conductance[n, side], -outward[n, side])
            if n < inner and m < inner:
                flat[n * wide + m - n + width] = weight
            elif n < inner:
                columns[n, m - inner] = weight
            elif m < inner:
                rows[n - inner, m] = weight
            else:
                corner[n - inner, m - inner] = weight
        if empty[n]:
            own = own * (1.0 + DRYING) if conserving else 1.0
        if n < inner:
            flat[n * wide + width] = own
        else:
            corner[n - inner, n - inner] = own


@njit(cache=True, nogil=True, error_model="numpy")
def _share(ruptured: bool, conserving: bool, conductance: float, outward: float) -> float:  # noqa: FBT001
    """What a node's unknown lets out across a face: by its pressure, or downstream by being less empty."""
    if not ruptured:
        return conductance
    return max(outward, 0.0) if conserving else 0.0


@njit(cache=True, nogil=True, error_model="numpy")
def _switch(found: FloatArray, empty: NDArray[np.bool_]) -> int:
    """Switch full nodes below zero pressure and ruptured ones more than full; -1 where nothing answers."""
    largest, switched = 0.0, 0
    for n in range(found.size):
        if not empty[n]:
            largest = max(largest, abs(found[n]))
    for n in range(found.size):
        if not math.isfinite(found[n]):
            return -1
        if (not empty[n] and found[n] < -1e-13 * largest) or (empty[n] and found[n] > 1e-12):
            empty[n] = not empty[n]
            switched += 1
    return switched


@njit(cache=True, nogil=True, error_model="numpy")
def balance(
    angles: FloatArray,
    places: FloatArray,
    film: FloatArray,
    face_film: FloatArray,
    squeeze: FloatArray,
    wedge: float,
    pressure: FloatArray,
    emptiness: FloatArray,
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Flow out of each node's volume, to the next node around, and out of a full film without pressure.

    Parameters
    ----------
    angles : array (n,)
        Nodes around, ascending within a turn.
    places : array (m,)
        Nodes along, ascending.
    film : array (n, m)
        Film thickness at the nodes.
    face_film : array (n, m)
        Film thickness midway to the next node around.
    squeeze : array (n, m)
        Twice the rate of change of the film thickness over omega.
    wedge : float
        Entraining speed over omega.
    pressure : array (n, m)
        Pressure at the nodes.
    emptiness : array (n, m)
        Emptiness at the nodes.

    Returns
    -------
    tuple of three arrays (n, m)
        Flows as named.

    References
    ----------
    [patankar1980] volumes around nodes, fluxes at their faces
    """
    next_around, next_along, width, depth = conductances(angles, places, film, face_film)
    around, along = film.shape
    net, onward = np.zeros((around, along)), np.empty((around, along))
    drive = np.empty((around, along))
    for i in range(around):
        for j in range(along):
            drive[i, j] = squeeze[i, j] * width[i] * depth[j]
    for i in range(around):
        a = (i + 1) % around
        for j in range(along):
            carried = wedge * face_film[i, j] * depth[j]
            upstream = emptiness[i, j] if wedge > 0.0 else emptiness[a, j]
            onward[i, j] = carried * (1.0 - upstream) + next_around[i, j] * (pressure[i, j] - pressure[a, j])
            net[i, j] += onward[i, j] + squeeze[i, j] * width[i] * depth[j]
            net[a, j] -= onward[i, j]
            drive[i, j] += carried
            drive[a, j] -= carried
            if j + 1 < along:
                outward = next_along[i, j] * (pressure[i, j] - pressure[i, j + 1])
                net[i, j] += outward
                net[i, j + 1] -= outward
    return net, onward, drive
