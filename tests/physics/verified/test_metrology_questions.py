"""What settles a bound, what size is wanted, repeats, drift and form: against draws and second ways."""

import numpy as np
import pytest
from GTC import ureal
from scipy import stats
from uncertainties import covariance_matrix, ufloat

from fitwright.physics.metrology.blade_sets import blade_set_can_prove
from fitwright.physics.metrology.chain import Bound, DecisionRule, Term, judge_chain
from fitwright.physics.metrology.conformity import can_prove
from fitwright.physics.metrology.drift import checked_setting
from fitwright.physics.metrology.form import form_of, range_distribution
from fitwright.physics.metrology.propagation import InputQuantity, propagate
from fitwright.physics.metrology.readings import ValueReading
from fitwright.physics.metrology.repeats import repeats_agree
from fitwright.physics.metrology.settling import Gauge, Known, Means, what_settles
from fitwright.physics.metrology.size_wanted import size_wanted
from fitwright.physics.metrology.temperature import size_at_reference
from fitwright.physics.metrology.unknowns import Shared, Unknown
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import absolute, verified
from tests.support.metrology import GOES, MICROMETER, NOT, blade, journal, normal, tried

RULE = DecisionRule()
LOWER, UPPER = Bound("lower", 40e-6), Bound("upper", 75e-6)
COARSE = [blade(t) for t in (0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 1.00)]
FINE = [blade(t / 100) for t in range(2, 11)] + [blade(t) for t in (0.15, 0.20, 0.25, 0.30)]


def test_a_coarse_set_cannot_prove_a_narrow_limit_and_says_what_is_missing():
    found = blade_set_can_prove(LOWER.limit, UPPER.limit, COARSE, RULE)
    assert not found.can_prove
    best = found.missing[0]
    assert best.answer == NOT
    assert best.beside == COARSE[0]
    verified(
        [best.thinnest, best.thickest],
        # An even gap above 0.050 is below 0.075 with 95 % up to 0.025 / 0.95 above it, the blade's own
        # uncertainty aside.
        [50e-6, 76.3e-6],
        by="hand",
        tolerance=absolute(0.4e-6),
    )
    better = [*COARSE, blade(0.5 * (best.thinnest + best.thickest) * 1e3)]
    assert blade_set_can_prove(LOWER.limit, UPPER.limit, better, RULE).can_prove
    thick = [*COARSE, blade((best.thickest + 3e-6) * 1e3)]
    assert not blade_set_can_prove(LOWER.limit, UPPER.limit, thick, RULE).can_prove


def test_a_fine_set_brackets_and_proves_it():
    found = blade_set_can_prove(LOWER.limit, UPPER.limit, FINE, RULE)
    keys = [(one.goes[0].key, one.does_not_go[0].key) for one in found.brackets]
    assert ("0.060", "0.070") in keys
    readings = [tried("a", GOES, 0.06), tried("b", NOT, 0.07)]
    assert judge_chain([Term(1.0, ("gap",))], [], readings, [LOWER, UPPER], RULE).verdict == "within"


def test_stacks_are_looked_at_where_no_blade_will_do():
    few = [blade(0.05), blade(0.25), blade(0.30), blade(0.02)]
    found = blade_set_can_prove(0.262e-3, 0.310e-3, few, RULE)
    assert found.can_prove
    assert any(len(one.goes) == 2 for one in found.brackets)
    assert not blade_set_can_prove(0.262e-3, 0.310e-3, few, RULE, largest_stack=1).can_prove


def test_one_limit_needs_one_blade():
    found = blade_set_can_prove(40e-6, None, COARSE, RULE)
    assert found.can_prove
    assert found.share is None
    assert found.brackets[0].goes == (COARSE[0],)


def test_capability_of_a_gauge():
    found = can_prove(40e-6, 75e-6, 1.9e-6, RULE)
    guard = 1.6448536 * 1.9e-6
    verified(found.acceptance_zone, [40e-6 + guard, 75e-6 - guard], by="hand", tolerance=1e-6)
    verified(found.share, 1.0 - 2.0 * guard / 35e-6, by="hand", tolerance=1e-6)
    assert not can_prove(40e-6, 75e-6, 17.5e-6 / 1.64, RULE).can_prove
    assert can_prove(40e-6, 75e-6, 17.5e-6 / 1.65, RULE).can_prove


