"""Laws that fits keep whatever the sizes: symmetry, units, closure, monotony."""

import math
from dataclasses import fields, replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from fitwright.physics.fits.blade_polygon import GapBounds, offset_polygon
from fitwright.physics.fits.centring import Vector, centre_from_gaps, gap_design
from fitwright.physics.fits.closure import closure_of_gaps
from fitwright.physics.fits.compression import CombustionSpace, compression
from fitwright.physics.fits.expansion import ChainMember, chain_at_temperature
from fitwright.physics.fits.interference import ElasticMaterial, press_fit
from fitwright.physics.fits.offset_probability import probability_within_radius
from fitwright.physics.fits.shims import lash_shim
from fitwright.physics.metrology.gauge_study import study_by_ranges, study_by_variance

FEW = settings(max_examples=40, deadline=None)
FEWER = settings(max_examples=12, deadline=None)

small = st.floats(-0.1e-3, 0.1e-3)
turns = st.floats(0.0, 2.0 * math.pi)
deviations = st.floats(0.5e-6, 20e-6)
stations = st.lists(st.integers(0, 23), min_size=3, max_size=9, unique=True).filter(
    lambda hours: max(np.diff([*sorted(hours), min(hours) + 24])) < 11
)


def angles(hours):
    return np.radians(15.0 * np.array(hours))


@FEW
@given(hours=stations, right=small, up=small, turn=turns)
def test_turning_the_engine_turns_the_offset(hours, right, up, turn):
    theta = angles(hours)
    gaps = gap_design(theta, 0.0)[:, :3] @ np.array([0.2e-3, right, up])
    covariance = np.eye(len(hours)) * 25e-12
    plain = centre_from_gaps(gaps, station_angles=theta, shaft_angles=0.0, covariance=covariance)
    turned = centre_from_gaps(gaps, station_angles=theta + turn, shaft_angles=0.0, covariance=covariance)
    want = plain.offset.turned(turn)
    assert math.isclose(turned.offset.right, want.right, abs_tol=1e-12)
    assert math.isclose(turned.offset.up, want.up, abs_tol=1e-12)
    assert np.isclose(
        np.linalg.eigvalsh(turned.offset_covariance), np.linalg.eigvalsh(plain.offset_covariance), rtol=1e-6
    ).all()


@FEW
@given(right=small, up=small, run_right=small, run_up=small, start=turns)
def test_where_angles_are_counted_from_is_of_no_account_to_magnitudes(right, up, run_right, run_up, start):
    theta = np.tile(angles([0, 6, 12, 18]), 3)
    phi = np.repeat(angles([0, 8, 16]), 4)
    gaps = gap_design(theta, phi) @ np.array([0.2e-3, right, up, run_right, run_up])
    covariance = np.eye(12) * 25e-12
    plain = centre_from_gaps(gaps, station_angles=theta, shaft_angles=phi, covariance=covariance)
    shifted = centre_from_gaps(gaps, station_angles=theta, shaft_angles=phi + start, covariance=covariance)
    assert math.isclose(plain.run_out.magnitude, shifted.run_out.magnitude, abs_tol=1e-12)
    assert math.isclose(plain.offset.magnitude, shifted.offset.magnitude, abs_tol=1e-12)


@FEW
@given(hours=stations, right=small, up=small, factor=st.sampled_from([1e3, 1.0 / 25.4e-3, 1.0 / 25.4e-6]))
def test_unit_of_length_is_of_no_account(hours, right, up, factor):
    theta = angles(hours)
    gaps = gap_design(theta, 0.0)[:, :3] @ np.array([0.2e-3, right, up]) + 1e-6 * np.cos(3.0 * theta)
    covariance = np.eye(len(hours)) * 25e-12
    metre = centre_from_gaps(gaps, station_angles=theta, shaft_angles=0.0, covariance=covariance)
    other = centre_from_gaps(
        gaps * factor, station_angles=theta, shaft_angles=0.0, covariance=covariance * factor**2
    )
    assert math.isclose(other.offset.right, metre.offset.right * factor, rel_tol=1e-9, abs_tol=1e-12 * factor)
    assert math.isclose(other.chi_square, metre.chi_square, rel_tol=1e-6, abs_tol=1e-9)
    limit = 0.05e-3
    assert math.isclose(
        probability_within_radius(metre.offset, metre.offset_covariance, limit),
        probability_within_radius(other.offset, other.offset_covariance, limit * factor),
        abs_tol=1e-9,
    )


