"""Parts that may be used once: whether the one in place is new."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.part_results import OneTimePart
from fitwright.assess.assembly.reckoning import Rules
from fitwright.model.fastener import TighteningGroup, fastener_title
from fitwright.records.projection import ArrangementEvent


def one_time_parts(job: Job, rules: Rules) -> tuple[OneTimePart, ...]:
    """All one-time parts of this job: positions in the order of the sheet, then fasteners by their groups."""
    positions = (_of_position(job, part.id) for part in job.sheet.parts.values() if _matters(job, part.id))
    fasteners = (
        OneTimePart(
            f"{group.id}/{each.id}", fastener_title(group, each.id), part, found is True, words, since
        )
        for group in job.sheet.tightening_groups.values()
        if group.one_time_use and job.not_here(group.id) is None
        for each in group.fasteners
        for part in (job.tightenings.lives(group).by_id[each.id].part,)
        for found, words, since in (fastener_renewed(job, rules, group, each.id),)
    )
    return (*positions, *fasteners)


def _matters(job: Job, position: str) -> bool:
    return job.sheet.parts[position].one_time_use and job.not_here(position) is None


def _of_position(job: Job, position: str) -> OneTimePart:
    found = renewed(job, position)
    return OneTimePart(position, job.title(position), job.build.occupant(position), *found)


def fastener_renewed(
    job: Job, rules: Rules, group: TighteningGroup, fastener: str
) -> tuple[bool | None, str, str | None]:
    """Whether a fastener was new when it was tightened, in words, and the entry; None where nobody said."""
    life = job.tightenings.lives(group, rules.upto).by_id.get(fastener)
    if life is None:
        return False, "the sheet has no such fastener", None
    if not life.records:
        since = life.loosened.entry.id if life.loosened is not None else None
        return False, "loosened" if since else "not tightened yet", since
    entry = min(life.records.values(), key=lambda each: each.order).entry.id
    new = rules.is_new(life)
    if new is None:
        return None, "nobody recorded which one it is, and that it is new", entry
    return new, f"new: {life.part}" if new else "made for one use, and tightened before", entry


def renewed(job: Job, position: str, upto: int | None = None) -> tuple[bool, str, str | None]:
    """Whether the part in a position is new there, in words, and the entry that made it so or ended it.

    New is a part that was recorded as put in, is not declared used, sat nowhere before and was not
    loosened since; or one that a replacement was recorded of. Up to an entry of the record.
    """
    events = _events(job, position, upto)
    part = events[-1].part if events else position
    if part is None:
        return False, "taken out", events[-1].entry.id
    replaced = _last_replacement(job, part, upto)
    put_in = events[-1] if events else None
    loosened = _loosened(job, part, max(put_in.seq if put_in else -1, replaced[0] if replaced else -1), upto)
    if loosened is not None:
        return False, "loosened since it was new", loosened
    if replaced is not None and (put_in is None or replaced[0] >= put_in.seq):
        return True, "replaced by a new one", replaced[1]
    if put_in is None:
        return False, "no new one is recorded", None
    return _put_in(job, part, put_in, upto)


def _put_in(job: Job, part: str, put_in: ArrangementEvent, upto: int | None) -> tuple[bool, str, str]:
    if job.build.is_used(part):
        return False, "it is declared used", put_in.entry.id
    before = [
        event
        for other in _positions_of(job, part)
        for event in _events(job, other, upto)
        if event.part == part and event.seq < put_in.seq
    ]
    if before:
        return False, "it sat somewhere before", put_in.entry.id
    return True, "a new one is in place", put_in.entry.id


def _events(job: Job, position: str, upto: int | None) -> list[ArrangementEvent]:
    events = job.build.arrangement_events(position)
    return [each for each in events if upto is None or each.seq <= upto]


def _positions_of(job: Job, part: str) -> Iterator[str]:
    yield from (name for name, _ in job.arranged if part in job.parts_seen[name])


def _last_replacement(job: Job, part: str, upto: int | None) -> tuple[int, str] | None:
    found = [
        (change.order, change.entry.id)
        for change in job.build.changes(part)
        if change.change == "replacement" and (upto is None or change.order <= upto)
    ]
    return found[-1] if found else None


def _loosened(job: Job, part: str, after: int, upto: int | None) -> str | None:
    """The entry by which a fastener that is this part was loosened after it was put in."""
    return next(
        (
            entry
            for order, entry in job.loosened_parts.get(part, ())
            if order > after and (upto is None or order <= upto)
        ),
        None,
    )
