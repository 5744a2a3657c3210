"""Probabilities of blades against a Monte Carlo run that knows nothing of the quadrature."""

import numpy as np
import pytest
from scipy import stats

from fitwright.physics.metrology.chain import Bound, DecisionRule, Term, judge_chain
from fitwright.physics.metrology.readings import Blade, BladeReading, Drag, ValueReading
from fitwright.physics.metrology.unknowns import Shared
from tests.support.compare import absolute, verified
from tests.support.metrology import (
    BUILDER,
    CALIBRATION,
    DRAGS,
    FREELY,
    GOES,
    NOT,
    Oracle,
    bore,
    journal,
    share,
    tried,
)

RULE = DecisionRule()
APPRENTICE = Drag("apprentice", 2e-6, 1e-6)
ENOUGH = absolute(0.002)

ONE_GAP = {
    "goes and does not": [tried("a", GOES, 0.06), tried("b", NOT, 0.07)],
    "drags": [tried("a", DRAGS, 0.06)],
    "freely, drags, does not": [tried("a", FREELY, 0.05), tried("b", DRAGS, 0.06), tried("c", NOT, 0.07)],
    "one blade, two hands": [tried("a", DRAGS, 0.06), tried("b", FREELY, 0.06, drag=APPRENTICE)],
    "blade alone and in a stack": [tried("a", GOES, 0.3), tried("b", NOT, 0.3, 0.02)],
    "two stacks share a blade": [tried("a", DRAGS, 0.3, 0.01), tried("b", NOT, 0.3, 0.02)],
    "stacks share two blades": [
        tried("a", GOES, 0.3, 0.05, 0.01),
        tried("b", NOT, 0.3, 0.05, 0.02),
        tried("c", DRAGS, 0.36),
    ],
}


@pytest.mark.parametrize("readings", ONE_GAP.values(), ids=ONE_GAP)
def test_a_gap_read_with_blades(readings):
    oracle = Oracle()
    gap, weight = oracle.gap(readings)
    mean = np.average(gap, weights=weight)
    spread = np.sqrt(np.average((gap - mean) ** 2, weights=weight))
    for step in (-1.0, 0.3, 1.2):
        limit = float(mean + step * spread)
        result = judge_chain([Term(1.0, ("gap",))], [], readings, [Bound("upper", limit)], RULE)
        verified(result.bounds[0].probability, share(gap <= limit, weight), by="1e6 draws", tolerance=ENOUGH)
    verified(result.value, mean, by="1e6 draws", tolerance=absolute(0.02e-6))
    verified(result.standard_uncertainty, spread, by="1e6 draws", tolerance=0.01)
    inside = (gap >= result.interval[0]) & (gap <= result.interval[1])
    verified(share(inside, weight), 0.95, by="1e6 draws", tolerance=absolute(0.003))
    assert result.method == "truncated"


def test_a_value_and_blades_at_one_place():
    reading = journal("v", 62e-6, place="gap")
    readings = [tried("a", DRAGS, 0.06), tried("b", NOT, 0.065)]
    oracle = Oracle()
    gap = oracle.size(reading)
    weight = oracle.agrees(gap, readings)
    for limit in (61e-6, 62e-6, 63e-6):
        result = judge_chain([Term(1.0, ("gap",))], [reading], readings, [Bound("lower", limit)], RULE)
        verified(result.bounds[0].probability, share(gap >= limit, weight), by="1e6 draws", tolerance=ENOUGH)
    assert result.method == "truncated"


@pytest.mark.parametrize("freedoms", [2, 4, 9, 30])
@pytest.mark.parametrize("thickness", [0.050, 0.058, 0.062])
def test_few_degrees_of_freedom_beside_a_blade_are_on_the_safe_side_and_never_below_values_alone(
    freedoms, thickness
):
    value = ValueReading("v", "gap", 65e-6, 2e-6, freedoms)
    limit = 65e-6 - stats.t.ppf(0.955, freedoms) * 2e-6
    gap = np.linspace(-2e-3, 2e-3, 2_000_001)
    weight = stats.t.pdf((gap - 65e-6) / 2e-6, freedoms) * stats.norm.cdf((gap - thickness * 1e-3) / 1.5e-6)
    readings = [tried("a", GOES, thickness)]
    got = judge_chain([Term(1.0, ("gap",))], [value], readings, [Bound("lower", limit)], RULE).bounds[0]
    # The sum's grid of 2 nm is worth 1e-3 of the density at the limit.
    assert 0.955 - 1e-9 <= got.probability <= share(gap >= limit, weight) + 1e-4


