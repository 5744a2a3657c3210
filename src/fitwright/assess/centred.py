"""What a centring comes to: a result as a chain's, and where the housing sits."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, radians

from fitwright.assess.bounds import overall_of
from fitwright.assess.chains import Member
from fitwright.assess.gauges import place_key
from fitwright.assess.results import CentringFound
from fitwright.physics.fits.centring import OFFSET_UNKNOWNS, gap_design, tells_apart
from fitwright.physics.metrology.conformity import (
    Bound,
    DecisionRule,
    Reason,
    Verdict,
    acceptance_limit,
)
from fitwright.physics.metrology.result import BoundResult, ChainResult

WORDS_OF_ANGLE = {"top": 0.0, "right": 90.0, "bottom": 180.0, "left": 270.0}
"""Angles of the four stations, clockwise seen from the nose [degrees]."""

_PLACE = re.compile(r"^(?P<angle>[a-z]+|-?\d+(?:\.\d+)?)(?:@(?P<shaft>-?\d+(?:\.\d+)?))?$")

COVERAGE_FACTOR = 1.96
"""Half width of a 95 % interval in standard uncertainties."""


@dataclass(frozen=True, slots=True)
class Centred:
    """The result as a chain's, and what is known of the housing's place; None where nothing is."""

    result: ChainResult
    found: CentringFound | None


def angles_of(place: str) -> tuple[float, float]:
    """Station angle and shaft angle of a place such as `top@180` or `45@90` [rad].

    >>> [round(angle, 4) for angle in angles_of("right@180")]
    [1.5708, 3.1416]
    """
    match = _PLACE.match(place)
    if match is None or (match["angle"].isalpha() and match["angle"] not in WORDS_OF_ANGLE):
        raise ValueError(place)
    word = match["angle"]
    angle = WORDS_OF_ANGLE[word] if word in WORDS_OF_ANGLE else float(word)
    return radians(angle), radians(float(match["shaft"] or 0.0))


def places_of(member: Member) -> list[str]:
    """The places with a gap, in the sheet's order, as the sheet names them."""
    known = set(member.places)
    every = member.dimension.places
    return [place.id for place in every if place_key(member.dimension, place.id) in known]


def goes_around(places: Sequence[str]) -> bool:
    """Whether gaps at these places lie around the shaft, so that an offset shows in them."""
    if not places:
        return False
    theta, phi = zip(*map(angles_of, places), strict=True)
    return tells_apart(gap_design(theta, phi)[:, :OFFSET_UNKNOWNS], OFFSET_UNKNOWNS)


def bound_result(
    bound: Bound,
    chance: float | None,
    value: float | None,
    uncertainty: float | None,
    rule: DecisionRule,
) -> BoundResult:
    """One bound of an offset, from the probability that it holds; None where nothing bounds the offset."""
    verdict = Verdict.UNPROVEN if chance is None else rule.verdict(chance, chance)
    why = Reason.NOTHING_BOUNDS_IT if chance is None else Reason.AT_THE_LIMIT
    return BoundResult(
        side=bound.side,
        limit=bound.limit,
        probability=chance,
        verdict=verdict,
        places=(),
        value=value,
        standard_uncertainty=uncertainty,
        degrees_of_freedom=inf,
        acceptance_limit=acceptance_limit(bound, uncertainty, rule) if uncertainty else None,
        reason=why if verdict is Verdict.UNPROVEN else None,
    )


def chain_result(
    bounds: tuple[BoundResult, ...],
    places: tuple[str, ...],
    value: float | None,
    uncertainty: float | None,
    interval: tuple[float | None, float | None],
    method: str,
) -> ChainResult:
    """The bounds of an offset put together, as for a chain."""
    return ChainResult(
        verdict=overall_of(bounds),
        bounds=bounds,
        places=places,
        value=value,
        standard_uncertainty=uncertainty,
        interval=interval,
        method=method,
    )
