"""That something was written since."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class News:
    """That something was written: up to which entry, and for which builds (None: for the shop)."""

    seq: int
    builds: frozenset[str | None]

    def concerns(self, build: str | None) -> bool:
        """Whether a page of a build must know; a page of no build must know all."""
        return build is None or build in self.builds or None in self.builds
