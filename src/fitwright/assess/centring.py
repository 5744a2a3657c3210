"""A housing centred on a shaft: gaps as read, the offset they prove, and the move that mends it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import radians, sqrt
from typing import TYPE_CHECKING

import numpy as np

from fitwright.assess.bounds import Asked
from fitwright.assess.chains import Member
from fitwright.assess.gauges import place_key
from fitwright.assess.results import CentringFound, Move
from fitwright.model.engine import Directions
from fitwright.model.fit import CentringSpec
from fitwright.physics.fits.centring import (
    Centring,
    Vector,
    centre_from_gaps,
    closure_of_gaps,
)
from fitwright.physics.fits.offset_probability import probability_within_radius
from fitwright.physics.metrology.conformity import (
    DecisionRule,
    Reason,
    Verdict,
    acceptance_limit,
    verdict_of,
)
from fitwright.physics.metrology.estimation import Estimate, estimate
from fitwright.physics.metrology.result import BoundResult, ChainResult

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge

WORDS_OF_ANGLE = {"top": 0.0, "right": 90.0, "bottom": 180.0, "left": 270.0}
"""Angles of the four stations, clockwise seen from the nose [degrees]."""

SAG_SHARE = 0.75
"""How much of half the clearance a crank at rest lies below where it runs; 0.5 to 1 in practice."""

_PLACE = re.compile(r"^(?P<angle>[a-z]+|-?\d+(?:\.\d+)?)(?:@(?P<shaft>-?\d+(?:\.\d+)?))?$")


@dataclass(frozen=True, slots=True)
class Centred:
    """The result as a chain's, and what is known of the housing's place."""

    result: ChainResult
    found: CentringFound


def angles_of(place: str) -> tuple[float, float]:
    """Station angle and shaft angle of a place such as `top@180` or `45@90` [rad].

    >>> [round(angle, 4) for angle in angles_of("right@180")]
    [1.5708, 3.1416]
    """
    match = _PLACE.match(place)
    if match is None:
        raise ValueError(place)
    word = match["angle"]
    angle = WORDS_OF_ANGLE[word] if word in WORDS_OF_ANGLE else float(word)
    return radians(angle), radians(float(match["shaft"] or 0.0))


def centring_of(
    judge: Judge, spec: CentringSpec, member: Member, asked: Sequence[Asked], rule: DecisionRule
) -> Centred | None:
    """Judge the offset of a housing from the gaps around its shaft; None without enough gaps."""
    if len(member.places) < 3 or member.blades:  # noqa: PLR2004
        return None
    estimated = estimate(member.values)
    names = [place for place in member.dimension.places if place_key(member.dimension, place.id) in estimated.places]
    theta, phi = np.array([angles_of(place.id) for place in names]).T
    order = [estimated.places.index(place_key(member.dimension, place.id)) for place in names]
    gaps = estimated.values[order]
    covariance = estimated.covariance[np.ix_(order, order)]
    centred = centre_from_gaps(gaps, station_angles=theta, shaft_angles=phi, covariance=covariance)
    closure = closure_of_gaps(gaps, station_angles=theta, shaft_angles=phi, covariance=covariance)
    uncertainty = _along(centred)
    running = running_offset(judge, spec, centred.offset)
    found = CentringFound(
        offset=centred.offset,
        standard_uncertainty=uncertainty,
        mean_gap=centred.mean_gap,
        run_out=centred.run_out,
        running_offset=running,
        closure=closure,
        polygon=(),
        move=move_to_centre(centred, running, judge.sheet.engine.directions, member),
    )
    return Centred(_result(centred, uncertainty, asked, rule, estimated), found)


def _along(centred: Centring) -> float:
    """Standard uncertainty of the offset along its own direction [m]."""
    vector = np.array([centred.offset.right, centred.offset.up])
    size = float(np.hypot(*vector))
    covariance = centred.offset_covariance
    if size == 0.0:
        return float(sqrt(np.linalg.eigvalsh(covariance)[-1]))
    unit = vector / size
    return float(sqrt(unit @ covariance @ unit))


def _result(
    centred: Centring,
    uncertainty: float,
    asked: Sequence[Asked],
    rule: DecisionRule,
    estimated: Estimate,
) -> ChainResult:
    value = centred.offset.magnitude
    bounds = tuple(_bound(centred, one, value, uncertainty, rule) for one in asked)
    verdicts = {bound.verdict for bound in bounds}
    overall = Verdict.OUTSIDE if Verdict.OUTSIDE in verdicts else Verdict.UNPROVEN
    if verdicts == {Verdict.WITHIN}:
        overall = Verdict.WITHIN
    return ChainResult(
        verdict=overall,
        bounds=bounds,
        places=estimated.places,
        value=value,
        standard_uncertainty=uncertainty,
        interval=(max(0.0, value - 1.96 * uncertainty), value + 1.96 * uncertainty),
        method="values",
    )


def _bound(
    centred: Centring, asked: Asked, value: float, uncertainty: float, rule: DecisionRule
) -> BoundResult:
    bound = asked.bound
    inside = probability_within_radius(centred.offset, centred.offset_covariance, bound.limit)
    chance = inside if bound.side == "upper" else 1.0 - inside
    verdict = Verdict.WITHIN if bound.side == "lower" and bound.limit <= 0.0 else None
    verdict = verdict or verdict_of(chance, chance, rule)
    return BoundResult(
        side=bound.side,
        limit=bound.limit,
        probability=1.0 if bound.limit <= 0.0 and bound.side == "lower" else chance,
        verdict=verdict,
        places=(),
        value=value,
        standard_uncertainty=uncertainty,
        degrees_of_freedom=float("inf"),
        acceptance_limit=acceptance_limit(bound, uncertainty, rule),
        reason=Reason.AT_THE_LIMIT if verdict is Verdict.UNPROVEN else None,
    )


def running_offset(judge: Judge, spec: CentringSpec, offset: Vector) -> Vector | None:
    """The offset once the crank no longer lies low in its bearing, from the clearance that is known.

    A crank at rest lies towards the ground; when it runs (or is lifted) it rises by about half the
    clearance, so that the housing then lies lower relative to it. On a stand the engine may hang
    upside down: then it rises towards the sump.
    """
    if spec.clearance is None:
        return None
    clearance = judge.verdict(judge.subjects[spec.clearance]).value
    attitude, at_rest = _attitude(judge, spec)
    if clearance is None or not at_rest:
        return None
    rise = SAG_SHARE * clearance / 2.0
    return Vector(offset.right, offset.up - rise if attitude == "upright" else offset.up + rise)


def _attitude(judge: Judge, spec: CentringSpec) -> tuple[str, bool]:
    used = judge.member(spec.gaps).evidence.used
    sitting = judge.gauges.sitting_of(used[-1]) if used else None
    if sitting is None:
        return "upright", True
    return sitting.attitude or "upright", (sitting.crank or "at rest") == "at rest"


def move_to_centre(
    centred: Centring, running: Vector | None, directions: Directions, member: Member
) -> Move:
    """The move that takes the offset away, in parts of the engine, with the gaps to expect after it."""
    wanted = running if running is not None else centred.offset
    right, up = -wanted.right, -wanted.up
    vertical = directions.top if up >= 0.0 else directions.bottom
    sideways = directions.right if right >= 0.0 else directions.left
    after = []
    for place in member.dimension.places:
        theta, phi = angles_of(place.id)
        left_over = Vector(centred.offset.right + right, centred.offset.up + up)
        gap = centred.mean_gap + left_over.right * np.sin(theta) + left_over.up * np.cos(theta)
        if centred.run_out is not None:
            around = theta - phi
            gap -= centred.run_out.right * np.sin(around) + centred.run_out.up * np.cos(around)
        after.append((place.id, float(gap)))
    words = f"towards the {vertical}, then towards the {sideways}"
    return Move(words, right, up, tuple(after))
