"""The laws that every verdict obeys."""

from dataclasses import replace
from math import inf

from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from fitwright.physics.metrology.chain import Bound, DecisionRule, Term, judge_chain
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.readings import Blade, BladeReading, Drag, ValueReading
from fitwright.physics.metrology.settling import Known, what_settles
from fitwright.physics.metrology.unknowns import Shared, Unknown
from tests.support.metrology import BUILDER, DRAGS, FREELY, GOES, NOT, blade

RULE = DecisionRule()
GAP = [Term(1.0, ("gap",))]
ROUNDING = 1e-9

micrometres = st.floats(-30.0, 30.0).map(lambda x: round(x, 2) * 1e-6)
uncertainties = st.floats(0.2, 5.0).map(lambda x: round(x, 2) * 1e-6)
UNKNOWNS = st.sampled_from([Unknown("m", 1.0e-6), Unknown("s", 0.5e-6, 9), Unknown("t", 1.2e-6, 20)])
shares = st.lists(
    st.builds(Shared, UNKNOWNS, st.sampled_from([1.0, -1.0, 0.5])),
    max_size=3,
    unique_by=lambda one: one.unknown,
).map(tuple)


@st.composite
def value_readings(draw, places=("bore", "journal", "shell"), least=3, most=8):
    """Readings with every place read at least once."""
    chosen = list(places) + draw(
        st.lists(st.sampled_from(places), min_size=max(least - len(places), 0), max_size=most - len(places))
    )
    return [
        ValueReading(f"r{i:02}", place, 50e-3 + draw(micrometres), draw(uncertainties), shared=draw(shares))
        for i, place in enumerate(chosen)
    ]


@st.composite
def blade_readings(draw, answers=(GOES, FREELY, DRAGS, NOT), least=1, most=4):
    """Answers of different blades at one gap that may well contradict each other."""
    thicknesses = draw(st.lists(st.integers(2, 12), min_size=least, max_size=most, unique=True))
    return [
        BladeReading(f"b{i:02}", "gap", (blade(t / 100),), draw(st.sampled_from(answers)), BUILDER)
        for i, t in enumerate(thicknesses)
    ]


limits = st.integers(20, 130).map(lambda x: x * 1e-6)
CHAIN = [Term(1.0, ("bore",)), Term(-1.0, ("journal",)), Term(-2.0, ("shell",))]


def probabilities(readings, side, limit, values=()):
    result = judge_chain(GAP, values, readings, [Bound(side, limit)], RULE)
    return None if result.contradictions else result.bounds[0].probability


@given(value_readings(), st.data())
def test_one_more_value_never_raises_an_uncertainty(readings, data):
    place = data.draw(st.sampled_from(["bore", "journal", "shell"]))
    more = ValueReading("new", place, 50e-3, data.draw(uncertainties), shared=data.draw(shares))
    coefficients = {"bore": 1.0, "journal": -1.0, "shell": data.draw(st.sampled_from([0.0, -2.0, 1.0]))}
    before = estimate(readings).combine(coefficients).standard_uncertainty
    after = estimate([*readings, more]).combine(coefficients).standard_uncertainty
    assert after <= before * (1.0 + ROUNDING)


@given(value_readings(most=3), st.floats(1.01, 5.0), micrometres)
def test_larger_uncertainties_never_make_values_surer(readings, factor, limit):
    def surer(scale):
        scaled = [
            replace(
                reading,
                repeatability=scale * reading.repeatability,
                shared=tuple(
                    replace(
                        one,
                        unknown=replace(
                            one.unknown, standard_uncertainty=scale * one.unknown.standard_uncertainty
                        ),
                    )
                    for one in reading.shared
                ),
            )
            for reading in readings
        ]
        p = judge_chain(CHAIN, scaled, [], [Bound("lower", limit - 100e-3)], RULE).bounds[0].probability
        return max(p, 1.0 - p)

    assert surer(factor) <= surer(1.0) + ROUNDING


