"""Two routes to one fit, held against each other; never averaged."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.assess.chains import Chain
from fitwright.assess.results import RouteComparison
from fitwright.model.fit import Route
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.result import ChainResult

COVERAGE_FACTOR = 2.0
"""Routes agree while they differ by no more than this many standard uncertainties."""


def compare(chains: Sequence[tuple[Route, Chain, ChainResult | None]]) -> RouteComparison | None:
    """Compare the means of both routes over all their places; None unless both have a value.

    Their worst places would not do: one route may be worst where it is widest and the other where it is
    narrowest, and then taper would look like a disagreement.
    """
    if len(chains) != 2:
        return None
    (_, first, of_first), (_, second, of_second) = chains
    if of_first is None or of_second is None or of_first.value is None or of_second.value is None:
        return None
    if first.blades() or second.blades():
        return None
    readings = {each.key: each for each in (*first.values(), *second.values())}
    coefficients = _signed(first, 1.0)
    for place, factor in _signed(second, -1.0).items():
        coefficients[place] = coefficients.get(place, 0.0) + factor
    combined = estimate(tuple(readings.values())).combine(coefficients)
    agree = abs(combined.value) <= COVERAGE_FACTOR * combined.standard_uncertainty
    words = (
        "the two routes agree"
        if agree
        else "the two routes disagree: shells not seated, or a reading is wrong"
    )
    return RouteComparison(combined.value, combined.standard_uncertainty, agree, words)


def _signed(chain: Chain, sign: float) -> dict[str, float]:
    found: dict[str, float] = {}
    for member in chain.members:
        for place in member.places:
            found[place] = found.get(place, 0.0) + sign * member.coefficient / len(member.places)
    return found
