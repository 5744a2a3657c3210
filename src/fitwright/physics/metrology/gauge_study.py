"""Crossed gauge study: people, parts and repeats, by analysis of variance or by averages and ranges.

Terms are those of JCGM 200. The part of the spread that the gauge study literature calls equipment
variation is the repeatability standard deviation here; appraiser variation is the reproducibility
standard deviation, the people's interaction with the parts included.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

import numpy as np

from fitwright.physics.metrology.range_constants import range_degrees_of_freedom, range_divisor
from fitwright.physics.metrology.variance_table import (
    VarianceComponent,
    VarianceRow,
    pooled_degrees_of_freedom,
    rounding_of,
    variance_table,
)
from fitwright.physics.numerics.errors import OutOfDomainError, PhysicsError
from fitwright.quantity import FloatArray, Metre, Metres, Number, Probability

POOLING_LEVEL: Probability = 0.25
"""Significance above which the interaction is taken into repeatability.

The reference manual advises a high level, so that an interaction is not overlooked; 0.25 is our choice of it.
"""

STUDY_WIDTH: Number = 6.0
"""Standard deviations in the width that is held against a limit band."""


class StudyMethod(Enum):
    """How a study was evaluated."""

    ANALYSIS_OF_VARIANCE = "analysis of variance"
    AVERAGE_AND_RANGE = "average and range"


class IncompleteStudyError(PhysicsError):
    """A study in which not every person measured every part equally often."""

    def __init__(self, person: str, part: str, found: int, wanted: int) -> None:
        self.person = person
        self.part = part
        self.found = found
        self.wanted = wanted
        super().__init__(
            f"gauge study: person {person} has {found} readings of part {part}, {wanted} are needed;"
            " every person measures every part equally often"
        )


@dataclass(frozen=True, slots=True)
class VarianceShare:
    """One source of variation in a gauge study.

    Attributes
    ----------
    standard_deviation : float [m]
        Its standard deviation.
    degrees_of_freedom : float [1] or None
        Effective degrees of freedom; None where the estimate of the variance was not positive.
    share_of_total : float [1]
        Standard deviation over the total standard deviation; these shares do not add up to one.
    share_of_limit_band : float [1] or None
        Six standard deviations over the width of the limit band; None without a band.
    """

    standard_deviation: Metre
    degrees_of_freedom: Number | None
    share_of_total: Number
    share_of_limit_band: Number | None


@dataclass(frozen=True, slots=True)
class GaugeStudy:
    """What a crossed study says about a gauge, its users and the parts.

    Attributes
    ----------
    method : StudyMethod
        How it was evaluated.
    repeatability, reproducibility, gauge, parts, total : VarianceShare
        Sources of variation; `gauge` is repeatability and reproducibility together.
    distinct_categories : int [1] or None
        How many groups of parts the gauge can tell apart, at least one; None where its readings show no
        spread at all: its step is then too coarse to say.
    interaction_pooled : bool or None
        Whether the interaction went into repeatability; None for averages and ranges.
    table : tuple of VarianceRow
        The analysis of variance; empty for averages and ranges.
    """

    method: StudyMethod
    repeatability: VarianceShare
    reproducibility: VarianceShare
    gauge: VarianceShare
    parts: VarianceShare
    total: VarianceShare
    distinct_categories: int | None
    interaction_pooled: bool | None
    table: tuple[VarianceRow, ...]


def crossed_readings(people: Sequence[str], parts: Sequence[str], indications: Metres) -> FloatArray:
    """Arrange readings of a crossed study by person, part and repeat.

    Parameters
    ----------
    people : sequence of str, length n
        Who took each reading.
    parts : sequence of str, length n
        Which part it was taken of.
    indications : array_like [m], shape (n)
        The readings, repeats in the order in which they were taken.

    Returns
    -------
    ndarray [m], shape (people, parts, repeats)
        People and parts in the order of their first reading.

    Raises
    ------
    IncompleteStudyError
        If a person did not measure a part as often as the others did.
    OutOfDomainError
        If the three arguments differ in length.

    References
    ----------
    [aiag_msa_2010] chapter III section B, crossed study

    Examples
    --------
    >>> crossed_readings(["A", "A", "B", "B"], ["1", "2", "1", "2"], [0.1, 0.2, 0.3, 0.4]).shape
    (2, 2, 1)
    """
    values = np.asarray(indications, dtype=float)
    if not len(people) == len(parts) == values.size:
        raise OutOfDomainError(
            "indications", f"{values.size} numbers", "as many as there are people and parts"
        )
    cells: dict[tuple[str, str], list[float]] = {}
    for person, part, value in zip(people, parts, values.tolist(), strict=True):
        cells.setdefault((person, part), []).append(value)
    wanted = max(map(len, cells.values()), default=0)
    all_people, all_parts = list(dict.fromkeys(people)), list(dict.fromkeys(parts))
    for person in all_people:
        for part in all_parts:
            found = len(cells.get((person, part), []))
            if found != wanted:
                raise IncompleteStudyError(person, part, found, wanted)
    return np.array([[cells[person, part] for part in all_parts] for person in all_people])


def study_by_variance(
    readings: Metres, *, pooling_level: Probability = POOLING_LEVEL, limit_band: Metre | None = None
) -> GaugeStudy:
    r"""Evaluate a crossed study by analysis of variance.

    Parameters
    ----------
    readings : array_like [m], shape (people, parts, repeats)
        Every person's repeats of every part; at least two of each.
    pooling_level : float [1]
        The interaction is pooled into repeatability when its significance exceeds this level.
    limit_band : float [m] or None
        Width between the limits that the gauge is to judge.

    Returns
    -------
    GaugeStudy
        Standard deviations by source, the table and the number of distinct categories.

    Raises
    ------
    OutOfDomainError
        If there are fewer than two people, parts or repeats, or a reading is missing.

    Notes
    -----
    With a people, p parts and n repeats, and E the mean square of repeats (pooled or not), I that of the
    interaction (E when pooled):

    .. math:: \sigma_r^2 = E, \quad \sigma_{person}^2 = \frac{MS_{person} - I}{p n}, \quad
              \sigma_{part}^2 = \frac{MS_{part} - I}{a n}, \quad \sigma_{int}^2 = \frac{I - E}{n}

    A negative estimate counts as zero. Degrees of freedom follow Satterthwaite's formula.

    References
    ----------
    [aiag_msa_2010] chapter III section B, analysis of variance method, and appendix A; [satterthwaite1946]

    Examples
    --------
    >>> study = study_by_variance([[[1.0, 1.2], [3.0, 3.1]], [[1.1, 1.1], [3.2, 3.0]]])
    >>> study.interaction_pooled, round(study.repeatability.standard_deviation, 4)
    (True, 0.0962)
    """
    x = _checked(readings)
    a, p, n = x.shape
    rows, pooled = variance_table(x, pooling_level)
    by_source = {row.source: row for row in rows}
    error = by_source["interaction and repeat" if pooled else "repeat"]
    interaction = error if pooled else by_source["interaction"]
    repeatability = VarianceComponent({error.source: 1.0})
    person = VarianceComponent({"person": 1.0 / (p * n), interaction.source: -1.0 / (p * n)})
    part = VarianceComponent({"part": 1.0 / (a * n), interaction.source: -1.0 / (a * n)})
    between = (
        VarianceComponent({interaction.source: 1.0 / n, error.source: -1.0 / n})
        if not pooled
        else VarianceComponent({})
    )
    person, part, between = (c.not_negative(by_source) for c in (person, part, between))
    reproducibility = person.plus(between)
    gauge = reproducibility.plus(repeatability)
    components = (repeatability, reproducibility, gauge, part, gauge.plus(part))
    deviations = [math.sqrt(c.variance(by_source)) for c in components]
    freedoms = [c.degrees_of_freedom(by_source) for c in components]
    return _study(
        StudyMethod.ANALYSIS_OF_VARIANCE,
        deviations,
        freedoms,
        limit_band=limit_band,
        interaction_pooled=pooled,
        table=rows,
    )


def study_by_ranges(readings: Metres, *, limit_band: Metre | None = None) -> GaugeStudy:
    r"""Evaluate a crossed study by averages and ranges.

    Parameters
    ----------
    readings : array_like [m], shape (people, parts, repeats)
        Every person's repeats of every part; at least two of each.
    limit_band : float [m] or None
        Width between the limits that the gauge is to judge.

    Returns
    -------
    GaugeStudy
        Standard deviations by source and the number of distinct categories.

    Raises
    ------
    OutOfDomainError
        If there are fewer than two people, parts or repeats, or a reading is missing.

    Notes
    -----
    .. math:: \sigma_r = K_1 \bar{\bar R}, \quad
              \sigma_o^2 = (K_2 \bar X_{diff})^2 - \frac{\sigma_r^2}{p n}, \quad \sigma_p = K_3 R_p

    with K = 1/d2*. The interaction is not separated. A negative estimate counts as zero. Degrees of freedom
    come from the chi approximation to the mean range and from Satterthwaite's formula.

    References
    ----------
    [aiag_msa_2010] chapter III section B, average and range method, and appendix C

    Examples
    --------
    >>> study = study_by_ranges([[[1.0, 1.2], [3.0, 3.1]], [[1.1, 1.1], [3.2, 3.0]]])
    >>> round(study.repeatability.standard_deviation, 4)
    0.1036
    """
    x = _checked(readings)
    a, p, n = x.shape
    repeat = float(np.mean(np.ptp(x, axis=2))) / range_divisor(n, a * p)
    between = _mean_range(x, (1, 2)) / range_divisor(a, 1)
    person = math.sqrt(max(between**2 - repeat**2 / (p * n), 0.0))
    part = _mean_range(x, (0, 2)) / range_divisor(p, 1)
    repeat_dof, part_dof = range_degrees_of_freedom(n, a * p), range_degrees_of_freedom(p, 1)
    person_dof = (
        pooled_degrees_of_freedom(
            [(between**2, range_degrees_of_freedom(a, 1)), (-(repeat**2) / (p * n), repeat_dof)]
        )
        if person > 0.0
        else None
    )
    gauge_terms = [(repeat**2, repeat_dof)] + ([] if person_dof is None else [(person**2, person_dof)])
    gauge, total = math.hypot(repeat, person), math.hypot(repeat, person, part)
    freedoms = [
        repeat_dof,
        person_dof,
        pooled_degrees_of_freedom(gauge_terms),
        part_dof,
        pooled_degrees_of_freedom([*gauge_terms, (part**2, part_dof)]),
    ]
    deviations = [repeat, person, gauge, part, total]
    return _study(StudyMethod.AVERAGE_AND_RANGE, deviations, freedoms, limit_band=limit_band)


def _mean_range(x: FloatArray, axes: tuple[int, int]) -> Metre:
    """Range of the means over two axes; none where it is no more than rounding."""
    found = float(np.ptp(x.mean(axis=axes)))
    return found if found > rounding_of(x) else 0.0


def _checked(readings: Metres) -> FloatArray:
    x = np.asarray(readings, dtype=float)
    if x.ndim != 3 or min(x.shape) < 2:
        raise OutOfDomainError(
            "readings", f"an array of shape {x.shape}", "at least 2 people x 2 parts x 2 repeats"
        )
    if not np.isfinite(x).all():
        raise OutOfDomainError("readings", "incomplete", "finite for every person, part and repeat")
    return x


def _study(
    method: StudyMethod,
    deviations: Sequence[float],
    freedoms: Sequence[float | None],
    *,
    limit_band: Metre | None,
    interaction_pooled: bool | None = None,
    table: tuple[VarianceRow, ...] = (),
) -> GaugeStudy:
    if limit_band is not None and not limit_band > 0.0:
        raise OutOfDomainError("limit_band", limit_band, "greater than zero")
    total = deviations[-1]
    shares = [
        VarianceShare(
            standard_deviation=deviation,
            degrees_of_freedom=freedom,
            share_of_total=deviation / total if total > 0.0 else 0.0,
            share_of_limit_band=None if limit_band is None else STUDY_WIDTH * deviation / limit_band,
        )
        for deviation, freedom in zip(deviations, freedoms, strict=True)
    ]
    repeatability, reproducibility, gauge, parts, whole = shares
    return GaugeStudy(
        method=method,
        repeatability=repeatability,
        reproducibility=reproducibility,
        gauge=gauge,
        parts=parts,
        total=whole,
        distinct_categories=_distinct_categories(gauge.standard_deviation, parts.standard_deviation),
        interaction_pooled=interaction_pooled,
        table=table,
    )


def _distinct_categories(gauge: Metre, parts: Metre) -> int | None:
    """Whole number in sqrt(2) parts over gauge, sqrt(2) as 1.41 like the manual; at least one."""
    return max(1, math.floor(1.41 * parts / gauge)) if gauge > 0.0 else None
