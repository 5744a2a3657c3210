"""Stretch and preload of a fastener by the lengths of its grip: either gives the other."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.sums.declaration import Computed, Found, Output, PutIn, Step, Sum
from fitwright.sums.errors import MissingInputError
from fitwright.sums.fastener_parts import (
    BEARING_INPUTS,
    FORCE,
    LENGTH,
    OVER_TIGHTENING,
    THREAD,
    TORQUE,
    bearing_given,
    class_given,
    one_of,
    thread_given,
)
from fitwright.sums.fastener_steps import thread_step
from fitwright.sums.forms import SIZE, Amount, Given, Group, Input, Several, Words

if TYPE_CHECKING:
    from fitwright.physics.fasteners.band import PreloadBand
    from fitwright.physics.fasteners.thread import Thread


@dataclass(frozen=True, slots=True)
class _Stretched:
    """A fastener with its stretch: what was read, what warmth takes off it, and the preload."""

    thread: Thread
    resilience: float
    length: float
    warmth: float
    stretch: float
    band: PreloadBand


def _compute(given: Given) -> Found:
    found = _stretched(given)
    proof, beyond = _proof(given, found)
    friction = _apparent_friction(given, found)
    values: dict[str, Computed] = {
        "stretch": found.stretch,
        "preload": found.band.preload,
        "preload_low": found.band.preload_low,
        "preload_high": found.band.preload_high,
        "stretch_by_warming": found.warmth,
        "force_for_a_hundredth": 1e-5 / found.resilience,
        "grip_length": found.length,
        "proof_utilisation": proof,
        "apparent_friction": friction,
    }
    return Found(values, _working(given, found), tuple(_cautions(beyond, friction)))


def _stretched(given: Given) -> _Stretched:
    from fitwright.physics.fasteners.resilience import ShankSection, grip_resilience
    from fitwright.physics.fasteners.stretch import preload_from_stretch, stretch_by_warming

    thread = thread_given(given)
    sections = [ShankSection(each["length"], each["diameter"]) for each in given["sections"] or ()]
    free = given["thread_length"]
    if not sections and not free:
        raise MissingInputError("sections", "give sections, thread_length or both")
    resilience = grip_resilience(
        thread, sections, free_thread_length=free, elastic_modulus=given["elastic_modulus"]
    )
    length = sum(each.length for each in sections) + free
    measured = length if given["measured_length"] is None else given["measured_length"]
    warmth = stretch_by_warming(
        measured, given["warming"], expansion_coefficient=given["expansion_coefficient"]
    )
    asked = one_of(given, "stretch", "preload")
    stretch = given["preload"] * resilience if asked == "preload" else max(given["stretch"] - warmth, 0.0)
    band = preload_from_stretch(
        stretch,
        resilience,
        reading_spread=given["reading_spread"],
        resilience_spread=given["resilience_spread"],
        length=measured,
        temperature_spread=given["temperature_spread"],
        expansion_coefficient=given["expansion_coefficient"],
    )
    return _Stretched(thread, resilience, length, warmth, stretch, band)


def _proof(given: Given, found: _Stretched) -> tuple[float | None, bool]:
    """Tension over proof stress, and whether it is above; of a thinner shank, over that."""
    if given["property_class"] is None:
        return None, False
    held = class_given(given, found.thread)
    areas = [0.25 * math.pi * each["diameter"] ** 2 for each in given["sections"] or ()]
    smallest = min([found.thread.stress_area, *areas])
    share = found.band.preload / smallest / held.strength.proof_stress
    return share, share > 1.0


def _apparent_friction(given: Given, found: _Stretched) -> float | None:
    from fitwright.physics.fasteners.friction import friction_from_torque

    if given["tightening_torque"] is None or not found.band.preload > 0.0:
        return None
    bearing = bearing_given(given, found.thread).bearing
    return friction_from_torque(
        found.thread, bearing, torque=given["tightening_torque"], preload=found.band.preload
    )


def _working(given: Given, found: _Stretched) -> tuple[Step, ...]:
    lengths = [
        PutIn(f"{what} of section {number}", each[key], "length", "given")
        for number, each in enumerate(given["sections"] or (), start=1)
        for what, key in (("length", "length"), ("diameter", "diameter"))
    ]
    return (
        thread_step(found.thread),
        Step(
            "Stretch and preload",
            "stretch = preload / E × [Σ length / area + thread length / stress area]",
            (
                *lengths,
                PutIn("thread length", given["thread_length"], "length", given.origin("thread_length")),
                PutIn(
                    "E, elastic modulus",
                    given["elastic_modulus"],
                    "pressure",
                    given.origin("elastic_modulus"),
                ),
                PutIn("stretch by warming, taken off what was read", found.warmth, "length"),
                PutIn("stretch", found.stretch, "length"),
            ),
            PutIn("preload", found.band.preload, "force"),
            "bickford1995",
        ),
        Step(
            "Band of the preload",
            "√[(reading / stretch)² + (α × length × temperature / stretch)² + resilience²], on both sides",
            (
                PutIn("reading, ±", given["reading_spread"], "length", given.origin("reading_spread")),
                PutIn(
                    "temperature between both readings, ±",
                    given["temperature_spread"],
                    "temperature_difference",
                    given.origin("temperature_spread"),
                ),
                PutIn(
                    "resilience, ±", given["resilience_spread"], "ratio", given.origin("resilience_spread")
                ),
                PutIn("lower end", found.band.preload_low, "force"),
            ),
            PutIn("upper end", found.band.preload_high, "force"),
            "jcgm100_2008",
        ),
    )


def _cautions(beyond: bool, friction: float | None) -> list[str]:  # noqa: FBT001  (a plain fact)
    said = []
    if beyond:
        said.append("Above the proof load: the fastener may have taken a set, and carries less than this.")
    if friction is not None and friction < 0.0:
        said.append("So much stretch for so little torque: the fastener yields, or a length is wrong.")
    return said


_SECTION = Group(
    (
        Input("length", LENGTH, "length of this plain part of the shank within the grip", required=True),
        Input("diameter", LENGTH, "its diameter", required=True),
    ),
    short=r"(?P<length>.+?)\s*[x\u00d7]\s*(?P<diameter>.+)",
    example="26 mm x 7.8 mm",
)
_SPREAD = Amount("length", least=0.0)

SUM = Sum(
    name="stretch",
    words=("rod bolt", "bolt stretch", "elongation", "stretch gauge", "stretch gage", "preload", "torque"),
    title="Stretch of a fastener",
    text="The preload of a fastener by how much it has stretched, or the stretch that a preload asks for.",
    inputs=(
        THREAD,
        Input(
            "sections",
            Several(_SECTION, starts=({}, {})),
            "the plain lengths of the shank between head and thread, each with its diameter",
            usual=True,
        ),
        Input(
            "thread_length",
            Amount("length", least=0.0, typed_in=SIZE),
            "length of thread between head and where it engages",
            default="0 mm",
            usual=True,
        ),
        Input(
            "stretch",
            Amount("length", above=0.0),
            "length tightened less length free; or give preload",
            usual=True,
        ),
        Input("preload", FORCE, "tension wanted, in place of the stretch", usual=True),
        Input(
            "property_class",
            Words(),
            "property class or grade, for the share of its proof stress",
            usual=True,
        ),
        Input("tightening_torque", TORQUE, "torque seen, for the friction that explains it", usual=True),
        *BEARING_INPUTS,
        Input(
            "elastic_modulus",
            Amount("pressure", above=0.0, typed_in=("GPa", "psi")),
            "elastic modulus of the fastener",
            default="205 GPa",
        ),
        Input(
            "warming",
            Amount("temperature_difference"),
            "how much warmer it is at the second reading; taken off the stretch",
            default="0 K",
        ),
        Input("measured_length", LENGTH, "length that the gauge spans, for its warming; else the grip"),
        Input(
            "expansion_coefficient",
            Amount("thermal_expansion", above=0.0),
            "of the fastener",
            default="11.5e-6 /K",
        ),
        Input(
            "reading_spread",
            _SPREAD,
            "how far a stretch may be misread, on either side, with 95 %",
            default="0.005 mm",
        ),
        Input(
            "temperature_spread",
            Amount("temperature_difference", least=0.0),
            "how far the temperature may differ between both readings, with 95 %",
            default="2 K",
        ),
        Input(
            "resilience_spread",
            Amount("ratio", least=0.0, most=0.5),
            "how well lengths and elastic modulus are known, with 95 %",
            default="3 %",
        ),
    ),
    outputs=(
        Output("stretch", "lengthening of the grip by the preload", "length", leads=True),
        Output("preload", "tension in the fastener", "force", leads=True),
        Output("preload_low", "lower end of its 95 % band", "force", leads=True),
        Output("preload_high", "upper end of it", "force", leads=True),
        Output("stretch_by_warming", "what warmth adds to the reading", "length"),
        Output("force_for_a_hundredth", "force for each 0.01 mm of stretch", "force"),
        Output("grip_length", "sum of the lengths", "length"),
        Output("proof_utilisation", "tension in the thinnest section over proof stress", "ratio", leads=True),
        Output(
            "apparent_friction",
            "coefficient, alike in thread and under the head, that explains torque and stretch",
            "ratio",
            leads=True,
        ),
    ),
    compute=_compute,
    source="bickford1995",
    cautions=(
        "Read at one temperature, with clean dimples: 10 K on 60 mm of steel are 0.007 mm (0.3 thou).",
        "The maker's stretch, lubricant and method govern; beyond the maker's permanent set it is scrap.",
        OVER_TIGHTENING,
    ),
    example={
        "thread": "M9x1",
        "sections": [{"length": "26 mm", "diameter": "7.8 mm"}],
        "thread_length": "12 mm",
        "stretch": "0.150 mm",
        "property_class": "12.9",
        "tightening_torque": "46 N m",
    },
)
