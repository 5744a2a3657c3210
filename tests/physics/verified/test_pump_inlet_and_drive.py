"""Filling limit and drive of a pump, worked by hand and by other roots."""

import math

import numpy as np
import pytest
from scipy.integrate import dblquad
from scipy.optimize import brentq

from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.passages.edges import ENTRANCE_AUTHORS, entrance_loss_coefficient
from fitwright.physics.pump.drive import (
    contact_modulus,
    drive_torque,
    flat_stress,
    free_rock_angle,
    rotor_drag_torque,
)
from fitwright.physics.pump.filling import (
    Filling,
    centrifugal_area,
    edge_speed_gain,
    filling_limit,
    filling_parameters,
)
from fitwright.physics.pump.inlet import InletPath, edge_gain, inlet_gauge_pressure
from fitwright.physics.pump.kernels.pump import filled_flow
from fitwright.physics.pump.trochoid import RotorPair
from tests.support.compare import absolute, verified

MM = 1e-3
OIL = {"density": 850.0, "dynamic_viscosity": 0.012}
EIGHT = RotorPair(8, 2.5 * MM, 30.0 * MM, 6.5 * MM, 12.0 * MM)
PATH = InletPath(pipe_diameter=16 * MM, pipe_length=0.3, rise=0.1, strainer_area=900e-6)
FILLING = Filling(release_pressure=40e3, port_area=300e-6, centrifugal_area=20e-6)


def test_filling_limit_of_orifices_alone_is_a_closed_form():
    """Strainer and port in series; the shortfall fixes the ratio of flow swept to the port's largest."""
    path = InletPath(pipe_diameter=1.0, pipe_length=0.0, strainer_area=400e-6)
    filling = Filling(release_pressure=30e3, port_area=300e-6)
    short = 0.01
    ratio = ((1.0 - short) ** -8.0 - 1.0) ** (1.0 / 8.0)  # swept over the port's largest flow
    per_flow = 0.5 * 850.0 * (1.5 * ((1.0 - short) / 400e-6) ** 2 + (1.0 / (ratio * 0.6 * 300e-6)) ** 2)
    swept = math.sqrt((101325.0 - 30e3) / per_flow)
    found = filling_limit(path, filling, 12e-6, shortfall=short, **OIL)
    want = 2.0 * math.pi * swept / 12e-6
    verified(found.angular_speed, want, by="two orifices in series", tolerance=1e-4)
    verified(found.flow, 0.99 * swept, by="two orifices in series", tolerance=1e-4)


def test_at_the_limit_pipe_and_pump_agree():
    """Solve for the flow at that speed with both laws, as a circuit does."""
    found = filling_limit(PATH, FILLING, 12e-6, **OIL)
    swept = 12e-6 * found.angular_speed / (2.0 * math.pi)
    parameters = filling_parameters(FILLING)

    def off(flow):
        pressure = inlet_gauge_pressure(PATH, flow, **OIL)
        return filled_flow(pressure, swept, found.angular_speed, 850.0, parameters)[0] - flow

    flow = brentq(off, 1e-9, swept, xtol=1e-18, rtol=1e-13)
    verified(flow / swept, 0.99, by="root of both laws at that speed", tolerance=1e-7)
    verified(found.inlet_gauge_pressure, inlet_gauge_pressure(PATH, flow, **OIL), by="same", tolerance=1e-6)


def test_what_is_worse_lowers_the_limit():
    start = filling_limit(PATH, FILLING, 12e-6, **OIL).angular_speed
    worse = [
        (InletPath(14 * MM, 0.3, rise=0.1, strainer_area=900e-6), FILLING, 12e-6),
        (InletPath(16 * MM, 0.3, rise=0.5, strainer_area=900e-6), FILLING, 12e-6),
        (PATH, Filling(release_pressure=60e3, port_area=300e-6, centrifugal_area=20e-6), 12e-6),
        (PATH, Filling(release_pressure=40e3, port_area=250e-6, centrifugal_area=20e-6), 12e-6),
        (PATH, Filling(release_pressure=40e3, port_area=300e-6, centrifugal_area=90e-6), 12e-6),
        (PATH, FILLING, 14e-6),
    ]
    for path, filling, displacement in worse:
        assert filling_limit(path, filling, displacement, **OIL).angular_speed < start


def test_pressure_missing_at_the_roots_is_that_of_a_turning_ring():
    speed = 800.0
    want = 850.0 * speed**2 * (EIGHT.outer_tip_radius**2 - EIGHT.inner_root_radius**2) / 2.0
    verified(850.0 * speed**2 * centrifugal_area(EIGHT), want, by="hand", tolerance=1e-12)


