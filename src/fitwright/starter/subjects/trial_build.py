"""The trial build: squish, compression, piston to valves."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import top_end as rules
from fitwright.starter.subjects.crank import TURN_BY_HAND
from fitwright.starter.subjects.deck import growth_over_the_deck
from fitwright.starter.subjects.piston_to_valve import valve_fits, valve_gaps

STATION = "trial_build"


def trial_build(plan: Plan) -> Section:
    """What head, gasket and pistons make together."""
    valves = plan.overhead_valves
    return Section(
        title="Trial build with the head",
        stations=(_station(plan),),
        dimensions=(*_volumes(plan), _squish_read(plan), *(valve_gaps(plan, STATION) if valves else ())),
        fits=(
            _overhang(plan),
            _squish(plan),
            _compression(plan),
            *(valve_fits(plan, STATION) if valves else ()),
        ),
    )


def _station(plan: Plan) -> StationBlock:
    contact = (
        ("turns_over", "Engine turned twice by hand with valve gear in, no contact felt?"),
        ("clay", "Clay or dial shows the closest point at every valve checked, both sides of overlap?"),
    )
    return StationBlock(
        id=STATION,
        title="Trial build",
        caution=f"{TURN_BY_HAND} Checking springs store energy too: eye protection.",
        eye_checks=contact if plan.overhead_valves else contact[:1],
    )


def _volumes(plan: Plan) -> tuple[DimensionBlock, ...]:
    rows = (
        ("dish_volume", "volume of its dish (a dome is negative)"),
        ("crevice_volume", "volume above the top ring"),
    )
    return tuple(
        DimensionBlock(
            key=f"piston.{{0}}.{name}",
            title=f"Piston {{0}}, {title}",
            family=plan.each_cylinder,
            part="piston.{0}",
            sense="volume",
            condition="bare",
            instrument=("burette",),
            station=STATION,
        )
        for name, title in rows
    )


def _squish_read(plan: Plan) -> DimensionBlock:
    return DimensionBlock(
        key="cylinder.{0}.squish_read",
        title="Cylinder {0}, soft solder pressed in the squish band",
        family=plan.each_cylinder,
        through=("crank", "block", "rod.{0}", "piston.{0}", "head", "head_gasket"),
        sense="linear",
        places=("front", "rear"),
        condition="gasket_in",
        instrument=("outside micrometer",),
        station=STATION,
        judged="mean",
    )


def _overhang(plan: Plan) -> FitBlock:
    return FitBlock(
        key="cylinder.{0}.gasket_overhang",
        title="Cylinder {0}, gasket bore over cylinder bore",
        family=plan.each_cylinder,
        kind="chain",
        sense="diametral",
        by_parts="head_gasket.bore - cylinder.{0}.bore",
        station=STATION,
        rules=(rules.GASKET_OVERHANG.bounds(),),
    )


def _squish(plan: Plan) -> FitBlock:
    wide = plan.air_cooled or plan.block_material == "aluminium"
    rule = rules.SQUISH_WIDE if wide else rules.SQUISH
    return FitBlock(
        key="cylinder.{0}.squish",
        title="Cylinder {0} squish",
        family=plan.each_cylinder,
        kind="squish",
        sense="linear",
        by_parts="cylinder.{0}.piston_down + head_gasket.thickness",
        fitted="cylinder.{0}.squish_read",
        governing="by parts",
        station=STATION,
        critical=True,
        judged="mean",
        removes_metal=True,
        growth=growth_over_the_deck(plan),
        rules=(rule.bounds(),),
        comment=(
            "Rod stretch and bearing slack take 0.2 to 0.4 mm (8 to 16 thou) of it at speed.",
            "Delete it where there is no squish band; add the chamber's step where there is one.",
        ),
    )


def _compression(plan: Plan) -> FitBlock:
    return FitBlock(
        key="cylinder.{0}.compression_ratio",
        title="Cylinder {0} compression ratio",
        family=plan.each_cylinder,
        kind="ratio",
        sense="ratio",
        compression={
            "bore": "cylinder.{0}.bore",
            "stroke": "crank.stroke",
            "chamber_volume": "chamber.{0}.volume",
            "gasket_bore": "head_gasket.bore",
            "gasket_thickness": "head_gasket.thickness",
            "deck": "cylinder.{0}.piston_down",
            "dish_volume": "piston.{0}.dish_volume",
            "crevice_volume": "piston.{0}.crevice_volume",
        },
        station=STATION,
        removes_metal=True,
        no_rule="fuel, duty and chamber decide",
    )
