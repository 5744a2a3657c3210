"""Fasteners of a group as somebody names them: `all`, `1..6 9`, `C4, C5`; and as a text says them again."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from fitwright.bench.context import near
from fitwright.bench.errors import NoWordsError, UnknownNameError
from fitwright.model.fastener import TighteningGroup, readable_names

ALL: Final = "all"
_SPAN: Final = re.compile(r"(\D*)(\d+)\s*\.\.\s*(\D*)(\d+)")
_AROUND: Final = re.compile(r"\s*\.\.\s*")


def fasteners_named(group: TighteningGroup, text: str) -> tuple[str, ...]:
    """The fasteners that a text names, each once, in the order of tightening.

    The last part of an id is enough where only one ends so: `3` for `head.bolt.3`.

    Raises
    ------
    BenchError
        If it names none, or one that the group does not have.

    Examples
    --------
    >>> from fitwright.model.fastener import Fastener
    >>> ids = ("head.C2", "head.C3", "head.C1", "head.C4")
    >>> group = TighteningGroup("head", "Head", "M10", tuple(map(Fastener, ids)), ())
    >>> fasteners_named(group, "C1..C3"), fasteners_named(group, "all") == ids
    (('head.C2', 'head.C3', 'head.C1'), True)
    """
    known = [each.id for each in group.fasteners]
    if text.strip().casefold() == ALL:
        return tuple(known)
    named = [fastener_named(group, each) for each in _names(text)]
    if not named:
        raise NoWordsError("Work on fasteners", f'which they are (of {group.title}), or "{ALL}"')
    return tuple(each for each in known if each in named)


def fastener_named(group: TighteningGroup, name: str) -> str:
    """The id of one fastener by itself or by its last part."""
    known = [each.id for each in group.fasteners]
    ending = [each for each in known if each == name or each.endswith(f".{name}")]
    if name in known or len(ending) == 1:
        return name if name in known else ending[0]
    short = list(short_names(group).values())
    raise UnknownNameError(f"fastener of {group.title}", name, near(name, short) or short)


def short_names(group: TighteningGroup) -> dict[str, str]:
    """What each fastener is called within its group: its id without what all of them begin with.

    Examples
    --------
    >>> from fitwright.model.fastener import Fastener
    >>> ids = ("head.bolt.1", "head.bolt.2")
    >>> short_names(TighteningGroup("head", "Head", "M10", tuple(map(Fastener, ids)), ()))
    {'head.bolt.1': '1', 'head.bolt.2': '2'}
    """
    ids = [each.id for each in group.fasteners]
    beginnings = {each.rpartition(".")[0] for each in ids}
    same = len(beginnings) == 1 and len(ids) > 1
    return {each: each.rpartition(".")[2] if same else each for each in ids}


def _names(text: str) -> Iterator[str]:
    for word in _AROUND.sub("..", text).replace(",", " ").split():
        found = _SPAN.fullmatch(word)
        if found is None or found[3] not in ("", found[1]):
            yield word
        else:
            first, last = sorted((int(found[2]), int(found[4])))
            yield from (f"{found[1]}{number}" for number in range(first, last + 1))


def fastener_words(group: TighteningGroup | None, names: Sequence[str]) -> str:
    """Fasteners in words: all of a group, one, or a list.

    Examples
    --------
    >>> fastener_words(None, ["C1", "C3", "C2"])
    'C1, C3 and C2'
    """
    if group is not None and len(names) > 1 and {each.id for each in group.fasteners} == set(names):
        return f"all {len(names)}"
    called = _said_as(group) if group is not None else {}
    *others, last = (called.get(name, name) for name in names)
    return f"{', '.join(others)} and {last}" if others else last


def _said_as(group: TighteningGroup) -> dict[str, str]:
    """A number within its group where that is enough; else as it is called beside its head."""
    short = short_names(group)
    return {each: name if name != each else readable_names(group)[each] for each, name in short.items()}
