"""How an engine hangs on its stand, where its crank lies meanwhile, and what its directions are called."""

from __future__ import annotations

import re
from math import pi, radians
from typing import TYPE_CHECKING

from fitwright.model.engine import Directions
from fitwright.model.fit import CentringSpec
from fitwright.physics.fits.centring import Centring
from fitwright.physics.fits.centring_move import (
    DirectionNames,
    ShaftPosition,
    corrected_for_sag,
    sag_correction,
)

if TYPE_CHECKING:
    from fitwright.assess.judging import Judge


def running(judge: Judge, spec: CentringSpec, centred: Centring) -> Centring | None:
    """The offset once the crank floats in its clearance, where that clearance is known."""
    subject = judge.subjects.get(spec.clearance or "")
    clearance = judge.verdict(subject) if subject is not None else None
    if clearance is None or clearance.value is None or clearance.value < 0.0:
        return None
    sag = sag_correction(
        clearance.value,
        clearance_uncertainty=clearance.standard_uncertainty or 0.0,
        position=_position(judge, spec),
        attitude=attitude(judge, spec),
    )
    return corrected_for_sag(centred, sag)


def attitude(judge: Judge, spec: CentringSpec) -> float:
    """How far the engine is turned clockwise on its stand, from the words of the last sitting [rad]."""
    return turned(_words(judge, spec, "attitude"), judge.sheet.engine.directions)


def turned(words: str, directions: Directions) -> float:
    """How far an engine is turned clockwise, seen from the nose [rad].

    Understood are "upside down", the side that is up ("sump up"), or an angle in degrees.

    >>> engine = Directions(top="deck", right="exhaust side", bottom="sump", left="inlet side")
    >>> turned("sump up", engine) == pi
    True
    """
    up = {directions.top: 0.0, directions.right: -pi / 2.0, directions.bottom: pi, directions.left: pi / 2.0}
    if "upside down" in words:
        return pi
    for side, angle in up.items():
        if f"{side.lower()} up" in words:
            return angle
    found = re.search(r"-?\d{1,4}(?:\.\d{1,4})?", words)  # more digits are no angle
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
