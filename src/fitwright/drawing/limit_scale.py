"""The limit scale: limits as brackets, the measured interval as a bar, the hot interval below it."""

from __future__ import annotations

from fitwright.assess.results import BoundVerdict, FitVerdict, HotState, Verdict
from fitwright.drawing.figures import Reader
from fitwright.drawing.scale import Scale, scale_over
from fitwright.drawing.svg import circle, document, line, path, rect, text
from fitwright.model.limit import SourceKind
from fitwright.units.rounding import in_unit

WIDTH, HEIGHT = 460.0, 90.0
_LEFT, _RIGHT = 24.0, 436.0
_AXIS = 60.0
_BAR, _BAR_HEIGHT = 22.0, 14.0
_HOT, _HOT_HEIGHT = 46.0, 8.0
_BRACKET_TOP, _BRACKET_BOTTOM = 16.0, 42.0


def limit_scale(found: FitVerdict, reader: Reader, *, hot: HotState | None = None) -> str:
    """The limit scale of one fit as SVG."""
    drawing = _LimitScale(found, reader, hot)
    return document(WIDTH, HEIGHT, drawing.label(), drawing.parts(), "limit-scale")


class _LimitScale:
    """One drawing: everything in the reader's unit."""

    def __init__(self, found: FitVerdict, reader: Reader, hot: HotState | None) -> None:
        self.found, self.reader, self.hot = found, reader, hot
        self.unit, self.dimension = reader.unit(found), reader.dimension(found)
        self.bounds = [bound for bound in _shown(found.bounds) if bound.temperature_case is None]
        self.scale = self._scale()

    def _in_unit(self, value: float) -> float:
        return float(in_unit(value, self.unit, self.dimension))

    def _scale(self) -> Scale:
        values = [self._in_unit(bound.limit) for bound in self.bounds]
        values += [self._in_unit(end) for end in self._ends() if end is not None]
        if not values:
            return scale_over(0.0, 1.0, _LEFT, _RIGHT, most_ticks=5)
        low, high = min(values), max(values)
        margin = 0.18 * (high - low) or 0.2 * abs(high) or 1.0
        return scale_over(low - margin, high + margin, _LEFT, _RIGHT, most_ticks=5)

    def _ends(self) -> tuple[float | None, ...]:
        hot = self.hot.interval if self.hot is not None else (None, None)
        return (*self.found.interval, self.found.value, *hot)

    def label(self) -> str:
        """The drawing in words."""
        words = [self.found.name, self.found.words, self.reader.value(self.found)]
        limits = self.reader.limits(self.found)
        return ", ".join(word for word in (*words, f"limits {limits}" if limits else "") if word)

    def parts(self) -> list[str]:
        """Axis, brackets, bar, hot bar."""
        return [*self._axis(), *self._bar(), *self._hot_bar(), *self._brackets()]

    def _axis(self) -> list[str]:
        scale = self.scale
        found = [line(_LEFT, _AXIS, _RIGHT, _AXIS, "axis")]
        ticks = scale.ticks()
        for index, tick in enumerate(ticks):
            x = scale.x(tick)
            found.append(line(x, _AXIS, x, _AXIS + 9, "axis"))
            found.append(text(x, _AXIS + 26, f"{tick:.{scale.decimals}f}", "tick"))
            if index + 1 < len(ticks):
                middle = scale.x(tick + scale.step / 2.0)
                found.append(line(middle, _AXIS, middle, _AXIS + 5, "axis"))
        return found

    def _brackets(self) -> list[str]:
        found = []
        for bound in self.bounds:
            x = self.scale.x(self._in_unit(bound.limit))
            arm = 8.0 if bound.side == "lower" else -8.0
            data = (
                f"M{x + arm:.2f} {_BRACKET_TOP:g} L{x:.2f} {_BRACKET_TOP:g} "
                f"L{x:.2f} {_BRACKET_BOTTOM:g} L{x + arm:.2f} {_BRACKET_BOTTOM:g}"
            )
            thumb = bound.source_kind == SourceKind.RULE_OF_THUMB
            found.append(path(data, "bracket bracket-thumb" if thumb else "bracket"))
        return found

    def _bar(self) -> list[str]:
        low, high = self.found.interval
        if low is None and high is None:
            return []
        cls = {
            Verdict.WITHIN: "bar bar-within",
            Verdict.OUTSIDE: "bar bar-outside",
        }.get(self.found.verdict, "bar bar-unproven")
        if low is None or high is None:
            return self._open_bar(low, high, cls)
        x1, x2 = self.scale.x(self._in_unit(low)), self.scale.x(self._in_unit(high))
        found = [rect(x1, _BAR, max(x2 - x1, 2.0), _BAR_HEIGHT, cls)]
        if self.found.value is not None:
            x = self.scale.x(self._in_unit(self.found.value))
            found.append(circle(x, _BAR + _BAR_HEIGHT / 2, 4.2, "best"))
        return found

    def _open_bar(self, low: float | None, high: float | None, cls: str) -> list[str]:
        """A bar that nothing bounds on one side ends in an arrow."""
        top, bottom = _BAR, _BAR + _BAR_HEIGHT
        middle = (top + bottom) / 2
        if low is not None:
            x, end = self.scale.x(self._in_unit(low)), _RIGHT - 6
            arrow = f"M{end:g} {middle - 5:g} l9 5 l-9 5"
        else:
            x, end = self.scale.x(self._in_unit(high or 0.0)), _LEFT + 6
            arrow = f"M{end:g} {middle - 5:g} l-9 5 l9 5"
        outline = f"M{end:g} {top:g} L{x:.2f} {top:g} L{x:.2f} {bottom:g} L{end:g} {bottom:g}"
        return [path(outline, f"{cls} bar-open"), path(arrow, "arrow")]

    def _hot_bar(self) -> list[str]:
        if self.hot is None:
            return []
        low, high = self.hot.interval
        x1 = self.scale.x(self._in_unit(low)) if low is not None else _LEFT
        x2 = self.scale.x(self._in_unit(high)) if high is not None else _RIGHT
        return [rect(x1, _HOT, max(x2 - x1, 2.0), _HOT_HEIGHT, "bar-hot")]


def _shown(bounds: tuple[BoundVerdict, ...]) -> list[BoundVerdict]:
    """The governing bounds; where none governs, those that are stated."""
    governing = [bound for bound in bounds if bound.governs and bound.source_kind != "computed"]
    return governing or list(bounds)
