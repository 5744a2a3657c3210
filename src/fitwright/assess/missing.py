"""A fit that lacks exactly one member: the size wanted of it, as the gauge on the shelf would read it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf
from typing import TYPE_CHECKING

from fitwright.assess.bounds import Asked
from fitwright.assess.chains import Chain, Member
from fitwright.assess.results import SizeWanted
from fitwright.assess.setting_chains import repeatability_of
from fitwright.assess.subjects import Subject
from fitwright.physics.metrology.size_wanted import SizeWanted as Range
from fitwright.physics.metrology.size_wanted import size_wanted as wanted
from fitwright.physics.metrology.unknowns import Shared

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


@dataclass(frozen=True, slots=True)
class _Gauge:
    """What one reading of the missing member would bring with it."""

    code: str
    repeatability: float
    shared: tuple[Shared, ...]


def size_wanted(judge: Judge, subject: Subject, chain: Chain, asked: Sequence[Asked]) -> SizeWanted | None:
    """The sizes of the one missing member that would prove the fit within.

    None unless exactly one member of the governing route is unknown and all others are values. Of the
    gauges on the shelf the one that leaves the widest range: with the micrometer that set the bore
    gauge, errors cancel that would not with another.
    """
    missing = [member for member in chain.members if not member.known]
    bounds = [one.bound for one in asked if one.ruled.governs and one.case is None]
    if len(missing) != 1 or len(chain.members) == 1 or not bounds or chain.blades():
        return None
    known = Chain(tuple(member for member in chain.members if member.known))
    found = {
        gauge.code: wanted(
            known.terms(subject.judged),
            known.values(),
            missing[0].coefficient,
            bounds,
            judge.rules.of(subject.limit_class),
            repeatability=gauge.repeatability,
            shared=gauge.shared,
        )
        for gauge in _gauges(judge, missing[0])
    }
    code = max(sorted(found), key=lambda name: _width(found[name]))
    best = found[code]
    return SizeWanted(
        dimension=missing[0].dimension.id,
        low=best.smallest,
        high=best.largest,
        target=best.middle,
        possible=best.is_possible,
        gauge=code,
    )


def _width(found: Range) -> float:
    """How much room a range leaves; with one end only, how little was taken off it."""
    if found.smallest is None or found.largest is None:
        return -found.standard_uncertainty
    return found.largest - found.smallest


def _gauges(judge: Judge, member: Member) -> list[_Gauge]:
    """The gauges on the shelf that could read the missing member, in the settings they stand in."""
    return list(_on_shelf(judge, member)) or [_Gauge("", 0.0, ())]


def _on_shelf(judge: Judge, member: Member) -> Iterator[_Gauge]:
    nominal = member.dimension.nominal
    for held in judge.gauges.shop.instruments.values():
        gauge = held.body
        low, high = gauge.range_low or 0.0, gauge.range_high or inf
        if gauge.type not in member.dimension.instruments:
            continue
        if nominal is not None and not low <= nominal.si <= high:
            continue
        shared = judge.gauges.unknowns(gauge, judge.gauges.last_setting(gauge))
        yield _Gauge(gauge.code, repeatability_of(gauge), tuple(shared))
