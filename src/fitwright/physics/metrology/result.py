"""What a judged chain states."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

from fitwright.physics.metrology.conformity import Bound, Reason, Side, Verdict
from fitwright.physics.metrology.sources import Budget
from fitwright.quantity import Metre, Number, Probability


@dataclass(frozen=True, slots=True)
class Explanation:
    """One explanation of a contradiction.

    Attributes
    ----------
    text : str
        What would have happened.
    weight : float
        Share of this explanation among all that are considered.
    """

    text: str
    weight: Probability


@dataclass(frozen=True, slots=True)
class Contradiction:
    """Answers that cannot all be right.

    Attributes
    ----------
    place : str
        Where.
    readings : tuple of str
        Keys of the readings that contradict each other; a value estimate is named by its readings.
    probability_consistent : float
        Probability that the uncertainties known alone explain it.
    explanations : tuple of Explanation
        What may have happened, the weightiest first; the weights add up to one.
    """

    place: str
    readings: tuple[str, ...]
    probability_consistent: Probability
    explanations: tuple[Explanation, ...]


@dataclass(frozen=True, slots=True)
class BoundResult:
    """One bound, judged at its worst places.

    Attributes
    ----------
    side : {"lower", "upper"}
        Which side.
    limit : float [m]
        The limit.
    probability : float or None
        Probability that the bound holds at its worst places. Where blades bound the gap on one side only, the
        probability with which they show that it holds. None where nothing bounds it, or answers contradict.
    verdict : Verdict
        Within, outside or unproven.
    places : tuple of str
        The worst combination, one place for each term.
    value, standard_uncertainty : float [m] or None
        Of that combination; None where blades bound it on one side only.
    degrees_of_freedom : float
        Behind the uncertainty.
    acceptance_limit : float [m] or None
        Value from which on the bound would be proven, with this uncertainty.
    reason : Reason or None
        Why the bound is unproven.
    """

    side: Side
    limit: Metre
    probability: Probability | None
    verdict: Verdict
    places: tuple[str, ...]
    value: Metre | None
    standard_uncertainty: Metre | None
    degrees_of_freedom: Number
    acceptance_limit: Metre | None
    reason: Reason | None


@dataclass(frozen=True, slots=True)
class ChainResult:
    """A signed chain, judged at its worst places.

    Attributes
    ----------
    verdict : Verdict
        Within only if all bounds are; outside if any is; not measured if a term has no reading at all.
    bounds : tuple of BoundResult
        Each bound, in the order given.
    places : tuple of str
        The governing combination: the one with the least probability of any bound.
    value, standard_uncertainty : float [m] or None
        Of the governing combination.
    degrees_of_freedom : float
        Behind that uncertainty.
    interval : (float or None, float or None)
        95 % interval [m] of the governing combination; an open end is None.
    method : str
        "values", "blades one side", "truncated" or "" where nothing was computed.
    contradictions : tuple of Contradiction
        Answers that cannot all be right.
    budget : tuple of (str, float, float)
        Key, contribution [m] and degrees of freedom of each source of the governing combination.
    unmeasured : tuple of str
        Places that count and have no reading.
    cautions : tuple of str
        Where a model or a numerical rule is used beyond what was checked.
    """

    verdict: Verdict
    bounds: tuple[BoundResult, ...] = ()
    places: tuple[str, ...] = ()
    value: Metre | None = None
    standard_uncertainty: Metre | None = None
    degrees_of_freedom: Number = inf
    interval: tuple[Metre | None, Metre | None] = (None, None)
    method: str = ""
    contradictions: tuple[Contradiction, ...] = ()
    budget: Budget = ()
    unmeasured: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()

    @classmethod
    def not_measured(cls, bounds: Sequence[Bound], unmeasured: tuple[str, ...]) -> ChainResult:
        """The result where a term has no reading at all: no probability, no value."""
        return cls(Verdict.NOT_MEASURED, tuple(map(_nothing, bounds)), unmeasured=unmeasured)

    @classmethod
    def verdict_on(cls, results: Sequence[BoundResult]) -> Verdict:
        """Verdict on all bounds together: outside if any is, within if all are, else unproven."""
        verdicts = {result.verdict for result in results}
        if Verdict.OUTSIDE in verdicts:
            return Verdict.OUTSIDE
        return Verdict.WITHIN if verdicts == {Verdict.WITHIN} else Verdict.UNPROVEN


def _nothing(bound: Bound) -> BoundResult:
    return BoundResult(
        side=bound.side,
        limit=bound.limit,
        probability=None,
        verdict=Verdict.NOT_MEASURED,
        places=(),
        value=None,
        standard_uncertainty=None,
        degrees_of_freedom=inf,
        acceptance_limit=None,
        reason=None,
    )
