"""The head of the record that a dossier shows: short on every page, in full once, as a code for a camera."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

SHORT: Final = 12
"""So many digits of it stand at the foot of each page."""


@dataclass(frozen=True, slots=True)
class Head:
    """The last entry of the whole record: its number and its hash."""

    seq: int
    hash: str

    @property
    def short(self) -> str:
        """As it stands at the foot of a page."""
        return f"entry {self.seq}, {self.hash[:SHORT]}"

    def code(self, build: str) -> str:
        """What the code on a page says."""
        return f"fitwright {build} {self.seq} {self.hash}"
