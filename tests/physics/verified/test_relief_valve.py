"""Relief valves: lift, area, flow and derivatives, each worked a second way."""

import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.pump.kernels.relief import port_area
from fitwright.physics.pump.override import (
    AT_ITS_STOP,
    coil_bind_margin,
    relief_override,
    with_shims,
)
from fitwright.physics.pump.relief import (
    SPOOL_FLOW_FORCE,
    Ports,
    ReliefValve,
    cracking_pressure,
    full_bypass_pressure,
    relief_flow,
    relief_parameters,
)
from tests.support.compare import absolute, verified

MM, BAR, LPM = 1e-3, 1e5, 1e-3 / 60.0
OIL = {"density": 850.0, "dynamic_viscosity": 0.015}
PLUNGER = ReliefValve(
    spring_rate=8.0e3,
    preload_length=6.0 * MM,
    seat_diameter=14.0 * MM,
    full_lift=8.0 * MM,
    ports=Ports.ROUND,
    port_count=2,
    port_diameter=5.0 * MM,
    port_lead=2.0 * MM,
    plunger_diameter=14.0 * MM,
    plunger_radial_clearance=0.02 * MM,
    land_length=10.0 * MM,
    flow_force_coefficient=SPOOL_FLOW_FORCE,
)
POPPET = ReliefValve(8.0e3, 7.0 * MM, seat_diameter=12.0 * MM, full_lift=5.0 * MM)


def area_by_strips(valve, opening):
    """Open area of round ports, strip by strip."""
    d = valve.port_diameter
    return (
        valve.port_count
        * quad(lambda y: 2.0 * math.sqrt(max(y * (d - y), 0.0)), 0.0, min(opening, d), epsabs=1e-15)[0]
    )


@pytest.mark.parametrize("opening", [0.01, 0.5, 2.5, 4.2, 4.999, 5.0, 6.0])
def test_area_of_round_ports(opening):
    got = port_area(opening * MM, relief_parameters(PLUNGER))[0]
    want = area_by_strips(PLUNGER, opening * MM)
    verified(got / MM**2, want / MM**2, by="strips across the ports", tolerance=1e-7)


@pytest.mark.parametrize("pressure", [4.3, 5.0, 6.0, 7.5, 9.0])
def test_lift_and_flow_are_those_of_a_balance_solved_by_bisection(pressure):
    drop, push = pressure * BAR, math.pi / 4.0 * (14.0 * MM) ** 2

    def balance(lift):
        jet = SPOOL_FLOW_FORCE * drop * area_by_strips(PLUNGER, max(lift - 2.0 * MM, 0.0))
        return 8.0e3 * (6.0 * MM + lift) + jet - drop * push

    lift = min(brentq(balance, 0.0, 60.0 * MM, xtol=1e-14), 8.0 * MM)
    found = relief_flow(PLUNGER, drop, **OIL)
    verified(found.lift / MM, lift / MM, by="bisection, without rounding of the stop", tolerance=1e-6)
    area = area_by_strips(PLUNGER, lift - 2.0 * MM)
    laminar = (0.611 / 0.2) ** 2 * 0.015 / 850.0 * 2.0 * math.pi * 5.0 * MM / 4.0

    def missing(flow):
        return 0.5 * 850.0 * (flow**2 + flow * laminar) / (0.65 * area) ** 2 - drop

    ports = brentq(missing, 0.0, 1.0, xtol=1e-18, rtol=1e-14)
    leak = math.pi * 14.0 * MM * (0.02 * MM) ** 3 * drop / (12.0 * 0.015 * 10.0 * MM)
    verified(found.flow / LPM, (ports + leak) / LPM, by="bisection, without rounding", tolerance=2e-4)


@pytest.mark.parametrize("valve", [PLUNGER, POPPET], ids=["plunger", "poppet"])
def test_derivatives_are_those_of_differences(valve):
    drops = np.linspace(-1.0, 14.0, 61) * BAR + 137.0
    found = relief_flow(valve, drops, **OIL)
    step = 2.0
    ahead, behind = (relief_flow(valve, drops + way * step, **OIL).flow for way in (1.0, -1.0))
    want = (ahead - behind) / (2.0 * step)
    scale = np.abs(want).max()
    verified(found.by_pressure / scale, want / scale, by="central differences", tolerance=absolute(2e-6))
    for name, at in (("preload_length", 1e-8), ("plunger_radial_clearance", 1e-9)):
        low, high = (relief_flow(changed(valve, name, way * at), drops, **OIL).flow for way in (-1.0, 1.0))
        want = (high - low) / (2.0 * at)
        got = found.by_preload_length if name == "preload_length" else found.by_plunger_clearance
        scale = max(np.abs(want).max(), 1e-12)
        verified(got / scale, want / scale, by=f"central differences in {name}", tolerance=absolute(1e-5))


def changed(valve, name, by):
    values = {each: getattr(valve, each) for each in valve.__slots__}
    start = max(values[name], 1e-8)
    return ReliefValve(**{**values, name: start + by if values[name] else max(by, 0.0)})


