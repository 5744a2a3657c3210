"""The limit scale as a picture: an axis, limits as brackets, an interval as a bar, a second one below it.

All numbers are in the unit of the axis. What they say of a fit is `limit_scale`; a quick sum gives its
own numbers.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from fitwright.assess.results import Verdict
from fitwright.drawing.scale import Scale, scale_over
from fitwright.drawing.svg import circle, document, line, path, rect, text

WIDTH, HEIGHT = 460.0, 90.0
LEFT, RIGHT = 24.0, 436.0
AXIS = 60.0
_BAR, _BAR_HEIGHT = 22.0, 14.0
_HOT, _HOT_HEIGHT = 46.0, 8.0
_BEFORE, _BEFORE_HEIGHT = 3.0, 9.0
_BRACKET_TOP, _BRACKET_BOTTOM = 16.0, 42.0
_ARM = 8.0
_BARS = {Verdict.WITHIN: "bar bar-within", Verdict.OUTSIDE: "bar bar-outside"}

Ends = tuple[float | None, float | None]
"""Both ends of an interval; None where nothing bounds it."""


@dataclass(frozen=True, slots=True)
class Bracket:
    """A limit: which side it is of, where it stands, dashed where it is a rule of thumb."""

    side: str
    at: float
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """An interval with its best value and its verdict."""

    interval: Ends
    value: float | None
    verdict: Verdict


@dataclass(frozen=True)
class LimitPicture:
    """What stands on a limit scale: brackets, the interval with its best value, the hot interval.

    `before` is a thinner bar above the brackets: the same in another state.
    """

    brackets: tuple[Bracket, ...]
    interval: Ends
    value: float | None
    verdict: Verdict
    hot: Ends | None = None
    before: Bar | None = None

    def svg(self, label: str) -> str:
        """The picture, named by `label` for who cannot see it."""
        return document(WIDTH, HEIGHT, label, self.parts(), "limit-scale")

    def parts(self) -> list[str]:
        """Axis, bars, hot bar, brackets."""
        bars = self._bar(Bar(self.interval, self.value, self.verdict), _BAR, _BAR_HEIGHT)
        if self.before is not None:
            bars = [*self._bar(self.before, _BEFORE, _BEFORE_HEIGHT), *bars]
        return [*self.axis(), *bars, *self._hot_bar(), *self._brackets()]

    @cached_property
    def scale(self) -> Scale:
        """The axis: it holds every limit and every end, with some room."""
        before = (*self.before.interval, self.before.value) if self.before is not None else ()
        ends = (*self.interval, self.value, *(self.hot or ()), *before)
        values = [each.at for each in self.brackets] + [each for each in ends if each is not None]
        if not values:
            return scale_over(0.0, 1.0, LEFT, RIGHT, most_ticks=5)
        low, high = min(values), max(values)
        margin = 0.18 * (high - low) or 0.2 * abs(high) or 1.0
        return scale_over(low - margin, high + margin, LEFT, RIGHT, most_ticks=5)

    def axis(self) -> Iterator[str]:
        """The axis with its ticks."""
        scale = self.scale
        yield line(LEFT, AXIS, RIGHT, AXIS, "axis")
        ticks = scale.ticks()
        for index, tick in enumerate(ticks):
            x = scale.x(tick)
            yield line(x, AXIS, x, AXIS + 9, "axis")
            yield text(x, AXIS + 26, f"{tick:.{scale.decimals}f}", "tick")
            if index + 1 < len(ticks):
                middle = scale.x(tick + scale.step / 2.0)
                yield line(middle, AXIS, middle, AXIS + 5, "axis")

    def _brackets(self) -> Iterator[str]:
        for each in self.brackets:
            x = self.scale.x(each.at)
            arm = _ARM if each.side == "lower" else -_ARM
            data = (
                f"M{x + arm:.2f} {_BRACKET_TOP:g} L{x:.2f} {_BRACKET_TOP:g} "
                f"L{x:.2f} {_BRACKET_BOTTOM:g} L{x + arm:.2f} {_BRACKET_BOTTOM:g}"
            )
            yield path(data, "bracket bracket-thumb" if each.dashed else "bracket")

    def _bar(self, bar: Bar, top: float, height: float) -> list[str]:
        low, high = bar.interval
        cls = _BARS.get(bar.verdict, "bar bar-unproven")
        if low is None and high is None:
            return []
        if low is None or high is None:
            return self._open_bar(low, high, cls, top, top + height)
        x1, x2 = self.scale.x(low), self.scale.x(high)
        found = [rect(x1, top, max(x2 - x1, 2.0), height, cls)]
        if bar.value is not None:
            found.append(circle(self.scale.x(bar.value), top + height / 2, 0.3 * height, "best"))
        return found

    def _open_bar(
        self, low: float | None, high: float | None, cls: str, top: float, bottom: float
    ) -> list[str]:
        """A bar that nothing bounds on one side ends in an arrow."""
        middle = (top + bottom) / 2
        if low is not None:
            x, end = self.scale.x(low), RIGHT - 6
            arrow = f"M{end:g} {middle - 5:g} l9 5 l-9 5"
        else:
            x, end = self.scale.x(high or 0.0), LEFT + 6
            arrow = f"M{end:g} {middle - 5:g} l-9 5 l9 5"
        outline = f"M{end:g} {top:g} L{x:.2f} {top:g} L{x:.2f} {bottom:g} L{end:g} {bottom:g}"
        return [path(outline, f"{cls} bar-open"), path(arrow, "arrow")]

    def _hot_bar(self) -> list[str]:
        if self.hot is None:
            return []
        low, high = self.hot
        x1 = self.scale.x(low) if low is not None else LEFT
        x2 = self.scale.x(high) if high is not None else RIGHT
        return [rect(x1, _HOT, max(x2 - x1, 2.0), _HOT_HEIGHT, "bar-hot")]
