"""An internal rotor pump: what it displaces, how its flow ripples, whether its teeth undercut."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.forms import SIZE, Amount, Count, Given, Input

if TYPE_CHECKING:
    from fitwright.physics.pump.chambers import RotorDisplacement
    from fitwright.physics.pump.trochoid import RotorPair


def _compute(given: Given) -> Found:
    from fitwright.physics.pump.cautions import NEVER_LONGER_KIDNEYS
    from fitwright.physics.pump.chambers import rotor_displacement
    from fitwright.physics.pump.trochoid import RotorPair

    names = ("inner_lobes", "eccentricity", "generating_radius", "tooth_radius", "width")
    pair = RotorPair(*(given[name] for name in names))
    found = rotor_displacement(pair)
    speed = given["pump_speed"]
    return Found(
        {
            "displacement": found.displacement,
            "flow_ripple": found.flow_ripple,
            "theoretical_flow": None if speed is None else found.displacement * speed / _TURN,
            "inner_tip_diameter": 2.0 * pair.inner_tip_radius,
            "inner_root_diameter": 2.0 * pair.inner_root_radius,
            "outer_bore_diameter": 2.0 * pair.outer_tip_radius,
            "largest_chamber": found.largest_chamber,
            "smallest_chamber": found.smallest_chamber,
            "smallest_radius_of_curvature": found.smallest_radius_of_curvature,
            "estimate_from_tips_and_roots": _estimate(pair),
        },
        _steps(given, pair, found),
        (*found.cautions, NEVER_LONGER_KIDNEYS),
    )


_TURN = 6.283185307179586


def _estimate(pair: RotorPair) -> float:
    return 0.5 * _TURN * pair.width * (pair.inner_tip_radius**2 - pair.inner_root_radius**2)


def _steps(given: Given, pair: RotorPair, found: RotorDisplacement) -> tuple[Step, ...]:
    sizes = tuple(
        PutIn(words, given[key], dimension, "given")
        for words, key, dimension in (
            ("N, lobes of the inner rotor", "inner_lobes", "ratio"),
            ("e, eccentricity", "eccentricity", "length"),
            ("G, generating radius", "generating_radius", "length"),
            ("ρ, tooth radius", "tooth_radius", "length"),
        )
    )
    return (
        Step(
            "Chambers over a turn",
            "areas between both outlines, from one contact of the teeth to the next",
            (*sizes, PutIn("widest chamber", found.largest_chamber, "area")),
            PutIn("narrowest chamber", found.smallest_chamber, "area"),
            "ivantysyn2001",
        ),
        Step(
            "Displacement",
            "N × width × (widest chamber − narrowest chamber)",
            (
                sizes[0],
                PutIn("width", pair.width, "length", "given"),
                PutIn("widest chamber", found.largest_chamber, "area", "step before"),
                PutIn("narrowest chamber", found.smallest_chamber, "area", "step before"),
            ),
            PutIn("displacement", found.displacement, "displacement"),
            "ivantysyn2001",
        ),
        Step(
            "Ripple of the flow",
            "(largest − least flow over a turn) / mean flow",
            (PutIn("mean flow for each turn", found.displacement, "displacement", "step before"),),
            PutIn("flow ripple", found.flow_ripple, "ratio"),
            "ivantysyn2001",
        ),
        Step(
            "Undercut",
            "tooth radius below the trochoid's smallest radius of curvature",
            (sizes[3],),
            PutIn("smallest radius of curvature", found.smallest_radius_of_curvature, "length"),
            "ivantysyn2001",
        ),
    )


_LENGTH = Amount("length", above=0.0, typed_in=SIZE)

SUM = Sum(
    name="rotor-pump",
    words=("oil pump", "trochoid", "lobe", "displacement", "pump flow", "inner rotor", "outer rotor"),
    title="Internal rotor pump",
    text="Displacement and flow ripple of an internal rotor pump from the data of its teeth.",
    inputs=(
        Input("inner_lobes", Count(3, 20), "lobes of the inner rotor; the outer has one more", required=True),
        Input("eccentricity", _LENGTH, "distance between the centres of both rotors", required=True),
        Input("generating_radius", _LENGTH, "radius on which the outer teeth are centred", required=True),
        Input("tooth_radius", _LENGTH, "radius of the outer rotor's teeth", required=True),
        Input("width", _LENGTH, "height of the rotors along their axis", required=True),
        Input(
            "pump_speed",
            Amount("angular_speed", least=0.0),
            "speed of the inner rotor, for the flow",
            usual=True,
        ),
    ),
    outputs=(
        Output("displacement", "for each revolution of the inner rotor", "displacement", leads=True),
        Output("flow_ripple", "largest less least flow over the mean flow", "ratio", leads=True),
        Output("theoretical_flow", "displacement times speed, without leaks", "volume_flow", leads=True),
        Output("inner_tip_diameter", "over the tips of the inner rotor", "length"),
        Output("inner_root_diameter", "over its roots", "length"),
        Output("outer_bore_diameter", "through the tips of the outer rotor's teeth", "length"),
        Output("largest_chamber", "area of the widest chamber", "area"),
        Output("smallest_chamber", "area of the narrowest, roots just touched", "area"),
        Output("smallest_radius_of_curvature", "the tooth radius has to stay below it", "length"),
        Output(
            "estimate_from_tips_and_roots",
            "π × width × (tip² − root²), a few per cent too high",
            "displacement",
        ),
    ),
    compute=_compute,
    source="ivantysyn2001",
    example={
        "inner_lobes": 4,
        "eccentricity": "3.0 mm",
        "generating_radius": "25.0 mm",
        "tooth_radius": "9.0 mm",
        "width": "10 mm",
        "pump_speed": "900 rpm",
    },
)
