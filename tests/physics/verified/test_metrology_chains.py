"""Chains of values against other libraries and against draws."""

import numpy as np
import pytest
from GTC import get_covariance, ureal
from GTC import result as gtc_result
from hypothesis import given
from hypothesis import strategies as st

from fitwright.physics.metrology.chain import Bound, DecisionRule, Term, judge_chain
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.readings import ValueReading
from fitwright.physics.metrology.unknowns import Shared, Unknown
from tests.support.compare import absolute, verified
from tests.support.metrology import BORE_GAUGE_IN_RING, Oracle, bore, journal, share

CLEARANCE = [Term(1.0, ("bore",)), Term(-1.0, ("journal",))]
LIMITS = [Bound("lower", 40e-6), Bound("upper", 75e-6)]
RULE = DecisionRule()


def test_a_shared_master_cancels():
    result = judge_chain(CLEARANCE, [bore("b", 60.06e-3), journal("j", 60.0e-3)], [], LIMITS, RULE)
    by = "hand: the micrometer's own two cancel, root of 1.2^2 + 1.1^2 + 1.0^2 is left"
    verified(result.standard_uncertainty, 1.9104973e-6, by=by, tolerance=1e-7)
    verified(
        2.0 * result.standard_uncertainty,
        3.8e-6,
        by="worked example of the trade, two digits",
        tolerance=0.01,
    )


def test_a_ring_as_master_does_not_cancel():
    readings = [bore("b", 60.06e-3, setting=BORE_GAUGE_IN_RING), journal("j", 60.0e-3)]
    result = judge_chain(CLEARANCE, readings, [], LIMITS, RULE)
    verified(2.0 * result.standard_uncertainty, 4.9e-6, by="worked example, two digits", tolerance=0.01)


def test_probabilities_agree_with_draws():
    readings = [bore("b", 60.0425e-3), journal("j", 60.0e-3), bore("c", 60.0450e-3, place="bore2")]
    terms = [Term(1.0, ("bore", "bore2")), Term(-1.0, ("journal",))]
    oracle = Oracle()
    shaft = oracle.size(readings[1])
    gaps = [oracle.size(readings[0]) - shaft, oracle.size(readings[2]) - shaft]
    result = judge_chain(terms, readings, [], LIMITS, RULE)
    lower = min(share(gap >= 40e-6) for gap in gaps)
    upper = min(share(gap <= 75e-6) for gap in gaps)
    for bound, expected in zip(result.bounds, (lower, upper), strict=True):
        verified(bound.probability, expected, by="1e6 draws", tolerance=absolute(0.001))
    assert result.bounds[0].places == ("bore", "journal")


def test_joint_estimate_is_generalised_least_squares():
    other = Unknown("second micrometer", 2e-6)
    readings = [
        journal("a", 60.0010e-3),
        journal("b", 60.0022e-3),
        ValueReading("c", "journal", 59.9990e-3, 0.7e-6, shared=(Shared(other, 1.0),)),
        ValueReading("d", "bore", 60.0500e-3, 0.7e-6, shared=(Shared(other, 1.0),)),
        bore("e", 60.0530e-3),
    ]
    got = estimate(readings)
    keys = sorted({one.unknown.key for reading in readings for one in reading.shared})
    spread = {one.unknown.key: one.unknown.standard_uncertainty for r in readings for one in r.shared}
    loads = np.array(
        [
            [sum(one.sensitivity for one in r.shared if one.unknown.key == key) * spread[key] for key in keys]
            for r in readings
        ]
    )
    V = np.diag([r.repeatability**2 for r in readings]) + loads @ loads.T
    A = np.array([[float(r.place == place) for place in got.places] for r in readings])
    covariance = np.linalg.inv(A.T @ np.linalg.inv(V) @ A)
    values = covariance @ A.T @ np.linalg.inv(V) @ np.array([r.value for r in readings])
    verified(got.values, values, by="textbook formula with explicit inverses", tolerance=1e-10)
    verified(got.covariance, covariance, by="textbook formula with explicit inverses", tolerance=1e-8)


def test_a_fine_reading_beside_a_coarse_one_is_still_a_reading():
    fine = ValueReading("a", "bore", 60e-3, 1e-13, shared=(Shared(Unknown("laser", 1e-14), 1.0),))
    coarse = ValueReading("b", "bore", 60.001e-3, 1e-6, shared=(Shared(Unknown("rule", 1e-5), 1.0),))
    got = estimate([fine, coarse])
    by = "weights one over variance; the coarse reading weighs 1e-16"
    verified(got.values, [60e-3], by=by, tolerance=1e-12)
    verified(got.covariance, [[1.01e-26]], by=by, tolerance=1e-12)


def test_uncertainty_and_degrees_of_freedom_agree_with_gtc():
    master = ureal(0.0, 1.0e-6, 12, independent=True)
    readings = [
        ValueReading("b", "bore", 60.06e-3, 1.1e-6, 9, (Shared(Unknown("m", 1e-6, 12), 1.0),)),
        ValueReading("j", "journal", 60.0e-3, 1.0e-6, 4, (Shared(Unknown("m", 1e-6, 12), 0.7),)),
    ]
    gap = (ureal(60.06e-3, 1.1e-6, 9) - master) - (ureal(60.0e-3, 1.0e-6, 4) - 0.7 * master)
    combined = estimate(readings).combine({"bore": 1.0, "journal": -1.0})
    verified(combined.standard_uncertainty, gap.u, by="GTC", tolerance=1e-9)
    verified(combined.degrees_of_freedom, gap.df, by="GTC", tolerance=1e-9)
    assert get_covariance(gap, gtc_result(gap)) > 0.0


def test_readings_of_one_study_rest_on_its_degrees_of_freedom():
    def reading(key, study):
        return ValueReading(key, "bore", 60e-3, 1e-6, 8, repeatability_key=study)

    one = estimate([reading("a", "study"), reading("b", "study")]).combine({"bore": 1.0})
    each = estimate([reading("a", ""), reading("b", "")]).combine({"bore": 1.0})
    by = "the mean of two has the degrees of freedom of the one study, or of both"
    verified([one.degrees_of_freedom, each.degrees_of_freedom], [8.0, 16.0], by=by, tolerance=1e-12)


@given(st.floats(-20e-6, 20e-6), st.floats(-20e-6, 20e-6), st.floats(0.2e-6, 5e-6), st.floats(0.2e-6, 5e-6))
def test_size_without_sign_agrees_with_draws(first, second, u, v):
    readings = [ValueReading("a", "p", 60e-3 + first, u), ValueReading("b", "q", 60e-3 + second, v)]
    terms = [Term(1.0, ("p", "q")), Term(-1.0, ("p", "q"))]
    result = judge_chain(
        terms, readings, [], [Bound("upper", 10e-6)], RULE, pairs=[("p", "q")], absolute=True
    )
    draws = first - second + np.hypot(u, v) * np.random.default_rng(1).standard_normal(100_000)
    verified(
        result.bounds[0].probability, share(np.abs(draws) <= 10e-6), by="1e5 draws", tolerance=absolute(0.007)
    )
    assert result.value == pytest.approx(abs(first - second), abs=1e-15)
