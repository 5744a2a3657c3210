"""Cranks in ball and roller bearings, with roller big ends on pressed pins."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.subjects.rod_side_clearance import side_dimensions, side_fits
from fitwright.starter.subjects.rods import rod_dimensions, rod_fits, rod_parts

STATION = "mains"
ROD_STATION = "big_ends"
_BEARING_MAKER = "the bearing maker's class and the case material set it"


def rolling_mains(plan: Plan) -> Section:
    """Fits of the bearing races in the case and on the crank."""
    return Section(
        title="Main bearings, rolling",
        comment=("Rolling bearings have no running clearance to be blueprinted: their races' fits decide.",),
        stations=(
            StationBlock(
                id=STATION,
                title="Main bearings",
                caution="Heated cases and bearings burn: control the temperature, gloves and ventilation.",
                eye_checks=(
                    ("smooth", "Every bearing turns smoothly, dry of dirt, never spun with air?"),
                    ("seated", "Races seated to their shoulders all round, circlips in?"),
                ),
            ),
        ),
        parts=(
            PartBlock(
                key="main.{0}.bearing", title="Main {0} bearing", material="steel", family=plan.each_main
            ),
        ),
        dimensions=_race_dimensions(plan),
        fits=_race_fits(plan),
    )


def rolling_big_ends(plan: Plan) -> Section:
    """Roller big ends: side clearance, play, rods."""
    return Section(
        title="Big ends and rods, rolling",
        comment=(
            "Each rod has its own rollers on the pin." if plan.rods_per_pin == 2 else "One rod on each pin.",
        ),
        stations=(
            StationBlock(
                id=ROD_STATION,
                title="Big ends and rods",
                caution="A press stores energy: rated tools, guards, eye protection, qualified people.",
                eye_checks=(
                    ("no_play", "No play felt lengthwise along the rod, cage and tracks without marks?"),
                ),
            ),
        ),
        parts=rod_parts(plan),
        dimensions=(
            _play(plan),
            *_pin_dimensions(plan),
            *side_dimensions(plan),
            *rod_dimensions(plan, ROD_STATION),
        ),
        fits=(_play_fit(plan), _pin_fit(plan), *side_fits(plan), *rod_fits(plan, ROD_STATION)),
    )


def _race_dimensions(plan: Plan) -> tuple[DimensionBlock, ...]:
    rows = (
        ("main.{0}.case_bore", "Main {0} bore in the case", "block", "bore gauge", None),
        (
            "main.{0}.bearing_outside",
            "Main {0} bearing, outside",
            "main.{0}.bearing",
            "outside micrometer",
            None,
        ),
        ("main.{0}.bearing_inside", "Main {0} bearing, inside", "main.{0}.bearing", "bore gauge", None),
        ("main.{0}.journal", "Main {0} seat on the crank", "crank", "outside micrometer", plan.main_journal),
    )
    return tuple(
        DimensionBlock(
            key=key,
            title=title,
            family=plan.each_main,
            part=part,
            sense="diametral",
            nominal=nominal,
            nominal_guessed=nominal is not None and "main_journal" in plan.guessed,
            angles=("0", "90"),
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for key, title, part, instrument, nominal in rows
    )


def _race_fits(plan: Plan) -> tuple[FitBlock, ...]:
    rows = (
        ("outer", "in the case", "main.{0}.bearing_outside - main.{0}.case_bore"),
        ("inner", "on the crank", "main.{0}.journal - main.{0}.bearing_inside"),
    )
    return tuple(
        FitBlock(
            key=f"main.{{0}}.{race}_race_interference",
            title=f"Main {{0}} bearing {where}",
            family=plan.each_main,
            kind="interference",
            sense="diametral",
            by_parts=chain,
            station=STATION,
            critical=True,
            no_rule=_BEARING_MAKER,
            comment=("Positive is grip; an aluminium case loses it when hot.",) if race == "outer" else (),
        )
        for race, where, chain in rows
    )


def _play(plan: Plan) -> DimensionBlock:
    return DimensionBlock(
        key="rod.{0}.big_end_play",
        title="Rod {0} big end, play along the rod",
        family=plan.each_cylinder,
        through=("crank", "rod.{0}"),
        sense="diametral",
        condition="assembled",
        instrument=("dial indicator",),
        station=ROD_STATION,
    )


def _play_fit(plan: Plan) -> FitBlock:
    return FitBlock(
        key="rod.{0}.running_clearance",
        title="Rod {0} roller big end, radial play",
        family=plan.each_cylinder,
        kind="running clearance",
        sense="diametral",
        fitted="rod.{0}.big_end_play",
        station=ROD_STATION,
        critical=True,
        no_rule="rollers are graded to the track; the bearing maker sets the play",
    )


def _pin_dimensions(plan: Plan) -> tuple[DimensionBlock, ...]:
    return (
        DimensionBlock(
            key="rod.{0}.pin",
            title="Rod {0} roller track on the crankpin",
            family=plan.each_cylinder,
            part="crank",
            sense="diametral",
            nominal=plan.rod_journal,
            nominal_guessed="rod_journal" in plan.guessed,
            angles=("0", "90"),
            condition="bare",
            instrument=("outside micrometer",),
            station=ROD_STATION,
        ),
        DimensionBlock(
            key="crank.pin_end",
            title="Pressed end of a crankpin",
            part="crank",
            sense="diametral",
            angles=("0", "90"),
            condition="bare",
            instrument=("outside micrometer",),
            station=ROD_STATION,
            comment=("One-piece crank with split rollers: delete this, the eye and their fit.",),
        ),
        DimensionBlock(
            key="crank.pin_eye",
            title="Eye of the crank web",
            part="crank",
            sense="diametral",
            angles=("0", "90"),
            condition="bare",
            instrument=("bore gauge",),
            station=ROD_STATION,
        ),
    )


def _pin_fit(plan: Plan) -> FitBlock:
    pins = "each crankpin end" if plan.pins > 1 else "the crankpin's ends"
    return FitBlock(
        key="crank.pin_interference",
        title="Crankpin pressed in its web",
        kind="interference",
        sense="diametral",
        by_parts="crank.pin_end - crank.pin_eye",
        station=ROD_STATION,
        critical=True,
        no_rule="it depends on web, pin and steel",
        comment=(f"Positive is grip. Copy for {pins}.",),
    )
