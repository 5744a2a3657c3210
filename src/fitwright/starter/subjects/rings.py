"""Piston rings: gaps in their own bores, side and back clearance in their grooves."""

from __future__ import annotations

import math

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.family import Family
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules
from fitwright.starter.rules.rule import Bounds

STATION = "rings"
COMPRESSION_RINGS = ("top", "second")


def rings(plan: Plan) -> Section:
    """Compression rings, and the oil ring of a four-stroke."""
    oil = () if plan.two_stroke else ("oil",)
    return Section(
        title="Piston rings",
        stations=(_station(plan),),
        parts=(
            PartBlock(
                key="ring.{0}.{1}",
                title="Cylinder {0} {1} ring",
                material="cast_iron",
                family=Family((*plan.each_cylinder.groups, (*COMPRESSION_RINGS, *oil))),
                one_time_use=True,
            ),
        ),
        dimensions=(*_gaps(plan), *_groove_dimensions(plan)),
        fits=(*_gap_fits(plan), *_groove_fits(plan)),
    )


def _station(plan: Plan) -> StationBlock:
    located = (
        "Ring gaps on their pegs, clear of every port?" if plan.two_stroke else "Ring gaps spread round?"
    )
    return StationBlock(
        id=STATION,
        title="Rings",
        caution="Rings snap with sharp edges: eye protection.",
        eye_checks=(
            ("way_up", "Marks to the crown, tapers and steps the right way up?"),
            ("gaps_placed", located),
            ("free_in_groove", "Every ring free in its groove all round?"),
        ),
    )


def _gaps(plan: Plan) -> tuple[DimensionBlock, ...]:
    compression = DimensionBlock(
        key="ring.{0}.{1}.gap",
        title="Cylinder {0} {1} ring, gap in its bore",
        family=Family((*plan.each_cylinder.groups, COMPRESSION_RINGS)),
        through=("ring.{0}.{1}", "cylinder.{0}"),
        sense="linear",
        condition="bare",
        instrument=("feeler blades",),
        station=STATION,
        comment=(
            "Ring square in its own bore, pushed down with a piston. Honing opens the gap by pi times it.",
        ),
    )
    if plan.two_stroke:
        return (compression,)
    return (
        compression,
        DimensionBlock(
            key="ring.{0}.oil.rail_gap",
            title="Cylinder {0} oil rail, gap in its bore",
            family=plan.each_cylinder,
            through=("ring.{0}.oil", "cylinder.{0}"),
            sense="linear",
            places=("upper rail", "lower rail"),
            condition="bare",
            instrument=("feeler blades",),
            station=STATION,
        ),
    )


def _groove_dimensions(plan: Plan) -> tuple[DimensionBlock, ...]:
    rows = (
        (
            "piston.{0}.{1}_groove_height",
            "Piston {0} {1} groove, height",
            "piston.{0}",
            "axial",
            "feeler blades",
        ),
        (
            "ring.{0}.{1}.height",
            "Cylinder {0} {1} ring, height",
            "ring.{0}.{1}",
            "axial",
            "outside micrometer",
        ),
        (
            "piston.{0}.{1}_groove_depth",
            "Piston {0} {1} groove, depth",
            "piston.{0}",
            "radial",
            "depth micrometer",
        ),
        (
            "ring.{0}.{1}.radial_thickness",
            "Cylinder {0} {1} ring, radial thickness",
            "ring.{0}.{1}",
            "radial",
            "outside micrometer",
        ),
    )
    return tuple(
        DimensionBlock(
            key=key,
            title=title,
            family=Family((*plan.each_cylinder.groups, COMPRESSION_RINGS)),
            part=part,
            sense=sense,
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for key, title, part, sense, instrument in rows
    )


def _gap_fits(plan: Plan) -> tuple[FitBlock, ...]:
    top = rules.TOP_RING_GAP_BOOSTED if plan.boosted else rules.TOP_RING_GAP
    compression = (
        _gap_fit(plan, "top", "top.gap", top.bounds(plan.bore)),
        _gap_fit(plan, "second", "second.gap", rules.SECOND_RING_GAP.bounds(plan.bore)),
    )
    if plan.two_stroke:
        return compression
    return (*compression, _gap_fit(plan, "oil", "oil.rail_gap", rules.OIL_RAIL_GAP.bounds()))


def _gap_fit(plan: Plan, ring: str, gap: str, rule: Bounds) -> FitBlock:
    name = "oil_rail" if ring == "oil" else f"{ring}_ring"
    round_the_bore = math.pi * plan.bore
    return FitBlock(
        key=f"cylinder.{{0}}.{name}_gap",
        title=f"Cylinder {{0}} {name.replace('_', ' ')} gap",
        family=plan.each_cylinder,
        kind="gap",
        sense="linear",
        fitted=f"ring.{{0}}.{gap}",
        station=STATION,
        critical=ring != "oil",
        removes_metal=True,
        growth=(("+", round_the_bore, "cylinder.{0}"), ("-", round_the_bore, f"ring.{{0}}.{ring}")),
        rules=(rule,),
        comment=("A hot ring closes its gap: the bore's circumference grows out of it, the ring's into it.",)
        if ring == "top"
        else (),
    )


def _groove_fits(plan: Plan) -> tuple[FitBlock, ...]:
    family = Family((*plan.each_cylinder.groups, COMPRESSION_RINGS))
    return (
        FitBlock(
            key="cylinder.{0}.{1}_ring_side_clearance",
            title="Cylinder {0} {1} ring, side clearance",
            family=family,
            kind="side clearance",
            sense="axial",
            by_parts="piston.{0}.{1}_groove_height - ring.{0}.{1}.height",
            station=STATION,
            rules=(rules.RING_SIDE.bounds(),),
        ),
        FitBlock(
            key="cylinder.{0}.{1}_ring_back_clearance",
            title="Cylinder {0} {1} ring, back clearance",
            family=family,
            kind="gap",
            sense="radial",
            by_parts="piston.{0}.{1}_groove_depth - ring.{0}.{1}.radial_thickness",
            station=STATION,
            rules=(rules.RING_BACK.bounds(),),
        ),
    )
