"""The rear seal of the crank: lip, scroll or rope."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import drives as rules

STATION = "rear_seal"
AROUND = ("top@0", "right@0", "bottom@0", "left@0", "top@180", "right@180", "bottom@180", "left@180")
"""Gaps around the crank, at two crank angles half a turn apart."""


def rear_seal(plan: Plan) -> Section:
    """Seal, its carrier and how it stands to the crank."""
    lip = plan.rear_seal == "lip"
    return Section(
        title="Rear seal",
        stations=(
            StationBlock(
                id=STATION,
                title="Rear seal",
                eye_checks=(
                    ("lip_way", "Lip towards the oil, spring in, shaft without groove or nick?")
                    if lip
                    else ("runs_free", "Seal runs free over a full turn, no rub?"),
                ),
            ),
        ),
        parts=(
            PartBlock(key="rear_seal_carrier", title="Rear seal carrier", material="cast_aluminium"),
            *(
                (PartBlock(key="rear_seal", title="Rear seal", material="steel", one_time_use=True),)
                if lip
                else ()
            ),
        ),
        dimensions=(*(_lip_dimensions() if lip else _plain_dimensions()), _run_out(), _gaps()),
        fits=(*(_lip_fits() if lip else _plain_fits(plan)), _offset(plan)),
    )


def _run_out() -> DimensionBlock:
    return DimensionBlock(
        key="crank.seal_land_run_out",
        title="Seal land of the crank, total indicator reading",
        part="crank",
        sense="linear",
        condition="mains_tightened",
        instrument=("dial indicator",),
        station=STATION,
        rules=(rules.SEAL_SHAFT_RUN_OUT.bounds(),),
    )


def _gaps() -> DimensionBlock:
    return DimensionBlock(
        key="rear_seal_carrier.gap",
        title="Gap between carrier and crank",
        through=("rear_seal_carrier", "crank", "block"),
        sense="radial",
        places=AROUND,
        condition="mains_tightened",
        instrument=("feeler blades",),
        station=STATION,
        comment=("Gap at a side of the engine @ degrees of the crank. Record how the engine hangs.",),
    )


def _offset(plan: Plan) -> FitBlock:
    last_main = {"clearance": f"main.{plan.mains}.running_clearance"} if plan.plain else {}
    rule = rules.SEAL_OFFSET_CLOSE if plan.competition else rules.SEAL_OFFSET
    return FitBlock(
        key="rear_seal_carrier.offset",
        title="Seal carrier to crank, offset",
        kind="centring",
        sense="radial",
        centring={"gaps": "rear_seal_carrier.gap", **last_main},
        station=STATION,
        rules=(rule.bounds(),),
        comment=("Centre the carrier on the crank, not on its dowels, when the tunnel has been moved.",),
    )


def _lip_dimensions() -> tuple[DimensionBlock, ...]:
    rows = (
        ("crank.seal_land", "Seal land of the crank", "crank", "outside micrometer", "bare"),
        ("rear_seal.lip", "Rear seal, free diameter of its lip", "rear_seal", "caliper", "free"),
        ("rear_seal.outside", "Rear seal, outside", "rear_seal", "caliper", "free"),
        ("rear_seal_carrier.bore", "Carrier, bore for the seal", "rear_seal_carrier", "bore gauge", "bare"),
    )
    return tuple(
        DimensionBlock(
            key=key,
            title=title,
            part=part,
            sense="diametral",
            condition=condition,
            instrument=(instrument,),
            station=STATION,
        )
        for key, title, part, instrument, condition in rows
    )


def _lip_fits() -> tuple[FitBlock, ...]:
    rows = (
        ("lip_interference", "Lip on the crank", "crank.seal_land - rear_seal.lip", rules.SEAL_LIP),
        (
            "bore_interference",
            "Seal in its carrier",
            "rear_seal.outside - rear_seal_carrier.bore",
            rules.SEAL_BORE,
        ),
    )
    return tuple(
        FitBlock(
            key=f"rear_seal.{name}",
            title=title,
            kind="interference",
            sense="diametral",
            by_parts=chain,
            station=STATION,
            rules=(rule.bounds(),),
        )
        for name, title, chain, rule in rows
    )


def _plain_dimensions() -> tuple[DimensionBlock, ...]:
    rows = (
        ("crank.seal_land", "Scroll or land of the crank", "crank", "outside micrometer"),
        ("rear_seal_carrier.bore", "Bore around it", "rear_seal_carrier", "bore gauge"),
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


def _plain_fits(plan: Plan) -> tuple[FitBlock, ...]:
    scroll = plan.rear_seal == "scroll"
    return (
        FitBlock(
            key="rear_seal.radial_clearance",
            title="Scroll in its bore, radial" if scroll else "Housing of the rope over the crank, radial",
            kind="gap",
            sense="radial",
            by_parts="0.5 * rear_seal_carrier.bore - 0.5 * crank.seal_land",
            station=STATION,
            rules=(rules.SCROLL.bounds(),) if scroll else (),
            no_rule="the rope's section decides",
        ),
    )
