"""What can be wrong with asking a shop for something."""

from __future__ import annotations

from collections.abc import Sequence


class ShopError(Exception):
    """The base of what can be wrong with asking a shop for something."""


class UnknownBuildError(ShopError):
    """A build was named that the shop does not have."""

    def __init__(self, name: str, known: Sequence[str]) -> None:
        """Say which, and which there are."""
        self.name, self.known = name, tuple(known)
        there = f"this shop has: {', '.join(known)}" if known else "this shop has no build yet"
        super().__init__(f'No build "{name}"; {there}.')
