"""Internal rotor pumps: inner and outer rotor in a pocket."""

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

ROTORS = Members(Family((("inner", "outer"),)), "pump.{0}_rotor", "{0} rotor")
SHAFT = Members(Family((("inner",),)), "pump.{0}_rotor", "{0} rotor")


def rotor_pump(plan: Plan) -> Section:
    """Rotors, pocket and the gaps between them."""
    own_shaft = plan.pump == "chain-driven"
    return Section(
        title="Oil pump, internal rotors",
        comment=("Gear pump instead? Answer external spur and copy its blocks.",) if own_shaft else (),
        stations=(pump_station(),),
        parts=(
            *body_parts(plan),
            ROTORS.part("sintered_iron"),
        ),
        dimensions=(
            *body_dimensions(),
            *thickness_and_gap(ROTORS),
            *_diameters(),
            _tip_gap(),
            *(shaft_dimensions(SHAFT) if own_shaft else ()),
        ),
        fits=(
            end_clearance(ROTORS, rules.ROTOR_END.bounds()),
            _outer_rotor(),
            _tips(),
            *((shaft_fit(SHAFT),) if own_shaft else ()),
        ),
    )


def _diameters() -> tuple[DimensionBlock, ...]:
    pocket = DimensionBlock(
        key="pump.pocket_diameter",
        title="Pump pocket, diameter",
        part="pump.body",
        sense="diametral",
        angles=("0", "90"),
        condition="bare",
        instrument=("bore gauge",),
        station=STATION,
    )
    rotor = DimensionBlock(
        key="pump.outer_rotor.diameter",
        title="Outer rotor, diameter",
        part="pump.outer_rotor",
        sense="diametral",
        angles=("0", "90"),
        condition="bare",
        instrument=("outside micrometer",),
        station=STATION,
    )
    gap = DimensionBlock(
        key="pump.outer_rotor.body_gap",
        title="Outer rotor pushed to one side, gap at the other",
        through=("pump.pocket_diameter", "pump.outer_rotor.diameter"),
        sense="diametral",
        condition="assembled",
        instrument=("feeler blades",),
        station=STATION,
        comment=(
            "Narrow blades only: a wide one bridges the curve. Pushed aside, the gap is the whole clearance.",
        ),
    )
    return (pocket, rotor, gap)


def _tip_gap() -> DimensionBlock:
    return DimensionBlock(
        key="pump.tip_gap",
        title="Tip gap at each mesh",
        through=("pump.inner_rotor", "pump.outer_rotor"),
        sense="linear",
        places=tuple(f"mesh {number}" for number in range(1, 9)),
        condition="assembled",
        instrument=("feeler blades",),
        station=STATION,
        comment=("One place for each mesh of your rotors, marks together at mesh 1.",),
    )


def _outer_rotor() -> FitBlock:
    return FitBlock(
        key="pump.outer_rotor.clearance",
        title="Outer rotor in its body",
        kind="running clearance",
        sense="diametral",
        by_parts="pump.pocket_diameter - pump.outer_rotor.diameter",
        fitted="pump.outer_rotor.body_gap",
        governing="by parts",
        station=STATION,
        rules=(rules.OUTER_ROTOR.bounds(),),
    )


def _tips() -> FitBlock:
    return FitBlock(
        key="pump.tip_clearance",
        title="Rotor tip clearance",
        kind="gap",
        sense="linear",
        fitted="pump.tip_gap",
        station=STATION,
        rules=(rules.ROTOR_TIP.bounds(),),
        comment=("Matched sets only: out of it, the pair is replaced.",),
    )
