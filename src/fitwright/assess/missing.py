"""A fit that lacks exactly one member: the size wanted of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fitwright.assess.bounds import Asked
from fitwright.assess.chains import Chain, Member
from fitwright.assess.gauges import repeatability_of
from fitwright.assess.results import SizeWanted
from fitwright.assess.subjects import Subject
from fitwright.physics.metrology.size_wanted import size_wanted as wanted

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


def size_wanted(judge: Judge, subject: Subject, chain: Chain, asked: Sequence[Asked]) -> SizeWanted | None:
    """The sizes of the one missing member that would prove the fit within.

    None unless exactly one member of the governing route is unknown and all others are values.
    """
    missing = [member for member in chain.members if not member.known]
    bounds = [one.bound for one in asked if one.ruled.governs and one.case is None]
    if len(missing) != 1 or len(chain.members) == 1 or not bounds or chain.blades():
        return None
    known = Chain(tuple(member for member in chain.members if member.known))
    found = wanted(
        known.terms(subject.judged),
        known.values(),
        missing[0].coefficient,
        bounds,
        judge.rules.of(subject.limit_class),
        repeatability=_repeatability(judge, missing[0]),
    )
    return SizeWanted(
        dimension=missing[0].dimension.id,
        low=found.smallest,
        high=found.largest,
        target=found.middle,
        possible=found.is_possible,
    )


def _repeatability(judge: Judge, member: Member) -> float:
    """What the gauge of the missing member would add of its own; the finest on the shelf."""
    return min(
        (
            repeatability_of(held.body)
            for held in judge.gauges.shop.instruments.values()
            if held.body.type in member.dimension.instruments
        ),
        default=0.0,
    )
