"""A picture in the making: what is drawn, and where writing stands, so that no words cover others."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from html import escape
from math import inf
from types import MappingProxyType
from typing import Final

from fitwright.drawing.svg import number
from fitwright.drawing.writing import TextBox, box_of, broken, shown, width_of


@dataclass(frozen=True, slots=True)
class Hand:
    """A way of writing: size, whether bold, whether figures of one width, and from line to line."""

    size: float
    bold: bool = False
    mono: bool = False

    @property
    def step(self) -> float:
        """From one line to the next."""
        return round(1.22 * self.size, 1)

    def width(self, words: str) -> float:
        """Room that a line takes."""
        return width_of(words, self.size, bold=self.bold, mono=self.mono)


HANDS: Final[Mapping[str, Hand]] = MappingProxyType(
    {
        "heading": Hand(15.0, bold=True),
        "title": Hand(12.5, bold=True),
        "word": Hand(12.5),
        "small": Hand(12.0),
        "number": Hand(12.5, mono=True),
        "tick": Hand(12.0, mono=True),
    }
)
"""How things are written; the style names them `fig-heading`, `fig-title` and so on."""

Line = tuple[str, str]
"""Words, and the hand in which they are written."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A finished picture: SVG without style of its own, its size, its name, what is written on it."""

    svg: str
    width: float
    height: float
    label: str
    texts: tuple[TextBox, ...]


@dataclass(slots=True)
class Canvas:
    """One picture in the making; later strokes cover earlier ones, writing covers all of them."""

    width: float
    parts: list[str] = field(default_factory=list)
    written: list[str] = field(default_factory=list)
    texts: list[TextBox] = field(default_factory=list)
    links: bool = False

    def put(self, *parts: str) -> None:
        """Strokes, as SVG."""
        self.parts.extend(parts)

    def write(self, x: float, y: float, words: str, hand: str = "word", anchor: str = "start") -> TextBox:
        """A line of words whose foot stands at (x, y)."""
        box = self.room(x, y, words, hand, anchor)
        self.texts.append(box)
        self.written.append(shown(x, y, words, f"fig-{hand}", anchor))
        return box

    def room(self, x: float, y: float, words: str, hand: str = "word", anchor: str = "start") -> TextBox:
        """The room that a line of words would take."""
        how = HANDS[hand]
        return box_of(x, y, words, how.width(words), how.size, anchor)

    def is_free(self, box: TextBox) -> bool:
        """Whether a line would stand on the picture, and on no other writing."""
        inside = box.x >= 0.0 and box.x + box.width <= self.width
        return inside and not any(box.overlaps(other, 1.0) for other in self.texts)

    def write_near(
        self,
        places: Iterable[tuple[float, float, str]],
        words: str,
        hand: str = "word",
        within: tuple[float, float] = (0.0, inf),
    ) -> TextBox | None:
        """A line of words at the first of some places (x, y, anchor) that is free; None if none is.

        `within` is how high and how low it may reach.
        """
        for x, y, anchor in places:
            box = self.room(x, y, words, hand, anchor)
            if within[0] <= box.y and box.y + box.height <= within[1] and self.is_free(box):
                return self.write(x, y, words, hand, anchor)
        return None

    def paragraph(
        self, x: float, y: float, words: str, room: float, hand: str = "word", anchor: str = "start"
    ) -> float:
        """Words in as many lines as they need; the foot of the line that would come next."""
        how = HANDS[hand]
        for line in broken(words, room, how.size, bold=how.bold) if not how.mono else [words]:
            self.write(x, y, line, hand, anchor)
            y += how.step
        return y

    def picture(self, height: float, label: str, description: str, cls: str) -> Picture:
        """The finished picture; a group where something on it can be touched."""
        role = "group" if self.links else "img"
        name = f'role="{role}" aria-label="{escape(label, quote=True)}"'
        size = f'viewBox="0 0 {number(self.width)} {number(height)}"'
        body = "".join((f"<desc>{escape(description)}</desc>", *self.parts, *self.written))
        svg = f'<svg xmlns="http://www.w3.org/2000/svg" {size} {name} class="fig {escape(cls)}">{body}</svg>'
        return Picture(svg, self.width, height, label, tuple(self.texts))


def broken_lines(lines: Sequence[Line], room: float) -> list[Line]:
    """Lines that fit into a room; figures break between words too."""
    found: list[Line] = []
    for words, hand in lines:
        how = HANDS[hand]
        wide = 0.95 if how.mono else 1.0
        found += [(each, hand) for each in broken(words, room * wide, how.size, bold=how.bold)]
    return found


def height_of(lines: Sequence[Line], room: float) -> float:
    """Room that lines take, one below the other."""
    return sum(HANDS[hand].step for _, hand in broken_lines(lines, room))
