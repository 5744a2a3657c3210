"""The touch marks: a box with the station's title, its mark and its state in words."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape

from fitwright.assess.results import Verdict
from fitwright.drawing.engine_section.state import StationState
from fitwright.drawing.marks import mark
from fitwright.drawing.svg import number
from fitwright.drawing.writing import broken, shown, width_of

WIDTH = 122.0
LEAST_HEIGHT = 46.0
_TITLE, _WORDS = 12.0, 12.0
_TITLE_STEP, _WORDS_STEP = 16.0, 15.0
_LEFT, _PAD = 27.0, 6.0


@dataclass(frozen=True, slots=True)
class Label:
    """One station's label, its lines broken to the width of the box."""

    state: StationState
    title: tuple[str, ...]
    words: tuple[str, ...]
    hot: bool = False

    @property
    def height(self) -> float:
        """Room that the lines take, at least what a finger needs."""
        lines = len(self.title) * _TITLE_STEP + len(self.words) * _WORDS_STEP
        return max(LEAST_HEIGHT, lines + 2 * _PAD)

    def svg(self, x: float, y: float) -> str:
        """The label with its upper left corner at (x, y)."""
        height = self.height
        name = escape(self.state.name() + (", hot, estimated" if self.hot else ""), quote=True)
        inside = self._box(x, y, height) + self._mark(x, y + height / 2) + self._lines(x, y, height)
        if self.state.href is None:
            return f'<g role="img" aria-label="{name}" class="es-station">{inside}</g>'
        link = (
            f'href="{escape(self.state.href, quote=True)}" data-station="{escape(self.state.id, quote=True)}"'
        )
        return f'<a {link} aria-label="{name}" class="es-station">{inside}</a>'

    def _box(self, x: float, y: float, height: float) -> str:
        kind = self.state.verdict.value if self.state.verdict else "none"
        size = f'x="{number(x)}" y="{number(y)}" width="{number(WIDTH)}" height="{number(height)}"'
        return f'<rect {size} class="es-touch es-touch-{kind}{" es-touch-hot" if self.hot else ""}"/>'

    def _mark(self, x: float, middle: float) -> str:
        verdict = self.state.verdict
        if verdict is None:
            return ""
        lift = 4.5 if verdict is Verdict.WITHIN else 8.5
        return mark(verdict, round(x + 3, 1), round(middle + lift, 1))

    def _lines(self, x: float, y: float, height: float) -> str:
        lines = len(self.title) * _TITLE_STEP + len(self.words) * _WORDS_STEP
        foot, left = y + (height - lines) / 2 + 12.0, x + _left(self.state)
        found = []
        for line in self.title:
            found.append(shown(left, foot, line, "es-title"))
            foot += _TITLE_STEP
        for line in self.words:
            found.append(shown(left, foot - 0.5, line, "es-words"))
            foot += _WORDS_STEP
        return "".join(found)


def _left(state: StationState) -> float:
    """Where the lines begin: beside the mark, where there is one."""
    return _LEFT if state.verdict else 8.0


def label_of(state: StationState, *, hot: bool = False) -> Label:
    """The label of a station."""
    room = WIDTH - _left(state) - 3.0
    title = tuple(broken(state.title or state.id, room, _TITLE, bold=True))
    return Label(state, title, tuple(_counts(state.said(), room)), hot)


def _counts(said: str, room: float) -> list[str]:
    """Words in lines, broken between counts (`1 outside, | 7 not measured`) before within them."""
    lines, line = list[str](), ""
    *first, last = said.split(", ")
    for count in (*(f"{each}," for each in first), last):
        tried = f"{line} {count}".strip()
        if line and width_of(tried, _WORDS) > room:
            lines.append(line)
            tried = count
        *whole, line = broken(tried, room, _WORDS)
        lines.extend(whole)
    return [*lines, line]
