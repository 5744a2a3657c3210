"""Compare numbers, saying what kind of expectation stands behind them.

Three kinds, never mixed:

`published`
    Somebody else's number, with the source, the place in it, the tolerance and the reason for the tolerance.
`verified`
    Derived a second way by this project: another method, another library, a closed form, hand working.
`golden`
    Our own earlier output. It only notices change and proves nothing.

A plain float tolerance is **relative** to the expected number; `absolute(x)` is in the unit of the
numbers. An expected zero needs `absolute`. Each call prints the largest deviation and returns it.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
from numpy.typing import ArrayLike, NDArray

SOURCES = Path(__file__).resolve().parents[2] / "docs" / "sources.toml"


@dataclass(frozen=True, slots=True)
class Absolute:
    """A tolerance in the unit of the compared numbers."""

    value: float


def absolute(value: float) -> Absolute:
    """Allow a deviation of `value`, in the unit of the numbers."""
    return Absolute(value)


def published(
    actual: ArrayLike,
    expected: ArrayLike,
    *,
    source: str,
    place: str,
    tolerance: float | Absolute,
    why: str,
) -> float:
    """Assert agreement with a published number.

    `source` is a key of docs/sources.toml, `place` the table, equation, page or example in it, and `why`
    the reason for the tolerance ("printed to 4 figures").
    """
    assert source in source_keys(), f"source {source!r} is not in docs/sources.toml; add its table there"
    assert place.strip(), "a published number needs its place in the source: table, equation, page or example"
    assert why.strip(), "a published number needs the reason for its tolerance"
    return _compare("published", actual, expected, tolerance, f"[{source}] {place}; {why}")


def verified(actual: ArrayLike, expected: ArrayLike, *, by: str, tolerance: float | Absolute) -> float:
    """Assert agreement with a number derived a second way; `by` names that way."""
    assert by.strip(), "a verified number needs the second way that it was derived"
    return _compare("verified", actual, expected, tolerance, by)


def golden(actual: ArrayLike, expected: ArrayLike, *, name: str, tolerance: float | Absolute) -> float:
    """Assert that our own output has not changed; `name` says which output."""
    assert name.strip(), "a golden number needs a name"
    return _compare("golden", actual, expected, tolerance, name)


@cache
def source_keys() -> frozenset[str]:
    """Keys of the sources that this project cites."""
    return frozenset(tomllib.loads(SOURCES.read_text(encoding="utf-8")))


def _compare(
    kind: str, actual: ArrayLike, expected: ArrayLike, tolerance: float | Absolute, about: str
) -> float:
    got = np.asarray(actual, dtype=np.float64)
    want = np.asarray(expected, dtype=np.float64)
    assert got.shape == want.shape, f"{kind} ({about}): shape {got.shape}, expected {want.shape}"
    assert got.size, f"{kind} ({about}): nothing to compare"
    assert np.isfinite(want).all(), f"{kind} ({about}): the expected numbers are not all finite"
    deviation, allowed, unit = _deviation(got, want, tolerance)
    worst = float(np.max(np.where(np.isnan(deviation), np.inf, deviation)))
    at = np.unravel_index(int(np.argmax(np.where(np.isnan(deviation), np.inf, deviation))), want.shape)
    print(f"{kind}: deviation {worst:.3g}{unit} of {allowed:.3g}{unit} allowed; {about}")
    assert worst <= allowed, (
        f"{kind} ({about}): got {got[at]!r}, expected {want[at]!r}{_place(at)}, "
        f"deviation {worst:.3g}{unit} exceeds {allowed:.3g}{unit}"
    )
    return worst


def _deviation(
    got: NDArray[np.float64], want: NDArray[np.float64], tolerance: float | Absolute
) -> tuple[NDArray[np.float64], float, str]:
    difference = np.abs(got - want)
    if isinstance(tolerance, Absolute):
        return difference, tolerance.value, " absolute"
    assert (want != 0.0).all(), "an expected zero has no relative deviation; use tolerance=absolute(...)"
    return difference / np.abs(want), tolerance, " relative"


def _place(at: tuple[np.intp, ...]) -> str:
    return f" at {tuple(int(index) for index in at)}" if at else ""
