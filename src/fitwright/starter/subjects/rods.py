"""Connecting rods whatever their big ends run in: length, straightness, small end, mass."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock
from fitwright.starter.family import Family, numbered
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules
from fitwright.starter.rules.rule import Bounds


def rod_parts(plan: Plan) -> tuple[PartBlock, ...]:
    """The rods with their caps, and the pins."""
    return (
        PartBlock(key="rod.{0}", title="Rod {0} with its cap", material="steel", family=plan.each_cylinder),
        PartBlock(key="piston_pin.{0}", title="Piston pin {0}", material="steel", family=plan.each_cylinder),
    )


def rod_dimensions(plan: Plan, station: str) -> tuple[DimensionBlock, ...]:
    """What is measured on a bare rod and its pin."""
    return (*_straightness(plan, station), *_small_end(plan, station), *_masses(plan, station))


def rod_fits(plan: Plan, station: str) -> tuple[FitBlock, ...]:
    """Small-end fit, and how the rods of a set match rod 1."""
    return (_small_end_fit(plan, station), *_matches(plan, station))


def mass_match(plan: Plan) -> tuple[Bounds, ...]:
    """How closely masses of one set are matched."""
    return ((rules.MASS_MATCH_CLOSE if plan.competition else rules.MASS_MATCH).bounds(),)


def others(plan: Plan) -> Family | None:
    """Cylinders other than the first, which the rest is matched to; None for a single."""
    return Family((numbered(plan.cylinders - 1, 2),)) if plan.cylinders > 1 else None


def _straightness(plan: Plan, station: str) -> tuple[DimensionBlock, ...]:
    length = DimensionBlock(
        key="rod.{0}.length",
        title="Rod {0} centre length",
        family=plan.each_cylinder,
        part="rod.{0}",
        sense="linear",
        nominal=plan.rod_length,
        nominal_guessed="rod_length" in plan.guessed,
        condition="bare",
        instrument=("height gauge",),
        station=station,
    )
    bent = tuple(
        DimensionBlock(
            key=f"rod.{{0}}.{fault}",
            title=f"Rod {{0}} {fault}, scaled to 100 mm",
            family=plan.each_cylinder,
            part="rod.{0}",
            sense="linear",
            condition="bare",
            instrument=("dial indicator",),
            station=station,
            rules=(rules.ROD_BEND.bounds(),),
            comment=("Reading over the mandrel times 100 mm by its span (4 in: the same share).",)
            if fault == "bend"
            else (),
        )
        for fault in ("bend", "twist")
    )
    return (length, *bent)


def _small_end(plan: Plan, station: str) -> tuple[DimensionBlock, ...]:
    bush = "bush bore" if plan.piston_pin == "floating" else "eye bore"
    return (
        DimensionBlock(
            key="rod.{0}.small_end_bore",
            title=f"Rod {{0}} small-end {bush}",
            family=plan.each_cylinder,
            part="rod.{0}",
            sense="diametral",
            planes=("front", "rear"),
            angles=("0", "90"),
            condition="bare",
            instrument=("three-point inside micrometer", "bore gauge"),
            station=station,
        ),
        DimensionBlock(
            key="piston_pin.{0}.diameter",
            title="Piston pin {0} diameter",
            family=plan.each_cylinder,
            part="piston_pin.{0}",
            sense="diametral",
            planes=("front", "middle", "rear"),
            condition="bare",
            instrument=("outside micrometer",),
            station=station,
        ),
    )


def _masses(plan: Plan, station: str) -> tuple[DimensionBlock, ...]:
    return tuple(
        DimensionBlock(
            key=f"rod.{{0}}.{end}_mass",
            title=f"Rod {{0}}, mass of its {end.replace('_', ' ')}",
            family=plan.each_cylinder,
            part="rod.{0}",
            sense="mass",
            condition="bare",
            instrument=("scales",),
            station=station,
        )
        for end in ("big_end", "small_end")
    )


def _small_end_fit(plan: Plan, station: str) -> FitBlock:
    if plan.piston_pin == "pressed":
        return FitBlock(
            key="rod.{0}.pin_interference",
            title="Piston pin {0} pressed in its rod",
            family=plan.each_cylinder,
            kind="interference",
            sense="diametral",
            by_parts="piston_pin.{0}.diameter - rod.{0}.small_end_bore",
            station=station,
            critical=True,
            rules=(rules.PRESSED_PIN.bounds(),),
            comment=(
                "Positive is grip. Heat the rod as its maker says; hot rods burn: gloves and ventilation.",
                "For its stress add press = { hub, shaft, hub_outer_diameter, shaft_inner_diameter }.",
            ),
        )
    rule = rules.SMALL_END_AIR if plan.air_cooled else rules.SMALL_END
    return FitBlock(
        key="rod.{0}.small_end_clearance",
        title="Rod {0} small-end bush to pin",
        family=plan.each_cylinder,
        kind="running clearance",
        sense="diametral",
        by_parts="rod.{0}.small_end_bore - piston_pin.{0}.diameter",
        station=station,
        removes_metal=True,
        rules=(rule.bounds(),),
    )


def _matches(plan: Plan, station: str) -> tuple[FitBlock, ...]:
    rest = others(plan)
    if rest is None:
        return ()
    length = FitBlock(
        key="rod.{0}.length_match",
        title="Rod {0} centre length against rod 1",
        family=rest,
        kind="chain",
        sense="linear",
        by_parts="rod.{0}.length - rod.1.length",
        station=station,
        rules=(rules.ROD_LENGTH_MATCH.bounds(),),
    )
    masses = tuple(
        FitBlock(
            key=f"rod.{{0}}.{end}_mass_match",
            title=f"Rod {{0}}, mass of its {end.replace('_', ' ')} against rod 1",
            family=rest,
            kind="chain",
            sense="mass",
            by_parts=f"rod.{{0}}.{end}_mass - rod.1.{end}_mass",
            station=station,
            removes_metal=True,
            rules=mass_match(plan),
        )
        for end in ("big_end", "small_end")
    )
    return (length, *masses)
