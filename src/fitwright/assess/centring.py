"""A housing centred on a shaft: gaps as read, the offset they prove, and the move that mends it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import sqrt
from typing import TYPE_CHECKING

import numpy as np

from fitwright.assess.bounds import Asked
from fitwright.assess.centred import (
    COVERAGE_FACTOR,
    Centred,
    angles_of,
    bound_result,
    chain_result,
    goes_around,
    places_of,
)
from fitwright.assess.centring_blades import from_blades
from fitwright.assess.chains import Member
from fitwright.assess.gauges import place_key
from fitwright.assess.hanging import attitude, direction_names, running
from fitwright.assess.results import CentringFound
from fitwright.model.fit import CentringSpec
from fitwright.physics.fits.centring import Centring, centre_from_gaps
from fitwright.physics.fits.centring_move import centring_move, gaps_after_move
from fitwright.physics.fits.closure import closure_of_gaps
from fitwright.physics.fits.joint_face import JointFaceLimits, JointMove, move_with_joint_face
from fitwright.physics.fits.offset_probability import probability_within_radius
from fitwright.physics.metrology.conformity import Bound, DecisionRule
from fitwright.physics.metrology.estimation import estimate

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge

_FEWEST_HEIGHTS = 2

OVAL = "sums of opposite gaps differ: the housing or the shaft is out of round, or a reading is wrong"


def centring_of(
    judge: Judge, spec: CentringSpec, member: Member, asked: Sequence[Asked], rule: DecisionRule
) -> Centred | None:
    """Judge the offset of a housing from the gaps around its shaft; None without enough gaps around it."""
    if not goes_around(places_of(member)):
        return None
    how = from_blades if member.blades else _from_values
    centred = how(judge, spec, member, asked, rule)
    if centred.found is None:
        return centred
    joint = _joint_move(judge, spec, centred.found, asked)
    return replace(centred, found=replace(centred.found, joint=joint))


def _from_values(
    judge: Judge, spec: CentringSpec, member: Member, asked: Sequence[Asked], rule: DecisionRule
) -> Centred:
    names = places_of(member)
    theta, phi = np.array([angles_of(name) for name in names]).T
    estimated = estimate(member.values)
    order = [estimated.places.index(place_key(member.dimension, name)) for name in names]
    gaps = estimated.values[order]
    covariance = estimated.covariance[np.ix_(order, order)]
    centred = centre_from_gaps(gaps, station_angles=theta, shaft_angles=phi, covariance=covariance)
    closure = closure_of_gaps(gaps, station_angles=theta, shaft_angles=phi, covariance=covariance)
    uncertainty = _along(centred)
    afloat = running(judge, spec, centred)
    aimed = afloat.offset if afloat is not None else centred.offset
    names_of_directions = direction_names(judge.sheet.engine.directions)
    move = centring_move(aimed, names_of_directions, attitude=attitude(judge, spec))
    after = gaps_after_move(gaps, station_angles=theta, move=move.vector)
    found = CentringFound(
        offset=centred.offset,
        standard_uncertainty=uncertainty,
        mean_gap=centred.mean_gap,
        run_out=centred.run_out,
        running_offset=afloat.offset if afloat is not None else None,
        closure=closure,
        polygon=(),
        move=move,
        gaps_after=tuple(zip(names, map(float, after), strict=True)),
        words=() if closure is None or closure.agrees else (OVAL,),
    )
    value = centred.offset.magnitude
    bounds = tuple(
        bound_result(one.bound, _chance(one.bound, centred), value, uncertainty, rule) for one in asked
    )
    interval = (max(0.0, value - COVERAGE_FACTOR * uncertainty), value + COVERAGE_FACTOR * uncertainty)
    return Centred(chain_result(bounds, estimated.places, value, uncertainty, interval, "values"), found)


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
        limits=JointFaceLimits(step=max(0.0, spec.face_step - COVERAGE_FACTOR * spread)),
    )


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