@given(blade_readings((GOES, FREELY), most=1), st.floats(1.01, 5.0), limits)
def test_larger_uncertainties_never_make_a_one_sided_blade_surer(readings, factor, limit):
    def surer(scale):
        scaled = [
            replace(
                reading,
                blades=tuple(
                    replace(one, standard_uncertainty=scale * one.standard_uncertainty)
                    for one in reading.blades
                ),
                drag=replace(BUILDER, standard_uncertainty=scale * BUILDER.standard_uncertainty),
            )
            for reading in readings
        ]
        p = probabilities(scaled, "lower", limit)
        return max(p, 1.0 - p)

    assert surer(factor) <= surer(1.0) + ROUNDING


@given(blade_readings(most=4), st.integers(2, 12), limits, st.booleans())
def test_a_blade_never_lowers_the_probability_of_the_bound_it_speaks_for(readings, thickness, limit, goes):
    answer, side = (GOES, "lower") if goes else (NOT, "upper")
    new = BladeReading("new", "gap", (Blade("new", thickness * 1e-5, 1.5e-6),), answer, BUILDER)
    before = judge_chain(GAP, [], readings, [Bound(side, limit)], RULE)
    after = judge_chain(GAP, [], [*readings, new], [Bound(side, limit)], RULE)
    assume(not before.contradictions and not after.contradictions)
    # One-sided and two-sided probabilities answer different questions; the law is within each.
    assume(before.method == after.method and before.bounds[0].probability is not None)
    assert after.bounds[0].probability >= before.bounds[0].probability - 1e-6


@settings(max_examples=15, deadline=None)
@example(2.0e-6, 1, 2.0, -4)
@given(uncertainties, st.integers(1, 5), st.floats(1.5, 6.0), st.integers(-8, 4))
def test_a_less_certain_blade_in_an_open_gap_never_lowers_the_bound_of_the_chain(u, more, factor, margin):
    terms = [Term(1.0, ("gap",)), Term(1.0, ("closed",))]
    closed = [
        BladeReading("c1", "closed", (blade(0.06),), GOES, BUILDER),
        BladeReading("c2", "closed", (blade(0.07),), NOT, BUILDER),
    ]
    first, second = (
        BladeReading(key, "gap", (Blade(key, size * 1e-6, uncertain),), GOES, BUILDER)
        for key, size, uncertain in (("a", 50, u), ("b", 50 + more, factor * u))
    )
    bounds = [Bound("lower", 115e-6 + margin * 1e-6)]
    before, after = (
        judge_chain(terms, [], closed + some, bounds, RULE).bounds[0].probability
        for some in ([first], [first, second])
    )
    # One more unknown moves the points that the space is filled with.
    assert after >= before - 0.002


@given(
    st.integers(30, 90),
    uncertainties,
    st.sampled_from([1, 2, 5, 20, inf]),
    st.integers(2, 12),
    st.sampled_from([GOES, NOT]),
)
@example(65, 2.0e-6, 2, 5, GOES)
def test_a_blade_beside_a_value_never_lowers_the_bound_it_speaks_for(size, u, freedoms, thickness, answer):
    value = ValueReading("v", "gap", size * 1e-6, u, freedoms)
    side, sign = ("lower", -1.0) if answer == GOES else ("upper", 1.0)
    new = BladeReading("new", "gap", (blade(thickness / 100),), answer, BUILDER)
    for score in (1.0, 3.0, 8.0):
        limit = size * 1e-6 + sign * score * u
        before = probabilities([], side, limit, [value])
        after = probabilities([new], side, limit, [value])
        assert after is None or after >= before - ROUNDING


@given(blade_readings(), limits, limits)
def test_probability_is_monotone_in_the_limit(readings, first, second):
    low, high = sorted((first, second))
    for side, order in (("lower", -1.0), ("upper", 1.0)):
        at_low, at_high = (probabilities(readings, side, limit) for limit in (low, high))
        if at_low is not None and at_high is not None:
            assert order * (at_high - at_low) >= -1e-6


