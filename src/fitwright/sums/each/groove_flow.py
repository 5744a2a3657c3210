"""Oil that a full groove pushes out of a bearing."""

from __future__ import annotations

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.forms import SIZE, Amount, Given, Input

_WIDER = 0.5e-5
"""Radial, for a bearing 0.01 mm wider in diameter [m]."""


def _compute(given: Given) -> Found:
    flow, centred = _flow(given, 0.0, given["eccentricity_ratio"]), _flow(given, 0.0, 0.0)
    values = {
        "flow": flow,
        "flow_centred": centred,
        "flow_a_hundredth_wider": _flow(given, _WIDER, given["eccentricity_ratio"]),
    }
    return Found(values, _steps(given, centred, flow), _cautions(given))


def _flow(given: Given, wider: float, eccentricity_ratio: float) -> float:
    from fitwright.physics.bearings.feed import groove_flow

    flow = groove_flow(
        given["gauge_pressure"],
        journal_diameter=given["journal_diameter"],
        radial_clearance=given["radial_clearance"] + wider,
        land_length=given["land_length"],
        dynamic_viscosity=given["dynamic_viscosity"],
        eccentricity_ratio=eccentricity_ratio,
    )
    return float(flow)


def _steps(given: Given, centred: float, flow: float) -> tuple[Step, ...]:
    ratio = given["eccentricity_ratio"]
    return (
        Step(
            "With the journal in the middle",
            "π × D × c³ × p / (6 × μ × l)",
            (
                PutIn("D, journal diameter", given["journal_diameter"], "length", "given"),
                PutIn("c, radial clearance", given["radial_clearance"], "length", "given"),
                PutIn("p, pressure in the groove", given["gauge_pressure"], "pressure", "given"),
                PutIn("μ, dynamic viscosity", given["dynamic_viscosity"], "dynamic_viscosity", "given"),
                PutIn("l, length of one land", given["land_length"], "length", "given"),
            ),
            PutIn("flow centred", centred, "volume_flow"),
            "neale1995",
        ),
        Step(
            "With the journal to one side",
            "flow centred × (1 + 1.5 × ε²)",
            (
                PutIn("flow centred", centred, "volume_flow", "step before"),
                PutIn("ε, eccentricity ratio", ratio, "ratio", given.origin("eccentricity_ratio")),
            ),
            PutIn("flow", flow, "volume_flow"),
            "neale1995",
        ),
    )


def _cautions(given: Given) -> tuple[str, ...]:
    if given["radial_clearance"] > 0.005 * given["journal_diameter"]:
        return ("The clearance is beyond that of bearings: was the diametral clearance meant?",)
    return ()


_SIZE = Amount("length", above=0.0, typed_in=SIZE)

SUM = Sum(
    name="groove-flow",
    words=("bearing flow", "main bearing", "oil groove", "bearing clearance", "oil pressure", "cube law"),
    title="Flow of a grooved bearing",
    text="Oil that the pressure in a groove all round pushes out of both ends of a bearing.",
    inputs=(
        Input("journal_diameter", _SIZE, "diameter of the journal", required=True),
        Input(
            "radial_clearance",
            Amount("length", above=0.0, most=0.005),
            "half of the bore less the journal, warm",
            required=True,
        ),
        Input(
            "land_length",
            _SIZE,
            "length of one land, from the groove to the end of the shell",
            required=True,
        ),
        Input("gauge_pressure", Amount("pressure", least=0.0), "pressure in the groove", required=True),
        Input(
            "dynamic_viscosity",
            Amount("dynamic_viscosity", above=0.0),
            "dynamic viscosity of the oil in the gap; the sum `viscosity` gives it",
            required=True,
        ),
        Input(
            "eccentricity_ratio",
            Amount("ratio", least=0.0, most=0.999),
            "how far the journal is off the middle, over the radial clearance",
            default=0.5,
            usual=True,
        ),
    ),
    outputs=(
        Output("flow", "out of both ends together", "volume_flow", leads=True),
        Output("flow_centred", "the same with the journal in the middle", "volume_flow"),
        Output(
            "flow_a_hundredth_wider", "with a clearance 0.01 mm wider in diameter", "volume_flow", leads=True
        ),
    ),
    compute=_compute,
    source="neale1995",
    cautions=(
        "What the turning journal pumps comes on top; one bearing is a part of all that draws oil.",
        "The maker's clearances govern; a qualified person judges what an engine hangs on.",
    ),
    example={
        "journal_diameter": "56 mm",
        "radial_clearance": "0.0275 mm",
        "land_length": "9 mm",
        "gauge_pressure": "3 bar",
        "dynamic_viscosity": "12 mPa s",
    },
)
