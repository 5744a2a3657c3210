"""Whether the conditions of a step that was done have held ever since, and what ended them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from fitwright.assess.assembly.conditions import Conditions, conditions_of
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.past import Moment, Past
from fitwright.assess.assembly.results import Change, ConditionKind
from fitwright.assess.assembly.reversals import Reversal
from fitwright.assess.assembly.step_deeds import StepDeeds
from fitwright.assess.assembly.then import Then
from fitwright.assess.assembly.times import moment
from fitwright.assess.assembly.touching import Touching
from fitwright.records.entry import Entry
from fitwright.records.kinds import Reading


@dataclass(frozen=True, slots=True)
class Held:
    """What became of a step since it was done: what ended, and what was not so even then."""

    changes: tuple[Change, ...] = ()
    not_so_then: tuple[str, ...] = ()


class Holding:
    """Looks at what was done of a build, through the record since."""

    def __init__(self, conditions: Conditions, deeds: Mapping[str, StepDeeds], past: Past) -> None:
        self._conditions, self._past = conditions, past
        self._job: Job = conditions.job
        done = [each for each in deeds.values() if each.anchor is not None]
        fits = {fit for each in done for fit in each.step.fits}
        self._first = min((each.anchor or 0 for each in done), default=0)
        self._touching = Touching(self._job, fits, self._first).of if fits else {}
        anchors = {fit: each.anchor or 0 for each in _by_anchor(done) for fit in each.step.fits}
        past.look(self._job, self._moments(done), anchors)

    def of(self, deeds: StepDeeds) -> Held:
        """What became of a step since it was done; what other steps did to it is said elsewhere."""
        if deeds.anchor is None:
            return Held()
        changes: list[Change] = []
        not_so: list[str] = []
        for kind, subject in conditions_of(deeds.step):
            if kind is ConditionKind.AFTER:
                continue
            look = self._of_fit if kind is ConditionKind.FIT else self._of_other
            change, then = look(deeds, kind, subject)
            changes.extend([change] if change is not None else [])
            not_so.extend([then] if then is not None else [])
        changes.sort(key=lambda each: each.seq if each.seq is not None else self._job.build.seq + 1)
        return Held(tuple(changes), tuple(not_so))

    # Fits.

    def _moments(self, done: Iterable[StepDeeds]) -> Iterator[Moment]:
        for each in done:
            for fit in each.step.fits:
                later = self._later(fit, each.anchor or 0)
                if later:
                    yield fit, self._touched_last(fit, each.anchor or 0)
                    yield from ((fit, entry.seq) for entry in later[:-1])

    def _later(self, fit: str, seq: int) -> list[Entry]:
        """What touched a fit after an entry; of readings taken in one go the last."""
        found: list[Entry] = []
        for entry in self._touching.get(fit, ()):
            if entry.seq > seq:
                go = _go(entry)
                if found and go is not None and go == _go(found[-1]):
                    found.pop()
                found.append(entry)
        return found

    def _touched_last(self, fit: str, seq: int) -> int:
        """The last entry up to one that touched a fit: since then it has been what it was after that."""
        touched = (entry.seq for entry in reversed(self._touching.get(fit, ())) if entry.seq <= seq)
        return next(touched, self._first)

    def _of_fit(
        self, deeds: StepDeeds, kind: ConditionKind, subject: str
    ) -> tuple[Change | None, str | None]:
        anchor = deeds.anchor or 0
        later = self._later(subject, anchor)
        title = self._job.title(subject)
        then = self._job.fit(subject)
        if later:
            then = self._past.at(self._job, subject, self._touched_last(subject, anchor))
        if not then.holds:
            return None, f"{title} was {then.words}"
        for entry in later:
            taken_back = self._taken_back(entry, then.readings)
            if taken_back is not None:
                words = f"a reading of {title} was {taken_back.words}"
                return Change(kind, subject, words, entry.id, entry.seq), None
            last = entry is later[-1]
            held = self._job.fit(subject) if last else self._past.at(self._job, subject, entry.seq)
            if last:
                self._past.remember(self._job, subject, entry.seq, held)
            if not held.holds:
                return Change(kind, subject, f"{title}: {held.words}", entry.id, entry.seq), None
        now = self._job.fit(subject)
        if not now.holds:
            return Change(kind, subject, f"{title}: {now.words}", None, None), None
        return None, None

    def _taken_back(self, entry: Entry, readings: frozenset[str]) -> Reversal | None:
        found = self._job.reversals.by_entry.get(entry.id)
        return found if found is not None and found.target.entry.id in readings else None

    # Everything else.

    def _of_other(
        self, deeds: StepDeeds, kind: ConditionKind, subject: str
    ) -> tuple[Change | None, str | None]:
        then, step = deeds.then, deeds.step
        anchor = deeds.anchor or 0
        way = self._conditions.ways[kind]
        before = self._conditions.holds(step, kind, subject, then)
        reversal = next(
            (
                each
                for each in self._job.reversals.between(anchor)
                if way.rests_on(step, subject, each.target.body)
            ),
            None,
        )
        if reversal is not None:
            words = f"what was recorded of {before.title} was {reversal.words}"
            return Change(kind, subject, words, reversal.entry.id, reversal.entry.seq), None
        if not before.holds:
            return None, f"{before.title}: {before.words}"
        later = sorted((each for each in way.events(subject) if each[0] > anchor), key=lambda each: each[0])
        for order, entry in later:
            at = Then(order, moment(entry.committed_at), anchor)
            found = self._conditions.holds(step, kind, subject, at)
            if not found.holds:
                words = f"{found.title}: {found.words}"
                return Change(kind, subject, words, entry.id, entry.seq), None
        now = self._conditions.holds(step, kind, subject, Then(None, self._job.now, anchor))
        if not now.holds:
            return Change(kind, subject, f"{now.title}: {now.words}", None, None), None
        return None, None


def _by_anchor(done: Iterable[StepDeeds]) -> list[StepDeeds]:
    return sorted(done, key=lambda each: each.anchor or 0)


def _go(entry: Entry) -> tuple[str, str | None] | None:
    """In which go a reading was taken; None for what is no such reading."""
    if entry.kind != Reading.kind or entry.body.get("supersedes") is not None:
        return None
    return str(entry.body.get("sitting") or ""), entry.person
