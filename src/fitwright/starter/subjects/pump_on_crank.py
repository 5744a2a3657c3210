"""An internal rotor pump on the nose of the crank: its drive flats and its centring."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, Section
from fitwright.starter.plan import Plan
from fitwright.starter.rules import oil_pump as rules
from fitwright.starter.subjects.pump_body import DRIVE_STATION, drive_fit, drive_station
from fitwright.starter.subjects.seals import AROUND


def pump_on_crank(plan: Plan) -> Section:
    """Drive flats, the rotor's room along the nose, and how the housing is centred."""
    return Section(
        title="Pump on the crank's nose",
        comment=(
            "One thing only locates the rotors: the body, with play on the flats, or the crank. Line honing",
            "raises the crank: the pump then stands low until it is dowelled anew.",
        ),
        stations=(
            drive_station(
                "Pump on the crank",
                ("no_rub", "Crank turns twice without a drag point, pump and front cover tightened?"),
                ("corners", "Corners of slot and flats without cracks or steps?"),
            ),
        ),
        dimensions=(*_flats(), _nose_run_out(), _nose_gap(), _spigot_gaps()),
        fits=(
            drive_fit("Drive flats, play across both sides", "pump.inner_rotor.slot - crank.pump_flats"),
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
            station=DRIVE_STATION,
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
        station=DRIVE_STATION,
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
        station=DRIVE_STATION,
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
        station=DRIVE_STATION,
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
        station=DRIVE_STATION,
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
        station=DRIVE_STATION,
        critical=True,
        rules=(rule.bounds(),),
    )
