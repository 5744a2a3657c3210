"""Laws of pumps and relief valves, for any of them."""

import math

import numpy as np
from hypothesis import assume, given, reject
from hypothesis import strategies as st

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.pump.chambers import chamber_areas, instantaneous_flow, rotor_displacement
from fitwright.physics.pump.kernels.pump import filled_flow
from fitwright.physics.pump.override import relief_override
from fitwright.physics.pump.relief import Ports, ReliefValve, cracking_pressure, relief_flow
from fitwright.physics.pump.trochoid import RotorPair, is_undercut, tooth_root


@st.composite
def rotor_pairs(draw):
    """Pairs that are not undercut, of any size."""
    lobes = draw(st.integers(3, 12))
    eccentricity = draw(st.floats(0.5e-3, 5e-3))
    generating = (lobes + 1) * eccentricity * draw(st.floats(1.15, 2.2))
    tooth = generating * draw(st.floats(0.1, 0.45))
    assume(generating > 1.05 * (tooth + eccentricity))
    pair = RotorPair(lobes, eccentricity, generating, tooth, draw(st.floats(5e-3, 30e-3)))
    assume(not is_undercut(pair))
    try:
        tooth_root(pair)
    except OutOfDomainError:
        reject()
    return pair


@given(rotor_pairs())
def test_the_chambers_of_rotors_share_one_space(pair):
    sums = chamber_areas(pair, np.linspace(0.0, 2.0, 7)).sum(axis=1)
    assert np.ptp(sums) < 1e-6 * sums.mean()


@given(rotor_pairs(), st.floats(-3.0, 3.0))
def test_chambers_repeat_one_tooth_on(pair, angle):
    step = 2.0 * math.pi / pair.inner_lobes
    now, later = chamber_areas(pair, [angle, angle + step])
    assert np.allclose(np.roll(now, -1), later, rtol=1e-6, atol=1e-12)


@given(rotor_pairs())
def test_displacement_is_the_flow_of_a_turn(pair):
    found = rotor_displacement(pair)
    flow = instantaneous_flow(pair, np.linspace(0.0, 2.0 * math.pi, 4000, endpoint=False))
    assert abs(flow.mean() * 2.0 * math.pi / found.displacement - 1.0) < 1e-4
    assert flow.min() > 0.0
    estimate = math.pi * pair.width * (pair.inner_tip_radius**2 - pair.inner_root_radius**2)
    assert 0.8 * estimate < found.displacement < estimate
    assert 0.0 < found.flow_ripple < 0.6


@given(rotor_pairs(), st.floats(0.2, 5.0))
def test_displacement_grows_with_the_cube_of_size(pair, factor):
    larger = RotorPair(
        pair.inner_lobes,
        pair.eccentricity * factor,
        pair.generating_radius * factor,
        pair.tooth_radius * factor,
        pair.width * factor,
    )
    ratio = rotor_displacement(larger).displacement / rotor_displacement(pair).displacement
    assert abs(ratio / factor**3 - 1.0) < 1e-9


@st.composite
def valves(draw):
    """Relief valves of any kind."""
    diameter = draw(st.floats(6e-3, 25e-3))
    lift = draw(st.floats(2e-3, 12e-3))
    return ReliefValve(
        spring_rate=draw(st.floats(1e3, 3e4)),
        preload_length=draw(st.floats(1e-3, 20e-3)),
        seat_diameter=diameter,
        full_lift=lift,
        ports=draw(st.sampled_from(Ports)),
        port_count=draw(st.integers(1, 4)),
        port_diameter=draw(st.floats(2e-3, 8e-3)),
        port_lead=lift * draw(st.floats(0.0, 0.6)),
        plunger_diameter=diameter,
        plunger_radial_clearance=draw(st.floats(0.0, 60e-6)),
        plunger_eccentricity_ratio=draw(st.floats(0.0, 1.0)),
        seat_leak_lift=draw(st.floats(0.0, 50e-6)),
        flow_force_coefficient=draw(st.floats(0.0, 0.5)),
    )


OIL = {"density": 850.0, "dynamic_viscosity": 0.02}


@given(valves(), st.floats(0.0, 3.0))
def test_more_pressure_never_lets_less_past_a_relief_valve(valve, share):
    at = share * cracking_pressure(valve)
    drops = at + np.linspace(0.0, 1e4, 9)
    found = relief_flow(valve, drops, **OIL)
    assert (np.diff(found.flow) >= -1e-12).all()
    assert (found.by_pressure >= 0.0).all()
    assert (found.by_preload_length <= 0.0).all()
    assert (found.by_plunger_clearance >= 0.0).all()


@given(valves(), st.floats(0.9, 1.6))
def test_the_slope_of_a_relief_valve_is_that_of_its_flow_everywhere(valve, share):
    """Also where it cracks: the trapezoid of the slopes is the flow between, and the error shrinks."""
    at = share * cracking_pressure(valve)
    drops = np.linspace(at, at * 1.02, 2001)
    found = relief_flow(valve, drops, **OIL)
    rise = found.flow[-1] - found.flow[0]
    sums = np.sum(0.5 * (found.by_pressure[1:] + found.by_pressure[:-1]) * np.diff(drops))
    assert abs(sums - rise) <= 1e-3 * max(abs(rise), 1e-9)


@given(valves(), st.floats(1e-6, 1e-3))
def test_an_override_is_found_for_every_flow(valve, flow):
    found = relief_override(valve, flow, **OIL)
    assert found.residual < 1e-6
    assert 0.0 <= found.lift <= valve.full_lift


fillings = st.tuples(st.floats(-0.95e5, -0.2e5), st.floats(50e-6, 1e-3), st.floats(0.0, 5e-4))


@given(fillings, st.floats(-2e5, 3e5), st.floats(1e-6, 5e-3), st.floats(0.0, 1200.0))
def test_filling_never_exceeds_what_is_swept_and_rises_with_the_inlet(filling, pressure, swept, speed):
    rows = [filled_flow(pressure + step, swept, speed, 850.0, np.array(filling)) for step in (-1.0, 0.0, 1.0)]
    flows, slopes = zip(*rows, strict=True)
    assert 0.0 < flows[1] <= swept
    assert flows[0] <= flows[1] <= flows[2]
    difference = (flows[2] - flows[0]) / 2.0
    assert abs(difference - slopes[1]) <= 1e-5 * swept * 1e-3 + 1e-4 * slopes[1]
