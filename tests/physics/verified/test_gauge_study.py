"""Gauge studies: analysis of variance by projections, constants by simulation, known truth, bad data."""

import numpy as np
import pytest
from scipy import stats

from fitwright.physics.metrology.five_lift import repeat_study
from fitwright.physics.metrology.gauge_study import (
    IncompleteStudyError,
    crossed_readings,
    study_by_ranges,
    study_by_variance,
)
from fitwright.physics.metrology.range_constants import range_degrees_of_freedom, range_divisor, range_moments
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import absolute, verified


def invented(seed, people=3, parts=8, repeats=3, interaction=0.0):
    rng = np.random.default_rng(seed)
    person = rng.normal(0.0, 0.3, people)[:, None, None]
    part = rng.normal(0.0, 1.0, parts)[None, :, None]
    both = rng.normal(0.0, interaction, (people, parts))[:, :, None] if interaction else 0.0
    return 10.0 + person + part + both + rng.normal(0.0, 0.2, (people, parts, repeats))


@pytest.mark.parametrize("interaction", [0.0, 0.8])
def test_sums_of_squares_are_those_of_nested_regressions(interaction):
    x = invented(4, interaction=interaction)
    study = study_by_variance(x)
    a, p, n = x.shape
    person, part = (np.repeat(np.eye(a), p * n, axis=0), np.tile(np.repeat(np.eye(p), n, axis=0), (a, 1)))
    y = x.ravel()

    def left(*columns):
        matrix = np.column_stack([np.ones((y.size, 1)), *columns])
        return float(np.sum((y - matrix @ np.linalg.lstsq(matrix, y, rcond=None)[0]) ** 2))

    cell = np.repeat(np.eye(a * p), n, axis=0)
    want = {
        "person": left(part) - left(person, part),
        "part": left(person) - left(person, part),
        "interaction": left(person, part) - left(cell),
        "repeat": left(cell),
    }
    rows = {row.source: row for row in study.table}
    for source, value in want.items():
        verified(rows[source].sum_of_squares, value, by="least squares on dummy columns", tolerance=1e-8)
    assert study.interaction_pooled == (interaction == 0.0)
    test = rows["interaction"]
    verified(
        test.significance,
        stats.f.sf(test.f_ratio, test.degrees_of_freedom, rows["repeat"].degrees_of_freedom),
        by="scipy.stats",
        tolerance=1e-9,
    )


def test_truth_comes_back_on_average():
    studies = [study_by_variance(invented(seed, people=6, parts=12)) for seed in range(60)]
    ranges = [study_by_ranges(invented(seed, people=6, parts=12)) for seed in range(60)]
    for group, tolerance in ((studies, 0.01), (ranges, 0.01)):
        mean = np.mean([study.repeatability.standard_deviation**2 for study in group])
        verified(
            np.sqrt(mean), 0.2, by="the truth that the readings were made from", tolerance=absolute(tolerance)
        )
        mean = np.mean([study.parts.standard_deviation**2 for study in group])
        verified(
            np.sqrt(mean), 1.0, by="the truth that the readings were made from", tolerance=absolute(0.12)
        )


def test_degrees_of_freedom_describe_the_scatter_of_the_estimates():
    found = [study_by_ranges(invented(seed, people=2, parts=5, repeats=2)) for seed in range(400)]
    variances = np.array([study.repeatability.standard_deviation**2 for study in found])
    scatter = 2.0 * np.mean(variances) ** 2 / np.var(variances)
    stated = found[0].repeatability.degrees_of_freedom
    verified(stated, scatter, by="scatter of 400 studies", tolerance=0.2)


def test_no_difference_between_people_counts_as_zero():
    rng = np.random.default_rng(2)
    x = rng.normal(0.0, 1.0, (1, 6, 1)) + rng.normal(0.0, 0.3, (3, 6, 4))
    x -= x.mean(axis=(1, 2), keepdims=True)
    for study in (study_by_variance(x, limit_band=10.0), study_by_ranges(x, limit_band=10.0)):
        assert study.reproducibility.standard_deviation == 0.0
        assert study.reproducibility.degrees_of_freedom is None
        assert study.gauge.standard_deviation == study.repeatability.standard_deviation
        verified(
            study.gauge.share_of_limit_band,
            0.6 * study.gauge.standard_deviation,
            by="six deviations over a band of ten",
            tolerance=1e-12,
        )


