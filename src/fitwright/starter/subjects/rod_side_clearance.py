"""Side clearance of the rods on their crankpins, each with a pin of its own or two on one."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.starter.blocks import DimensionBlock, FitBlock
from fitwright.starter.family import ONE, Family, numbered
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules

STATION = "big_ends"


def side_dimensions(plan: Plan) -> tuple[DimensionBlock, ...]:
    """Widths of pins and big ends, and the gap beside the rods read with blades."""
    pins = _each_pin(plan)
    widths = (
        (
            _pin_key("width", plan),
            "Crankpin {0}, width between its cheeks",
            pins,
            "crank",
            "inside micrometer",
        ),
        ("rod.{0}.width", "Rod {0} big end, width", plan.each_cylinder, "rod.{0}", "outside micrometer"),
    )
    return (
        *(
            DimensionBlock(
                key=key,
                title=title,
                family=family,
                part=part,
                sense="axial",
                condition="bare",
                instrument=(instrument,),
                station=STATION,
            )
            for key, title, family, part, instrument in widths
        ),
        *(_side_gap(plan, family, number, rods) for family, number, rods in _pins_with_rods(plan)),
    )


def _side_gap(plan: Plan, family: Family, number: str, rods: tuple[str, ...]) -> DimensionBlock:
    return DimensionBlock(
        key=_pin_key("side_gap", plan).format(number),
        title=f"Crankpin {number}, gap beside its rod{'s, pushed together' if len(rods) > 1 else ''}",
        family=family,
        through=("crank", *(f"rod.{rod}.width" for rod in rods)),
        sense="axial",
        condition="rods_tightened",
        instrument=("feeler blades",),
        station=STATION,
    )


def side_fits(plan: Plan) -> tuple[FitBlock, ...]:
    """Side clearance of the rods on each pin."""
    return tuple(_side_fit(plan, family, number, rods) for family, number, rods in _pins_with_rods(plan))


def _named(rods: tuple[str, ...]) -> str:
    return f"rod {rods[0]}" if len(rods) == 1 else f"rods {' and '.join(rods)}"


def _side_fit(plan: Plan, family: Family, number: str, rods: tuple[str, ...]) -> FitBlock:
    rule = rules.ROD_SIDE_SHARED if plan.rods_per_pin == 2 else rules.ROD_SIDE
    width = _pin_key("width", plan).format(number)
    return FitBlock(
        key=_pin_key("side_clearance", plan).format(number),
        title=f"Crankpin {number}, side clearance of {_named(rods)}",
        family=family,
        kind="side clearance",
        sense="axial",
        by_parts=" - ".join((width, *(f"rod.{rod}.width" for rod in rods))),
        fitted=_pin_key("side_gap", plan).format(number),
        governing="fitted",
        station=STATION,
        removes_metal=True,
        rules=(rule.bounds(),),
        comment=("Tight: face the rod, never the crank.",) if number in {"1", "{0}"} else (),
    )


def _pins_with_rods(plan: Plan) -> Iterator[tuple[Family, str, tuple[str, ...]]]:
    """Family, number and rods of each block: one family, or a block for each shared pin."""
    if plan.rods_per_pin == 1:
        yield plan.each_cylinder, "{0}", ("{0}",)
    else:
        for pin in range(1, plan.pins + 1):
            yield ONE, str(pin), (str(2 * pin - 1), str(2 * pin))


def _pin_key(feature: str, plan: Plan) -> str:
    """Names by the rod where it has the pin to itself, by the pin where two rods share it."""
    if plan.rods_per_pin == 2:
        return f"pin.{{0}}.{feature}"
    return f"rod.{{0}}.{'pin_width' if feature == 'width' else feature}"


def _each_pin(plan: Plan) -> Family:
    return Family((numbered(plan.pins),))
