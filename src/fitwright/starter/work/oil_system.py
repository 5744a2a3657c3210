"""The order of work of the oil system and the rear seal, and the hold before the sump goes on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.starter.plan import Plan
from fitwright.starter.work.found import Found
from fitwright.starter.work.step_block import StepBlock

OIL_SYSTEM: Final = "Oil system"
PUMP_JOINTS: Final = ("pump_cover", "pump_body", "pickup")


def oil_system(plan: Plan, found: Found) -> Iterator[StepBlock]:
    """Steps of pump, pickup and rear seal, as far as the sheet has them."""
    if found.has("pump"):
        yield from _pump(plan, found)
    if found.has("rear_seal"):
        yield StepBlock(
            key="rear_seal.in",
            title="Rear seal and its carrier on",
            stage=OIL_SYSTEM,
            after=("mains.tightened",),
            fits=found.fits("rear_seal"),
            eye_checks=found.eye_checks("rear_seal"),
            replaces=found.once("rear_seal"),
            uses=("sealant",),
        )
    if found.has("pump"):
        yield _looked_at(found)


def _pump(plan: Plan, found: Found) -> Iterator[StepBlock]:
    on_crank = plan.pump == "crank-driven internal rotor"
    by_camshaft = plan.pump == "camshaft-driven" and not plan.overhead_cams
    yield StepBlock(
        key="pump.closed",
        title="Oil pump packed and closed, relief valve set",
        stage=OIL_SYSTEM,
        after=("kit",),
        fits=found.fits("pump", "relief"),
        tightens=("pump_cover",),
        eye_checks=(
            *found.eye_checks("pump", "turns", "gasket", "primed"),
            *found.eye_checks("relief", "way_round"),
        ),
        hides=found.fits("pump"),
        cautions=("springs",),
    )
    yield StepBlock(
        key="pump.on",
        title="Oil pump on the crank, centred" if on_crank else "Oil pump on its drive",
        stage=OIL_SYSTEM,
        after=("pump.closed", "mains.tightened", *(("camshafts.in",) if by_camshaft else ())),
        fits=found.fits("pump_drive"),
        tightens=("pump_body",),
        eye_checks=found.eye_checks("pump_drive"),
        hides=found.fits("pump_drive"),
        photos=(("drive", "How it sits, before anything is in front of it."),),
    )
    yield StepBlock(
        key="pickup.on",
        title="Oil pickup on",
        stage=OIL_SYSTEM,
        after=("pump.on", "bottom_end.looked_at"),
        fits=found.fits("pickup"),
        tightens=("pickup",),
        eye_checks=found.eye_checks("pickup", "braced", "holds"),
        replaces=found.once("pickup_o_ring"),
        photos=(("joint", "The joint of the pickup, nothing loose near it."),),
    )


def _looked_at(found: Found) -> StepBlock:
    return StepBlock(
        key="oil_system.looked_at",
        title="Oil system looked at before it is closed",
        stage=OIL_SYSTEM,
        after=("pump.on", "pickup.on", "rear_seal.in", "bottom_end.looked_at"),
        fits=found.critical("pump", "pump_drive", "relief", "pickup"),
        tightened=PUMP_JOINTS,
        eye_checks=found.eye_checks("pickup", "gap_photo"),
        photos=(("below", "Pump and pickup as they will be closed."),),
        point="hold",
    )
