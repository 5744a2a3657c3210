"""What a torque wrench is set to when an extension sits between its drive and the fastener."""

from __future__ import annotations

import math
from typing import Final

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.fastener_parts import LENGTH, OVER_TIGHTENING, TORQUE
from fitwright.sums.forms import SIZE, Amount, Given, Input, Named

_RIGHT_ANGLE: Final = 0.5 * math.pi
_TURN: Final = 2.0 * math.pi


def _compute(given: Given) -> Found:
    from fitwright.physics.fasteners.wrench import wrench_setting

    torque, length, extension = given["tightening_torque"], given["wrench_length"], given["extension_length"]
    setting = wrench_setting(
        torque, wrench_length=length, extension_length=extension, extension_angle=given["extension_angle"]
    )
    step = Step(
        "Setting of the wrench",
        "torque × L / (L + E × cos β)",
        (
            PutIn("torque at the fastener", torque, "torque", "given"),
            PutIn("L, drive to the middle of the hand", length, "length", "given"),
            PutIn("E, drive to the fastener", extension, "length", "given"),
            PutIn(
                "β, between extension and wrench",
                given["extension_angle"],
                "angle",
                given.origin("extension_angle"),
            ),
        ),
        PutIn("setting", setting, "torque"),
        "bickford1995",
    )
    return Found(
        {
            "wrench_setting": setting,
            "setting_ratio": setting / torque,
            "torque_uncorrected": torque * torque / setting,
        },
        (step,),
    )


SUM = Sum(
    name="wrench-extension",
    words=(
        "crow-foot",
        "crowfoot",
        "crow foot",
        "torque wrench",
        "adaptor",
        "adapter",
        "extension",
        "torque",
    ),
    title="Torque wrench with an extension",
    text="What to set on a torque wrench with a crow-foot or another extension at its drive.",
    inputs=(
        Input("tightening_torque", TORQUE, "torque wanted at the fastener", required=True),
        Input("wrench_length", LENGTH, "from the drive to the middle of the hand", required=True),
        Input(
            "extension_length",
            Amount("length", least=0.0, typed_in=SIZE),
            "from the drive to the fastener",
            required=True,
        ),
        Input(
            "extension_angle",
            Named(
                Amount("angle", least=0.0, most=_TURN),
                {"in line": 0.0, "across": _RIGHT_ANGLE, "backwards": 2.0 * _RIGHT_ANGLE},
            ),
            "between extension and wrench: in line away from the hand, across, backwards, or an angle",
            default="0 deg",
            usual=True,
        ),
    ),
    outputs=(
        Output("wrench_setting", "what to set, or to read", "torque", leads=True),
        Output("setting_ratio", "setting over torque at the fastener", "ratio"),
        Output(
            "torque_uncorrected",
            "torque at the fastener if the setting were not corrected",
            "torque",
            leads=True,
        ),
    ),
    compute=_compute,
    source="bickford1995",
    cautions=(
        "Pull at right angles to the wrench, with the hand where the length was measured.",
        "An extension along the axis of the fastener changes nothing, but one that twists spoils an angle.",
        "The maker's torque, lubricant and method govern.",
        OVER_TIGHTENING,
    ),
    example={"tightening_torque": "60 N m", "wrench_length": "400 mm", "extension_length": "50 mm"},
)
