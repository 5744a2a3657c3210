"""An external gear pump: what it displaces, against the usual estimate, and how its flow ripples."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.forms import SIZE, Amount, Count, Given, Input

if TYPE_CHECKING:
    from fitwright.physics.pump.spur import GearDisplacement, SpurPair

_TURN = 6.283185307179586


def _compute(given: Given) -> Found:
    from fitwright.physics.pump.cautions import KEEP_TRAPPED_OIL_GROOVES
    from fitwright.physics.pump.spur import SpurPair, base_pitch, spur_displacement

    teeth, module = given["teeth"], given["module"]
    outside, apart = given["outside_diameter"], given["centre_distance"]
    pair = SpurPair(
        teeth,
        module,
        given["pressure_angle"],
        given["width"],
        (teeth + 2) * module if outside is None else outside,
        teeth * module if apart is None else apart,
    )
    found = spur_displacement(pair)
    speed = given["pump_speed"]
    return Found(
        {
            "displacement": found.displacement,
            "flow_ripple": found.flow_ripple,
            "theoretical_flow": None if speed is None else found.displacement * speed / _TURN,
            "estimate": found.estimate,
            "share_above_estimate": found.displacement / found.estimate - 1.0,
            "contact_ratio": found.contact_ratio,
            "outside_diameter": pair.outside_diameter,
            "centre_distance": pair.centre_distance,
        },
        _steps(given, pair, found, base_pitch(module, pair.pressure_angle)),
        (*found.cautions, KEEP_TRAPPED_OIL_GROOVES),
    )


def _steps(given: Given, pair: SpurPair, found: GearDisplacement, pitch: float) -> tuple[Step, ...]:
    def size(words: str, key: str, value: float) -> PutIn:
        return PutIn(words, value, "length", "given" if given[key] is not None else "standard gear")

    module = PutIn("m, module", pair.module, "length", "given")
    width = PutIn("b, width", pair.width, "length", "given")
    return (
        Step(
            "Base pitch",
            "π × m × cos α",
            (
                module,
                PutIn("α, pressure angle", pair.pressure_angle, "angle", given.origin("pressure_angle")),
            ),
            PutIn("base pitch", pitch, "length"),
            "iso21771_2007",
        ),
        Step(
            "Displacement",
            "2π × b × (d²/4 − a²/4 − p²/12)",
            (
                width,
                size("d, outside diameter", "outside_diameter", pair.outside_diameter),
                size("a, centre distance", "centre_distance", pair.centre_distance),
                PutIn("p, base pitch", pitch, "length", "step before"),
            ),
            PutIn("displacement", found.displacement, "displacement"),
            "manring2003",
        ),
        Step(
            "Ripple of the flow",
            "p²/4 / (d²/4 − a²/4 − p²/12)",
            (PutIn("p, base pitch", pitch, "length", "step before"),),
            PutIn("flow ripple", found.flow_ripple, "ratio"),
            "manring2003",
        ),
        Step(
            "The usual estimate",
            "2π × m² × z × b",
            (module, PutIn("z, teeth", pair.teeth, "ratio", "given"), width),
            PutIn("estimate", found.estimate, "displacement"),
        ),
    )


_LENGTH = Amount("length", above=0.0, typed_in=SIZE)

SUM = Sum(
    name="spur-pump",
    words=("oil pump", "gear pump", "external gear", "module", "displacement", "pump flow", "teeth"),
    title="External gear pump",
    text="Displacement and flow ripple of two equal gears, beside the usual estimate.",
    inputs=(
        Input("teeth", Count(5, 60), "teeth of each gear", required=True),
        Input("module", _LENGTH, "module: pitch diameter over teeth", required=True),
        Input("width", _LENGTH, "width of the gears", required=True),
        Input("outside_diameter", _LENGTH, "over the tips; that of a standard gear if not given", usual=True),
        Input(
            "centre_distance", _LENGTH, "between the shafts; that of standard gears if not given", usual=True
        ),
        Input("pressure_angle", Amount("angle", above=0.0, most=0.78), "pressure angle", default="20 deg"),
        Input(
            "pump_speed", Amount("angular_speed", least=0.0), "speed of the gears, for the flow", usual=True
        ),
    ),
    outputs=(
        Output("displacement", "for each revolution", "displacement", leads=True),
        Output("flow_ripple", "largest less least flow over the mean flow", "ratio", leads=True),
        Output("theoretical_flow", "displacement times speed, without leaks", "volume_flow", leads=True),
        Output("estimate", "2π × module² × teeth × width", "displacement"),
        Output("share_above_estimate", "displacement over the estimate, less one", "ratio"),
        Output("contact_ratio", "pairs of teeth in contact, on average", "ratio"),
        Output("outside_diameter", "as given, or standard", "length"),
        Output("centre_distance", "as given, or standard", "length"),
    ),
    compute=_compute,
    source="manring2003",
    example={
        "teeth": 11,
        "module": "3.5 mm",
        "width": "25 mm",
        "outside_diameter": "45.5 mm",
        "centre_distance": "38.5 mm",
        "pump_speed": "1500 rpm",
    },
)
