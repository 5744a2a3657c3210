"""Chains at temperature, compression, ring gaps and shims, each computed a second way."""

import math
from dataclasses import fields, replace

import pytest
from uncertainties import ufloat

from fitwright.physics.fits.compression import CombustionSpace, compression, ratio_standard_uncertainty
from fitwright.physics.fits.expansion import ChainMember, chain_at_temperature
from fitwright.physics.fits.ring_gap import cold_gap_for_hot_gap, ring_gap_at_temperature
from fitwright.physics.fits.shims import lash_shim, relief_pressure, relief_shim
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import absolute, verified

MM, CC = 1e-3, 1e-6
HOT = 383.15
SPACE = CombustionSpace(
    bore=83.5 * MM,
    stroke=84.0 * MM,
    chamber_volume=40.4 * CC,
    gasket_bore=84.5 * MM,
    gasket_thickness=1.1 * MM,
    piston_below_deck=0.2 * MM,
    dish_volume=9.6 * CC,
    crevice_volume=0.5 * CC,
)


def test_chain_with_shared_unknowns_agrees_with_an_uncertainty_library():
    members = [
        ChainMember(1.0, 60.5 * MM, 23e-6, HOT, 1e-6, material="case", temperature_group="case"),
        ChainMember(-2.0, 2.2325 * MM, 12e-6, HOT, 0.7e-6, temperature_group="case"),
        ChainMember(-1.0, 55.99 * MM, 11.5e-6, 373.15, 1.2e-6, 1.5e-6, 8.0),
    ]
    got = chain_at_temperature(members)
    case_alpha, shell_alpha, shaft_alpha = ufloat(23e-6, 1e-6), ufloat(12e-6, 1e-6), ufloat(11.5e-6, 1.5e-6)
    case_warm, shaft_warm = ufloat(90.0, 5.0), ufloat(80.0, 8.0)
    want = (
        ufloat(60.5 * MM, 1e-6) * (1 + case_alpha * case_warm)
        - 2.0 * ufloat(2.2325 * MM, 0.7e-6) * (1 + shell_alpha * case_warm)
        - ufloat(55.99 * MM, 1.2e-6) * (1 + shaft_alpha * shaft_warm)
    )
    by = "the uncertainties library"
    verified(
        [got.hot_size, got.standard_uncertainty], [want.nominal_value, want.std_dev], by=by, tolerance=1e-9
    )


def test_parts_that_warm_together_in_one_material_keep_their_difference():
    shared = {"material": "iron", "temperature_group": "block"}
    got = chain_at_temperature(
        [
            ChainMember(1.0, 60.0 * MM, 11e-6, HOT, **shared),
            ChainMember(-1.0, 59.9 * MM, 11e-6, HOT, **shared),
        ]
    )
    # Only the difference of 0.1 mm expands: 0.1 mm x sqrt((1e-6 x 90)^2 + (11e-6 x 5)^2).
    want = 0.1 * MM * math.hypot(90e-6, 55e-6)
    verified(got.thermal_standard_uncertainty, want, by="hand working", tolerance=1e-9)


def test_members_that_disagree_about_what_they_share_are_refused():
    pair = [
        ChainMember(1.0, MM, 1e-5, HOT, temperature_group="x"),
        ChainMember(-1.0, MM, 1e-5, temperature_group="x"),
    ]
    with pytest.raises(OutOfDomainError, match="stated alike"):
        chain_at_temperature(pair)
    with pytest.raises(OutOfDomainError, match="at least one size"):
        chain_at_temperature([])


def test_compression_by_hand():
    got = compression(SPACE)
    quarter = math.pi / 4.0
    clearance = 40.4 + quarter * 8.45**2 * 0.11 + quarter * 8.35**2 * 0.02 + 9.6 + 0.5
    swept = quarter * 8.35**2 * 8.4
    verified(
        [got.swept_volume / CC, got.clearance_volume / CC, got.compression_ratio, got.squish / MM],
        [swept, clearance, (swept + clearance) / clearance, 1.3],
        by="hand working in cubic centimetres",
        tolerance=1e-12,
    )
    verified(
        got.compression_ratio,
        8.96,
        by="the scenario's own arithmetic, two decimals",
        tolerance=absolute(0.005),
    )


