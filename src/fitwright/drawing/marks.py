"""The four marks of a verdict; each stands beside its word."""

from __future__ import annotations

from fitwright.assess.results import Verdict
from fitwright.drawing.svg import line, path, text


def mark(verdict: Verdict, x: float, y: float) -> str:
    """A mark about 20 units high, its lower left corner at (x, y)."""
    if verdict is Verdict.WITHIN:
        return path(f"M{x:g} {y - 8:g} l7 8 l14 -18", "mark")
    if verdict is Verdict.OUTSIDE:
        return path(f"M{x:g} {y - 17:g} l18 18 M{x + 18:g} {y - 17:g} l-18 18", "mark mark-outside")
    if verdict is Verdict.UNPROVEN:
        return text(x + 8, y, "?", "mark-question")
    return line(x + 2, y - 8, x + 16, y - 8, "mark")


def mark_drawing(verdict: Verdict) -> str:
    """A mark by itself, for a line of text; the word beside it names it."""
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24" class="mark-icon" aria-hidden="true">'
        f"{mark(verdict, 1, 20)}</svg>"
    )