@FEW
@given(right=small, up=small, mean=st.floats(0.1e-3, 0.4e-3), phi=turns, run=small)
def test_opposite_gaps_close_whatever_the_offset_and_the_run_out(right, up, mean, phi, run):
    theta = angles([0, 3, 6, 9, 12, 15, 18, 21])
    gaps = gap_design(theta, phi) @ np.array([mean, right, up, run, -run])
    check = closure_of_gaps(gaps, station_angles=theta, shaft_angles=phi, covariance=np.eye(8) * 1e-12)
    assert len(check.sums) == 4
    assert check.largest_difference < 1e-15
    assert all(math.isclose(total.gap_sum, 2.0 * mean, rel_tol=1e-9) for total in check.sums)


@FEW
@given(
    offset=st.builds(Vector, small, small),
    first=deviations,
    second=deviations,
    mix=st.floats(-0.95, 0.95),
    turn=turns,
)
def test_chance_turns_with_the_offset_and_grows_with_the_limit(offset, first, second, mix, turn):
    covariance = np.array([[first**2, mix * first * second], [mix * first * second, second**2]])
    c, s = math.cos(turn), math.sin(turn)
    rotation = np.array([[c, s], [-s, c]])
    plain = probability_within_radius(offset, covariance, 0.05e-3)
    turned = probability_within_radius(offset.turned(turn), rotation @ covariance @ rotation.T, 0.05e-3)
    assert math.isclose(plain, turned, abs_tol=1e-8)
    wider = probability_within_radius(offset, covariance, 0.06e-3)
    assert 0.0 <= plain <= wider + 1e-12 <= 1.0 + 1e-12


@FEWER
@given(
    right=small, up=small, slack=st.floats(1e-6, 40e-6), hours=stations.filter(lambda hours: len(hours) <= 6)
)
def test_true_offset_is_in_the_polygon_and_more_blades_never_widen_it(right, up, slack, hours):
    theta = angles(hours)
    gaps = gap_design(theta, 0.0)[:, :3] @ np.array([0.3e-3, right, up])
    bounds = [
        GapBounds(float(a), 0.0, float(g) - slack, float(g) + 0.7 * slack)
        for a, g in zip(theta, gaps, strict=True)
    ]
    found = offset_polygon(bounds)
    magnitude = math.hypot(right, up)
    assert found.least_offset <= magnitude + 1e-9
    assert magnitude <= found.greatest_offset + 1e-9
    tighter = offset_polygon([replace(bounds[0], at_most=bounds[0].at_most - 0.3 * slack), *bounds[1:]])
    assert tighter.greatest_offset <= found.greatest_offset + 1e-9
    assert tighter.least_offset >= found.least_offset - 1e-9


@FEW
@given(
    interference=st.floats(-0.02e-3, 0.1e-3),
    more=st.floats(1e-7, 0.05e-3),
    wall=st.floats(1.05, 4.0),
    core=st.floats(0.0, 0.9),
)
def test_pressure_grows_with_interference_and_walls_and_is_never_negative(interference, more, wall, core):
    hub, shaft = ElasticMaterial(72e9, 0.33), ElasticMaterial(206e9, 0.29)

    def fit(delta, outer, inner):
        return press_fit(
            delta,
            interface_diameter=0.03,
            hub_outer_diameter=0.03 * outer,
            hub=hub,
            shaft=shaft,
            shaft_bore=0.03 * inner,
        )

    base = fit(interference, wall, core)
    assert base.contact_pressure >= 0.0
    assert base.contact_pressure <= fit(interference + more, wall, core).contact_pressure
    assert base.contact_pressure <= fit(interference, wall * 1.1, core).contact_pressure
    assert base.contact_pressure >= fit(interference, wall, core + 0.05).contact_pressure
    assert base.hub_shear_equivalent_stress >= base.hub_equivalent_stress >= 0.0


