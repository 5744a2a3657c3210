"""What entries would do to the verdicts, before they are written.

The build is supposed to hold the entries already; what was read is gathered and judged once more,
and held against what counts now. Nothing is stored, and the state that is shown stays as it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.assess.assembly.untightened import Untightened, untightened_between
from fitwright.assess.assessment import Assessor
from fitwright.assess.changed import subjects_on
from fitwright.assess.judging import Judge
from fitwright.assess.results import FitVerdict
from fitwright.records.entry import NewEntry
from fitwright.records.kinds import LimitAdopted, Part
from fitwright.records.projection import BuildState


@dataclass(frozen=True, slots=True)
class Consequence:
    """A fit or limited dimension that would rest on other readings, or be judged otherwise.

    `lost` readings would be kept and no longer used, `gained` ones be used that are not used now;
    `dimensions` are those that lose readings, for reasons `why`.
    """

    before: FitVerdict
    after: FitVerdict
    lost: int
    gained: int
    why: tuple[str, ...]
    dimensions: tuple[str, ...]

    @property
    def unproves(self) -> bool:
        """Whether readings that it rests on would no longer speak."""
        return self.lost > 0


@dataclass(frozen=True, slots=True)
class Consequences:
    """What would change: readings no longer used, readings used again, each fit concerned, tightenings."""

    lost: int
    gained: int
    fits: tuple[Consequence, ...]
    untightened: tuple[Untightened, ...] = ()


@dataclass(frozen=True, slots=True)
class _Difference:
    """The readings of one dimension before and after."""

    lost: frozenset[str]
    gained: frozenset[str]
    why: tuple[str, ...]
    stated: bool

    @property
    def any(self) -> bool:
        return bool(self.lost or self.gained or self.stated)


def consequences_of(assessor: Assessor, entries: Sequence[NewEntry]) -> Consequences:
    """What these entries would change in the state that is assessed."""
    judge = assessor.judge
    then = Judge(judge.sheet, judge.gauges.shop, judge.build.supposing(entries), judge.state)
    return _between(assessor, then, entries)


def _between(assessor: Assessor, then: Judge, entries: Sequence[NewEntry]) -> Consequences:
    now = assessor.judge
    found = {name: _difference(now, then, name) for name in now.sheet.dimensions}
    differences = {name: each for name, each in found.items() if each.any}
    concerned = dict.fromkeys(
        subject for name in differences for subject in subjects_on(now, name)
    ) | dict.fromkeys(_judged_anew(now, then.build, entries))
    fits = (
        _consequence(assessor, then, subject, differences) for subject in now.subjects if subject in concerned
    )
    return Consequences(
        lost=len(frozenset().union(*(each.lost for each in differences.values()))),
        gained=len(frozenset().union(*(each.gained for each in differences.values()))),
        fits=tuple(each for each in fits if _matters(each)),
        untightened=tuple(untightened_between(now.sheet, now.build, then.build)),
    )


def _difference(now: Judge, then: Judge, name: str) -> _Difference:
    before, after = now.member(name).evidence, then.member(name).evidence
    used_before = {record.entry.id for record in before.used}
    used_after = {record.entry.id for record in after.used}
    lost = frozenset(used_before - used_after)
    stated = {each.entry.id for each in before.stated} != {each.entry.id for each in after.stated}
    why = dict.fromkeys(each.why for each in after.unused if each.entry in lost)
    return _Difference(lost, frozenset(used_after - used_before), tuple(why), stated)


def _judged_anew(now: Judge, then: BuildState, entries: Sequence[NewEntry]) -> Iterator[str]:
    """Subjects that other limits may govern: adopted ones, and those for used parts."""
    if any(entry.kind == Part.kind for entry in entries):
        yield from now.subjects
        return
    named = {*now.build.limits_adopted, *then.limits_adopted}
    touched = {entry.body.get("subject") for entry in entries if entry.kind == LimitAdopted.kind}
    for subject in named:
        changed = _ids(now.build, subject) != _ids(then, subject)
        if subject in now.subjects and (changed or subject in touched):
            yield subject


def _ids(build: BuildState, subject: str) -> list[str]:
    return [held.entry.id for held in build.adopted_limits(subject)]


def _consequence(
    assessor: Assessor, then: Judge, subject: str, differences: dict[str, _Difference]
) -> Consequence:
    rests = then.subjects[subject].dimensions()
    named = [name for name in rests if name in differences]
    mine = [differences[name] for name in named]
    return Consequence(
        before=assessor.verdict(subject),
        after=then.verdict(then.subjects[subject]),
        lost=len(frozenset().union(*(each.lost for each in mine))),
        gained=len(frozenset().union(*(each.gained for each in mine))),
        why=tuple(dict.fromkeys(words for each in mine for words in each.why)),
        dimensions=tuple(name for name in named if differences[name].lost),
    )


def _matters(each: Consequence) -> bool:
    judged = (each.before.verdict, each.before.reason) != (each.after.verdict, each.after.reason)
    return judged or each.lost > 0 or each.gained > 0
