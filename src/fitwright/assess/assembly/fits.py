"""Whether a fit or dimension may be built upon: within, or outside and accepted by name."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from fitwright.assess.assembly.permissions import Asked, Granted, Permissions
from fitwright.assess.assessment import Assessor
from fitwright.assess.results import FitVerdict, Reason, Verdict
from fitwright.model.limit import LimitClass


@dataclass(frozen=True, slots=True)
class FitHeld:
    """Whether work may go on over a fit, and by which readings or whose permission."""

    holds: bool
    words: str
    under: str | None = None
    readings: frozenset[str] = frozenset()


def fit_held(assessor: Assessor, permissions: Permissions, subject: str, now: datetime | None) -> FitHeld:
    """How a fit or a dimension stands as a condition of a step."""
    judge = assessor.judge
    absent = judge.build.not_in_this_job(subject)
    if absent is not None:
        return FitHeld(True, f"no part of this job: {absent}")  # noqa: FBT003 - the field says it
    if subject in judge.subjects:
        return _judged(assessor, permissions, subject, now)
    if subject not in judge.sheet.dimensions:
        return FitHeld(holds=False, words="the sheet has no such fit")
    member = judge.member(subject)
    used = frozenset(record.entry.id for record in member.evidence.used)
    if not member.read:
        return FitHeld(holds=False, words="changed since" if member.changed else "not measured")
    if member.changed:
        return FitHeld(holds=False, words="changed since", readings=used)
    return FitHeld(holds=True, words="measured; the sheet sets no limit", readings=used)


def permitted(assessor: Assessor, subject: str, *, now: datetime | None = None) -> Granted | None:
    """The concession or deviation permit that covers a fit or dimension as it stands now.

    `now` is held against a day that ends it, in UTC; without one no day ends.
    """
    build = assessor.judge.build
    if subject not in assessor.judge.subjects or not (build.work.concessions or build.work.deviation_permits):
        return None
    return _granted(Permissions(build), assessor.verdict(subject), now)


def _granted(permissions: Permissions, found: FitVerdict, now: datetime | None) -> Granted | None:
    """Only a value can be accepted: what was not measured stays so."""
    if found.value is None or found.verdict is Verdict.WITHIN:
        return None
    return permissions.in_force(Asked(found.id, found.value), now)


def is_judged(found: FitVerdict) -> bool:
    """Whether there is a limit to hold it against, or there must be one."""
    return bool(found.bounds) or found.limit_class == LimitClass.CRITICAL.value


def _judged(assessor: Assessor, permissions: Permissions, subject: str, now: datetime | None) -> FitHeld:
    found = assessor.verdict(subject)
    readings = frozenset(found.readings)
    if found.verdict is Verdict.WITHIN:
        return FitHeld(holds=True, words=found.words, readings=readings)
    if not is_judged(found) and found.value is not None and found.reason is Reason.NO_LIMIT_ADOPTED:
        return FitHeld(holds=True, words="measured; the sheet sets no limit", readings=readings)
    granted = _granted(permissions, found, now)
    if granted is None:
        return FitHeld(holds=False, words=found.words, readings=readings)
    words = f"{found.words}; accepted under {granted.kind} {granted.body.code}"
    return FitHeld(holds=True, words=words, under=granted.body.code, readings=readings)