def test_a_value_with_blades_takes_what_it_shares_with_the_rest_of_the_chain():
    depth, height = bore("v", 20.062e-3, place="depth"), journal("w", 20.0e-3, place="height")
    readings = [tried("a", GOES, 20.060, place="depth"), tried("b", NOT, 20.0625, place="depth")]
    terms = [Term(1.0, ("depth",)), Term(-1.0, ("height",))]
    oracle = Oracle()
    deep = oracle.size(depth)
    gap, weight = deep - oracle.size(height), oracle.agrees(deep, readings)
    for limit in (59e-6, 61e-6, 62.5e-6):
        result = judge_chain(terms, [depth, height], readings, [Bound("upper", limit)], RULE)
        verified(result.bounds[0].probability, share(gap <= limit, weight), by="1e6 draws", tolerance=ENOUGH)


def test_a_blade_gap_less_a_value():
    gasket = journal("w", 1.2e-3, place="gasket")
    readings = [tried("a", GOES, 0.06), tried("b", NOT, 0.07)]
    terms = [Term(1.0, ("gap",)), Term(0.5, ("gasket",))]
    extra = (Shared(CALIBRATION, 2.0),)
    oracle = Oracle()
    gap, weight = oracle.gap(readings)
    # Reading and chain are both too large by a positive error of an unknown with a positive sensitivity.
    total = (
        gap
        + 0.5 * oracle.size(gasket)
        - 2.0 * oracle.error(CALIBRATION.key, CALIBRATION.standard_uncertainty)
    )
    for limit in (662e-6, 665e-6, 667e-6):
        bounds = [Bound("lower", limit)]
        result = judge_chain(terms, [gasket], readings, bounds, RULE, extra=extra)
        verified(
            result.bounds[0].probability, share(total >= limit, weight), by="1e6 draws", tolerance=ENOUGH
        )


SEVERAL = {
    "difference, blades shared": (-1.0, []),
    "sum, blades shared": (1.0, []),
    "sum, a value at one of them": (1.0, [journal("v", 64e-6, place="right")]),
    "difference, values at both": (
        -1.0,
        [journal("v", 64e-6, place="right"), journal("w", 66e-6, place="left")],
    ),
}


@pytest.mark.parametrize("factor, values", SEVERAL.values(), ids=SEVERAL)
def test_two_gaps_read_with_the_same_blades(factor, values):
    left = [tried("a", GOES, 0.06, place="left"), tried("b", NOT, 0.07, place="left")]
    right = [tried("c", DRAGS, 0.06, place="right"), tried("d", NOT, 0.07, place="right")]
    oracle = Oracle()
    gaps, weight = {}, 1.0
    for place, readings in (("left", left), ("right", right)):
        read = [value for value in values if value.place == place]
        if read:
            gaps[place] = oracle.size(read[0])
            weight = weight * oracle.agrees(gaps[place], readings)
        else:
            gaps[place], more = oracle.gap(readings)
            weight = weight * more
    total = gaps["left"] + factor * gaps["right"]
    mean = np.average(total, weights=weight)
    spread = np.sqrt(np.average((total - mean) ** 2, weights=weight))
    terms = [Term(1.0, ("left",)), Term(factor, ("right",))]
    for step in (-1.0, 0.0, 1.5):
        limit = float(mean + step * spread)
        result = judge_chain(terms, values, left + right, [Bound("upper", limit)], RULE)
        verified(
            result.bounds[0].probability,
            share(total <= limit, weight),
            by="1e6 draws",
            tolerance=ENOUGH,
        )
    verified(result.standard_uncertainty, spread, by="1e6 draws", tolerance=0.02)


@pytest.mark.parametrize("blades", [1, 2, 5])
def test_answers_of_two_places_that_barely_agree_leave_no_probability_and_say_so(blades):
    # Each pair agrees with 0.08, which contradicts nothing by itself; both places together leave 0.006.
    readings = [
        BladeReading(
            f"{place}{answer}{i}", place, (Blade(f"{place}{size}{i}", size, 1.5e-6),), answer, BUILDER
        )
        for place in ("left", "right")
        for answer, size in ((GOES, 63e-6), (NOT, 60e-6))
        for i in range(blades)
    ]
    terms = [Term(1.0, ("left",)), Term(1.0, ("right",))]
    result = judge_chain(terms, [], readings, [Bound("lower", 120e-6)], RULE)
    assert not result.contradictions
    assert (result.verdict, result.bounds[0].probability) == ("unproven", None)
    assert result.bounds[0].reason == "contradictory"
    assert "left, right barely agree" in result.cautions[0]
    alone = judge_chain([Term(1.0, ("left",))], [], readings, [Bound("lower", 60e-6)], RULE)
    assert alone.bounds[0].probability is not None


