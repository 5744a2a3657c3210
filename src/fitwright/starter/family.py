"""Families of blocks: keys with braces, and texts whose braces the loader fills.

Blocks name members by `{0}`, `{1}` (the first, the second brace). A family of one has no brace in
the sheet: its only value is put in here.
"""

from __future__ import annotations

from dataclasses import dataclass


def numbered(count: int, first: int = 1) -> tuple[str, ...]:
    """Numbers from `first`, as many as asked for, as they stand in ids."""
    return tuple(str(number) for number in range(first, first + count))


@dataclass(frozen=True, slots=True)
class Family:
    """The values of each brace, in the order of the braces."""

    groups: tuple[tuple[str, ...], ...] = ()

    def key(self, template: str) -> str:
        """The key of a block.

        Examples
        --------
        >>> Family((numbered(6),)).key("main.{0}.journal")
        'main.{1..6}.journal'
        >>> Family((numbered(1), ("a", "b"))).key("valve.{0}.inlet.{1}.stem")
        'valve.1.inlet.{a,b}.stem'
        """
        return template.format(*(_brace(group) for group in self.groups))

    def text(self, template: str) -> str:
        """A text below that key: `{}` under one brace, `{0}`, `{1}` under several.

        Examples
        --------
        >>> Family((numbered(6),)).text("Main {0} journal")
        'Main {} journal'
        """
        open_groups = [number for number, group in enumerate(self.groups) if len(group) > 1]
        fills = list[str]()
        for number, group in enumerate(self.groups):
            if len(group) == 1:
                fills.append(group[0])
            else:
                fills.append("{}" if len(open_groups) == 1 else f"{{{open_groups.index(number)}}}")
        return template.format(*fills)


def _brace(group: tuple[str, ...]) -> str:
    if len(group) == 1:
        return group[0]
    if all(value.isdigit() for value in group) and group == numbered(len(group), int(group[0])):
        return f"{{{group[0]}..{group[-1]}}}"
    return "{" + ",".join(group) + "}"


ONE = Family()
"""A block that stands alone."""
