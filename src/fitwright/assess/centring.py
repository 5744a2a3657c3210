"""A housing centred on a shaft: gaps as read, the offset they prove, and the move that mends it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot, inf, pi, radians, sqrt
from typing import TYPE_CHECKING

import numpy as np

from fitwright.assess.bounds import Asked, overall_of
from fitwright.assess.chains import Member
from fitwright.assess.gauges import place_key
from fitwright.assess.results import CentringFound
from fitwright.model.engine import Directions
from fitwright.model.fit import CentringSpec
from fitwright.physics.fits.blade_polygon import GapBounds, OffsetPolygon, offset_polygon
from fitwright.physics.fits.centring import Centring, Vector, centre_from_gaps
from fitwright.physics.fits.centring_move import (
    DirectionNames,
    ShaftPosition,
    centring_move,
    corrected_for_sag,
    gaps_after_move,
    sag_correction,
)
from fitwright.physics.fits.closure import closure_of_gaps
from fitwright.physics.fits.joint_face import JointFaceLimits, JointMove, move_with_joint_face
from fitwright.physics.fits.offset_posterior import GapValue, OffsetPosterior, offset_posterior
from fitwright.physics.fits.offset_probability import probability_within_radius
from fitwright.physics.metrology.conformity import (
    Bound,
    DecisionRule,
    Reason,
    Verdict,
    acceptance_limit,
)
from fitwright.physics.metrology.estimation import estimate
from fitwright.physics.metrology.readings import BladeAnswer, BladeReading
from fitwright.physics.metrology.result import (
    BoundResult,
    ChainResult,
    Contradiction,
    Explanation,
)
from fitwright.quantity import FloatArray

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge

WORDS_OF_ANGLE = {"top": 0.0, "right": 90.0, "bottom": 180.0, "left": 270.0}
"""Angles of the four stations, clockwise seen from the nose [degrees]."""

_PLACE = re.compile(r"^(?P<angle>[a-z]+|-?\d+(?:\.\d+)?)(?:@(?P<shaft>-?\d+(?:\.\d+)?))?$")
_FEWEST_GAPS = 3
_FEWEST_HEIGHTS = 2
_COVERAGE = 1.96


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
    if match is None or (match["angle"].isalpha() and match["angle"] not in WORDS_OF_ANGLE):
        raise ValueError(place)
    word = match["angle"]
    angle = WORDS_OF_ANGLE[word] if word in WORDS_OF_ANGLE else float(word)
    return radians(angle), radians(float(match["shaft"] or 0.0))


def centring_of(
    judge: Judge, spec: CentringSpec, member: Member, asked: Sequence[Asked], rule: DecisionRule
) -> Centred | None:
    """Judge the offset of a housing from the gaps around its shaft; None without enough gaps."""
    if len(member.places) < _FEWEST_GAPS:
        return None
    how = _from_blades if member.blades else _from_values
    centred = how(judge, spec, member, asked, rule)
    if centred is None:
        return None
    joint = _joint_move(judge, spec, centred.found, asked)
    return replace(centred, found=replace(centred.found, joint=joint))


def _from_values(
    judge: Judge, spec: CentringSpec, member: Member, asked: Sequence[Asked], rule: DecisionRule
) -> Centred:
    names, theta, phi = _stations(member)
    estimated = estimate(member.values)
    order = [estimated.places.index(place_key(member.dimension, name)) for name in names]
    gaps = estimated.values[order]
    covariance = estimated.covariance[np.ix_(order, order)]
    centred = centre_from_gaps(gaps, station_angles=theta, shaft_angles=phi, covariance=covariance)
    closure = closure_of_gaps(gaps, station_angles=theta, shaft_angles=phi, covariance=covariance)
    uncertainty = _along(centred)
    running = _running(judge, spec, centred)
    aimed = running.offset if running is not None else centred.offset
    names_of_directions = direction_names(judge.sheet.engine.directions)
    move = centring_move(aimed, names_of_directions, attitude=_attitude(judge, spec))
    after = gaps_after_move(gaps, station_angles=theta, move=move.vector)
    found = CentringFound(
        offset=centred.offset,
        standard_uncertainty=uncertainty,
        mean_gap=centred.mean_gap,
        run_out=centred.run_out,
        running_offset=running.offset if running is not None else None,
        closure=closure,
        polygon=(),
        move=move,
        gaps_after=tuple(zip(names, map(float, after), strict=True)),
    )
    value = centred.offset.magnitude
    bounds = tuple(_bound(one.bound, _chance(one.bound, centred), value, uncertainty, rule) for one in asked)
    interval = (max(0.0, value - _COVERAGE * uncertainty), value + _COVERAGE * uncertainty)
    return Centred(_result(bounds, estimated.places, value, uncertainty, interval, "values"), found)


def _joint_move(
    judge: Judge, spec: CentringSpec, found: CentringFound, asked: Sequence[Asked]
) -> JointMove | None:
    """Whether one move can centre the housing and keep its joint face level; None without heights.

    The step allowed is narrowed by what is not known of the heights.
    """
    limit = next((one.amount.si for one in asked if one.ruled.governs and one.side == "upper"), None)
    if spec.face_heights is None or spec.face_step is None or limit is None or found.move is None:
        return None
    member = judge.member(spec.face_heights)
    names = [name for name in spec.face_positions if place_key(member.dimension, name) in member.places]
    if len(names) < _FEWEST_HEIGHTS:
        return None
    estimated = estimate(member.values)
    rows = [estimated.places.index(place_key(member.dimension, name)) for name in names]
    spread = float(np.sqrt(np.diag(estimated.covariance)[rows].max()))
    return move_with_joint_face(
        found.running_offset or found.offset,
        limit,
        heights=estimated.values[rows],
        positions=[spec.face_positions[name] for name in names],
        limits=JointFaceLimits(step=max(0.0, spec.face_step - _COVERAGE * spread)),
    )


def _stations(member: Member) -> tuple[list[str], FloatArray, FloatArray]:
    known = set(member.places)
    names = [place.id for place in member.dimension.places if place_key(member.dimension, place.id) in known]
    angles = np.array([angles_of(name) for name in names])
    return names, angles[:, 0], angles[:, 1]


def _along(centred: Centring) -> float:
    """Standard uncertainty of the offset along its own direction [m]."""
    vector = np.array([centred.offset.right, centred.offset.up])
    size = float(np.hypot(*vector))
    covariance = centred.offset_covariance
    if size == 0.0:
        return float(sqrt(np.linalg.eigvalsh(covariance)[-1]))
    unit = vector / size
    return float(sqrt(unit @ covariance @ unit))


def _chance(bound: Bound, centred: Centring) -> float:
    if bound.limit <= 0.0:
        return 1.0 if bound.side == "lower" else 0.0
    inside = probability_within_radius(centred.offset, centred.offset_covariance, bound.limit)
    return inside if bound.side == "upper" else 1.0 - inside


def _bound(
    bound: Bound,
    chance: float | None,
    value: float,
    uncertainty: float | None,
    rule: DecisionRule,
) -> BoundResult:
    verdict = Verdict.UNPROVEN if chance is None else rule.verdict(chance, chance)
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
        reason=Reason.AT_THE_LIMIT if verdict is Verdict.UNPROVEN else None,
    )


def _result(
    bounds: tuple[BoundResult, ...],
    places: tuple[str, ...],
    value: float,
    uncertainty: float | None,
    interval: tuple[float | None, float | None],
    method: str,
) -> ChainResult:
    return ChainResult(
        verdict=overall_of(bounds),
        bounds=bounds,
        places=places,
        value=value,
        standard_uncertainty=uncertainty,
        interval=interval,
        method=method,
    )


def _from_blades(
    judge: Judge, spec: CentringSpec, member: Member, asked: Sequence[Asked], rule: DecisionRule
) -> Centred | None:
    """From blades: the polygon of offsets that they leave, and how likely each bound holds."""
    brackets, values = _brackets(member), _gap_values(member)
    polygon = offset_polygon(brackets)
    if polygon.centroid is None:
        return _contradictory(polygon, member)
    posteriors = [
        offset_posterior(one.bound.limit, bounds=brackets, values=values) if one.bound.limit > 0.0 else None
        for one in asked
    ]
    known = next((each for each in posteriors if each is not None), None)
    best = known.mean if known is not None else polygon.centroid
    uncertainty = sqrt(float(np.trace(known.covariance)) / 2.0) if known is not None else _spread(polygon)
    middles = _from_middles(brackets)
    running = _running(judge, spec, replace(middles, offset=best)) if middles is not None else None
    found = CentringFound(
        offset=best,
        standard_uncertainty=uncertainty,
        mean_gap=middles.mean_gap if middles is not None else None,
        run_out=middles.run_out if middles is not None else None,
        running_offset=running.offset if running is not None else None,
        closure=None,
        polygon=tuple((float(x), float(y)) for x, y in polygon.vertices),
        move=centring_move(
            running.offset if running is not None else best,
            direction_names(judge.sheet.engine.directions),
            attitude=_attitude(judge, spec),
        ),
    )
    bounds = tuple(
        _bound(one.bound, _posterior_chance(one.bound, posterior), best.magnitude, uncertainty, rule)
        for one, posterior in zip(asked, posteriors, strict=True)
    )
    interval = (polygon.least_offset, polygon.greatest_offset)
    result = _result(bounds, member.places, best.magnitude, uncertainty, interval, "blades")
    return Centred(result, found)


def _from_middles(brackets: Sequence[GapBounds]) -> Centring | None:
    """Mean gap and run-out from the middles of the brackets: best estimates, no more than that."""
    closed = [each for each in brackets if each.at_most < inf]
    if len(closed) < _FEWEST_GAPS:
        return None
    widths = np.array([each.at_most - each.at_least for each in closed])
    floor = np.array([each.at_most_standard_uncertainty for each in closed]) ** 2 + 1e-18
    return centre_from_gaps(
        [(each.at_most + each.at_least) / 2.0 for each in closed],
        station_angles=[each.station_angle for each in closed],
        shaft_angles=[each.shaft_angle for each in closed],
        covariance=np.diag(widths**2 / 12.0 + floor),
    )


def _posterior_chance(bound: Bound, posterior: OffsetPosterior | None) -> float | None:
    if bound.limit <= 0.0:
        return 1.0 if bound.side == "lower" else 0.0
    if posterior is None:
        return None
    inside = posterior.probability
    return inside if bound.side == "upper" else 1.0 - inside


def _contradictory(polygon: OffsetPolygon, member: Member) -> Centred | None:
    """No offset agrees with every blade: which answers clash, and no figure."""
    if not polygon.contradicting:
        return None
    keys = [key for key in member.places if any(reading.place == key for reading in member.blades)]
    names = ", ".join(keys[index] for index in polygon.contradicting)
    explanation = Explanation("one answer mistyped, or a burr or dirt under a blade", 1.0)
    clash = Contradiction(names, tuple(each.key for each in member.blades), 0.0, (explanation,))
    found = CentringFound(
        offset=Vector(0.0, 0.0),
        standard_uncertainty=0.0,
        mean_gap=None,
        run_out=None,
        running_offset=None,
        closure=None,
        polygon=(),
        move=None,
        words=(f"no offset agrees with all blades: {names} clash",),
    )
    result = ChainResult(verdict=Verdict.UNPROVEN, places=member.places, contradictions=(clash,))
    return Centred(result, found)


def _spread(polygon: OffsetPolygon) -> float:
    """Half the width of the offsets that the polygon holds, taken as uniform [m]."""
    return (polygon.greatest_offset - polygon.least_offset) / sqrt(12.0)


def _gap_values(member: Member) -> list[GapValue]:
    if not member.values:
        return []
    estimated = estimate(member.values)
    found = []
    for place in member.dimension.places:
        key = place_key(member.dimension, place.id)
        if key in estimated.places:
            row = estimated.places.index(key)
            theta, phi = angles_of(place.id)
            spread = sqrt(float(estimated.covariance[row, row]))
            found.append(GapValue(theta, phi, float(estimated.values[row]), spread))
    return found


def _brackets(member: Member) -> list[GapBounds]:
    found = []
    for place in member.dimension.places:
        key = place_key(member.dimension, place.id)
        here = [reading for reading in member.blades if reading.place == key]
        if here:
            theta, phi = angles_of(place.id)
            found.append(_bracket(theta, phi, here))
    return found


def _bracket(theta: float, phi: float, readings: Sequence[BladeReading]) -> GapBounds:
    low, low_uncertainty, high, high_uncertainty = 0.0, 0.0, inf, 0.0
    for reading in readings:
        thickness = sum(blade.thickness for blade in reading.blades)
        uncertainty = sqrt(sum(blade.standard_uncertainty**2 for blade in reading.blades))
        if reading.answer is BladeAnswer.DOES_NOT_GO:
            if thickness < high:
                high, high_uncertainty = thickness, uncertainty
            continue
        freely = reading.answer is BladeAnswer.GOES_FREELY
        at_least = thickness + (reading.drag.value if freely else 0.0)
        if at_least > low:
            low, low_uncertainty = at_least, uncertainty
        if reading.answer is BladeAnswer.DRAGS and thickness + reading.drag.value < high:
            high = thickness + reading.drag.value
            high_uncertainty = hypot(uncertainty, reading.drag.standard_uncertainty)
    return GapBounds(theta, phi, low, max(low, high), low_uncertainty, high_uncertainty)


def _running(judge: Judge, spec: CentringSpec, centred: Centring) -> Centring | None:
    """The offset once the crank floats in its clearance, where that clearance is known."""
    subject = judge.subjects.get(spec.clearance or "")
    clearance = judge.verdict(subject) if subject is not None else None
    if clearance is None or clearance.value is None or clearance.value < 0.0:
        return None
    sag = sag_correction(
        clearance.value,
        clearance_uncertainty=clearance.standard_uncertainty or 0.0,
        position=_position(judge, spec),
        attitude=_attitude(judge, spec),
    )
    return corrected_for_sag(centred, sag)


def _attitude(judge: Judge, spec: CentringSpec) -> float:
    """How far the engine is turned on its stand, from the words of the last sitting [rad]."""
    words = _words(judge, spec, "attitude")
    if words.startswith("upside"):
        return pi
    found = re.search(r"-?\d+(?:\.\d+)?", words)
    return radians(float(found.group())) if found else 0.0


def _position(judge: Judge, spec: CentringSpec) -> ShaftPosition:
    words = _words(judge, spec, "crank")
    if "lift" in words:
        return ShaftPosition.LIFTED
    return ShaftPosition.IN_THE_MIDDLE if "middle" in words else ShaftPosition.AT_REST


def _words(judge: Judge, spec: CentringSpec, field: str) -> str:
    used = judge.member(spec.gaps).evidence.used
    sitting = judge.gauges.sitting_of(used[-1]) if used else None
    return str(getattr(sitting, field, None) or "").lower()


def direction_names(directions: Directions) -> DirectionNames:
    """The four directions as one says them of this engine."""
    return DirectionNames(
        top=f"the {directions.top}",
        right=f"the {directions.right}",
        bottom=f"the {directions.bottom}",
        left=f"the {directions.left}",
    )
