"""Writing on the page: how wide words are, where they break, and the element that shows them."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from fitwright.drawing.svg import number

_NARROW, _WIDE = frozenset("ijlIf.,:;'|!()- "), frozenset("mwMWØ%")


@dataclass(frozen=True, slots=True)
class TextBox:
    """The room that a piece of writing takes on the page."""

    words: str
    x: float
    y: float
    width: float
    height: float

    def overlaps(self, other: TextBox, room: float = 0.0) -> bool:
        """Whether two boxes share room."""
        return (
            self.x < other.x + other.width + room
            and other.x < self.x + self.width + room
            and self.y < other.y + other.height + room
            and other.y < self.y + self.height + room
        )


def width_of(words: str, size: float, *, bold: bool = False, mono: bool = False) -> float:
    """Room that a line of words takes, rather too much than too little.

    >>> width_of("Mains", 10.0) < width_of("Mains", 10.0, bold=True)
    True
    """
    if mono:
        return 0.61 * size * len(words)
    return sum(map(_share, words)) * size * (1.06 if bold else 1.0)


def _share(letter: str) -> float:
    """Width of a letter as a share of its size, in the wider of the typefaces that may show it."""
    if letter in _NARROW:
        return 0.37
    if letter in "rt":
        return 0.47
    if letter in _WIDE:
        return 0.95
    return 0.7 if letter.isupper() else 0.625


def broken(words: str, room: float, size: float, *, bold: bool = False) -> list[str]:
    """Words in lines that fit into a room; a word that is too long by itself is cut in pieces."""
    lines, line = list[str](), ""
    for word in words.split():
        tried = f"{line} {word}".strip()
        if width_of(tried, size, bold=bold) <= room:
            line = tried
            continue
        if line:
            lines.append(line)
        *pieces, line = _pieces(word, room, size, bold=bold)
        lines.extend(pieces)
    return [*lines, line] if line else lines or [""]


def _pieces(word: str, room: float, size: float, *, bold: bool) -> list[str]:
    pieces, piece = list[str](), ""
    for letter in word:
        if piece and width_of(piece + letter, size, bold=bold) > room:
            pieces.append(piece)
            piece = ""
        piece += letter
    return [*pieces, piece]


def shown(x: float, y: float, words: str, cls: str, anchor: str = "start", turn: float = 0.0) -> str:
    """A line of text, turned about its foot by whole degrees where it stands upright."""
    turned = f' transform="rotate({number(turn)} {number(x)} {number(y)})"' if turn else ""
    place = f'x="{number(x)}" y="{number(y)}" text-anchor="{anchor}"'
    return f'<text {place}{turned} class="{cls}">{escape(words)}</text>'


def box_of(
    x: float, y: float, words: str, width: float, size: float, anchor: str, *, upright: bool = False
) -> TextBox:
    """The room of a line of text whose foot stands at (x, y)."""
    before = {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    if upright:
        return TextBox(words, x - 0.8 * size, y - width + before, size, width)
    return TextBox(words, x - before, y - 0.8 * size, width, size)
