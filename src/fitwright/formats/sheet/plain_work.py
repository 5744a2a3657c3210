"""From the model back to the plain values of a sheet file: consumables, tightening groups, steps."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from enum import Enum
from types import MappingProxyType
from typing import Any, Final

from fitwright.formats.sheet.exact import exact
from fitwright.model.amount import Written
from fitwright.model.fastener import NOT_STATED, Fastener, TighteningGroup
from fitwright.model.step import Consumable, Step

PlainTable = dict[str, Any]
_KEYS: Final[Mapping[str, str]] = {"place_in_source": "at"}
_APART: Final = frozenset({"family", "fasteners"})


def _plain(entry: Any) -> PlainTable:  # noqa: ANN401 - any dataclass of the order of work
    """The keys that differ from what the format takes for them when they are left out."""
    return {
        _KEYS.get(each.name, each.name): _value(getattr(entry, each.name))
        for each in fields(entry)
        if each.name not in _APART and getattr(entry, each.name) != each.default
    }


def _value(value: Any) -> Any:  # noqa: ANN401 - any field of the order of work
    if isinstance(value, Written):
        return value.written
    if isinstance(value, tuple):
        return [_value(each) for each in value]
    if hasattr(value, "__dataclass_fields__"):
        return _plain(value)
    return value.value if isinstance(value, Enum) else value


def _entry(entry: Consumable | Step) -> PlainTable:
    table = _plain(entry)
    del table["id"]
    return table


def _group(group: TighteningGroup) -> PlainTable:
    """The fasteners as they are tightened, each where it sits."""
    own = _plain(group)
    del own["id"]
    table = {"title": own.pop("title")}
    thread = own.pop("thread")
    if thread != NOT_STATED:
        table["thread"] = thread
    table["fasteners"] = [each.id for each in group.fasteners]
    pattern = _pattern(group.fasteners)
    return {**table, **({"pattern": pattern} if pattern else {}), **own}


def _pattern(fasteners: tuple[Fastener, ...]) -> PlainTable:
    points = [(each.x, each.y) for each in fasteners if each.x is not None and each.y is not None]
    if not points:
        return {}
    return {"x": [exact(x, "mm", "m") for x, _ in points], "y": [exact(y, "mm", "m") for _, y in points]}


PLAIN_WORK: Final[Mapping[str, Callable[[Any], PlainTable]]] = MappingProxyType(
    {"consumables": _entry, "tightening_groups": _group, "steps": _entry}
)
"""How an entry of each section of the assembly becomes plain."""
