"""Which combination of places governs where every probability is one, or nought, to the last digit."""

from __future__ import annotations

import pytest

from fitwright.physics.metrology.chain import Bound, DecisionRule, Term, judge_chain
from fitwright.physics.metrology.readings import ValueReading
from tests.support.compare import absolute, verified

DEPTHS = {"a": 9.058e-3, "b": 9.058e-3, "c": 9.059e-3, "d": 9.057e-3}
WIDTHS = {"1": 8.995e-3, "2": 8.996e-3, "3": 8.995e-3}
BY = "least depth less greatest width, and the other way round, by hand"


def judged(lower, upper):
    depths = [ValueReading(f"d{name}", f"depth {name}", size, 1e-6) for name, size in DEPTHS.items()]
    widths = [ValueReading(f"w{name}", f"width {name}", size, 1e-6) for name, size in WIDTHS.items()]
    terms = [Term(1.0, tuple(r.place for r in depths)), Term(-1.0, tuple(r.place for r in widths))]
    bounds = [Bound("lower", lower), Bound("upper", upper)]
    return judge_chain(terms, [*depths, *widths], [], bounds, DecisionRule())


@pytest.mark.parametrize(
    "lower, upper",
    [
        (0.040e-3, 0.075e-3),
        (0.020e-3, 0.100e-3),
        (0.001e-3, 0.900e-3),
        (0.500e-3, 0.900e-3),
        (0.001e-3, 0.002e-3),
    ],
)
def test_each_bound_is_judged_at_its_own_worst_places_however_far_away(lower, upper):
    least, greatest = judged(lower, upper).bounds
    verified(least.value, 0.061e-3, by=BY, tolerance=absolute(1e-12))
    verified(greatest.value, 0.064e-3, by=BY, tolerance=absolute(1e-12))
    assert least.places == ("depth d", "width 2")
    assert greatest.places[0] == "depth c"


def test_the_nearer_bound_governs_where_both_are_certain():
    near_the_upper = judged(0.001e-3, 0.090e-3)
    verified(near_the_upper.value, 0.064e-3, by=BY, tolerance=absolute(1e-12))
    near_the_lower = judged(0.040e-3, 0.900e-3)
    verified(near_the_lower.value, 0.061e-3, by=BY, tolerance=absolute(1e-12))
