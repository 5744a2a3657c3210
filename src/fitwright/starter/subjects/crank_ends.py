"""What sits on the crank's ends: flywheel, clutch housing, spigot bearing, damper hub."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import drives as rules

STATION = "crank_ends"


def crank_ends(plan: Plan) -> Section:
    """Run-outs and registers at both ends of the crank."""
    return Section(
        title="Flywheel, clutch housing and damper",
        comment=("Delete what your gearbox, coupling or propeller shaft does not have.",),
        stations=(
            StationBlock(
                id=STATION,
                title="Ends of the crank",
                caution="Heavy parts: rated lifting gear. Heated hubs burn: gloves, the maker's temperature.",
                eye_checks=(
                    ("faces_clean", "Mating faces clean, dowels tight, no burrs?"),
                    ("damper", "Damper's rubber whole, ring not moved against its hub?"),
                ),
            ),
        ),
        parts=(
            PartBlock(key="flywheel", title="Flywheel", material="steel"),
            PartBlock(key="clutch_housing", title="Clutch housing", material="cast_aluminium"),
            PartBlock(key="damper", title="Damper or pulley", material="steel"),
        ),
        dimensions=(*_run_outs(plan), *_sizes()),
        fits=_fits(),
    )


def _run_outs(plan: Plan) -> tuple[DimensionBlock, ...]:
    flywheel = rules.FLYWHEEL_CLOSE if plan.competition else rules.FLYWHEEL
    rows = (
        ("flywheel.face_run_out", "Flywheel face, total indicator reading", "flywheel", flywheel),
        ("flywheel.rim_run_out", "Flywheel rim, total indicator reading", "flywheel", flywheel),
        (
            "clutch_housing.bore_run_out",
            "Clutch housing bore, total indicator reading",
            "clutch_housing",
            None,
        ),
        (
            "clutch_housing.face_run_out",
            "Clutch housing face, total indicator reading",
            "clutch_housing",
            rules.CLUTCH_HOUSING_FACE,
        ),
    )
    return tuple(
        DimensionBlock(
            key=key,
            title=title,
            through=(part, "crank", "block"),
            sense="linear",
            condition="assembled",
            instrument=("dial indicator",),
            station=STATION,
            rules=() if rule is None else (rule.bounds(),),
        )
        for key, title, part, rule in rows
    )


def _sizes() -> tuple[DimensionBlock, ...]:
    rows = (
        ("crank.flywheel_spigot", "Crank, spigot for the flywheel", "crank", "outside micrometer"),
        ("flywheel.spigot_bore", "Flywheel, bore for the spigot", "flywheel", "bore gauge"),
        ("crank.spigot_bearing", "Spigot bearing in the crank, bore", "crank", "bore gauge"),
        (
            "clutch_housing.gearbox_shaft",
            "Gearbox shaft in the spigot bearing",
            "clutch_housing",
            "outside micrometer",
        ),
        ("crank.nose", "Crank nose under the hub", "crank", "outside micrometer"),
        ("damper.hub_bore", "Hub bore", "damper", "bore gauge"),
    )
    return tuple(
        DimensionBlock(
            key=key,
            title=title,
            part=part,
            sense="diametral",
            angles=("0", "90"),
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for key, title, part, instrument in rows
    )


def _fits() -> tuple[FitBlock, ...]:
    rows = (
        (
            "clutch_housing.offset",
            "Clutch housing to crank, offset",
            "run-out",
            "linear",
            "0.5 * clutch_housing.bore_run_out",
            rules.CLUTCH_HOUSING,
            ("Half of the dial's total reading: ask which of the two your manual means.",),
        ),
        (
            "crank.spigot_bearing_clearance",
            "Spigot bearing to gearbox shaft",
            "running clearance",
            "diametral",
            "crank.spigot_bearing - clutch_housing.gearbox_shaft",
            rules.SPIGOT_BEARING,
            (),
        ),
        (
            "flywheel.spigot_clearance",
            "Flywheel on its spigot",
            "gap",
            "diametral",
            "flywheel.spigot_bore - crank.flywheel_spigot",
            rules.FLYWHEEL_SPIGOT,
            (),
        ),
        (
            "damper.hub_interference",
            "Damper or pulley hub on the nose",
            "interference",
            "diametral",
            "crank.nose - damper.hub_bore",
            rules.DAMPER_HUB,
            ("Positive is grip.",),
        ),
    )
    return tuple(
        FitBlock(
            key=key,
            title=title,
            kind=kind,
            sense=sense,
            by_parts=chain,
            station=STATION,
            rules=(rule.bounds(),),
            comment=comment,
        )
        for key, title, kind, sense, chain, rule, comment in rows
    )
