"""Verdicts in words. What they may claim is limited: they speak of limits, never of the engine."""

from __future__ import annotations

from fitwright.assess.results import FitVerdict, Reason, Verdict
from fitwright.model.amount import Written
from fitwright.model.limit import SourceKind
from fitwright.records.kinds import Typed

BEFORE_METAL = "Before metal comes off: read again with a fresh setting, by another route if there is one."
HOT_NOT_JUDGED = "estimated, part temperatures assumed; not judged"

_REASONS = {
    Reason.TOO_COARSE: "too coarse: even a value in the middle of the limits could not be proven so",
    Reason.AT_THE_LIMIT: "at the limit: the readings leave it open on which side it lies",
    Reason.CONTRADICTORY: "contradictory: readings that cannot all be right; read again or withdraw one",
    Reason.TWO_DEVICES: "two devices entered one place: keep both, or say which counts",
    Reason.CHANGED_SINCE: "changed since: what was read no longer speaks for these parts",
    Reason.NO_LIMIT_ADOPTED: "no limit adopted",
    Reason.OPEN_ON_ONE_SIDE: "nothing bounds it on one side",
    Reason.INCOMPLETE: "incomplete: not all its members are known",
    Reason.ROUTE_NOT_READ: "the route that governs was not read",
    Reason.NOT_COMPUTED: "cannot be computed: one of these numbers makes no sense with the others",
}


def verdict_words(found: FitVerdict) -> str:
    """One short phrase: the verdict, with the source's weight or the reason."""
    thumb = " a rule of thumb" if found.source_kind == SourceKind.RULE_OF_THUMB else ""
    if found.verdict is Verdict.WITHIN:
        return f"within{thumb} at the places read" if found.unread else f"within{thumb}"
    if found.verdict is Verdict.OUTSIDE:
        side = side_outside(found)
        return f"outside{thumb}: {side}" if side else f"outside{thumb}"
    if found.verdict is Verdict.UNPROVEN:
        return f"unproven, {_REASONS[found.reason]}" if found.reason else "unproven"
    return "not measured"


def side_outside(found: FitVerdict) -> str | None:
    """Which way it is outside: below its lower or above its upper limit."""
    for bound in found.bounds:
        if bound.governs and bound.verdict is Verdict.OUTSIDE:
            return "below the lower limit" if bound.side == "lower" else "above the upper limit"
    return None


def summary(within: int, outside: int, unproven: int, not_measured: int, not_recorded: int) -> str:
    """The one sentence that sums up a build, and never says that an engine is good."""
    things = "1 thing was" if not_recorded == 1 else f"{not_recorded} things were"
    if outside == 0 and unproven == 0 and not_measured == 0:
        return f"All {within} recorded fits are within these limits; {things} not recorded."
    return (
        f"{outside} outside, {unproven} unproven, {not_measured} not measured, {within} within these limits; "
        f"{things} not recorded."
    )


def written(typed: Typed | None) -> Written | None:
    """An amount of the record as an amount of a sheet."""
    if typed is None:
        return None
    return Written(f"{typed.typed}".strip(), typed.si, typed.unit, typed.decimals)
