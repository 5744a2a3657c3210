"""Leakage between two faces, outwards or inwards over an annular land: the end of a rotor."""

from __future__ import annotations

import math

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.errors import InputError
from fitwright.sums.forms import SIZE, Amount, Count, Given, Input
from fitwright.sums.leaks import CAUTIONS, GAP, HUNDREDTH, OIL, cautions, laminar_step


def _compute(given: Given) -> Found:
    from fitwright.physics.passages.gaps import gap_reynolds_number

    outer, inner = given["outer_diameter"], given["inner_diameter"]
    if not outer > inner:
        raise InputError("inner_diameter", "must be below outer_diameter: the land lies between them")
    one, all_faces = _flow(given, 0.0), given["faces"] * _flow(given, 0.0)
    across = math.pi * inner * given["share_of_turn"]
    oil = {"dynamic_viscosity": given["dynamic_viscosity"], "density": given["density"]}
    reynolds = float(gap_reynolds_number(one, width=across, **oil))
    return Found(
        {
            "leakage_flow": all_faces,
            "leakage_flow_of_a_face": one,
            "leakage_flow_a_hundredth_wider": given["faces"] * _flow(given, HUNDREDTH),
            "reynolds_number": reynolds,
        },
        (*_steps(given, one, all_faces), laminar_step(given, one, across, reynolds)),
        cautions(reynolds, given["gap"], 0.5 * (outer - inner)),
    )


def _flow(given: Given, wider: float) -> float:
    from fitwright.physics.passages.gaps import end_leakage

    return float(
        end_leakage(
            given["pressure_drop"],
            gap=given["gap"] + wider,
            outer_diameter=given["outer_diameter"],
            inner_diameter=given["inner_diameter"],
            dynamic_viscosity=given["dynamic_viscosity"],
            share_of_turn=given["share_of_turn"],
        )
    )


def _steps(given: Given, one: float, all_faces: float) -> tuple[Step, ...]:
    return (
        Step(
            "The leak of a face",
            "share × π × h³ × Δp / (6 × μ × ln(D / d))",
            (
                PutIn("h, gap", given["gap"], "length", "given"),
                PutIn("D, outside of the land", given["outer_diameter"], "length", "given"),
                PutIn("d, inside of the land", given["inner_diameter"], "length", "given"),
                PutIn("Δp, pressure drop", given["pressure_drop"], "pressure", "given"),
                PutIn("μ, dynamic viscosity", given["dynamic_viscosity"], "dynamic_viscosity", "given"),
                PutIn("share of the turn", given["share_of_turn"], "ratio", given.origin("share_of_turn")),
            ),
            PutIn("leak of a face", one, "volume_flow"),
            "merritt1967",
        ),
        Step(
            "The leak",
            "leak of a face × faces",
            (
                PutIn("leak of a face", one, "volume_flow", "step before"),
                PutIn("faces", given["faces"], None, given.origin("faces")),
            ),
            PutIn("leakage flow", all_faces, "volume_flow"),
        ),
    )


_SIZE = Amount("length", above=0.0, typed_in=SIZE)

SUM = Sum(
    name="end-leakage",
    words=("rotor end clearance", "side clearance", "pump cover", "face", "gear pump", "oil leak"),
    title="Leakage over a face",
    text="Oil that leaks between two faces over a ring-shaped land, as at the end of a pump's rotor.",
    inputs=(
        GAP,
        Input("outer_diameter", _SIZE, "outside of the land", required=True),
        Input("inner_diameter", _SIZE, "inside of the land", required=True),
        *OIL,
        Input(
            "share_of_turn",
            Amount("ratio", above=0.0, most=1.0),
            "part of the full turn over which the pressure acts",
            default=1,
            usual=True,
        ),
        Input(
            "faces",
            Count(1, 2),
            "faces that leak alike, each with this gap; for 2, half of the end clearance",
            default=1,
            usual=True,
        ),
    ),
    outputs=(
        Output("leakage_flow", "over all faces", "volume_flow", leads=True),
        Output("leakage_flow_of_a_face", "over one of them", "volume_flow"),
        Output("leakage_flow_a_hundredth_wider", "with the gap 0.01 mm wider", "volume_flow", leads=True),
        Output("reynolds_number", "on the gap at the inside; laminar below about 1000", "ratio"),
    ),
    compute=_compute,
    source="merritt1967",
    cautions=CAUTIONS,
    example={
        "gap": "0.04 mm",
        "outer_diameter": "60 mm",
        "inner_diameter": "44 mm",
        "pressure_drop": "4 bar",
        "dynamic_viscosity": "10 mPa s",
        "share_of_turn": 0.5,
        "faces": 2,
    },
)
