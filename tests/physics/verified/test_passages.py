"""Passages against another library, exact solutions, differences, and the equations solved anew."""

import math

import fluids
import numpy as np
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.numerics.monotone import monotone_interpolation
from fitwright.physics.passages import pipes
from fitwright.physics.passages.edges import (
    ENTRANCE_AUTHORS,
    entrance_loss_coefficient,
    entrance_loss_range,
    mitre_loss_coefficient,
)
from fitwright.physics.passages.gaps import (
    annulus_leakage,
    end_leakage,
    gap_reynolds_number,
    slot_leakage,
)
from fitwright.physics.passages.kernels.passages import annulus, end_gap, orifice, pipe, pipe_drop, slot
from fitwright.physics.passages.orifices import orifice_flow
from fitwright.physics.passages.pipes import pipe_flow, pipe_friction_factor, pipe_pressure_drop
from tests.support.compare import absolute, verified
from tests.support.tables import columns

LIBRARY = "the library fluids 1.3.1"
OIL = {"density": 850.0, "dynamic_viscosity": 0.01}
# What the library carries is a smoothing spline of the coarser tables; ours goes through their rows.
SPLINES = {
    "crane": 0.023,
    "harris": 0.002,
    "idelchik": 0.004,
    "miller": 0.002,
    "rennels": 1e-12,
    "swamee": 1e-12,
}


@pytest.mark.parametrize("column,roughness", [("smooth", 0.0), ("eD_1e-3", 1e-3), ("eD_1e-2", 1e-2)])
def test_friction_factor_is_that_of_the_table(column, roughness):
    reynolds, expected = columns("passages/pipe_friction.csv", "Re", f"f_darcy_{column}")
    verified(pipe_friction_factor(reynolds, roughness), expected, by=f"{LIBRARY}, table", tolerance=1e-5)


@pytest.mark.parametrize("roughness", [0.0, 1e-5, 1e-3, 2e-2])
def test_friction_factor_solves_colebrooks_equation(roughness):
    reynolds = np.geomspace(2500.0, 1e7, 60)
    expected = [fluids.friction_factor(Re=re, eD=roughness, Method="Clamond") for re in reynolds]
    verified(pipe_friction_factor(reynolds, roughness), expected, by=LIBRARY, tolerance=1e-12)


def test_friction_and_its_drop_are_smooth_over_the_transition():
    flows = np.linspace(1900.0, 2600.0, 7001) * 0.01 / 850.0 * 0.25 * math.pi * 0.008
    drop, slope = np.array([pipe_drop(q, 0.008, 0.3, 1e-6, 0.5, 850.0, 0.01) for q in flows]).T
    assert (slope > 0.0).all()
    step = flows[1] - flows[0]
    verified(slope[1:-1], (drop[2:] - drop[:-2]) / (2.0 * step), by="central differences", tolerance=2e-3)


def test_pressure_drop_of_pipe_and_fittings():
    flow, diameter, length = 30 / 6e4, 0.008, 0.4
    speed = flow / (0.25 * math.pi * diameter**2)
    factor = fluids.friction_factor(Re=850.0 * speed * diameter / 0.01, eD=1e-5 / diameter)
    expected = 0.5 * 850.0 * speed**2 * (factor * length / diameter + 1.7)
    found = pipe_pressure_drop(
        flow, diameter=diameter, length=length, roughness=1e-5, loss_coefficient=1.7, **OIL
    )
    verified(found, expected, by=f"{LIBRARY} and Darcy's equation", tolerance=1e-5)


def test_laminar_pipe_is_that_of_hagen_and_poiseuille():
    flow = pipe_flow(1e4, diameter=0.004, length=0.5, density=870.0, dynamic_viscosity=0.2)
    verified(
        flow, math.pi * 0.004**4 * 1e4 / (128 * 0.2 * 0.5), by="integral over the section", tolerance=1e-14
    )


def test_flow_and_drop_undo_each_other():
    rng = np.random.default_rng(12)
    n = 3000
    sizes = {
        "diameter": 10 ** rng.uniform(-3.3, -1.3, n),
        "length": 10 ** rng.uniform(-3, 1, n),
        "roughness": rng.choice([0.0, 1e-5], n),
        "loss_coefficient": rng.choice([0.0, 0.5, 20.0], n),
        "density": 850.0,
        "dynamic_viscosity": 10 ** rng.uniform(-3, 0.5, n),
    }
    drop = 10 ** rng.uniform(-3, 7.5, n) * rng.choice([-1.0, 1.0], n)
    verified(pipe_pressure_drop(pipe_flow(drop, **sizes), **sizes), drop, by="the inverse", tolerance=1e-14)


