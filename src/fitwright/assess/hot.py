"""Fits at their temperature cases: estimated from assumed part temperatures, not judged."""

from __future__ import annotations

from math import hypot, sqrt
from typing import TYPE_CHECKING

from fitwright.assess.chains import Chain, signed_lengths, unknowns_of_lengths
from fitwright.assess.gauges import Gauges
from fitwright.assess.grip import change_of
from fitwright.assess.results import HotState
from fitwright.assess.subjects import Subject
from fitwright.model.dimension import Sense
from fitwright.model.part import TemperatureCase
from fitwright.physics.metrology.result import ChainResult
from fitwright.physics.metrology.unknowns import Shared

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge

_LENGTHS = {Sense.DIAMETRAL, Sense.RADIAL, Sense.AXIAL, Sense.LINEAR}
COVERAGE_FACTOR = 1.96
"""Half width of a 95 % interval in standard uncertainties."""


def hot_states(
    judge: Judge, subject: Subject, chain: Chain, result: ChainResult | None
) -> tuple[HotState, ...]:
    """The fit in every temperature case of the sheet; none without a value, or where nothing grows."""
    if result is None or result.value is None or subject.fit is None:
        return ()
    if subject.sense not in _LENGTHS:
        return ()
    states = [
        _state(judge.gauges, subject, chain, result, case) for case in judge.sheet.temperature_cases.values()
    ]
    judged = {limit.temperature_case for limit in subject.limits}
    return tuple(
        HotState(
            case=case.id,
            title=case.title,
            value=(result.value or 0.0) + change,
            standard_uncertainty=uncertainty,
            interval=_interval(result, change, spread),
            change=change,
            judged=case.id in judged,
        )
        for case, change, spread, uncertainty in states
        if spread > 0.0
    )


def _state(
    gauges: Gauges, subject: Subject, chain: Chain, result: ChainResult, case: TemperatureCase
) -> tuple[TemperatureCase, float, float, float]:
    lengths = signed_lengths(gauges, subject, chain)
    change = change_of(gauges, lengths, case)
    unknowns = unknowns_of_lengths(gauges, lengths, case)
    spread = _root_sum(unknowns)
    return case, change, spread, hypot(result.standard_uncertainty or 0.0, spread)


def _root_sum(unknowns: tuple[Shared, ...]) -> float:
    return sqrt(sum((one.sensitivity * one.unknown.standard_uncertainty) ** 2 for one in unknowns))


def _interval(result: ChainResult, change: float, spread: float) -> tuple[float | None, float | None]:
    """The cold interval moved by the change and widened by what is not known of it."""
    middle = result.value or 0.0
    low, high = result.interval
    wider = COVERAGE_FACTOR * spread
    return (
        None if low is None else middle + change - hypot(middle - low, wider),
        None if high is None else middle + change + hypot(high - middle, wider),
    )
