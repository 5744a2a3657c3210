"""A reading put right: a new entry of the same place and gauge that supersedes it, with the reason."""

from __future__ import annotations

from dataclasses import replace

from fitwright.bench.context import Bench
from fitwright.bench.errors import NoWordsError, UnknownNameError
from fitwright.bench.taking import Taken, Taking, take_blade, take_value
from fitwright.model.slips import Question
from fitwright.records.kinds import BladeObservation, ValueObservation
from fitwright.records.projection import ReadingRecord


def reading_of(bench: Bench, entry_id: str) -> ReadingRecord:
    """A reading of this build by its entry.

    Raises
    ------
    UnknownNameError
        If the build has no such reading.
    """
    found = bench.build.readings.get(entry_id)
    if found is None:
        raise UnknownNameError("reading", entry_id[:8], [])
    return found


def corrected_value(bench: Bench, entry_id: str, text: str, taking: Taking) -> Taken | Question:
    """The value that should have been entered; who, sitting, gauge, setting and parts stay as they were."""
    record, same = _same(bench, entry_id, taking)
    observation = record.body.observation
    if isinstance(observation, ValueObservation):
        same = replace(
            same,
            instrument=observation.instrument,
            setting=observation.setting,
            unit=taking.unit or observation.value.unit,
        )
    return take_value(bench, record.dimension or record.feature, record.place, text, same)


def corrected_blade(bench: Bench, entry_id: str, blades: str, answer: str, taking: Taking) -> Taken:
    """What the blade did, or which it was; without blades those that were named."""
    record, same = _same(bench, entry_id, taking)
    observation = record.body.observation
    if not blades and isinstance(observation, BladeObservation):
        blades = "+".join(observation.blades)
    return take_blade(bench, record.dimension or record.feature, record.place, blades, answer, same)


def _same(bench: Bench, entry_id: str, taking: Taking) -> tuple[ReadingRecord, Taking]:
    record = reading_of(bench, entry_id)
    if not (taking.reason or "").strip():
        raise NoWordsError("A correction", "its reason")
    body = record.body
    return record, replace(
        taking,
        sitting=body.sitting,
        outside_sittings=body.sitting is None,
        measured_by=body.measured_by,
        taken_at=body.taken_at,
        origin=body.origin,
        page_photo=body.page_photo,
        part_temperature=body.part_temperature,
        members=dict(record.members),
        during_rework=body.during_rework,
        note=taking.note or body.note,
        supersedes=entry_id,
    )
