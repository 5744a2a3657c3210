"""Rework orders: carried out or not, the dimensions before and after, what they feed and who looked."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.past import Moment, Past
from fitwright.assess.assembly.permission_results import ReworkedDimension, ReworkItem, ReworkStanding
from fitwright.assess.assembly.sizes import NOT_READ, Size, size_of
from fitwright.records import kinds
from fitwright.records.entry import Entry
from fitwright.records.projection import Recorded, StateChange


def reworks_of(job: Job, past: Past) -> tuple[ReworkStanding, ...]:
    """All rework orders of a build, in order."""
    held = sorted(job.work.rework_orders.values(), key=lambda each: job.order(each.entry))
    orders = [_Order(job, past, *each) for each in held]
    past.look_at_sizes(job, [moment for each in orders for moment in each.moments()])
    return tuple(each.standing() for each in orders)


class _Order:
    """One order, held against what the record says since."""

    def __init__(self, job: Job, past: Past, entry: Entry, body: kinds.ReworkOrder) -> None:
        self._job, self._past, self._entry, self._body = job, past, entry, body
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

    def moments(self) -> Iterator[Moment]:
        """The sizes that are asked for: just before the work, and just before the next that undid it."""
        if self._carried_out is not None:
            for name in self._body.dimensions:
                yield name, self._job.seq_before(self._carried_out.entry.seq)
                following = self._following(name)
                if following is not None:
                    yield name, self._job.seq_before(following.entry.seq)

    def _dimension(self, name: str) -> ReworkedDimension:
        change = self._carried_out
        if change is None:
            before, after, again = self._now(name), NOT_READ, False
        else:
            before = self._past.size(self._job, name, self._job.seq_before(change.entry.seq))
            again = self._read_since(name, change)
            after = self._after(name) if again else NOT_READ
        return ReworkedDimension(name, self._job.title(name), *before, *after, read_again=again)

    def _now(self, name: str) -> Size:
        return size_of(self._job.assessor.judge, name)

    def _after(self, name: str) -> Size:
        """As it is now, or as it was until another change of it."""
        following = self._following(name)
        if following is None:
            return self._now(name)
        return self._past.size(self._job, name, self._job.seq_before(following.entry.seq))

    def _following(self, name: str) -> StateChange | None:
        """The next change of this part that the readings of a dimension did not survive."""
        change = self._carried_out
        feature = self._feature(name)
        return next(
            (
                each
                for each in self._job.build.changes(self._body.part)
                if change is not None
                and each.order > change.order
                and (not each.dimensions or feature in {self._feature(one) for one in each.dimensions})
            ),
            None,
        )

    def _read_since(self, name: str, change: StateChange) -> bool:
        """Whether it was read after the work, be it that a later change retired that reading again."""
        dimension = self._job.sheet.dimensions.get(name)
        records = self._job.build.readings_of(dimension.feature) if dimension is not None else ()
        return any(
            each.order > change.order and each.effective and each.dimension == name for each in records
        )

    # What it feeds.

    def _items(self) -> Iterator[ReworkItem]:
        listed = self._body.feeds
        yield from (self._item(name, since=False) for name in listed)
        whole = self._position if self._body.change == "replacement" else None
        feeding = self._job.feeding.of(self._body.dimensions, whole)
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
