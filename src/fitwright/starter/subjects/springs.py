"""Valve springs: height, loads, what is left before coils or retainer touch."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import top_end as rules
from fitwright.starter.subjects.head import valve_home

STATION = "springs"


def springs(plan: Plan) -> Section:
    """Springs of every valve, inlet and exhaust alike."""
    return Section(
        title="Valve springs",
        stations=(
            StationBlock(
                id=STATION,
                title="Valve springs",
                caution=(
                    "Springs store energy: a proper compressor, eye protection, fingers clear; "
                    "never stand over a compressed spring."
                ),
                eye_checks=(
                    ("keepers", "Keepers seated, retainers level, ends of coils where they belong?"),
                ),
            ),
        ),
        dimensions=tuple(dimension for side in plan.sides for dimension in _dimensions(plan, side)),
        fits=tuple(fit for side in plan.sides for fit in _fits(plan, side)),
    )


def _dimensions(plan: Plan, side: str) -> tuple[DimensionBlock, ...]:
    title = plan.valve_title(side)
    rows = (
        ("spring_height", "spring height with the valve shut", "linear", "caliper", None),
        ("lift", "lift", "linear", "dial indicator", None),
        ("coil_bind_height", "spring height, coils touching", "linear", "spring tester", None),
        ("retainer_gap", "retainer to seal or guide, valve shut", "linear", "caliper", None),
        ("seat_load", "spring load, valve shut", "force", "spring tester", _LOAD),
        ("lift_load", "spring load at full lift", "force", "spring tester", _LOAD),
    )
    return tuple(
        DimensionBlock(
            key=f"valve.{plan.valve_tail(side)}.{name}",
            title=f"{title}, {what}",
            family=plan.each_valve(side),
            through=(f"valve.{plan.valve_tail(side)}", valve_home(plan)),
            sense=sense,
            condition="free" if instrument == "spring tester" else "assembled",
            instrument=(instrument,),
            station=STATION,
            no_rule=no_rule,
        )
        for name, what, sense, instrument, no_rule in rows
    )


_LOAD = "within 5 % of the cam maker's load, read at the measured height"


def _fits(plan: Plan, side: str) -> tuple[FitBlock, ...]:
    tail, title, family = plan.valve_tail(side), plan.valve_title(side), plan.each_valve(side)
    height, lift = f"valve.{tail}.spring_height", f"valve.{tail}.lift"
    rows = (
        ("installed_height", "spring installed height", "height", height, ()),
        (
            "coil_bind_margin",
            "spring travel left before coil bind",
            "chain",
            f"{height} - {lift} - valve.{tail}.coil_bind_height",
            (rules.COIL_BIND.bounds(),),
        ),
        (
            "retainer_clearance",
            "retainer to seal or guide at full lift",
            "gap",
            f"valve.{tail}.retainer_gap - {lift}",
            (rules.RETAINER.bounds(),),
        ),
    )
    return tuple(
        FitBlock(
            key=f"valve.{tail}.{name}",
            title=f"{title}, {what}",
            family=family,
            kind=kind,
            sense="linear",
            by_parts=chain,
            station=STATION,
            rules=rule,
            no_rule="within 0.25 mm (10 thou) of the cam maker's height and of one another",
        )
        for name, what, kind, chain, rule in rows
    )
