"""Cylinders, pistons and their pins."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules
from fitwright.starter.subjects.rods import mass_match, others

STATION = "cylinders"


def cylinders(plan: Plan) -> Section:
    """Bores and pistons: running clearance, form, pins, masses."""
    return Section(
        title="Cylinders and pistons",
        comment=("In a bore 0 degrees is across the crank (the thrust side), 90 along it.",),
        stations=(_station(),),
        parts=_parts(plan),
        dimensions=(_bore(plan), _skirt(plan), *_pin_dimensions(plan), _mass(plan)),
        fits=(_piston_to_wall(plan), *_bore_form(plan), *_pin_fits(plan), *_mass_match(plan)),
    )


def _station() -> StationBlock:
    return StationBlock(
        id=STATION,
        title="Cylinders and pistons",
        caution="Honing dust and solvents: ventilate, gloves, eye protection, and keep flames away.",
        eye_checks=(
            ("honing_washed", "Bores washed with hot detergent and brush until a white cloth stays white?"),
            ("piston_marks", "Pistons marked for their cylinders, front marks known?"),
            ("clips", "Clips new, seated all round, gaps where the maker wants them?"),
        ),
    )


def _parts(plan: Plan) -> tuple[PartBlock, ...]:
    return (
        PartBlock(
            key="cylinder.{0}",
            title="Cylinder {0}, its wall",
            material="cast_iron",
            family=plan.each_cylinder,
        ),
        PartBlock(
            key="piston.{0}",
            title="Piston {0}",
            material=f"piston_{plan.piston}",
            family=plan.each_cylinder,
        ),
    )


def _bore(plan: Plan) -> DimensionBlock:
    return DimensionBlock(
        key="cylinder.{0}.bore",
        title="Cylinder {0} bore",
        family=plan.each_cylinder,
        part="cylinder.{0}",
        sense="diametral",
        nominal=plan.bore,
        planes=("top", "middle", "bottom"),
        angles=("0", "90"),
        condition="torque_plate",
        instrument=("bore gauge",),
        station=STATION,
        comment=("The wall is taken as iron (block or liner); for a plated aluminium bore change its part.",),
    )


def _skirt(plan: Plan) -> DimensionBlock:
    return DimensionBlock(
        key="piston.{0}.skirt",
        title="Piston {0} skirt at the gauge point",
        family=plan.each_cylinder,
        part="piston.{0}",
        sense="diametral",
        plausible=(plan.bore * 0.997, plan.bore),
        condition="bare",
        instrument=("outside micrometer",),
        station=STATION,
        comment=("Across the pin, at the height that the piston's maker states.",),
    )


def _pin_dimensions(plan: Plan) -> tuple[DimensionBlock, ...]:
    bore = DimensionBlock(
        key="piston.{0}.pin_bore",
        title="Piston {0} pin bore",
        family=plan.each_cylinder,
        part="piston.{0}",
        sense="diametral",
        planes=("front", "rear"),
        angles=("0", "90"),
        condition="bare",
        instrument=("three-point inside micrometer", "bore gauge"),
        station=STATION,
    )
    if plan.piston_pin == "pressed":
        return (bore,)
    lengths = (
        ("piston.{0}.between_clips", "Piston {0}, between its clips", "piston.{0}", "inside micrometer"),
        ("piston_pin.{0}.length", "Piston pin {0}, length", "piston_pin.{0}", "outside micrometer"),
    )
    return (
        bore,
        *(
            DimensionBlock(
                key=key,
                title=title,
                family=plan.each_cylinder,
                part=part,
                sense="axial",
                condition="bare",
                instrument=(instrument,),
                station=STATION,
            )
            for key, title, part, instrument in lengths
        ),
    )


def _mass(plan: Plan) -> DimensionBlock:
    return DimensionBlock(
        key="piston.{0}.mass",
        title="Piston {0} with pin, rings and clips, mass",
        family=plan.each_cylinder,
        part="piston.{0}",
        sense="mass",
        condition="bare",
        instrument=("scales",),
        station=STATION,
    )


def _piston_to_wall(plan: Plan) -> FitBlock:
    rule = rules.PISTON_FORGED if plan.piston == "forged" else rules.PISTON_CAST
    return FitBlock(
        key="cylinder.{0}.piston_to_wall",
        title="Cylinder {0} piston to wall",
        family=plan.each_cylinder,
        kind="running clearance",
        sense="diametral",
        by_parts="cylinder.{0}.bore - piston.{0}.skirt",
        station=STATION,
        critical=True,
        removes_metal=True,
        rules=(rule.bounds(plan.bore),),
        comment=("The maker of the pistons states this clearance, often on the box: that figure governs.",),
    )


def _bore_form(plan: Plan) -> tuple[FitBlock, ...]:
    return tuple(
        FitBlock(
            key=f"cylinder.{{0}}.bore_{kind.replace('-', '_')}",
            title=f"Cylinder {{0}} bore {kind}",
            family=plan.each_cylinder,
            kind=kind,
            sense="diametral",
            form_of="cylinder.{0}.bore",
            station=STATION,
            removes_metal=True,
            rules=(rules.BORE_FORM.bounds(), rules.BORE_FORM_WORN.bounds()),
        )
        for kind in ("taper", "out-of-round")
    )


def _pin_fits(plan: Plan) -> tuple[FitBlock, ...]:
    rule = rules.PIN_IN_FORGED_PISTON if plan.piston == "forged" else rules.PIN_IN_CAST_PISTON
    clearance = FitBlock(
        key="piston.{0}.pin_clearance",
        title="Piston {0} on its pin",
        family=plan.each_cylinder,
        kind="running clearance",
        sense="diametral",
        by_parts="piston.{0}.pin_bore - piston_pin.{0}.diameter",
        station=STATION,
        removes_metal=True,
        rules=(rule.bounds(),),
    )
    if plan.piston_pin == "pressed":
        return (clearance,)
    return (
        clearance,
        FitBlock(
            key="piston.{0}.pin_end_float",
            title="Piston pin {0} between its clips",
            family=plan.each_cylinder,
            kind="end float",
            sense="axial",
            by_parts="piston.{0}.between_clips - piston_pin.{0}.length",
            station=STATION,
            rules=(rules.PIN_END_FLOAT.bounds(),),
        ),
    )


def _mass_match(plan: Plan) -> tuple[FitBlock, ...]:
    rest = others(plan)
    if rest is None:
        return ()
    return (
        FitBlock(
            key="piston.{0}.mass_match",
            title="Piston {0}, mass against piston 1",
            family=rest,
            kind="chain",
            sense="mass",
            by_parts="piston.{0}.mass - piston.1.mass",
            station=STATION,
            removes_metal=True,
            rules=mass_match(plan),
        ),
    )
