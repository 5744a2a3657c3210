"""What turns an oil pump that does not sit on the crank: tongue, chain, belt, skew gears."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section
from fitwright.starter.plan import Plan
from fitwright.starter.rules import drives
from fitwright.starter.rules import oil_pump as rules
from fitwright.starter.subjects.cam_drive import chain_slack
from fitwright.starter.subjects.pump_body import DRIVE_STATION, drive_fit, drive_station
from fitwright.starter.subjects.pump_on_crank import pump_on_crank


def pump_drive(plan: Plan) -> Section:
    """The drive of the pump, by its kind."""
    if plan.pump == "crank-driven internal rotor":
        return pump_on_crank(plan)
    drives_of = {
        "external spur": _tongue,
        "chain-driven": _chain,
        "camshaft-driven": _skew,
        "dry sump": _belt,
    }
    return drives_of[plan.pump]()


def _tongue() -> Section:
    return Section(
        title="Pump drive, tongue",
        comment=("Tongue, dog or hexagon alike.",),
        stations=(
            drive_station("Pump drive", ("straight", "Drive shaft straight, its ends unworn, retained?")),
        ),
        parts=(PartBlock(key="pump_drive", title="Pump drive shaft", material="steel"),),
        dimensions=_tongue_dimensions(),
        fits=_tongue_fits(),
    )


def _tongue_dimensions() -> tuple[DimensionBlock, ...]:
    rows = (
        (
            "pump_drive.tongue",
            "Drive tongue, across its flats",
            "diametral",
            "pump_drive",
            "outside micrometer",
        ),
        ("pump.driver.slot", "Slot for the tongue, width", "diametral", "pump.driver", "inside micrometer"),
        ("pump_drive.engaged", "Drive tongue, length in its slot", "axial", "pump_drive", "depth micrometer"),
        ("pump.driver.slot_length", "Slot for the tongue, depth", "axial", "pump.driver", "depth micrometer"),
        (
            "pump_drive.end_gap",
            "Drive tongue, gap at the bottom of its slot",
            "axial",
            "pump_drive",
            "depth micrometer",
        ),
    )
    return tuple(
        DimensionBlock(
            key=key,
            title=title,
            part=part,
            sense=sense,
            condition="bare" if sense == "diametral" else "assembled",
            instrument=(instrument,),
            station=DRIVE_STATION,
        )
        for key, title, sense, part, instrument in rows
    )


def _tongue_fits() -> tuple[FitBlock, ...]:
    return (
        drive_fit("Drive tongue in its slot, play across both sides", "pump.driver.slot - pump_drive.tongue"),
        FitBlock(
            key="pump_drive.end_clearance",
            title="Drive tongue, end gap",
            kind="end float",
            sense="axial",
            fitted="pump_drive.end_gap",
            station=DRIVE_STATION,
            rules=(rules.ENGAGEMENT.bounds(),),
        ),
        FitBlock(
            key="pump_drive.engagement",
            title="Drive tongue, engaged beyond 75 % of its slot",
            kind="chain",
            sense="axial",
            by_parts="pump_drive.engaged - 0.75 * pump.driver.slot_length",
            station=DRIVE_STATION,
            rules=(rules.ENGAGEMENT_LENGTH.bounds(),),
        ),
    )


def _chain() -> Section:
    dimensions, fits = chain_slack("pump_drive", "pump_drive", DRIVE_STATION)
    return Section(
        title="Pump drive, chain",
        stations=(drive_station("Pump drive", ("tensioner", "Tensioner the right way round, nut locked?")),),
        parts=(PartBlock(key="pump_drive", title="Pump chain and sprockets", material="steel"),),
        dimensions=(*dimensions, _alignment("Sprockets")),
        fits=fits,
    )


def _belt() -> Section:
    tension = DimensionBlock(
        key="pump_drive.belt_tension",
        title="Pump belt, tension of its free span",
        part="pump_drive",
        sense="force",
        condition="assembled",
        instrument=("spring balance",),
        station=DRIVE_STATION,
        no_rule="the belt's maker states it, cold",
    )
    return Section(
        title="Pump drive, belt",
        stations=(
            drive_station(
                "Pump drive",
                ("rotation", "Arrow on the pump agrees with the way the engine turns?"),
                ("hoses", "Hoses clean inside, screens in every scavenge line, tank vented?"),
            ),
        ),
        parts=(PartBlock(key="pump_drive", title="Pump belt and pulleys", material="steel"),),
        dimensions=(tension, _alignment("Pulleys")),
    )


def _alignment(title: str) -> DimensionBlock:
    return DimensionBlock(
        key="pump_drive.alignment",
        title=f"{title}, out of line",
        part="pump_drive",
        sense="axial",
        condition="assembled",
        instrument=("straight-edge", "feeler blades"),
        station=DRIVE_STATION,
        rules=(rules.SPROCKETS.bounds(),),
    )


def _skew() -> Section:
    tongue = _tongue()
    rows = (
        ("apparent_play", "Skew gears, play at the pitch circle with the float free", "linear"),
        ("axial_movement", "Skew shaft, axial movement by dial", "axial"),
    )
    dimensions = tuple(
        DimensionBlock(
            key=f"skew_drive.{name}",
            title=title,
            part="skew_drive",
            sense=sense,
            condition="assembled",
            instrument=("dial indicator",),
            station=DRIVE_STATION,
        )
        for name, title, sense in rows
    )
    return Section(
        title="Pump drive, skew gears from the camshaft",
        comment=(
            *tongue.comment,
            "Apparent backlash = true + end float x tan(helix angle): shims cure only the float.",
        ),
        stations=(
            drive_station("Pump drive", ("oiled", "Jet or mist reaches the skew gears, contact blued?")),
        ),
        parts=(
            *tongue.parts,
            PartBlock(key="skew_drive", title="Skew gears with their shaft", material="steel"),
        ),
        dimensions=(*dimensions, *tongue.dimensions),
        fits=(*_skew_fits(), *tongue.fits),
    )


def _skew_fits() -> tuple[FitBlock, ...]:
    rows = (
        (
            "backlash",
            "Skew drive, apparent backlash",
            "backlash",
            "linear",
            "apparent_play",
            drives.SKEW_BACKLASH,
        ),
        (
            "end_float",
            "Skew shaft, end float",
            "end float",
            "axial",
            "axial_movement",
            drives.SHAFT_END_FLOAT,
        ),
    )
    return tuple(
        FitBlock(
            key=f"skew_drive.{name}",
            title=title,
            kind=kind,
            sense=sense,
            fitted=f"skew_drive.{read}",
            station=DRIVE_STATION,
            rules=(rule.bounds(),),
        )
        for name, title, kind, sense, read, rule in rows
    )
