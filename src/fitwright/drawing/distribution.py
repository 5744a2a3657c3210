"""What is known of a fit as a curve against its limits, the share outside shaded; the hot states below it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fitwright.assess.distribution import Spread, Spreads
from fitwright.assess.results import BoundVerdict, FitVerdict
from fitwright.assess.words import HOT_NOT_JUDGED
from fitwright.drawing.figures import Reader
from fitwright.drawing.limit_picture import LEFT, RIGHT, WIDTH
from fitwright.drawing.scale import Scale, scale_over
from fitwright.drawing.svg import document, line, number, path, text
from fitwright.quantity import FloatArray
from fitwright.units.rounding import in_unit

TOP, COLD_HEIGHT = 34.0, 104.0
HOT_HEIGHT, HOT_GAP = 34.0, 16.0
FAINT = 0.004
"""Points whose height is less than this share of the largest do not widen the axis."""

_METHODS = {
    "values": "From values: Student's distribution about the value.",
    "truncated": "From blades, or blades and values: each gap weighed by how it agrees with all answers.",
    "blades one side": (
        "Blades bound it on one side only: drawn is how well each gap agrees with the answers. "
        "How far it goes on, nobody can tell, so there is no share to shade."
    ),
}


def distribution_picture(found: FitVerdict, spreads: Spreads, reader: Reader) -> str:
    """The curve of a fit as SVG, everything in the reader's unit."""
    drawing = _Drawing(found, spreads, reader)
    label = f"{found.name}: {' '.join(distribution_sentences(found, spreads, reader))}"
    return document(WIDTH, drawing.axis + 30.0, label, list(drawing.parts()), "limit-scale spread")


def distribution_sentences(found: FitVerdict, spreads: Spreads, reader: Reader) -> Iterator[str]:
    """What the picture shows, in words."""
    closed = all(each.distribution.open_side == "" for each in spreads.cold)
    for bound in _bounds(found):
        if bound.probability is not None and closed:
            below = "below" if bound.side == "lower" else "above"
            limit = reader.finely(found, bound.limit)
            yield f"Chance that it lies {below} {limit}: {chance(1.0 - bound.probability)}."
    accepted = {bound.side: bound.acceptance_limit for bound in _bounds(found) if bound.acceptance_limit}
    ends = [reader.finely(found, accepted[side], more=1) for side in ("lower", "upper") if side in accepted]
    if len(ends) == 2 and accepted["lower"] <= accepted["upper"]:
        yield f"With this uncertainty a value from {ends[0]} to {ends[1]} is proven within (dashed)."
    elif len(ends) == 2:
        yield "With this uncertainty no value is proven within: the guard bands meet (dashed)."
    elif ends:
        word = "from" if "lower" in accepted else "up to"
        yield f"With this uncertainty a value {word} {ends[0]} is proven within (dashed)."
    yield from dict.fromkeys(_METHODS[each.distribution.method] for each in spreads.cold)
    if len(spreads.cold) > 1:
        yield "Two curves, since each limit is held against the places that are worst for it."
    if spreads.hot:
        yield f"Below it hot: {HOT_NOT_JUDGED}."


def chance(probability: float) -> str:
    """A chance in per cent, never nought and never certain.

    >>> chance(0.031), chance(1e-9), chance(0.99999)
    ('3.1 %', 'under 0.1 %', 'over 99.9 %')
    """
    if probability < 0.001:
        return "under 0.1 %"
    return "over 99.9 %" if probability > 0.999 else f"{100.0 * probability:.1f} %"


def _bounds(found: FitVerdict) -> list[BoundVerdict]:
    """The cold bounds that govern; where none governs, those that are stated."""
    cold = [each for each in found.bounds if each.temperature_case is None and each.source_kind != "computed"]
    return [each for each in cold if each.governs] or cold


@dataclass(frozen=True, slots=True)
class _Curve:
    """Points in the reader's unit, each with its height; `open_side` goes on for ever."""

    value: FloatArray
    height: FloatArray
    open_side: str


