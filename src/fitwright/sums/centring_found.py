"""What gaps round a shaft tell, under the names of the centring sum."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from fitwright.sums.centring_steps import cautions, steps
from fitwright.sums.declaration import Computed, Found, Row
from fitwright.sums.errors import MissingInputError
from fitwright.sums.forms import Given
from fitwright.sums.gaps import Gap, Located, located

if TYPE_CHECKING:
    from fitwright.physics.fits.centring import Vector
    from fitwright.physics.fits.centring_move import Move, SagCorrection
    from fitwright.physics.fits.joint_face import JointMove

_TURN: Final = 2.0 * math.pi
STATIONS: Final = {"top": 0.0, "right": 0.25 * _TURN, "bottom": 0.5 * _TURN, "left": 0.75 * _TURN}
"""Angles of the four stations that have a name, clockwise from the nose [rad]."""


@dataclass(frozen=True, slots=True)
class _Running:
    """The offset once the shaft runs, with the chance that it is within the limit."""

    offset: Vector
    chance: float | None
    sag: SagCorrection


def centring_found(given: Given) -> Found:
    """The answer of the sum: offset, verdict, run-out, and the move that centres."""
    gaps = [
        Gap.of(each, number, given["gap_standard_uncertainty"], given["blade_standard_uncertainty"])
        for number, each in enumerate(given["gaps"], start=1)
    ]
    limit = given["upper_limit"]
    found = located(gaps, limit, given["allowed_difference"])
    running = _running(given, found, limit)
    move = None if found.offset is None else _move(given, running.offset if running else found.offset)
    joint = None if move is None else _joint(given, running.offset if running else found.offset)
    values = {
        **_offset(found),
        **_verdicts(given, found, running),
        **_closure(found),
        **_run_out(found),
        **_polygon(found),
        **_vector("running_offset", running.offset if running else None),
        **_moved(gaps, move),
        **_joint_values(joint),
    }
    working = steps(given, gaps, found, running.sag if running else None, move)
    return Found(values, working, cautions(found, values))


def _running(given: Given, found: Located, limit: float | None) -> _Running | None:
    from fitwright.physics.fits.centring_move import ShaftPosition, corrected_for_sag, sag_correction
    from fitwright.physics.fits.offset_probability import probability_within_radius

    if given["running_clearance"] is None or found.offset is None:
        return None
    sag = sag_correction(
        given["running_clearance"],
        clearance_uncertainty=given["running_clearance_standard_uncertainty"],
        position=ShaftPosition(given["shaft_position"]),
        attitude=given["attitude"],
        attitude_in_service=given["attitude_in_service"],
        running_lift=given["running_lift"],
    )
    if found.centring is None:
        return _Running(found.offset.plus(sag.correction), None, sag)
    corrected = corrected_for_sag(found.centring, sag)
    chance = None
    if limit is not None:
        chance = probability_within_radius(corrected.offset, corrected.offset_covariance, limit)
    return _Running(corrected.offset, chance, sag)


def _move(given: Given, offset: Vector) -> Move:
    from fitwright.physics.fits.centring_move import DirectionNames, centring_move

    names = DirectionNames(*(given[f"{side}_name"] for side in ("top", "right", "bottom", "left")))
    return centring_move(offset, names, attitude=given["attitude"])


def _joint(given: Given, offset: Vector | None) -> JointMove | None:
    """The best move that also keeps a joint face level; None where none is asked about."""
    from fitwright.physics.fits.joint_face import JointFaceLimits, move_with_joint_face

    heights = given["joint_heights"]
    if heights is None or offset is None:
        return None
    for key in ("joint_step_limit", "upper_limit"):
        if given[key] is None:
            raise MissingInputError(key, "give it: a joint face has to be held against both limits")
    return move_with_joint_face(
        offset,
        given["upper_limit"],
        heights=[each["height"] for each in heights],
        positions=[each["position"] for each in heights],
        limits=JointFaceLimits(given["joint_step_limit"]),
        largest_turn=given["largest_turn"],
    )


def _vector(name: str, vector: Vector | None) -> dict[str, Computed]:
    return {
        f"{name}_right": None if vector is None else vector.right,
        f"{name}_up": None if vector is None else vector.up,
    }


def _offset(found: Located) -> dict[str, Computed]:
    covariance = found.covariance
    return {
        **_vector("offset", found.offset),
        "offset": None if found.offset is None else found.offset.magnitude,
        "offset_direction": None if found.offset is None else found.offset.direction,
        "offset_right_standard_uncertainty": None
        if covariance is None
        else math.sqrt(float(covariance[0, 0])),
        "offset_up_standard_uncertainty": None if covariance is None else math.sqrt(float(covariance[1, 1])),
        "mean_gap": found.mean_gap,
    }


def _verdicts(given: Given, found: Located, running: _Running | None) -> dict[str, Computed]:
    from fitwright.physics.metrology.conformity import DecisionRule, Verdict

    rule = DecisionRule(within=given["required_probability"], outside=1.0 - given["required_probability"])

    def words(chance: float | None) -> str | None:
        if given["upper_limit"] is None:
            return None
        return str(Verdict.UNPROVEN if chance is None else rule.verdict(chance, chance))

    running_chance = running.chance if running else None
    return {
        "probability": found.chance,
        "verdict": words(found.chance),
        "running_probability": running_chance,
        "running_verdict": None if running_chance is None else words(running_chance),
    }


def _closure(found: Located) -> dict[str, Computed]:
    closure = found.closure
    return {
        "closure_difference": None if closure is None else closure.largest_difference,
        "closure_allowed": None if closure is None else closure.allowed_difference,
        "closure_agrees": None if closure is None else closure.agrees,
    }


def _run_out(found: Located) -> dict[str, Computed]:
    nose = found.run_out
    return {
        "run_out": None if nose is None else 2.0 * nose.magnitude,
        "eccentricity": None if nose is None else nose.magnitude,
        "eccentricity_direction": None if nose is None else nose.direction,
    }


def _polygon(found: Located) -> dict[str, Computed]:
    polygon = found.polygon
    clear = polygon is not None and not polygon.contradicting and not polygon.open_towards
    corners = polygon.vertices.tolist() if polygon is not None and clear else None
    return {
        "least_offset": polygon.least_offset if polygon is not None and clear else None,
        "greatest_offset": polygon.greatest_offset if polygon is not None and clear else None,
        "possible_offsets": None if corners is None else tuple({"right": x, "up": y} for x, y in corners),
        "open_towards": None if polygon is None else tuple(map(_word, polygon.open_towards)),
        "contradictory_gaps": None if polygon is None else tuple(n + 1 for n in polygon.contradicting),
    }


def _word(angle: float) -> str:
    return min(STATIONS, key=lambda name: abs(STATIONS[name] - angle))


def _moved(gaps: Sequence[Gap], move: Move | None) -> dict[str, Computed]:
    if move is None:
        return {
            **_vector("move", None),
            **_vector("move_as_hung", None),
            "move_words": None,
            "gaps_after": None,
        }
    return {
        **_vector("move", move.vector),
        **_vector("move_as_hung", move.as_hung),
        "move_words": _in_words(move),
        "gaps_after": tuple(_after(each, move.vector) for each in gaps),
    }


def _in_words(move: Move) -> str:
    from fitwright.units import both_units

    parts = [
        f"{both_units(part.distance, 'length', prefer='mm', resolution=1e-6)} towards {part.towards}"
        for part in move.parts
    ]
    return ", ".join(parts) or "stays where it is"


def _after(gap: Gap, move: Vector) -> Row:
    from fitwright.physics.fits.centring_move import gaps_after_move

    def moved(size: float | None) -> float | None:
        if size is None or math.isinf(size):
            return None
        return float(gaps_after_move([size], station_angles=[gap.angle], move=move)[0])

    bracket = gap.value is None
    return {
        "angle": gap.angle,
        "shaft_angle": gap.shaft_angle,
        "gap": moved(gap.value),
        "at_least": moved(gap.at_least) if bracket else None,
        "less_than": moved(gap.less_than) if bracket else None,
    }


def _joint_values(joint: JointMove | None) -> dict[str, Computed]:
    best = None if joint is None else joint.best_move
    return {
        "joint_possible": None if joint is None else joint.possible,
        **_vector("joint_move", best),
        "joint_turn": None if joint is None or best is None else joint.best_turn,
        "joint_offset_left": None if joint is None or best is None else joint.offset_left,
        "joint_step_left": None if joint is None or best is None else joint.step_left,
    }
