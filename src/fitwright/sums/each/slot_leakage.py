"""Leakage through a flat slot, one wall of which may slide."""

from __future__ import annotations

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.forms import SIZE, Amount, Given, Input
from fitwright.sums.leaks import CAUTIONS, GAP, HUNDREDTH, OIL, cautions, laminar_step


def _compute(given: Given) -> Found:
    from fitwright.physics.passages.gaps import gap_reynolds_number

    whole, dragged = _flow(given, 0.0, given["pressure_drop"]), _flow(given, 0.0, 0.0)
    pressed = whole - dragged
    oil = {"dynamic_viscosity": given["dynamic_viscosity"], "density": given["density"]}
    reynolds = float(gap_reynolds_number(whole, width=given["width"], **oil))
    return Found(
        {
            "leakage_flow": whole,
            "pressure_flow": pressed,
            "drag_flow": dragged,
            "leakage_flow_a_hundredth_wider": _flow(given, HUNDREDTH, given["pressure_drop"]),
            "reynolds_number": reynolds,
        },
        (*_steps(given, pressed, dragged, whole), laminar_step(given, whole, given["width"], reynolds)),
        cautions(reynolds, given["gap"], given["length"]),
    )


def _flow(given: Given, wider: float, pressure_drop: float) -> float:
    from fitwright.physics.passages.gaps import slot_leakage

    return float(
        slot_leakage(
            pressure_drop,
            gap=given["gap"] + wider,
            width=given["width"],
            length=given["length"],
            dynamic_viscosity=given["dynamic_viscosity"],
            wall_speed=given["wall_speed"],
        )
    )


def _steps(given: Given, pressed: float, dragged: float, whole: float) -> tuple[Step, ...]:
    width = PutIn("w, width", given["width"], "length", "given")
    gap = PutIn("h, gap", given["gap"], "length", "given")
    return (
        Step(
            "What the pressure drives through",
            "w × h³ × Δp / (12 × μ × L)",
            (
                width,
                gap,
                PutIn("L, length", given["length"], "length", "given"),
                PutIn("Δp, pressure drop", given["pressure_drop"], "pressure", "given"),
                PutIn("μ, dynamic viscosity", given["dynamic_viscosity"], "dynamic_viscosity", "given"),
            ),
            PutIn("flow by pressure", pressed, "volume_flow"),
            "white2011",
        ),
        Step(
            "What the sliding wall drags along",
            "w × h × U / 2",
            (width, gap, PutIn("U, wall speed", given["wall_speed"], "speed", given.origin("wall_speed"))),
            PutIn("flow by drag", dragged, "volume_flow"),
            "white2011",
        ),
        Step(
            "The leak",
            "flow by pressure + flow by drag",
            (
                PutIn("flow by pressure", pressed, "volume_flow", "step before"),
                PutIn("flow by drag", dragged, "volume_flow", "step before"),
            ),
            PutIn("leakage flow", whole, "volume_flow"),
        ),
    )


_SIZE = Amount("length", above=0.0, typed_in=SIZE)

SUM = Sum(
    name="slot-leakage",
    words=("clearance leak", "cube law", "plunger", "thrust face", "relief valve", "oil leak"),
    title="Leakage of a slot",
    text="Oil that leaks through a flat gap: by pressure with the cube of the gap, and dragged by a wall.",
    inputs=(
        GAP,
        Input("width", _SIZE, "extent across the flow", required=True),
        Input("length", _SIZE, "extent along the flow, from edge to edge", required=True),
        *OIL,
        Input(
            "wall_speed",
            Amount("speed"),
            "speed of one wall, positive the way the oil leaks",
            default="0 m/s",
        ),
    ),
    outputs=(
        Output("leakage_flow", "all that leaks", "volume_flow", leads=True),
        Output("pressure_flow", "driven by the pressure", "volume_flow"),
        Output("drag_flow", "dragged by the wall", "volume_flow"),
        Output("leakage_flow_a_hundredth_wider", "with the gap 0.01 mm wider", "volume_flow", leads=True),
        Output("reynolds_number", "on the gap; laminar below about 1000", "ratio"),
    ),
    compute=_compute,
    source="white2011",
    cautions=CAUTIONS,
    example={
        "gap": "0.05 mm",
        "width": "80 mm",
        "length": "10 mm",
        "pressure_drop": "4 bar",
        "dynamic_viscosity": "10 mPa s",
    },
)
