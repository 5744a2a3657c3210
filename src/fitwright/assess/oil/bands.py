"""95 % bands of what the circuit answers, from a few hundred solutions a point.

The exact derivatives at the best estimate order the whole pool of equally likely engines for one answer
almost as the circuit itself would. So the engines that are solved are taken one from each of equally
likely strata of that order; the percentiles of their solutions are those of the whole pool but for what
the order misses. Other answers of the same solutions are put on the whole pool by a surface fitted to them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from fitwright.quantity import FloatArray

SAMPLES: Final = 200
"""Engines solved at each operating point."""

TAIL: Final = 0.08
IN_TAIL: Final = 60
"""So many of them stand for the outermost share of the pool at either end, where the edges lie."""

EDGES: Final = (0.025, 0.975)
"""Percentiles between which 95 % of equally likely engines lie."""

NOTHING: Final = 1e-12
"""An answer that varies by less than this share of itself does not vary."""


@dataclass(frozen=True, slots=True)
class Strata:
    """Engines chosen for solving.

    Attributes
    ----------
    rows : ndarray, shape (s,)
        Rows of the pool, in the order of what they answer to first order.
    shares : ndarray, shape (s,)
        For which share of the pool each of them stands; together 1.
    """

    rows: NDArray[np.intp]
    shares: FloatArray

    @classmethod
    def of(cls, responses: FloatArray) -> Strata:
        """The middle engine of each stratum of the pool by `responses`, shape (n,), to first order."""
        ends = _ends()
        order = np.argsort(responses, kind="stable")
        middles = 0.5 * (ends[1:] + ends[:-1]) * len(order)
        return cls(np.asarray(order[middles.astype(np.intp)]), np.diff(ends))

    def edges(self, solved: FloatArray) -> FloatArray:
        """Both edges of the 95 % band from the answers of these engines, shape (s,) to (2,).

        An answer that is not a number (not converged) leaves the band without edges: NaN.
        """
        if not np.isfinite(solved).all():
            return np.full(2, np.nan)
        order = np.argsort(solved, kind="stable")
        shares = self.shares[order]
        return np.interp(EDGES, np.cumsum(shares) - 0.5 * shares, solved[order])


@cache
def _ends() -> FloatArray:
    """Ends of the strata between 0 and 1: narrow around the edges of the band, wide between."""
    tail = np.linspace(0.0, TAIL, IN_TAIL + 1)
    middle = np.linspace(TAIL, 1.0 - TAIL, SAMPLES - 2 * IN_TAIL + 1)
    return np.concatenate([tail, middle[1:], 1.0 - tail[-2::-1]])


def edges_on_pool(pool: FloatArray, strata: Strata, solved: FloatArray) -> FloatArray:
    """Both edges of the 95 % band of any answer, by a surface fitted to solved engines.

    Parameters
    ----------
    pool
        Sizes of every engine [m], shape (n, k).
    strata
        The engines solved.
    solved
        Their answers, shape (s, m).

    Returns
    -------
    ndarray, shape (2, m)
        Lower and upper edge of each answer; NaN where a solution is not a number.

    Notes
    -----
    Linear in every size by least squares, then quadratic in that line; what the surface misses of the
    solved engines is added to its spread as their own residuals, each as often as the engine's share.
    """
    spread = pool.std(axis=0)
    moving = spread > 0.0
    scaled = (pool[:, moving] - pool[:, moving].mean(axis=0)) / spread[moving]
    design = np.column_stack([np.ones(len(pool)), scaled])
    root = np.sqrt(strata.shares)
    coefficients, *_ = np.linalg.lstsq(
        root[:, None] * design[strata.rows], root[:, None] * np.nan_to_num(solved), rcond=None
    )
    line = design @ coefficients
    edges = np.empty((2, solved.shape[1]))
    for column in range(solved.shape[1]):
        edges[:, column] = _edges(line[:, column], strata, solved[:, column])
    return edges


def _edges(line: FloatArray, strata: Strata, solved: FloatArray) -> FloatArray:
    if not np.isfinite(solved).all():
        return np.full(2, np.nan)
    if float(line.std()) <= NOTHING * float(np.abs(solved).max()):
        return strata.edges(solved)
    at = line[strata.rows]
    centre = float(line.mean())
    bend = np.polynomial.Polynomial.fit(at - centre, solved - at, 2, w=np.sqrt(strata.shares))
    surface = line + bend(np.clip(line, at.min(), at.max()) - centre)
    missed = solved - surface[strata.rows]
    often = np.repeat(missed, np.maximum(1, np.rint(strata.shares * len(line)).astype(np.intp)))
    return np.asarray(np.quantile(surface + np.resize(_shuffled(often), len(surface)), EDGES))


def _shuffled(values: FloatArray) -> FloatArray:
    """The same values in an order that has nothing to do with their size, the same every time."""
    return np.asarray(np.random.Generator(np.random.Philox(key=0)).permutation(values))
