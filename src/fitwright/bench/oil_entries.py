"""What a reading of a first start and a choice of oil share: what entries they make."""

from __future__ import annotations

from collections.abc import Iterable

from fitwright.bench.asking import Answered, answer_entry
from fitwright.bench.context import Bench
from fitwright.bench.work_taking import EntryTaking
from fitwright.records.entry import NewEntry
from fitwright.records.ids import new_id
from fitwright.records.kinds import OilChosen, PressureReading


def entries_of(
    bench: Bench, body: OilChosen | PressureReading, answered: Iterable[Answered], taking: EntryTaking
) -> tuple[NewEntry, ...]:
    """The entry of a body first, then answers to what was asked about it."""
    build, entry_id = bench.build.build, taking.entry_id or new_id()
    own = NewEntry(
        id=entry_id,
        build=build,
        kind=body.kind,
        body=body.model_dump(mode="json"),
        person=taking.person,
        device=taking.device,
    )
    answers = (
        answer_entry(each, build=build, entry_id=entry_id, person=taking.person, device=taking.device)
        for each in answered
    )
    return own, *answers
