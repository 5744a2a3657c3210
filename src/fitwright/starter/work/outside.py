"""The order of work that closes the engine: sump, covers, damper, flywheel, what hangs on it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.starter.plan import Plan
from fitwright.starter.work.bottom_end import joints_inside
from fitwright.starter.work.found import Found
from fitwright.starter.work.step_block import StepBlock
from fitwright.starter.work.top_end import head_joints

CLOSING: Final = "Closing"


def outside(plan: Plan, found: Found) -> Iterator[StepBlock]:
    """Steps that close the engine; only where the whole engine is built."""
    if plan.only != "all":
        return
    if found.has("pump"):
        yield _sump(plan, found)
    if not plan.two_stroke:
        yield StepBlock(
            key="covers.on",
            title="Covers on",
            stage=CLOSING,
            after=("head.looked_at",),
            uses=("sealant",),
            hides=(*head_joints(plan), *found.fits("timing", "lash")),
        )
    if found.has("crank_ends"):
        yield from _crank_ends(found)
    if found.has("ancillaries"):
        yield StepBlock(
            key="ancillaries.on",
            title="Pumps, turbocharger and pipes on, as the engine has them",
            stage=CLOSING,
            after=("head.looked_at",),
            fits=found.fits("ancillaries"),
            eye_checks=found.eye_checks("ancillaries"),
        )


def _sump(plan: Plan, found: Found) -> StepBlock:
    wet = bool(found.parts("sump"))
    return StepBlock(
        key="sump.on",
        title="Sump on" if wet else "Pan and oil lines on",
        stage=CLOSING,
        after=("oil_system.looked_at",),
        uses=("sealant",),
        hides=(*joints_inside(plan), "pump_body", "pickup", *found.fits("pickup")),
        cautions=("engine_stand",),
    )


def _crank_ends(found: Found) -> Iterator[StepBlock]:
    damper = found.eye_checks("crank_ends", "damper")
    yield StepBlock(
        key="damper.on",
        title="Damper or pulley on",
        stage=CLOSING,
        after=("covers.on", "sump.on", "mains.tightened"),
        fits=found.named("damper.hub_interference"),
        tightens=("damper_bolt",),
        eye_checks=damper,
        cautions=("over_tightening", "rotating_parts"),
    )
    yield StepBlock(
        key="flywheel.on",
        title="Flywheel on",
        stage=CLOSING,
        after=("rear_seal.in", "mains.tightened"),
        fits=found.named("flywheel.spigot_clearance", "crank.spigot_bearing_clearance"),
        tightens=("flywheel",),
        eye_checks=found.eye_checks("crank_ends", "faces_clean"),
        cautions=("lifting", "over_tightening", "rotating_parts"),
    )
