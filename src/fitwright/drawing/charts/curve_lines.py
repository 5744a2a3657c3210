"""Curves with their bands: pieces between gaps, marks along them, a label at the end of each."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from fitwright.assess.oil.results import Band, PressureCurve
from fitwright.drawing.canvas import Canvas
from fitwright.drawing.charts.axes import Axes
from fitwright.drawing.charts.marks import mark
from fitwright.drawing.oil_figures import NOT_CONVERGED, OilReader, unit_size
from fitwright.drawing.sum_pictures.sketch import spread_out
from fitwright.drawing.svg import number, path

Point = tuple[float, float]
LABEL_STEP = 32.0
_EDGES = 5


def rev_per_min(angular_speed: float) -> float:
    """A speed [rad/s] in rev/min."""
    return angular_speed / unit_size("rpm", "angular_speed")


@dataclass(frozen=True, slots=True)
class CurveLines:
    """Draws curves over axes in rev/min and the reader's pressure."""

    canvas: Canvas
    axes: Axes
    reader: OilReader

    def at(self, speed: float, pressure: float) -> Point:
        """Where a speed [rad/s] and a pressure [Pa] stand."""
        return self.axes.point(rev_per_min(speed), self.reader.in_pressure(pressure))

    def band(self, curve: PressureCurve, kind: int) -> None:
        """The 95 % band: lightly filled, its edges in a dash of their own."""
        for piece in _pieces(curve, lambda band: band.low is not None and band.high is not None):
            low = [self.at(speed, band.low) for speed, band in piece if band.low is not None]
            high = [self.at(speed, band.high) for speed, band in piece if band.high is not None]
            self.canvas.put(path(_data([*high, *reversed(low)]) + "z", "ch-band"))
            for edge in (low, high):
                self.canvas.put(path(_data(edge), f"ch-edge ch-edge-{kind % _EDGES}"))

    def line(self, curve: PressureCurve, kind: int, cls: str = "ch-line") -> None:
        """The best estimate with its marks; a point alone between gaps is a mark."""
        for piece in _pieces(curve, lambda band: band.best is not None):
            points = [self.at(speed, band.best) for speed, band in piece if band.best is not None]
            if len(points) > 1:
                self.canvas.put(path(_data(points), cls))
            for x, y in _apart(points, 62.0):
                self.canvas.put(mark(kind, x, y))

    def gaps(self, curve: PressureCurve, row: float) -> float:
        """Where nothing was found: a crossed line at the foot of the chart with a word; the next row."""
        spans = [self._gap(first, last, row) for first, last in _gaps(curve)]
        if not spans:
            return row
        words = f"{self.reader.temperature(curve.oil_temperature)}: {NOT_CONVERGED}"
        places = [(x2 + 6.0, row + 4.0, "start") for _, x2 in spans]
        places += [(x1 - 6.0, row + 4.0, "end") for x1, _ in spans]
        free = [place for place in places if not self._meets(place, words, spans)]
        above = [(x, y - 16.0, anchor) for x, y, anchor in places]
        if self.canvas.write_near(free, words, "small") is not None:
            return row - 18.0
        self.canvas.write_near(above, words, "small")
        return row - 34.0

    def _gap(self, first: float, last: float, row: float) -> Point:
        """One gap in a row; from where to where it is drawn."""
        x1, x2 = self.at(first, 0.0)[0], self.at(last, 0.0)[0]
        middle = (x1 + x2) / 2
        x1, x2 = min(x1, middle - 7.0), max(x2, middle + 7.0)
        ends = f"M{x1:.2f} {row - 5:.2f}v10M{x2:.2f} {row - 5:.2f}v10M{x1:.2f} {row:.2f}H{x2:.2f}"
        self.canvas.put(path(f"{ends}M{middle - 4:.2f} {row - 4:.2f}l8 8m0 -8l-8 8", "ch-gap"))
        return x1, x2

    def _meets(self, place: tuple[float, float, str], words: str, spans: Sequence[Point]) -> bool:
        """Whether words at a place would stand on a gap of their row."""
        x, y, anchor = place
        box = self.canvas.room(x, y, words, "small", anchor)
        return any(box.x < x2 + 2.0 and x1 - 2.0 < box.x + box.width for x1, x2 in spans)

    def labels(self, curves: Sequence[tuple[PressureCurve, int, str]], right: float) -> None:
        """Temperature and last pressure beside the end of each line, spread so that none covers another."""
        ends = [(curve, kind, words, _last(curve)) for curve, kind, words in curves]
        found = [
            (self.at(*end), curve, kind, words, end[1]) for curve, kind, words, end in ends if end is not None
        ]
        found.sort(key=lambda each: each[0][1])
        top, bottom = self.axes.room.top, self.axes.room.bottom
        places = spread_out([point[1] for point, *_ in found], LABEL_STEP, top, bottom)
        for (point, curve, kind, words, value), y in zip(found, places, strict=True):
            x = right + 20.0
            self.canvas.put(path(f"M{number(point[0])} {number(point[1])}L{x - 10:.2f} {y:.2f}", "ch-leader"))
            self.canvas.put(mark(kind, x - 6.0, y))
            pressure = self.reader.pressure(Band(value))
            said = f"{words} {pressure.split()[0]}" if words else pressure
            self.canvas.write(x + 3.0, y + 1.0, self.reader.temperature(curve.oil_temperature), "title")
            self.canvas.write(x + 3.0, y + 14.5, said, "tick")


def _last(curve: PressureCurve) -> Point | None:
    """Speed and pressure at the last point that has one."""
    known = [
        (speed, band.best)
        for speed, band in zip(curve.angular_speeds, curve.gauge_pressure, strict=True)
        if band.best is not None
    ]
    return known[-1] if known else None


Has: TypeAlias = Callable[[Band], bool]


def _pieces(curve: PressureCurve, has: Has) -> Iterator[list[tuple[float, Band]]]:
    """Runs of neighbouring points that have what is asked for."""
    piece: list[tuple[float, Band]] = []
    for speed, band in zip(curve.angular_speeds, curve.gauge_pressure, strict=True):
        if has(band):
            piece.append((speed, band))
        elif piece:
            yield piece
            piece = []
    if piece:
        yield piece


def _gaps(curve: PressureCurve) -> Iterator[Point]:
    """First and last speed of each run of points without a pressure."""
    run: list[float] = []
    for speed, band in zip(curve.angular_speeds, curve.gauge_pressure, strict=True):
        if band.best is None:
            run.append(speed)
        elif run:
            yield run[0], run[-1]
            run = []
    if run:
        yield run[0], run[-1]


def _apart(points: Sequence[Point], distance: float) -> Iterator[Point]:
    """The first point and others at least so far from the one before."""
    last: Point | None = None
    for point in points:
        if last is None or abs(point[0] - last[0]) >= distance:
            yield point
            last = point


def _data(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)


def pressure_at(curve: PressureCurve, angular_speed: float) -> float | None:
    """The best pressure of a curve at a speed, straight between its points; None beyond it and in a gap."""
    points = list(zip(curve.angular_speeds, curve.gauge_pressure, strict=True))
    for (s1, b1), (s2, b2) in pairwise(points):
        if s1 <= angular_speed <= s2 and b1.best is not None and b2.best is not None and s2 > s1:
            return b1.best + (b2.best - b1.best) * (angular_speed - s1) / (s2 - s1)
    return next((band.best for speed, band in points if speed == angular_speed), None)
