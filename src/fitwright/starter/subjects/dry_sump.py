"""Dry sump pumps: one pressure stage, and scavenge stages that pump oil and air."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section
from fitwright.starter.family import Family, numbered
from fitwright.starter.plan import Plan
from fitwright.starter.rules import oil_pump as rules
from fitwright.starter.rules.rule import Bounds
from fitwright.starter.subjects.pump_body import (
    END_COMMENT,
    STATION,
    Members,
    body_parts,
    pump_station,
    shaft_dimensions,
    shaft_fit,
)

SHAFT = Members(Family((("drive_shaft",),)), "pump.{0}", "drive shaft")


def dry_sump_pump(plan: Plan) -> Section:
    """Stages on one shaft: stage 1 for pressure, the others scavenge."""
    stages = _stages(plan)
    return Section(
        title="Oil pump, dry sump",
        comment=(
            "Stage 1 is the pressure stage, the others scavenge; number them as they stand on the shaft.",
        ),
        stations=(pump_station(),),
        parts=(
            *body_parts(plan),
            SHAFT.part("steel"),
            PartBlock(
                key="stage.{0}.gears", title="Stage {0} gears or rotors", material="steel", family=stages
            ),
            PartBlock(key="stage.{0}.body", title="Stage {0} body", material="cast_aluminium", family=stages),
        ),
        dimensions=(*_dimensions(stages), *shaft_dimensions(SHAFT)),
        fits=(*_fits(plan, stages), shaft_fit(SHAFT)),
    )


def _stages(plan: Plan) -> Family:
    return Family((numbered(plan.pump_stages + 1),))


def _dimensions(stages: Family) -> tuple[DimensionBlock, ...]:
    body, gears = "stage.{0}.body", "stage.{0}.gears"
    rows = (
        ("depth", "depth of its body", "axial", body, ("a", "b", "c", "d"), "depth micrometer"),
        ("thickness", "thickness of its gears", "axial", gears, ("1", "2", "3"), "outside micrometer"),
        ("bore", "bore of its body", "diametral", body, (), "bore gauge"),
        ("diameter", "outside of its gears", "diametral", gears, (), "outside micrometer"),
    )
    sizes = tuple(
        DimensionBlock(
            key=f"stage.{{0}}.{feature}",
            title=f"Stage {{0}}, {what}",
            family=stages,
            part=part,
            sense=sense,
            places=places,
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for feature, what, sense, part, places, instrument in rows
    )
    return (*sizes, *_together(stages))


def _together(stages: Family) -> tuple[DimensionBlock, ...]:
    rows = (
        ("end_gap", "gap under the straight-edge", "axial", ("depth", "thickness"), "feeler blades"),
        ("gear_play", "play of its gears", "linear", ("depth", "thickness"), "feeler blades"),
        ("displacement", "displacement for one turn", "volume", ("depth", "thickness"), "burette"),
    )
    return tuple(
        DimensionBlock(
            key=f"stage.{{0}}.{feature}",
            title=f"Stage {{0}}, {what}",
            family=stages,
            through=tuple(f"stage.{{0}}.{name}" for name in members),
            sense=sense,
            condition="assembled",
            instrument=(instrument,),
            station=STATION,
            comment=("Mostly a stated size, from the pump's maker.",) if feature == "displacement" else (),
        )
        for feature, what, sense, members, instrument in rows
    )


def _fits(plan: Plan, stages: Family) -> tuple[FitBlock, ...]:
    scavenge = Family((numbered(plan.pump_stages, 2),))
    return (
        _end_clearance(Family((numbered(1),)), rules.GEAR_END.bounds()),
        _end_clearance(scavenge, rules.SCAVENGE_END.bounds()),
        FitBlock(
            key="stage.{0}.radial_clearance",
            title="Stage {0}, gears to body, radial",
            family=stages,
            kind="gap",
            sense="radial",
            by_parts="0.5 * stage.{0}.bore - 0.5 * stage.{0}.diameter",
            station=STATION,
            rules=(rules.GEAR_RADIAL.bounds(),),
        ),
        FitBlock(
            key="stage.{0}.backlash",
            title="Stage {0}, backlash",
            family=stages,
            kind="backlash",
            sense="linear",
            fitted="stage.{0}.gear_play",
            station=STATION,
            rules=(rules.GEAR_BACKLASH.bounds(),),
        ),
        _scavenge(plan),
    )


def _end_clearance(stages: Family, rule: Bounds) -> FitBlock:
    return FitBlock(
        key="stage.{0}.end_clearance",
        title="Stage {0}, end clearance",
        family=stages,
        kind="side clearance",
        sense="axial",
        by_parts="stage.{0}.depth - stage.{0}.thickness",
        fitted="stage.{0}.end_gap",
        governing="by parts",
        station=STATION,
        critical=True,
        removes_metal=True,
        rules=(rule,),
        comment=END_COMMENT[1:] if stages.groups[0] == ("1",) else (),
    )


def _scavenge(plan: Plan) -> FitBlock:
    scavenged = " + ".join(f"stage.{number}.displacement" for number in range(2, plan.pump_stages + 2))
    return FitBlock(
        key="pump.scavenge_reserve",
        title="Scavenge displacement over 1.5 times the pressure stage",
        kind="chain",
        sense="volume",
        by_parts=f"{scavenged} - 1.5 * stage.1.displacement",
        station=STATION,
        rules=(rules.SCAVENGE_LEAST.bounds(),),
        comment=("The trade takes 1.5 to 2.5 times, more where oil and air come back well mixed.",),
    )
