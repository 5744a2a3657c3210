"""Laws that passages keep whatever the sizes: odd, rising, smooth through rest."""

import math

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.physics.passages.edges import ENTRANCE_AUTHORS, entrance_loss_coefficient
from fitwright.physics.passages.gaps import annulus_leakage, slot_leakage
from fitwright.physics.passages.kernels.passages import orifice, pipe
from fitwright.physics.passages.pipes import pipe_flow

FEW = settings(max_examples=60, deadline=None)
drops = st.floats(1e-2, 2e7)
diameters = st.floats(0.5e-3, 0.04)
lengths = st.floats(1e-3, 2.0)
viscosities = st.floats(2e-3, 3.0)
losses = st.floats(0.0, 30.0)


@FEW
@given(drop=drops, diameter=diameters, length=lengths, viscosity=viscosities, loss=losses)
def test_a_pipe_is_odd_and_passes_more_at_more_pressure(drop, diameter, length, viscosity, loss):
    sizes = (diameter, length, 1e-5, loss, 850.0, viscosity)
    flow, slope = pipe(drop, *sizes)
    back, same = pipe(-drop, *sizes)
    assert (back, same) == (-flow, slope)
    assert slope > 0.0
    assert pipe(1.01 * drop, *sizes)[0] > flow


@FEW
@given(drop=drops, diameter=diameters, viscosity=viscosities, coefficient=st.floats(0.5, 1.0))
def test_an_orifice_is_odd_and_never_passes_more_than_either_limit(drop, diameter, viscosity, coefficient):
    flow, slope = orifice(drop, diameter, coefficient, 850.0, viscosity)
    assert orifice(-drop, diameter, coefficient, 850.0, viscosity) == (-flow, slope)
    jet = coefficient * 0.25 * math.pi * diameter**2 * math.sqrt(2.0 * drop / 850.0)
    creep = diameter**3 * drop / (24.0 * viscosity)
    assert 0.0 < flow <= min(jet, creep) * (1.0 + 1e-12)
    assert slope > 0.0


@FEW
@given(drop=drops, diameter=diameters, length=lengths, viscosity=viscosities, loss=losses)
def test_an_edge_or_a_longer_or_thicker_passage_never_passes_more(drop, diameter, length, viscosity, loss):
    sizes = {"diameter": diameter, "density": 850.0, "roughness": 0.0}
    least = pipe_flow(
        drop, length=2.0 * length, dynamic_viscosity=viscosity, loss_coefficient=loss + 0.5, **sizes
    )
    most = pipe_flow(drop, length=length, dynamic_viscosity=viscosity, loss_coefficient=loss, **sizes)
    assert least < most


@FEW
@given(drop=drops, gap=st.floats(1e-6, 3e-4), factor=st.floats(1.1, 4.0), eccentricity=st.floats(0.0, 1.0))
def test_leaks_follow_the_cube_of_the_gap(drop, gap, factor, eccentricity):
    slot = {"width": 0.05, "length": 0.01, "dynamic_viscosity": 0.01}
    one, other = slot_leakage(drop, gap=np.array([gap, factor * gap]), **slot)
    assert math.isclose(other, factor**3 * one, rel_tol=1e-12)
    ring = {"diameter": 0.02, "radial_clearance": gap, "length": 0.01, "dynamic_viscosity": 0.01}
    centred = annulus_leakage(drop, **ring)
    off = annulus_leakage(drop, eccentricity_ratio=eccentricity, **ring)
    assert centred <= off <= 2.5 * centred * (1.0 + 1e-12)


@FEW
@given(first=st.floats(0.0, 0.5), second=st.floats(0.0, 0.5))
def test_a_rounder_edge_never_loses_more(first, second):
    sharper, rounder = sorted((first, second))
    for author in ENTRANCE_AUTHORS:
        assert (
            entrance_loss_coefficient(rounder, author) <= entrance_loss_coefficient(sharper, author) + 1e-15
        )
