"""What is to be said of a tightening group although nothing about it is wrong."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.model.fastener import Locking, TighteningGroup
from fitwright.model.sheet import Sheet
from fitwright.model.step import ConsumableKind


def group_cautions(group: TighteningGroup, sheet: Sheet) -> Iterator[str]:
    """Cautions of a group, each a sentence: its own first, then what follows from its table."""
    if group.caution is not None:
        yield group.caution
    if has_threadlocker(group, sheet) and any(each.after_heat for each in group.passes):
        yield (
            "Threadlocker on a joint that is tightened again after a heat cycle: tightening breaks what has "
            "cured. Leave it out, or ask whoever states these values."
        )


def has_threadlocker(group: TighteningGroup, sheet: Sheet) -> bool:
    """Whether threadlocker is put on its threads."""
    consumable = sheet.consumables.get(group.lubricant or "")
    named = consumable is not None and consumable.kind is ConsumableKind.THREADLOCKER
    return named or group.locking is Locking.THREADLOCKER
