"""The order of work of the head: head on, camshafts, timing, lash, and the hold before the covers go on."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from fitwright.starter.family import Family
from fitwright.starter.plan import Plan
from fitwright.starter.work.bottom_end import OF_CAMSHAFTS
from fitwright.starter.work.found import Found, literal
from fitwright.starter.work.joints import cam_joint, head_joint, heads
from fitwright.starter.work.step_block import StepBlock

HEAD: Final = "Head and timing"
ABOVE_A_PISTON: Final = ("cylinder.{0}.deck", "cylinder.{0}.squish", "cylinder.{0}.compression_ratio")


def top_end(plan: Plan, found: Found) -> Iterator[StepBlock]:
    """Steps of the head; none where the sheet has no head."""
    if not found.has("chambers"):
        return
    yield _head(plan, found)
    if found.has("camshafts"):
        yield _camshafts(plan, found) if plan.overhead_cams else _valve_gear(plan, found)
    if found.has("timing"):
        yield _timing(found)
    if found.has("ports"):
        yield _ports(found)
    if found.has("lash"):
        yield StepBlock(
            key="lash.set",
            title="Valve lash set",
            stage=HEAD,
            after=("timing.set", "valve_gear.on", "camshafts.in"),
            fits=found.fits("lash"),
            eye_checks=found.eye_checks("lash"),
        )
    yield _looked_at(plan, found)


def head_joints(plan: Plan) -> tuple[str, ...]:
    """The tightening groups of the head, under the covers."""
    inside = [literal(heads(plan).key(head_joint(plan)))]
    if plan.overhead_cams:
        inside.append(cam_joints(plan))
    if plan.rockers:
        inside.append("rocker_pillars")
    return tuple(inside)


def cam_joints(plan: Plan) -> str:
    """The groups of the cam caps, as one key."""
    return literal(Family(plan.cam_groups).key(cam_joint(plan)))


def _head(plan: Plan, found: Found) -> StepBlock:
    several = len(heads(plan).groups) > 0
    above = found.named(*ABOVE_A_PISTON)
    return StepBlock(
        key="head.on",
        title="Heads on" if several else "Head on",
        stage=HEAD,
        after=("kit", "bottom_end.looked_at"),
        fits=above,
        tightens=(literal(heads(plan).key(head_joint(plan))),),
        replaces=found.once("head_gasket"),
        hides=above,
        photos=(("gasket", "Gasket in its place, the right side up, before the head goes on."),),
        cautions=("lifting", "over_tightening"),
        note="Blind holes dry to their bottom: oil in one cracks the block.",
    )


def _camshafts(plan: Plan, found: Found) -> StepBlock:
    return StepBlock(
        key="camshafts.in",
        title="Camshafts in",
        stage=HEAD,
        after=("head.on",),
        fits=(*found.named(*OF_CAMSHAFTS), *found.fits("valve_gear")),
        tightens=(cam_joints(plan), *(("rocker_pillars",) if plan.rockers else ())),
        eye_checks=found.eye_checks("valve_gear", "oil_feeds"),
        uses=("engine_oil",),
        hides=found.named(*OF_CAMSHAFTS),
        cautions=("springs", "over_tightening"),
    )


def _valve_gear(plan: Plan, found: Found) -> StepBlock:
    return StepBlock(
        key="valve_gear.on",
        title="Push rods and rockers on" if plan.rockers else "Followers in, valve gear on",
        stage=HEAD,
        after=("head.on", "camshafts.in"),
        fits=found.fits("valve_gear"),
        tightens=("rocker_pillars",) if plan.rockers else (),
        eye_checks=found.eye_checks("valve_gear", "oil_feeds"),
        uses=("engine_oil",),
        cautions=("springs", "over_tightening"),
    )


def _timing(found: Found) -> StepBlock:
    return StepBlock(
        key="timing.set",
        title="Cam timing set",
        stage=HEAD,
        after=("camshafts.in", "valve_gear.on", "mains.tightened"),
        fits=(*found.fits("cam_drive", "timing"), *found.critical("trial_build")),
        eye_checks=(
            *found.eye_checks("cam_drive"),
            *found.eye_checks("timing"),
        ),
        point="witness",
        photos=(("degree_wheel", "Degree wheel and dial where each lobe stands highest."),),
        cautions=("rotating_parts",),
        note="Two full turns by hand before anything else turns it: a valve that meets a piston bends.",
    )


def _ports(found: Found) -> StepBlock:
    return StepBlock(
        key="ports.checked",
        title="Port timing read, case held under pressure",
        stage=HEAD,
        after=("head.on",),
        fits=found.fits("ports"),
        eye_checks=found.eye_checks("ports", "case_holds"),
        cautions=("compressed_air", "rotating_parts"),
    )


def _looked_at(plan: Plan, found: Found) -> StepBlock:
    what = "Head" if plan.two_stroke else "Head, timing and lash"
    where = "before it is started" if plan.two_stroke else "before the covers go on"
    return StepBlock(
        key="head.looked_at",
        title=f"{what} looked at {where}",
        stage=HEAD,
        after=("head.on", "camshafts.in", "valve_gear.on", "timing.set", "lash.set", "ports.checked"),
        fits=(*found.critical("trial_build"), *found.fits("timing", "lash")),
        tightened=head_joints(plan),
        photos=(("open", "Head and its gear as they will be covered."),),
        point="hold",
    )
