"""Probabilities against ten million draws that know nothing of how they are computed."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np

from benchmarks.figure import Figure
from fitwright.physics.metrology.chain import Bound, DecisionRule, Term, judge_chain
from tests.support.metrology import DRAGS, GOES, NOT, Oracle, bore, journal, share, tried

RUNS = 10  # of a million draws each


def figures() -> Iterator[Figure]:
    """The largest deviation of a probability, over values, blades, and both together."""
    worst = max(each() for each in (_values, _blades, _both))
    yield Figure(
        "deviation of a probability from 1e7 draws",
        worst,
        "",
        "largest of 9: values, blades, both",
        most=0.002,
    )


def _deviation(computed: float, drawn: Callable[[Oracle], float]) -> float:
    return abs(computed - float(np.mean([drawn(Oracle(seed=seed)) for seed in range(RUNS)])))


def _values() -> float:
    readings = [bore("b", 60.056e-3), journal("j", 60.0e-3)]
    terms = [Term(1.0, ("bore",)), Term(-1.0, ("journal",))]
    found = []
    for limit in (53e-6, 56e-6, 57e-6):
        result = judge_chain(terms, readings, [], [Bound("lower", limit)], DecisionRule())
        found.append(
            _deviation(
                result.bounds[0].probability or 0.0,
                lambda oracle, limit=limit: share(
                    oracle.size(readings[0]) - oracle.size(readings[1]) >= limit
                ),
            )
        )
    return max(found)


def _blades() -> float:
    readings = [tried("a", GOES, 0.06), tried("b", NOT, 0.07)]
    found = []
    for limit in (61e-6, 65e-6, 68e-6):
        result = judge_chain([Term(1.0, ("gap",))], [], readings, [Bound("upper", limit)], DecisionRule())

        def drawn(oracle: Oracle, limit: float = limit) -> float:
            gap, weight = oracle.gap(readings)
            return share(gap <= limit, weight)

        found.append(_deviation(result.bounds[0].probability or 0.0, drawn))
    return max(found)


def _both() -> float:
    value = journal("v", 62e-6, place="gap")
    readings = [tried("a", DRAGS, 0.06), tried("b", NOT, 0.065)]
    found = []
    for limit in (61e-6, 62e-6, 63e-6):
        result = judge_chain(
            [Term(1.0, ("gap",))], [value], readings, [Bound("lower", limit)], DecisionRule()
        )

        def drawn(oracle: Oracle, limit: float = limit) -> float:
            gap = oracle.size(value)
            return share(gap >= limit, oracle.agrees(gap, readings))

        found.append(_deviation(result.bounds[0].probability or 0.0, drawn))
    return max(found)