def settled_by_draws(known, gauge, repeats, bound, draws=400_000):
    """Draw the truth and the new readings, judge each, and count."""
    generator = np.random.default_rng(5)
    value, u = known
    truth = value + u * generator.standard_normal(draws)
    new = gauge.standard_uncertainty(repeats)
    mean = truth + new * generator.standard_normal(draws)
    weight = 1.0 / np.array([u**2, new**2])
    best, after = (value * weight[0] + mean * weight[1]) / weight.sum(), weight.sum() ** -0.5
    chance = stats.norm.cdf((best - bound.limit) / after)
    return float(np.mean(chance >= 0.95)), float(np.mean(chance <= 0.05))


@pytest.mark.parametrize("value", [38e-6, 41e-6, 44e-6])
@pytest.mark.parametrize("repeats", [1, 4])
def test_likelihood_that_another_gauge_settles_it(value, repeats):
    gauge = Gauge("depth micrometer", 1.0e-6, 1.5e-6)
    found = what_settles(LOWER, RULE, Known(value, 3e-6), gauges=[gauge], most_repeats=repeats)
    within, outside = settled_by_draws((value, 3e-6), gauge, repeats, LOWER)
    last = max(found, key=lambda one: one.repeats)
    if last.repeats == repeats:
        verified([last.within, last.outside], [within, outside], by="4e5 draws", tolerance=absolute(0.003))
    assert last.settles >= within + outside - 0.013


def test_likelihood_that_a_blade_settles_it():
    known, trial = Known(41e-6, 2e-6), blade(0.042)
    found = what_settles(LOWER, RULE, known, shelf=[trial])
    truth = 41e-6 + 2e-6 * np.random.default_rng(3).standard_normal(1_000_000)
    goes = truth >= 42e-6 + 1.5e-6 * np.random.default_rng(4).standard_normal(1_000_000)
    assert np.mean(truth[goes] >= 40e-6) > 0.95
    assert np.mean(truth[~goes] >= 40e-6) > 0.05
    verified(found[0].within, float(goes.mean()), by="1e6 draws", tolerance=absolute(0.002))
    assert found[0].outside == 0.0
    assert found[0].means is Means.BLADE
    assert not found[0].is_assumed


def test_a_window_is_labelled_and_only_says_how_likely_an_answer_is():
    known = Known(window=(20e-6, 150e-6))
    found = what_settles(LOWER, RULE, known, shelf=FINE)
    assert all(one.is_assumed for one in found)
    assert found[0].blades == (blade(0.05),)
    verified(found[0].within, 100.0 / 130.0, by="hand: share of the window above 0.050", tolerance=1e-6)


def test_a_window_that_a_blade_has_shown_to_be_too_narrow_is_widened():
    known = Known(blade_readings=(tried("a", GOES, 0.2),), window=(20e-6, 150e-6))
    found = what_settles(Bound("upper", 0.26e-3), RULE, known, shelf=[blade(0.25), blade(0.27)])
    assert [one.blades[0] for one in found] == [blade(0.27), blade(0.25)]
    # From 0.2 (with 8 of its standard uncertainties) to as much again as the window is wide.
    top = 0.2e-3 + 8.0 * 1.5e-6 + 130e-6
    expected = [(top - 0.27e-3) / (top - 0.2e-3), (0.25e-3 - 0.2e-3) / (top - 0.2e-3)]
    verified([found[0].outside, found[1].within], expected, by="hand: even window", tolerance=1e-6)


def test_where_nothing_is_known_a_window_has_to_be_given():
    with pytest.raises(OutOfDomainError, match="given where readings leave"):
        what_settles(LOWER, RULE, Known(), shelf=FINE)


def test_more_of_the_same_repeats_only_lowers_their_own_part():
    gauge = Gauge("same", 1.6e-6, 1.2e-6, taken=1)
    before = gauge.standard_uncertainty(1)
    found = what_settles(LOWER, RULE, Known(43e-6, before), gauges=[gauge])
    after = gauge.standard_uncertainty(found[0].repeats + 1)
    expected = normal((3e-6 - 1.6448536 * after) / np.sqrt(before**2 - after**2))
    verified(found[0].within, expected, by="law of total variance", tolerance=1e-6)


