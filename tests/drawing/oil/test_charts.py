"""Charts of the oil system: words instead of numbers that are missing, both families, nothing over words."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.assess.oil.results import Band, PressureCurve, StopValue
from fitwright.drawing.charts.axes import tick_words
from fitwright.drawing.charts.costs import costs
from fitwright.drawing.charts.curve_lines import pressure_at
from fitwright.drawing.charts.film import films
from fitwright.drawing.charts.flow_budget import LEAKAGE, RELIEF, Taken, flow_budget, taken_at
from fitwright.drawing.charts.pressure_speed import pressure_speed
from fitwright.drawing.charts.shown import ReliefPlateau, Selected, StartReading
from fitwright.drawing.scale import scale_over
from tests.drawing.oil.sound import SVG, assert_sound, words_of
from tests.support.compare import verified
from tests.support.oil_circuits import five_cylinder, point_of
from tests.support.oil_predictions import (
    BAR,
    BEARINGS,
    COSTS,
    CURVES,
    READINGS,
    STOPS,
    WHAT_IF,
    curve,
    rad_per_s,
)
from tests.support.oil_predictions import (
    RELIEF as PLATEAU,
)

each_width = pytest.mark.parametrize("width", [350.0, 780.0, 1100.0])
each_family = pytest.mark.parametrize("family", ["mm", "inch"])
POINT = point_of(five_cylinder())
IDLE = Selected(rad_per_s(900), 373.15)


def whole(**options):
    shown = {"stops": STOPS, "relief": PLATEAU, "selected": IDLE, "what_if": WHAT_IF, "readings": READINGS}
    return pressure_speed(CURVES, **{**shown, **options})


def classed(root, tag, name):
    return [each for each in root.iter(f"{SVG}{tag}") if name in (each.get("class") or "").split()]


def numbers(data):
    return [float(each) for each in re.findall(r"-?\d+\.?\d*", data)]


@each_width
@each_family
def test_pressure_over_speed_is_sound_with_all_that_can_stand_on_it(width, family):
    picture = whole(width=width, family=family)
    root = assert_sound(picture)
    unit, other = ("bar", "psi") if family == "mm" else ("psi", "bar")
    said = words_of(picture)
    assert f"{unit} at the gauge" in said
    assert not re.search(rf"\d {other}", said)
    assert len(classed(root, "path", "ch-what-if")) == 1
    assert len(classed(root, "path", "ch-limit")) == 3


def test_a_gap_is_left_open_and_said():
    root = assert_sound(pressure_speed([curve(100.0, gaps=(8, 9))]))
    pieces = classed(root, "path", "ch-line")
    assert [each.get("d").count("L") + 1 for each in pieces] == [8, 11]
    assert len(classed(root, "path", "ch-gap")) == 1
    assert "100 °C: not converged" in words_of(pressure_speed([curve(100.0, gaps=(8, 9))]))
    assert "not converged" not in words_of(pressure_speed([curve(100.0)]))


def test_a_curve_that_never_converged_is_a_word_only():
    root = assert_sound(pressure_speed([curve(100.0, gaps=tuple(range(21)))]))
    assert not classed(root, "path", "ch-line")
    assert len(classed(root, "path", "ch-gap")) == 1


def test_points_stand_where_the_axes_say():
    picture = pressure_speed([PressureCurve(373.15, (0.0, rad_per_s(4000)), (Band(0.0), Band(4.0 * BAR)))])
    root = assert_sound(picture)
    x0, y0, x1, y1 = numbers(classed(root, "path", "ch-line")[0].get("d"))
    ticks = {each.text: each for each in root.iter(f"{SVG}text") if each.get("class") == "fig-tick"}
    left, right = float(ticks["1000"].get("x")), float(ticks["3000"].get("x"))
    top, bottom = float(ticks["3"].get("y")), float(ticks["1"].get("y"))
    got = [(x1 - x0) / (right - left), (y0 - y1) / (bottom - top)]
    verified(got, [2.0, 2.0], by="ticks of the axes", tolerance=1e-3)


def test_bands_differ_by_their_dashes_and_lines_by_their_marks():
    root = assert_sound(pressure_speed([curve(80.0), curve(100.0), curve(120.0)]))
    kinds = {each.get("class") for each in classed(root, "path", "ch-edge")}
    assert kinds == {f"ch-edge ch-edge-{n}" for n in range(3)}
    assert classed(root, "circle", "ch-mark-open")
    assert classed(root, "path", "ch-mark-full")
    assert classed(root, "path", "ch-mark-open")


def test_without_edges_there_is_no_band_and_no_word_of_one():
    picture = pressure_speed(WHAT_IF)
    assert not classed(assert_sound(picture), "path", "ch-band")
    assert "95 %" not in words_of(picture)


def test_who_stated_a_stop_value_is_said_and_a_crossed_one_is_marked():
    picture = pressure_speed(CURVES, stops=STOPS)
    said = " ".join(box.words for box in picture.texts)
    assert "A: Stop below 1.00 bar at 900 rev/min, oil 110 °C; source: maker, p. A-12" in said
    assert "lower edge below it" in said
    root = assert_sound(picture)
    assert len(classed(root, "path", "ch-crossed")) == 1
    assert len(classed(root, "path", "ch-thumb")) == 1


def test_a_reading_stands_at_its_pressure_less_the_zero_of_the_gauge():
    reading = StartReading(rad_per_s(2000), 373.15, 3.1 * BAR, 0.1 * BAR)
    flat = PressureCurve(373.15, (0.0, rad_per_s(4000)), (Band(3.0 * BAR), Band(3.0 * BAR)))
    picture = pressure_speed([flat], readings=[reading])
    root = assert_sound(picture)
    ring = next(each for each in root.iter(f"{SVG}circle") if each.get("class") == "ch-reading")
    line = numbers(classed(root, "path", "ch-line")[0].get("d"))
    verified([float(ring.get("cy"))], [line[1]], by="the curve at the same pressure", tolerance=1e-3)
    assert "read 3.10 bar, less 0.10 bar at rest is 3.00 bar" in words_of(picture)


def test_the_point_looked_at_has_a_ring_only_where_there_is_a_pressure():
    here = pressure_speed(CURVES, selected=IDLE)
    assert "ch-selected" in here.svg
    assert len(classed(assert_sound(here), "circle", "ch-selected")) == 1
    in_gap = Selected(CURVES[1].angular_speeds[8], 373.15)
    there = pressure_speed(CURVES, selected=in_gap)
    assert not classed(assert_sound(there), "circle", "ch-selected")
    assert "no number there" in words_of(there)


def test_between_points_the_pressure_is_read_straight_and_never_over_a_gap():
    flat = PressureCurve(373.15, (0.0, 10.0, 20.0, 30.0), (Band(0.0), Band(2.0), Band(None), Band(4.0)))
    assert pressure_at(flat, 5.0) == 1.0
    assert pressure_at(flat, 15.0) is None
    assert pressure_at(flat, 30.0) == 4.0
    assert pressure_at(flat, 31.0) is None


pressures = st.none() | st.floats(0.0, 9e5)


@given(
    rows=st.lists(st.lists(pressures, min_size=6, max_size=6), max_size=5),
    stops=st.lists(st.tuples(st.floats(1e4, 6e5), st.none() | st.floats(10.0, 900.0)), max_size=8),
    readings=st.lists(st.tuples(st.floats(10.0, 900.0), st.floats(0.0, 8e5)), max_size=8),
    relief=st.none() | st.floats(1e5, 8e5),
    width=st.sampled_from([350.0, 780.0]),
)
@settings(max_examples=60, deadline=None)
def test_whatever_stands_on_it_no_words_are_on_others(rows, stops, readings, relief, width):
    speeds = (50.0, 100.0, 300.0, 500.0, 700.0, 800.0)
    curves = [
        PressureCurve(
            350.0 + 10.0 * n,
            speeds,
            tuple(Band(None) if each is None else Band(each, 0.9 * each, 1.1 * each) for each in row),
        )
        for n, row in enumerate(rows)
    ]
    picture = pressure_speed(
        curves,
        width=width,
        stops=[StopValue("Stop", "maker", low, speed, None, None) for low, speed in stops],
        readings=[StartReading(speed, None, value) for speed, value in readings],
        relief=None if relief is None else ReliefPlateau(relief),
    )
    assert_sound(picture)
    beside = [box.words for box in picture.texts]
    for mark in (*"ABCDEFGH"[: len(stops)], *map(str, range(1, len(readings) + 1))):
        assert mark in beside


@each_width
@each_family
def test_the_flow_budget_adds_up_and_says_the_share_of_each(width, family):
    taken = taken_at(POINT)
    picture = flow_budget(taken, width=width, family=family)
    assert_sound(picture)
    said = words_of(picture)
    assert [each.title for each in taken][-2:] == [RELIEF, LEAKAGE]
    total = sum(each.flow.best for each in taken)
    assert f"All together {total * 6e4:.1f} L/min" in said
    shares = [int(each) for each in re.findall(r"(\d+) %", said.replace("95 %", ""))]
    assert len(shares) == len(taken)
    assert abs(sum(shares) - 100) <= len(taken) / 2


def test_bars_of_the_flow_budget_are_as_long_as_their_flows():
    rows = [Taken("a", Band(2e-4)), Taken("b", Band(1e-4)), Taken("c", Band(5e-5), useful=False)]
    root = assert_sound(flow_budget(rows))
    bars = [*classed(root, "rect", "ch-bar"), *classed(root, "rect", "ch-bar-other")]
    widths = [float(each.get("width")) for each in bars]
    verified([widths[0] / widths[1], widths[0] / widths[2]], [2.0, 4.0], by="flows", tolerance=1e-3)


def test_a_budget_without_a_solution_has_no_bars():
    taken = taken_at(point_of(five_cylinder(), converged=False))
    picture = flow_budget(taken)
    root = assert_sound(picture)
    assert not classed(root, "rect", "ch-bar")
    assert not classed(root, "rect", "ch-bar-other")
    assert words_of(picture).count("not converged") == len(taken)
    assert not re.search(r"\d L/min", words_of(picture))


@each_width
@each_family
def test_costs_are_ranked_and_say_both_answers(width, family):
    picture = costs(COSTS, width=width, family=family)
    assert_sound(picture)
    titles = [box.words for box in picture.texts if box.words in {each.title for each in COSTS}]
    assert titles[0] == "Jets stay open"
    assert titles[-1] == "Relief seat leaks"
    said = words_of(picture)
    assert ("for 0.01 mm more" in said) == (family == "mm")
    assert ("for 0.4 thou more" in said) == (family == "inch")
    assert "no number" in said
    assert "the solution did not converge" in said


def test_in_an_inch_shop_the_derivative_is_for_four_tenths_of_a_thou():
    one = replace(COSTS[0], difference=None, per_step=-1e4, step=1e-5)
    said = words_of(costs([one], family="inch"))
    psi = 1e4 * 1.016 / 6894.757293168
    assert f"−{psi:.1f} psi" in said


def test_what_lowers_pressure_goes_to_the_left():
    root = assert_sound(costs(COSTS[:3]))
    zero = float(classed(root, "line", "ch-zero")[0].get("x1"))
    bars = [each for each in classed(root, "rect", "ch-bar") if float(each.get("height")) == 8.0]
    ends = [(float(each.get("x")), float(each.get("x")) + float(each.get("width"))) for each in bars]
    assert [high <= zero + 0.02 for _, high in ends] == [True, False, True]
    assert ends[1][0] >= zero - 0.02


def test_it_says_how_many_costs_are_not_drawn():
    assert "4 smaller ones are not drawn." in words_of(costs(COSTS, most=2))


@each_width
@each_family
def test_films_are_bars_only_where_there_is_a_film(width, family):
    picture = films(BEARINGS, width=width, family=family)
    root = assert_sound(picture)
    assert len(classed(root, "rect", "ch-bar")) == 4
    assert len(classed(root, "path", "ch-thumb")) == 6
    said = words_of(picture)
    for words in ("touching: no film predicted", "no load stated", "not converged"):
        assert said.count(words) == 1
    assert ("µm" in said) == (family == "mm")
    assert ("µin" in said) == (family == "inch")
    joined = " ".join(box.words for box in picture.texts)
    assert "its band reaches below 3 × Rq" in joined
    assert "above 3 × Rq" in joined
    assert "draws all that its feed passes" in joined


def test_a_number_beside_a_state_without_film_is_not_shown():
    lying = replace(BEARINGS[3], film_thickness=Band(1e-6, 0.9e-6, 1.1e-6))
    root = assert_sound(films([lying]))
    assert not classed(root, "rect", "ch-bar")
    assert not re.search(r"1\.0 µm", words_of(films([lying])))


@pytest.mark.parametrize("draw", [costs, films, flow_budget, pressure_speed])
@each_width
def test_nothing_at_all_is_drawn_too(draw, width):
    assert_sound(draw((), width=width))


def test_ticks_below_zero_have_a_true_minus_sign_and_zero_has_none():
    scale = scale_over(-0.6, 0.1, 0.0, 100.0)
    assert [tick_words(scale, tick) for tick in scale.ticks()][:1] == ["−0.6"]
    assert "0.0" in [tick_words(scale, tick) for tick in scale.ticks()]
