"""The combinations of places on which a chain is judged."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

import numpy as np

from fitwright.physics.metrology.errors import MismatchedPairError
from fitwright.physics.metrology.unknowns import require_finite
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Number

MOST_COMBINATIONS = 100_000
"""A chain with more combinations is refused: it would no longer be judged in the blink of an eye."""


@dataclass(frozen=True, slots=True)
class Term:
    """One dimension of a chain.

    Attributes
    ----------
    coefficient : float
        Factor with which the dimension enters: +1 for a bore, -1 for a journal.
    places : tuple of str
        All places of the dimension that count.
    """

    coefficient: Number
    places: tuple[str, ...]

    def __post_init__(self) -> None:
        """Refuse a factor that is no number."""
        require_finite("coefficient of a term", self.coefficient)


@dataclass(frozen=True, slots=True)
class Combinations:
    """N combinations, each with one place of each term.

    Attributes
    ----------
    names : tuple of tuple of str
        The places of each combination, in the order of the terms.
    places : tuple of str
        All Q places that take part, in order of name.
    selection : ndarray [1], shape (N, Q)
        Factor with which each place enters each combination.
    """

    names: tuple[tuple[str, ...], ...]
    places: tuple[str, ...]
    selection: FloatArray


def combinations(
    terms: Sequence[Term], measured: Collection[str], pairs: Sequence[tuple[str, ...]] | None = None
) -> Combinations:
    """Form every combination of measured places, or those of `pairs` that are measured.

    Parameters
    ----------
    terms : sequence of Term
        The dimensions of the chain.
    measured : collection of str
        Places with a reading; the others are left out.
    pairs : sequence of tuple of str, or None
        Only these combinations, each with one place for each term.

    Returns
    -------
    Combinations
        The combinations, in order of the names of their places.

    Raises
    ------
    MismatchedPairError
        If a pair does not name one place for each term.
    OutOfDomainError
        If there are more than `MOST_COMBINATIONS`.

    Notes
    -----
    A place that enters twice has the sum of its factors.

    References
    ----------
    [jcgm106_2012] 7.2 (each combination is judged by its own probability of conformity)

    Examples
    --------
    >>> bore, journal = Term(1.0, ("b2", "b1")), Term(-1.0, ("j1", "j2"))
    >>> combinations([bore, journal], {"b1", "b2", "j1"}).names
    (('b1', 'j1'), ('b2', 'j1'))
    """
    choices = [sorted(place for place in set(term.places) if place in measured) for term in terms]
    if pairs is None:
        count = prod(len(choice) for choice in choices)
        if count > MOST_COMBINATIONS:
            raise OutOfDomainError("number of combinations of places", count, f"at most {MOST_COMBINATIONS}")
        names = tuple(product(*choices))
    else:
        names = _listed(pairs, choices)
    places = tuple(sorted({place for choice in choices for place in choice}))
    return Combinations(names, places, _selection(terms, names, places))


def _listed(
    pairs: Sequence[tuple[str, ...]], choices: Sequence[Sequence[str]]
) -> tuple[tuple[str, ...], ...]:
    allowed = [frozenset(choice) for choice in choices]
    for pair in pairs:
        if len(pair) != len(choices):
            raise MismatchedPairError(pair, len(choices))
    kept = {pair for pair in pairs if all(place in some for place, some in zip(pair, allowed, strict=True))}
    return tuple(sorted(kept))


def _selection(
    terms: Sequence[Term], names: tuple[tuple[str, ...], ...], places: tuple[str, ...]
) -> FloatArray:
    column = {place: position for position, place in enumerate(places)}
    selection = np.zeros((len(names), len(places)))
    rows = np.arange(len(names))
    for position, term in enumerate(terms):
        columns = [column[name[position]] for name in names]
        selection[rows, columns] += term.coefficient
    return selection
