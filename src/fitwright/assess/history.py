"""What a fit was known to be, step by step: after each run of readings and each change of its parts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from fitwright.assess.evidence import members_of
from fitwright.assess.judging import Judge
from fitwright.assess.results import FitVerdict, State
from fitwright.assess.subjects import Subject
from fitwright.records import kinds
from fitwright.records.kinds import Body
from fitwright.records.projection import BuildState, Recorded

MOST_MOMENTS = 60
"""Of a longer history the latest moments are told."""

_CHANGES: Final = (kinds.State, kinds.Fitting, kinds.TakingOut)
"""What changes the parts themselves, and not only what is known of them."""
_QUIET: Final = (kinds.BuildStarted, kinds.RevisionTakenOver, kinds.Sitting)
"""What readings refer to, and what moves no verdict by itself."""

Held = list[Recorded[Body]]


@dataclass(frozen=True, slots=True)
class Moment:
    """A fit after some entries: the last of them, what they were, and the verdict that followed.

    `changed` where the parts themselves were changed, not only what is known of them.
    """

    seq: int
    at: str
    words: str
    changed: bool
    verdict: FitVerdict


def history_of(judge: Judge, subject_id: str) -> tuple[Moment, ...]:
    """The moments at which the verdict on a subject moved, the first readings first.

    Readings taken in one go make one moment; a rework, a part changed, a withdrawal, a choice or an
    adopted limit makes one of its own. Gauges count as they are known today, limits as the sheet says now.
    """
    subject = judge.subjects[subject_id]
    state = BuildState(judge.build.build)
    then = Judge(judge.sheet, judge.gauges.shop, state, State.CURRENT)
    rests_on = {subject_id, *_clearance(judge, subject)}
    found: list[Moment] = []
    for step, loud in _steps(_about(judge, subject)):
        for each in step:
            state.apply(each.entry)
        then.forget(rests_on)
        verdict, last = then.verdict(subject), loud[-1]
        if (found and not _same(found[-1].verdict, verdict)) or (not found and verdict.readings):
            changed = isinstance(last.body, _CHANGES)
            at = last.entry.client_time or last.entry.committed_at
            found.append(Moment(last.entry.seq, at, _words(loud), changed, verdict))
    return tuple(found[-MOST_MOMENTS:])


def _same(before: FitVerdict, after: FitVerdict) -> bool:
    return _gist(before) == _gist(after)


def _gist(found: FitVerdict) -> tuple[object, ...]:
    return found.words, found.interval, found.readings, found.unused


@dataclass(frozen=True, slots=True)
class _Bearing:
    """What bears on one subject: features, positions, the parts that ever sat there, readings by entry."""

    subject: str
    features: frozenset[str]
    positions: frozenset[str]
    parts: frozenset[str]
    readings: frozenset[str]

    @classmethod
    def on(cls, judge: Judge, subject: Subject) -> _Bearing:
        """What bears on a subject of a build."""
        build = judge.build
        dimensions = [judge.sheet.dimensions[name] for name in _dimensions(judge, subject)]
        features = {each.feature for each in dimensions}
        positions = {each.position for one in dimensions for each in members_of(judge.sheet, one)}
        parts = {build.original_occupant(each) for each in positions}
        parts |= {part for each in positions if (part := build.occupant(each)) is not None}
        bodies = [held.body for held in build.ledger.recorded.values()]
        parts |= {one.part for one in bodies if isinstance(one, kinds.Fitting) and one.position in positions}
        readings = {
            name
            for name, record in build.readings.items()
            if not features.isdisjoint((record.feature, record.body.feature))
        }
        return cls(subject.id, *map(frozenset, (features, positions, parts, readings)))

    def concerns(self, held: Recorded[Body], taken: set[str]) -> bool:
        """Whether an entry may move the verdict; `taken` are the entries before it that may."""
        body = held.body
        if isinstance(body, kinds.Withdrawal):
            return body.entry in taken
        if isinstance(body, kinds.LimitAdopted):
            return body.subject == self.subject
        return isinstance(body, _QUIET) or self._is_of_parts(body) or self._is_of_readings(held)

    def _is_of_parts(self, body: Body) -> bool:
        match body:
            case kinds.Fitting() | kinds.TakingOut():
                return body.position in self.positions
            case kinds.Part():
                return body.code in self.parts or body.position in self.positions
            case kinds.State():
                return body.part in self.parts
        return False

    def _is_of_readings(self, held: Recorded[Body]) -> bool:
        match held.body:
            case kinds.Reading():
                return held.entry.id in self.readings
            case kinds.StatedSize() as stated:
                return stated.feature in self.features
            case kinds.Choice() as choice:
                return not self.readings.isdisjoint((*choice.entries, *choice.instead_of))
            case kinds.ReadingsMoved() as moved:
                return any(each.entry in self.readings for each in moved.moves)
        return False


def _clearance(judge: Judge, subject: Subject) -> Iterator[str]:
    """The clearance in which a centred crank lies low."""
    centring = subject.fit.centring if subject.fit is not None else None
    if centring is not None and centring.clearance in judge.subjects:
        yield centring.clearance


def _dimensions(judge: Judge, subject: Subject) -> Iterator[str]:
    """Its own dimensions, and those of that clearance."""
    yield from subject.dimensions()
    for name in _clearance(judge, subject):
        yield from judge.subjects[name].dimensions()


def _about(judge: Judge, subject: Subject) -> Iterator[Recorded[Body]]:
    """The entries of the build that bear on a subject, in the order in which they were made."""
    bearing, taken = _Bearing.on(judge, subject), set[str]()
    for held in sorted(judge.build.ledger.recorded.values(), key=lambda each: each.entry.seq):
        if bearing.concerns(held, taken):
            taken.add(held.entry.id)
            yield held


def _steps(every: Iterable[Recorded[Body]]) -> Iterator[tuple[Held, Held]]:
    """All entries of each step in order, and those of them that may move a verdict.

    Readings taken in one go make one step; whatever else there is makes one of its own.
    """
    step: Held = []
    loud: Held = []
    for each in every:
        if not isinstance(each.body, _QUIET):
            if loud and (_go(each) is None or _go(each) != _go(loud[-1])):
                yield step, loud
                step, loud = [], []
            loud.append(each)
        step.append(each)
    if loud:
        yield step, loud


def _go(held: Recorded[Body]) -> tuple[str, str | None] | None:
    """In which go a reading was taken first; None for what is no such reading."""
    body = held.body
    if not isinstance(body, kinds.Reading) or body.supersedes is not None:
        return None
    return body.sitting or "", held.entry.person


def _words(loud: Held) -> str:
    """What happened in a step, with the reason where one was given."""
    body = loud[-1].body
    said = _of_readings(body, len(loud)) or _of_parts(body) or body.kind
    return f"{said}: {body.reason}" if body.reason else said


def _of_readings(body: Body, count: int) -> str:
    match body:
        case kinds.Reading() if body.supersedes is not None:
            return "a reading corrected"
        case kinds.Reading():
            read = "1 reading" if count == 1 else f"{count} readings"
            return f"{read}, sitting {body.sitting}" if body.sitting else read
        case kinds.StatedSize():
            return f"size stated by {body.stated_by}"
        case kinds.Choice():
            return body.choice
        case kinds.Withdrawal():
            return "an entry withdrawn"
    return ""


def _of_parts(body: Body) -> str:
    match body:
        case kinds.State():
            return f"{body.change} {body.code}: {body.words}"
        case kinds.Fitting():
            return f"{body.part} fitted"
        case kinds.TakingOut():
            return f"{body.part} taken out"
        case kinds.Part():
            return f"part {body.code} entered"
        case kinds.LimitAdopted():
            return f"limit adopted by {body.adopted_by}"
    return ""
