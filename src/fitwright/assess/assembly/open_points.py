"""Everything that a hand-over must show in full view, the gravest first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from fitwright.assess.assembly.fastener_results import FastenerState, GroupStanding
from fitwright.assess.assembly.fits import is_judged, permitted
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.part_results import ConsumableStanding, OneTimePart
from fitwright.assess.assembly.permission_results import ConcessionStanding, ReworkStanding
from fitwright.assess.assembly.results import ConditionKind, OpenKind, OpenPoint, StepStanding, StepState
from fitwright.assess.results import Verdict
from fitwright.model.fastener import fastener_title
from fitwright.model.step import PointKind


@dataclass(frozen=True, slots=True)
class Parts:
    """What a standing consists of, before its open points are listed."""

    steps: Mapping[str, StepStanding]
    groups: Mapping[str, GroupStanding]
    concessions: tuple[ConcessionStanding, ...]
    reworks: tuple[ReworkStanding, ...]
    consumables: Mapping[str, ConsumableStanding]
    one_time_parts: tuple[OneTimePart, ...]


def open_points_of(job: Job, parts: Parts) -> tuple[OpenPoint, ...]:
    """All open points, the gravest kinds first, within a kind in the order of the sheet."""
    found = chain(
        _fits(job),
        _not_recorded(job),
        _steps(parts.steps),
        _groups(parts.groups),
        _permissions(parts.concessions),
        _reworks(parts.reworks),
        _consumables(parts.consumables),
        _one_time(parts.one_time_parts),
    )
    return tuple(sorted(found, key=lambda each: each.severity))


# Fits.


def _fits(job: Job) -> Iterator[OpenPoint]:
    kinds = {
        Verdict.OUTSIDE: OpenKind.FIT_OUTSIDE,
        Verdict.UNPROVEN: OpenKind.FIT_UNPROVEN,
        Verdict.NOT_MEASURED: OpenKind.FIT_NOT_MEASURED,
    }
    for subject, found in job.verdicts.items():
        if found.verdict is Verdict.WITHIN or not is_judged(found):
            continue
        granted = permitted(job.assessor, subject, now=job.now)
        because = job.build.not_measured_because(subject)
        if granted is None:
            yield OpenPoint(kinds[found.verdict], subject, found.name, found.words, because=because)
        else:
            words = f"{found.words}; accepted under {granted.kind} {granted.body.code}"
            entry = granted.entry.id
            yield OpenPoint(
                OpenKind.UNDER_CONCESSION, subject, found.name, words, entry, granted.body.because
            )


def _not_recorded(job: Job) -> Iterator[OpenPoint]:
    """Readings and answers that are not there; what a verdict says already is not said twice."""
    for each in job.not_recorded:
        if each.id in job.verdicts and is_judged(job.verdicts[each.id]):
            continue
        asked = each.id in job.questions
        kind = OpenKind.EYE_CHECK if asked else OpenKind.NOT_RECORDED
        words = "not answered" if asked else "not recorded"
        yield OpenPoint(kind, each.id, each.title, words, because=each.because)
    for check, (question, wanted) in job.questions.items():
        answers = job.answers(check)
        if answers and answers[-1].body.answer is not wanted and job.not_here(check) is None:
            entry, body = answers[-1]
            said = "answered yes" if body.answer else "answered no"
            words = f"{said}: {body.words}" if body.words else said
            yield OpenPoint(OpenKind.EYE_CHECK, check, question, words, entry.id)


# Steps.


def _steps(steps: Mapping[str, StepStanding]) -> Iterator[OpenPoint]:
    for step in steps.values():
        yield from _state(step)
        yield from _photos(step)
        yield from _witness(step)
        if step.lone and step.released is not None:
            later = ", looking again later" if step.later else ""
            words = f"released by the shop's only person{later}: nobody else has looked"
            yield OpenPoint(OpenKind.LONE_RELEASE, step.id, step.title, words, step.released.entry)
        elif _own_release(step) and step.released is not None:
            words = "released by the person who did it"
            yield OpenPoint(OpenKind.NOT_CHECKED, step.id, step.title, words, step.released.entry)


def _own_release(step: StepStanding) -> bool:
    if step.state is not StepState.RELEASED or step.released is None or step.done is None:
        return False
    return step.released.person == step.done.person


def _state(step: StepStanding) -> Iterator[OpenPoint]:
    match step.state:
        case StepState.CHANGED_SINCE if step.changes:
            first = step.changes[0]
            yield OpenPoint(OpenKind.CHANGED_SINCE, step.id, step.title, step.words, first.entry)
        case StepState.CHANGED_SINCE:
            entry = step.done.entry if step.done is not None else None
            words = "; ".join(step.out_of_order)
            yield OpenPoint(OpenKind.OUT_OF_ORDER, step.id, step.title, f"done out of order: {words}", entry)
        case StepState.HELD:
            yield OpenPoint(OpenKind.HOLD_NOT_RELEASED, step.id, step.title, step.words)
        case StepState.CAN_BE_DONE | StepState.WAITS_FOR:
            kind = OpenKind.HOLD_NOT_RELEASED if step.point is PointKind.HOLD else OpenKind.STEP_NOT_DONE
            said = "not done" if step.state is StepState.CAN_BE_DONE else f"not done: {step.words}"
            yield OpenPoint(kind, step.id, step.title, said)


def _photos(step: StepStanding) -> Iterator[OpenPoint]:
    for each in step.missing:
        if each.kind is ConditionKind.PHOTO:
            yield OpenPoint(OpenKind.PHOTO, each.subject, f"{step.title}: {each.title}", "not taken")


def _witness(step: StepStanding) -> Iterator[OpenPoint]:
    if step.point is not PointKind.WITNESS or step.done is None:
        return
    whom = step.invited or "the witness"
    if step.witness is None:
        yield OpenPoint(OpenKind.NOT_CHECKED, step.id, step.title, f"nobody recorded that {whom} was invited")
    elif step.witness.answer != "was present":
        words = f"{step.witness.invited}: {step.witness.answer}"
        yield OpenPoint(OpenKind.NOT_CHECKED, step.id, step.title, words, step.witness.deed.entry)


# Groups.


def _groups(groups: Mapping[str, GroupStanding]) -> Iterator[OpenPoint]:
    for group in groups.values():
        yield from _fasteners(group)
        yield from _incomplete(group)
        yield from _remarks(group)
        yield from _wrenches(group)
        yield from _unchecked(group)


def _fasteners(group: GroupStanding) -> Iterator[OpenPoint]:
    for each in group.fasteners:
        subject, title = f"{group.id}/{each.id}", fastener_title(group.group, each.id)
        entry = each.passes[-1].entry if each.passes else None
        if each.state is FastenerState.OUTSIDE:
            yield OpenPoint(OpenKind.FASTENER_OUTSIDE, subject, title, each.words, entry)
        if each.under is not None:
            yield OpenPoint(OpenKind.UNDER_CONCESSION, subject, title, each.words, entry)
        if each.odd is not None:
            yield OpenPoint(OpenKind.ODD_FASTENER, subject, title, each.odd, entry)
        for words in each.remarks:
            if not _said_elsewhere(words):
                yield OpenPoint(OpenKind.TORQUE_UNEXPLAINED, subject, title, words, entry)


def _said_elsewhere(words: str) -> bool:
    return words.startswith("made for one use") or ", " in words.partition(":")[0]


def _incomplete(group: GroupStanding) -> Iterator[OpenPoint]:
    """Those outside are said one by one; the rest of a group in one line."""
    rest = [each for each in group.fasteners if not each.complete and each.state is not FastenerState.OUTSIDE]
    if rest:
        count = len(group.fasteners)
        many = f"{len(rest)} of {count} fasteners are not confirmed"
        words = many if len(rest) > 1 else next(each for each in group.missing if f"({rest[0].id})" in each)
        yield OpenPoint(OpenKind.GROUP_INCOMPLETE, group.id, group.title, f"{group.words}: {words}")


def _remarks(group: GroupStanding) -> Iterator[OpenPoint]:
    for words in group.remarks:
        if "torque against stretch" in words or not group.started:
            continue
        kind = OpenKind.EYE_CHECK if "blind" in words else OpenKind.TORQUE_UNEXPLAINED
        yield OpenPoint(kind, group.id, group.title, words)


def _wrenches(group: GroupStanding) -> Iterator[OpenPoint]:
    """Each wrench once for a group, with what is to be said of it; where none was named, that."""
    said: dict[tuple[str, str], str] = {}
    unnamed = None
    for fastener in group.fasteners:
        for each in fastener.passes:
            if each.wrench is not None:
                said.update({(each.wrench.title, words): each.entry for words in each.wrench.words})
            elif each.torque is not None:
                unnamed = each.entry
    for (title, words), entry in said.items():
        yield OpenPoint(OpenKind.WRENCH, group.id, group.title, f"{title}: {words}", entry)
    if unnamed is not None:
        yield OpenPoint(OpenKind.WRENCH, group.id, group.title, "no wrench was named", unnamed)


def _unchecked(group: GroupStanding) -> Iterator[OpenPoint]:
    """Of a critical group somebody else should have looked at each fastener."""
    if not group.group.critical or not group.complete:
        return
    left = [each.id for each in group.fasteners if not each.second_person]
    if left:
        words = f"{len(left)} of {len(group.fasteners)} not checked by a second person"
        yield OpenPoint(OpenKind.NOT_CHECKED, group.id, group.title, words)


# The rest.


def _permissions(concessions: Iterable[ConcessionStanding]) -> Iterator[OpenPoint]:
    for each in concessions:
        if not each.in_force and each.needed:
            title = f"{each.kind} {each.code}: {each.title}"
            yield OpenPoint(
                OpenKind.PERMISSION_OVER, each.subject, title, each.words, each.granted.entry, each.because
            )


def _reworks(reworks: Iterable[ReworkStanding]) -> Iterator[OpenPoint]:
    for order in reworks:
        title = f"Rework {order.code}: {order.part_title}"
        if order.carried_out is None:
            yield OpenPoint(OpenKind.REWORK_OPEN, order.code, title, order.words, order.ordered.entry)
            continue
        for each in order.dimensions:
            if not each.read_again:
                words = f"{each.title} was not read again"
                yield OpenPoint(OpenKind.REWORK_OPEN, order.code, title, words, order.carried_out.entry)
        for item in order.open_items:
            words = f"{item.title} was not looked at again"
            yield OpenPoint(OpenKind.REWORK_OPEN, order.code, title, words, order.carried_out.entry)


def _consumables(consumables: Mapping[str, ConsumableStanding]) -> Iterator[OpenPoint]:
    for each in consumables.values():
        for use in each.uses:
            if not use.in_order or not use.cured:
                yield OpenPoint(OpenKind.CONSUMABLE, each.id, each.title, use.words, use.deed.entry)


def _one_time(parts: Iterable[OneTimePart]) -> Iterator[OpenPoint]:
    """Also those that no step asks for: a part that may be used once is new, or it is said."""
    for each in parts:
        if not each.new and (each.since is not None or "/" not in each.subject):
            yield OpenPoint(OpenKind.ONE_TIME_PART, each.subject, each.title, each.words, each.since)
