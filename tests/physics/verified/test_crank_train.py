"""Crank train: loop closure, energy, a second formula for the forces; the stated pressure curve."""

import math
from dataclasses import replace

import numpy as np
import pytest

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.train.bearing_loads import (
    CylinderPlace,
    MovingMasses,
    cylinder_loads,
    speed_of_pin_in_rod,
    train_loads,
)
from fitwright.physics.train.gas_force import (
    StatedCycle,
    cycle_work,
    cylinder_volume,
    gas_force,
    stated_pressure,
)
from fitwright.physics.train.kinematics import (
    CrankGeometry,
    heights_at_the_ends,
    piston_motion,
    top_angle,
)
from tests.support.compare import absolute, verified

CRANK = CrankGeometry(0.045, 0.145)
OFFSET = CrankGeometry(0.045, 0.145, 0.008)
MASSES = MovingMasses(0.42, 0.55, 0.042, 0.0021)
CYCLE = StatedCycle(8e6, math.radians(13.0), 10.5)
SPEED = 600.0
BORE = 0.082


def even(n=1440, cycle=4.0 * math.pi):
    return np.arange(n) * cycle / n


def slope(values, cycle=4.0 * math.pi):
    """Derivative by the crank angle, spectral."""
    n = len(values)
    order = 2.0 * math.pi / cycle * np.fft.rfftfreq(n, 1.0 / n)
    return np.fft.irfft(1j * order * np.fft.rfft(values), n)


def loads_of(geometry=CRANK, masses=MASSES, cycle=CYCLE, n=1440):
    gas = gas_force(stated_pressure(geometry, cycle, even(n, cycle.cycle_angle)), bore=BORE)
    return cylinder_loads(geometry, masses, gas, angular_speed=SPEED, cycle_angle=cycle.cycle_angle), gas


@pytest.mark.parametrize("geometry", [CRANK, OFFSET], ids=["straight", "offset"])
def test_the_rod_keeps_its_length_and_everything_is_a_derivative(geometry):
    theta = even()
    motion = piston_motion(geometry, theta, angular_speed=SPEED)
    across = -geometry.pin_offset + geometry.crank_radius * np.sin(theta)
    along = motion.height - geometry.crank_radius * np.cos(theta)
    verified(np.hypot(across, along), np.full(1440, 0.145), by="closed loop", tolerance=1e-14)
    verified(motion.velocity, SPEED * slope(motion.height), by="spectrum", tolerance=absolute(1e-9))
    verified(motion.acceleration, SPEED * slope(motion.velocity), by="spectrum", tolerance=absolute(1e-6))
    verified(motion.rod_speed, -SPEED * slope(motion.rod_angle), by="spectrum", tolerance=absolute(1e-8))
    verified(
        motion.rod_acceleration,
        SPEED * slope(motion.rod_speed),
        by="spectrum",
        tolerance=absolute(1e-5),
    )


def test_the_ends_of_the_stroke_by_search():
    theta = np.linspace(0.0, 2.0 * math.pi, 2_000_001)
    height = piston_motion(OFFSET, theta, angular_speed=1.0).height
    verified(heights_at_the_ends(OFFSET), [height.max(), height.min()], by="search", tolerance=1e-10)
    verified(top_angle(OFFSET), theta[np.argmax(height)], by="search", tolerance=absolute(1e-5))


@pytest.mark.parametrize("geometry", [CRANK, OFFSET], ids=["straight", "offset"])
@pytest.mark.parametrize("masses", [MASSES, replace(MASSES, rod_inertia=None)], ids=["body", "two masses"])
def test_the_mean_torque_is_the_work_of_the_gas(geometry, masses):
    loads, gas = loads_of(geometry, masses)
    volume = cylinder_volume(geometry, even(), bore=BORE, compression_ratio=CYCLE.compression_ratio)
    pressure = gas / (0.25 * math.pi * BORE**2)
    work = cycle_work(pressure, volume)
    verified(loads.torque.mean() * 4.0 * math.pi, work, by="work of the gas", tolerance=1e-9)
    assert work > 500.0