@pytest.mark.parametrize("name", [field.name for field in fields(CombustionSpace)])
def test_derivatives_of_the_ratio_are_those_of_central_differences(name):
    base = replace(SPACE, dome_volume=2.0 * CC)
    step = 1e-5 * (getattr(base, name) or MM)
    high, low = (
        compression(replace(base, **{name: getattr(base, name) + sign * step})).compression_ratio
        for sign in (1.0, -1.0)
    )
    want = (high - low) / (2.0 * step)
    verified(compression(base).sensitivities[name], want, by="central difference", tolerance=1e-6)


def test_dome_takes_away_and_dish_adds_and_a_proud_piston_squeezes():
    plain = compression(SPACE).compression_ratio
    assert compression(replace(SPACE, dome_volume=1 * CC)).compression_ratio > plain
    assert compression(replace(SPACE, dish_volume=10.6 * CC)).compression_ratio < plain
    assert compression(replace(SPACE, piston_below_deck=-0.1 * MM)).compression_ratio > plain
    with pytest.raises(OutOfDomainError, match="dome_volume"):
        compression(replace(SPACE, dome_volume=-3 * CC))
    with pytest.raises(OutOfDomainError, match="clearance volume"):
        compression(replace(SPACE, dome_volume=80 * CC))
    with pytest.raises(OutOfDomainError, match="named after the fields"):
        ratio_standard_uncertainty(compression(SPACE), {"chamber": 1e-7})


def test_cold_gap_undoes_hot_gap():
    case = {
        "bore": 83.5 * MM,
        "ring_expansion": 11e-6,
        "bore_expansion": 11e-6,
        "ring_temperature": 473.15,
        "bore_temperature": 393.15,
    }
    cold = cold_gap_for_hot_gap(0.15 * MM, **case)
    verified(ring_gap_at_temperature(cold, **case), 0.15 * MM, by="the inverse relation", tolerance=1e-9)


def test_shims_by_hand():
    inlet = lash_shim(2.85 * MM, measured_lash=0.25 * MM, target_lash=0.20 * MM, step=0.05 * MM)
    exhaust = lash_shim(2.95 * MM, measured_lash=0.21 * MM, target_lash=0.30 * MM, step=0.05 * MM)
    verified(
        [inlet.nearest / MM, inlet.predicted_lash / MM, exhaust.nearest / MM, exhaust.predicted_lash / MM],
        [2.90, 0.20, 2.85, 0.31],
        by="hand working",
        tolerance=1e-9,
    )
    tie = lash_shim(2.80 * MM, measured_lash=0.225 * MM, target_lash=0.20 * MM, step=0.05 * MM)
    verified(tie.nearest / MM, 2.80, by="of two equally near the thinner", tolerance=1e-9)
    offset = lash_shim(
        2.80 * MM, measured_lash=0.20 * MM, target_lash=0.20 * MM, step=0.07 * MM, first_size=2.18 * MM
    )
    verified(offset.nearest / MM, 2.81, by="steps of 0.07 from 2.18", tolerance=1e-9)


def test_shims_that_nobody_makes_are_refused():
    with pytest.raises(OutOfDomainError, match="half a step"):
        lash_shim(2.0 * MM, measured_lash=0.10 * MM, target_lash=2.09 * MM, step=0.05 * MM)
    with pytest.raises(OutOfDomainError, match="seat_area"):
        relief_shim(0.35e5, spring_rate=8000.0, seat_area=-1e-4)


def test_relief_shim_moves_the_pressure_by_what_was_asked():
    rate, area = 8000.0, 113.1e-6
    shim = relief_shim(0.35e5, spring_rate=rate, seat_area=area)
    change = relief_pressure(rate, compression=7.07 * MM + shim, seat_area=area) - relief_pressure(
        rate, compression=7.07 * MM, seat_area=area
    )
    verified(change, 0.35e5, by="pressure with and without the shim", tolerance=1e-9)
