"""The chart of films over the cycle, and what is said of them: numbers only where a film was found."""

from __future__ import annotations

import re
from dataclasses import replace
from math import radians, tau

import numpy as np
import pytest

from fitwright.assess.oil.results import CycleFilm, CycleFilms, FilmCourse, FilmState
from fitwright.drawing.charts.film_over_cycle import film_over_cycle, thinnest
from fitwright.drawing.cycle_words import CYCLE_HEADINGS, cycle_rows, gas_words, thinnest_words
from fitwright.drawing.oil_figures import OilReader
from tests.drawing.oil.sound import SVG, assert_sound, words_of

each_width = pytest.mark.parametrize("width", [350.0, 780.0, 1100.0])
each_family = pytest.mark.parametrize("family", ["mm", "inch"])
ANGLES = np.linspace(0.0, 2.0 * tau, 720, endpoint=False)


def film(name, group, least, at, **other):
    course = least * (4.0 - 3.0 * np.exp(-8.0 * (1.0 - np.cos(0.5 * (ANGLES - radians(at))))))
    return CycleFilm(
        id=name,
        title=name,
        group=group,
        state=FilmState.FILM,
        peak_load=21_000.0,
        roughness=0.35e-6,
        film_thickness=least,
        film_angle=radians(at),
        peak_pressure=60e6,
        peak_pressure_angle=radians(at),
        mean_flow=5e-6,
        power_loss=320.0,
        course=FilmCourse(ANGLES, course, np.zeros((720, 2)), np.zeros((720, 2))),
        **other,
    )


TOUCHING = CycleFilm("Big end 2", "Big end 2", "big ends", FilmState.TOUCHING, 35_000.0, 0.35e-6)
OPEN = CycleFilm("Main 2", "Main 2", "mains", FilmState.NOT_CONVERGED, 1.0, None, why="no closed orbit")
FILMS = CycleFilms(
    "pull",
    600.0,
    383.15,
    2.0 * tau,
    (
        film("Main 1", "mains", 3.1e-6, 432.0),
        OPEN,
        film("Main 3", "mains", 2.2e-6, 702.0, starved=True),
        film("Big end 1", "big ends", 1.3e-6, 278.0, cylinder=1, after_firing=radians(278.0)),
        TOUCHING,
    ),
    9.6e6,
)


@each_width
@each_family
def test_the_thinnest_of_each_group_has_a_line_and_words(width, family):
    picture = film_over_cycle(FILMS, width=width, family=family)
    root = assert_sound(picture)
    lines = [
        each for each in root.iter(f"{SVG}path") if (each.get("class") or "") in {"ch-line", "ch-what-if"}
    ]
    assert len(lines) == 2
    assert len(list(root.iter(f"{SVG}circle"))) == 2
    said = " ".join(box.words for box in picture.texts)
    assert ("µm" in said) == (family == "mm")
    assert "278° after cylinder 1 fires" in said
    assert "Main 1" not in said
    assert "3 × Rq" in said
    assert "Not drawn, touching: no film predicted: Big end 2." in said
    assert "Not drawn, not converged: Main 2." in said
    assert "720" in words_of(picture).split(" | ")


def test_a_line_is_lowest_at_its_ring():
    root = assert_sound(film_over_cycle(FILMS))
    rings = [(float(each.get("cx")), float(each.get("cy"))) for each in root.iter(f"{SVG}circle")]
    lines = [each for each in root.iter(f"{SVG}path") if each.get("class") in {"ch-line", "ch-what-if"}]
    for each, (x, y) in zip(lines, rings, strict=True):
        points = [tuple(map(float, pair.split())) for pair in each.get("d")[1:].split("L")]
        low = max(points, key=lambda point: point[1])
        assert abs(low[0] - x) < 2.5
        assert abs(low[1] - y) < 0.6


@each_width
def test_without_a_film_there_are_words_alone(width):
    nothing = replace(FILMS, bearings=(TOUCHING, OPEN))
    picture = film_over_cycle(nothing, width=width)
    assert not list(assert_sound(picture).iter(f"{SVG}path"))
    problem = replace(FILMS, bearings=(), problem="The sheet describes no crank train.")
    assert "no crank train" in words_of(film_over_cycle(problem, width=width))
    assert thinnest(nothing) == ()


@each_family
def test_rows_have_numbers_only_where_a_film_was_found(family):
    rows = {each.title: each for each in cycle_rows(FILMS, OilReader(family))}
    assert rows["Big end 2"].film == "touching: no film predicted"
    assert rows["Main 2"].film == "not converged: no closed orbit"
    for name in ("Big end 2", "Main 2"):
        assert [each for at, each in enumerate(rows[name].figures) if at != 3] == [""] * 5
        assert not rows[name].has_film
    assert rows["Big end 1"].figures[:2] == ("278°", "278°")
    assert rows["Main 1"].figures[:2] == ("432°", "")
    assert "draws all that its feed passes" in rows["Main 3"].note
    assert all(len(each.figures) + 1 == len(CYCLE_HEADINGS) for each in rows.values())
    assert re.fullmatch(r"21\.0 kN" if family == "mm" else r"4721 lbf", rows["Main 1"].figures[3])
    assert gas_words(FILMS, family).startswith(
        "Peak gas pressure 96 bar" if family == "mm" else "Peak gas pressure 1392 psi"
    )
    assert gas_words(replace(FILMS, peak_gas_pressure=None), family) == ""


def test_what_touches_is_named_before_what_is_thin():
    reader = OilReader()
    assert thinnest_words(FILMS, "big ends", reader) == "touching: no film predicted (Big end 2)"
    assert thinnest_words(FILMS, "mains", reader) == "not converged: no closed orbit (Main 2)"
    assert thinnest_words(replace(FILMS, bearings=FILMS.bearings[2:4]), "mains", reader) == "2.2 µm (Main 3)"
    assert thinnest_words(FILMS, "camshafts", reader) == ""
