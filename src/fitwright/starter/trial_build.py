"""The trial build: deck height, squish, compression, piston to valves."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules
from fitwright.starter.rules import top_end
from fitwright.starter.rules.rule import RuleOfThumb

DECK = "deck"
STATION = "trial_build"
_STAND = (
    "Keep hands clear of the throws; turn the engine by hand only, plugs out. The maker's manual governs."
)


def deck(plan: Plan) -> Section:
    """Where the pistons stand at the top, by parts and by dial."""
    return Section(
        title="Deck",
        stations=(
            StationBlock(
                id=DECK,
                title="Deck",
                caution=_STAND,
                eye_checks=(
                    ("deck_flat", "Deck flat and without marks under the straight-edge, both diagonals?"),
                ),
            ),
        ),
        dimensions=(*_deck_parts(plan), _piston_down(plan)),
        fits=(_deck_fit(plan),),
    )


def trial_build(plan: Plan) -> Section:
    """What head, gasket and pistons make together."""
    valves = plan.overhead_valves
    return Section(
        title="Trial build with the head",
        stations=(_station(plan),),
        dimensions=(*_volumes(plan), _squish_read(plan), *(_valve_gaps(plan) if valves else ())),
        fits=(_overhang(plan), _squish(plan), _compression(plan), *(_valve_fits(plan) if valves else ())),
    )


def _station(plan: Plan) -> StationBlock:
    contact = (
        ("turns_over", "Engine turned twice by hand with valve gear in, no contact felt?"),
        ("clay", "Clay or dial shows the closest point at every valve checked, both sides of overlap?"),
    )
    return StationBlock(
        id=STATION,
        title="Trial build",
        caution=f"{_STAND} Checking springs store energy too: eye protection.",
        eye_checks=contact if plan.overhead_valves else contact[:1],
    )


def _deck_parts(plan: Plan) -> tuple[DimensionBlock, ...]:
    return (
        DimensionBlock(
            key="deck.{0}.height",
            title="Crank centre to the top face at cylinder {0}",
            family=plan.each_cylinder,
            part="block",
            sense="linear",
            condition="bare",
            instrument=("height gauge", "depth micrometer"),
            station=DECK,
        ),
        DimensionBlock(
            key="crank.stroke",
            title="Stroke",
            part="crank",
            sense="linear",
            nominal=plan.stroke,
            condition="bare",
            instrument=("dial indicator",),
            station=DECK,
        ),
        DimensionBlock(
            key="piston.{0}.compression_height",
            title="Piston {0} compression height",
            family=plan.each_cylinder,
            part="piston.{0}",
            sense="linear",
            nominal=plan.compression_height,
            nominal_guessed="compression_height" in plan.guessed,
            condition="bare",
            instrument=("height gauge",),
            station=DECK,
            comment=("Pin centre to crown; a dish or dome is counted in its volume.",),
        ),
    )


def _piston_down(plan: Plan) -> DimensionBlock:
    return DimensionBlock(
        key="cylinder.{0}.piston_down",
        title="Cylinder {0}, piston below the deck",
        family=plan.each_cylinder,
        through=("crank", "block", "rod.{0}", "piston.{0}"),
        sense="linear",
        places=("front", "rear"),
        condition="assembled",
        instrument=("dial indicator",),
        station=DECK,
        judged="mean",
        comment=("On the pin's axis at both sides, so that rock averages out. Above the deck is negative.",),
    )


def _deck_fit(plan: Plan) -> FitBlock:
    return FitBlock(
        key="cylinder.{0}.deck",
        title="Cylinder {0}, piston below the deck",
        family=plan.each_cylinder,
        kind="deck",
        sense="linear",
        by_parts="deck.{0}.height - 0.5 * crank.stroke - rod.{0}.length - piston.{0}.compression_height",
        fitted="cylinder.{0}.piston_down",
        governing="fitted",
        station=DECK,
        judged="mean",
        removes_metal=True,
        rules=(rules.DECK.bounds(),),
        comment=("Decking raises compression, takes squish and moves chain cam timing.",),
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
        rules=(top_end.GASKET_OVERHANG.bounds(),),
    )


def _squish(plan: Plan) -> FitBlock:
    wide = plan.air_cooled or plan.block_material == "aluminium"
    rule = top_end.SQUISH_WIDE if wide else top_end.SQUISH
    piston, rod, throw = plan.compression_height, plan.rod_length, plan.stroke / 2
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
        growth=(
            ("+", piston + rod + throw, "block"),
            ("-", throw, "crank"),
            ("-", rod, "rod.{0}"),
            ("-", piston, "piston.{0}"),
        ),
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


def _valve_gaps(plan: Plan) -> tuple[DimensionBlock, ...]:
    return (*(gap for side in plan.sides for gap in _gaps_of(plan, side)), _valve_to_valve(plan))


def _gaps_of(plan: Plan, side: str) -> tuple[DimensionBlock, ...]:
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
            station=STATION,
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
            station=STATION,
        ),
        DimensionBlock(
            key=f"valve.{tail}.head_diameter",
            title=f"{title}, head",
            family=plan.each_valve(side),
            part=f"valve.{tail}",
            sense="diametral",
            condition="bare",
            instrument=("outside micrometer",),
            station=STATION,
        ),
        DimensionBlock(
            key=f"valve.{tail}.pocket_offset",
            title=f"{title}, offset of pocket and valve centre",
            family=plan.each_valve(side),
            through=("piston.{0}", f"valve.{tail}"),
            sense="radial",
            condition="gasket_in",
            instrument=("caliper",),
            station=STATION,
        ),
    )


def _valve_to_valve(plan: Plan) -> DimensionBlock:
    return DimensionBlock(
        key="cylinder.{0}.valve_gap",
        title="Cylinder {0}, least gap between inlet and exhaust valve",
        family=plan.each_cylinder,
        through=("head",),
        sense="linear",
        condition="assembled",
        instrument=("feeler blades",),
        station=STATION,
    )


def _valve_fits(plan: Plan) -> tuple[FitBlock, ...]:
    valve_to_valve = FitBlock(
        key="cylinder.{0}.valve_to_valve",
        title="Cylinder {0}, valve to valve at overlap",
        family=plan.each_cylinder,
        kind="gap",
        sense="linear",
        fitted="cylinder.{0}.valve_gap",
        station=STATION,
        critical=True,
        rules=(top_end.VALVE_TO_VALVE.bounds(),),
        comment=("Delete it where the valves stand side by side and cannot meet.",),
    )
    return (*(fit for side in plan.sides for fit in _valve_fits_of(plan, side)), valve_to_valve)


def _valve_fits_of(plan: Plan, side: str) -> tuple[FitBlock, ...]:
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
            station=STATION,
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
            station=STATION,
            removes_metal=True,
            rules=(top_end.POCKET.bounds(),),
        ),
    )


def _piston_to_valve(plan: Plan, side: str) -> RuleOfThumb:
    if side == "inlet":
        return top_end.PISTON_TO_INLET_FAST if plan.competition else top_end.PISTON_TO_INLET
    return top_end.PISTON_TO_EXHAUST_FAST if plan.competition else top_end.PISTON_TO_EXHAUST
