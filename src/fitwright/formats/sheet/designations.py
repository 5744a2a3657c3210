"""What the assembly of a sheet names that stands in tables: threads, property classes, lubricants, cautions.

A thread or a property class that no table has is taken as it is written: nothing is then computed with
it. Only what was meant for a series of the tables, and is not in it, is told as a slip.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from difflib import get_close_matches
from typing import TYPE_CHECKING, Final

from fitwright.model.fastener import TighteningGroup
from fitwright.model.problem import Path, Problem, meant
from fitwright.model.sheet import Sheet

if TYPE_CHECKING:
    from fitwright.physics.fasteners.thread import Thread

_OF_A_SERIES: Final = re.compile(
    r"M\s*\d.*|[^a-wyz]*|.*\b(UN[CF]|UNEF|BS[WF]|Whit(worth)?)\b.*", re.IGNORECASE
)
"""How a thread of the tables is written: metric, a size and a number alone, or an inch series by name."""
_CLASS_OF_TWO_NUMBERS: Final = re.compile(r"\D*\d+\s*[.,]\s*\d+\D*")


def check_designations(sheet: Sheet) -> Iterator[Problem]:
    """Problems of names that stand in no table."""
    for group in sheet.tightening_groups.values():
        yield from _check_group(group, sheet, ("tightening_groups", group.id))
    for consumable in sheet.consumables.values():
        if consumable.friction is not None:
            yield from _check_lubricant(consumable.friction, ("consumables", consumable.id, "friction"))
    if any(step.cautions for step in sheet.steps.values()):
        yield from _check_cautions(sheet)


def _check_group(group: TighteningGroup, sheet: Sheet, path: Path) -> Iterator[Problem]:
    from fitwright.data.errors import UnknownNameError
    from fitwright.data.threads import thread_of

    try:
        thread = thread_of(group.thread)
    except UnknownNameError as error:
        if _OF_A_SERIES.fullmatch(group.thread):
            yield Problem((*path, "thread"), f'no table has the thread "{group.thread}"', _near(error.near))
    else:
        yield from _check_class(group, thread, (*path, "property_class"))
        yield from _check_torques(group, thread, path)
    if group.lubricant is not None and group.lubricant not in sheet.consumables:
        yield from _check_lubricant(group.lubricant, (*path, "lubricant"), tuple(sheet.consumables))


def _check_class(group: TighteningGroup, thread: Thread, path: Path) -> Iterator[Problem]:
    from fitwright.data.errors import UnknownNameError
    from fitwright.data.fasteners import NoStrengthError, property_class_names, property_class_of

    written = group.property_class
    if written is None:
        return
    try:
        property_class_of(written, thread)
    except NoStrengthError as error:
        what, _, mend = str(error).partition("; ")
        yield Problem(path, what, mend)
    except UnknownNameError as error:
        meant_one = get_close_matches(written, property_class_names(), n=1, cutoff=0.7)
        if meant_one or _CLASS_OF_TWO_NUMBERS.fullmatch(written):
            yield Problem(path, f'no table has the property class "{written}"', _near(error.near))


def _check_torques(group: TighteningGroup, thread: Thread, path: Path) -> Iterator[Problem]:
    from fitwright.physics.fasteners.wrench import is_possible_torque

    for index, each in enumerate(group.passes):
        for key in ("torque", "upto"):
            torque = getattr(each, key)
            if torque is None or not torque.si > 0.0:
                continue
            possible = is_possible_torque(thread, torque.si)
            if not possible.is_possible:
                size = "large" if possible.is_too_large else "small"
                what = f"{torque.written} is too {size} for {group.thread}"
                mend = "check number and unit (N m, lbf ft, lbf in)"
                yield Problem((*path, "passes", index, key), what, mend)


def _check_lubricant(name: str, path: Path, consumables: tuple[str, ...] = ()) -> Iterator[Problem]:
    from fitwright.data.errors import UnknownNameError
    from fitwright.data.fasteners import lubricant_of

    try:
        lubricant_of(name)
    except UnknownNameError as error:
        guess = meant(name, consumables)
        noun = "no consumable and no usual lubricant" if path[-1] == "lubricant" else "no usual lubricant"
        yield Problem(path, f'"{name}" is {noun}', guess or _near(error.near))


def _check_cautions(sheet: Sheet) -> Iterator[Problem]:
    from fitwright.data.cautions import cautions

    known = cautions()
    for step in sheet.steps.values():
        for key in step.cautions:
            if key not in known:
                mend = meant(key, known) or f"keys: {', '.join(known)}"
                yield Problem(("steps", step.id, "cautions"), f'there is no caution "{key}"', mend)


def _near(names: tuple[str, ...]) -> str:
    *first, last = (f'"{each}"' for each in names)
    return f"write {', '.join(first)} or {last}" if first else f"write {last}"