@FEW
@given(
    lengths=st.lists(st.floats(1e-3, 0.2), min_size=1, max_size=5),
    warming=st.floats(-60.0, 200.0),
    factor=st.floats(1.0, 3.0),
)
def test_chain_adds_up_and_more_uncertainty_never_narrows_it(lengths, warming, factor):
    def members(scale):
        return [
            ChainMember(
                (-1.0) ** i,
                length,
                11e-6 + 2e-6 * i,
                293.15 + warming,
                1e-6 * scale,
                1e-6 * scale,
                5.0 * scale,
            )
            for i, length in enumerate(lengths)
        ]

    whole = chain_at_temperature(members(1.0))
    single = [chain_at_temperature([member]) for member in members(1.0)]
    assert math.isclose(whole.hot_size, sum(part.hot_size for part in single), abs_tol=1e-12)
    assert math.isclose(
        whole.standard_uncertainty, math.hypot(*(part.standard_uncertainty for part in single)), rel_tol=1e-9
    )
    wider = chain_at_temperature(members(factor))
    assert math.isclose(wider.standard_uncertainty, factor * whole.standard_uncertainty, rel_tol=1e-9)


@FEW
@given(sizes=st.tuples(*[st.floats(0.5, 1.5)] * len(fields(CombustionSpace))), factor=st.floats(0.5, 2.0))
def test_scaling_an_engine_leaves_its_compression_ratio(sizes, factor):
    base = CombustionSpace(83e-3, 84e-3, 40e-6, 84e-3, 1.1e-3, 0.2e-3, 9e-6, 2e-6, 0.5e-6)
    cubed = {"chamber_volume", "dish_volume", "dome_volume", "crevice_volume"}
    names = [field.name for field in fields(base)]
    one = CombustionSpace(**{n: getattr(base, n) * s for n, s in zip(names, sizes, strict=True)})
    two = CombustionSpace(**{n: getattr(one, n) * (factor**3 if n in cubed else factor) for n in names})
    assert math.isclose(compression(one).compression_ratio, compression(two).compression_ratio, rel_tol=1e-9)


@FEW
@given(
    old=st.floats(2.0e-3, 3.0e-3),
    lash=st.floats(0.05e-3, 0.6e-3),
    target=st.floats(0.1e-3, 0.4e-3),
    count=st.integers(0, 40),
)
def test_shim_is_made_and_misses_the_target_by_half_a_step_at_most(old, lash, target, count):
    step, first = 0.05e-3, 2.0e-3 + count * 1e-6
    shim = lash_shim(old, measured_lash=lash, target_lash=target, step=step, first_size=first)
    assert abs(shim.predicted_lash - target) <= 0.5 * step * (1.0 + 1e-6)
    steps = (shim.nearest - first) / step
    assert math.isclose(steps, round(steps), abs_tol=1e-6)


@FEW
@given(seed=st.integers(0, 10_000), shift=st.floats(-5.0, 5.0), factor=st.floats(0.1, 10.0))
def test_gauge_study_is_blind_to_zero_and_scale_of_the_gauge(seed, shift, factor):
    rng = np.random.default_rng(seed)
    x = rng.normal(size=(3, 5, 2)) + rng.normal(size=(1, 5, 1)) + rng.normal(size=(3, 1, 1))
    for study in (study_by_variance, study_by_ranges):
        plain, other = study(x), study(shift + factor * x)
        for name in ("repeatability", "reproducibility", "gauge", "parts", "total"):
            one, two = getattr(plain, name), getattr(other, name)
            assert math.isclose(
                two.standard_deviation, factor * one.standard_deviation, rel_tol=1e-6, abs_tol=1e-9
            )
        assert plain.distinct_categories == other.distinct_categories
        total = plain.total.standard_deviation
        assert math.isclose(math.hypot(plain.gauge.standard_deviation, plain.parts.standard_deviation), total)