def test_size_wanted_proves_the_fit_at_its_ends_and_not_beyond():
    housing = [
        ValueReading(f"h{i}", f"h{i}", 54.020e-3 + i * 1e-6, 1e-6, shared=MICROMETER) for i in range(3)
    ]
    terms = [Term(1.0, ("h0", "h1", "h2"))]
    wanted = size_wanted(terms, housing, -1.0, [LOWER, UPPER], RULE, repeatability=1.2e-6, shared=MICROMETER)
    assert wanted.is_possible
    for step, verdict in ((1e-9, "within"), (-1e-9, "unproven")):
        for size in (wanted.smallest + step, wanted.largest - step):
            member = ValueReading("new", "new", size, 1.2e-6, shared=MICROMETER)
            whole = [*terms, Term(-1.0, ("new",))]
            assert judge_chain(whole, [*housing, member], [], [LOWER, UPPER], RULE).verdict == verdict
    verified(
        wanted.standard_uncertainty, np.hypot(1e-6, 1.2e-6), by="hand: the micrometer cancels", tolerance=1e-9
    )


def test_no_size_will_do_where_the_limits_are_too_narrow():
    housing = [ValueReading(f"h{i}", f"h{i}", 54.020e-3 + i * 20e-6, 1e-6) for i in range(3)]
    terms = [Term(1.0, ("h0", "h1", "h2"))]
    assert not size_wanted(terms, housing, -1.0, [LOWER, UPPER], RULE).is_possible


def test_repeats_in_one_setting_are_judged_by_repeatability_alone():
    readings = [journal("a", 60.0e-3), journal("b", 60.0025e-3)]
    got = repeats_agree(readings)
    expected = 2.0 * normal(-2.5 / np.sqrt(2.0))
    verified(got.probability, expected, by="normal difference of two", tolerance=1e-9)
    far = [one if one.key == "a" else journal("b", 60.0045e-3) for one in readings]
    assert not repeats_agree(far).agree


def test_repeats_in_two_settings_may_differ_by_the_settings():
    other = (Shared(Unknown("another setting", 0.5e-6), 1.0), MICROMETER[0])
    readings = [journal("a", 60.0e-3), ValueReading("b", "journal", 60.0025e-3, 1e-6, shared=other)]
    expected = 2.0 * normal(-2.5 / np.sqrt(2.0 + 2.0 * 0.25))
    verified(repeats_agree(readings).probability, expected, by="normal difference of two", tolerance=1e-9)


def test_repeatability_of_few_degrees_of_freedom_is_judged_by_f():
    readings = [ValueReading("a", "p", 60e-3, 1e-6, 4), ValueReading("b", "p", 60.0025e-3, 1e-6, 4)]
    expected = 2.0 * stats.t.sf(2.5 / np.sqrt(2.0), 4)
    verified(repeats_agree(readings).probability, expected, by="Student's t", tolerance=1e-9)


def test_drift_counts_as_the_mean_square_over_the_sitting():
    moved = checked_setting(Unknown("setting", 0.8e-6), -3e-6, repeatability=0.5e-6)
    share = (np.arange(1000) + 0.5) / 1000
    expected = np.sqrt(0.8e-6**2 + np.mean((3e-6 * share) ** 2))
    verified(moved.setting.standard_uncertainty, expected, by="midpoint sum", tolerance=1e-6)
    assert moved.shows_drift
    few = checked_setting(Unknown("setting", 0.8e-6, 4.0), -3e-6).setting
    by = "Welch and Satterthwaite by hand: only the setting's own part is poorly known"
    verified(few.degrees_of_freedom, 4.0 * (1.0 + 3.0 / 0.64) ** 2, by=by, tolerance=1e-12)
    assert not checked_setting(Unknown("setting", 0.8e-6), 0.9e-6, repeatability=0.5e-6).shows_drift


@pytest.mark.parametrize("sample_size", [2, 3, 5, 8, 12])
def test_ranges_of_normal_samples(sample_size):
    widths = np.array([0.5, 1.5, 3.0, 4.5])
    got = [range_distribution(sample_size, float(width)) for width in widths]
    expected = stats.studentized_range.cdf(widths, sample_size, np.inf)
    verified(got, expected, by="scipy.stats.studentized_range", tolerance=absolute(1e-7))


