"""What engines of a kind usually have: the answer where nothing was answered."""

from __future__ import annotations

import math

from fitwright.quantity import Radian
from fitwright.starter.answers import Answers


def mains(answers: Answers, cylinders: int) -> int:
    """Main bearings that a crank of this layout usually has."""
    if answers.arrangement in {"vee", "flat"}:
        return cylinders // 2 + 1
    if cylinders <= 2:
        return 2
    if answers.duty == "historic":
        return cylinders // 2 + 1
    return cylinders + 1


def block_material(answers: Answers) -> str:
    """Iron where nothing else is said; air-cooled and flat engines have aluminium cases."""
    light = answers.cooling != "water" or answers.arrangement == "flat" or answers.valve_train == "two-stroke"
    return "aluminium" if light else "cast iron"


def head_material(answers: Answers) -> str:
    """Aluminium, but for old and side-valve water-cooled engines."""
    old = answers.duty in {"historic", "agricultural", "stationary"} or answers.valve_train == "side valve"
    return "cast iron" if old and answers.cooling == "water" else "aluminium"


def adjustment(answers: Answers) -> str:
    """Shims under double overhead camshafts, screws elsewhere."""
    return "shims" if answers.valve_train == "double overhead camshafts" else "screws"


def cam_drive(answers: Answers) -> str:
    """Gears on old engines and side valves, a chain elsewhere."""
    return "gears" if answers.duty == "historic" or answers.valve_train == "side valve" else "chain"


def rear_seal(answers: Answers) -> str:
    """A scroll on old engines, a lip seal elsewhere."""
    return "scroll" if answers.duty == "historic" and answers.valve_train != "two-stroke" else "lip"


def piston_jets(answers: Answers) -> str:
    """Jets under the pistons of boosted engines with an oil pump."""
    return "yes" if answers.aspiration != "naturally aspirated" and pump(answers) != "none" else "no"


def pump(answers: Answers) -> str:
    """The pump answered; else none for a two-stroke, spur gears for the others."""
    return answers.pump or ("none" if answers.valve_train == "two-stroke" else "external spur")


def bank_angle(answers: Answers) -> Radian | None:
    """The angle answered, else 90 degrees; none where there is no vee."""
    if answers.arrangement != "vee":
        return None
    return math.radians(90) if answers.bank_angle is None else answers.bank_angle


def rods_per_pin(answers: Answers) -> int:
    """Two in a vee, one elsewhere, where nothing else is said."""
    if answers.arrangement not in {"vee", "flat"}:
        return 1
    return answers.rods_per_pin or (2 if answers.arrangement == "vee" else 1)
