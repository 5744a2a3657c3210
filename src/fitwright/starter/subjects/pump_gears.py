"""External spur pumps: two gears in a body."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, Section
from fitwright.starter.family import Family
from fitwright.starter.plan import Plan
from fitwright.starter.rules import oil_pump as rules
from fitwright.starter.subjects.pump_body import (
    STATION,
    Members,
    body_dimensions,
    body_parts,
    end_clearance,
    pump_station,
    shaft_dimensions,
    shaft_fit,
    thickness_and_gap,
)

GEARS = Members(Family((("driver", "idler"),)), "pump.{0}", "{0}")


def gear_pump(plan: Plan) -> Section:
    """Driver and idler, their pocket, backlash and spindles."""
    return Section(
        title="Oil pump, spur gears",
        stations=(pump_station(),),
        parts=(
            *body_parts(plan),
            GEARS.part("steel"),
        ),
        dimensions=(
            *body_dimensions(),
            *thickness_and_gap(GEARS),
            *_radial_dimensions(GEARS.family),
            _play(),
            *shaft_dimensions(GEARS),
            _grooves(),
        ),
        fits=(
            end_clearance(GEARS, rules.GEAR_END.bounds()),
            _radial_fit(GEARS.family),
            _backlash(),
            shaft_fit(GEARS),
        ),
    )


def _radial_dimensions(family: Family) -> tuple[DimensionBlock, ...]:
    rows = (
        ("pocket_bore", "bore of its pocket", "pump.body", "bore gauge"),
        ("diameter", "outside", "pump.{0}", "outside micrometer"),
    )
    sizes = tuple(
        DimensionBlock(
            key=f"pump.{{0}}.{feature}",
            title=f"Pump {{0}}, {what}",
            family=family,
            part=part,
            sense="diametral",
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for feature, what, part, instrument in rows
    )
    gap = DimensionBlock(
        key="pump.{0}.body_gap",
        title="Pump {0}, gap to the body on the inlet side",
        family=family,
        through=("pump.{0}.pocket_bore", "pump.{0}.diameter"),
        sense="radial",
        condition="assembled",
        instrument=("feeler blades",),
        station=STATION,
        comment=("Pressure pushes the gears to the inlet side: wear is there.",),
    )
    return (*sizes, gap)


def _play() -> DimensionBlock:
    return DimensionBlock(
        key="pump.gear_play",
        title="Pump gears, play",
        through=("pump.driver", "pump.idler", "pump.body"),
        sense="linear",
        places=("0", "90", "180", "270"),
        condition="assembled",
        instrument=("feeler blades", "dial indicator"),
        station=STATION,
    )


def _grooves() -> DimensionBlock:
    return DimensionBlock(
        key="pump.groove_depth",
        title="Trapped-oil grooves, depth",
        part="pump.body",
        sense="axial",
        condition="bare",
        instrument=("depth micrometer",),
        station=STATION,
        no_rule="as drawn; lapping the body takes the same off them, re-cut them then",
    )


def _radial_fit(family: Family) -> FitBlock:
    return FitBlock(
        key="pump.{0}.radial_clearance",
        title="Pump {0} to its body, radial",
        family=family,
        kind="gap",
        sense="radial",
        by_parts="0.5 * pump.{0}.pocket_bore - 0.5 * pump.{0}.diameter",
        fitted="pump.{0}.body_gap",
        governing="by parts",
        station=STATION,
        rules=(rules.GEAR_RADIAL.bounds(),),
    )


def _backlash() -> FitBlock:
    return FitBlock(
        key="pump.backlash",
        title="Pump gear backlash",
        kind="backlash",
        sense="linear",
        fitted="pump.gear_play",
        station=STATION,
        rules=(rules.GEAR_BACKLASH.bounds(),),
    )
