"""What is recorded and has no place on the sheet any more: kept, shown, and part of no verdict.

A later revision may rename or leave out a dimension that was read. Its readings must not be gone
from view: they can be moved to where they belong now, or the sheet mended.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from fitwright.assess.results import NotOnSheet
from fitwright.model.dimension import Dimension
from fitwright.model.sheet import Sheet
from fitwright.records.kinds import BladeObservation, Typed
from fitwright.records.projection import BuildState, ReadingRecord, StatedSizeRecord


def not_on_sheet(sheet: Sheet, build: BuildState) -> tuple[NotOnSheet, ...]:
    """The readings and stated sizes of a build that count, at dimensions or places that the sheet lacks."""
    by_feature: Mapping[str, list[Dimension]] = defaultdict(list)
    for dimension in sheet.dimensions.values():
        by_feature[dimension.feature].append(dimension)
    return tuple(_without_a_place(build, by_feature))


def _without_a_place(build: BuildState, by_feature: Mapping[str, list[Dimension]]) -> Iterator[NotOnSheet]:
    every: list[ReadingRecord | StatedSizeRecord] = [*build.readings.values(), *build.stated_sizes.values()]
    for record in sorted(every, key=lambda each: each.entry.seq):
        if record.effective and record.entry.build is not None:  # what is on the shelf may be for any engine
            why = _why(record, by_feature[record.feature])
            if why:
                name = record.dimension or record.feature
                yield NotOnSheet(record.entry.id, record.entry.seq, name, record.place, _words(record), why)


def _why(record: ReadingRecord | StatedSizeRecord, dimensions: list[Dimension]) -> str:
    """Why no dimension takes it; nothing where one does."""
    takes = [each for each in dimensions if each.part is not None or each.id == record.dimension]
    if not takes:
        return "the sheet has no such dimension any more"
    if isinstance(record, ReadingRecord) and all(each.place(record.place) is None for each in takes):
        return "the sheet has no such place any more"
    return ""


def _words(record: ReadingRecord | StatedSizeRecord) -> str:
    if isinstance(record, StatedSizeRecord):
        return f"stated {_amount(record.body.size)}"
    observation = record.body.observation
    if isinstance(observation, BladeObservation):
        return f"{'+'.join(observation.blades)} {observation.answer}"
    return _amount(observation.value)


def _amount(typed: Typed) -> str:
    """As it was typed, with its unit where the text has none."""
    return typed.typed if typed.typed.strip()[-1:].isalpha() else f"{typed.typed} {typed.unit}".strip()
