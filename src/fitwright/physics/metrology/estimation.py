"""All places of a chain estimated jointly, with what contributes how much."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fitwright.physics.metrology.errors import (
    DependentReadingsError,
    DuplicateReadingError,
    InconsistentUnknownError,
    UnknownPlaceError,
)
from fitwright.physics.metrology.readings import ValueReading
from fitwright.physics.metrology.sources import Budget, Contributions, Source
from fitwright.physics.metrology.unknowns import Shared, Unknown
from fitwright.quantity import FloatArray, Metre, Number

SINGULAR = 1e-13
"""Readings whose correlation has an eigenvalue below this share of its trace are one reading, not several."""


@dataclass(frozen=True, slots=True)
class Combined:
    """A linear combination of places, with what contributes how much.

    Attributes
    ----------
    value : float [m]
        Best value.
    standard_uncertainty : float [m]
        Its standard uncertainty.
    degrees_of_freedom : float
        Effective degrees of freedom.
    budget : tuple of (str, float, float)
        Key, contribution [m] and degrees of freedom of each source, the largest first.
    """

    value: Metre
    standard_uncertainty: Metre
    degrees_of_freedom: Number
    budget: Budget


@dataclass(frozen=True, slots=True)
class Estimate:
    """Best values of P places with their loadings on M independent sources.

    Attributes
    ----------
    places : tuple of str
        The places, in order of name.
    values : ndarray [m], shape (P,)
        Best value at each place.
    loadings : ndarray [m], shape (P, M)
        Contribution of each source, one standard uncertainty of it, to each place.
    sources : tuple of Source
        The M sources.
    """

    places: tuple[str, ...]
    values: FloatArray
    loadings: FloatArray
    sources: tuple[Source, ...]

    @property
    def covariance(self) -> FloatArray:
        """Covariance of the places [m2], shape (P, P)."""
        return self.loadings @ self.loadings.T

    def with_extra(self, extra: Sequence[Shared]) -> tuple[tuple[Source, ...], FloatArray]:
        """Sources and loadings of `extra` unknowns: those known already first, new ones after them."""
        index = {source.key: position for position, source in enumerate(self.sources)}
        sources = list(self.sources)
        loadings = [0.0] * len(sources)
        for shared in sorted(extra, key=lambda one: one.unknown.key):
            source = Source.of_unknown(shared.unknown)
            position = index.setdefault(source.key, len(sources))
            if position == len(sources):
                sources.append(source)
                loadings.append(0.0)
            elif sources[position] != source:
                raise InconsistentUnknownError(source.key)
            loadings[position] += shared.sensitivity * source.standard_uncertainty
        return tuple(sources), np.array(loadings)

    def combine(
        self, coefficients: Mapping[str, float], constant: Metre = 0.0, extra: tuple[Shared, ...] = ()
    ) -> Combined:
        r"""Combine places linearly; errors that they share add before they are squared.

        Parameters
        ----------
        coefficients : mapping of str to float
            Coefficient of each place that takes part.
        constant : float [m]
            Added to the value.
        extra : tuple of Shared
            Further unknowns; one with the key of a known source is the same unknown.

        Returns
        -------
        Combined
            Value, standard uncertainty, degrees of freedom and budget.

        Raises
        ------
        UnknownPlaceError
            If a place has no reading.
        InconsistentUnknownError
            If an extra unknown differs from the one of the same key.

        Notes
        -----
        .. math:: y = a^T \hat x + y_0, \quad u^2(y) = \sum_m \left(\sum_p a_p L_{pm} + g_m\right)^2

        with the loadings :math:`L` of the places and :math:`g` of the extra unknowns.

        References
        ----------
        [jcgm100_2008] 5.2.2, eq. 13; G.4.1

        Examples
        --------
        >>> from fitwright.physics.metrology.readings import ValueReading
        >>> from fitwright.physics.metrology.unknowns import Shared, Unknown
        >>> master = Shared(Unknown("micrometer", 1e-6), 1.0)
        >>> bore = ValueReading("r1", "bore", 0.05006, 0.5e-6, shared=(master,))
        >>> journal = ValueReading("r2", "journal", 0.05, 0.5e-6, shared=(master,))
        >>> gap = estimate([bore, journal]).combine({"bore": 1.0, "journal": -1.0})
        >>> f"{gap.value * 1e6:.1f} um, u {gap.standard_uncertainty * 1e6:.2f} um"
        '60.0 um, u 0.71 um'
        """
        sources, added = self.with_extra(extra)
        row = np.zeros(len(self.places))
        for place, coefficient in coefficients.items():
            if place not in self.places:
                raise UnknownPlaceError(place)
            row[self.places.index(place)] += coefficient
        added[: self.loadings.shape[1]] += row @ self.loadings
        contributions = Contributions(added[np.newaxis, :], sources)
        return Combined(
            value=float(row @ self.values) + constant,
            standard_uncertainty=float(contributions.standard_uncertainty()[0]),
            degrees_of_freedom=float(contributions.degrees_of_freedom()[0]),
            budget=contributions.budget(0),
        )


def estimate(readings: Sequence[ValueReading]) -> Estimate:
    r"""Estimate all places jointly from value readings, by generalised least squares.

    Parameters
    ----------
    readings : sequence of ValueReading
        The readings, in any order; the order changes no digit of the result.

    Returns
    -------
    Estimate
        Best values with their loadings on each source of error.

    Raises
    ------
    DuplicateReadingError
        If two readings have one key.
    InconsistentUnknownError
        If one key stands for two different unknowns.
    DependentReadingsError
        If readings share every source of error and yet are several.

    Notes
    -----
    .. math:: y = A x + \varepsilon,\quad V = \mathrm{diag}(e^2) + \sum_k u_k^2 c_k c_k^T,\quad
              \hat x = (A^T V^{-1} A)^{-1} A^T V^{-1} y

    Repeats that share the same unknowns are averaged first, weighted by their repeatability, which changes
    nothing in exact arithmetic and makes the usual case (one setting per place) free of a solution.

    References
    ----------
    [jcgm100_2008] 5.2.2; [aitken1935] generalised least squares

    Examples
    --------
    >>> from fitwright.physics.metrology.readings import ValueReading
    >>> two = [ValueReading("r1", "bore", 0.050060, 1e-6), ValueReading("r2", "bore", 0.050062, 1e-6)]
    >>> f"{estimate(two).values[0] * 1e3:.4f} mm, u {estimate(two).covariance[0, 0] ** 0.5 * 1e6:.2f} um"
    '50.0610 mm, u 0.71 um'
    """
    ordered = sorted(readings, key=lambda reading: reading.key)
    for before, after in pairwise(ordered):
        if before.key == after.key:
            raise DuplicateReadingError(before.key)
    sources = _sources(ordered)
    groups = _repeats(ordered)
    values, loadings = _means(groups, {source.key: column for column, source in enumerate(sources)})
    places = tuple(sorted({reading.place for reading in ordered}))
    rows = [places.index(group[0].place) for group in groups]
    if len(groups) == len(places):
        order = np.argsort(rows)
        return Estimate(places, values[order], loadings[order], sources)
    weights, base = _weights(places, np.array(rows), values, loadings)
    return Estimate(places, base + weights @ (values - base[rows]), weights @ loadings, sources)


def _sources(ordered: Sequence[ValueReading]) -> tuple[Source, ...]:
    """Shared unknowns in order of key, then each reading's own repeatability."""
    shared: dict[str, Unknown] = {}
    for reading in ordered:
        for one in reading.shared:
            known = shared.setdefault(one.unknown.key, one.unknown)
            if known is not one.unknown and known != one.unknown:
                raise InconsistentUnknownError(known.key)
    own = [
        Source(
            reading.key,
            reading.repeatability,
            reading.repeatability_degrees_of_freedom,
            f"study {reading.repeatability_key}" if reading.repeatability_key else f"reading {reading.key}",
        )
        for reading in ordered
    ]
    return (*(Source.of_unknown(shared[key]) for key in sorted(shared)), *own)


