"""Press fits against a numerical solution of the axisymmetric equations of elasticity."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_bvp

from fitwright.physics.fits.expansion import ChainMember, chain_at_temperature
from fitwright.physics.fits.grip import (
    interference_at_temperature,
    warming_to_assemble,
    warming_to_lose_grip,
)
from fitwright.physics.fits.interference import (
    ElasticMaterial,
    holding_force,
    interference_after_pressing,
    press_fit,
)
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import verified

IRON = ElasticMaterial(110e9, 0.26, 11e-6)
STEEL = ElasticMaterial(206e9, 0.29, 11.5e-6)
ALUMINIUM = ElasticMaterial(72e9, 0.33, 21e-6)
INTERFERENCE = 0.03e-3
BY = "boundary value problem of plane stress, solved by collocation"


def solved(sizes, hub, shaft, interference=INTERFERENCE):
    """Solve y = (u, sigma of shaft, u, sigma of hub) over 0..1 of each wall; solid: from a quarter."""
    inner, interface, outer = sizes
    c, b = interface / 2.0, outer / 2.0
    a = inner / 2.0 if inner else c / 4.0

    def slopes(radius, wall, material, u, sigma):
        e, nu = material.elastic_modulus, material.poisson_ratio
        # Plane stress: hoop = E u / r + nu sigma; equilibrium d(sigma)/dr = (hoop - sigma) / r.
        hoop = e * u / radius + nu * sigma
        return wall * (sigma - nu * hoop) / e, wall * (hoop - sigma) / radius

    scale = 1e8  # stress in units of 100 MPa and displacement in micrometres keep the system well scaled

    def equations(s, y):
        shaft_u, shaft_s = slopes(a + s * (c - a), c - a, shaft, y[0] * 1e-6, y[1] * scale)
        hub_u, hub_s = slopes(c + s * (b - c), b - c, hub, y[2] * 1e-6, y[3] * scale)
        return np.vstack([shaft_u * 1e6, shaft_s / scale, hub_u * 1e6, hub_s / scale])

    def ends(start, end):
        jump = start[2] - end[0] - interference / 2.0 * 1e6
        # Inside a solid shaft hoop and radial stress are alike; at a bore there is no radial stress.
        core = start[1] * (1.0 - shaft.poisson_ratio) - shaft.elastic_modulus * start[0] * 1e-6 / a / scale
        return np.array([start[1] if inner else core, end[1] - start[3], jump, end[3]])

    found = solve_bvp(equations, ends, np.linspace(0.0, 1.0, 41), np.zeros((4, 41)), tol=1e-9)
    assert found.success, found.message
    u_s, sigma_s, u_h, sigma_h = found.sol(np.array([0.0, 1.0]))
    pressure = -sigma_h[0] * scale
    hub_hoop = hub.elastic_modulus * u_h[0] * 1e-6 / c + hub.poisson_ratio * sigma_h[0] * scale
    shaft_hoop = shaft.elastic_modulus * u_s[0] * 1e-6 / a + shaft.poisson_ratio * sigma_s[0] * scale
    return pressure, hub_hoop, shaft_hoop


@pytest.mark.parametrize(
    "sizes,hub,shaft",
    [
        ((10e-3, 32e-3, 60e-3), IRON, STEEL),
        ((20e-3, 35e-3, 41e-3), ALUMINIUM, STEEL),
        ((5e-3, 12e-3, 30e-3), ALUMINIUM, IRON),
        ((0.0, 32e-3, 60e-3), IRON, STEEL),
        ((0.0, 12e-3, 14e-3), ALUMINIUM, STEEL),
    ],
)
def test_pressure_and_hoop_stresses(sizes, hub, shaft):
    inner, interface, outer = sizes
    fit = press_fit(
        INTERFERENCE,
        interface_diameter=interface,
        hub_outer_diameter=outer,
        hub=hub,
        shaft=shaft,
        shaft_bore=inner,
    )
    want = solved(sizes, hub, shaft)
    verified([fit.contact_pressure, fit.hub_hoop_stress, fit.shaft_hoop_stress], want, by=BY, tolerance=1e-6)


def test_equivalent_stresses_from_the_stress_tensor():
    fit = press_fit(0.03e-3, interface_diameter=32e-3, hub_outer_diameter=60e-3, hub=IRON, shaft=STEEL)
    tensor = np.diag([fit.hub_hoop_stress, -fit.contact_pressure, 0.0])
    deviator = tensor - np.eye(3) * np.trace(tensor) / 3.0
    principal = np.linalg.eigvalsh(tensor)
    verified(
        [fit.hub_equivalent_stress, fit.hub_shear_equivalent_stress],
        [math.sqrt(1.5 * np.sum(deviator**2)), principal[-1] - principal[0]],
        by="deviator and principal stresses of the tensor",
        tolerance=1e-12,
    )


def test_temperature_agrees_with_the_chain_of_sizes():
    hot = interference_at_temperature(
        0.10e-3,
        interface_diameter=35e-3,
        hub_expansion=23e-6,
        shaft_expansion=12e-6,
        hub_temperature=[293.15, 443.15],
        shaft_temperature=[293.15, 493.15],
    )
    chain = chain_at_temperature(
        [ChainMember(1.0, 35.1e-3, 12e-6, 493.15), ChainMember(-1.0, 35.0e-3, 23e-6, 443.15)]
    )
    # The chain lets the insert's own 0.1 mm grow as well: 0.24 micrometre.
    verified(hot, [0.10e-3, chain.hot_size], by="chain of sizes at temperature", tolerance=0.005)


def test_grip_is_gone_at_the_temperature_that_is_stated():
    warming = warming_to_lose_grip(
        0.10e-3, interface_diameter=35e-3, hub_expansion=23e-6, shaft_expansion=12e-6
    )
    left = interference_at_temperature(
        0.10e-3,
        interface_diameter=35e-3,
        hub_expansion=23e-6,
        shaft_expansion=12e-6,
        hub_temperature=293.15 + warming,
        shaft_temperature=293.15 + warming,
    )
    assert abs(float(left)) < 1e-15
    fit = press_fit(
        float(left) - 1e-6, interface_diameter=35e-3, hub_outer_diameter=41e-3, hub=ALUMINIUM, shaft=STEEL
    )
    assert not fit.grips
    assert fit.contact_pressure == 0.0
    never = warming_to_lose_grip(1e-4, interface_diameter=35e-3, hub_expansion=11e-6, shaft_expansion=12e-6)
    assert never is None


def test_warmed_hub_and_cooled_shaft_leave_the_clearance_asked_for():
    warming = warming_to_assemble(
        0.05e-3,
        clearance=0.02e-3,
        interface_diameter=32e-3,
        hub_expansion=11e-6,
        shaft_expansion=11.5e-6,
        shaft_cooling=60.0,
    )
    bore = 32e-3 * (1.0 + 11e-6 * warming)
    shaft = 32e-3 * (1.0 - 11.5e-6 * 60.0) + 0.05e-3
    verified(bore - shaft, 0.02e-3, by="sizes of both parts at their temperatures", tolerance=1e-9)


def test_friction_that_pushes_and_roughness_that_is_no_number_are_refused():
    with pytest.raises(OutOfDomainError, match="friction_coefficient"):
        holding_force(40e6, interface_diameter=40e-3, length=30e-3, friction_coefficient=-0.1)
    with pytest.raises(OutOfDomainError, match="roughness"):
        interference_after_pressing(30e-6, hub_roughness=math.nan, shaft_roughness=2e-6)


@pytest.mark.parametrize("factor", [1e-6, 1e-9])
def test_thin_walls_and_a_hub_without_end_reach_their_limits(factor):
    d, e = 30e-3, STEEL.elastic_modulus
    ring = press_fit(
        1e-5, interface_diameter=d, hub_outer_diameter=d * (1.0 + factor), hub=STEEL, shaft=STEEL
    )
    tube = press_fit(
        1e-5,
        interface_diameter=d,
        hub_outer_diameter=2.0 * d,
        hub=STEEL,
        shaft=STEEL,
        shaft_bore=d * (1.0 - factor),
    )
    block = press_fit(1e-5, interface_diameter=d, hub_outer_diameter=d / factor, hub=STEEL, shaft=STEEL)
    verified(
        [ring.hub_hoop_stress, -tube.shaft_hoop_stress, 2.0 * block.contact_pressure],
        [e * 1e-5 / d] * 3,
        by="hand: a thin wall takes the whole strain; an endless hub of one material half of it as pressure",
        tolerance=4.0 * factor,
    )


@pytest.mark.parametrize("sizes", [(0.0, 40e-3, 40e-3), (40e-3, 40e-3, 60e-3), (-1e-3, 30e-3, 60e-3)])
def test_diameters_that_do_not_nest_are_refused(sizes):
    inner, interface, outer = sizes
    with pytest.raises(OutOfDomainError, match="between the shaft's bore"):
        press_fit(
            1e-5,
            interface_diameter=interface,
            hub_outer_diameter=outer,
            hub=IRON,
            shaft=STEEL,
            shaft_bore=inner,
        )
