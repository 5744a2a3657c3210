"""Parts that moved between positions, or were taken out and put back."""

from __future__ import annotations

from fitwright.assess.assembly.job import Job
from fitwright.assess.assembly.part_results import PartAt, PartMove
from fitwright.assess.assembly.times import when


def moves_of(job: Job) -> tuple[PartMove, ...]:
    """Every part with more of a history than having been put in, in the order of its first move."""
    found = [_move(job, part, history) for part, history in _histories(job).items()]
    return tuple(each for each in found if len(each.history) > 1)


def _histories(job: Job) -> dict[str, list[PartAt]]:
    """Each part's way. An original part, of which nothing was recorded first, begins where it sat."""
    found: dict[str, list[PartAt]] = {}
    events = [
        (event.seq, position, before, event)
        for position, every in job.arranged
        for before, event in zip([None, *every[:-1]], every, strict=True)
    ]
    for _, position, before, event in sorted(events, key=lambda each: (each[0], each[3].part is not None)):
        at = when(event.entry)
        out = before.part if before is not None else position
        if out is not None and out != event.part and (before is not None or event.part is None):
            gone = PartAt(None, "taken out", event.entry.id, event.entry.seq, at)
            found.setdefault(out, _began(job, position, before is None)).append(gone)
        if event.part is not None:
            put = PartAt(position, job.title(position), event.entry.id, event.entry.seq, at)
            found.setdefault(event.part, []).append(put)
    return found


def _began(job: Job, position: str, original: bool) -> list[PartAt]:  # noqa: FBT001 - private, by its name
    return [PartAt(position, job.title(position), "", 0, None)] if original else []


def _move(job: Job, part: str, history: list[PartAt]) -> PartMove:
    held = job.build.parts.get(part)
    title = held.body.title if held is not None else job.title(part)
    way = ", then ".join(each.title for each in history)
    return PartMove(part, title, job.build.location(part), tuple(history), f"{title}: {way}")
