"""How a chain is spread over its values: against the normal law, the product of edges, and draws."""

import numpy as np
import pytest
from scipy import special, stats

from fitwright.physics.metrology.chain import judge_chain
from fitwright.physics.metrology.combinations import Term
from fitwright.physics.metrology.conformity import Bound, DecisionRule
from fitwright.physics.metrology.distribution import distribution_of_chain
from fitwright.physics.metrology.readings import ValueReading
from fitwright.physics.metrology.unknowns import Shared, Unknown
from tests.support.compare import absolute, verified
from tests.support.metrology import DRAGS, FREELY, GOES, NOT, bore, journal, tried

CLEARANCE = [Term(1.0, ("bore",)), Term(-1.0, ("journal",))]
GAP = [Term(1.0, ("gap",))]


def middle_and_spread(shown):
    mean = float(shown.share @ shown.value) / float(shown.share.sum())
    return mean, float(np.sqrt(shown.share @ (shown.value - mean) ** 2 / shown.share.sum()))


def test_values_are_spread_as_student_says():
    readings = [bore("a", 50.060e-3), journal("b", 50.000e-3)]
    shown = distribution_of_chain(CLEARANCE, readings, [], places=("bore", "journal"))
    judged = judge_chain(CLEARANCE, readings, [], [], DecisionRule())
    density = stats.norm.pdf(shown.value, judged.value, judged.standard_uncertainty)
    verified(shown.height, density / density.max(), tolerance=absolute(0.002), by="strips of 1/12 u")
    mean, spread = middle_and_spread(shown)
    verified(mean, judged.value, tolerance=1e-6, by="symmetric")
    verified(spread, judged.standard_uncertainty, tolerance=0.003, by="cut at 4.1 u, strips")


def test_few_degrees_of_freedom_have_heavier_tails():
    few = ValueReading("a", "gap", 0.050e-3, 2e-6, repeatability_degrees_of_freedom=3.0)
    shown = distribution_of_chain(GAP, [few], [], places=("gap",))
    u = judge_chain(GAP, [few], [], [], DecisionRule()).standard_uncertainty
    expected = np.diff(stats.t.cdf((strips(shown) - 0.050e-3) / u, 3.0))
    verified(shown.share, expected, tolerance=absolute(1e-9), by="the same law from another library")


def strips(shown):
    half = 0.5 * (shown.value[1] - shown.value[0])
    return np.append(shown.value - half, shown.value[-1] + half)


def test_blades_on_both_sides_leave_the_product_of_their_edges():
    """Independent blades: density = P(lower edge <= x) P(x < upper edge), both normal."""
    readings = [tried("1", GOES, 0.050), tried("2", NOT, 0.060)]
    shown = distribution_of_chain(GAP, [], readings, places=("gap",))
    u = 1.5e-6
    density = special.ndtr((shown.value - 0.050e-3) / u) * special.ndtr((0.060e-3 - shown.value) / u)
    verified(shown.height, density / density.max(), tolerance=absolute(0.004), by="strips of u/6")
    verified(shown.share.sum(), 1.0, tolerance=1e-4, by="the tails beyond the points")


def test_a_blade_that_drags_agrees_with_draws():
    generator = np.random.default_rng(20260714)
    shown = distribution_of_chain(GAP, [], [tried("1", DRAGS, 0.050)], places=("gap",))
    count = 2_000_000
    thickness = generator.normal(0.050e-3, 1.5e-6, count)
    drag = generator.normal(3e-6, 2e-6, count)
    gap = generator.uniform(shown.value[0], shown.value[-1], count)
    kept = gap[(gap >= thickness) & (gap < thickness + drag)]
    drawn, _ = np.histogram(kept, strips(shown))
    verified(shown.share, drawn / len(kept), tolerance=absolute(0.0012), by="about 1e5 draws are kept")


@pytest.mark.parametrize(
    "answer, edge, u, side",
    [
        (GOES, 0.050e-3, 1.5e-6, "above"),
        (FREELY, 0.053e-3, 2.5e-6, "above"),
        (NOT, 0.050e-3, 1.5e-6, "below"),
    ],
)
def test_a_gap_that_is_open_on_one_side_shows_its_edge_and_no_share(answer, edge, u, side):
    shown = distribution_of_chain(GAP, [], [tried("1", answer, 0.050)], places=("gap",))
    way = 1.0 if side == "above" else -1.0
    verified(
        shown.height,
        special.ndtr(way * (shown.value - edge) / u),
        tolerance=absolute(1e-9),
        by="closed form",
    )
    assert shown.open_side == side
    assert np.isnan(shown.share).all()
    assert (shown.height > 0.999).sum() > 0.4 * len(shown.height)


def test_the_strips_add_up_to_the_probabilities_of_the_verdict():
    readings = [bore("a", 50.060e-3), journal("b", 50.000e-3)]
    shown = distribution_of_chain(CLEARANCE, readings, [], places=("bore", "journal"))
    limit = float(strips(shown)[40])
    judged = judge_chain(CLEARANCE, readings, [], [Bound("upper", limit)], DecisionRule())
    verified(shown.share[:40].sum(), judged.bounds[0].probability, tolerance=absolute(5e-5), by="cut tail")


def test_what_comes_on_top_moves_and_widens_it():
    readings = [bore("a", 50.060e-3), journal("b", 50.000e-3)]
    extra = (Shared(Unknown("case", 5e-6), 1.0),)
    cold, hot = (
        middle_and_spread(distribution_of_chain(CLEARANCE, readings, [], places=("bore", "journal"), **more))
        for more in ({}, {"constant": 20e-6, "extra": extra})
    )
    verified(hot[0] - cold[0], 20e-6, tolerance=1e-6, by="the constant")
    verified(hot[1], np.hypot(cold[1], 5e-6), tolerance=0.003, by="sum of squares; strips")


def test_contradictory_answers_and_no_answers_have_none():
    against = [tried("1", NOT, 0.050), tried("2", GOES, 0.080)]
    assert distribution_of_chain(GAP, [], against, places=("gap",)) is None
    assert distribution_of_chain(GAP, [], [], places=("gap",)) is None
