"""The main tunnel: its straightness, and the caps in their registers."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules

STATION = "mains"


def tunnel(plan: Plan) -> tuple[DimensionBlock, ...]:
    """Straightness of the housings; it rests on each of them."""
    if plan.mains < 3:
        return ()
    housings = tuple(f"main.{number}.housing_bore" for number in range(1, plan.mains + 1))
    return tuple(
        DimensionBlock(
            key=f"main_tunnel.offset_{extent}",
            title=f"Main tunnel, largest offset of centres, {extent}",
            through=housings,
            sense="linear",
            condition="mains_tightened_bare",
            instrument=("straight-edge", "feeler blades"),
            station=STATION,
            rules=(rule.bounds(),),
            comment=(note,),
        )
        for extent, rule, note in (
            (
                "neighbours",
                rules.TUNNEL_NEIGHBOURS,
                "Re-honing one housing un-proves it: look at pump and seal centring too.",
            ),
            ("overall", rules.TUNNEL_OVERALL, "A dial on a line bar tells more than a straight-edge."),
        )
    )


def register_widths(plan: Plan) -> tuple[DimensionBlock, ...]:
    """Widths of caps and of the registers that hold them."""
    if plan.split_case:
        return ()
    return tuple(
        DimensionBlock(
            key=f"main.{{0}}.{name}_width",
            title=f"Main {{0}} {title}, width",
            family=plan.each_main,
            part="block",
            sense="linear",
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for name, title, instrument in (
            ("register", "register for the cap", "inside micrometer"),
            ("cap", "cap over its register", "outside micrometer"),
        )
    )


def registers(plan: Plan) -> tuple[FitBlock, ...]:
    """Caps in their registers."""
    if plan.split_case:
        return ()
    return (
        FitBlock(
            key="main.{0}.cap_register",
            title="Main {0} cap in its register",
            family=plan.each_main,
            kind="side clearance",
            sense="linear",
            by_parts="main.{0}.register_width - main.{0}.cap_width",
            station=STATION,
            rules=(rules.CAP_REGISTER.bounds(),),
            comment=("Delete where dowels or the bolts locate the caps.",),
        ),
    )
