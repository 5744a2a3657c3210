"""Torque, preload and stress of a fastener: any one of them gives the others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.sums.declaration import Found, Output, Step, Sum
from fitwright.sums.fastener_parts import (
    BEARING_INPUTS,
    FORCE,
    OVER_TIGHTENING,
    THREAD,
    TORQUE,
    GivenBearing,
    GivenFriction,
    bearing_given,
    calculated,
    class_given,
    friction_cautions,
    friction_given,
    friction_inputs,
    one_of,
    thread_given,
    torque_cautions,
)
from fitwright.sums.fastener_steps import band_step, stress_step, thread_step, torque_step
from fitwright.sums.forms import Amount, Given, Input, Words

if TYPE_CHECKING:
    from fitwright.data.fasteners import PropertyClass
    from fitwright.physics.fasteners.band import PreloadBand
    from fitwright.physics.fasteners.stress import Utilisation
    from fitwright.physics.fasteners.thread import Thread


@dataclass(frozen=True, slots=True)
class _Fastener:
    """The fastener as given."""

    thread: Thread
    held: PropertyClass
    bearing: GivenBearing
    friction: GivenFriction

    def torque(self, given: Given) -> float:
        """The torque as given, or that of the preload or the utilisation given."""
        from fitwright.physics.fasteners.friction import tightening_torque
        from fitwright.physics.fasteners.stress import preload_at_utilisation

        asked = one_of(given, "tightening_torque", "preload", "yield_utilisation")
        if asked == "tightening_torque":
            return float(given["tightening_torque"])
        usual = self.friction.friction.usual
        preload = given["preload"]
        if preload is None:
            preload = preload_at_utilisation(
                self.thread, self.held.strength.yield_strength, usual.thread, given["yield_utilisation"]
            )
        return tightening_torque(self.thread, self.bearing.bearing, usual, preload)

    def stress(self, preload: float, thread_friction: float) -> Utilisation:
        """How near to yield and proof load a preload comes."""
        from fitwright.physics.fasteners.stress import utilisation

        return utilisation(self.thread, self.held.strength, thread_friction, preload)


def _compute(given: Given) -> Found:
    from fitwright.physics.fasteners.band import preload_band
    from fitwright.physics.fasteners.friction import loosening_torque, nut_factor, torque_shares

    thread = thread_given(given)
    fastener = _Fastener(
        thread, class_given(given, thread), bearing_given(given, thread), friction_given(given)
    )
    friction, bearing = fastener.friction.friction, fastener.bearing.bearing
    torque = fastener.torque(given)
    band = preload_band(thread, bearing, friction, torque, wrench_spread=given["wrench_spread"])
    stress = fastener.stress(band.preload, friction.usual.thread)
    most = fastener.stress(band.preload_high, friction.least.thread)
    shares = torque_shares(thread, bearing, friction.usual, band.preload)
    values = {
        "tightening_torque": torque,
        "preload": band.preload,
        "preload_low": band.preload_low,
        "preload_high": band.preload_high,
        "yield_utilisation": stress.yield_utilisation,
        "proof_utilisation": stress.proof_utilisation,
        "yield_utilisation_high": most.yield_utilisation,
        "stretching_share": shares.stretching / shares.total,
        "thread_friction_share": shares.thread_friction / shares.total,
        "head_friction_share": shares.head_friction / shares.total,
        "loosening_torque": loosening_torque(thread, bearing, friction.usual, band.preload),
        "nut_factor": nut_factor(thread, bearing, friction.usual),
    }
    return Found(
        values,
        _working(given, fastener, torque, band, stress),
        tuple(_cautions(fastener, torque, band, stress, most)),
    )


def _working(
    given: Given, fastener: _Fastener, torque: float, band: PreloadBand, stress: Utilisation
) -> tuple[Step, ...]:
    thread, friction = fastener.thread, fastener.friction
    origin = "given" if given["tightening_torque"] is not None else "for what was given"
    return (
        thread_step(thread),
        torque_step(thread, fastener.bearing, friction, torque, band.preload, torque_origin=origin),
        stress_step(thread, fastener.held, friction.friction.usual.thread, stress),
        band_step(band, friction, given["wrench_spread"], given.origin("wrench_spread")),
    )


def _cautions(
    fastener: _Fastener, torque: float, band: PreloadBand, stress: Utilisation, most: Utilisation
) -> list[str]:
    said = [calculated(band), *torque_cautions(fastener.thread, torque)]
    if stress.yield_utilisation > 1.0:
        said.append(
            "This brings the fastener beyond its yield strength: it lengthens for good and may break."
        )
    elif most.yield_utilisation > 1.0:
        said.append("At the upper end of the band the fastener yields.")
    if stress.proof_utilisation > 1.0:
        said.append("The preload is above the proof load.")
    said += friction_cautions(fastener.friction)
    return said + ([fastener.held.note] if fastener.held.note else [])


_SHARE = Amount("ratio", above=0.0, most=1.2)

SUM = Sum(
    name="tightening",
    words=(
        "torque",
        "bolt",
        "screw",
        "stud",
        "nut",
        "clamp",
        "preload",
        "yield",
        "cap bolt",
        "head bolt",
        "fastener",
    ),
    title="Tightening torque and preload",
    text="Torque, preload with its band, and stress of a fastener: give one of them, and the lubricant.",
    inputs=(
        THREAD,
        Input("property_class", Words(), "property class or grade, such as 10.9 or SAE 8", required=True),
        *friction_inputs(),
        *BEARING_INPUTS,
        Input("tightening_torque", TORQUE, "torque; or give preload or yield_utilisation", usual=True),
        Input("preload", FORCE, "tension wanted, in place of the torque", usual=True),
        Input(
            "yield_utilisation",
            _SHARE,
            "share of the yield strength wanted, in place of the torque",
            usual=True,
        ),
        Input(
            "wrench_spread",
            Amount("ratio", least=0.0, most=0.5),
            "how far the wrench's torque may lie off, on either side, with 95 %",
            default="4 %",
        ),
    ),
    outputs=(
        Output("tightening_torque", "torque at the turned head or nut", "torque", leads=True),
        Output("preload", "tension that it leaves", "force", leads=True),
        Output("preload_low", "lower end of its 95 % band, from wrench and friction", "force", leads=True),
        Output("preload_high", "upper end of it", "force", leads=True),
        Output(
            "yield_utilisation", "von Mises stress while tightening over yield strength", "ratio", leads=True
        ),
        Output("proof_utilisation", "tension over proof stress", "ratio", leads=True),
        Output("yield_utilisation_high", "yield utilisation at the upper end of the band", "ratio"),
        Output("stretching_share", "share of the torque that stretches the fastener", "ratio"),
        Output("thread_friction_share", "share that goes into friction in the thread", "ratio"),
        Output("head_friction_share", "share that goes into friction under the head", "ratio"),
        Output("loosening_torque", "torque to turn it back, with the same friction", "torque"),
        Output("nut_factor", "torque over preload and diameter, for this head and this friction", "ratio"),
    ),
    compute=_compute,
    source="vdi2230_1_2015",
    cautions=(OVER_TIGHTENING,),
    example={
        "thread": "M10x1.25",
        "property_class": "10.9",
        "lubricant": "assembly paste",
        "tightening_torque": "52 N m",
    },
)
