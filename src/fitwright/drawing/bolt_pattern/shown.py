"""What the drawing says of one fastener."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.assess.results import Verdict


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
