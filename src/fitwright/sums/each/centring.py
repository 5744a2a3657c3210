"""A housing on a shaft: its offset from the gaps round it, and the move that centres it."""

from __future__ import annotations

import math

from fitwright.sums.centring_found import STATIONS, centring_found
from fitwright.sums.declaration import Output, Sum
from fitwright.sums.forms import SIZE, Amount, Choice, Group, Input, Named, Several, Words

_ATTITUDES = {"upright": 0.0, "upside down": math.pi}

_LENGTH = Amount("length", least=0.0)
_UNCERTAINTY = Amount("length", above=0.0)
# A bare number is in radians; 90 of them were meant as degrees.
_ANGLE = Amount("angle", least=-4.0 * math.pi, most=4.0 * math.pi)
_GAP = Group(
    (
        Input(
            "angle",
            Named(_ANGLE, STATIONS),
            "where: top, right, bottom, left, or an angle from the top, clockwise seen from the nose",
            required=True,
        ),
        Input("gap", _LENGTH, "the gap, where it was read as a value", usual=True),
        Input("at_least", _LENGTH, "thickest blade that goes, where blades were tried", usual=True),
        Input("less_than", Amount("length", above=0.0), "thinnest blade that does not go", usual=True),
        Input("shaft_angle", _ANGLE, "shaft angle at the reading, clockwise from the nose", default=0),
        Input("standard_uncertainty", _UNCERTAINTY, "its own standard uncertainty"),
    ),
    short=r"(?P<angle>top|right|bottom|left|\S+ deg) (?P<gap>.+)",
    example="top 0.07 mm",
)
_HEIGHT = Group(
    (
        Input(
            "position",
            Amount("length", typed_in=SIZE),
            "how far to the right of the shaft; left is negative",
            required=True,
        ),
        Input(
            "height", Amount("length"), "height above the neighbour's face; below is negative", required=True
        ),
    )
)


def _name(side: str, usual: str) -> Input:
    return Input(f"{side}_name", Words(40), f"what this engine has at the {side}", default=usual)


