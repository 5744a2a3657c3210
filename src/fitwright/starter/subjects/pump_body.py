"""What all oil pumps have: body, cover, pocket depth, shaft in its bush."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, StationBlock
from fitwright.starter.family import Family
from fitwright.starter.plan import Plan
from fitwright.starter.rules import oil_pump as rules
from fitwright.starter.rules.rule import Bounds

STATION = "pump"
DRIVE_STATION = "pump_drive"
END_COMMENT = (
    "Lapping the body closes it one to one, lapping rotors or gears opens it. A cover gasket adds to it:",
    "then write + pump.cover_gasket into the chain. It leaks with the cube of this clearance.",
)


@dataclass(frozen=True, slots=True)
class Members:
    """Rotors, gears or shafts of a pump: their family, their id and their name as templates."""

    family: Family
    id: str
    name: str

    def part(self, material: str) -> PartBlock:
        """The positions of these members."""
        return PartBlock(key=self.id, title=f"Pump {self.name}", material=material, family=self.family)


def pump_station() -> StationBlock:
    """The pump on the bench."""
    return StationBlock(
        id=STATION,
        title="Oil pump",
        caution="Relief springs jump: hold the cap under control, eye protection. Wash lapping dust out.",
        eye_checks=(
            ("turns", "Pump turns freely in every position, cover tightened, oiled?"),
            (
                "edges",
                "Edges of ports and rotors sharp, trapped-oil grooves as drawn, nothing chamfered there?",
            ),
            ("gasket", "Gasket or sealant covers no port, no string of it inside?"),
            ("primed", "Pump packed with oil before it is closed?"),
        ),
    )


def drive_station(title: str, *eye_checks: tuple[str, str]) -> StationBlock:
    """The drive of the pump."""
    return StationBlock(
        id=DRIVE_STATION,
        title=title,
        caution="Keep hands clear of drives while the crank is turned; guard belts before anything runs.",
        eye_checks=eye_checks,
    )


def body_parts(plan: Plan) -> tuple[PartBlock, ...]:
    """Body and cover."""
    iron = plan.duty in {"historic", "agricultural", "stationary"}
    material = "cast_iron" if iron else "cast_aluminium"
    return (
        PartBlock(key="pump.body", title="Pump body", material=material),
        PartBlock(key="pump.cover", title="Pump cover", material=material),
    )


def body_dimensions() -> tuple[DimensionBlock, ...]:
    """Depth of the pocket and wear of the cover."""
    return (
        DimensionBlock(
            key="pump.pocket_depth",
            title="Pump pocket, depth",
            part="pump.body",
            sense="axial",
            places=("a", "b", "c", "d"),
            condition="bare",
            instrument=("depth micrometer",),
            station=STATION,
        ),
        DimensionBlock(
            key="pump.cover_wear",
            title="Pump cover, depth of its wear groove",
            part="pump.cover",
            sense="axial",
            condition="bare",
            instrument=("depth micrometer",),
            station=STATION,
            rules=(rules.COVER_WEAR.bounds(),),
            comment=("A groove adds to the end clearance where it is: grind it away before you reckon.",),
        ),
    )


def end_clearance(members: Members, rule: Bounds) -> FitBlock:
    """End clearance of rotors or gears, by depth and thickness or by straight-edge and blades."""
    return FitBlock(
        key=f"{members.id}.end_clearance",
        title=f"Pump {members.name}, end clearance",
        family=members.family,
        kind="side clearance",
        sense="axial",
        by_parts=f"pump.pocket_depth - {members.id}.thickness",
        fitted=f"{members.id}.end_gap",
        governing="by parts",
        station=STATION,
        critical=True,
        removes_metal=True,
        rules=(rule,),
        comment=END_COMMENT,
    )


def thickness_and_gap(members: Members) -> tuple[DimensionBlock, ...]:
    """Thickness of rotors or gears, and the gap over each under a straight-edge."""
    return (
        DimensionBlock(
            key=f"{members.id}.thickness",
            title=f"Pump {members.name}, thickness",
            family=members.family,
            part=members.id,
            sense="axial",
            places=("1", "2", "3"),
            condition="bare",
            instrument=("outside micrometer",),
            station=STATION,
        ),
        DimensionBlock(
            key=f"{members.id}.end_gap",
            title=f"Pump {members.name}, gap under the straight-edge",
            family=members.family,
            through=(f"{members.id}.thickness", "pump.pocket_depth"),
            sense="axial",
            condition="assembled",
            instrument=("straight-edge", "feeler blades"),
            station=STATION,
            comment=("A set of coarse blades proves nothing here: fine blades, or depth and thickness.",),
        ),
    )


def shaft_dimensions(members: Members) -> tuple[DimensionBlock, ...]:
    """Shafts (or spindles) and the bushes that they run in."""
    rows = (
        ("shaft_diameter", "journal in the bush", members.id, "outside micrometer"),
        ("bush_bore", "bush", "pump.body", "three-point inside micrometer"),
    )
    return tuple(
        DimensionBlock(
            key=f"{members.id}.{feature}",
            title=f"Pump {members.name}, {what}",
            family=members.family,
            part=part,
            sense="diametral",
            angles=("0", "90"),
            condition="bare",
            instrument=(instrument,),
            station=STATION,
        )
        for feature, what, part, instrument in rows
    )


def shaft_fit(members: Members) -> FitBlock:
    """Shafts in their bushes: loose ones tilt and draw air."""
    return FitBlock(
        key=f"{members.id}.shaft_clearance",
        title=f"Pump {members.name}, clearance in its bush",
        family=members.family,
        kind="running clearance",
        sense="diametral",
        by_parts=f"{members.id}.bush_bore - {members.id}.shaft_diameter",
        station=STATION,
        removes_metal=True,
        rules=(rules.PUMP_SHAFT.bounds(),),
    )


def drive_fit(title: str, chain: str) -> FitBlock:
    """Play of what turns the pump, across both sides together."""
    return FitBlock(
        key="pump.drive_clearance",
        title=title,
        kind="running clearance",
        sense="diametral",
        by_parts=chain,
        station=DRIVE_STATION,
        removes_metal=True,
        rules=(rules.DRIVE_FLATS.bounds(),),
    )
