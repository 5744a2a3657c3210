"""What somebody asks a dossier for: how deep, on which paper, in which units, as draft or handed over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from fitwright.units.families import Family

Depth = Literal["owner", "complete"]
Paper = Literal["A4", "Letter"]

DEPTHS: Final[tuple[Depth, ...]] = ("owner", "complete")
PAPERS: Final[tuple[Paper, ...]] = ("A4", "Letter")


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked for; `revision` is the number under which it is handed over, None for a draft."""

    build: str
    depth: Depth = "owner"
    paper: Paper = "A4"
    units: Family = "mm"
    revision: int | None = None

    @property
    def draft(self) -> bool:
        """Whether nothing is handed over with it."""
        return self.revision is None
