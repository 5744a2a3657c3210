"""Pistons to valves, and valves to each other, where valves hang above the pistons."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import top_end as rules
from fitwright.starter.rules.rule import RuleOfThumb


def valve_gaps(plan: Plan, station: str) -> tuple[DimensionBlock, ...]:
    """What is read between pistons and valves in the trial build."""
    return (
        *(gap for side in plan.sides for gap in _gaps_of(plan, side, station)),
        _valve_to_valve(plan, station),
    )


def _gaps_of(plan: Plan, side: str, station: str) -> tuple[DimensionBlock, ...]:
    tail, title = plan.valve_tail(side), plan.valve_title(side)
    pocket = "_{1}" if plan.valve_letters(side) else ""
    return (
        DimensionBlock(
            key=f"valve.{tail}.piston_gap",
            title=f"{title}, least gap to the piston",
            family=plan.each_valve(side),
            through=("crank", "block", "rod.{0}", "piston.{0}", "head", f"valve.{tail}"),
            sense="linear",
            condition="gasket_in",
            instrument=("dial indicator",),
            station=station,
            comment=("The least of readings every 5 degrees about overlap, lash set as it will run.",),
        ),
        DimensionBlock(
            key=f"piston.{{0}}.{side}_pocket{pocket}",
            title=f"{title}, its pocket in the piston",
            family=plan.each_valve(side),
            part="piston.{0}",
            sense="diametral",
            condition="bare",
            instrument=("caliper",),
            station=station,
        ),
        DimensionBlock(
            key=f"valve.{tail}.head_diameter",
            title=f"{title}, head",
            family=plan.each_valve(side),
            part=f"valve.{tail}",
            sense="diametral",
            condition="bare",
            instrument=("outside micrometer",),
            station=station,
        ),
        DimensionBlock(
            key=f"valve.{tail}.pocket_offset",
            title=f"{title}, offset of pocket and valve centre",
            family=plan.each_valve(side),
            through=("piston.{0}", f"valve.{tail}"),
            sense="radial",
            condition="gasket_in",
            instrument=("caliper",),
            station=station,
        ),
    )


def _valve_to_valve(plan: Plan, station: str) -> DimensionBlock:
    return DimensionBlock(
        key="cylinder.{0}.valve_gap",
        title="Cylinder {0}, least gap between inlet and exhaust valve",
        family=plan.each_cylinder,
        through=("head",),
        sense="linear",
        condition="assembled",
        instrument=("feeler blades",),
        station=station,
    )


def valve_fits(plan: Plan, station: str) -> tuple[FitBlock, ...]:
    """Clearances of the valves: to the piston, in its pocket, to each other."""
    valve_to_valve = FitBlock(
        key="cylinder.{0}.valve_to_valve",
        title="Cylinder {0}, valve to valve at overlap",
        family=plan.each_cylinder,
        kind="gap",
        sense="linear",
        fitted="cylinder.{0}.valve_gap",
        station=station,
        critical=True,
        rules=(rules.VALVE_TO_VALVE.bounds(),),
        comment=("Delete it where the valves stand side by side and cannot meet.",),
    )
    return (*(fit for side in plan.sides for fit in _valve_fits_of(plan, side, station)), valve_to_valve)


def _valve_fits_of(plan: Plan, side: str, station: str) -> tuple[FitBlock, ...]:
    tail, title = plan.valve_tail(side), plan.valve_title(side)
    pocket = "_{1}" if plan.valve_letters(side) else ""
    return (
        FitBlock(
            key=f"valve.{tail}.piston_clearance",
            title=f"{title} to piston",
            family=plan.each_valve(side),
            kind="gap",
            sense="linear",
            fitted=f"valve.{tail}.piston_gap",
            station=station,
            critical=True,
            removes_metal=True,
            rules=(_piston_to_valve(plan, side).bounds(),),
        ),
        FitBlock(
            key=f"valve.{tail}.pocket_clearance",
            title=f"{title}, radial clearance in its pocket",
            family=plan.each_valve(side),
            kind="gap",
            sense="radial",
            by_parts=(
                f"0.5 * piston.{{0}}.{side}_pocket{pocket} - 0.5 * valve.{tail}.head_diameter"
                f" - valve.{tail}.pocket_offset"
            ),
            station=station,
            removes_metal=True,
            rules=(rules.POCKET.bounds(),),
        ),
    )


def _piston_to_valve(plan: Plan, side: str) -> RuleOfThumb:
    if side == "inlet":
        return rules.PISTON_TO_INLET_FAST if plan.competition else rules.PISTON_TO_INLET
    return rules.PISTON_TO_EXHAUST_FAST if plan.competition else rules.PISTON_TO_EXHAUST
