"""A QR code as a drawing: what a label or a sheet says to a camera or a hand scanner."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from fitwright.drawing.svg import document, path, rect

QUIET = 4
"""Light modules around the code, as ISO/IEC 18004 asks for."""


def qr_drawing(content: str, name: str) -> str:
    """A QR code with 15 % of its words to spare; `name` says to who cannot see it what it holds."""
    import segno

    matrix = segno.make(content, error="m", micro=False).matrix
    size = len(matrix) + 2 * QUIET
    parts = [rect(0, 0, size, size, "qr-light"), path("".join(_runs(matrix)), "qr-dark")]
    return document(size, size, name, parts, "qr")


def _runs(matrix: Sequence[Sequence[int]]) -> Iterator[str]:
    """Dark modules that touch in a row, each as one piece."""
    for y, row in enumerate(matrix):
        x = QUIET
        for dark, modules in groupby(row):
            length = len(list(modules))
            if dark:
                yield f"M{x} {y + QUIET}h{length}v1h-{length}z"
            x += length
