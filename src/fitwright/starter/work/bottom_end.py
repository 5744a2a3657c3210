"""The order of work of the bottom end: crank, mains, pistons, rods, and the hold before it is closed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.starter.plan import Plan
from fitwright.starter.work.found import Found, literal
from fitwright.starter.work.joints import case_of
from fitwright.starter.work.step_block import StepBlock

BOTTOM_END: Final = "Bottom end"
OF_A_PISTON: Final = ("cylinder.{0}.piston_to_wall", "rod.{0}.running_clearance", "piston.{0}.pin_clearance")
RINGS: Final = ("ring.{0}.{1}",)
OF_CAMSHAFTS: Final = tuple(
    f"camshaft{middle}.{what}"
    for middle, what in (
        *(("".join(f".{{{n}}}" for n in range(deep + 1)), "running_clearance") for deep in range(3)),
        *(("".join(f".{{{n}}}" for n in range(deep)), "end_float") for deep in range(3)),
    )
)
"""Fits of a camshaft's bearings and its end float, told apart by bank, by side, by both or not at all."""


def bottom_end(plan: Plan, found: Found) -> Iterator[StepBlock]:
    """Steps of the bottom end; none where the sheet has no mains."""
    if not found.has("mains"):
        return
    rods_first = plan.plain and plan.split_case
    if rods_first:
        yield _rods(found, after=("kit",), on_crank=True)
    yield from _crank_and_mains(plan, found, after=("rods.tightened",) if rods_first else ("kit",))
    if found.has("camshafts") and not plan.overhead_cams:
        yield _camshaft_in_block(found)
    yield _rings(found)
    yield _piston(plan, found)
    if plan.plain and not rods_first:
        yield _rods(found, after=(all_pistons(plan),), on_crank=False)
    yield _looked_at(plan, found)


def all_pistons(plan: Plan) -> str:
    """The steps that put the pistons in, as one key."""
    return literal(plan.each_cylinder.key("piston.{0}.in"))


def joint_of_mains(plan: Plan) -> str:
    """The tightening group that holds the crank."""
    return "case_bolts" if case_of(plan) else "main_caps"


def joints_inside(plan: Plan) -> tuple[str, ...]:
    """The tightening groups that nobody reaches once the engine is closed."""
    return (joint_of_mains(plan), *(("rod_bolts",) if plan.plain else ()))


def _crank_and_mains(plan: Plan, found: Found, after: tuple[str, ...]) -> Iterator[StepBlock]:
    in_what = "its bearings" if plan.plain else "its rolling bearings"
    yield StepBlock(
        key="crank.in",
        title=f"Crank in {in_what}",
        stage=BOTTOM_END,
        after=after,
        fits=found.critical("mains"),
        eye_checks=found.eye_checks("mains", "backs_clean", "seated"),
        uses=("engine_oil",),
        photos=(("bearings", "Bearings in place before the crank goes in."),),
        cautions=("lifting", "engine_stand", *(() if plan.plain else ("hot_fitting",))),
    )
    yield StepBlock(
        key="mains.tightened",
        title="Case closed and tightened"
        if case_of(plan)
        else "Main caps tightened, crank turned after each",
        stage=BOTTOM_END,
        after=("crank.in",),
        tightens=(joint_of_mains(plan),),
        eye_checks=(
            *found.eye_checks("mains", "turns_by_hand", "smooth"),
            *found.eye_checks("crank_in_block", "thrust_seated"),
        ),
        uses=("sealant",) if case_of(plan) else (),
        hides=found.critical("mains"),
        point="witness",
        photos=(("tightened", "Every bolt with paint across it."),),
        cautions=("over_tightening", "engine_stand"),
    )


def _camshaft_in_block(found: Found) -> StepBlock:
    return StepBlock(
        key="camshafts.in",
        title="Camshaft in",
        stage=BOTTOM_END,
        after=("mains.tightened",),
        fits=found.named(*OF_CAMSHAFTS),
        uses=("engine_oil",),
        hides=found.named(*OF_CAMSHAFTS),
    )


def _rings(found: Found) -> StepBlock:
    return StepBlock(
        key="rings.on",
        title="Rings on, gaps set round the pistons",
        stage=BOTTOM_END,
        after=("kit",),
        fits=found.fits("rings"),
        eye_checks=(*found.eye_checks("rings"), *found.eye_checks("cylinders", "piston_marks")),
        replaces=found.once(*RINGS),
    )


def _piston(plan: Plan, found: Found) -> StepBlock:
    fits = found.of_each_cylinder(*OF_A_PISTON)
    barrel = ", its barrel over it" if plan.air_cooled else ""
    return StepBlock(
        key="piston.{0}.in",
        title=f"Piston {{0}} in{barrel}",
        stage=BOTTOM_END,
        after=("mains.tightened", "rings.on"),
        fits=(*found.critical("crank_in_block"), *fits),
        uses=("engine_oil",),
        hides=tuple(fit for fit in fits if not fit.startswith("rod.")),
        photos=(("crown", "Piston {0} in, its mark to be seen."),),
        cautions=("engine_stand", "rotating_parts"),
        family=plan.each_cylinder,
    )


def _rods(found: Found, *, after: tuple[str, ...], on_crank: bool) -> StepBlock:
    return StepBlock(
        key="rods.tightened",
        title="Rods on the crank, bolts tightened" if on_crank else "Rod bolts tightened",
        stage=BOTTOM_END,
        after=after,
        fits=found.critical("big_ends") if on_crank else (),
        tightens=("rod_bolts",),
        eye_checks=found.eye_checks("big_ends", "caps_paired", "oil_holes", "free"),
        hides=found.named("rod.{0}.running_clearance"),
        cautions=("over_tightening", "rotating_parts"),
    )


def _looked_at(plan: Plan, found: Found) -> StepBlock:
    return StepBlock(
        key="bottom_end.looked_at",
        title="Bottom end looked at before it is closed",
        stage=BOTTOM_END,
        after=("rods.tightened", all_pistons(plan)),
        fits=(
            *found.critical("mains", "crank_in_block", "big_ends", "cylinders", "rings"),
            *found.named("rod.{0}.side_clearance", "cylinder.{0}.deck"),
        ),
        tightened=joints_inside(plan),
        eye_checks=found.eye_checks("cylinders", "clips"),
        photos=(("open", "The bottom end as it will be closed."),),
        point="hold",
        cautions=("engine_stand",),
    )