@pytest.mark.parametrize("geometry", [CRANK, OFFSET], ids=["straight", "offset"])
def test_at_every_angle_the_gas_drives_crank_and_masses(geometry):
    loads, gas = loads_of(geometry)
    theta = even()
    motion = piston_motion(geometry, theta, angular_speed=SPEED)
    share = MASSES.rod_centre / geometry.rod_length
    vx = -(1.0 - share) * geometry.crank_radius * SPEED * np.cos(theta)
    vy = -(1.0 - share) * geometry.crank_radius * SPEED * np.sin(theta) + share * motion.velocity
    energy = 0.5 * MASSES.piston_mass * motion.velocity**2 + 0.5 * MASSES.rod_mass * (vx**2 + vy**2)
    energy += 0.5 * MASSES.rod_inertia * motion.rod_speed**2
    power = -gas * motion.velocity - SPEED * slope(energy)
    verified(loads.torque * SPEED, power, by="power less kinetic energy", tolerance=absolute(0.05))


def test_two_masses_give_the_text_book_forces():
    """Rod split into a reciprocating and a rotating mass: piston force, rod lean, centrifugal force."""
    masses = replace(MASSES, rod_inertia=None)
    loads, gas = loads_of(OFFSET, masses)
    theta = even()
    motion = piston_motion(OFFSET, theta, angular_speed=SPEED)
    share = masses.rod_centre / OFFSET.rod_length
    along = gas + (masses.piston_mass + share * masses.rod_mass) * motion.acceleration
    across = along * np.tan(motion.rod_angle)
    turning = (1.0 - share) * masses.rod_mass * OFFSET.crank_radius * SPEED**2
    expected = np.stack([-across - turning * np.sin(theta), -along + turning * np.cos(theta)], axis=-1)
    verified(loads.pin_force, expected, by="two masses", tolerance=absolute(1e-8))
    verified(loads.side_force, -across, by="two masses", tolerance=absolute(1e-8))


def test_the_big_end_load_is_the_pin_force_seen_from_the_rod():
    loads, _ = loads_of(OFFSET)
    verified(
        np.hypot(*loads.big_end.T), np.hypot(*loads.pin_force.T), by="a turn keeps lengths", tolerance=1e-12
    )
    lean = piston_motion(OFFSET, even(), angular_speed=SPEED).rod_angle
    axial = -(loads.pin_force[:, 0] * np.sin(lean) + loads.pin_force[:, 1] * np.cos(lean))
    verified(loads.big_end[:, 1], axial, by="projection on the rod", tolerance=absolute(1e-8))
    assert loads.big_end[int(1440 * 13 / 720), 1] > 20_000.0  # fired: the pin presses towards the small end
    verified(
        loads.relative_speed,
        speed_of_pin_in_rod(OFFSET, angular_speed=SPEED, count=1440, cycle_angle=4.0 * math.pi),
        by="the other function",
        tolerance=1e-14,
    )


@pytest.mark.parametrize(
    "cycle",
    [CYCLE, replace(CYCLE, strokes=2, exhaust_opening=math.radians(112.0), blowdown=math.radians(40.0))],
    ids=["four strokes", "two strokes"],
)
@pytest.mark.parametrize("geometry", [CRANK, OFFSET], ids=["straight", "offset"])
def test_the_stated_curve_is_what_was_stated(cycle, geometry):
    n = 72_000 * cycle.strokes // 4
    theta = even(n, cycle.cycle_angle)
    pressure = stated_pressure(geometry, cycle, theta)
    verified(pressure.max(), 8e6, by="stated", tolerance=1e-7)
    verified(theta[np.argmax(pressure)], math.radians(13.0), by="stated", tolerance=absolute(2e-4))
    volume = cylinder_volume(geometry, theta, bore=BORE, compression_ratio=10.5)
    for first, last, exponent in ((-60.0, -20.0, 1.32), (40.0, 100.0, 1.27)):
        a, b = (round(math.radians(x) / cycle.cycle_angle * n) % n for x in (first, last))
        found = math.log(pressure[b] / pressure[a]) / math.log(volume[a] / volume[b])
        verified(found, exponent, by="slope in logarithms", tolerance=1e-9)
    steps = np.diff(np.append(pressure, pressure[0])) / (theta[1] - theta[0])
    jump = np.abs(np.diff(steps)).max() / np.abs(steps).max()
    print(f"largest step of the slope from one of {n} angles to the next: {jump:.2g} of the steepest")
    assert jump < 5e-3


