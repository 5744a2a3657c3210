"""Pistons stand where stroke, rod and crank angle put them, and crankpins where the firing order does."""

from __future__ import annotations

from math import cos, hypot, isclose, pi, sin, tau

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.drawing.engine_section.figure import figure_of, pin_height
from fitwright.model.engine import Layout
from fitwright.model.throws import crank_of
from tests.support.compare import absolute, verified
from tests.support.engine_layouts import ENGINES, engine

angles = st.floats(-20.0, 20.0)
each_engine = pytest.mark.parametrize("name", ENGINES)


def alike(first, second):
    return isclose(cos(first - second), 1.0, abs_tol=1e-9)


@given(angle=angles, stroke=st.floats(20.0, 200.0), ratio=st.floats(0.8, 4.0))
@settings(max_examples=60)
def test_the_rod_keeps_its_length_at_every_crank_angle(angle, stroke, ratio):
    rod, throw = ratio * stroke, stroke / 2
    height = pin_height(stroke, rod, angle)
    reach = hypot(throw * sin(angle), height - throw * cos(angle))
    verified(reach, rod, by="distance between the two pins", tolerance=1e-12)


def test_pin_height_at_top_middle_and_bottom():
    got = [pin_height(84.0, 142.5, angle) for angle in (0.0, pi / 2, pi)]
    want = [142.5 + 42.0, (142.5**2 - 42.0**2) ** 0.5, 142.5 - 42.0]
    verified(got, want, by="right triangles", tolerance=1e-12)


@each_engine
def test_every_cylinder_is_at_its_top_when_its_pin_points_along_it(name):
    figure = figure_of(engine(name), 0.0)
    for throw in figure.crank.throws:
        direction = figure.crank.pin_direction(throw, throw.top_at)
        assert alike(direction, figure.crank.axes[throw.bank])
    first = next(throw for throw in figure.crank.throws if throw.cylinder == 1)
    assert alike(figure.after_top(first), 0.0)


@each_engine
@pytest.mark.parametrize("angle", [0.0, 1.0, 4.0])
def test_rods_reach_from_their_crankpin_to_their_piston(name, angle):
    figure = figure_of(engine(name), angle)
    for throw in figure.crank.throws:
        axis, height = figure.crank.axes[throw.bank], figure.piston_pin(throw)
        pin = figure.crankpin(throw)
        reach = hypot(height * sin(axis) - pin[0], height * cos(axis) - pin[1])
        verified(reach, figure.sizes.rod_length, by="distance between the pins", tolerance=1e-9)


@each_engine
def test_rods_on_one_pin_agree_about_its_direction(name):
    figure = figure_of(engine(name), 0.7)
    by_pin: dict[int, float] = {}
    for throw in figure.crank.throws:
        direction = figure.crank.pin_direction(throw, 0.7)
        assert alike(direction, by_pin.setdefault(throw.pin, direction)), throw


def tops(order, **layout):
    words = {"arrangement": "inline", "cylinders": len(order.split("-")), "mains": 5, "firing_order": order}
    crank = crank_of(Layout(**(words | layout)), shared_pins=True, bank_angle=pi / 2)
    return crank, {throw.cylinder: throw.top_at for throw in crank.throws}


def test_cylinders_fire_in_the_order_of_the_sheet():
    crank, top = tops("1-2-4-5-3")
    assert crank.note is None
    assert sorted(top, key=top.__getitem__) == [1, 2, 4, 5, 3]
    verified([top[n] for n in (2, 4)], [tau * 2 / 5, tau * 4 / 5], by="144 degrees apart", tolerance=1e-12)


def test_the_outer_and_the_inner_pistons_of_a_four_move_together():
    crank, _ = tops("1-3-4-2")
    pins = [crank.pin_direction(throw, 0.3) for throw in crank.throws]
    assert alike(pins[0], pins[3])
    assert alike(pins[1], pins[2])
    assert alike(pins[0], pins[1] + pi)


def test_a_vee_eight_is_derived_from_its_firing_order_whatever_its_numbering():
    by_pairs, _ = tops("1-8-4-3-6-5-7-2", arrangement="vee")
    by_banks, _ = tops("1-5-4-2-6-3-7-8", arrangement="vee")
    assert (by_pairs.note, by_banks.note) == (None, None)
    assert (by_pairs.pins, by_banks.pins) == (4, 4)


def test_what_is_not_derived_is_said():
    assert "firing order not stated" in (tops("", cylinders=4)[0].note or "")
    assert "fits no evenly firing crank" in (tops("1-3-2-4-5-6-7-8", arrangement="vee")[0].note or "")


def test_an_engine_that_turns_the_other_way_moves_its_pin_to_the_left():
    turned = {}
    for rotation in ("clockwise from the nose", "anticlockwise from the nose"):
        crank, _ = tops("1-3-4-2", rotation=rotation)
        turned[rotation] = sin(crank.pin_direction(crank.throws[0], 0.5))
    right, left = turned.values()
    verified(right, -left, by="mirror image", tolerance=absolute(1e-12))
    assert right > 0.0
