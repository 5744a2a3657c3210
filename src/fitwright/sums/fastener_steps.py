"""Steps that the workings of fasteners share."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sums.declaration import PutIn, Step
from fitwright.sums.fastener_parts import GivenBearing, GivenFriction

if TYPE_CHECKING:
    from fitwright.data.fasteners import PropertyClass
    from fitwright.physics.fasteners.band import PreloadBand
    from fitwright.physics.fasteners.stress import Utilisation
    from fitwright.physics.fasteners.thread import Thread

VDI = "vdi2230_1_2015"


def thread_step(thread: Thread) -> Step:
    """The sizes of the thread that the others use."""
    depths = {"ISO metric": "0.9382", "unified": "0.9743", "Whitworth": "0.9605"}
    sources = {"ISO metric": "iso898_1_2013", "unified": "asme_b1_1_2003", "Whitworth": "bs84_2007"}
    form = thread.form.value
    return Step(
        f"Thread {thread.designation}",
        f"stress area = π/4 × (d − {depths[form]} p)²",
        (
            PutIn(
                "d, nominal diameter", thread.nominal_diameter, "length", f"{form} thread [{sources[form]}]"
            ),
            PutIn("p, pitch", thread.pitch, "length", f"{form} thread [{sources[form]}]"),
            PutIn("d₂, pitch diameter", thread.pitch_diameter, "length"),
            PutIn("α, thread angle", thread.thread_angle, "angle"),
        ),
        PutIn("stress area", thread.stress_area, "area"),
        sources[form],
    )


def torque_step(
    thread: Thread,
    bearing: GivenBearing,
    friction: GivenFriction,
    torque: float,
    preload: float,
    *,
    torque_origin: str = "given",
    name: str = "",
) -> Step:
    """Torque and preload of one friction."""
    usual = friction.friction.usual
    return Step(
        f"Torque and preload{name}",
        "torque = preload × [p / 2π + μ_thread × d₂ / (2 cos α/2) + μ_head × (outer + hole) / 4]",
        (
            PutIn("torque", torque, "torque", torque_origin),
            PutIn("μ in the thread", usual.thread, "ratio", friction.origin),
            PutIn("μ under the head", usual.head, "ratio", friction.origin),
            PutIn(
                "outside of the bearing ring", bearing.bearing.outer_diameter, "length", bearing.outer_origin
            ),
            PutIn("hole of the bearing ring", bearing.bearing.hole_diameter, "length", bearing.hole_origin),
            PutIn("p, pitch", thread.pitch, "length", "step before"),
        ),
        PutIn("preload", preload, "force"),
        VDI,
    )


def band_step(
    band: PreloadBand, friction: GivenFriction, wrench_spread: float, origin: str, *, name: str = ""
) -> Step:
    """Where the preload lies with 95 % probability."""
    ranged = friction.friction
    return Step(
        f"Band of the preload{name}",
        "off the preload by √[(wrench × preload)² + (preload − preload at that end of the friction)²]",
        (
            PutIn("wrench, ± of its torque", wrench_spread, "ratio", origin),
            PutIn(
                "least μ in the thread",
                ranged.least.thread,
                "ratio",
                "15 % less, or as the lubricant's range",
            ),
            PutIn(
                "most μ in the thread", ranged.most.thread, "ratio", "15 % more, or as the lubricant's range"
            ),
            PutIn("lower end", band.preload_low, "force"),
            PutIn("upper end", band.preload_high, "force"),
        ),
        PutIn("preload", band.preload, "force"),
        "jcgm100_2008",
    )


def stress_step(thread: Thread, held: PropertyClass, friction: float, found: Utilisation) -> Step:
    """Tension and torsion over yield strength."""
    return Step(
        "Stress while tightening",
        "σ = preload / stress area, τ = 12 × torque in thread / (π d₀³), √(σ² + 3 τ²) / yield strength",
        (
            PutIn(
                "yield strength",
                held.strength.yield_strength,
                "pressure",
                f"class {held.name} [{held.source}]",
            ),
            PutIn(
                "proof stress", held.strength.proof_stress, "pressure", f"class {held.name} [{held.source}]"
            ),
            PutIn("μ in the thread", friction, "ratio", "step before"),
            PutIn("d₀, diameter of the stress area", thread.stress_diameter, "length"),
            PutIn("σ, tension", found.tension, "pressure"),
            PutIn("τ, torsion", found.torsion, "pressure"),
            PutIn("tension over proof stress", found.proof_utilisation, "ratio"),
        ),
        PutIn("yield utilisation", found.yield_utilisation, "ratio"),
        VDI,
    )