def test_a_pipe_whose_flow_was_not_found_says_so(monkeypatch):
    from fitwright.physics.passages.kernels import pipe as kernel

    monkeypatch.setattr(kernel, "_MOST_STEPS", 2)
    interpreted = {"pipe_drop": pipe_drop.py_func, "friction": kernel.friction.py_func}
    for name, function in interpreted.items():
        monkeypatch.setattr(kernel, name, function)
    flow, slope = pipe.py_func(4e5, 0.008, 0.3, 1e-5, 1.5, 850.0, 0.01)
    assert math.isnan(flow)
    assert math.isnan(slope)
    monkeypatch.setattr(pipes, "_each", lambda batch, *arguments: np.array([flow]))
    with pytest.raises(NotConvergedError):
        pipe_flow(4e5, diameter=0.008, length=0.3, **OIL)


def test_flat_slot_integrates_the_speed_across_it():
    gap, width, length, drop, wall = 60e-6, 0.05, 0.008, 3e5, 4.0

    def speed(y):
        return drop / (2 * 0.01 * length) * y * (gap - y) + wall * y / gap

    expected = width * quad(speed, 0.0, gap)[0]
    found = slot_leakage(drop, gap=gap, width=width, length=length, dynamic_viscosity=0.01, wall_speed=wall)
    verified(found, expected, by="speed integrated over the gap", tolerance=1e-12)
    closed = slot_leakage(drop, gap=0.0, width=width, length=length, dynamic_viscosity=0.01)
    assert closed == 0.0


def test_end_leakage_is_a_row_of_slots_that_widen():
    gap, outer, inner, drop = 50e-6, 0.07, 0.05, 4e5
    resistance = quad(lambda r: 12 * 0.012 / (2 * math.pi * r * gap**3), inner / 2, outer / 2)[0]
    sizes = {"gap": gap, "outer_diameter": outer, "inner_diameter": inner, "dynamic_viscosity": 0.012}
    verified(end_leakage(drop, **sizes), drop / resistance, by="slots in series", tolerance=1e-12)
    half = end_leakage(drop, share_of_turn=0.5, **sizes)
    verified(half, 0.5 * drop / resistance, by="half of the turn", tolerance=1e-12)


@pytest.mark.parametrize("eccentricity", [0.0, 0.5, 1.0])
def test_annulus_is_a_ring_of_slots(eccentricity):
    d, c, length, drop = 0.016, 30e-6, 0.012, 4e5
    ring = quad(lambda t: (c * (1 + eccentricity * math.cos(t))) ** 3, 0.0, 2 * math.pi)[0]
    found = annulus_leakage(
        drop,
        diameter=d,
        radial_clearance=c,
        length=length,
        dynamic_viscosity=0.01,
        eccentricity_ratio=eccentricity,
    )
    expected = 0.5 * d * ring * drop / (12 * 0.01 * length)
    verified(found, expected, by="slots integrated around the ring", tolerance=1e-12)


def test_a_thin_annulus_is_the_exact_one():
    d, c, length, drop = 0.016, 50e-6, 0.012, 4e5
    outer, inner = d / 2 + c / 2, d / 2 - c / 2
    squares = outer**2 - inner**2
    exact = math.pi / (8 * 0.01 * length) * (outer**4 - inner**4 - squares**2 / math.log(outer / inner))
    found = annulus_leakage(drop, diameter=d, radial_clearance=c, length=length, dynamic_viscosity=0.01)
    verified(found, exact * drop, by="flow between two tubes, exact", tolerance=1e-5)


def test_an_orifice_creeps_like_a_hole_in_a_thin_wall():
    flow = orifice_flow(1e-6, diameter=0.001, **OIL)
    verified(flow, 0.001**3 * 1e-6 / (24 * 0.01), by="Sampson's exact solution", tolerance=1e-12)


def test_an_orifice_jets_at_high_drops():
    area = 0.25 * math.pi * 0.0015**2
    flow = orifice_flow(4e5, diameter=0.0015, discharge_coefficient=0.62, **OIL)
    verified(flow, 0.62 * area * math.sqrt(8e5 / 850.0), by="orifice equation", tolerance=2e-3)


@pytest.mark.parametrize("drop", [-4e5, -1.0, 0.0, 1e-3, 30.0, 2e3, 1e6])
@pytest.mark.parametrize(
    "law,sizes",
    [
        (orifice, (0.0015, 0.62, 850.0, 0.01)),
        (pipe, (0.008, 0.3, 1e-5, 0.5, 850.0, 0.01)),
        (pipe, (0.008, 0.0, 0.0, 0.5, 850.0, 0.01)),
        (slot, (50e-6, 0.08, 0.01, 0.01, 0.0)),
        (annulus, (0.016, 30e-6, 0.7, 0.012, 0.01)),
        (end_gap, (40e-6, 0.06, 0.044, 0.01)),
    ],
)
def test_kernels_give_their_own_slope(law, sizes, drop):
    step = 1e-5 * max(abs(drop), 1e-3)
    difference = (law(drop + step, *sizes)[0] - law(drop - step, *sizes)[0]) / (2 * step)
    verified(law(drop, *sizes)[1], difference, by="central differences", tolerance=2e-6)


