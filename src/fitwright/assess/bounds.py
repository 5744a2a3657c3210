"""Limits turned into bounds that metrology judges, and the answers turned back into verdicts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.assess.results import BoundVerdict, Reason, Verdict
from fitwright.model.amount import Written
from fitwright.model.governing import RuledLimit
from fitwright.model.limit import Source, SourceKind
from fitwright.model.sheet import Sheet
from fitwright.physics.metrology.conformity import Bound, Side
from fitwright.physics.metrology.conformity import Verdict as PhysicsVerdict
from fitwright.physics.metrology.result import BoundResult, ChainResult

COMPUTED = "computed"
"""Kind of source of a bound that follows from the sheet, and that nobody states as a limit."""

VERDICTS = {
    "within": Verdict.WITHIN,
    "outside": Verdict.OUTSIDE,
    "unproven": Verdict.UNPROVEN,
    "not measured": Verdict.NOT_MEASURED,
}


@dataclass(frozen=True, slots=True)
class Asked:
    """One bound that is asked about: which limit, which side, as written."""

    ruled: RuledLimit
    side: Side
    amount: Written

    @property
    def bound(self) -> Bound:
        """The bound as metrology knows it."""
        return Bound(self.side, self.amount.si)

    @property
    def case(self) -> str | None:
        """The temperature case that the limit is for; None for a cold limit."""
        return self.ruled.limit.temperature_case


def asked_of(ruled: Sequence[RuledLimit]) -> list[Asked]:
    """Both sides of every limit, lower first."""
    found: list[Asked] = []
    for each in ruled:
        if each.limit.lower is not None:
            found.append(Asked(each, "lower", each.limit.lower))
        if each.limit.upper is not None:
            found.append(Asked(each, "upper", each.limit.upper))
    return found


def verdict_of(sheet: Sheet, asked: Asked, result: BoundResult | None) -> BoundVerdict:
    """The verdict on one bound; unproven without a result."""
    limit = asked.ruled.limit
    # A limit may be adopted from a source that the sheet does not have: a letter, a telephone call.
    source = sheet.sources.get(limit.source) or Source(limit.source, limit.source, SourceKind.SHOP)
    return BoundVerdict(
        side=asked.side,
        limit=asked.amount.si,
        written=asked.amount.written,
        governs=asked.ruled.governs,
        source=source.title,
        source_kind=source.kind.value,
        place_in_source=limit.place_in_source,
        applies_to=limit.applies_to.value,
        temperature_case=limit.temperature_case,
        probability=result.probability if result is not None else None,
        verdict=VERDICTS[result.verdict] if result is not None else Verdict.NOT_MEASURED,
        reason=Reason(result.reason.value) if result is not None and result.reason else None,
        value=result.value if result is not None else None,
        standard_uncertainty=result.standard_uncertainty if result is not None else None,
        acceptance_limit=result.acceptance_limit if result is not None else None,
        places=result.places if result is not None else (),
        adopted_by=asked.ruled.adopted_by,
    )


def verdicts_of(sheet: Sheet, asked: Sequence[Asked], result: ChainResult | None) -> list[BoundVerdict]:
    """The verdicts on bounds that one chain was asked about, in the same order."""
    answers: Sequence[BoundResult | None] = result.bounds if result is not None else ()
    if len(answers) != len(asked):
        answers = [None] * len(asked)
    return [verdict_of(sheet, one, answer) for one, answer in zip(asked, answers, strict=True)]


_WEIGHT = (
    Reason.CONTRADICTORY,
    Reason.TOO_COARSE,
    Reason.OPEN_ON_ONE_SIDE,
    Reason.AT_THE_LIMIT,
)


def overall(bounds: Sequence[BoundVerdict]) -> tuple[Verdict, Reason | None]:
    """Outside if any governing bound is, within only if all are, else unproven with its reason.

    A bound that was computed (the grip) may be broken, but it is no limit that somebody adopted.
    """
    governing = [bound for bound in bounds if bound.governs]
    verdicts = {bound.verdict for bound in governing}
    if Verdict.OUTSIDE in verdicts:
        return Verdict.OUTSIDE, None
    if all(bound.source_kind == COMPUTED for bound in governing):
        return Verdict.UNPROVEN, Reason.NO_LIMIT_ADOPTED
    if verdicts == {Verdict.WITHIN}:
        return Verdict.WITHIN, None
    reasons = {bound.reason for bound in governing}
    return Verdict.UNPROVEN, next((each for each in _WEIGHT if each in reasons), Reason.INCOMPLETE)


def overall_of(results: Sequence[BoundResult]) -> PhysicsVerdict:
    """The same for bare results of metrology."""
    verdicts = {result.verdict for result in results}
    if PhysicsVerdict.OUTSIDE in verdicts:
        return PhysicsVerdict.OUTSIDE
    all_within = verdicts == {PhysicsVerdict.WITHIN}
    return PhysicsVerdict.WITHIN if all_within else PhysicsVerdict.UNPROVEN


def in_hand(bounds: Sequence[BoundVerdict], value: float | None) -> float | None:
    """Distance of the value from the nearest governing cold bound, each at its own worst places [SI].

    Negative outside.
    """
    if value is None:
        return None
    gaps = [
        (at - bound.limit) * (1.0 if bound.side == "lower" else -1.0)
        for bound in bounds
        for at in [value if bound.value is None else bound.value]
        if bound.governs and bound.temperature_case is None
    ]
    return min(gaps, default=None)
