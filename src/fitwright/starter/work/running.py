"""The order of work from the first oil to the run under load, with the holds before each start."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.starter.plan import Plan
from fitwright.starter.work.bottom_end import joints_inside
from fitwright.starter.work.found import Found
from fitwright.starter.work.step_block import StepBlock
from fitwright.starter.work.top_end import head_joints

PRIMING: Final = "Priming"
FIRST_START: Final = "First start"
AFTER: Final = "After the first run"


def running(plan: Plan, found: Found) -> Iterator[StepBlock]:
    """Steps from filling to running under load; only where the whole engine is built."""
    if plan.only != "all":
        return
    pumped = found.has("pump")
    yield from _priming() if pumped else _without_pump(plan)
    yield _ready(plan, found, pumped=pumped)
    yield StepBlock(
        key="first_start.run",
        title="First start, and run to a heat cycle",
        stage=FIRST_START,
        after=("first_start.ready",),
        point="witness",
        cautions=("first_start", "hot_oil", "exhaust_and_noise", "rotating_parts", *_cooling(plan)),
    )
    yield StepBlock(
        key="after_heat",
        title="Cold again: looked over, filter or strainer opened, lash read once more",
        stage=AFTER,
        after=("first_start.run",),
        fits=found.fits("lash"),
        photos=(("found", "What the filter, strainer or plug has caught."),),
        cautions=("hot_oil", *_cooling(plan)),
        comment=("Where a group has a pass with after_heat = true, name it here under tightens.",),
    )
    yield StepBlock(
        key="pulled",
        title="Run in, and run under load in steps",
        stage=AFTER,
        after=("after_heat",),
        cautions=("test_bed", "exhaust_and_noise", "release_to_service"),
    )


def _cooling(plan: Plan) -> tuple[str, ...]:
    return ("cooling_system",) if plan.cooling == "water" else ()


def _priming() -> Iterator[StepBlock]:
    yield StepBlock(
        key="filled",
        title="Filter on, engine filled",
        stage=PRIMING,
        after=("sump.on", "covers.on", "ancillaries.on"),
        cured=("sealant",),
        uses=("engine_oil",),
        photos=(("level", "The mark on the dipstick."),),
    )
    yield StepBlock(
        key="primed",
        title="Primed until the gauge lifts and oil is seen at the far end",
        stage=PRIMING,
        after=("filled", "damper.on"),
        point="hold",
        cautions=("priming", "rotating_parts"),
        note="At no more than the maker's pressure, crank turned twice by quarters.",
    )
    yield StepBlock(
        key="cranked",
        title="Cranked with the plugs out until the gauge lifts",
        stage=FIRST_START,
        after=("primed", "flywheel.on"),
        cautions=("ignition", "rotating_parts", "fuel"),
        note="No pressure within the maker's time: stop, and look.",
    )


def _without_pump(plan: Plan) -> Iterator[StepBlock]:
    yield StepBlock(
        key="filled",
        title="Fuel mixed with its oil, gearbox filled" if plan.two_stroke else "Engine filled",
        stage=FIRST_START,
        after=("head.looked_at", "rear_seal.in", "covers.on", "ancillaries.on", "damper.on", "flywheel.on"),
        cured=("sealant",),
        cautions=("fuel",),
        note="The share of oil written on the can, and on the tank.",
    )


def _ready(plan: Plan, found: Found, *, pumped: bool) -> StepBlock:
    ends = ("damper_bolt", "flywheel") if found.has("crank_ends") else ()
    return StepBlock(
        key="first_start.ready",
        title="Ready for the first start",
        stage=FIRST_START,
        after=("cranked" if pumped else "filled", "flywheel.on", "head.looked_at"),
        fits=found.fits("crank_ends"),
        tightened=(*joints_inside(plan), *head_joints(plan), *ends),
        cured=("sealant",),
        point="hold",
        cautions=("first_start", "fuel", "ignition", "exhaust_and_noise"),
        note="Stop values written down, fire watched for, one person named who calls stop.",
    )