@given(value_readings(), micrometres, micrometres)
def test_probability_of_values_is_monotone_in_the_limit(readings, first, second):
    low, high = (limit - 100e-3 for limit in sorted((first, second)))
    lows = judge_chain(CHAIN, readings, [], [Bound("lower", low), Bound("lower", high)], RULE).bounds
    assert lows[0].probability >= lows[1].probability


@given(value_readings(most=6), blade_readings(), st.randoms(use_true_random=False))
def test_order_and_unrelated_entries_change_no_digit(readings, blades, chance):
    terms = [*CHAIN, Term(1.0, ("gap",))]
    bounds = [Bound("lower", -100e-3), Bound("upper", -100e-3 + 90e-6)]
    first = judge_chain(terms, readings, blades, bounds, RULE)
    elsewhere = ValueReading("a note", "elsewhere", 1.0, 1e-6, shared=readings[0].shared)
    untouched = BladeReading("another", "other gap", (blade(0.05),), NOT, BUILDER)
    readings, blades = [*readings, elsewhere], [untouched, *blades]
    chance.shuffle(readings)
    chance.shuffle(blades)
    assert judge_chain(terms, readings, blades, bounds, RULE) == first


@given(value_readings(), st.integers(-30, 30))
def test_inch_and_millimetre_sheets_agree(readings, limit):
    inch = 25.4e-3
    turned = [
        replace(
            reading,
            value=reading.value / inch * inch,
            repeatability=reading.repeatability / inch * inch,
        )
        for reading in readings
    ]
    bound = Bound("lower", limit * 1e-6 - 100e-3)
    first, second = (judge_chain(CHAIN, some, [], [bound], RULE) for some in (readings, turned))
    assert abs(first.value - second.value) <= 1e-12
    assert abs(first.bounds[0].probability - second.bounds[0].probability) <= 1e-7


@given(value_readings(), st.floats(0.1, 100.0))
def test_another_unit_of_length_changes_no_probability(readings, scale):
    scaled = [
        replace(
            reading,
            value=scale * reading.value,
            repeatability=scale * reading.repeatability,
            shared=tuple(replace(one, sensitivity=scale * one.sensitivity) for one in reading.shared),
        )
        for reading in readings
    ]
    bounds = [Bound("lower", -100e-3)], [Bound("lower", -100e-3 * scale)]
    first, second = (
        judge_chain(CHAIN, some, [], bound, RULE)
        for some, bound in zip((readings, scaled), bounds, strict=True)
    )
    assert abs(first.bounds[0].probability - second.bounds[0].probability) <= 1e-6


@given(blade_readings(), limits)
def test_a_probability_is_one_or_says_why_not(readings, limit):
    result = judge_chain(GAP, [], readings, [Bound("lower", limit), Bound("upper", limit + 30e-6)], RULE)
    for bound in result.bounds:
        if bound.probability is None:
            assert bound.verdict == "unproven"
            assert bound.reason in ("nothing bounds it", "contradictory")
        else:
            assert 0.0 <= bound.probability <= 1.0
            assert (bound.verdict == "unproven") == (bound.reason is not None)
    if result.contradictions:
        assert abs(sum(one.weight for one in result.contradictions[0].explanations) - 1.0) < 1e-12
        assert all(bound.probability is None for bound in result.bounds)


@given(st.integers(20, 90), uncertainties, st.integers(2, 12), limits)
def test_what_settles_never_promises_more_than_certainty(size, u, thickness, limit):
    known = Known(size * 1e-6, u)
    for one in what_settles(Bound("lower", limit), RULE, known, shelf=[blade(thickness / 100)]):
        assert 0.0 < one.settles <= 1.0 + ROUNDING


def test_a_drag_that_is_certain_moves_the_edge_by_just_that():
    sure = Drag("gauge", 5e-6, 0.0)
    freely = BladeReading("a", "gap", (blade(0.05),), FREELY, sure)
    goes = BladeReading("a", "gap", (blade(0.055),), GOES, sure)
    assert probabilities([freely], "lower", 54e-6) == probabilities([goes], "lower", 54e-6)
