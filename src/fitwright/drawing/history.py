"""A fit over the entries of its record: each moment's interval upright against the limits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitwright.assess.history import Moment
from fitwright.assess.results import FitVerdict, Verdict
from fitwright.drawing.figures import Reader
from fitwright.drawing.limit_picture import WIDTH
from fitwright.drawing.scale import Scale, scale_over
from fitwright.drawing.svg import circle, document, line, path, rect, text
from fitwright.units.rounding import in_unit

LEFT, RIGHT, TOP, BOTTOM = 62.0, 448.0, 14.0, 142.0
HEIGHT = BOTTOM + 26.0
WIDEST, BAR = 64.0, 12.0
_BARS = {Verdict.WITHIN: "bar bar-within", Verdict.OUTSIDE: "bar bar-outside"}


def history_picture(moments: Sequence[Moment], reader: Reader) -> str:
    """The moments of a fit as SVG; the limits are those that stand now."""
    drawing = _Drawing(moments, reader)
    said = "; ".join(
        f"after entry {each.seq} {each.verdict.words} {reader.value(each.verdict)}".rstrip()
        for each in moments
    )
    return document(WIDTH, HEIGHT, f"Over the entries: {said}", list(drawing.parts()), "limit-scale")


class _Drawing:
    """One picture: values upwards, entries from left to right."""

    def __init__(self, moments: Sequence[Moment], reader: Reader) -> None:
        self.moments, self.now = moments, moments[-1].verdict
        self.unit, self.dimension = reader.unit(self.now), reader.dimension(self.now)
        self.limits = [
            bound
            for bound in self.now.bounds
            if bound.governs and bound.temperature_case is None and bound.source_kind != "computed"
        ]
        self.scale = self._scale()
        self.step = min(WIDEST, (RIGHT - LEFT) / max(len(moments), 1))

    def _at(self, value: float) -> float:
        return float(in_unit(value, self.unit, self.dimension))

    def _scale(self) -> Scale:
        values = [self._at(bound.limit) for bound in self.limits]
        for each in self.moments:
            ends = (*each.verdict.interval, each.verdict.value)
            values += [self._at(end) for end in ends if end is not None]
        low, high = (min(values), max(values)) if values else (0.0, 1.0)
        margin = 0.1 * (high - low) or 0.2 * abs(high) or 1.0
        return scale_over(low - margin, high + margin, BOTTOM, TOP, most_ticks=5)

    def parts(self) -> Iterator[str]:
        """Axis, limits, moments."""
        yield line(LEFT, TOP, LEFT, BOTTOM, "axis")
        for tick in self.scale.ticks():
            y = self.scale.x(tick)
            yield line(LEFT - 6.0, y, LEFT, y, "axis")
            yield text(LEFT - 10.0, y + 4.0, f"{tick:.{self.scale.decimals}f}", "tick", "end")
        for bound in self.limits:
            y = self.scale.x(self._at(bound.limit))
            thumb = bound.source_kind == "rule of thumb"
            yield line(LEFT, y, RIGHT, y, "bracket bracket-thumb" if thumb else "bracket")
        for index, each in enumerate(self.moments):
            x = LEFT + (index + 0.5) * self.step
            if each.changed:
                yield line(x, TOP, x, BOTTOM, "guard")
            yield from self._moment(x, each.verdict)
            yield text(x, BOTTOM + 18.0, str(each.seq), "tick")

    def _moment(self, x: float, found: FitVerdict) -> Iterator[str]:
        low, high = found.interval
        cls = _BARS.get(found.verdict, "bar bar-unproven")
        if low is None and high is None:
            mark = "–" if found.verdict is Verdict.NOT_MEASURED else "?"
            yield text(x, BOTTOM - 4.0, mark, "tick")
            return
        top = TOP + 4.0 if high is None else self.scale.x(self._at(high))
        bottom = BOTTOM - 4.0 if low is None else self.scale.x(self._at(low))
        yield rect(x - BAR / 2.0, top, BAR, max(bottom - top, 2.0), cls)
        if high is None or low is None:
            y, way = (top, -6.0) if high is None else (bottom, 6.0)
            yield path(f"M{x - 5:g} {y:g} l5 {way:g} l5 {-way:g}", "arrow")
        elif found.value is not None:
            yield circle(x, self.scale.x(self._at(found.value)), 3.4, "best")
