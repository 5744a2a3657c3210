"""Where a film is likely to be ruptured: the answer of every other node, as a place to begin at."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.bearings.grids import FilmNodes
from fitwright.quantity import FloatArray

COARSE_ITERATIONS = 15
WORTH_WHILE = (64, 9)
"""Nodes around and along from which on a coarse answer is quicker than a worse beginning."""


def coarse_extent(
    nodes: FilmNodes, squeeze: FloatArray, pressure: FloatArray, wedge: float, *, conserving: bool
) -> NDArray[np.bool_]:
    """Ruptured nodes to begin with.

    Parameters
    ----------
    nodes : FilmNodes
        The nodes of the film.
    squeeze : array (n, m)
        As the kernel takes it.
    pressure : array (n, m)
        Pressure of the fixed nodes.
    wedge : float
        As the kernel takes it.
    conserving : bool
        As the kernel takes it.

    Returns
    -------
    array (n, m) of bool
        From a solution on every other node, which need not have converged; nowhere for few nodes.

    References
    ----------
    [brandt1977] begin on a coarser grid
    """
    from fitwright.physics.bearings.kernels.film import FREE, SUPPLY, solve_film

    ruptured = np.zeros(nodes.kinds.shape, dtype=np.bool_)
    around, along = nodes.angles.size, nodes.places.size
    if around < WORTH_WHILE[0] or along < WORTH_WHILE[1] or around % 2 or not along % 2:
        return ruptured
    fed = nodes.kinds == SUPPLY
    odd = int(fed[1::2].sum() > fed[::2].sum())  # keep the nodes of a line across
    # Only with lines across: the fronts of a film that starves elsewhere are found quicker from a full film.
    lines = fed.all(axis=1)
    if conserving and (fed[~lines].any() or not lines[odd::2].any()):
        return ruptured
    coarse = np.zeros(fed[odd::2, ::2].shape, dtype=np.bool_)
    film = np.roll(nodes.film, -odd, axis=0)
    solve_film(
        nodes.angles[odd::2].copy(),
        nodes.places[::2].copy(),
        film[::2, ::2].copy(),
        film[1::2, ::2].copy(),
        squeeze[odd::2, ::2].copy(),
        wedge,
        conserving,
        nodes.kinds[odd::2, ::2].copy(),
        pressure[odd::2, ::2].copy(),
        coarse,
        COARSE_ITERATIONS,
    )
    spread = np.repeat(np.repeat(coarse, 2, axis=0), 2, axis=1)[:, :along]
    ruptured[:] = np.roll(spread, odd, axis=0) & (nodes.kinds == FREE)
    return ruptured
