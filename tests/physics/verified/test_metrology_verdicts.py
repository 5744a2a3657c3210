"""Verdicts and their reasons on cases worked by hand."""

import pytest

from fitwright.physics.metrology.chain import Bound, DecisionRule, Term, judge_chain
from fitwright.physics.metrology.conformity import can_prove, narrowest_band
from fitwright.physics.metrology.errors import (
    DependentReadingsError,
    DuplicateReadingError,
    InconsistentUnknownError,
    MismatchedPairError,
    UnknownPlaceError,
)
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.readings import Blade, BladeReading, Drag, ValueReading
from fitwright.physics.metrology.unknowns import Shared, Unknown
from fitwright.physics.numerics.errors import OutOfDomainError
from tests.support.compare import absolute, verified
from tests.support.metrology import BUILDER, DRAGS, FREELY, GOES, NOT, bore, journal, normal, tried

RULE = DecisionRule()
LIMITS = [Bound("lower", 40e-6), Bound("upper", 75e-6)]
GAP = [Term(1.0, ("gap",))]
CLEARANCE = [Term(1.0, ("bore", "bore2")), Term(-1.0, ("journal",))]


def judged(blades=(), values=(), terms=GAP, bounds=LIMITS):
    return judge_chain(terms, values, blades, bounds, RULE)


def reasons(result):
    return [bound.reason for bound in result.bounds]


def test_nothing_read_has_no_probability():
    result = judged()
    assert result.verdict == "not measured"
    assert [bound.probability for bound in result.bounds] == [None, None]
    assert result.unmeasured == ("gap",)


def test_a_term_without_reading_leaves_the_chain_not_measured():
    result = judged(values=[bore("b", 60.06e-3)], terms=CLEARANCE)
    assert result.verdict == "not measured"
    assert result.unmeasured == ("bore2", "journal")


def test_places_without_reading_are_named_and_the_rest_is_judged():
    result = judged(values=[bore("b", 60.06e-3), journal("j", 60.0e-3)], terms=CLEARANCE)
    assert result.verdict == "within"
    assert result.unmeasured == ("bore2",)


def test_a_blade_that_goes_leaves_the_upper_bound_open():
    result = judged([tried("a", GOES, 0.05)])
    verified(result.bounds[0].probability, normal(10.0 / 1.5), by="closed form", tolerance=1e-12)
    assert result.bounds[1].probability is None
    assert reasons(result) == [None, "nothing bounds it"]
    assert result.verdict == "unproven"


def test_a_thin_blade_that_goes_says_nothing_of_a_lower_bound():
    result = judged([tried("a", GOES, 0.02)])
    assert [bound.verdict for bound in result.bounds] == ["unproven", "unproven"]
    assert reasons(result) == ["nothing bounds it", "nothing bounds it"]


def test_a_blade_below_the_limit_that_does_not_go_shows_that_it_fails():
    result = judged([tried("a", NOT, 0.03)])
    assert result.verdict == "outside"
    verified(result.bounds[0].probability, normal(-10.0 / 1.5), by="closed form", tolerance=1e-6)


def test_a_blade_above_the_limit_that_goes_shows_that_it_fails():
    assert judged([tried("a", FREELY, 0.08)]).verdict == "outside"


def test_of_several_blades_the_one_that_says_most_counts():
    both = judged([tried("a", GOES, 0.03), tried("b", GOES, 0.042)])
    one = judged([tried("b", GOES, 0.042)])
    assert both.bounds[0].probability == one.bounds[0].probability


def test_a_coarse_bracket_is_too_coarse():
    result = judged([tried("a", GOES, 0.05), tried("b", NOT, 0.10)])
    assert [bound.verdict for bound in result.bounds] == ["within", "unproven"]
    assert reasons(result) == [None, "too coarse"]
    verified(result.bounds[1].probability, 0.5, by="hand: an even gap between 0.05 and 0.10", tolerance=0.001)


def test_a_value_near_the_limit_is_at_the_limit():
    result = judged(values=[ValueReading("v", "gap", 41e-6, 2e-6)])
    assert reasons(result) == ["at the limit", None]
    verified(result.bounds[0].acceptance_limit, 43.2897e-6, by="hand: 40 + 1.64485 x 2", tolerance=1e-5)


def test_a_gauge_that_is_too_coarse_says_so():
    result = judged(values=[ValueReading("v", "gap", 57e-6, 12e-6)])
    assert reasons(result) == ["too coarse", "too coarse"]


