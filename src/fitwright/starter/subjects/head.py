"""The head: chambers and gasket, guides, seats, springs."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import top_end as rules

CHAMBERS = "chambers"
STATION = "guides_and_seats"


def chambers(plan: Plan) -> Section:
    """Chamber volumes and the head gasket."""
    heads = "Heads" if plan.banks or (plan.air_cooled and plan.cylinders > 1) else "Head"
    material = "cast_iron" if plan.head_material == "cast iron" else "cast_aluminium"
    return Section(
        title="Chambers and head gasket",
        stations=(
            StationBlock(
                id=CHAMBERS,
                title="Chambers",
                caution="Lift heads by their own lifting points or with two people.",
                eye_checks=(
                    ("face_flat", "Head face flat under the straight-edge, edges and both diagonals?"),
                    ("passages", "Oil and coolant passages brushed, gasket holes over every passage?"),
                ),
            ),
        ),
        parts=(
            PartBlock(key="head", title=heads, material=material),
            PartBlock(key="head_gasket", title="Head gasket", material="gasket", one_time_use=True),
        ),
        dimensions=(
            DimensionBlock(
                key="chamber.{0}.volume",
                title="Chamber {0} volume",
                family=plan.each_cylinder,
                part="head",
                sense="volume",
                condition="bare",
                instrument=("burette",),
                station=CHAMBERS,
                comment=("Plug and valves in, plate greased, level.",),
            ),
            *(_gasket(name, sense, title) for name, sense, title in _GASKET),
        ),
    )


_GASKET = (
    ("bore", "diametral", "Head gasket, bore of its fire ring"),
    ("thickness", "linear", "Head gasket, crushed thickness"),
)


def _gasket(name: str, sense: str, title: str) -> DimensionBlock:
    return DimensionBlock(
        key=f"head_gasket.{name}",
        title=title,
        part="head_gasket",
        sense=sense,
        condition="bare",
        instrument=("caliper",) if name == "bore" else ("outside micrometer",),
        station=CHAMBERS,
        comment=("Of a used one of the same kind, or stated by its maker: new gaskets read thicker.",)
        if name == "thickness"
        else (),
    )


def guides_and_seats(plan: Plan) -> Section:
    """Guides, stems and seats of every valve."""
    return Section(
        title="Guides and seats",
        stations=(
            StationBlock(
                id=STATION,
                title="Guides and seats",
                caution="Heated heads burn: gloves, ventilation, the maker's temperature.",
                eye_checks=(
                    ("blue", "Blue shows an unbroken ring on every valve and seat?"),
                    ("grooves", "Keeper grooves and stem ends without wear or step?"),
                ),
            ),
        ),
        parts=tuple(part for side in plan.sides for part in _parts(plan, side)),
        dimensions=tuple(dimension for side in plan.sides for dimension in _dimensions(plan, side)),
        fits=tuple(fit for side in plan.sides for fit in _fits(plan, side)),
    )


def valve_home(plan: Plan) -> str:
    """The part in which guides and seats sit."""
    return "block" if plan.side_valve else "head"


def _parts(plan: Plan, side: str) -> tuple[PartBlock, ...]:
    tail, title, family = plan.valve_tail(side), plan.valve_title(side), plan.each_valve(side)
    return (
        PartBlock(key=f"valve.{tail}", title=title, material="valve_steel", family=family),
        PartBlock(key=f"guide.{tail}", title=f"{title}, guide", material="bronze", family=family),
        PartBlock(key=f"seat.{tail}", title=f"{title}, seat insert", material="steel", family=family),
    )


def _dimensions(plan: Plan, side: str) -> tuple[DimensionBlock, ...]:
    tail, home = plan.valve_tail(side), valve_home(plan)
    rows = (
        (
            f"valve.{tail}.stem",
            "stem",
            f"valve.{tail}",
            ("top", "middle", "bottom"),
            ("0", "90"),
            "outside micrometer",
        ),
        (
            f"guide.{tail}.bore",
            "guide bore",
            f"guide.{tail}",
            ("top", "middle", "bottom"),
            (),
            "three-point inside micrometer",
        ),
        (f"guide.{tail}.outside", "guide, outside", f"guide.{tail}", (), (), "outside micrometer"),
        (f"guide.{tail}.hole", "hole for the guide", home, (), (), "three-point inside micrometer"),
        (f"seat.{tail}.outside", "seat insert, outside", f"seat.{tail}", (), (), "outside micrometer"),
        (
            f"seat.{tail}.counterbore",
            "counterbore for the seat",
            home,
            (),
            (),
            "three-point inside micrometer",
        ),
    )
    sizes = tuple(
        DimensionBlock(
            key=key,
            title=f"{plan.valve_title(side)}, {what}",
            family=plan.each_valve(side),
            part=part,
            sense="diametral",
            planes=planes,
            angles=angles,
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for key, what, part, planes, angles, instrument in rows
    )
    return (*sizes, *_seat_checks(plan, side))


def _seat_checks(plan: Plan, side: str) -> tuple[DimensionBlock, ...]:
    tail, home = plan.valve_tail(side), valve_home(plan)
    width = rules.SEAT_WIDTH_INLET if side == "inlet" else rules.SEAT_WIDTH_EXHAUST
    rows = (
        ("run_out", "seat run-out, total indicator reading", "dial indicator", rules.SEAT_RUN_OUT),
        ("width", "seat width", "caliper", width),
    )
    return tuple(
        DimensionBlock(
            key=f"seat.{tail}.{name}",
            title=f"{plan.valve_title(side)}, {what}",
            family=plan.each_valve(side),
            through=(f"seat.{tail}", f"guide.{tail}", home),
            sense="linear",
            condition="bare",
            instrument=(instrument,),
            station=STATION,
            rules=(rule.bounds(),),
        )
        for name, what, instrument, rule in rows
    )


def _fits(plan: Plan, side: str) -> tuple[FitBlock, ...]:
    tail, title, family = plan.valve_tail(side), plan.valve_title(side), plan.each_valve(side)
    exhaust = rules.STEM_EXHAUST_AIR if plan.air_cooled else rules.STEM_EXHAUST
    stem = rules.STEM_INLET if side == "inlet" else exhaust
    iron = (plan.block_material if plan.side_valve else plan.head_material) == "cast iron"
    seat = rules.SEAT_IN_IRON if iron else rules.SEAT_IN_ALUMINIUM
    grips = (
        ("guide", f"guide.{tail}.outside - guide.{tail}.hole", rules.GUIDE_IN_HEAD, ()),
        (
            "seat",
            f"seat.{tail}.outside - seat.{tail}.counterbore",
            seat,
            (
                "Positive is grip; it must outlast the hottest state. For its stress add press = {",
                "hub, shaft, hub_outer_diameter, shaft_inner_diameter }. Delete it where seats are cut in.",
            ),
        ),
    )
    return (
        FitBlock(
            key=f"valve.{tail}.stem_clearance",
            title=f"{title}, stem to guide",
            family=family,
            kind="running clearance",
            sense="diametral",
            by_parts=f"guide.{tail}.bore - valve.{tail}.stem",
            station=STATION,
            removes_metal=True,
            rules=(stem.bounds(),),
        ),
        *(
            FitBlock(
                key=f"{part}.{tail}.interference",
                title=f"{title}, {part} in its hole",
                family=family,
                kind="interference",
                sense="diametral",
                by_parts=chain,
                station=STATION,
                critical=part == "seat",
                rules=(rule.bounds(),),
                comment=comment,
            )
            for part, chain, rule, comment in grips
        ),
    )