def test_an_inline_four_fires_evenly_and_cancels_the_first_order():
    loads, _ = loads_of()
    firing = np.radians([0.0, 540.0, 180.0, 360.0])
    places = [CylinderPlace(k, angle) for k, angle in enumerate(firing)]
    train = train_loads(CRANK, loads, places, angular_speed=SPEED, rotating_masses=[0.3] * 4)
    verified(train.torque, np.roll(train.torque, 360), by="even firing", tolerance=absolute(1e-8))
    total = train.main.sum(axis=0)
    first = np.abs(np.fft.rfft(total[:, 0]))[2] / 720  # two turns: the second line is the first order
    verified(first, 0.0, by="mirrored crank", tolerance=absolute(1e-6))
    verified(
        np.hypot(*train.main[0].T),
        np.hypot(*np.roll(train.main[4], 720, axis=0).T),
        by="symmetry",
        tolerance=1e-9,
    )


def test_the_mains_carry_what_the_throws_press():
    loads, _ = loads_of()
    places = [CylinderPlace(0, 0.0, 0.0), CylinderPlace(0, math.radians(90.0), math.radians(90.0))]
    train = train_loads(CRANK, loads, places, angular_speed=SPEED, rotating_masses=[0.5])
    other = np.roll(loads.pin_force, 180, axis=0)
    pressed = loads.pin_force + np.stack([-other[:, 1], other[:, 0]], axis=-1)  # a bank a quarter turn on
    pull = 0.5 * 0.045 * SPEED**2
    pressed += pull * np.stack([-np.sin(even()), np.cos(even())], axis=-1)
    verified(train.main.sum(axis=0), pressed, by="hand working", tolerance=absolute(1e-8))
    verified(train.main[0], train.main[1], by="one throw between two mains", tolerance=1e-14)


def test_a_throw_in_two_places_is_refused():
    loads, _ = loads_of()
    with pytest.raises(OutOfDomainError, match="throw 0"):
        train_loads(CRANK, loads, [CylinderPlace(0, 0.0), CylinderPlace(0, 1.0)], angular_speed=SPEED)


def test_a_peak_below_the_compression_is_refused():
    with pytest.raises(OutOfDomainError, match="peak_pressure"):
        stated_pressure(CRANK, replace(CYCLE, peak_pressure=1e6), 0.0)


def test_a_rod_that_does_not_reach_round_is_refused():
    with pytest.raises(OutOfDomainError, match="rod_length"):
        piston_motion(CrankGeometry(0.05, 0.05), 0.0, angular_speed=1.0)


def test_two_throws_between_two_mains_load_them_as_on_a_beam():
    """A four on three mains: each pair of throws stands at a third and two thirds between its mains."""
    loads, _ = loads_of(n=720)
    places = [CylinderPlace(k, math.radians(each)) for k, each in enumerate((0.0, 540.0, 180.0, 360.0))]
    three = train_loads(CRANK, loads, places, angular_speed=SPEED, throws_between_mains=[2, 2]).main
    pins = [np.roll(loads.pin_force, round(each / 1.0), axis=0) for each in (0, 540, 180, 360)]
    # Moments about the far main of the first space, then the sum of all forces.
    first = (2.0 * pins[0] + pins[1]) / 3.0
    last = (pins[2] + 2.0 * pins[3]) / 3.0
    verified(three[0], first, by="moments", tolerance=absolute(1e-8))
    verified(three[2], last, by="moments", tolerance=absolute(1e-8))
    verified(three.sum(axis=0), sum(pins), by="sum of forces", tolerance=absolute(1e-8))


def test_throws_that_no_space_holds_are_refused():
    loads, _ = loads_of(n=720)
    with pytest.raises(OutOfDomainError):
        train_loads(CRANK, loads, [CylinderPlace(0, 0.0)], angular_speed=SPEED, throws_between_mains=[2])
