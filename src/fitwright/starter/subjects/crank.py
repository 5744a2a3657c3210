"""The crank as a whole: on the bench, and in the block."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules
from fitwright.starter.rules.rule import Bounds

STATION = "crank"
IN_BLOCK = "crank_in_block"
TURN_BY_HAND = (
    "Keep hands clear of the throws; turn the engine by hand only, plugs out. The maker's manual governs."
)


def crank(plan: Plan) -> Section:
    """Crank and block, and what belongs to no single bearing."""
    return Section(
        title="Crank and block",
        stations=(_station(plan),),
        parts=(
            *crank_and_block(plan),
            PartBlock(key="gallery_plug", title="Gallery plug", material="steel"),
        ),
        dimensions=(_run_out(plan), *_plug_sizes()),
        fits=(_plug_fit(),),
    )


def crank_in_block(plan: Plan) -> Section:
    """What is read with the crank laid in and the mains tightened."""
    return Section(
        title="Crank in the block",
        stations=(
            StationBlock(
                id=IN_BLOCK,
                title="Crank in the block",
                caution="Keep hands clear of the throws; turn the crank with a bar, never with a starter.",
                eye_checks=(
                    ("thrust_seated", "Thrust faces aligned by levering the crank before the last pass?"),
                ),
            ),
        ),
        parts=(PartBlock(key="thrust_bearing", title="Thrust bearing", material="steel"),)
        if plan.plain
        else (),
        dimensions=(*_end_float_dimensions(plan), _turning_torque()),
        fits=(_end_float(plan),),
    )


def _station(plan: Plan) -> StationBlock:
    built_up = plan.bearings == "rolling"
    return StationBlock(
        id=STATION,
        title="Crank",
        caution="A crank is heavy and its throws trap hands: two people, or rated lifting gear.",
        eye_checks=(
            ("crack_test", "Crack test slip at hand, its number the crank's number?"),
            ("drillings", "Oil drillings brushed through, plugs back in and locked?"),
            ("fillets", "Fillets smooth and whole, oil-hole edges rounded?"),
            *(
                (("pins_pressed", "Press fits of the built-up crank marked, no mark moved?"),)
                if built_up
                else ()
            ),
        ),
    )


def crank_and_block(plan: Plan) -> tuple[PartBlock, ...]:
    """Crank and block, which other subjects lean on."""
    block = "cast_iron" if plan.block_material == "cast iron" else "cast_aluminium"
    case = "Crankcase" if plan.split_case or plan.air_cooled else "Block with its main caps"
    return (
        PartBlock(key="crank", title="Crankshaft", material="steel"),
        PartBlock(key="block", title=case, material=block),
    )


def neighbours(plan: Plan) -> Section:
    """The parts that a sheet for a pump or a head alone still names."""
    return Section(title="Neighbouring parts", parts=crank_and_block(plan))


def _run_out(plan: Plan) -> DimensionBlock:
    inner = tuple(f"main {number}" for number in range(2, plan.mains))
    rule = rules.CRANK_RUN_OUT_CLOSE if plan.competition else rules.CRANK_RUN_OUT
    built_up = plan.bearings == "rolling"
    return DimensionBlock(
        key="crank.run_out",
        title="Crank run-out, total indicator reading",
        part="crank",
        sense="linear",
        places=inner or ("nose", "tail"),
        condition="bare",
        instrument=("dial indicator",),
        station=STATION,
        critical=built_up,
        rules=(rule.bounds(),),
        comment=(
            "Built-up crank: on its end bearings or between centres, after every pressing."
            if built_up
            else "Crank in V-blocks on its end mains. The bow is half of this reading.",
        ),
    )


def _end_float_dimensions(plan: Plan) -> tuple[DimensionBlock, ...]:
    widths = (
        DimensionBlock(
            key="crank.thrust_width",
            title="Crank, width between its thrust cheeks",
            part="crank",
            sense="axial",
            condition="bare",
            instrument=("inside micrometer",),
            station=IN_BLOCK,
        ),
        DimensionBlock(
            key="thrust_bearing.width",
            title="Thrust bearing, width over its faces",
            part="thrust_bearing",
            sense="axial",
            condition="bare",
            instrument=("outside micrometer",),
            station=IN_BLOCK,
        ),
    )
    by_dial = DimensionBlock(
        key="crank.axial_movement",
        title="Crank end float by dial",
        through=("crank", "thrust_bearing", "block") if plan.plain else ("crank", "block"),
        sense="axial",
        condition="mains_tightened",
        instrument=("dial indicator",),
        station=IN_BLOCK,
        comment=("Lever the crank fore and aft, read the whole travel.",),
    )
    return (*(widths if plan.plain else ()), by_dial)


def _end_float(plan: Plan) -> FitBlock:
    return FitBlock(
        key="crank.end_float",
        title="Crank end float",
        kind="end float",
        sense="axial",
        by_parts="crank.thrust_width - thrust_bearing.width" if plan.plain else None,
        fitted="crank.axial_movement",
        governing="fitted" if plan.plain else None,
        station=IN_BLOCK,
        critical=True,
        rules=_end_float_rules(plan) if plan.plain else (),
        no_rule="the bearing that locates the crank and its shims set it",
        comment=("Thrust washers: grooves towards the crank.",) if plan.plain else (),
    )


def _end_float_rules(plan: Plan) -> tuple[Bounds, ...]:
    also = f"{plan.block_material} block"
    return (rules.END_FLOAT.bounds(also=also), rules.END_FLOAT_WORN.bounds(also=also))


def _turning_torque() -> DimensionBlock:
    return DimensionBlock(
        key="crank.turning_torque",
        title="Torque to turn the crank",
        through=("crank", "block"),
        sense="torque",
        condition="mains_tightened",
        instrument=("torque gauge",),
        station=IN_BLOCK,
        no_rule="read it after each bearing is tightened; a jump names the bearing",
    )


def _plug_sizes() -> tuple[DimensionBlock, ...]:
    rows = (
        ("block.plug_hole", "Hole for the gallery plug", "block", "three-point inside micrometer"),
        ("gallery_plug.diameter", "Gallery plug", "gallery_plug", "outside micrometer"),
    )
    return tuple(
        DimensionBlock(
            key=key,
            title=title,
            part=part,
            sense="diametral",
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for key, title, part, instrument in rows
    )


def _plug_fit() -> FitBlock:
    return FitBlock(
        key="block.plug_interference",
        title="Gallery plug in its hole",
        kind="interference",
        sense="diametral",
        by_parts="gallery_plug.diameter - block.plug_hole",
        station=STATION,
        no_rule="each kind of plug has its own interference",
        comment=(
            "Positive is grip. Copy the three blocks for each pressed plug; delete them for screwed plugs.",
        ),
    )
