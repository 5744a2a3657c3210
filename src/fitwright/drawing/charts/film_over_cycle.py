"""Film over the crank angle: of the main and of the big end whose film is thinnest."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees
from typing import Final, TypeAlias

import numpy as np

from fitwright.assess.oil.results import CycleFilm, CycleFilms, FilmState
from fitwright.drawing.canvas import Canvas, Picture
from fitwright.drawing.charts.axes import Axes, Room, draw_axes
from fitwright.drawing.charts.film import TIMES_ROUGHNESS
from fitwright.drawing.oil_figures import OilReader
from fitwright.drawing.scale import Scale, scale_over
from fitwright.drawing.svg import circle, line, path
from fitwright.drawing.writing import TextBox
from fitwright.quantity import FloatArray
from fitwright.units.families import Family
from fitwright.units.spellings import definition_of

NARROW: Final = 560.0
QUARTER: Final = 180.0
"""Crank angles are marked at every so many degrees."""

POINTS: Final = 360
Point: TypeAlias = tuple[float, float]
LINES: Final = ("ch-line", "ch-what-if", "ch-line ch-edge-2", "ch-what-if ch-edge-3")


def thinnest(films: CycleFilms) -> tuple[CycleFilm, ...]:
    """Of each group of bearings the one with the thinnest film; groups in the order of the bearings."""
    found: dict[str, CycleFilm] = {}
    for each in films.bearings:
        if each.state is FilmState.FILM and each.film_thickness is not None:
            best = found.get(each.group)
            if best is None or each.film_thickness < (best.film_thickness or 0.0):
                found[each.group] = each
    return tuple(found.values())[: len(LINES)]


def film_over_cycle(films: CycleFilms, *, family: Family = "mm", width: float = 780.0) -> Picture:
    """The chart of film over crank angle.

    Parameters
    ----------
    films : CycleFilms
        At one operating point.
    family : {"mm", "inch"}
        Films in µm, or in millionths of an inch.
    width : float
        Width in units of 1 px; below 560 the chart is higher than usual for its width.

    Returns
    -------
    Picture
        A line for the thinnest of each group of bearings, with a ring and words where it is thinnest; where
        no bearing has a film, words alone.
    """
    canvas, reader, shown = Canvas(width), OilReader(family), thinnest(films)
    if not shown:
        words = films.problem or " ".join(("No bearing has a film that could be drawn.", *_not_drawn(films)))
        foot = canvas.paragraph(0.0, 16.0, words, width)
        return canvas.picture(foot, "Films over the cycle", words, "chart film-over-cycle")
    axes = _axes(width, films, shown, reader)
    foot = draw_axes(canvas, axes, "crank angle, degrees", definition_of(reader.film_unit, "length").shown)
    limit = _limit(canvas, axes, shown, reader)
    drawn = [_points(axes, each, reader) for each in shown]
    for points, cls in zip(drawn, LINES, strict=False):
        canvas.put(path("M" + "L".join(f"{x:.2f} {y:.2f}" for x, y in points), cls))
    for each in shown:
        _least(canvas, axes, each, reader, [point for points in drawn for point in points])
    said = [f"{name}: {_words(each, reader)}." for name, each in zip(_names(shown), shown, strict=True)]
    said += _not_drawn(films)
    for note in (*said, *limit):
        foot = canvas.paragraph(0.0, foot, note, width, "small") + 3.0
    return canvas.picture(foot, "Films over the cycle", " ".join(said), "chart film-over-cycle")


def _not_drawn(films: CycleFilms) -> list[str]:
    """Bearings without a film, by why they have none."""
    found: dict[str, list[str]] = {}
    for each in films.bearings:
        if each.state is not FilmState.FILM:
            found.setdefault(each.state.value, []).append(each.title)
    return [f"Not drawn, {state}: {', '.join(titles)}." for state, titles in found.items()]


def _names(shown: Sequence[CycleFilm]) -> list[str]:
    """What each line is called in the key."""
    dashes = ("Full line", "Dashed", "Dashed and dotted", "Short dashes")
    return [f"{how}, {each.title}" for how, each in zip(dashes, shown, strict=False)]


def _axes(width: float, films: CycleFilms, shown: Sequence[CycleFilm], reader: OilReader) -> Axes:
    narrow = width < NARROW
    room = Room(44.0, 34.0, width - 12.0, 34.0 + (240.0 if narrow else 0.34 * width))
    most = max(reader.in_film(float(_course(each)[1].max())) for each in shown)
    across = Scale(0.0, degrees(films.cycle_angle), QUARTER, room.left, room.right)
    return Axes(room, across, scale_over(0.0, most, room.bottom, room.top, most_ticks=6))


def _course(film: CycleFilm) -> tuple[FloatArray, FloatArray]:
    """Crank angles [degrees] and films [m], as many as can be told apart, closed to a whole cycle."""
    assert film.course is not None  # noqa: S101 - a film has its course
    angle, thickness = np.degrees(film.course.crank_angle), film.course.film_thickness
    step = max(1, len(angle) // POINTS)
    whole = len(angle) * (angle[1] - angle[0])
    return np.append(angle[::step], whole), np.append(thickness[::step], thickness[0])


def _points(axes: Axes, film: CycleFilm, reader: OilReader) -> list[Point]:
    return [
        axes.point(float(angle), reader.in_film(float(thickness)))
        for angle, thickness in zip(*_course(film), strict=True)
    ]


def _least(canvas: Canvas, axes: Axes, film: CycleFilm, reader: OilReader, points: Sequence[Point]) -> None:
    """A ring where a film is thinnest, and words where no line runs."""
    if film.film_angle is None or film.film_thickness is None:
        return
    x, y = axes.point(degrees(film.film_angle), reader.in_film(film.film_thickness))
    canvas.put(circle(x, y, 4.4, "ch-mark-open"))
    words = f"{film.title}: {reader.film(film.film_thickness)}"
    for up in range(14, int(y - axes.room.top), 6):
        for side, anchor in ((6.0, "start"), (-6.0, "end")):
            box = canvas.room(x + side, y - up, words, "small", anchor)
            if canvas.is_free(box) and not any(_is_in(box, point) for point in points):
                canvas.put(line(x, y - 5.0, x, y - up - 4.0, "ch-leader"))
                canvas.write(x + side, y - up, words, "small", anchor)
                return


def _is_in(box: TextBox, point: Point) -> bool:
    """Whether a point lies in a line of words, or close to it."""
    x, y = point
    return box.x - 3.0 < x < box.x + box.width + 3.0 and box.y - 2.0 < y < box.y + box.height + 2.0


def _limit(canvas: Canvas, axes: Axes, shown: Sequence[CycleFilm], reader: OilReader) -> list[str]:
    """Three times the roughness of the rougher one, as a line across; what is said of it."""
    rough = max((each.roughness or 0.0 for each in shown), default=0.0)
    if not rough:
        return []
    y = axes.up.x(reader.in_film(TIMES_ROUGHNESS * rough))
    canvas.put(line(axes.room.left, y, axes.room.right, y, "ch-limit ch-thumb"))
    size = reader.film(TIMES_ROUGHNESS * rough)
    return [f"Thick dashes: 3 × Rq = {size}, a rule of thumb; below it no film is predicted."]


def _words(film: CycleFilm, reader: OilReader) -> str:
    if film.film_thickness is None or film.film_angle is None:
        return film.state.value
    at = f"thinnest {reader.film(film.film_thickness)} at {degrees(film.film_angle):.0f}° of the crank"
    if film.after_firing is None or film.cylinder is None:
        return at
    return f"{at}, {degrees(film.after_firing):.0f}° after cylinder {film.cylinder} fires"
