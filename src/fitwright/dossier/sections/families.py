"""Things that differ in their number only, under one name: `Rod 1 to 5`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

_NUMBER = re.compile(r"\d+")


def pattern_of(name: str) -> str:
    """A name without its numbers.

    >>> pattern_of("Main 4 upper shell")
    'Main # upper shell'
    """
    return _NUMBER.sub("#", name)


def named_together(names: Sequence[str]) -> str:
    """Names of one pattern as one, with the numbers in which they differ.

    >>> named_together(["Rod 1 length", "Rod 2 length", "Rod 3 length"])
    'Rod 1 to 3 length'
    >>> named_together(["Valve 2 exhaust", "Valve 4 exhaust"])
    'Valve 2, 4 exhaust'
    """
    if len(names) == 1:
        return names[0]
    numbers = [_NUMBER.findall(each) for each in names]
    pieces = pattern_of(names[0]).split("#")
    found = pieces[0]
    for place, piece in enumerate(pieces[1:]):
        seen = list(dict.fromkeys(each[place] for each in numbers))
        found += (seen[0] if len(seen) == 1 else _span(seen)) + piece
    return found


def named_families(names: Iterable[str]) -> Iterator[str]:
    """Names that differ in their number only as one.

    >>> list(named_families(["Piston 1 in", "Kit", "Piston 2 in"]))
    ['Piston 1, 2 in', 'Kit']
    """
    groups: dict[str, list[str]] = {}
    for name in dict.fromkeys(names):
        groups.setdefault(pattern_of(name), []).append(name)
    return (named_together(each) for each in groups.values())


def _span(seen: Sequence[str]) -> str:
    numbers = [int(each) for each in seen]
    if len(numbers) > 2 and numbers == list(range(numbers[0], numbers[-1] + 1)):
        return f"{numbers[0]} to {numbers[-1]}"
    return ", ".join(seen)