def test_contradiction_of_two_blades():
    result = judged([tried("a", NOT, 0.05), tried("b", GOES, 0.06)])
    assert result.verdict == "unproven"
    assert reasons(result) == ["contradictory", "contradictory"]
    found = result.contradictions[0]
    assert found.readings == ("a", "b")
    verified(found.probability_consistent, normal(-10.0 / (1.5 * 2**0.5)), by="closed form", tolerance=1e-9)
    assert found.explanations[0].text == "one answer mistyped (1 in 200)"
    verified(sum(one.weight for one in found.explanations), 1.0, by="weights add up", tolerance=1e-12)
    slip, elsewhere = 1.0 - 0.995**2, 1.0 - 0.9975**2
    verified(
        found.explanations[0].weight, slip / (slip + elsewhere), by="hand, thickness left out", tolerance=2e-4
    )


def test_doubtful_blades_explain_it_themselves():
    close = [
        BladeReading("a", "gap", (Blade("x", 50e-6, 2e-6),), NOT, BUILDER),
        BladeReading("b", "gap", (Blade("y", 54.7e-6, 2e-6),), GOES, BUILDER),
    ]
    found = judged(close).contradictions[0]
    verified(found.probability_consistent, normal(-4.7 / 8**0.5), by="closed form", tolerance=1e-9)
    assert found.explanations[0].text == "blade thickness differs from its marking"


def test_blades_that_may_well_differ_do_not_contradict():
    assert not judged([tried("a", NOT, 0.05), tried("b", GOES, 0.051)]).contradictions


def test_one_blade_cannot_go_and_not_go():
    found = judged([tried("a", NOT, 0.05), tried("b", GOES, 0.05)]).contradictions
    assert found[0].probability_consistent == 0.0


def test_a_value_far_from_its_blades_contradicts_them():
    result = judged([tried("a", NOT, 0.05)], [ValueReading("v", "gap", 60e-6, 2e-6)])
    assert result.contradictions[0].readings == ("a", "v")
    assert reasons(result) == ["contradictory", "contradictory"]


def test_a_place_shown_outside_stays_outside_beside_a_contradiction():
    contradictory = [tried("a", NOT, 0.05), tried("b", GOES, 0.06)]
    small = [tried("c", NOT, 0.03, place="gap2")]
    result = judged(contradictory + small, terms=[Term(1.0, ("gap", "gap2"))])
    assert result.verdict == "outside"
    assert result.bounds[1].reason == "contradictory"


def test_a_place_open_on_one_side_leaves_the_bound_open():
    readings = [tried("a", GOES, 0.06), tried("b", NOT, 0.07), tried("c", GOES, 0.06, place="gap2")]
    result = judged(readings, terms=[Term(1.0, ("gap", "gap2"))])
    assert [bound.verdict for bound in result.bounds] == ["within", "unproven"]
    assert result.bounds[1].places == ("gap2",)


def test_drags_bounds_both_sides():
    result = judged([tried("a", DRAGS, 0.06)])
    assert result.verdict == "within"
    assert result.method == "truncated"
    assert 60e-6 < result.value < 64e-6


def test_a_subtracted_gap_turns_its_blades_round():
    terms = [Term(1.0, ("depth",)), Term(-1.0, ("gap",))]
    depth = ValueReading("d", "depth", 100e-6, 1e-6)
    result = judged([tried("a", GOES, 0.05)], [depth], terms)
    # depth - gap is at most 0.05.
    assert result.bounds[0].probability is None
    verified(
        result.bounds[1].probability, normal(25.0 / (1.0 + 1.5**2) ** 0.5), by="closed form", tolerance=1e-12
    )


def test_a_plug_without_uncertainty_and_its_no_go():
    pins = [
        BladeReading("a", "gap", (Blade("go", 12.702e-3, 0.0),), GOES, BUILDER),
        BladeReading("b", "gap", (Blade("no go", 12.707e-3, 0.0),), NOT, BUILDER),
    ]
    bounds = [Bound("lower", 12.702e-3), Bound("upper", 12.7045e-3)]
    result = judged(pins, bounds=bounds)
    verified(
        [bound.probability for bound in result.bounds], [1.0, 0.5], by="hand: even", tolerance=absolute(1e-9)
    )


def test_values_that_share_every_error_may_stand_beside_blades():
    shared = (Shared(Unknown("m", 2e-6), 1.0),)
    values = [ValueReading(key, key, 62e-6, 0.0, shared=shared) for key in ("left", "right")]
    readings = [tried("a", GOES, 0.06, place="left"), tried("b", NOT, 0.07, place="right")]
    terms = [Term(1.0, ("left",)), Term(-1.0, ("right",))]
    result = judge_chain(terms, values, readings, [Bound("upper", 1e-6)], RULE)
    verified(result.value, 0.0, by="hand: every error cancels", tolerance=absolute(1e-10))
    assert result.verdict == "within"


