"""Stop values, relief valve, selected point and readings on the chart of pressure over speed."""

from __future__ import annotations

from collections.abc import Sequence
from string import ascii_uppercase

from fitwright.assess.oil.results import Band, PressureCurve, StopValue
from fitwright.drawing.charts.curve_lines import CurveLines, pressure_at
from fitwright.drawing.charts.marks import floor_bracket, reading_mark
from fitwright.drawing.charts.shown import ReliefPlateau, Selected, StartReading
from fitwright.drawing.svg import circle, line
from fitwright.model.limit import SourceKind

Place = tuple[float, float, str]
_HALF_BRACKET = 17.0
RULE = SourceKind.RULE_OF_THUMB.value


def draw_relief(lines: CurveLines, relief: ReliefPlateau) -> list[str]:
    """Where the relief valve begins to open, and where it is all open; what found no room beside its line."""
    room, left = lines.axes.room, []
    said = [(relief.cracking_pressure, relief.words)]
    if relief.full_bypass_pressure is not None:
        said.append((relief.full_bypass_pressure, "relief valve all open"))
    for pressure, words in said:
        y = lines.at(0.0, pressure)[1]
        lines.canvas.put(line(room.left, y, room.right, y, "ch-relief"))
        text = f"{words}, {lines.reader.pressure(Band(pressure))}"
        places = [(room.left + 6.0, y - 6.0, "start"), (room.left + 6.0, y + 15.0, "start")]
        if lines.canvas.write_near([*places, (room.right - 4.0, y - 6.0, "end")], text, "small") is None:
            left.append(f"Line of dashes and dots: {text}")
    return left


def draw_stops(lines: CurveLines, stops: Sequence[StopValue]) -> list[str]:
    """Brackets for the lowest pressures, each with a letter; what the letters say."""
    said = []
    room = lines.axes.room
    asked = [each for each in stops if each.lowest_pressure is not None]
    for letter, stop in zip(_letters(len(asked)), asked, strict=True):
        pressure = stop.lowest_pressure or 0.0
        cls = f"ch-limit{' ch-crossed' if stop.crossed else ''}{' ch-thumb' if RULE in stop.who else ''}"
        if stop.angular_speed is None:
            x1, x2, y = room.left, room.right, lines.at(0.0, pressure)[1]
        else:
            x, y = lines.at(stop.angular_speed, pressure)
            x1, x2 = max(x - _HALF_BRACKET, room.left), min(x + _HALF_BRACKET, room.right)
        lines.canvas.put(floor_bracket(x1, x2, y, cls))
        places = [
            (x2 + 5.0, y + 4.0, "start"),
            (x1 - 5.0, y + 4.0, "end"),
            ((x1 + x2) / 2, y + 14.0, "middle"),
        ]
        places += _ladder(x2 + 5.0, y + 4.0)
        _near(lines, places, letter)
        said.append(f"{letter}: {_stop_words(lines, stop)}")
    return said


def _near(lines: CurveLines, places: Sequence[Place], words: str) -> None:
    """A letter or number at the first free place beside its mark, and always over the curves."""
    room = lines.axes.room
    lines.canvas.write_near(places, words, "title", (room.top - 16.0, room.bottom + 1.0))


def _ladder(x: float, y: float) -> list[Place]:
    """Places beside a mark, ever farther from it, where many marks stand together."""
    upright = [(x, y + way * 16.0 * n) for n in range(1, 4) for way in (1.0, -1.0)]
    beside = [(x - 24.0 * n, y + 16.0 * m) for m in (1, -1, 2, -2) for n in range(1, 12)]
    return [(at, foot, "start") for at, foot in (*upright, *beside)]


def _letters(count: int) -> list[str]:
    return [ascii_uppercase[n % 26] * (n // 26 + 1) for n in range(count)]


def _stop_words(lines: CurveLines, stop: StopValue) -> str:
    reader = lines.reader
    where = [reader.speed(stop.angular_speed)] if stop.angular_speed is not None else []
    where += [f"oil {reader.temperature(stop.oil_temperature)}"] if stop.oil_temperature is not None else []
    at = f" at {', '.join(where)}" if where else ""
    words = f"{stop.words} below {reader.pressure(Band(stop.lowest_pressure))}{at}"
    return "; ".join(filter(None, (words, f"source: {stop.who}" if stop.who else "", stop.crossed)))


def draw_selected(lines: CurveLines, curves: Sequence[PressureCurve], selected: Selected) -> str:
    """A line at the speed looked at and a ring on its curve; what it says."""
    reader, room = lines.reader, lines.axes.room
    x = lines.at(selected.angular_speed, 0.0)[0]
    lines.canvas.put(line(x, room.top, x, room.bottom, "ch-selected-line"))
    curve = next(
        (each for each in curves if abs(each.oil_temperature - selected.oil_temperature) < 0.05), None
    )
    value = None if curve is None else pressure_at(curve, selected.angular_speed)
    if value is not None:
        lines.canvas.put(circle(*lines.at(selected.angular_speed, value), 8.0, "ch-selected"))
    where = f"{reader.speed(selected.angular_speed)}, oil {reader.temperature(selected.oil_temperature)}"
    return f"Ring: {where}: {reader.pressure(Band(value), missing='no number there')}"


def draw_readings(lines: CurveLines, readings: Sequence[StartReading]) -> list[str]:
    """Marks for what was read, numbered; what was typed, with the zero of the gauge taken off."""
    reader, said = lines.reader, []
    for index, each in enumerate(readings, start=1):
        x, y = lines.at(each.angular_speed, each.gauge_pressure)
        lines.canvas.put(reading_mark(x, y))
        places = [(x + 10.0, y - 6.0, "start"), (x - 10.0, y - 6.0, "end"), (x + 10.0, y + 16.0, "start")]
        places += [(x - 10.0, y + 16.0, "end"), *_ladder(x + 10.0, y)]
        _near(lines, places, str(index))
        where = [reader.speed(each.angular_speed)]
        where += (
            [f"oil {reader.temperature(each.oil_temperature)}"] if each.oil_temperature is not None else []
        )
        value = reader.pressure(Band(each.gauge_pressure))
        if each.gauge_zero:
            zero = reader.pressure(Band(each.gauge_zero))
            value = f"{reader.pressure(Band(each.as_read))}, less {zero} at rest is {value}"
        said.append("; ".join(filter(None, (f"{index}: {', '.join(where)}, read {value}", each.words))))
    return said