def test_repeats_without_spread_leave_the_interaction_alone():
    x = np.array([[[1.0, 1.0], [2.0, 2.0]], [[1.0, 1.0], [2.5, 2.5]]])
    study = study_by_variance(x)
    assert not study.interaction_pooled
    assert study.repeatability.standard_deviation == 0.0
    assert study.repeatability.degrees_of_freedom is None
    alike = study_by_variance(np.array([[[1.0, 1.0], [2.0, 2.0]]] * 2))
    assert alike.gauge.standard_deviation == 0.0
    assert alike.distinct_categories is None


def test_a_gauge_of_coarse_step_that_repeats_itself_shows_no_spread_whatever_the_rounding():
    # 0.13 and the like are no binary numbers: squares of a few 1e-34 are left, which made 8e14 groups.
    x = np.full((3, 5, 2), 0.1) + 0.01 * np.arange(5)[None, :, None]
    for study in (study_by_variance(x), study_by_ranges(x)):
        assert study.gauge.standard_deviation == 0.0
        assert study.reproducibility.standard_deviation == 0.0
        assert study.distinct_categories is None
        assert study.parts.standard_deviation > 0.01
    assert study_by_variance(x).interaction_pooled
    # A hundredth of a micrometre in a metre is not rounding.
    fine = 1.0 + 1e-8 * np.random.default_rng(1).normal(size=(3, 5, 2))
    assert study_by_variance(fine).repeatability.standard_deviation > 0.3e-8


@pytest.mark.parametrize("size", [2, 3, 5, 10])
def test_range_constants_are_those_of_a_simulation(size):
    draws = np.ptp(np.random.default_rng(size).normal(size=(200_000, size)), axis=1)
    by = "200,000 simulated samples"
    verified(range_moments(size), [draws.mean(), draws.std()], by=by, tolerance=absolute(0.01))
    of_four = draws.reshape(-1, 4).mean(axis=1)
    verified(range_divisor(size, 4), np.sqrt(np.mean(of_four**2)), by=by, tolerance=absolute(0.01))


def test_two_values_in_closed_form():
    want = [2.0 / np.sqrt(np.pi), np.sqrt(2.0 - 4.0 / np.pi)]
    verified(range_moments(2), want, by="half-normal distribution", tolerance=1e-9)
    # The range of one pair has exactly one degree of freedom.
    verified(range_degrees_of_freedom(2, 1), 1.0, by="half-normal distribution", tolerance=1e-8)


def test_five_lifts_against_the_chi_square_distribution():
    lifts = np.array([12, 14, 11, 13, 13]) * 1e-6
    study = repeat_study(lifts, limit_band=35e-6, confidence=0.9)
    s = np.std(lifts, ddof=1)
    want = [s * np.sqrt(4.0 / stats.chi2.ppf(share, 4)) for share in (0.95, 0.05)]
    got = [study.lower_standard_deviation, study.upper_standard_deviation]
    verified(np.array(got) * 1e6, np.array(want) * 1e6, by="scipy.stats", tolerance=1e-9)
    verified(
        [study.indication_range * 1e6, study.range_share, study.spread_share],
        [3.0, 3.0 / 35.0, 6.0 * s / 35e-6],
        by="hand working",
        tolerance=1e-9,
    )


def test_study_with_a_reading_missing_says_whose():
    with pytest.raises(IncompleteStudyError, match="person B has 1 readings of part 2, 2 are needed"):
        crossed_readings(
            ["A", "A", "A", "A", "B", "B", "B"], ["1", "1", "2", "2", "1", "1", "2"], np.arange(7.0)
        )


@pytest.mark.parametrize("shape", [(1, 3, 2), (3, 1, 2), (3, 3, 1), (3, 3)])
def test_study_that_is_too_small_is_refused(shape):
    for study in (study_by_variance, study_by_ranges):
        with pytest.raises(OutOfDomainError, match="at least 2 people x 2 parts x 2 repeats"):
            study(np.zeros(shape))


@pytest.mark.parametrize(
    "lifts,settings",
    [([1.0], {}), ([1.0, np.nan], {}), ([1.0, 2.0], {"limit_band": 0.0}), ([1.0, 2.0], {"confidence": 1.0})],
)
def test_repeats_that_mean_nothing_are_refused(lifts, settings):
    with pytest.raises(OutOfDomainError):
        repeat_study(lifts, **settings)
