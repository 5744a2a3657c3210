"""Concessions and deviation permits as they stand: in force, needed, or why not any more."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.assembly.asked import stretch_of
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.permission_results import ConcessionStanding
from fitwright.assess.assembly.permissions import Asked, Granted, amount_of_unit
from fitwright.assess.assembly.reckoning import Fault, Rules, occupants_of
from fitwright.assess.assembly.then import NOW
from fitwright.assess.assembly.tightened import final_record
from fitwright.assess.assembly.tightness import rules_at
from fitwright.assess.results import Verdict
from fitwright.model.fastener import fastener_title


@dataclass(frozen=True, slots=True)
class _Subject:
    """What a permission is about, as it is now, and whether it meets its limit without one."""

    title: str
    asked: Asked
    needed: bool
    words: str


def concessions_of(job: Job) -> tuple[ConcessionStanding, ...]:
    """All permissions of a build, in order."""
    rules = rules_at(job, NOW)
    return tuple(_standing(job, rules, granted) for granted in job.permissions.all)


def _standing(job: Job, rules: Rules, granted: Granted) -> ConcessionStanding:
    body, subject = granted.body, _subject(job, rules, granted)
    why_not = job.permissions.why_not(granted, subject.asked, job.now)
    if why_not is None and job.permissions.in_force(subject.asked, job.now) is not granted:
        why_not = "a later one speaks for it"
    return ConcessionStanding(
        code=body.code,
        kind=granted.kind,
        subject=body.subject,
        title=subject.title,
        granted=job.deed(granted.entry, body.granted_by),
        granted_by=job.person(body.granted_by),
        because=body.because,
        consequence=body.consequence,
        parts=body.parts,
        lowest=body.lowest.si if body.lowest is not None else None,
        highest=body.highest.si if body.highest is not None else None,
        amount=subject.asked.amount,
        until=body.until,
        value=subject.asked.value,
        in_force=why_not is None,
        needed=subject.needed,
        why_not=why_not,
        words=_words(subject, why_not),
    )


def _words(subject: _Subject, why_not: str | None) -> str:
    if why_not is not None:
        return f"no longer in force: {why_not}" if subject.needed else f"not in force: {why_not}"
    return f"in force; {subject.words}" if subject.needed else f"in force, and not needed; {subject.words}"


def _subject(job: Job, rules: Rules, granted: Granted) -> _Subject:
    named = granted.body.subject
    group, _, fastener = named.partition("/")
    if group in job.sheet.tightening_groups:
        return _of_group(job, rules, granted, fastener)
    judge = job.assessor.judge
    if named in judge.subjects:
        found = job.assessor.verdict(named)
        needed = found.verdict is not Verdict.WITHIN
        return _Subject(found.name, Asked(named, found.value), needed, found.words)
    held = job.fit(named)
    value = judge.member(named).mean() if named in job.sheet.dimensions else None
    return _Subject(job.title(named), Asked(named, value), not held.holds, held.words)


def _of_group(job: Job, rules: Rules, granted: Granted, fastener: str) -> _Subject:
    """A fastener, or all of a group: of several faults the one that this permission speaks of."""
    named = granted.body.subject
    group = job.sheet.tightening_groups[named.partition("/")[0]]
    names = [each.id for each in group.fasteners if not fastener or each.id == fastener]
    faults = [(name, fault) for name in names for fault in rules.reckon(group, name).faults]
    end = granted.body.lowest or granted.body.highest
    amount = amount_of_unit(end.unit) if end is not None else ""
    spoken = [each for each in faults if not amount or each[1].amount == amount]
    fault = next((each for _, each in spoken or faults), None)
    value = fault.value if fault is not None else _recorded(job, rules, named, amount)
    occupants = occupants_of(group, job.tightenings.lives(group))
    title = fastener_title(group, fastener) if fastener else group.title
    return _Subject(title, Asked(named, value, amount, occupants), bool(faults), _fault_words(fault))


def _fault_words(fault: Fault | None) -> str:
    return fault.words if fault is not None else "nothing lies outside"


def _recorded(job: Job, rules: Rules, named: str, amount: str) -> float | None:
    """The last torque, angle or stretch of a fastener that meets the sheet."""
    group = job.sheet.tightening_groups[named.partition("/")[0]]
    life = rules.tightenings.lives(group).by_id.get(named.partition("/")[2])
    record = final_record(life, len(group.passes)) if life is not None else None
    if record is None:
        return None
    body = record.body
    typed = {"torque": body.torque, "angle": body.angle}.get(amount)
    if typed is not None:
        return typed.si
    return stretch_of(body) if amount == "length" else None
