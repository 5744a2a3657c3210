"""The pictures of the sums about pumps: rotors, gears, a relief valve."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from fitwright.drawing.sum_pictures import pumps
from fitwright.physics.pump.spur import SpurPair
from fitwright.physics.pump.trochoid import RotorPair
from fitwright.web.pages.sums.seen import Seen


def _rotors(seen: Seen, label: str) -> str:
    given = seen.given
    names = ("inner_lobes", "eccentricity", "generating_radius", "tooth_radius", "width")
    displaced, ripple, *flow = _delivers(seen)
    words = [
        displaced,
        *(part for each in flow for part in _in_two(each)),
        ripple,
        f"tips {seen.words(seen.value('inner_tip_diameter'))}",
        f"roots {seen.words(seen.value('inner_root_diameter'))}",
        f"height {seen.words(given['width'])}",
    ]
    return pumps.rotors(RotorPair(*(given[name] for name in names)), words, label)


def _gears(seen: Seen, label: str) -> str:
    given = seen.given
    pair = SpurPair(
        given["teeth"],
        given["module"],
        given["pressure_angle"],
        given["width"],
        seen.value("outside_diameter"),
        seen.value("centre_distance"),
    )
    words = [
        *_delivers(seen),
        f"outside {seen.words(pair.outside_diameter)}",
        f"centres {seen.words(pair.centre_distance)} apart",
    ]
    return pumps.gears(pair, words, label)


def _delivers(seen: Seen) -> list[str]:
    found = [
        f"displaces {seen.words(seen.value('displacement'), 'displacement')}",
        f"ripple {seen.value('flow_ripple'):.1%}",
    ]
    flow = seen.value("theoretical_flow")
    if flow:
        speed = seen.words(seen.given["pump_speed"], "angular_speed")
        found.append(f"{seen.words(flow, 'volume_flow')} at {speed}")
    return found


def _in_two(words: str) -> tuple[str, str]:
    """A flow at a speed, on two lines."""
    flow, _, speed = words.partition(" at ")
    return flow, f"at {speed}"


def _relief(seen: Seen, label: str) -> str:
    given = seen.given
    at_flow, lift = seen.value("pressure_at_flow"), seen.value("lift_at_flow")
    passes = ""
    if at_flow is not None:
        passes = f"{seen.words(given['flow'], 'volume_flow')} at {seen.words(at_flow, 'pressure')}"
    return pumps.valve(
        pumps.Valve(
            lift_ratio=given["full_lift"] / given["seat_diameter"],
            lifted=0.0 if lift is None else lift / given["full_lift"],
            seat=f"seat {seen.words(given['seat_diameter'])}",
            spring=f"spring {seen.words(given['spring_rate'], 'spring_rate')}",
            cracking=f"cracks at {seen.words(seen.value('cracking_pressure'), 'pressure')}",
            passes=passes,
        ),
        label,
    )


PUMP_PICTURES: Final[Mapping[str, Callable[[Seen, str], str]]] = MappingProxyType(
    {"relief": _relief, "rotor-pump": _rotors, "spur-pump": _gears}
)
"""How each sum about pumps is drawn."""
