"""What turns the camshaft: gears, a chain, a belt or shafts."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import drives as rules

STATION = "cam_drive"


def cam_drive(plan: Plan) -> Section:
    """The drive of the camshafts, by its kind."""
    dimensions, fits = {"gears": _gears, "shaft": _gears, "chain": _chain, "belt": _belt}[plan.cam_drive]()
    return Section(
        title="Camshaft drive",
        stations=(
            StationBlock(
                id=STATION,
                title="Camshaft drive",
                caution="Fingers clear of gears and chains while the crank is turned.",
                eye_checks=(
                    ("runs_true", "Drive runs true over two turns of the crank, no tight spot?"),
                    ("wear", "Teeth, links or cords without cracks and hooks?"),
                ),
            ),
        ),
        parts=(PartBlock(key="cam_drive", title="Camshaft drive", material="steel"),),
        dimensions=dimensions,
        fits=fits,
    )


def chain_slack(
    name: str, part: str, station: str
) -> tuple[tuple[DimensionBlock, ...], tuple[FitBlock, ...]]:
    """Slack of a chain against its free span: at least 2 %, at most 4 %."""
    dimensions = tuple(
        DimensionBlock(
            key=f"{name}.{feature}",
            title=title,
            part=part,
            sense="linear",
            condition="assembled",
            instrument=("rule",),
            station=station,
        )
        for feature, title in (
            ("span", "Chain, free span"),
            ("slack", "Chain, whole deflection in the middle"),
        )
    )
    fits = tuple(
        FitBlock(
            key=f"{name}.slack_against_{word}",
            title=title,
            kind="chain",
            sense="linear",
            by_parts=f"{name}.slack - {percent} * {name}.span",
            station=station,
            rules=(rule.bounds(),),
        )
        for word, title, percent, rule in (
            ("least", "Chain slack over 2 % of the span", "0.02", rules.CHAIN_SLACK_LEAST),
            ("most", "Chain slack over 4 % of the span", "0.04", rules.CHAIN_SLACK_MOST),
        )
    )
    return dimensions, fits


def _chain() -> tuple[tuple[DimensionBlock, ...], tuple[FitBlock, ...]]:
    return chain_slack("cam_drive", "cam_drive", STATION)


def _gears() -> tuple[tuple[DimensionBlock, ...], tuple[FitBlock, ...]]:
    return (
        (
            DimensionBlock(
                key="cam_drive.play",
                title="Timing gears, play at the pitch circle",
                part="cam_drive",
                sense="linear",
                places=("0", "90", "180", "270"),
                condition="assembled",
                instrument=("dial indicator",),
                station=STATION,
                comment=("Read at another radius: times pitch radius by that radius.",),
            ),
        ),
        (
            FitBlock(
                key="cam_drive.backlash",
                title="Timing gear backlash",
                kind="backlash",
                sense="linear",
                fitted="cam_drive.play",
                station=STATION,
                rules=(rules.GEAR_BACKLASH.bounds(),),
                comment=("Fibre gears: the trade takes 0.08 to 0.20 mm (3 to 8 thou).",),
            ),
        ),
    )


def _belt() -> tuple[tuple[DimensionBlock, ...], tuple[FitBlock, ...]]:
    return (
        (
            DimensionBlock(
                key="cam_drive.belt_tension",
                title="Belt, tension of its free span",
                part="cam_drive",
                sense="force",
                condition="assembled",
                instrument=("spring balance",),
                station=STATION,
                no_rule="the belt's maker states tension or frequency, cold",
            ),
        ),
        (),
    )