SUM = Sum(
    name="centring",
    words=("oil pump", "concentric", "dowel", "offset dowel", "run-out", "seal housing", "bellhousing"),
    title="Centre a housing on a shaft",
    text="The offset of a pump or seal housing from the gaps round its shaft, the shaft's own run-out, and"
    " the move that centres it. Directions are seen from the nose: up is towards the top of the engine.",
    inputs=(
        Input(
            "gaps",
            Several(_GAP, least=3, starts=tuple({"angle": each} for each in STATIONS)),
            "radial gaps round the shaft, values or brackets",
            required=True,
        ),
        Input("upper_limit", Amount("length", above=0.0), "largest offset allowed", usual=True),
        Input("gap_standard_uncertainty", _UNCERTAINTY, "of every value without its own", default="0.005 mm"),
        Input(
            "blade_standard_uncertainty", _UNCERTAINTY, "of every bracket without its own", default="0.002 mm"
        ),
        Input("allowed_difference", _LENGTH, "by how much sums of opposite gaps may differ"),
        Input(
            "running_clearance",
            _LENGTH,
            "diametral clearance of the bearing next to it, for a shaft that lies low",
            usual=True,
        ),
        Input(
            "running_clearance_standard_uncertainty", _LENGTH, "its standard uncertainty", default="0.002 mm"
        ),
        Input(
            "shaft_position",
            Choice(("at rest", "lifted", "in the middle")),
            "where the shaft lay in its clearance while gaps were read",
            default="at rest",
            usual=True,
        ),
        Input(
            "attitude",
            Named(_ANGLE, _ATTITUDES),
            "how far the engine is turned clockwise on its stand: upright, upside down, or an angle",
            default="upright",
            usual=True,
        ),
        Input("attitude_in_service", Named(_ANGLE, _ATTITUDES), "the same where it works", default="upright"),
        Input(
            "running_lift",
            Amount("ratio", least=0.0, most=1.0),
            "how far a running shaft lies above its rest, as a share of half the clearance",
            default=0.7,
        ),
        _name("top", "the top"),
        _name("right", "the right"),
        _name("bottom", "the bottom"),
        _name("left", "the left"),
        Input(
            "required_probability",
            Amount("ratio", above=0.5, most=0.9999),
            "probability from which on the limit counts as proven",
            default=0.95,
        ),
        Input("joint_heights", Several(_HEIGHT, least=2), "heights of a joint face that has to end up level"),
        Input("joint_step_limit", _LENGTH, "largest step of that joint face"),
        Input(
            "largest_turn",
            Amount("angle", least=0.0),
            "how far the housing can be turned about the shaft",
            default=0,
        ),
    ),
    outputs=(
        Output(
            "offset_right", "where the housing's centre lies, seen from the shaft: to the right", "length"
        ),
        Output("offset_up", "the same, towards the top", "length"),
        Output("offset", "size of the offset", "length", leads=True),
        Output("offset_direction", "its direction from the top, clockwise", "angle", leads=True),
        Output("offset_right_standard_uncertainty", "of the offset to the right", "length"),
        Output("offset_up_standard_uncertainty", "of the offset up", "length"),
        Output("mean_gap", "gap that a centred housing has all round; null from blades", "length"),
        Output("probability", "that the offset is within its limit", "ratio"),
        Output("verdict", "on the offset as read; null without a limit", leads=True),
        Output("running_probability", "that the offset of the running shaft is within its limit", "ratio"),
        Output("running_verdict", "on the offset of the running shaft", leads=True),
        Output("closure_difference", "largest less smallest sum of opposite gaps", "length"),
        Output("closure_allowed", "what that difference was held against", "length"),
        Output("closure_agrees", "whether sums of opposite gaps agree"),
        Output("run_out", "total run-out of the shaft; null where one shaft angle was read", "length"),
        Output("eccentricity", "half of it", "length"),
        Output("eccentricity_direction", "where the high side points with the shaft at angle zero", "angle"),
        Output("least_offset", "smallest offset that all blades allow", "length"),
        Output("greatest_offset", "largest offset that all blades allow", "length"),
        Output(
            "possible_offsets",
            "corners of the offsets that all blades allow",
            columns=(Output("right", "to the right", "length"), Output("up", "towards the top", "length")),
        ),
        Output("open_towards", "directions in which no blade bounds the offset"),
        Output("contradictory_gaps", "numbers of the gaps that cannot all be right"),
        Output("running_offset_right", "offset once the shaft runs: to the right", "length"),
        Output("running_offset_up", "offset once the shaft runs: towards the top", "length"),
        Output("move_right", "move that centres the housing: to the right", "length"),
        Output("move_up", "move that centres the housing: towards the top", "length"),
        Output("move_as_hung_right", "the move as the engine hangs: to the right in the room", "length"),
        Output("move_as_hung_up", "the move as the engine hangs: up in the room", "length"),
        Output("move_words", "the move in parts of the engine", leads=True),
        Output(
            "gaps_after",
            "gaps to expect after the move",
            columns=(
                Output("angle", "where round the shaft", "angle"),
                Output("shaft_angle", "shaft angle", "angle"),
                Output("gap", "the gap", "length"),
                Output("at_least", "of a bracket", "length"),
                Output("less_than", "of a bracket", "length"),
            ),
        ),
        Output("joint_possible", "whether one move centres the housing and keeps the joint face level"),
        Output("joint_move_right", "the move that does both best: to the right", "length"),
        Output("joint_move_up", "the same, towards the top", "length"),
        Output("joint_turn", "clockwise turn that goes with it", "angle"),
        Output("joint_offset_left", "size of the offset that it leaves", "length"),
        Output("joint_step_left", "largest step of the joint face that it leaves", "length"),
    ),
    compute=centring_found,
    source="jcgm102_2011",
    example={
        "gaps": [
            {"angle": "top", "gap": "0.07 mm"},
            {"angle": "right", "gap": "0.15 mm"},
            {"angle": "bottom", "gap": "0.30 mm"},
            {"angle": "left", "gap": "0.21 mm"},
        ],
        "upper_limit": "0.05 mm",
        "running_clearance": "0.055 mm",
        "attitude": "upside down",
        "top_name": "the deck",
        "right_name": "the exhaust side",
        "bottom_name": "the sump",
        "left_name": "the inlet side",
    },
    cautions=(
        "Lock the engine stand and keep hands clear while the crank is turned.",
        "Before metal comes off or dowels are drilled, read again. The maker's manual governs.",
    ),
)