def test_cracking_and_full_bypass_by_hand():
    push = math.pi / 4.0 * 14.0**2 * MM**2
    verified(cracking_pressure(PLUNGER) / BAR, 8.0e3 * 8.0 * MM / push / BAR, by="hand", tolerance=1e-12)
    no_jet = changed(PLUNGER, "flow_force_coefficient", -SPOOL_FLOW_FORCE)
    verified(full_bypass_pressure(no_jet) / BAR, 8.0e3 * 14 * MM / push / BAR, by="hand", tolerance=1e-12)
    opened = 2.0 * math.pi / 4.0 * 25.0 * MM**2
    want = 8.0e3 * 14.0 * MM / (push - SPOOL_FLOW_FORCE * opened)
    verified(full_bypass_pressure(PLUNGER) / BAR, want / BAR, by="hand, with the jet", tolerance=1e-12)
    assert full_bypass_pressure(changed(PLUNGER, "flow_force_coefficient", 5.0)) == math.inf


def test_a_seat_held_open_leaks_like_a_slot():
    """Thin, the slot law; wide, the dynamic pressure is what limits it."""
    for lift, law in ((0.005 * MM, "slot"), (0.5 * MM, "jet")):
        found = relief_flow(changed(POPPET, "seat_leak_lift", lift), 3.0 * BAR, **OIL)
        width = math.pi * 12.0 * MM
        slot = width * lift**3 * 3.0 * BAR / (12.0 * 0.015 * 0.5 * MM)
        jet = width * lift * math.sqrt(2.0 * 3.0 * BAR / 850.0)
        want, tolerance = (slot, 0.01) if law == "slot" else (jet, 0.05)
        verified(found.flow / LPM, want / LPM, by=f"{law} law alone", tolerance=tolerance)
        assert found.lift == 0.0


def test_a_shim_moves_the_whole_curve():
    shimmed = with_shims(POPPET, 0.5 * MM)
    rise = 8.0e3 * 0.5 * MM / (math.pi / 4.0 * (12.0 * MM) ** 2)
    got = cracking_pressure(shimmed) - cracking_pressure(POPPET)
    verified(got, rise, by="k t / A by hand", tolerance=1e-9)
    at = [relief_override(valve, 40 * LPM, **OIL).pressure for valve in (POPPET, shimmed)]
    assert 0.8 * rise < at[1] - at[0] < rise
    back = with_shims(shimmed, -0.5 * MM).preload_length
    verified(back / MM, POPPET.preload_length / MM, by="put in and taken out", tolerance=1e-12)


@pytest.mark.parametrize("valve", [PLUNGER, POPPET], ids=["plunger", "poppet"])
@pytest.mark.parametrize("flow", [0.001, 1.0, 40.0, 120.0])
def test_the_override_passes_the_flow(valve, flow):
    found = relief_override(valve, flow * LPM, **OIL)
    got = relief_flow(valve, found.pressure, **OIL).flow
    verified(got / LPM, flow, by="the flow asked for", tolerance=1e-9)
    assert found.residual < 1e-9
    assert found.override == found.pressure - found.cracking_pressure


def test_a_plunger_at_its_stop_is_cautioned():
    found = relief_override(PLUNGER, 200.0 * LPM, **OIL)
    assert found.cautions == (AT_ITS_STOP,)
    assert found.pressure > found.full_bypass_pressure


def test_a_search_cut_short_says_so():
    with pytest.raises(NotConvergedError, match="relief flow"):
        relief_override(PLUNGER, 40.0 * LPM, **OIL, most_iterations=2)
    with pytest.raises(OutOfDomainError, match="greater than zero"):
        relief_override(PLUNGER, 0.0, **OIL)


def test_coil_bind_by_hand():
    got = coil_bind_margin(40 * MM, coil_bind_length=26 * MM, preload_length=8 * MM, full_lift=6 * MM)
    verified(got / MM, -1.0, by="40 - 26 - 8 - 6 - 1", tolerance=1e-9)
    with pytest.raises(OutOfDomainError, match="above the bound length"):
        coil_bind_margin(20 * MM, coil_bind_length=26 * MM, preload_length=0.0, full_lift=6 * MM)


@pytest.mark.parametrize(
    "name,value,words",
    [
        ("spring_rate", 0.0, "greater than zero"),
        ("port_lead", 9.0 * MM, "below the full lift"),
        ("plunger_eccentricity_ratio", 1.5, "from 0 to 1"),
        ("port_diameter", 0.0, "ports with a diameter"),
        ("plunger_radial_clearance", -1e-6, "zero or more"),
    ],
)
def test_valves_that_mean_nothing_are_refused(name, value, words):
    values = {each: getattr(PLUNGER, each) for each in PLUNGER.__slots__}
    with pytest.raises(OutOfDomainError, match=words):
        relief_parameters(ReliefValve(**{**values, name: value}))
