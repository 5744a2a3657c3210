"""The size of a dimension by what was read of it."""

from __future__ import annotations

from fitwright.assess.chains import Chain
from fitwright.assess.judging import Judge
from fitwright.assess.posed import Posed
from fitwright.physics.numerics.errors import PhysicsError

Size = tuple[float | None, float | None]
"""A value with its standard uncertainty [SI]; None where nothing was read."""

NOT_READ: Size = (None, None)


def size_of(judge: Judge, name: str) -> Size:
    """A dimension as it is judged where it has limits, else at the places read."""
    dimension = judge.sheet.dimensions.get(name)
    if dimension is None or not judge.member(name).read:
        return NOT_READ
    if name in judge.subjects:
        found = judge.verdict(judge.subjects[name])
        return found.value, found.standard_uncertainty
    chain = Chain((judge.member(name),))
    posed = Posed(tuple(chain.terms(dimension.judged)), chain.values(), chain.blades())
    try:
        result = posed.judged([], judge.rules.of(dimension.limit_class))
    except PhysicsError:
        return NOT_READ
    return result.value, result.standard_uncertainty
