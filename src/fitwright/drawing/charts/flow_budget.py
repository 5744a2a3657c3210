"""Where the oil goes that the pump displaces: a row for each group, the relief valve, the pump's own leak."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.assess.oil.results import Band, PointState
from fitwright.drawing.canvas import Canvas, Line, Picture
from fitwright.drawing.charts.axes import draw_across
from fitwright.drawing.charts.marks import whisker
from fitwright.drawing.charts.rows import BAR, Layout, put_row
from fitwright.drawing.oil_figures import NOT_CONVERGED, OilReader, unit_size
from fitwright.drawing.scale import Scale, scale_over
from fitwright.drawing.svg import rect
from fitwright.units.families import Family

RELIEF, LEAKAGE = "relief valve", "leaks inside the pump"


@dataclass(frozen=True, slots=True)
class Taken:
    """What one group takes [m3/s]; `useful` is False for the relief valve and the pump's own leak."""

    title: str
    flow: Band
    useful: bool = True


def taken_at(point: PointState) -> tuple[Taken, ...]:
    """What all groups take, the largest first, then the relief valves and what leaks inside the pump."""
    groups = [Taken(each.group, each.flow) for each in point.budget]
    groups.sort(key=lambda each: -(each.flow.best or 0.0))
    named = {each.title for each in groups}
    others = [
        Taken(title, Band(_sum([getattr(pump, field) for pump in point.pumps])), useful=False)
        for title, field in ((RELIEF, "relieved"), (LEAKAGE, "leakage"))
        if title not in named
    ]
    return (*groups, *(others if point.pumps else ()))


def _sum(flows: Sequence[float | None]) -> float | None:
    known = [each for each in flows if each is not None]
    return sum(known) if len(known) == len(flows) else None


def flow_budget(taken: Sequence[Taken], *, family: Family = "mm", width: float = 780.0) -> Picture:
    """The flow budget of one operating point.

    Parameters
    ----------
    taken : sequence of Taken
        Rows in their order (`taken_at` makes them).
    family : {"mm", "inch"}
        Whose units; flows are L/min in both.
    width : float
        Width in units of 1 px; below 560 names stand above the bars.

    Returns
    -------
    Picture
        A row each with L/min, the share of all together, and the 95 % band where it is known.
    """
    canvas, layout, reader = Canvas(width), Layout.over(width), OilReader(family)
    flows = [each.flow.best for each in taken]
    total = _sum(flows)
    scale = _scale(taken, layout)
    head = reader.flow(total)
    canvas.write(0.0, 16.0, f"All together {head}" if total is not None else "No solution", "heading")
    y = top = 26.0
    for each in taken:
        middle, y = put_row(canvas, layout, y, [(each.title, "title")], _figures(each, total, reader))
        _bar(canvas, scale, each, middle)
    foot = draw_across(canvas, scale, top, y, "L/min") if not layout.is_narrow else y + 8.0
    foot = canvas.paragraph(
        0.0, foot, "Grey: what does no work in the engine. Thin line: 95 % band.", width, "small"
    )
    canvas.parts.sort(key=lambda part: "ch-grid" not in part)
    return canvas.picture(foot, "Flow budget", _described(taken, total, reader), "chart flow-budget")


def _scale(taken: Sequence[Taken], layout: Layout) -> Scale:
    ends = [end for each in taken for end in (each.flow.best, each.flow.high) if end is not None]
    return scale_over(0.0, _litres(max(ends, default=0.0)) or 1.0, layout.left, layout.right, most_ticks=6)


def _litres(flow: float) -> float:
    return flow / unit_size("L/min", "volume_flow")


def _bar(canvas: Canvas, scale: Scale, each: Taken, middle: float) -> None:
    if each.flow.best is None:
        return
    x = scale.x(_litres(each.flow.best))
    cls = "ch-bar" if each.useful else "ch-bar-other"
    canvas.put(rect(scale.left, middle - BAR / 2, max(x - scale.left, 1.5), BAR, cls))
    if each.flow.low is not None and each.flow.high is not None:
        canvas.put(whisker(scale.x(_litres(each.flow.low)), scale.x(_litres(each.flow.high)), middle))


def _figures(each: Taken, total: float | None, reader: OilReader) -> list[Line]:
    if each.flow.best is None:
        return [(NOT_CONVERGED, "word")]
    share = ""
    if total:
        share = f", {100.0 * each.flow.best / total:.0f} %"
    lines = [(f"{reader.flow(each.flow.best)}{share}", "number")]
    if each.flow.low is not None and each.flow.high is not None:
        low, high = reader.flow(each.flow.low), reader.flow(each.flow.high)
        lines.append((f"{low.removesuffix(' L/min')} to {high}", "small"))
    return lines


def _described(taken: Sequence[Taken], total: float | None, reader: OilReader) -> str:
    rows = "; ".join(f"{each.title} {reader.flow(each.flow.best)}" for each in taken)
    return f"All together {reader.flow(total)}. {rows}."
