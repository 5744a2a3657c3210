"""95 % bands of what the circuit answers, from a few hundred solutions a point.

The exact derivatives at the best estimate order the whole pool of equally likely engines for one answer
almost as the circuit itself would. So the engines that are solved are taken one from each of equally
likely strata of that order; the percentiles of their solutions are those of the whole pool but for what
the order misses. Other answers of the same solutions are put on the whole pool by a surface fitted to them.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final, TypeAlias

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
    """Both edges of the 95 % band of any answers, by a surface fitted to solved engines.

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
    line = _line(pool, strata, solved)
    at, root = line[strata.rows], np.sqrt(strata.shares)[:, None]
    bend = _bent(at, solved - at, root)
    surface = line + _bend_at(np.clip(line, at.min(axis=0), at.max(axis=0)), bend)
    missed = solved - surface[strata.rows]
    often = np.repeat(
        np.arange(len(solved)), np.maximum(1, np.rint(strata.shares * len(pool)).astype(np.intp))
    )
    surface += missed[np.resize(_shuffled(often), len(pool))]
    edges = np.quantile(surface, EDGES, axis=0)
    return np.where(np.isfinite(solved).all(axis=0), edges, np.nan)


def _line(pool: FloatArray, strata: Strata, solved: FloatArray) -> FloatArray:
    """The answers of the whole pool, linear in every size that varies, shape (n, m)."""
    spread = pool.std(axis=0)
    moving = spread > 0.0
    scaled = (pool[:, moving] - pool[:, moving].mean(axis=0)) / spread[moving]
    design = np.column_stack([np.ones(len(pool)), scaled])
    root = np.sqrt(strata.shares)[:, None]
    coefficients, *_ = np.linalg.lstsq(root * design[strata.rows], root * np.nan_to_num(solved), rcond=None)
    return np.asarray(design @ coefficients)


Bend: TypeAlias = tuple[FloatArray, FloatArray, FloatArray]
"""Middle and width of a line for each answer, and three coefficients of what bends beside it."""


def _bent(line: FloatArray, missed: FloatArray, root: FloatArray) -> Bend:
    """A quadratic in the line for each answer: middle and width of the line, three coefficients."""
    middle, width = line.mean(axis=0), np.maximum(line.std(axis=0), 1e-300)
    t = (line - middle) / width
    powers = np.stack([np.ones_like(t), t, t * t], axis=-1) * root[..., None]
    normal = np.einsum("smi,smj->mij", powers, powers) + 1e-12 * np.eye(3)
    right = np.einsum("smi,sm->mi", powers, np.nan_to_num(missed) * root)
    return middle, width, np.linalg.solve(normal, right[..., None])[..., 0]


def _bend_at(line: FloatArray, bend: Bend) -> FloatArray:
    middle, width, coefficients = bend
    t = (line - middle) / width
    return np.asarray(coefficients[:, 0] + t * (coefficients[:, 1] + t * coefficients[:, 2]))


def _shuffled(values: NDArray[np.intp]) -> NDArray[np.intp]:
    """The same values in an order that has nothing to do with their size, the same every time."""
    return np.asarray(np.random.Generator(np.random.Philox(key=0)).permutation(values))
