"""Films of all bearings against three times the roughness of their surfaces; a word where no film is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from fitwright.assess.oil.results import BearingState, FilmState
from fitwright.drawing.canvas import Canvas, Line, Picture
from fitwright.drawing.charts.axes import draw_across
from fitwright.drawing.charts.marks import wall_bracket
from fitwright.drawing.charts.rows import BAR, Layout, put_row
from fitwright.drawing.oil_figures import NOT_CONVERGED, OilReader
from fitwright.drawing.scale import Scale, scale_over
from fitwright.drawing.svg import circle, rect
from fitwright.units.families import Family
from fitwright.units.spellings import definition_of

TIMES_ROUGHNESS: Final = 3.0
"""A film of so many times the combined Rq keeps rough surfaces apart, by a rule of thumb."""

CAPTION: Final = (
    "Bar: 95 % band, ring: best estimate. Dashed bracket: 3 × Rq, a rule of thumb. "
    "Films are for the load stated; they are no limit of load or speed."
)


def films(bearings: Sequence[BearingState], *, family: Family = "mm", width: float = 780.0) -> Picture:
    """Films of the bearings at one operating point.

    Parameters
    ----------
    bearings : sequence of BearingState
        In the order in which they are drawn.
    family : {"mm", "inch"}
        Films in µm, or in millionths of an inch.
    width : float
        Width in units of 1 px; below 560 names stand above the bars.

    Returns
    -------
    Picture
        A row each; without a film there is no bar, but the reason.
    """
    canvas, layout, reader = Canvas(width), Layout.over(width), OilReader(family)
    scale = _scale(bearings, layout, reader)
    y = top = 4.0
    for each in bearings:
        middle, y = put_row(canvas, layout, y, [(each.title, "title")], _figures(each, reader))
        _bar(canvas, scale, each, middle, reader)
    unit = definition_of(reader.film_unit, "length").shown
    foot = draw_across(canvas, scale, top, y, unit) if bearings else y + 14.0
    foot = canvas.paragraph(0.0, foot, CAPTION, width, "small")
    canvas.parts.sort(key=lambda part: "ch-grid" not in part)
    said = "; ".join(
        f"{each.title}: {', '.join(words for words, _ in _figures(each, reader))}" for each in bearings
    )
    return canvas.picture(foot, "Oil films of the bearings", said or "No bearings.", "chart films")


def _shown(each: BearingState) -> bool:
    return each.state is FilmState.FILM and each.film_thickness.best is not None


def _scale(bearings: Sequence[BearingState], layout: Layout, reader: OilReader) -> Scale:
    ends = [
        end
        for each in bearings
        for end in (
            *((each.film_thickness.best, each.film_thickness.high) if _shown(each) else ()),
            TIMES_ROUGHNESS * each.roughness if each.roughness is not None else None,
        )
        if end is not None
    ]
    most = reader.in_film(max(ends, default=1e-6))
    return scale_over(0.0, 1.02 * most, layout.left, layout.right, most_ticks=6)


def _bar(canvas: Canvas, scale: Scale, each: BearingState, middle: float, reader: OilReader) -> None:
    film = each.film_thickness
    if _shown(each) and film.best is not None:
        if film.low is not None and film.high is not None:
            x1, x2 = scale.x(reader.in_film(film.low)), scale.x(reader.in_film(film.high))
            canvas.put(rect(x1, middle - BAR / 2 + 1.0, max(x2 - x1, 2.0), BAR - 2.0, "ch-bar"))
        canvas.put(circle(scale.x(reader.in_film(film.best)), middle, 4.4, "ch-mark-open"))
    if each.roughness is not None:
        x = scale.x(reader.in_film(TIMES_ROUGHNESS * each.roughness))
        canvas.put(wall_bracket(x, middle - BAR / 2 - 3.0, middle + BAR / 2 + 3.0, "ch-limit ch-thumb"))


def _figures(each: BearingState, reader: OilReader) -> list[Line]:
    film = each.film_thickness
    if each.state is not FilmState.FILM:
        return [(each.state.value, "word")]
    if film.best is None:
        return [(NOT_CONVERGED, "word")]
    lines: list[Line] = [(reader.film(film.best), "number")]
    if edges := reader.film_edges(film):
        lines.append((edges, "small"))
    if each.roughness is not None:
        lines.append((_against(each, TIMES_ROUGHNESS * each.roughness, reader), "small"))
    if each.starved:
        lines.append(("draws all that its feed passes", "small"))
    return lines


def _against(each: BearingState, limit: float, reader: OilReader) -> str:
    """How a film stands to three times the roughness."""
    film, size = each.film_thickness, reader.film(limit)
    if film.best is not None and film.best < limit:
        return f"below 3 × Rq = {size}"
    if film.low is not None and film.low < limit:
        return f"its band reaches below 3 × Rq = {size}"
    return f"above 3 × Rq = {size}"
