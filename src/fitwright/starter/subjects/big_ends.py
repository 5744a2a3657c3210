"""Connecting rods with plain big ends: tracks on the pins, shells, widths, straightness."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.family import Family
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules
from fitwright.starter.subjects.main_bearings import (
    ENDS,
    HALVES,
    OFF_THE_JOINT,
    ROUND_A_JOURNAL,
    fitted_bore,
    journal_form,
)
from fitwright.starter.subjects.rod_side_clearance import STATION, side_dimensions, side_fits
from fitwright.starter.subjects.rods import rod_dimensions, rod_fits, rod_parts


def big_ends(plan: Plan) -> Section:
    """Big ends, one set of readings per rod; rods that share a pin each have their own track on it."""
    shared = (
        "Each rod has its own track on the crankpin and is measured there. Pin 1 carries rods 1 and 2, and",
        "so on from the nose: where your maker numbers bank by bank, change the side clearances.",
    )
    return Section(
        title="Big ends and rods",
        comment=shared if plan.rods_per_pin == 2 else (),
        stations=(_station(plan),),
        parts=(*rod_parts(plan), *_bearing_parts(plan)),
        dimensions=(_journal(plan), *_bores(plan), *side_dimensions(plan), *rod_dimensions(plan, STATION)),
        fits=(
            *_clearance(plan),
            *_shell_fits(plan),
            *_form(plan),
            *side_fits(plan),
            *rod_fits(plan, STATION),
        ),
    )


def _station(plan: Plan) -> StationBlock:
    return StationBlock(
        id=STATION,
        title="Big ends and rods",
        caution="Hold rods by the big end, never by the beam; keep hands clear of the crank's throws.",
        eye_checks=(
            ("caps_paired", "Every cap on its own rod, numbers on the same side?"),
            ("oil_holes", "Oil holes of rod and bearing in line, chamfered sides towards the fillets?"),
            (
                "free",
                f"Each rod falls by its own weight on its {'track' if plan.rods_per_pin == 2 else 'pin'}?",
            ),
        ),
    )


def _bearing_parts(plan: Plan) -> tuple[PartBlock, ...]:
    if not plan.shells:
        return (
            PartBlock(
                key="rod.{0}.bearing",
                title="Rod {0} white-metal bearing",
                material="bronze",
                family=plan.each_cylinder,
            ),
        )
    return tuple(
        PartBlock(
            key=f"rod.{{0}}.shell_{half}",
            title=f"Rod {{0}} {half} shell",
            material="steel",
            family=plan.each_cylinder,
        )
        for half in HALVES
    )


def _journal(plan: Plan) -> DimensionBlock:
    track = ", its track on the crankpin" if plan.rods_per_pin == 2 else " crankpin"
    return DimensionBlock(
        key="rod.{0}.pin",
        title=f"Rod {{0}}{track}",
        family=plan.each_cylinder,
        part="crank",
        sense="diametral",
        nominal=plan.rod_journal,
        nominal_guessed="rod_journal" in plan.guessed,
        planes=ENDS,
        angles=ROUND_A_JOURNAL,
        condition="bare",
        instrument=("outside micrometer",),
        station=STATION,
    )


def _bores(plan: Plan) -> tuple[DimensionBlock, ...]:
    each = plan.each_cylinder
    if not plan.shells:
        return (
            DimensionBlock(
                key="rod.{0}.fitted_bore",
                title="Rod {0} bored white metal",
                family=each,
                part="rod.{0}.bearing",
                sense="diametral",
                planes=ENDS,
                angles=OFF_THE_JOINT,
                condition="rods_tightened",
                instrument=("bore gauge",),
                station=STATION,
            ),
        )
    return (
        DimensionBlock(
            key="rod.{0}.housing_bore",
            title="Rod {0} big-end housing bore",
            family=each,
            part="rod.{0}",
            sense="diametral",
            plausible=(plan.rod_journal * 1.02, plan.rod_journal * 1.02 + 0.010),
            planes=ENDS,
            angles=OFF_THE_JOINT,
            condition="rods_tightened_bare",
            instrument=("bore gauge",),
            station=STATION,
            comment=("Without shells, cap tightened. The drawing's band belongs here as limits.",),
        ),
        DimensionBlock(
            key="rod.{0}.shell_{1}.wall",
            title="Rod {0} {1} shell, wall at the crown",
            family=Family((*each.groups, HALVES)),
            part="rod.{0}.shell_{1}",
            sense="linear",
            plausible=(0.0008, 0.005),
            condition="free",
            instrument=("ball micrometer",),
            station=STATION,
        ),
        DimensionBlock(
            key="rod.{0}.bare_gap",
            title="Rod {0} gap at the joint, other bolt tightened",
            family=each,
            through=("rod.{0}.housing_bore", "rod.{0}.shell_upper", "rod.{0}.shell_lower"),
            sense="linear",
            condition="one_side_tightened",
            instrument=("feeler blades",),
            station=STATION,
        ),
        fitted_bore(each, "rod", "Rod", "rods_tightened", STATION),
    )


def _clearance(plan: Plan) -> tuple[FitBlock, ...]:
    parts = "rod.{0}.housing_bore - rod.{0}.shell_upper.wall - rod.{0}.shell_lower.wall - rod.{0}.pin"
    rule = rules.ROD_SHELLS if plan.shells else rules.WHITE_METAL
    return (
        FitBlock(
            key="rod.{0}.running_clearance",
            title="Rod {0} big-end running clearance",
            family=plan.each_cylinder,
            kind="running clearance",
            sense="diametral",
            by_parts=parts if plan.shells else None,
            fitted="rod.{0}.fitted_bore - rod.{0}.pin",
            governing="fitted" if plan.shells else None,
            station=STATION,
            critical=True,
            removes_metal=True,
            rules=(rule.bounds(plan.rod_journal),),
        ),
    )


def _shell_fits(plan: Plan) -> tuple[FitBlock, ...]:
    if not plan.shells:
        return ()
    return (
        FitBlock(
            key="rod.{0}.shell_crush",
            title="Rod {0} shell crush",
            family=plan.each_cylinder,
            kind="gap",
            sense="linear",
            fitted="rod.{0}.bare_gap",
            station=STATION,
            rules=(rules.SHELL_CRUSH.bounds(),),
        ),
        FitBlock(
            key="rod.{0}.housing_out_of_round",
            title="Rod {0} housing out-of-round",
            family=plan.each_cylinder,
            kind="out-of-round",
            sense="diametral",
            form_of="rod.{0}.housing_bore",
            station=STATION,
            removes_metal=True,
            rules=(rules.HOUSING_OUT_OF_ROUND.bounds(),),
        ),
    )


def _form(plan: Plan) -> tuple[FitBlock, ...]:
    return tuple(
        FitBlock(
            key=f"rod.{{0}}.pin_{kind.replace('-', '_')}",
            title=f"Rod {{0}} crankpin {kind}",
            family=plan.each_cylinder,
            kind=kind,
            sense="diametral",
            form_of="rod.{0}.pin",
            station=STATION,
            removes_metal=True,
            rules=journal_form(plan),
        )
        for kind in ("out-of-round", "taper")
    )