@pytest.mark.parametrize("author", ENTRANCE_AUTHORS)
def test_inlet_edges_of_each_author(author):
    ratio = np.linspace(0.0, 0.3, 61)
    expected = [fluids.entrance_rounded(1.0, r, method=author.title()) for r in ratio]
    found = entrance_loss_coefficient(ratio, author)
    verified(found, expected, by=LIBRARY, tolerance=absolute(SPLINES.get(author, 1e-12)))


@pytest.mark.parametrize("author", ENTRANCE_AUTHORS)
def test_inlet_edges_of_the_table(author):
    ratio, expected = columns("passages/minor_loss_rounded_entrance.csv", "r_over_D", f"K_{author.title()}")
    # Between rows of the coarser tables the library draws a straight line or a smoothing spline.
    tolerance = absolute(max(SPLINES.get(author, 0.0), 1e-5))
    verified(entrance_loss_coefficient(ratio, author), expected, by=f"{LIBRARY}, table", tolerance=tolerance)


def test_the_range_over_authors_holds_each_of_them():
    ratio = np.linspace(0.0, 0.4, 41)
    least, most = entrance_loss_range(ratio)
    each = np.array([entrance_loss_coefficient(ratio, author) for author in ENTRANCE_AUTHORS])
    verified(least, each.min(axis=0), by="the authors one by one", tolerance=absolute(0.0))
    assert (most == entrance_loss_coefficient(ratio)).all(), "the default is the largest"


@pytest.mark.parametrize("author", ["rennels", "blevins"])
def test_mitre_bends(author):
    degrees, expected = columns("passages/minor_loss_miter.csv", "angle_deg", f"K_{author.title()}")
    found = mitre_loss_coefficient(np.radians(degrees), author, reynolds_number=1e5)
    verified(found, expected, by=f"{LIBRARY}, table", tolerance=absolute(6e-5))


def test_the_gap_reynolds_number_is_mean_speed_times_gap():
    gap, width, flow = 70e-6, 0.05, 2e-5
    expected = 850.0 * (flow / (gap * width)) * gap / 0.01
    found = gap_reynolds_number(-flow, width=width, density=850.0, dynamic_viscosity=0.01)
    verified(found, expected, by="speed from flow and section", tolerance=1e-14)


def test_a_monotone_table_is_read_without_overshoot():
    nodes, values = [0.0, 1.0, 1.5, 4.0], [1.0, 0.5, 0.5, 0.0]
    points = np.linspace(-1.0, 5.0, 601)
    read = monotone_interpolation(points, nodes, values)
    assert (np.diff(read) <= 1e-15).all()
    verified(monotone_interpolation(nodes, nodes, values), values, by="the table", tolerance=absolute(0.0))
    line = monotone_interpolation([0.2, 2.2], [0.0, 1.0, 3.0], [0.0, 2.0, 6.0])
    verified(line, [0.4, 4.4], by="a straight line", tolerance=1e-14)


def test_flow_solves_the_equation_that_another_solver_solves():
    def off(q):
        return pipe_drop(q, 0.006, 0.25, 2e-5, 2.5, 840.0, 0.008)[0] - 2.5e5

    expected = brentq(off, 1e-9, 1e-2, xtol=1e-18, rtol=1e-14)
    found = pipe(2.5e5, 0.006, 0.25, 2e-5, 2.5, 840.0, 0.008)[0]
    verified(found, expected, by="Brent's method", tolerance=1e-12)


@pytest.mark.parametrize(
    "call",
    [
        lambda: slot_leakage(1e5, gap=-1e-6, width=0.1, length=0.01, dynamic_viscosity=0.01),
        lambda: slot_leakage(1e5, gap=1e-6, width=0.1, length=0.0, dynamic_viscosity=0.01),
        lambda: slot_leakage(1e5, gap=math.nan, width=0.1, length=0.01, dynamic_viscosity=0.01),
        lambda: end_leakage(1e5, gap=1e-5, outer_diameter=0.04, inner_diameter=0.05, dynamic_viscosity=0.01),
        lambda: annulus_leakage(
            1e5,
            diameter=0.01,
            radial_clearance=1e-5,
            length=0.01,
            dynamic_viscosity=0.01,
            eccentricity_ratio=1.1,
        ),
        lambda: orifice_flow(1e5, diameter=0.001, density=0.0, dynamic_viscosity=0.01),
        lambda: pipe_friction_factor(0.0),
        lambda: pipe_flow(1e5, diameter=0.01, length=0.0, **OIL),
        lambda: entrance_loss_coefficient(0.1, "nobody"),
        lambda: entrance_loss_coefficient(-0.1),
        lambda: mitre_loss_coefficient(3.0),
        lambda: mitre_loss_coefficient(1.0, "nobody"),
        lambda: mitre_loss_coefficient(2.5, "blevins"),
        lambda: monotone_interpolation(0.5, [0.0, 1.0, 1.0], [0.0, 1.0, 2.0]),
    ],
)
def test_what_means_nothing_is_refused(call):
    with pytest.raises(OutOfDomainError):
        call()
