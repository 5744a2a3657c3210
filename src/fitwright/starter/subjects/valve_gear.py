"""Valve gear between cam and valve: lash or plunger travel, rockers, followers, shims."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import top_end as rules
from fitwright.starter.subjects.head import valve_home

STATION = "valve_gear"
LASH = "lash"


def valve_gear(plan: Plan) -> Section:
    """Rockers and followers, as far as this valve train has them."""
    return Section(
        title="Rockers and followers",
        stations=(
            StationBlock(
                id=STATION,
                title="Rockers and followers",
                eye_checks=(
                    ("faces", "Faces of cams, followers and rockers without pits or edges?"),
                    ("oil_feeds", "Every feed hole open, restrictors in their places?"),
                    *((("sweep", "Rocker tip sweeps the middle of the stem end?"),) if plan.rockers else ()),
                ),
            ),
        ),
        parts=tuple(part for side in plan.sides for part in _parts(plan, side)),
        dimensions=tuple(dimension for side in plan.sides for dimension in _gear_dimensions(plan, side)),
        fits=tuple(fit for side in plan.sides for fit in _gear_fits(plan, side)),
    )


def lash(plan: Plan) -> Section:
    """What is left between cam and valve, or how far a hydraulic plunger is pushed in."""
    return Section(
        title="Plunger travel" if plan.valve_adjustment == "hydraulic" else "Valve lash",
        comment=_LASH_COMMENT[plan.valve_adjustment],
        stations=(
            StationBlock(
                id=LASH,
                title="Lash",
                caution="Turn the engine by hand only, plugs out, ignition isolated.",
                eye_checks=(("base_circle", "Each valve read on its base circle, engine cold?"),),
            ),
        ),
        dimensions=tuple(dimension for side in plan.sides for dimension in _lash_dimensions(plan, side)),
        fits=tuple(_lash_fit(plan, side) for side in plan.sides),
    )


_LASH_COMMENT = {
    "shims": (
        "New shim = old shim + lash read - lash wanted. Within 0.025 mm (1 thou) of the cam's figure.",
    ),
    "screws": ("Set and read again after the lock nuts are tight.",),
    "hydraulic": ("Followers bled down or replaced by solid ones while this is read.",),
    "none": ("Without adjustment lash is set by stem tip or pushrod length: metal comes off once only.",),
}


def _parts(plan: Plan, side: str) -> tuple[PartBlock, ...]:
    tail, title, family = plan.valve_tail(side), plan.valve_title(side), plan.each_valve(side)
    rows = (
        ("rocker", "rocker", "steel", plan.rockers),
        ("follower", "follower", "steel", plan.followers),
        ("shim", "shim", "steel", plan.valve_adjustment == "shims"),
    )
    return tuple(
        PartBlock(key=f"{name}.{tail}", title=f"{title}, {what}", material=material, family=family)
        for name, what, material, wanted in rows
        if wanted
    )


def _follower_home(plan: Plan) -> str:
    """Where followers slide: the head under overhead camshafts, else the block."""
    return "block" if plan.valve_train in {"pushrod", "side valve"} else "head"


def _gear_dimensions(plan: Plan, side: str) -> tuple[DimensionBlock, ...]:
    tail, home = plan.valve_tail(side), _follower_home(plan)
    rockers = (
        (f"rocker.{tail}.bush", "rocker bush", f"rocker.{tail}", "three-point inside micrometer"),
        (f"rocker.{tail}.shaft", "rocker shaft under it", "head", "outside micrometer"),
    )
    followers = (
        (f"follower.{tail}.bore", "bore of its follower", home, "three-point inside micrometer"),
        (f"follower.{tail}.diameter", "follower", f"follower.{tail}", "outside micrometer"),
    )
    rows = (*(rockers if plan.rockers else ()), *(followers if plan.followers else ()))
    sizes = tuple(
        DimensionBlock(
            key=key,
            title=f"{plan.valve_title(side)}, {what}",
            family=plan.each_valve(side),
            part=part,
            sense="diametral",
            angles=("0", "90"),
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for key, what, part, instrument in rows
    )
    return (*sizes, *(_sweep(plan, side) if plan.rockers else ()))


def _sweep(plan: Plan, side: str) -> tuple[DimensionBlock, ...]:
    return (
        DimensionBlock(
            key=f"rocker.{plan.valve_tail(side)}.sweep",
            title=f"{plan.valve_title(side)}, sweep of the rocker tip",
            family=plan.each_valve(side),
            through=(f"rocker.{plan.valve_tail(side)}", f"valve.{plan.valve_tail(side)}", "head"),
            sense="linear",
            condition="assembled",
            instrument=("caliper",),
            station=STATION,
            rules=(rules.TIP_SWEEP.bounds(),),
        ),
    )


def _gear_fits(plan: Plan, side: str) -> tuple[FitBlock, ...]:
    tail = plan.valve_tail(side)
    rows = (
        (
            f"rocker.{tail}.bush_clearance",
            "rocker bush to shaft",
            f"rocker.{tail}.bush - rocker.{tail}.shaft",
            rules.ROCKER_BUSH,
            plan.rockers,
        ),
        (
            f"follower.{tail}.clearance",
            "follower in its bore",
            f"follower.{tail}.bore - follower.{tail}.diameter",
            rules.FOLLOWER,
            plan.followers,
        ),
    )
    return tuple(
        FitBlock(
            key=key,
            title=f"{plan.valve_title(side)}, {what}",
            family=plan.each_valve(side),
            kind="running clearance",
            sense="diametral",
            by_parts=chain,
            station=STATION,
            removes_metal=True,
            rules=(rule.bounds(),),
        )
        for key, what, chain, rule, wanted in rows
        if wanted
    )


def _lash_dimensions(plan: Plan, side: str) -> tuple[DimensionBlock, ...]:
    tail, title, family = plan.valve_tail(side), plan.valve_title(side), plan.each_valve(side)
    hydraulic = plan.valve_adjustment == "hydraulic"
    gap = DimensionBlock(
        key=f"valve.{tail}.{'plunger_travel' if hydraulic else 'cam_gap'}",
        title=f"{title}, {'plunger travel used' if hydraulic else 'gap at the base circle'}",
        family=family,
        through=(f"valve.{tail}", valve_home(plan)),
        sense="linear",
        condition="assembled",
        instrument=("dial indicator",) if hydraulic else ("feeler blades",),
        station=LASH,
    )
    if plan.valve_adjustment != "shims":
        return (gap,)
    shim = DimensionBlock(
        key=f"shim.{tail}.thickness",
        title=f"{title}, shim",
        family=family,
        part=f"shim.{tail}",
        sense="linear",
        condition="free",
        instrument=("outside micrometer",),
        station=LASH,
    )
    return (gap, shim)


def _lash_fit(plan: Plan, side: str) -> FitBlock:
    hydraulic = plan.valve_adjustment == "hydraulic"
    tail = plan.valve_tail(side)
    lash_rule = rules.LASH_INLET if side == "inlet" else rules.LASH_EXHAUST
    return FitBlock(
        key=f"valve.{tail}.{'preload' if hydraulic else 'lash'}",
        title=f"{plan.valve_title(side)}, {'plunger travel' if hydraulic else 'lash, cold'}",
        family=plan.each_valve(side),
        kind="gap",
        sense="linear",
        fitted=f"valve.{tail}.{'plunger_travel' if hydraulic else 'cam_gap'}",
        station=LASH,
        removes_metal=plan.valve_adjustment == "none",
        rules=((rules.PLUNGER_TRAVEL if hydraulic else lash_rule).bounds(),),
    )
