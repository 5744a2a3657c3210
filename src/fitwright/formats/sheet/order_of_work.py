"""From tables to the model: consumables, tightening groups, and the steps of the order of work."""

from __future__ import annotations

import re
from typing import Any, Final

from fitwright.formats.sheet.amounts import AmountReader
from fitwright.formats.sheet.fields import ID_PATTERN
from fitwright.formats.sheet.findings import Findings
from fitwright.formats.sheet.members import MemberTexts
from fitwright.formats.sheet.pattern import PatternReader
from fitwright.formats.sheet.work_tables import (
    ConsumableTable,
    PassTable,
    StepTable,
    TighteningGroupTable,
)
from fitwright.model.fastener import GripSection, Pass, TighteningGroup
from fitwright.model.problem import Path
from fitwright.model.step import Consumable, PhotoWanted, Step

_ID: Final = re.compile(ID_PATTERN)
_ID_FORM: Final = "write lower case letters, digits and underscores, joined by dots: main_cap.1.bolt.a"
_GROUP_LENGTHS: Final = ("bearing_diameter_outer", "bearing_diameter_hole", "engagement", "permanent_set")
_GROUP_WORDS: Final = ("property_class", "lubricant", "clamped", "tapped_in", "source", "caution", "note")
_GROUP_FLAGS: Final = (
    "method",
    "thread_insert",
    "blind",
    "locking",
    "most_tightenings",
    "one_time_use",
    "critical",
)
STEP_LISTS: Final = (
    "after",
    "fits",
    "tightened",
    "cured",
    "tightens",
    "eye_checks",
    "replaces",
    "uses",
    "hides",
    "cautions",
)
"""The lists of names of a step."""
_PASS_AMOUNTS: Final = {
    "torque": "torque",
    "upto": "torque",
    "angle": "angle",
    "stretch_low": "length",
    "stretch_high": "length",
}


def consumable_of(table: ConsumableTable, member: MemberTexts, amounts: AmountReader) -> Consumable:
    """A consumable."""
    return Consumable(
        id=member.id,
        title=table.title,
        kind=table.kind,
        pot_life=amounts.optional(table.pot_life, "time", (*member.path, "pot_life"), positive=True),
        cure_time=amounts.optional(table.cure_time, "time", (*member.path, "cure_time"), positive=True),
        friction=table.friction,
        batch_wanted=table.batch_wanted,
        source=table.source,
        place_in_source=table.at,
        not_on=table.not_on,
        note=table.note,
    )


def group_of(
    table: TighteningGroupTable, member: MemberTexts, amounts: AmountReader, findings: Findings
) -> TighteningGroup:
    """A tightening group, its fasteners in the order of tightening."""
    reader = PatternReader(amounts, findings, member.path)
    names = member.names(table.fasteners, "fasteners")
    _check_ids(names, (*member.path, "fasteners"), findings)
    listed = reader.fasteners(names, table.pattern)
    given: dict[str, Any] = {name: getattr(table, name) for name in _GROUP_FLAGS}
    given |= {name: member.optional(getattr(table, name), name) for name in _GROUP_WORDS}
    given |= {
        name: amounts.optional(getattr(table, name), "length", (*member.path, name), positive=True)
        for name in _GROUP_LENGTHS
    }
    return TighteningGroup(
        id=member.id,
        title=member.text(table.title, "title"),
        thread=member.text(table.thread, "thread"),
        fasteners=reader.in_order(listed, member.names(table.order, "order")),
        passes=tuple(
            _pass(each, (*member.path, "passes", index), amounts) for index, each in enumerate(table.passes)
        ),
        grip=_grip(table, member, amounts),
        place_in_source=member.optional(table.at, "at"),
        family=member.family,
        **given,
    )


def _pass(table: PassTable, path: Path, amounts: AmountReader) -> Pass:
    read: dict[str, Any] = {
        name: amounts.optional(getattr(table, name), dimension, (*path, name), positive=True)
        for name, dimension in _PASS_AMOUNTS.items()
    }
    return Pass(**read, after_heat=table.after_heat)


def _grip(table: TighteningGroupTable, member: MemberTexts, amounts: AmountReader) -> tuple[GripSection, ...]:
    path: Path = (*member.path, "grip")
    return tuple(
        GripSection(
            amounts.written(each.length, "length", (*path, index, "length"), positive=True),
            amounts.optional(each.diameter, "length", (*path, index, "diameter"), positive=True),
        )
        for index, each in enumerate(table.grip)
    )


def step_of(table: StepTable, member: MemberTexts, findings: Findings) -> Step:
    """A step of the order of work."""
    lists: dict[str, Any] = {name: member.names(getattr(table, name), name) for name in STEP_LISTS}
    photos = tuple(
        PhotoWanted(
            member.text(photo.id, "photos", index, "id"), member.text(photo.words, "photos", index, "words")
        )
        for index, photo in enumerate(table.photos)
    )
    _check_ids([photo.id for photo in photos], (*member.path, "photos"), findings)
    return Step(
        id=member.id,
        title=member.text(table.title, "title"),
        stage=member.text(table.stage, "stage"),
        photos=photos,
        point=table.point,
        invited=member.optional(table.invited, "invited"),
        note=member.optional(table.note, "note"),
        family=member.family,
        **lists,
    )


def _check_ids(names: tuple[str, ...] | list[str], path: Path, findings: Findings) -> None:
    for name in names:
        if not _ID.match(name):
            findings.add(path, f'"{name}" is no id', _ID_FORM)
