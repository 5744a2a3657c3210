"""A pool of equally likely engines: the sizes of the circuit drawn from what is known of them.

Every unknown (a setting's zero, a micrometer's screw, one reading's own scatter, a size that is only
bounded) has a stream of its own, keyed by its name, which holds the id of the entry that it came with.
So the same record always gives the same pool, what two sizes share moves both, and a note or an
unrelated reading changes no digit.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from hashlib import blake2b
from typing import Final

import numpy as np
from numpy.typing import NDArray

from fitwright.assess.oil.sizes import PARTS_AS_WARM_AS_OIL, TEMPERATURE_UNCERTAINTY, KnownSize
from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE
from fitwright.quantity import FloatArray

DRAWS: Final = 8192
"""Engines in the pool; every second one mirrors the one before it."""

LEAST_GAP: Final = 1e-3
"""No draw falls below this share of the size itself: a gap cannot close to nothing and still turn."""

STREAMS_KEPT: Final = 2048


@dataclass(frozen=True, slots=True)
class Pool:
    """Equally likely engines.

    Attributes
    ----------
    best : ndarray [m], shape (k,)
        Each size as best known, cold.
    cold : ndarray [m], shape (n, k)
        Each size of each engine, cold.
    per_kelvin : ndarray [m/K], shape (k,)
        How each size grows as best known.
    growth : ndarray [m/K], shape (n, k)
        How each size of each engine grows.
    warmer : ndarray [K], shape (n,)
        By how much the parts of each engine are warmer than its oil.
    """

    best: FloatArray
    cold: FloatArray
    per_kelvin: FloatArray
    growth: FloatArray
    warmer: FloatArray

    def best_at(self, temperatures: FloatArray) -> FloatArray:
        """Best sizes [m] at oil temperatures [K], shape (p, k)."""
        rise = np.asarray(temperatures, dtype=np.float64)[:, None] - REFERENCE_TEMPERATURE
        return np.asarray(self.best + self.per_kelvin * rise)

    def at(self, temperature: float, rows: NDArray[np.intp] | slice = slice(None)) -> FloatArray:
        """Sizes [m] of some engines of the pool at an oil temperature [K], shape (rows, k)."""
        rise = temperature - REFERENCE_TEMPERATURE + self.warmer[rows]
        sizes = self.cold[rows] + self.growth[rows] * rise[:, None]
        return np.asarray(np.maximum(sizes, LEAST_GAP * self.best))


def pool_of(sizes: Sequence[KnownSize]) -> Pool:
    """Draw the pool of the sizes of a circuit, in their order.

    Raises
    ------
    ValueError
        If a size is not known at all.
    """
    unknown = [each.id for each in sizes if not np.isfinite(each.value)]
    if unknown:
        raise ValueError(f"not known: {', '.join(unknown)}")
    best = np.array([each.value for each in sizes])
    return Pool(
        best=best,
        cold=_cold(sizes, best),
        per_kelvin=np.array([each.growth.per_kelvin for each in sizes]),
        growth=_growth(sizes),
        warmer=TEMPERATURE_UNCERTAINTY * _normal(PARTS_AS_WARM_AS_OIL),
    )


def _cold(sizes: Sequence[KnownSize], best: FloatArray) -> FloatArray:
    cold = best + _summed([each.loadings if each.band is None else {} for each in sizes])
    for column, each in enumerate(sizes):
        if each.band is not None:
            low, high = each.band
            cold[:, column] = low + (high - low) * _even(f"band of {each.id}")
    return np.asarray(cold)


def _growth(sizes: Sequence[KnownSize]) -> FloatArray:
    expansion = [
        {f"expansion:{material}": each for material, each in size.growth.expansion.items()} for size in sizes
    ]
    return np.asarray(np.array([each.growth.per_kelvin for each in sizes]) + _summed(expansion))


def _summed(loadings: Sequence[Mapping[str, float]]) -> FloatArray:
    """What all sources together change of each size, shape (n, k)."""
    keys = sorted({key for each in loadings for key in each})
    if not keys:
        return np.zeros((DRAWS, len(loadings)))
    matrix = np.array([[each.get(key, 0.0) for each in loadings] for key in keys])
    return np.asarray(np.stack([_normal(key) for key in keys], axis=1) @ matrix)


@lru_cache(maxsize=STREAMS_KEPT)
def _normal(key: str) -> FloatArray:
    half = _stream(key).standard_normal(DRAWS // 2)
    return _paired(half, -half)


@lru_cache(maxsize=STREAMS_KEPT)
def _even(key: str) -> FloatArray:
    half = _stream(key).random(DRAWS // 2)
    return _paired(half, 1.0 - half)


def _stream(key: str) -> np.random.Generator:
    digest = blake2b(key.encode(), digest_size=16).digest()
    return np.random.Generator(np.random.Philox(key=int.from_bytes(digest, "big")))


def _paired(first: FloatArray, mirrored: FloatArray) -> FloatArray:
    both = np.stack([first, mirrored], axis=1).reshape(-1)
    both.setflags(write=False)
    return both
