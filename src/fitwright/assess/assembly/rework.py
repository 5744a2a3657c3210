"""Rework orders: carried out or not, the dimensions before and after, what they feed and who looked."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from fitwright.assess.assembly.feeds import feeds_of
from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.permission_results import ReworkedDimension, ReworkItem, ReworkStanding
from fitwright.assess.chains import Chain
from fitwright.assess.judging import Judge
from fitwright.assess.posed import Posed
from fitwright.assess.results import State
from fitwright.physics.numerics.errors import PhysicsError
from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.projection import Recorded, StateChange


def reworks_of(job: Job) -> tuple[ReworkStanding, ...]:
    """All rework orders of a build, in order."""
    held = sorted(job.work.rework_orders.values(), key=lambda each: job.order(each.entry))
    return tuple(_Order(job, *each).standing() for each in held)


class _Order:
    """One order, held against what the record says since."""

    def __init__(self, job: Job, entry: Entry, body: kinds.ReworkOrder) -> None:
        self._job, self._entry, self._body = job, entry, body
        self._order = job.order(entry)
        self._position = job.build.location(body.part) or body.part

    def standing(self) -> ReworkStanding:
        """Put together."""
        job, body, change = self._job, self._body, self._carried_out
        dimensions = tuple(self._dimension(name) for name in body.dimensions)
        items = tuple(self._items())
        closed = change is not None and not any(each.open for each in items)
        closed = closed and all(each.read_again for each in dimensions)
        held = job.build.parts.get(body.part)
        return ReworkStanding(
            code=body.code,
            part=body.part,
            part_title=held.body.title if held is not None else job.title(self._position),
            change=body.change,
            order_words=body.words,
            ordered=job.deed(self._entry, body.ordered_by),
            target=body.target.si if body.target is not None else None,
            carried_out=job.deed(change.entry, None, change.words) if change is not None else None,
            dimensions=dimensions,
            items=items,
            closed=closed,
            words=self._words(dimensions, items, closed=closed),
        )

    @cached_property
    def _carried_out(self) -> StateChange | None:
        """The change of this part that has the order's code, or the first of these dimensions after it."""
        changes = self._job.build.changes(self._body.part)
        named = [each for each in changes if each.code == self._body.code]
        named += [each for each in changes if each.order > self._order and self._of_these(each)]
        return named[0] if named else None

    def _of_these(self, change: StateChange) -> bool:
        features = {self._feature(name) for name in self._body.dimensions}
        return not change.dimensions or bool(features & {self._feature(name) for name in change.dimensions})

    def _feature(self, name: str) -> str:
        dimension = self._job.sheet.dimensions.get(name)
        return dimension.feature if dimension is not None else name

    def _words(
        self, dimensions: tuple[ReworkedDimension, ...], items: tuple[ReworkItem, ...], *, closed: bool
    ) -> str:
        if self._carried_out is None:
            return "ordered, not carried out yet"
        if closed:
            return "carried out, and everything that it feeds was looked at"
        unread = sum(1 for each in dimensions if not each.read_again)
        waiting = sum(1 for each in items if each.open)
        said = [
            f"{unread} {'dimension' if unread == 1 else 'dimensions'} not read again" if unread else "",
            f"{waiting} of {len(items)} that it feeds not looked at" if waiting else "",
        ]
        return f"carried out; {', '.join(each for each in said if each)}"

    # Before and after.

    def _dimension(self, name: str) -> ReworkedDimension:
        before = self._value(self._before, name)
        after = self._value(self._job.assessor.judge, name)
        again = self._carried_out is not None and self._read_since(name)
        return ReworkedDimension(
            dimension=name,
            title=self._job.title(name),
            before=before[0],
            before_uncertainty=before[1],
            after=after[0] if again else None,
            after_uncertainty=after[1] if again else None,
            read_again=again,
        )

    @cached_property
    def _before(self) -> Judge:
        """The judge of the build as it was just before the work; as it is now while that was not done."""
        job = self._job
        if self._carried_out is None:
            return job.assessor.judge
        seq = self._carried_out.entry.seq - 1
        return Judge(job.sheet, job.shop, job.build.as_of(seq), State.CURRENT)

    def _value(self, judge: Judge, name: str) -> tuple[float | None, float | None]:
        """A dimension by what was read of it."""
        dimension = judge.sheet.dimensions.get(name)
        if dimension is None or not judge.member(name).read:
            return None, None
        if name in judge.subjects:
            found = judge.verdict(judge.subjects[name])
            return found.value, found.standard_uncertainty
        chain = Chain((judge.member(name),))
        posed = Posed(tuple(chain.terms(dimension.judged)), chain.values(), chain.blades())
        try:
            result = posed.judged([], judge.rules.of(dimension.limit_class))
        except PhysicsError:
            return None, None
        return result.value, result.standard_uncertainty

    def _read_since(self, name: str) -> bool:
        change = self._carried_out
        known = name in self._job.sheet.dimensions
        records = self._job.assessor.judge.member(name).evidence.used if known else ()
        return change is not None and any(each.order > change.order for each in records)

    # What it feeds.

    def _items(self) -> Iterator[ReworkItem]:
        listed = self._body.feeds
        yield from (self._item(name, since=False) for name in listed)
        whole = self._position if self._body.change == "replacement" else None
        feeding = feeds_of(self._job.sheet, self._body.dimensions, whole)
        yield from (self._item(name, since=True) for name in feeding if name not in listed)

    def _item(self, name: str, *, since: bool) -> ReworkItem:
        job, change = self._job, self._carried_out
        check = self._check(name)
        judged = job.assessor.verdict(name) if name in job.assessor.judge.subjects else None
        held = job.fit(name)
        absent = job.not_here(name) is not None
        looked = check is not None or absent
        return ReworkItem(
            item=name,
            title=job.title(name),
            answer=check.body.answer if check is not None else None,
            checked=job.deed(check.entry, None, check.body.words) if check is not None else None,
            verdict=judged.verdict if judged is not None else None,
            verdict_words=held.words,
            open=change is not None and not looked,
            since_ordered=since,
        )

    def _check(self, name: str) -> Recorded[kinds.ReworkChecked] | None:
        """The last time that somebody checked it off after the work was done."""
        change = self._carried_out
        checks = self._job.work.rework_checks.get(self._body.code, ())
        found = [
            each
            for each in checks
            if each.body.item == name and change is not None and self._job.order(each.entry) > change.order
        ]
        return found[-1] if found else None