def test_mean_of_four_gaps_read_with_the_same_blades():
    places = ("a", "b", "c", "d")
    readings = [tried(f"{p}1", GOES, 0.06, place=p) for p in places] + [
        tried(f"{p}2", NOT, 0.07, place=p) for p in places
    ]
    oracle = Oracle()
    drawn = [oracle.gap([one for one in readings if one.place == place]) for place in places]
    mean = sum(gap for gap, _ in drawn) / 4.0
    weight = np.prod([weight for _, weight in drawn], axis=0)
    terms = [Term(0.25, (place,)) for place in places]
    for limit in (63e-6, 65e-6, 67e-6):
        result = judge_chain(terms, [], readings, [Bound("upper", limit)], RULE)
        verified(
            result.bounds[0].probability,
            share(mean <= limit, weight),
            by="1e6 draws",
            tolerance=ENOUGH,
        )


def test_blades_on_one_side_only():
    readings = [tried("a", GOES, 0.04), tried("b", FREELY, 0.05), tried("c", FREELY, 0.3, 0.02, place="gap2")]
    oracle = Oracle()
    bounds = [Bound("lower", 51e-6), Bound("upper", 0.1e-3)]
    result = judge_chain([Term(1.0, ("gap",))], [], readings, bounds, RULE)
    edge = 50e-6 + oracle.error("0.050", 1.5e-6) + BUILDER.value + oracle.error("builder", 2e-6)
    verified(result.bounds[0].probability, share(edge >= 51e-6), by="1e6 draws", tolerance=ENOUGH)
    assert result.bounds[1].probability is None
    assert result.bounds[1].reason == "nothing bounds it"
    assert result.method == "blades one side"
    assert result.value is None
    assert result.interval[1] is None


def test_few_degrees_of_freedom_count_by_their_share_beside_a_blade():
    value = ValueReading("v", "gauge block", 1e-3, 0.5e-6, 4)
    terms = [Term(1.0, ("gap",)), Term(1.0, ("gauge block",))]
    result = judge_chain(terms, [value], [tried("a", GOES, 0.06)], [Bound("lower", 1.0565e-3)], RULE)
    u = np.hypot(0.5e-6, 1.5e-6)
    score, freedoms = 3.5e-6 / u, 4.0 * (u / 0.5e-6) ** 4
    by = "scipy.stats, Welch and Satterthwaite by hand"
    verified(result.bounds[0].probability, stats.t.cdf(score, freedoms), by=by, tolerance=1e-12)
    verified(result.interval[0], 1.06e-3 - stats.t.ppf(0.975, freedoms) * u, by=by, tolerance=1e-12)


def test_blades_on_one_side_of_each_of_two_gaps():
    readings = [tried("a", GOES, 0.05, place="left"), tried("b", FREELY, 0.05, place="right")]
    terms = [Term(1.0, ("left",)), Term(1.0, ("right",))]
    oracle = Oracle()
    floor = 2.0 * (50e-6 + oracle.error("0.050", 1.5e-6)) + BUILDER.value + oracle.error("builder", 2e-6)
    result = judge_chain(terms, [], readings, [Bound("lower", 100e-6)], RULE)
    verified(result.bounds[0].probability, share(floor >= 100e-6), by="1e6 draws", tolerance=ENOUGH)


def test_one_gap_closed_and_one_open():
    left = [tried("a", GOES, 0.06, place="left"), tried("b", NOT, 0.07, place="left")]
    right = [tried("c", FREELY, 0.06, place="right")]
    terms = [Term(1.0, ("left",)), Term(1.0, ("right",))]
    oracle = Oracle()
    gap, weight = oracle.gap(left)
    floor = gap + oracle.room(right)[0]
    bounds = [Bound("lower", 126e-6), Bound("upper", 140e-6)]
    result = judge_chain(terms, [], left + right, bounds, RULE)
    verified(
        result.bounds[0].probability,
        share(floor >= 126e-6, weight),
        by="1e6 draws",
        tolerance=ENOUGH,
    )
    assert result.bounds[1].probability is None
    assert result.verdict == "unproven"


def test_many_shared_unknowns_say_how_well_the_probability_is_known():
    readings = [
        tried("a", FREELY, 0.3, 0.05),
        tried("b", DRAGS, 0.3, 0.06),
        tried("c", NOT, 0.31, 0.06),
        tried("d", NOT, 0.31, 0.05, drag=APPRENTICE),
    ]
    gap, weight = Oracle().gap(readings)
    result = judge_chain([Term(1.0, ("gap",))], [], readings, [Bound("upper", 0.36e-3)], RULE)
    expected = share(gap <= 0.36e-3, weight)
    verified(result.bounds[0].probability, expected, by="1e6 draws", tolerance=absolute(0.005))
