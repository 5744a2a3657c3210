"""What a thread holds in its parent metal, and how much engagement breaks the bolt first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.sums.declaration import Computed, Found, Output, PutIn, Step, Sum
from fitwright.sums.errors import InputError, MissingInputError
from fitwright.sums.fastener_parts import (
    FORCE,
    LENGTH,
    OVER_TIGHTENING,
    SOUND_THREAD,
    STRESS,
    THREAD,
    class_given,
    metal_given,
    thread_given,
)
from fitwright.sums.fastener_steps import thread_step
from fitwright.sums.forms import SIZE, Amount, Given, Input, Words
from fitwright.sums.materials import Constant

if TYPE_CHECKING:
    from fitwright.data.fasteners import PropertyClass
    from fitwright.physics.fasteners.stripping import Stripping
    from fitwright.physics.fasteners.thread import Thread


@dataclass(frozen=True, slots=True)
class _Hole:
    """A thread in its parent metal, as given."""

    thread: Thread
    held: PropertyClass
    parent: Constant
    outside: float | None
    insert: Thread | None
    countersink: Constant

    def stripping(self, engagement: float) -> Stripping:
        """What an effective engagement holds."""
        from fitwright.physics.fasteners.stripping import stripping

        return stripping(
            self.thread,
            engagement,
            bolt_tensile_strength=self.held.strength.tensile_strength,
            bolt_shear_strength=self.held.shear_strength,
            parent_shear_strength=self.parent.value,
            outside_diameter=self.outside,
            insert_thread=self.insert,
        )

    def needed(self, force: float) -> float:
        """Engagement that holds a force, with countersink and end threads."""
        from fitwright.physics.fasteners.engagement import END_THREADS

        # What holds is proportional to what is engaged.
        effective = (
            self.thread.nominal_diameter
            * force
            / self.stripping(self.thread.nominal_diameter).stripping_force
        )
        return effective + self.countersink.value + END_THREADS * self.thread.pitch


def _compute(given: Given) -> Found:
    from fitwright.physics.fasteners.engagement import effective_engagement

    hole = _hole(given)
    effective = effective_engagement(
        hole.thread, given["engagement_length"], countersink_depth=hole.countersink.value
    )
    found = hole.stripping(effective)
    preload = given["preload_high"]
    margin = None if preload is None else found.margin(preload)
    weaker = "thread of the hole" if found.internal_force <= found.external_force else "thread of the bolt"
    values: dict[str, Computed] = {
        "stripping_force": found.stripping_force,
        "weaker_thread": weaker,
        "bolt_breaking_force": found.bolt_breaking_force,
        "bolt_breaks_first": found.bolt_breaks_first,
        "needed_engagement": hole.needed(found.bolt_breaking_force),
        "stripping_margin": margin,
        "effective_engagement": effective,
        "internal_force": found.internal_force,
        "external_force": found.external_force,
    }
    return Found(values, _working(given, hole, found), tuple(_cautions(hole, found, margin)))


def _hole(given: Given) -> _Hole:
    from fitwright.physics.fasteners.thread import thread_by_sizes

    thread = thread_given(given)
    outside = given["insert_outside_diameter"]
    if outside is not None and not outside > thread.nominal_diameter:
        raise InputError(
            "insert_outside_diameter", "not above the thread within it; measure over its outside"
        )
    boss = given["boss_diameter"]
    if boss is not None and boss < 1.4 * (outside or thread.nominal_diameter):
        raise InputError(
            "boss_diameter", "less than 1.4 times the thread, where nothing is known; make it wider"
        )
    depth = given["countersink_depth"]
    return _Hole(
        thread,
        class_given(given, thread),
        _parent(given),
        boss,
        None if outside is None else thread_by_sizes(outside, thread.pitch, form=thread.form),
        Constant(0.5 * thread.pitch, "assumed, half a pitch") if depth is None else Constant(depth, "given"),
    )


def _parent(given: Given) -> Constant:
    if given["parent_shear_strength"] is not None:
        return Constant(given["parent_shear_strength"], "given")
    if given["parent_metal"] is None:
        raise MissingInputError("parent_metal", "give parent_metal or parent_shear_strength")
    metal = metal_given(given, "parent_metal")
    return Constant(metal.shear_strength, f"{metal.title} [{metal.source}]")


def _working(given: Given, hole: _Hole, found: Stripping) -> tuple[Step, ...]:
    thread, held = hole.thread, hole.held
    return (
        thread_step(thread),
        Step(
            "Engagement that carries",
            "engagement − countersink − 0.8 p",
            (
                PutIn("engagement", given["engagement_length"], "length", "given"),
                PutIn("countersink", hole.countersink.value, "length", hole.countersink.origin),
                PutIn("p, pitch", thread.pitch, "length", "step before"),
            ),
            PutIn("effective engagement", found.effective_engagement, "length"),
            "vdi2230_1_2015",
        ),
        Step(
            "Force at which the thread of the hole strips",
            "C₁ × C₃ × shear strength × π d (m/p) [p/2 + (d − D₂) tan α/2], at the limits of 6H/6g",
            (
                PutIn(
                    "shear strength of the parent metal", hole.parent.value, "pressure", hole.parent.origin
                ),
                PutIn("ratio of both threads' strength", found.strength_ratio, "ratio"),
            ),
            PutIn("force", found.internal_force, "force"),
            "alexander1977",
        ),
        Step(
            "Force at which the thread of the bolt strips",
            "C₁ × C₂ × shear strength × π D₁ (m/p) [p/2 + (d₂ − D₁) tan α/2]",
            (
                PutIn(
                    "shear strength of the bolt",
                    held.shear_strength,
                    "pressure",
                    f"class {held.name} [{held.source}]",
                ),
            ),
            PutIn("force", found.external_force, "force"),
            "alexander1977",
        ),
        Step(
            "Force at which the bolt breaks",
            "tensile strength × stress area",
            (
                PutIn(
                    "tensile strength",
                    held.strength.tensile_strength,
                    "pressure",
                    f"class {held.name} [{held.source}]",
                ),
            ),
            PutIn("force", found.bolt_breaking_force, "force"),
            held.source,
        ),
    )


def _cautions(hole: _Hole, found: Stripping, margin: float | None) -> list[str]:
    said = []
    if not found.bolt_breaks_first:
        said.append("The thread strips before the bolt breaks: that shows late, and costs the casting.")
    if margin is not None and margin < 1.0:
        said.append("The thread strips below the largest preload.")
    return said + ([hole.held.note] if hole.held.note else [])


SUM = Sum(
    name="stripping",
    words=(
        "thread engagement",
        "strip",
        "stripped thread",
        "pull out",
        "helical insert",
        "thread insert",
        "tapped hole",
    ),
    title="Threads that strip",
    text="The force at which a thread strips, and the engagement with which the bolt breaks first.",
    inputs=(
        THREAD,
        Input(
            "property_class",
            Words(),
            "property class or grade of the bolt, such as 10.9 or SAE 8",
            required=True,
        ),
        Input(
            "parent_metal",
            Words(),
            "metal that the hole is in, such as cast_aluminium, cast_iron, steel, magnesium",
            usual=True,
        ),
        Input("parent_shear_strength", STRESS, "its shear strength, in place of the metal", usual=True),
        Input("engagement_length", LENGTH, "from the face of the hole to the end of the bolt", required=True),
        Input(
            "countersink_depth",
            Amount("length", least=0.0, typed_in=SIZE),
            "depth of the countersink at the mouth of the hole; else half a pitch",
            usual=True,
        ),
        Input("preload_high", FORCE, "largest preload, for the margin", usual=True),
        Input(
            "boss_diameter",
            LENGTH,
            "outside of a boss, or across the flats of a nut; a block where not given",
        ),
        Input("insert_outside_diameter", LENGTH, "outside thread of a helical insert in the hole"),
    ),
    outputs=(
        Output("stripping_force", "force at which the weaker thread strips", "force", leads=True),
        Output("weaker_thread", "which thread that is", leads=True),
        Output("bolt_breaking_force", "force at which the bolt breaks", "force", leads=True),
        Output("bolt_breaks_first", "whether the bolt breaks before a thread strips", leads=True),
        Output(
            "needed_engagement",
            "engagement with which the bolt breaks first, countersink and end threads included",
            "length",
            leads=True,
        ),
        Output("stripping_margin", "stripping force over the largest preload", "ratio", leads=True),
        Output("effective_engagement", "engagement that carries", "length"),
        Output("internal_force", "force at which the thread of the hole strips", "force"),
        Output("external_force", "force at which the thread of the bolt strips", "force"),
    ),
    compute=_compute,
    source="alexander1977",
    cautions=(
        SOUND_THREAD,
        "The maker's engagement, insert and torque govern; a qualified person decides.",
        OVER_TIGHTENING,
    ),
    example={
        "thread": "M10x1.25",
        "property_class": "10.9",
        "parent_metal": "cast_aluminium",
        "engagement_length": "20 mm",
        "preload_high": "44 kN",
    },
)