class _Drawing:
    """One picture: curves over a common axis."""

    def __init__(self, found: FitVerdict, spreads: Spreads, reader: Reader) -> None:
        self.found, self.spreads, self.reader = found, spreads, reader
        self.unit, self.dimension = reader.unit(found), reader.dimension(found)
        self.factor = float(in_unit(1.0, self.unit, self.dimension))
        self.bounds = _bounds(found)
        self.base = TOP + COLD_HEIGHT
        self.axis = self.base + len(spreads.hot) * (HOT_HEIGHT + HOT_GAP) + 6.0
        self.scale = self._scale()

    def _at(self, value: float) -> float:
        return float(in_unit(value, self.unit, self.dimension))

    def _scale(self) -> Scale:
        values = [self._at(bound.limit) for bound in self.bounds]
        for each in (*self.spreads.cold, *self.spreads.hot):
            seen = each.distribution.value[each.distribution.height > FAINT] * self.factor
            values += [float(seen.min()), float(seen.max())]
        low, high = min(values), max(values)
        margin = 0.06 * (high - low) or 0.2 * abs(high) or 1.0
        return scale_over(low - margin, high + margin, LEFT, RIGHT, most_ticks=6)

    def parts(self) -> Iterator[str]:
        """Curves with their shades, limits, hot curves, axis."""
        for each in self.spreads.cold:
            yield from self._cold(each)
        for row, each in enumerate(self.spreads.hot):
            yield from self._hot(row, each)
        yield from self._limits()
        yield from self._shares()
        yield from self._axis()

    def _curve(self, spread: Spread) -> _Curve:
        found = spread.distribution
        return _Curve(found.value * self.factor, found.height, found.open_side)

    def _cold(self, spread: Spread) -> Iterator[str]:
        curve = self._curve(spread)
        low, high = float(curve.value[0]), float(curve.value[-1])
        yield path(self._area(curve, low, high, self.base, COLD_HEIGHT), "spread-in")
        if curve.open_side == "":
            for bound in self.bounds:
                if bound.side not in spread.sides:
                    continue
                limit = self._at(bound.limit)
                ends = (low, min(limit, high)) if bound.side == "lower" else (max(limit, low), high)
                if ends[0] < ends[1]:
                    yield path(self._area(curve, *ends, self.base, COLD_HEIGHT), "spread-out")
        outline = self._outline(curve, self.base, COLD_HEIGHT)
        yield path(outline, "spread-line" if curve.open_side == "" else "spread-line spread-open")
        if curve.open_side:
            end = RIGHT - 8.0 if curve.open_side == "above" else LEFT + 8.0
            step = 9.0 if curve.open_side == "above" else -9.0
            yield path(f"M{end:g} {TOP - 5:g} l{step:g} 5 l{-step:g} 5", "arrow")

    def _hot(self, row: int, spread: Spread) -> Iterator[str]:
        base = self.base + (row + 1) * (HOT_HEIGHT + HOT_GAP)
        curve = self._curve(spread)
        low, high = float(curve.value[0]), float(curve.value[-1])
        yield path(self._area(curve, low, high, base, HOT_HEIGHT), "bar-hot")
        peak = self.scale.x(float(curve.value[int(np.argmax(curve.height))]))
        left = peak > (LEFT + RIGHT) / 2.0
        x = LEFT if left else RIGHT
        yield text(x, base - 3.0, spread.title, "tick", "start" if left else "end")
        yield line(LEFT, base, RIGHT, base, "axis")

    def _outline(self, curve: _Curve, base: float, height: float) -> str:
        points = list(self._points(curve, float(curve.value[0]), float(curve.value[-1]), base, height))
        if curve.open_side == "above":
            points.append((RIGHT - 2.0, base - height))
        if curve.open_side == "below":
            points.insert(0, (LEFT + 2.0, base - height))
        return "M" + " L".join(f"{number(x)} {number(y)}" for x, y in points)

    def _area(self, curve: _Curve, low: float, high: float, base: float, height: float) -> str:
        points = list(self._points(curve, low, high, base, height))
        if curve.open_side == "above" and high >= curve.value[-1]:
            points.append((RIGHT - 2.0, base - height))
        if curve.open_side == "below" and low <= curve.value[0]:
            points.insert(0, (LEFT + 2.0, base - height))
        ends = [(points[0][0], base), *points, (points[-1][0], base)]
        return "M" + " L".join(f"{number(x)} {number(y)}" for x, y in ends) + " Z"

    def _points(
        self, curve: _Curve, low: float, high: float, base: float, height: float
    ) -> Iterator[tuple[float, float]]:
        """The curve between two values, both ends on it."""
        inside = curve.value[(curve.value > low) & (curve.value < high)]
        for value in (low, *inside.tolist(), high):
            yield self.scale.x(value), base - height * float(np.interp(value, curve.value, curve.height))

    def _limits(self) -> Iterator[str]:
        for bound in self.bounds:
            x = self.scale.x(self._at(bound.limit))
            arm = 7.0 if bound.side == "lower" else -7.0
            data = f"M{x + arm:.2f} {TOP - 10:g} L{x:.2f} {TOP - 10:g} L{x:.2f} {self.base:g}"
            thumb = bound.source_kind == "rule of thumb"
            yield path(data, "bracket bracket-thumb" if thumb else "bracket")
            if bound.acceptance_limit is not None:
                at = self.scale.x(self._at(bound.acceptance_limit))
                yield line(at, TOP - 4.0, at, self.base, "guard")

    def _shares(self) -> Iterator[str]:
        """The chances in figures, at the side that they are of."""
        if any(each.distribution.open_side for each in self.spreads.cold):
            return
        for bound in self.bounds:
            if bound.probability is not None:
                lower = bound.side == "lower"
                words = f"{'below' if lower else 'above'}: {chance(1.0 - bound.probability)}"
                yield text(LEFT if lower else RIGHT, 13.0, words, "tick", "start" if lower else "end")

    def _axis(self) -> Iterator[str]:
        if not self.spreads.hot:
            yield line(LEFT, self.base, RIGHT, self.base, "axis")
        yield line(LEFT, self.axis, RIGHT, self.axis, "axis")
        for tick in self.scale.ticks():
            x = self.scale.x(tick)
            yield line(x, self.axis, x, self.axis + 6.0, "axis")
            yield text(x, self.axis + 21.0, f"{tick:.{self.scale.decimals}f}", "tick")
