"""Laws of pumps and relief valves, for any of them."""

import math

import numpy as np
from hypothesis import assume, given, reject
from hypothesis import strategies as st

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.pump.chambers import chamber_areas, instantaneous_flow, rotor_displacement
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
