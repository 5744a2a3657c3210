"""The torque that gives with another lubricant the preload that a torque gives with the first."""

from __future__ import annotations

from fitwright.sums.declaration import Found, Output, PutIn, Step, Sum
from fitwright.sums.fastener_parts import (
    BEARING_INPUTS,
    OVER_TIGHTENING,
    THREAD,
    TORQUE,
    bearing_given,
    calculated,
    friction_cautions,
    friction_given,
    friction_inputs,
    thread_given,
    torque_cautions,
)
from fitwright.sums.fastener_steps import VDI, band_step, thread_step, torque_step
from fitwright.sums.forms import Amount, Given, Input

_FIRST, _OTHER = " with the first lubricant", " with the other lubricant"


def _compute(given: Given) -> Found:
    from fitwright.physics.fasteners.band import equal_preload_torque, preload_band

    thread = thread_given(given)
    bearing, first, other = (
        bearing_given(given, thread),
        friction_given(given),
        friction_given(given, "other_"),
    )
    torque, spread = given["tightening_torque"], given["wrench_spread"]
    equal = equal_preload_torque(
        thread, bearing.bearing, torque, friction=first.friction.usual, other_friction=other.friction.usual
    )
    before = preload_band(thread, bearing.bearing, first.friction, torque, wrench_spread=spread)
    after = preload_band(thread, bearing.bearing, other.friction, equal, wrench_spread=spread)
    origin = given.origin("wrench_spread")
    working = (
        thread_step(thread),
        torque_step(thread, bearing, first, torque, before.preload, name=_FIRST),
        Step(
            "Torque of the same preload with the other lubricant",
            "preload × [p / 2π + μ_thread × d₂ / (2 cos α/2) + μ_head × (outer + hole) / 4]",
            (
                PutIn("preload", before.preload, "force", "step before"),
                PutIn("μ in the thread", other.friction.usual.thread, "ratio", other.origin),
                PutIn("μ under the head", other.friction.usual.head, "ratio", other.origin),
            ),
            PutIn("torque", equal, "torque"),
            VDI,
        ),
        band_step(before, first, spread, origin, name=_FIRST),
        band_step(after, other, spread, origin, name=_OTHER),
    )
    values = {
        "equal_torque": equal,
        "torque_ratio": equal / torque,
        "preload": after.preload,
        "preload_low": after.preload_low,
        "preload_high": after.preload_high,
        "first_preload_low": before.preload_low,
        "first_preload_high": before.preload_high,
        "preload_at_unchanged_torque": before.preload * torque / equal,
    }
    cautions = (
        calculated(after),
        "Where the maker gives a torque for the lubricant at hand, that torque counts and this one does not.",
        *torque_cautions(thread, torque),
        *friction_cautions(first, other),
    )
    return Found(values, working, cautions)


SUM = Sum(
    name="equal-preload",
    words=("lubricant", "dry to oiled", "lubed torque", "moly", "threadlocker", "torque", "convert torque"),
    title="Torque with another lubricant",
    text="The torque that gives with another lubricant the same preload, with the bands of both.",
    inputs=(
        THREAD,
        Input("tightening_torque", TORQUE, "torque as given for the first lubricant", required=True),
        *friction_inputs(of=" that the torque was given for"),
        *friction_inputs("other_", of=" that will be used"),
        *BEARING_INPUTS,
        Input(
            "wrench_spread",
            Amount("ratio", least=0.0, most=0.5),
            "how far the wrench's torque may lie off, on either side, with 95 %",
            default="4 %",
        ),
    ),
    outputs=(
        Output("equal_torque", "torque with the other lubricant for the same preload", "torque", leads=True),
        Output("torque_ratio", "that torque over the one given", "ratio"),
        Output("preload", "of both", "force", leads=True),
        Output("preload_low", "lower end of its 95 % band with the other lubricant", "force", leads=True),
        Output("preload_high", "upper end of it", "force", leads=True),
        Output("first_preload_low", "lower end of the band with the first lubricant", "force"),
        Output("first_preload_high", "upper end of it", "force"),
        Output(
            "preload_at_unchanged_torque",
            "what the torque as given would leave with the other lubricant",
            "force",
            leads=True,
        ),
    ),
    compute=_compute,
    source="vdi2230_1_2015",
    cautions=(OVER_TIGHTENING,),
    example={
        "thread": "M10x1.25",
        "tightening_torque": "60 N m",
        "lubricant": "engine oil",
        "other_lubricant": "assembly paste",
    },
)