def test_form_that_repeatability_alone_shows():
    planes, angles = ("front", "rear"), ("0", "60", "120", "180")
    draws = np.random.default_rng(2).standard_normal((200_000, len(planes), len(angles)))
    values = {(p, a): 60e-3 + 1e-6 * i for i, p in enumerate(planes) for a in angles}
    form = form_of(values, 1.5e-6)
    ranges = {"out_of_round": np.ptp(draws, axis=2).max(axis=1), "taper": np.ptp(draws, axis=1).max(axis=1)}
    for name, found in ranges.items():
        figure = getattr(form, name)
        expected = [1.5e-6 * found.mean(), 1.5e-6 * np.quantile(found, 0.95)]
        got = [figure.from_repeatability, figure.from_repeatability_95]
        verified(got, expected, by="2e5 draws", tolerance=0.01)
    verified(form.taper.value, 1e-6, by="built in", tolerance=1e-9)
    assert form.out_of_round.value == 0.0
    assert not form.taper.is_real


def test_propagation_agrees_with_two_libraries():
    inputs = [
        InputQuantity("a", 3.0, 0.02, 7),
        InputQuantity("b", 2.0, 0.05, 11),
        InputQuantity("c", 0.4, 0.01, 4),
    ]
    got = propagate(lambda x: x[0] * np.exp(x[2]) / x[1], inputs)
    first = ufloat(3.0, 0.02) / ufloat(2.0, 0.05) * _exp(ufloat(0.4, 0.01))
    verified(
        got.standard_uncertainty,
        np.sqrt(covariance_matrix([first])[0][0]),
        by="uncertainties",
        tolerance=2e-3,
    )
    a, b, c = ureal(3.0, 0.02, 7), ureal(2.0, 0.05, 11), ureal(0.4, 0.01, 4)
    verified(got.degrees_of_freedom, (a / b * _exp(c)).df, by="GTC", tolerance=5e-3)


def _exp(x):
    return np.e**x


def test_sensitivity_to_a_small_exact_input_is_its_derivative():
    got = propagate(
        lambda x: np.sqrt(x[0]) * x[1], [InputQuantity("a", 1e-6, 0.0), InputQuantity("b", 2.0, 0.1)]
    )
    verified(got.sensitivities, [1000.0, 1e-3], by="derivative by hand", tolerance=1e-8)


def test_second_order_terms_agree_with_draws():
    inputs = [InputQuantity("a", 0.0, 0.3), InputQuantity("b", 0.2, 0.4)]
    got = propagate(lambda x: x[0] * x[1] + 0.1 * x[0] ** 2, inputs)
    generator = np.random.default_rng(9)
    a, b = 0.3 * generator.standard_normal(2_000_000), 0.2 + 0.4 * generator.standard_normal(2_000_000)
    verified(got.with_second_order, float(np.std(a * b + 0.1 * a**2)), by="2e6 draws", tolerance=2e-3)
    assert got.with_second_order > got.standard_uncertainty


def test_sensitivities_to_temperature_are_the_derivatives():
    at = {
        "part_temperature": 303.15,
        "gauge_temperature": 295.15,
        "part_expansion": 23e-6,
        "gauge_expansion": 11.5e-6,
    }
    size = size_at_reference(60e-3, **at)

    def slope(step, **changes):
        ends = [
            size_at_reference(60e-3, **{key: at[key] + sign * changes.get(key, 0.0) for key in at}).size
            for sign in (1.0, -1.0)
        ]
        return (ends[0] - ends[1]) / (2.0 * step)

    expected = [
        slope(1e-7, part_expansion=1e-7),
        slope(1e-7, gauge_expansion=1e-7),
        slope(0.1, part_temperature=0.1, gauge_temperature=0.1),
        slope(0.1, gauge_temperature=-0.1),
    ]
    got = [
        size.to_part_expansion,
        size.to_gauge_expansion,
        size.to_part_temperature,
        size.to_temperature_difference,
    ]
    verified(got, expected, by="central differences", tolerance=1e-6)
    names = ("part", "gauge", "temperature", "difference")
    shared = size.shared(*(Unknown(name, 1.0) for name in names))
    assert [one.sensitivity for one in shared] == got