def test_an_edge_is_worth_what_its_authors_say():
    flow = 40e-3 / 60.0
    head = 0.5 * 850.0 * (flow / (math.pi / 4.0 * (14 * MM) ** 2)) ** 2
    gain = edge_gain(14 * MM, 2 * MM, flow, density=850.0)
    each = [
        head * float(np.subtract(*entrance_loss_coefficient([0.0, 2.0 / 14.0], author)))
        for author in ENTRANCE_AUTHORS
    ]
    verified([gain.least, gain.most], [min(each), max(each)], by="author by author", tolerance=1e-12)
    assert gain.least <= gain.pressure <= gain.most
    sharp, rounded = (
        inlet_gauge_pressure(InletPath(14 * MM, 0.2, edge_radius=radius), flow, **OIL)
        for radius in (0.0, 2 * MM)
    )
    verified(rounded - sharp, gain.pressure, by="inlet with either edge", tolerance=1e-5)
    assert edge_gain(14 * MM, 0.0, flow, density=850.0).pressure == 0.0


def test_a_rounded_edge_buys_speed():
    gain = edge_speed_gain(PATH, 3 * MM, FILLING, 12e-6, **OIL)
    assert 0.0 < gain.least <= gain.speed <= gain.most
    difference = gain.rounded.angular_speed - gain.sharp.angular_speed
    verified(gain.speed, difference, by="difference", tolerance=1e-12)
    width = (gain.most - gain.least) / math.sqrt(12.0)
    verified(gain.standard_uncertainty, width, by="even distribution", tolerance=1e-12)


def test_a_search_cut_short_and_inlets_that_cannot_fill():
    with pytest.raises(NotConvergedError, match="filling limit"):
        filling_limit(PATH, FILLING, 12e-6, most_iterations=5, **OIL)
    high = InletPath(16 * MM, 0.3, rise=9.0)
    with pytest.raises(OutOfDomainError, match="fill at any speed"):
        filling_limit(high, FILLING, 12e-6, **OIL)
    with pytest.raises(OutOfDomainError, match="absolute and below"):
        filling_parameters(Filling(release_pressure=2e5, port_area=1e-4))
    with pytest.raises(OutOfDomainError, match="no negative loss"):
        inlet_gauge_pressure(InletPath(16 * MM, 0.3, strainer_area=0.0), 1e-4, **OIL)


def test_drag_of_rotors_by_integration():
    speed, viscosity, ratio = 600.0, 0.012, 8.0 / 9.0
    radii = 14 * MM, EIGHT.outer_tip_radius, 33 * MM

    def ring(inside, outside, spin):
        """Power at one face from the shear at every radius."""
        shear = dblquad(lambda r, _: (spin * r) ** 2 * r / (30e-6), 0.0, 2.0 * math.pi, inside, outside)[0]
        return viscosity * shear

    power = 2.0 * (ring(radii[0], radii[1], speed) + ring(radii[1], radii[2], ratio * speed))
    surface = 2.0 * math.pi * radii[2] * EIGHT.width
    power += viscosity * (ratio * speed * radii[2]) ** 2 / 70e-6 * surface
    got = rotor_drag_torque(
        EIGHT,
        outer_rotor_diameter=66 * MM,
        hub_diameter=28 * MM,
        end_clearance=60e-6,
        body_radial_clearance=70e-6,
        angular_speed=speed,
        dynamic_viscosity=viscosity,
    )
    verified(got, power / speed, by="shear integrated over the faces", tolerance=1e-8)


def test_torque_by_work():
    verified(drive_torque(12e-6, 5e5, drag_torque=0.2), 6.0 / (2 * math.pi) + 0.2, by="work", tolerance=1e-12)


def test_flats_by_equilibrium_and_by_hertz():
    found = flat_stress(
        8.0, flat_length=14 * MM, engagement=9 * MM, corner_radius=0.5 * MM, contact_modulus=115e9
    )
    arm = np.linspace(0.0, 7 * MM, 20_001)
    torque = 2.0 * np.trapezoid(found.spread_pressure * arm / (7 * MM) * 9 * MM * arm, arm)
    verified(torque, 8.0, by="moment of both triangles", tolerance=1e-6)
    force = 8.0 / (14 * MM) / (9 * MM)
    half_width = math.sqrt(4.0 * force * 0.5 * MM / (math.pi * 115e9))
    want = 2.0 * force / (math.pi * half_width)
    verified(found.edge_pressure, want, by="Hertz by half width", tolerance=1e-12)
    verified(contact_modulus(210e9, 0.3, 210e9, 0.3), 210e9 / 1.82, by="two alike", tolerance=1e-12)


def test_flats_rock_until_their_corners_touch():
    across, length, clearance = 20 * MM, 14 * MM, 0.095 * MM
    angle = free_rock_angle(across, flat_length=length, clearance=clearance)
    corner = 0.5 * length * math.sin(angle) + 0.5 * across * math.cos(angle)
    verified(corner / MM, 0.5 * (across + clearance) / MM, by="corner of the turned tongue", tolerance=1e-12)
    verified(math.degrees(angle), 0.39, by="play over length, by hand", tolerance=absolute(0.005))
    assert free_rock_angle(across, flat_length=length, clearance=0.0) == 0.0
    with pytest.raises(OutOfDomainError, match="clearance"):
        free_rock_angle(across, flat_length=length, clearance=5 * MM)
    with pytest.raises(OutOfDomainError, match="corner_radius"):
        flat_stress(1.0, flat_length=0.01, engagement=0.01, corner_radius=0.0, contact_modulus=1e11)