def _repeats(ordered: Sequence[ValueReading]) -> list[list[ValueReading]]:
    """Readings grouped by place and by the unknowns that they share."""
    groups: dict[tuple[str, tuple[tuple[str, float], ...]], list[ValueReading]] = {}
    for reading in ordered:
        shared = tuple([(one.unknown.key, one.sensitivity) for one in reading.shared])
        groups.setdefault((reading.place, shared), []).append(reading)
    return list(groups.values())


def _means(
    groups: Sequence[Sequence[ValueReading]], columns: Mapping[str, int]
) -> tuple[FloatArray, FloatArray]:
    """Weighted mean of each group of repeats, and its loadings."""
    values = np.empty(len(groups))
    loadings = np.zeros((len(groups), len(columns)))
    for row, group in enumerate(groups):
        weights = _repeat_weights(group)
        # Differences from the first reading are small, so no digit of the size is lost in the mean.
        first = group[0].value
        values[row] = first + sum(
            weight * (reading.value - first) for weight, reading in zip(weights, group, strict=True)
        )
        for one in group[0].shared:
            loadings[row, columns[one.unknown.key]] += one.sensitivity * one.unknown.standard_uncertainty
        for weight, reading in zip(weights, group, strict=True):
            loadings[row, columns[reading.key]] += weight * reading.repeatability
    return values, loadings


def _repeat_weights(group: Sequence[ValueReading]) -> list[float]:
    if len(group) == 1:
        return [1.0]
    least = min(reading.repeatability for reading in group)
    if least == 0.0:
        raw = [float(reading.repeatability == 0.0) for reading in group]
    else:
        raw = [(least / reading.repeatability) ** 2 for reading in group]
    total = sum(raw)
    return [weight / total for weight in raw]


def _weights(
    places: tuple[str, ...], rows: FloatArray, values: FloatArray, loadings: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Least-squares weight of each group in each place, and a base value of each place to count from."""
    design = (rows[:, np.newaxis] == np.arange(len(places))).astype(np.float64)
    base = np.array([values[int(np.argmax(rows == column))] for column in range(len(places))])
    # In units of its own uncertainty a fine reading beside a coarse one does not look like no reading at all.
    unit = np.sqrt(np.einsum("gm,gm->g", loadings, loadings))[:, np.newaxis]
    if not unit.all():
        raise DependentReadingsError(places)
    scaled, design = loadings / unit, design / unit
    correlation = scaled @ scaled.T
    if np.linalg.eigvalsh(correlation)[0] <= SINGULAR * len(correlation):
        raise DependentReadingsError(places)
    weighted = np.linalg.solve(correlation, design)
    weights: FloatArray = np.linalg.solve(design.T @ weighted, weighted.T) / unit.T
    return weights, base
