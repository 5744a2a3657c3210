"""What the drawing says of one fastener."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import takewhile

from fitwright.assess.results import Verdict
from fitwright.model.fastener import TighteningGroup


@dataclass(frozen=True, slots=True)
class FastenerShown:
    """One fastener as it stands, in words and figures of the reader.

    `name` is what stands beside it where that is not its id. `verdict` chooses the mark beside `word`
    ("within", "odd one out", "loosened", "not yet"); `passes` says of each pass whether it was brought
    there; `figures` is what it got, the last pass first. `address` is where a touch leads; without one
    the drawing cannot be touched.
    """

    id: str
    name: str = ""
    verdict: Verdict = Verdict.NOT_MEASURED
    word: str = ""
    passes: tuple[bool, ...] = ()
    figures: tuple[str, ...] = ()
    loosened: bool = False
    next: bool = False
    chosen: bool = False
    address: str = ""

    @property
    def called(self) -> str:
        """What it is called in words."""
        return self.name or self.id

    @property
    def is_complete(self) -> bool:
        """Whether every pass was done."""
        return bool(self.passes) and all(self.passes)

    @property
    def passes_words(self) -> str:
        """How far it has come, `pass 2 of 3`; empty before the first."""
        reached = sum(self.passes)
        return f"pass {reached} of {len(self.passes)}" if reached else ""


def readable_names(group: TighteningGroup) -> dict[str, str]:
    """What each position is called beside its head: its id without what tells no two of them apart.

    >>> from fitwright.model.fastener import Fastener
    >>> ids = ("head.bolt.1", "head.bolt.2")
    >>> readable_names(TighteningGroup("head", "Head", "M10", tuple(map(Fastener, ids))))
    {'head.bolt.1': 'bolt 1', 'head.bolt.2': 'bolt 2'}
    """
    parts = {each.id: each.id.split(".") for each in group.fasteners}
    level = takewhile(lambda each: len({*each}) == 1, zip(*parts.values(), strict=False))
    alike = len(list(level)) if len(parts) > 1 else 0
    start = max(alike - 1, 0)
    return {name: " ".join(each[start:]).replace("_", " ") for name, each in parts.items()}
