"""A head as one looks at it: its number, a ring of its passes, its mark; never told by colour alone."""

from __future__ import annotations

from html import escape
from math import cos, pi, sin
from typing import Final

from fitwright.assess.results import Verdict
from fitwright.drawing.bolt_pattern.places import Point
from fitwright.drawing.bolt_pattern.shown import FastenerShown
from fitwright.drawing.svg import circle, line, number, path, rect, text

_GAP: Final = 0.16
"""Between the arcs of two passes [rad]."""
RING: Final = 6.0
"""From the corner of the head to the ring of passes."""
NEXT: Final = 6.0
"""From the ring of passes to the ring of who is next."""
LEAST_TOUCH: Final = 60.0
"""Room for a finger, also where the picture is shown smaller than it is drawn."""


def head(place: Point, size: float, shown: FastenerShown, order: int) -> str:
    """A fastener at its place, with its number in the order of tightening."""
    x, y = place
    parts = [path(hexagon(place, size), _class(shown)), *_passes(place, size + RING, shown.passes)]
    parts.append(text(x, y + 0.36 * size, str(order), "bp-order"))
    if shown.next:
        parts.append(_pointed_at(place, size + RING + NEXT))
    if shown.chosen:
        parts.append(rect(*_square(place, size + RING + 3.0), "bp-chosen"))
    if shown.word:
        parts.append(mark(shown.verdict, x + size + RING + 1.0, y - 0.5 * size))
    return "".join(parts)


def hexagon(place: Point, size: float) -> str:
    """The outline of a head, its corners `size` from its middle."""
    x, y = place
    corners = (
        f"{number(x + size * cos(k * pi / 3.0))} {number(y + size * sin(k * pi / 3.0))}" for k in range(6)
    )
    return f"M{'L'.join(corners)}z"


def _is_full(shown: FastenerShown) -> bool:
    return shown.verdict is Verdict.WITHIN and shown.is_complete


def _class(shown: FastenerShown) -> str:
    if shown.verdict is Verdict.OUTSIDE:
        return "bp-head bp-head-outside"
    if shown.loosened or shown.verdict is Verdict.UNPROVEN:
        return "bp-head bp-head-broken"
    return "bp-head bp-head-full" if _is_full(shown) else "bp-head"


def _passes(place: Point, radius: float, passes: tuple[bool, ...]) -> list[str]:
    """One arc for each pass, clockwise from the top: heavy where it was done."""
    if len(passes) == 1:
        return [circle(*place, radius, "bp-pass-done" if passes[0] else "bp-pass-open")]
    turn = 2.0 * pi / max(len(passes), 1)
    return [
        path(
            _arc(place, radius, index * turn + _GAP / 2.0, (index + 1) * turn - _GAP / 2.0),
            "bp-pass-done" if done else "bp-pass-open",
        )
        for index, done in enumerate(passes)
    ]


def _arc(place: Point, radius: float, start: float, end: float) -> str:
    """An arc clockwise from the top."""
    ends = [(place[0] + radius * sin(each), place[1] - radius * cos(each)) for each in (start, end)]
    first, last = (f"{number(x)} {number(y)}" for x, y in ends)
    large = int(end - start > pi)
    return f"M{first}A{number(radius)} {number(radius)} 0 {large} 1 {last}"


def _pointed_at(place: Point, radius: float) -> str:
    """Who is next: a ring of its own, and a pointer on it."""
    x, y = place
    tip = y - radius + 1.0
    pointer = f"M{number(x)} {number(tip)}l-6 -9h12z"
    return circle(x, y, radius, "bp-next") + path(pointer, "bp-pointer")


def mark(verdict: Verdict, x: float, y: float) -> str:
    """The mark of a verdict, as small as it stands beside a head, its lower left corner at (x, y)."""
    if verdict is Verdict.WITHIN:
        return path(f"M{number(x)} {number(y - 4.5)}l4 4.5l8 -10", "bp-mark")
    if verdict is Verdict.OUTSIDE:
        cross = f"M{number(x)} {number(y - 10)}l10 10M{number(x + 10)} {number(y - 10)}l-10 10"
        return path(cross, "bp-mark bp-mark-outside")
    if verdict is Verdict.UNPROVEN:
        return text(x, y, "?", "bp-question", "start")
    return line(x, y - 4.0, x + 9.0, y - 4.0, "bp-mark")


def touch(place: Point, size: float, shown: FastenerShown, label: str, inside: str, room: float) -> str:
    """A head that can be touched: room of its own around it, and a name for who cannot see it."""
    reach = max(min(LEAST_TOUCH, room) / 2.0, size)
    area = rect(*_square(place, reach), "bp-room")
    name = escape(label, quote=True)
    return f'<a href="{escape(shown.address, quote=True)}" aria-label="{name}">{area}{inside}</a>'


def _square(place: Point, reach: float) -> tuple[float, float, float, float]:
    return place[0] - reach, place[1] - reach, 2.0 * reach, 2.0 * reach
