"""What turns the oil pump, and how it stands to the crank."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.cam_drive import chain_slack
from fitwright.starter.plan import Plan
from fitwright.starter.pump_body import drive_fit
from fitwright.starter.rules import drives
from fitwright.starter.rules import oil_pump as rules
from fitwright.starter.seals import AROUND

STATION = "pump_drive"


def pump_drive(plan: Plan) -> Section:
    """The drive of the pump, by its kind."""
    if plan.pump == "crank-driven internal rotor":
        return _crank_nose(plan)
    drives_of = {
        "external spur": _tongue,
        "chain-driven": _chain,
        "camshaft-driven": _skew,
        "dry sump": _belt,
    }
    return drives_of[plan.pump]()


def _station(title: str, *eye_checks: tuple[str, str]) -> StationBlock:
    return StationBlock(
        id=STATION,
        title=title,
        caution="Keep hands clear of drives while the crank is turned; guard belts before anything runs.",
        eye_checks=eye_checks,
    )


def _crank_nose(plan: Plan) -> Section:
    return Section(
        title="Pump on the crank's nose",
        comment=(
            "One thing only locates the rotors: the body, with play on the flats, or the crank. Line honing",
            "raises the crank: the pump then stands low until it is dowelled anew.",
        ),
        stations=(
            _station(
                "Pump on the crank",
                ("no_rub", "Crank turns twice without a drag point, pump and front cover tightened?"),
                ("corners", "Corners of slot and flats without cracks or steps?"),
            ),
        ),
        dimensions=(*_flats(), _nose_run_out(), _nose_gap(), _spigot_gaps()),
        fits=(
            drive_fit(
                "Drive flats, play across both sides", "pump.inner_rotor.slot - crank.pump_flats", STATION
            ),
            _rotor_to_spacer(),
            _offset(plan),
        ),
    )


def _flats() -> tuple[DimensionBlock, ...]:
    rows = (
        (
            "crank.pump_flats",
            "Crank, across the pump's flats",
            "crank",
            ("front", "rear"),
            "outside micrometer",
        ),
        (
            "pump.inner_rotor.slot",
            "Inner rotor, across its slot",
            "pump.inner_rotor",
            (),
            "inside micrometer",
        ),
    )
    return tuple(
        DimensionBlock(
            key=key,
            title=title,
            part=part,
            sense="diametral",
            planes=planes,
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for key, title, part, planes, instrument in rows
    )


def _nose_run_out() -> DimensionBlock:
    return DimensionBlock(
        key="crank.nose_run_out",
        title="Crank nose under the pump, total indicator reading",
        part="crank",
        sense="linear",
        condition="mains_tightened",
        instrument=("dial indicator",),
        station=STATION,
        no_rule="it moves the offset by half of itself once a turn; keep it well below that limit",
    )


def _nose_gap() -> DimensionBlock:
    return DimensionBlock(
        key="pump.inner_rotor.nose_gap",
        title="Inner rotor to the spacer on the nose",
        through=("pump.inner_rotor", "crank"),
        sense="axial",
        condition="assembled",
        instrument=("feeler blades",),
        station=STATION,
    )


def _spigot_gaps() -> DimensionBlock:
    return DimensionBlock(
        key="pump.spigot_gap",
        title="Gap between pump housing and crank",
        through=("pump.body", "crank", "block"),
        sense="radial",
        places=AROUND,
        condition="pump_tightened",
        instrument=("feeler blades",),
        station=STATION,
        comment=(
            "Gap at a side of the engine @ degrees of the crank. Record how the engine hangs: it rests",
            "low in its clearance, and on an inverted engine towards the deck.",
        ),
    )


def _rotor_to_spacer() -> FitBlock:
    return FitBlock(
        key="pump.inner_rotor.nose_clearance",
        title="Inner rotor free along the nose",
        kind="gap",
        sense="axial",
        fitted="pump.inner_rotor.nose_gap",
        station=STATION,
        rules=(rules.ROTOR_TO_SPACER.bounds(),),
        comment=("Delete it where the rotor is clamped in the nose stack.",),
    )


def _offset(plan: Plan) -> FitBlock:
    measured = plan.plain and plan.only == "all"
    rule = rules.PUMP_OFFSET_CLOSE if plan.competition else rules.PUMP_OFFSET
    return FitBlock(
        key="pump.housing_offset",
        title="Pump housing to crank, offset",
        kind="centring",
        sense="radial",
        centring={
            "gaps": "pump.spigot_gap",
            **({"clearance": "main.1.running_clearance"} if measured else {}),
        },
        station=STATION,
        critical=True,
        rules=(rule.bounds(),),
    )


def _tongue() -> Section:
    return Section(
        title="Pump drive, tongue",
        comment=("Tongue, dog or hexagon alike.",),
        stations=(_station("Pump drive", ("straight", "Drive shaft straight, its ends unworn, retained?")),),
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
            station=STATION,
        )
        for key, title, sense, part, instrument in rows
    )


def _tongue_fits() -> tuple[FitBlock, ...]:
    return (
        drive_fit(
            "Drive tongue in its slot, play across both sides",
            "pump.driver.slot - pump_drive.tongue",
            STATION,
        ),
        FitBlock(
            key="pump_drive.end_clearance",
            title="Drive tongue, end gap",
            kind="end float",
            sense="axial",
            fitted="pump_drive.end_gap",
            station=STATION,
            rules=(rules.ENGAGEMENT.bounds(),),
        ),
        FitBlock(
            key="pump_drive.engagement",
            title="Drive tongue, engaged beyond 75 % of its slot",
            kind="chain",
            sense="axial",
            by_parts="pump_drive.engaged - 0.75 * pump.driver.slot_length",
            station=STATION,
            rules=(rules.ENGAGEMENT_LENGTH.bounds(),),
        ),
    )


def _chain() -> Section:
    dimensions, fits = chain_slack("pump_drive", "pump_drive", STATION)
    return Section(
        title="Pump drive, chain",
        stations=(_station("Pump drive", ("tensioner", "Tensioner the right way round, nut locked?")),),
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
        station=STATION,
        no_rule="the belt's maker states it, cold",
    )
    return Section(
        title="Pump drive, belt",
        stations=(
            _station(
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
        station=STATION,
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
            station=STATION,
        )
        for name, title, sense in rows
    )
    return Section(
        title="Pump drive, skew gears from the camshaft",
        comment=(
            *tongue.comment,
            "Apparent backlash = true + end float x tan(helix angle): shims cure only the float.",
        ),
        stations=(_station("Pump drive", ("oiled", "Jet or mist reaches the skew gears, contact blued?")),),
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
            station=STATION,
            rules=(rule.bounds(),),
        )
        for name, title, kind, sense, read, rule in rows
    )
