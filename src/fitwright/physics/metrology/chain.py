"""A signed chain of dimensions, judged at its worst places."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from fitwright.physics.metrology.combinations import Combinations, Term, combinations
from fitwright.physics.metrology.conformity import Bound, DecisionRule, Verdict
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.known import KnownPart
from fitwright.physics.metrology.outcomes import Outcomes
from fitwright.physics.metrology.readings import BladeReading, ValueReading
from fitwright.physics.metrology.result import BoundResult, ChainResult
from fitwright.physics.metrology.unknowns import Shared
from fitwright.quantity import Metre

__all__ = ["Bound", "BoundResult", "ChainResult", "DecisionRule", "Term", "judge_chain"]

COVERAGE = 0.95
"""Probability of the interval that is stated."""


def judge_chain(
    terms: Sequence[Term],
    value_readings: Sequence[ValueReading],
    blade_readings: Sequence[BladeReading],
    bounds: Sequence[Bound],
    rule: DecisionRule,
    *,
    constant: Metre = 0.0,
    extra: tuple[Shared, ...] = (),
    pairs: Sequence[tuple[str, ...]] | None = None,
    absolute: bool = False,
) -> ChainResult:
    r"""Judge a signed chain of dimensions on every combination of the places of its terms.

    Parameters
    ----------
    terms : sequence of Term
        The dimensions with their factors and places.
    value_readings : sequence of ValueReading
        Values; those at places that are not in `terms` change nothing, not even a digit.
    blade_readings : sequence of BladeReading
        Answers of blades and plugs, likewise.
    bounds : sequence of Bound
        The bounds of the limit.
    rule : DecisionRule
        When a bound counts as proven.
    constant : float [m]
        Added to the chain.
    extra : tuple of Shared
        Unknowns that enter the chain itself (expansion, temperature); those that a reading names too are
        the same unknowns.
    pairs : sequence of tuple of str, or None
        Judge only these combinations, each with one place for each term.
    absolute : bool
        Judge the size of the chain without its sign, as for taper and out-of-round.

    Returns
    -------
    ChainResult
        Verdict, bounds, and value, interval and budget of the governing combination.

    Raises
    ------
    MetrologyError
        If readings or unknowns contradict each other in form: a key used twice, a pair that does not fit.

    Notes
    -----
    With :math:`c = \sum_t a_t x_t + c_0` over one place for each term, the probability of a bound is
    the least over all combinations. Value and uncertainty are those of that combination: the extremes of
    noisy readings would be biased.

    References
    ----------
    [jcgm106_2012] 7.2 and 8.3; [jcgm100_2008] 5.2.2

    Examples
    --------
    >>> from fitwright.physics.metrology.readings import ValueReading
    >>> bore = ValueReading("r1", "bore", 50.060e-3, 1.5e-6)
    >>> journal = ValueReading("r2", "journal", 50.002e-3, 1e-6)
    >>> result = judge_chain(
    ...     [Term(1.0, ("bore",)), Term(-1.0, ("journal",))],
    ...     [bore, journal],
    ...     [],
    ...     [Bound("lower", 40e-6), Bound("upper", 75e-6)],
    ...     DecisionRule(),
    ... )
    >>> print(result.verdict, f"{result.value * 1e6:.1f} um, u {result.standard_uncertainty * 1e6:.1f} um")
    within 58.0 um, u 1.8 um
    """
    wanted = {place for term in terms for place in term.places}
    values = [reading for reading in value_readings if reading.place in wanted]
    blades = [reading for reading in blade_readings if reading.place in wanted]
    measured = {reading.place for reading in values} | {reading.place for reading in blades}
    unmeasured = tuple(sorted(wanted - measured))
    selected = combinations(terms, measured, pairs)
    if not selected.names or not terms:
        return ChainResult.not_measured(bounds, unmeasured)
    part = KnownPart.of(selected, estimate(values), constant, extra)
    outcomes = _outcomes(part, bounds, absolute=absolute)
    judged = [outcomes.judge(selected.names, bounds, column, rule) for column in range(len(bounds))]
    return _described(selected, part, judged, unmeasured, absolute=absolute)


def _outcomes(part: KnownPart, bounds: Sequence[Bound], *, absolute: bool) -> Outcomes:
    count = len(part.value)
    holds = np.empty((count, len(bounds)))
    for column, bound in enumerate(bounds):
        holds[:, column] = part.probability(bound, absolute=absolute)
    return Outcomes(
        holds=holds,
        possible=holds,
        value=np.abs(part.value) if absolute else part.value,
        standard_uncertainty=part.standard_uncertainty,
        degrees_of_freedom=part.degrees_of_freedom,
        contradicted=np.zeros(count, dtype=np.bool_),
    )


def _described(
    selected: Combinations,
    part: KnownPart,
    judged: Sequence[tuple[int, BoundResult]],
    unmeasured: tuple[str, ...],
    *,
    absolute: bool,
) -> ChainResult:
    """State the governing combination: the one whose bound is worst off."""
    results = tuple(result for _, result in judged)
    row = min(judged, key=lambda one: _severity(one[1]))[0] if judged else int(np.argmin(part.value))
    low, high = part.interval(row, COVERAGE)
    value = float(part.value[row])
    if absolute:
        value, low, high = abs(value), max(0.0, low, -high), max(high, -low)
    return ChainResult(
        verdict=ChainResult.verdict_on(results),
        bounds=results,
        places=selected.names[row],
        value=value,
        standard_uncertainty=float(part.standard_uncertainty[row]),
        degrees_of_freedom=float(part.degrees_of_freedom[row]),
        interval=(low, high),
        method="values",
        budget=part.contributions.budget(row),
        unmeasured=unmeasured,
    )


def _severity(result: BoundResult) -> tuple[bool, bool, float]:
    return result.verdict is not Verdict.OUTSIDE, result.probability is not None, result.probability or 0.0
