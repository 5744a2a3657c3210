"""What can be wrong with a place to draw."""

from __future__ import annotations


class PartPlaceError(Exception):
    """A place that cannot be drawn."""


class NoSuchPlaceError(PartPlaceError):
    """A place that the dimension does not have."""

    def __init__(self, dimension: str, place: str) -> None:
        self.dimension, self.place = dimension, place
        super().__init__(f'The dimension "{dimension}" has no place "{place}" to draw.')
