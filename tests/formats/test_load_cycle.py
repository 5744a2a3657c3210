# ruff: noqa: E501 - one row for each slip
"""A load cycle from a file: units of its heading, one turn or two; each slip with its line."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.formats.load_cycle import LoadCycleError, read_load_cycle
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.train.load_cycle import LoadCycle, even_loads
from tests.support.compare import absolute, verified


def text(step=10, end=720, heading="crank angle [deg], across [N], along [N]", size=1.0):
    rows = [heading]
    for angle in range(0, end, step):
        theta = math.radians(angle)
        rows.append(f"{angle}, {size * 900.0 * math.sin(theta):.6f}, {size * -1500.0 * math.cos(theta):.6f}")
    return "\n".join(rows) + "\n"


def read(words):
    return read_load_cycle(words.encode(), file="load.csv")


def test_angles_and_loads_are_read_in_si():
    cycle = read(text())
    assert cycle.cycle_angle == 4.0 * math.pi
    verified(cycle.crank_angle[9], math.pi / 2.0, by="90 degrees", tolerance=1e-12)
    verified(cycle.load[9], [900.0, 0.0], by="a sine", tolerance=absolute(1e-5))


@pytest.mark.parametrize("heading, size", [
    ("crank angle [deg], across [kN], along [kN]", 1e-3),
    ("Crank_angle (deg), across (lbf), along (lbf)", 1.0 / 4.4482216152605),
])  # fmt: skip
def test_other_units_give_the_same_load(heading, size):
    plain, other = read(text()), read(text(heading=heading, size=size))
    verified(other.load, plain.load, by="the same in newtons", tolerance=absolute(1e-2))


def test_columns_may_stand_in_any_order_and_be_parted_by_semicolons():
    words = text().replace(",", ";")
    head, *rows = words.splitlines()
    assert head == "crank angle [deg]; across [N]; along [N]"
    turned = ["# a remark", "", "along [N]; crank angle [deg]; across [N]"]
    turned += ["; ".join([row.split(";")[2], row.split(";")[0], row.split(";")[1]]) for row in rows]
    assert (read("\n".join(turned)).load == read(text()).load).all()


def test_one_turn_and_a_row_that_repeats_the_first():
    cycle = read(text(end=361))
    assert cycle.cycle_angle == 2.0 * math.pi
    assert len(cycle.crank_angle) == 36


def test_even_loads_go_round():
    cycle = read(text())
    even = even_loads(cycle, 720)
    verified(even[::10], cycle.load, by="the rows themselves", tolerance=absolute(1e-9))
    verified(
        even[5],
        0.5 * (cycle.load[0] + cycle.load[1])[None][0] * [1, 1],
        by="half way",
        tolerance=absolute(40.0),
    )
    verified(even[715], 0.5 * (cycle.load[-1] + cycle.load[0]), by="half way home", tolerance=absolute(1e-9))


@pytest.mark.parametrize("angle", [
    np.radians([0.0, 10.0, 5.0]), np.radians(np.arange(0.0, 300.0, 10.0)), np.radians([-10.0, 0.0]),
])  # fmt: skip
def test_angles_that_make_no_cycle_are_refused(angle):
    with pytest.raises(OutOfDomainError):
        even_loads(LoadCycle(angle, np.ones((len(angle), 2)), 4.0 * math.pi), 90)


SLIPS = [
    ("", "load.csv:1: an empty file; write: crank angle [deg], across [N], along [N]"),
    (text(heading="crank angle, across, along"), 'load.csv:1: "crank angle" is no column of a load cycle with its unit'),
    (text(heading="crank angle [deg], across [N], upwards [N]"), 'load.csv:1: "upwards [N]" is no column'),
    (text(heading="crank angle [deg], across [N], across [N]"), 'load.csv:1: two columns "across"'),
    (text(heading="crank angle [deg], across [bar], along [N]"), 'load.csv:1: "bar" is no unit of a force'),
    (text().replace("\n20, ", "\n20, x", 1), 'load.csv:4: "x'),
    (text().replace("\n30, ", "\n3O, ", 1), 'load.csv:5: "3O" is no number (crank angle)'),
    (text().replace("\n40, ", "\n40, 1, ", 1), "load.csv:6: 4 cells where 3 belong"),
    (text().replace("\n50, ", "\nnan, ", 1), 'load.csv:7: "nan" is no load or angle'),
    (text().replace("\n60, ", "\n45, ", 1), "load.csv:8: an angle that does not rise"),
    (text(step=30), "load.csv:2: a gap of 30 degrees after this row"),
    (text(end=700), "load.csv:71: a gap of 30 degrees after this row"),
    (text(end=900), "load.csv:91: an angle outside of the cycle"),
    (text(end=361).replace("360, 0", "360, 999", 1).replace("360, -0", "360, 999", 1), "load.csv:38: the end of the cycle is its beginning again"),
    ("crank angle [deg], across [N], along [N]\n0, 1, 2\n", "load.csv:2: hardly any rows"),
]  # fmt: skip


@pytest.mark.parametrize("words, sentence", SLIPS, ids=[each[1][9:45] for each in SLIPS])
def test_each_slip_is_one_sentence_with_its_line(words, sentence):
    with pytest.raises(LoadCycleError) as error:
        read(words)
    assert str(error.value).startswith(sentence)
    assert str(error.value).count("\n") == 0


def test_bytes_that_are_no_text_are_told():
    with pytest.raises(LoadCycleError, match=r"load.csv:2: no UTF-8 text"):
        read_load_cycle(b"crank angle [deg], across [N], along [N]\n\xff\xfe", file="load.csv")
