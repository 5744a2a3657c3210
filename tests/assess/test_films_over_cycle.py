"""Films over the cycle of both examples: laws of the engine, and words where there is no number."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import partial
from math import degrees, pi, radians, tau
from pathlib import Path

import numpy as np
import pytest

from fitwright.assess.oil import orbits
from fitwright.assess.oil.crank_train import posed_train
from fitwright.assess.oil.desk import OilDesk, oil_case
from fitwright.assess.oil.points import OilPoint
from fitwright.assess.oil.results import FilmState
from fitwright.assess.oil.what_if import WhatIf
from fitwright.assess.results import State
from fitwright.formats.sheet import read_sheet
from fitwright.physics.bearings.orbit import orbit
from fitwright.physics.train.load_cycle import LoadCycle
from tests.support.compare import absolute, verified
from tests.support.story import Story

RPM = pi / 30.0
HOT = 383.15
TWIN = Path(__file__).resolve().parents[1] / "data" / "sheets" / "oil.toml"


def at(rev_per_min, kelvin=HOT):
    return OilPoint(f"{rev_per_min} rev/min", rev_per_min * RPM, kelvin)


def desk_of(name):
    return OilDesk(oil_case(Story.of(name).assessor(State.CURRENT).judge))


@pytest.fixture(scope="module")
def corrie():
    return desk_of("corrie-five")


@pytest.fixture(scope="module")
def brackengill():
    return desk_of("brackengill-eleven")


@pytest.fixture(scope="module")
def alike(corrie):
    """All mains with one clearance, all big ends with another."""
    sizes = {f"main.{n}.running_clearance": 60e-6 for n in range(1, 7)}
    return WhatIf(sizes=sizes | {f"rod.{n}.running_clearance": 56e-6 for n in range(1, 6)})


def films(desk, point, what_if=None):
    found = desk.films_over_cycle(point, what_if)
    assert found.problem == ""
    return {each.id: each for each in found.bearings}


def steady(across, along):
    angles = np.linspace(0.0, 2.0 * tau, 72, endpoint=False)
    return LoadCycle(angles, np.tile([across, along], (72, 1)).astype(float), 2.0 * tau)


@pytest.mark.parametrize("name, load", [("main.2.bearing", (0.0, -1.0)), ("pin.3.bearing", (0.6, 0.8))])
def test_a_load_that_stands_still_gives_the_steady_film(corrie, name, load):
    """The same bearing out of the steady curves: load and film as the circuit has them."""
    point = at(3000)
    told = next(each for each in corrie.best(also=[point]).points if each.title == point.title)
    bearing = next(each for each in told.bearings if each.id == name)
    size = (
        3500.0 + 8000.0 * (3.0 / 8.0) ** 2 if name.startswith("main") else 4000.0 + 15000.0 * (3.0 / 8.0) ** 2
    )
    # Without the train a pin turns in its rod as steadily as the crank.
    case = OilDesk(replace(corrie.case, train=None))
    (found,) = case.films_under(steady(load[0] * size, load[1] * size), name, point).bearings
    verified(found.peak_load, size, by="what the sheet states", tolerance=1e-12)
    verified(
        found.film_thickness, bearing.film_thickness.best, by="steady curves of the tables", tolerance=2e-3
    )
    verified(found.power_loss, bearing.friction_power, by="steady curves of the tables", tolerance=2e-3)


def test_a_load_that_turns_round_with_the_cycle_is_felt(corrie):
    """In the frame of the rod the swinging speed matters a little, the turning load a lot."""
    angles = np.linspace(0.0, 2.0 * tau, 144, endpoint=False)
    turning = LoadCycle(angles, 5000.0 * np.stack([np.sin(angles), np.cos(angles)], axis=-1), 2.0 * tau)
    (with_train,) = corrie.films_under(steady(0.0, 5000.0), "pin.1.bearing", at(4000)).bearings
    without = OilDesk(replace(corrie.case, train=None))
    (alone,) = without.films_under(steady(0.0, 5000.0), "pin.1.bearing", at(4000)).bearings
    (round_,) = corrie.films_under(turning, "pin.1.bearing", at(4000)).bearings
    assert 0.8 < with_train.film_thickness / alone.film_thickness < 1.0
    assert abs(round_.film_thickness / with_train.film_thickness - 1.0) > 0.1


def test_inertia_thins_the_films_of_the_big_ends_as_the_engine_turns_faster(corrie):
    speeds = (4000, 5000, 6000, 7000)
    thinnest = [films(corrie, at(speed))["pin.3.bearing"].film_thickness for speed in speeds]
    print("big end 3:", ", ".join(f"{each * 1e6:.2f} um" for each in thinnest))
    assert thinnest == sorted(thinnest, reverse=True)
    loads = [films(corrie, at(speed))["pin.3.bearing"].peak_load for speed in (6000, 7000, 8000)]
    inertia = 0.042 * (0.635 * (1.0 + 0.042 / 0.1425) + 0.395) * (8000 * RPM) ** 2
    verified(loads[2], inertia, by="masses at the top where gas is changed", tolerance=0.03)


def test_every_cylinder_sees_the_same_a_firing_interval_later(corrie, alike):
    found = films(corrie, at(5000), alike)
    firing = dict(zip((1, 2, 4, 5, 3), (0.0, 144.0, 288.0, 432.0, 576.0), strict=True))
    first = found["pin.1.bearing"]
    for cylinder in range(2, 6):
        other = found[f"pin.{cylinder}.bearing"]
        verified(other.peak_load, first.peak_load, by="cylinder 1", tolerance=1e-9)
        verified(other.film_thickness, first.film_thickness, by="cylinder 1", tolerance=5e-3)
        later = degrees(other.film_angle - first.film_angle) % 720.0
        verified(later, firing[cylinder], by="the firing order", tolerance=absolute(1.0))
        verified(other.after_firing, first.after_firing, by="cylinder 1", tolerance=absolute(radians(1.0)))


def test_the_ends_of_the_crank_of_a_five_are_mirror_images(corrie, alike):
    """1-2-4-5-3 backwards is itself from the other end, 432 degrees on."""
    found = films(corrie, at(5000), alike)
    for near, far in ((1, 6), (2, 5), (3, 4)):
        one, other = found[f"main.{near}.bearing"], found[f"main.{far}.bearing"]
        verified(other.peak_load, one.peak_load, by=f"main {near}", tolerance=1e-6)
        verified(other.film_thickness, one.film_thickness, by=f"main {near}", tolerance=0.02)


def test_a_four_on_three_mains_has_two_throws_between_them(brackengill):
    train = brackengill.case.train
    assert train.throws_between_mains == (2, 2)
    found = films(brackengill, at(2500, 361.15))
    verified(
        found["main.1.bearing"].peak_load, found["main.3.bearing"].peak_load, by="symmetry", tolerance=1e-9
    )
    assert set(found) == {f"main.{n}.bearing" for n in (1, 2, 3)} | {f"pin.{n}.bearing" for n in (1, 2, 3, 4)}


def test_thicker_oil_makes_thicker_films(corrie):
    hot, cooler = films(corrie, at(4000)), films(corrie, at(4000), WhatIf(temperature_change=-20.0))
    assert all(cooler[name].film_thickness > hot[name].film_thickness for name in hot)


def test_a_film_that_touches_has_no_number(corrie):
    found = films(corrie, at(8000, 393.15))["pin.1.bearing"]
    assert found.state is FilmState.TOUCHING
    assert (found.film_thickness, found.peak_pressure, found.course, found.power_loss) == (None,) * 4
    tilted = films(corrie, at(6000), WhatIf(misalignment=20e-6))["pin.1.bearing"]
    assert tilted.state is FilmState.TOUCHING


def test_a_path_that_does_not_close_has_no_number(corrie, monkeypatch):
    monkeypatch.setattr(orbits, "orbit", partial(orbit, largest_cycles=1))
    found = films(corrie, at(4000))
    assert {each.state for each in found.values()} == {FilmState.NOT_CONVERGED}
    assert all(each.film_thickness is None and "closed orbit" in each.why for each in found.values())


def test_without_a_crank_train_it_says_so(corrie):
    bare = OilDesk(replace(corrie.case, train=None))
    found = bare.films_over_cycle(at(4000))
    assert found.bearings == ()
    assert "describes no crank train" in found.problem


def test_below_idle_nothing_is_fired(corrie):
    assert "Below idle" in corrie.films_over_cycle(at(250, 291.15)).problem


def test_a_bearing_that_is_none_is_refused_by_name(corrie):
    found = corrie.films_under(steady(0.0, 1000.0), "jet.1", at(2000))
    assert "no bearing jet.1; it has main.1.bearing" in found.problem
    gap = LoadCycle(np.radians([0.0, 90.0, 180.0, 270.0]), np.ones((4, 2)), tau)
    assert "cannot be used" in corrie.films_under(gap, "main.1.bearing", at(2000)).problem


def test_gas_pressure_lies_between_what_is_stated(corrie):
    train = corrie.case.train
    for speed, bars in ((400, 16.0), (900, 16.0), (2450, 55.5), (6000, 100.0), (9000, 105.0)):
        verified(train.gas_at(speed * RPM).peak_pressure / 1e5, bars, by="straight between", tolerance=1e-9)
    one = replace(train, gas=train.gas[1:2])
    cautions = OilDesk(replace(corrie.case, train=one)).films_over_cycle(at(2000)).cautions
    assert orbits.ONE_STATED in cautions


def test_pressures_that_do_not_go_together_are_told(corrie):
    train = corrie.case.train
    low = replace(train, gas=(replace(train.gas[1], peak_pressure=20e5),))
    found = OilDesk(replace(corrie.case, train=low)).films_over_cycle(at(4000))
    assert "above that of compression alone" in found.problem


def test_the_compression_ratio_is_the_measured_one(corrie):
    measured = Story.of("corrie-five").verdict("cylinder.3.compression_ratio").value
    verified(corrie.case.train.compression_ratio, measured, by="the verdict on it", tolerance=1e-12)


def test_without_the_sizes_of_the_ratio_the_middle_of_its_limits_counts():
    sheet = Story.of("corrie-five").sheet
    train = posed_train(Story(sheet, "corrie-five", []).assessor().judge, sheet.circuit)
    assert train.problem == ""
    verified(train.compression_ratio, 8.95, by="limits 8.80 to 9.10", tolerance=1e-12)
    verified(train.geometry.crank_radius, 0.042, by="nominal stroke", tolerance=1e-12)


def test_a_size_of_which_nothing_is_known_is_named():
    text = TWIN.read_text(encoding="utf-8").replace('stroke = "76 mm"', 'stroke = "main.1.journal"')
    text = re.sub(r'(dimensions."main.\{1..2\}.journal"\](?:\n(?!\[).*)*?)\nnominal = .*', r"\1", text)
    sheet = read_sheet(text)
    train = posed_train(Story(sheet, "twin", []).assessor().judge, sheet.circuit)
    assert train.problem.startswith("Nothing is known of Main 1 journal: measure")


def test_a_twin_that_fires_once_a_turn_and_twice_by_its_angles():
    sheet = read_sheet(TWIN.read_text(encoding="utf-8"))
    train = posed_train(Story(sheet, "twin", []).assessor().judge, sheet.circuit)
    assert [degrees(each.firing_angle) for each in train.places] == pytest.approx([0.0, 360.0])
    assert (train.throws_between_mains, train.angles, train.problem) == ((2,), 1440, "")
    verified(train.geometry.pin_offset, -0.0008, by="the sheet", tolerance=1e-12)
    loads = train.loads(4000 * RPM)
    verified(
        loads.big_end[1], np.roll(loads.big_end[0], 720, axis=0), by="a turn later", tolerance=absolute(1e-6)
    )
    verified(train.left_out, [-0.155, -0.155], by="half of 310 g", tolerance=1e-9)
