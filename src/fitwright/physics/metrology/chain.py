"""A signed chain of dimensions, judged at its worst places."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from fitwright.physics.metrology.blades import BladePlaces, Block
from fitwright.physics.metrology.combinations import Combinations, Term, combinations
from fitwright.physics.metrology.conformity import Bound, DecisionRule, Verdict
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.known import KnownPart
from fitwright.physics.metrology.outcomes import Outcomes, margin_of
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
        Unknowns that enter the chain itself (expansion, temperature), with the sign that they have in a
        reading: a positive error makes the value too large. Those that a reading names too are the same.
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
    estimated = estimate(values)
    part = KnownPart.of(selected, estimated, constant, extra)
    spoken = BladePlaces.of(blades, estimated, values, selected.places)
    blocks = spoken.blocks(selected, part, estimated, bounds)
    outcomes = _gathered(selected, spoken, blocks, bounds, absolute=absolute)
    judged = [outcomes.judge(selected.names, bounds, column, rule) for column in range(len(bounds))]
    result = ChainResult(
        verdict=ChainResult.verdict_on([one for _, one in judged]),
        bounds=tuple(one for _, one in judged),
        contradictions=spoken.contradictions,
        unmeasured=unmeasured,
    )
    row = min(judged, key=lambda one: _severity(one[1]))[0] if judged else _least(outcomes)
    return _described(result, selected, outcomes, blocks, row, absolute=absolute)


def _gathered(
    selected: Combinations,
    spoken: BladePlaces,
    blocks: Sequence[tuple[list[int], Block]],
    bounds: Sequence[Bound],
    *,
    absolute: bool,
) -> Outcomes:
    """Outcomes of all blocks in the order of the combinations."""
    if len(blocks) == 1 and not spoken.contradictions and blocks[0][1].agrees:
        return blocks[0][1].outcomes(bounds, absolute=absolute)
    outcomes = Outcomes.unbounded(len(selected.names), len(bounds))
    for rows, block in blocks:
        if block.agrees:
            outcomes.put(rows, block.outcomes(bounds, absolute=absolute))
        else:
            outcomes.contradicted[rows] = True
    outcomes.contradicted[spoken.contradicted(selected)] = True
    return outcomes


def _described(
    result: ChainResult,
    selected: Combinations,
    outcomes: Outcomes,
    blocks: Sequence[tuple[list[int], Block]],
    row: int,
    *,
    absolute: bool,
) -> ChainResult:
    """Add what is known of the governing combination."""
    stated = replace(result, places=selected.names[row])
    for rows, block in blocks:
        if row in rows and not block.agrees:
            return replace(stated, cautions=block.cautions)
        if row in rows:
            local = rows.index(row)
            value, u = float(outcomes.value[row]), float(outcomes.standard_uncertainty[row])
            interval = block.interval(local, COVERAGE)
            return replace(
                stated,
                value=None if np.isnan(value) else value,
                standard_uncertainty=None if np.isnan(u) else u,
                degrees_of_freedom=float(outcomes.degrees_of_freedom[row]),
                interval=_unsigned(*interval) if absolute else interval,
                method=block.method,
                budget=block.budget(local),
                cautions=block.cautions,
            )
    return stated


def _unsigned(low: Metre | None, high: Metre | None) -> tuple[Metre | None, Metre | None]:
    """Interval of a size whose sign is dropped."""
    if low is None or high is None:
        return 0.0, None
    return max(0.0, low, -high), max(high, -low)


def _least(outcomes: Outcomes) -> int:
    """Row of the least value; the first where no combination has one."""
    values = np.where(np.isnan(outcomes.value), np.inf, outcomes.value)
    return int(np.argmin(values))


def _severity(result: BoundResult) -> tuple[bool, bool, float, float]:
    """Outside first, then what nothing bounds, then the least probability, then the least margin."""
    bound = Bound(result.side, result.limit)
    value, spread = (np.nan if each is None else each for each in (result.value, result.standard_uncertainty))
    return (
        result.verdict is not Verdict.OUTSIDE,
        result.probability is not None,
        result.probability or 0.0,
        float(margin_of(bound, value, spread)),
    )
