"""Guards on arguments that are arrays: every element finite and within a range."""

from __future__ import annotations

from math import inf

import numpy as np
from numpy.typing import ArrayLike

from fitwright.physics.numerics.errors import OutOfDomainError


def require_above_zero(**arguments: ArrayLike) -> None:
    """Refuse arguments with an element that is not finite and above zero.

    Parameters
    ----------
    **arguments : array_like
        The arguments by their names.

    Raises
    ------
    OutOfDomainError
        With the first argument that fails, and the element.

    Examples
    --------
    >>> require_above_zero(length=[0.01, 0.0])
    Traceback (most recent call last):
        ...
    fitwright.physics.numerics.errors.OutOfDomainError: length is 0.0; it must be above zero
    """
    for name, value in arguments.items():
        numbers = np.asarray(value, dtype=float)
        _refuse(name, numbers, np.isfinite(numbers) & (numbers > 0.0), "above zero")


def require_within(least: float = 0.0, most: float = inf, **arguments: ArrayLike) -> None:
    """Refuse arguments with an element that is not finite and within two bounds.

    Parameters
    ----------
    least : float
        The lower bound, allowed.
    most : float
        The upper bound, allowed.
    **arguments : array_like
        The arguments by their names.

    Raises
    ------
    OutOfDomainError
        With the first argument that fails, and the element.

    Examples
    --------
    >>> require_within(most=1.0, eccentricity_ratio=1.2)
    Traceback (most recent call last):
        ...
    fitwright.physics.numerics.errors.OutOfDomainError: eccentricity_ratio is 1.2; it must be between 0 and 1
    """
    words = f"{least:g} or more" if most == inf else f"between {least:g} and {most:g}"
    for name, value in arguments.items():
        numbers = np.asarray(value, dtype=float)
        fine = np.isfinite(numbers) & (numbers >= least) & (numbers <= most)
        _refuse(name, numbers, fine, words)


def _refuse(
    name: str, numbers: np.ndarray[tuple[int, ...], np.dtype[np.float64]], fine: ArrayLike, words: str
) -> None:
    wrong = numbers[~np.asarray(fine)]
    if wrong.size:
        raise OutOfDomainError(name, float(wrong.flat[0]), words)
