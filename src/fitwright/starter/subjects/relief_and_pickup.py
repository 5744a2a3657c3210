"""The relief valve and the oil pickup."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import oil_pump as rules

STATION = "relief"
PICKUP = "pickup"


def relief(_plan: Plan) -> Section:
    """Plunger, bore and spring of the relief valve."""
    return Section(
        title="Relief valve",
        comment=(
            "Opening pressure = spring rate x preload / plunger area; a shim adds rate x thickness / area.",
        ),
        stations=(
            StationBlock(
                id=STATION,
                title="Relief valve",
                caution="The spring jumps when its plug comes out: hold it under control, eye protection.",
                eye_checks=(
                    ("falls", "Dry plunger falls by its own weight at 45 degrees and sticks nowhere?"),
                    ("seat", "Seat holds thin oil at hand pressure, a few drops a minute at most?"),
                    ("way_round", "Plunger the right way round, shims counted?"),
                ),
            ),
        ),
        parts=(
            PartBlock(key="relief.plunger", title="Relief plunger", material="steel"),
            PartBlock(key="relief.spring", title="Relief spring", material="steel"),
        ),
        dimensions=(*_diameters(), *_spring(), _pressure()),
        fits=_relief_fits(),
    )


def pickup(plan: Plan) -> Section:
    """Where oil is drawn from, and the joint that must not draw air."""
    wet = plan.pump != "dry sump"
    return Section(
        title="Oil pickup",
        stations=(
            StationBlock(
                id=PICKUP,
                title="Oil pickup",
                eye_checks=(
                    ("braced", "Pickup braced, joint without crack, O-ring new and oiled?"),
                    ("holds", "Closed inlet holds 0.5 bar below the atmosphere for a minute?"),
                    ("gap_photo", "Gap to the floor photographed with the clay in it?"),
                ),
            ),
        ),
        parts=(
            PartBlock(key="pickup", title="Oil pickup", material="steel"),
            PartBlock(
                key="pickup_o_ring", title="O-ring of the oil pickup", material="steel", one_time_use=True
            ),
            *((PartBlock(key="sump", title="Sump", material="cast_aluminium"),) if wet else ()),
        ),
        dimensions=(*((_clay(),) if wet else ()), *_o_ring()),
        fits=(*((_floor_gap(),) if wet else ()), *_o_ring_fits()),
    )


def _diameters() -> tuple[DimensionBlock, ...]:
    rows = (
        (
            "relief.bore",
            "Relief valve, bore",
            "pump.body",
            ("top", "middle", "bottom"),
            "three-point inside micrometer",
        ),
        (
            "relief.plunger.diameter",
            "Relief plunger",
            "relief.plunger",
            ("top", "middle", "bottom"),
            "outside micrometer",
        ),
    )
    return tuple(
        DimensionBlock(
            key=key,
            title=title,
            part=part,
            sense="diametral",
            planes=planes,
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for key, title, part, planes, instrument in rows
    )


def _spring() -> tuple[DimensionBlock, ...]:
    rows = (
        ("stiffness", "Relief spring, rate", "stiffness", "free", "spring tester"),
        ("free_length", "Relief spring, free length", "linear", "free", "caliper"),
        (
            "installed_length",
            "Relief spring, length in place, valve shut",
            "linear",
            "assembled",
            "depth micrometer",
        ),
        ("full_lift", "Relief valve, travel to fully open", "linear", "assembled", "depth micrometer"),
        ("solid_length", "Relief spring, coils touching", "linear", "free", "caliper"),
    )
    return tuple(
        DimensionBlock(
            key=f"relief.spring.{name}",
            title=title,
            part="relief.spring",
            sense=sense,
            condition=condition,
            instrument=(instrument,),
            station=STATION,
        )
        for name, title, sense, condition, instrument in rows
    )


def _pressure() -> DimensionBlock:
    return DimensionBlock(
        key="relief.opening_pressure",
        title="Relief valve, opening pressure",
        through=("relief.plunger", "relief.spring", "pump.body"),
        sense="pressure",
        condition="assembled",
        instrument=("pressure gauge",),
        station=STATION,
        critical=True,
        no_rule="the engine maker sets it; never shim it to hide a leak",
    )


def _relief_fits() -> tuple[FitBlock, ...]:
    return (
        FitBlock(
            key="relief.clearance",
            title="Relief plunger in its bore",
            kind="running clearance",
            sense="diametral",
            by_parts="relief.bore - relief.plunger.diameter",
            station=STATION,
            critical=True,
            removes_metal=True,
            rules=(rules.RELIEF_PLUNGER.bounds(),),
        ),
        FitBlock(
            key="relief.preload_length",
            title="Relief spring, preload length",
            kind="height",
            sense="linear",
            by_parts="relief.spring.free_length - relief.spring.installed_length",
            station=STATION,
            no_rule="it follows from the opening pressure",
        ),
        FitBlock(
            key="relief.coil_bind_margin",
            title="Relief spring, travel left when fully open",
            kind="chain",
            sense="linear",
            by_parts="relief.spring.installed_length - relief.spring.full_lift - relief.spring.solid_length",
            station=STATION,
            rules=(rules.RELIEF_COIL_BIND.bounds(),),
        ),
    )


def _clay() -> DimensionBlock:
    return DimensionBlock(
        key="pickup.clay_thickness",
        title="Clay between pickup and sump floor",
        through=("pickup", "sump"),
        sense="linear",
        places=("front", "rear"),
        condition="assembled",
        instrument=("caliper",),
        station=PICKUP,
    )


def _floor_gap() -> FitBlock:
    return FitBlock(
        key="pickup.floor_gap",
        title="Oil pickup to sump floor",
        kind="gap",
        sense="linear",
        fitted="pickup.clay_thickness",
        station=PICKUP,
        critical=True,
        rules=(rules.PICKUP.bounds(),),
        comment=("Also at least half the tube's bore, or the inlet starves.",),
    )


def _o_ring() -> tuple[DimensionBlock, ...]:
    rows = (
        ("section", "O-ring, thickness of its section", "pickup_o_ring", "caliper"),
        ("groove_depth", "Groove for the O-ring, depth", "pickup", "depth micrometer"),
    )
    return tuple(
        DimensionBlock(
            key=f"pickup_o_ring.{name}",
            title=title,
            part=part,
            sense="linear",
            condition="bare",
            instrument=(instrument,),
            station=PICKUP,
        )
        for name, title, part, instrument in rows
    )


def _o_ring_fits() -> tuple[FitBlock, ...]:
    rows = (
        ("least", "O-ring, squeeze over 15 % of its section", "0.85", rules.O_RING_LEAST),
        ("most", "O-ring, squeeze over 30 % of its section", "0.7", rules.O_RING_MOST),
    )
    return tuple(
        FitBlock(
            key=f"pickup_o_ring.squeeze_against_{word}",
            title=title,
            kind="chain",
            sense="linear",
            by_parts=f"{factor} * pickup_o_ring.section - pickup_o_ring.groove_depth",
            station=PICKUP,
            rules=(rule.bounds(),),
            comment=("Its section fills at most 85 % of the groove's.",) if word == "least" else (),
        )
        for word, title, factor, rule in rows
    )
