"""What each size or fault costs of the pressure at the gauge: bars to the left lower it, longest first."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.assess.oil.results import Cost
from fitwright.drawing.canvas import Canvas, Line, Picture
from fitwright.drawing.charts.axes import draw_across
from fitwright.drawing.charts.rows import Layout, put_row
from fitwright.drawing.oil_figures import OilReader
from fitwright.drawing.scale import Scale, scale_over
from fitwright.drawing.svg import line, rect
from fitwright.units.families import Family

_HALF = 8.0
NO_NUMBER = "no number"


def costs(
    found: Sequence[Cost], *, family: Family = "mm", width: float = 780.0, most: int | None = None
) -> Picture:
    """Ranked costs, each asked for in both ways.

    Parameters
    ----------
    found : sequence of Cost
        Costs or faults; they are ranked by the solved difference, else by the derivative.
    family : {"mm", "inch"}
        bar for 0.01 mm, or psi for 0.4 thou.
    width : float
        Width in units of 1 px; below 560 names stand above the bars.
    most : int, optional
        How many are drawn; a note says how many are not.

    Returns
    -------
    Picture
        Full bars for solved differences, open ones for derivatives, both with words.
    """
    canvas, layout, reader = Canvas(width), Layout.over(width), OilReader(family)
    ranked = sorted(found, key=lambda each: -abs(_rank(each, reader)))
    shown = ranked[:most]
    scale = _scale(shown, layout, reader)
    y = _head(canvas, layout, scale, reader)
    top = y - 4.0
    for each in shown:
        name: list[Line] = [(each.title, "title")]
        middle, y = put_row(canvas, layout, y, name, _figures(each, reader))
        _bars(canvas, scale, each, middle, reader)
    canvas.put(line(scale.x(0.0), top, scale.x(0.0), y, "ch-zero"))
    foot = draw_across(canvas, scale, top, y, reader.pressure_unit) if not layout.is_narrow else y + 12.0
    if len(shown) < len(ranked):
        foot = canvas.paragraph(
            0.0, foot, f"{len(ranked) - len(shown)} smaller ones are not drawn.", width, "small"
        )
    canvas.parts.sort(key=lambda part: "ch-grid" not in part)
    said = "; ".join(
        f"{each.title}: {', '.join(words for words, _ in _figures(each, reader))}" for each in shown
    )
    return canvas.picture(foot + 2.0, "What costs pressure at the gauge", said or "Nothing.", "chart costs")


def per_step(each: Cost, reader: OilReader) -> float | None:
    """The derivative for the reader's step [Pa]; a step that is no hundredth of a millimetre stays."""
    if each.per_step is None:
        return None
    if each.step != 1e-5:
        return each.per_step
    return each.per_step * reader.step()[0] / each.step


def step_words(each: Cost, reader: OilReader) -> str:
    """For which step a derivative is told."""
    if each.step is None:
        return "per step"
    if each.step == 1e-5:
        return f"for {reader.step()[1]} more"
    return f"for {reader.film(each.step)} more"


def _rank(each: Cost, reader: OilReader) -> float:
    if each.difference is not None:
        return each.difference
    return per_step(each, reader) or 0.0


def _scale(found: Sequence[Cost], layout: Layout, reader: OilReader) -> Scale:
    changes = [change for each in found for change in (each.difference, per_step(each, reader))]
    values = [reader.in_pressure(change) for change in changes if change is not None]
    low, high = min((0.0, *values)), max((0.0, *values))
    if low == high:
        low = -1.0
    return scale_over(low, high, layout.left, layout.right, most_ticks=6)


def _head(canvas: Canvas, layout: Layout, scale: Scale, reader: OilReader) -> float:
    """What the two kinds of bars are, and which way they go."""
    x, y = layout.left if not layout.is_narrow else 0.0, 16.0
    room = canvas.width - x - 30.0
    canvas.put(rect(x, y - 10.0, 22.0, 10.0, "ch-bar"))
    y = canvas.paragraph(x + 30.0, y, "solved anew, against what is said beside it", room) + 3.0
    canvas.put(rect(x, y - 10.0, 22.0, 10.0, "ch-bar-open"))
    y = canvas.paragraph(x + 30.0, y, f"a clearance larger by {reader.step()[1]}, by derivative", room) + 6.0
    zero = scale.x(0.0)
    if zero > layout.left + 60.0:
        canvas.write(zero - 8.0, y, "← lowers pressure", "small", "end")
    if zero < layout.right - 110.0:
        canvas.write(zero + 8.0, y, "raises it →", "small")
    return y + 10.0


def _bars(canvas: Canvas, scale: Scale, each: Cost, middle: float, reader: OilReader) -> None:
    for change, top, cls in (
        (each.difference, middle - _HALF - 1.0, "ch-bar"),
        (per_step(each, reader), middle + 1.0, "ch-bar-open"),
    ):
        if change is not None:
            x = scale.x(reader.in_pressure(change))
            left, right = min(x, scale.x(0.0)), max(x, scale.x(0.0))
            canvas.put(rect(left, top, max(right - left, 1.2), _HALF, cls))


def _figures(each: Cost, reader: OilReader) -> list[Line]:
    """Both answers with their words; a word where there is none."""
    difference = NO_NUMBER if each.difference is None else reader.change(each.difference)
    change = per_step(each, reader)
    lines: list[Line] = []
    if each.difference is not None or change is None:
        lines += [(difference, "number"), *([(each.against, "small")] if each.against else [])]
    if change is not None:
        lines.append((f"{reader.change(change)}", "number"))
        lines.append((step_words(each, reader), "small"))
    if each.words:
        lines.append((each.words, "small"))
    return lines