def test_pairs_choose_the_combinations():
    values = [bore("b", 60.06e-3), bore("c", 60.03e-3, "bore2"), journal("j", 60.0e-3)]
    every = judge_chain(CLEARANCE, values, [], LIMITS, RULE)
    one = judge_chain(CLEARANCE, values, [], LIMITS, RULE, pairs=[("bore", "journal")])
    assert (every.verdict, one.verdict) == ("outside", "within")
    with pytest.raises(MismatchedPairError, match="one place of each of the 2 terms"):
        judge_chain(CLEARANCE, values, [], LIMITS, RULE, pairs=[("bore",)])


def test_budget_adds_up_to_the_uncertainty():
    for blades, values in (
        ([], [bore("b", 60.06e-3), journal("j", 60.0e-3)]),
        (
            [tried("x", GOES, 60.055, place="bore"), tried("y", NOT, 60.065, place="bore")],
            [bore("b", 60.06e-3), journal("j", 60.0e-3)],
        ),
        (
            [tried("x", GOES, 60.055, place="bore"), tried("y", NOT, 60.065, place="bore")],
            [journal("j", 60.0e-3)],
        ),
    ):
        result = judged(blades, values, CLEARANCE)
        total = sum(part**2 for _, part, _ in result.budget) ** 0.5
        verified(total, result.standard_uncertainty, by="root sum of squares of the budget", tolerance=1e-9)


def test_few_degrees_of_freedom_widen_values_beside_blades():
    value = ValueReading("v", "gap", 62e-6, 2e-6, 4)
    result = judged([tried("a", GOES, 0.06)], [value])
    assert "widened" in result.cautions[0]
    sure = judged([tried("a", GOES, 0.06)], [ValueReading("v", "gap", 62e-6, 2e-6)])
    assert result.standard_uncertainty > sure.standard_uncertainty


@pytest.mark.parametrize("degrees_of_freedom", [3.0, 12.0, float("inf")])
def test_the_narrowest_band_is_where_proving_begins(degrees_of_freedom):
    rule, uncertainty = DecisionRule(0.99, 0.01), 1.7e-6
    low, high = 0.0, 1e-3
    for _ in range(60):
        middle = 0.5 * (low + high)
        proves = can_prove(0.0, middle, uncertainty, rule, degrees_of_freedom).can_prove
        low, high = (low, middle) if proves else (middle, high)
    found = narrowest_band(uncertainty, rule, degrees_of_freedom)
    verified(found, high, by="bisection of the width at which can_prove changes its answer", tolerance=1e-9)


@pytest.mark.parametrize(
    "call, error",
    [
        (lambda: estimate([journal("a", 1.0), journal("a", 1.0)]), DuplicateReadingError),
        (
            lambda: estimate(
                [
                    journal("a", 1.0),
                    ValueReading(
                        "b", "x", 1.0, 1e-6, shared=(Shared(Unknown("micrometer setting", 9e-6), 1.0),)
                    ),
                ]
            ),
            InconsistentUnknownError,
        ),
        (lambda: estimate([journal("a", 1.0)]).combine({"nowhere": 1.0}), UnknownPlaceError),
        (
            lambda: estimate(
                [
                    ValueReading("a", "x", 1.0, 0.0, shared=(Shared(Unknown("u", 1e-6), 1.0),)),
                    ValueReading(
                        "b",
                        "x",
                        1.0,
                        0.0,
                        shared=(Shared(Unknown("u", 1e-6), 1.0), Shared(Unknown("v", 0.0), 1.0)),
                    ),
                ]
            ),
            DependentReadingsError,
        ),
        (
            lambda: judged([tried("a", GOES, 0.05), tried("b", GOES, 0.06, drag=Drag("builder", 9e-6))]),
            InconsistentUnknownError,
        ),
        (lambda: ValueReading("a", "x", float("nan"), 1e-6), OutOfDomainError),
        (lambda: ValueReading("a", "x", 1.0, -1e-6), OutOfDomainError),
        (lambda: Unknown("u", 1e-6, 0.0), OutOfDomainError),
        (lambda: Bound("middle", 1.0), OutOfDomainError),
        (lambda: DecisionRule(0.4), OutOfDomainError),
        (lambda: DecisionRule(0.95, 0.6), OutOfDomainError),
        (lambda: BladeReading("a", "x", (), GOES, BUILDER), OutOfDomainError),
        (
            lambda: BladeReading("a", "x", (Blade("x", 1e-4, 0.0),), DRAGS, Drag("p", 0.0, 0.0)),
            OutOfDomainError,
        ),
    ],
)
def test_bad_input_is_refused_in_one_sentence(call, error):
    with pytest.raises(error) as caught:
        call()
    assert "\n" not in str(caught.value)
