"""The pictures of the sums about oil: viscosity, leaks, the edge of a drilling."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from fitwright.drawing.sum_pictures import leaks
from fitwright.drawing.sum_pictures.inlet import Inlet, inlet
from fitwright.drawing.sum_pictures.oil_line import Point, oil_line
from fitwright.web.pages.sums.bearing_pictures import bearing_picture
from fitwright.web.pages.sums.crank_pictures import crank_picture, groove_picture
from fitwright.web.pages.sums.seen import Seen

_MARKS: Final = (273.15, 313.15, 373.15, 423.15)


def _viscosity(seen: Seen, label: str) -> str:
    given = seen.given
    found = seen.value("kinematic_viscosity")
    known = [
        Point(temperature, 1e6 * given[f"kinematic_viscosity_{name}"])
        for temperature, name in ((313.15, "40"), (373.15, "100"))
    ]
    at, thick = (
        seen.words(given["temperature"], "temperature"),
        seen.words(found, "kinematic_viscosity"),
    )
    asked = Point(given["temperature"], 1e6 * found, f"{thick} at {at}")
    return oil_line(known, asked, [(each, seen.words(each, "temperature")) for each in _MARKS], label)


def _slot(seen: Seen, label: str) -> str:
    given = seen.given
    speed = given["wall_speed"]
    return leaks.slot(
        leaks.Slot(
            gap=given["gap"],
            gap_words=f"gap {seen.words(given['gap'])}",
            width=seen.words(given["width"]),
            length=seen.words(given["length"]),
            pressure=seen.words(given["pressure_drop"], "pressure"),
            wall=seen.words(speed, "speed") if speed else "",
            leak=seen.words(seen.value("leakage_flow"), "volume_flow"),
        ),
        label,
    )


def _faces(seen: Seen, label: str) -> str:
    given = seen.given
    return leaks.faces(
        leaks.Faces(
            gap=given["gap"],
            share=given["inner_diameter"] / given["outer_diameter"],
            gap_words=f"gap {seen.words(given['gap'])}",
            outer=seen.words(given["outer_diameter"]),
            inner=seen.words(given["inner_diameter"]),
            pressure=seen.words(given["pressure_drop"], "pressure"),
            leak=f"leaks {seen.words(seen.value('leakage_flow'), 'volume_flow')}",
        ),
        label,
    )


def _inlet(seen: Seen, label: str) -> str:
    given = seen.given
    low, high = (seen.words(each, "pressure") for each in seen.value("pressure_drop_interval"))
    radius = given["edge_radius"]
    return inlet(
        Inlet(
            ratio=radius / given["diameter"],
            diameter=seen.words(given["diameter"]),
            radius=f"radius {seen.words(radius)}" if radius else "sharp edge",
            speed=seen.words(seen.value("speed"), "speed"),
            drop=f"loses {seen.words(seen.value('pressure_drop'), 'pressure')}",
            range_words=f"authors: {low} to {high}",
        ),
        label,
    )


OIL_PICTURES: Final[Mapping[str, Callable[[Seen, str], str]]] = MappingProxyType(
    {
        "bearing": bearing_picture,
        "end-leakage": _faces,
        "feed-margin": crank_picture,
        "groove-flow": groove_picture,
        "inlet-edge-loss": _inlet,
        "slot-leakage": _slot,
        "viscosity": _viscosity,
    }
)
"""How each sum about oil is drawn."""
