"""The four marks of a verdict and the three pictures of what a blade did; each stands beside its word."""

from __future__ import annotations

from fitwright.assess.results import Verdict
from fitwright.drawing.svg import line, path, rect, text


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


def blade_drawing(answer: str) -> str:
    """What a blade did between two faces: passes with room or much of it, fills the gap, stops before it."""
    faces = line(14, 3, 44, 3, "face") + line(14, 21, 44, 21, "face")
    blade = {
        "goes": rect(6, 9.5, 42, 5, "blade"),
        "goes freely": rect(6, 11, 42, 2, "blade"),
        "drags": rect(6, 4, 42, 16, "blade"),
        "does not go": rect(2, 0, 9, 24, "blade"),
    }[answer]
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 50 24" class="blade-icon" aria-hidden="true">'
        f"{blade}{faces}</svg>"
    )
