"""Two-strokes: when the ports open, and a crankcase that must hold pressure."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, Section, StationBlock
from fitwright.starter.family import Family
from fitwright.starter.plan import Plan
from fitwright.starter.subjects.crank import TURN_BY_HAND

STATION = "ports"


def ports(plan: Plan) -> Section:
    """Port timing by degree wheel, one reading for each kind of port and cylinder."""
    return Section(
        title="Ports and crankcase",
        comment=("Degrees of the crank after top dead centre; a port is open twice 180 less that.",),
        stations=(
            StationBlock(
                id=STATION,
                title="Ports and crankcase",
                caution=f"{TURN_BY_HAND} Test with air at the maker's pressure only, behind a guard.",
                eye_checks=(
                    ("chamfered", "Port edges chamfered, no burr from the hone?"),
                    ("case_holds", "Closed crankcase holds the maker's test pressure for the maker's time?"),
                    ("ring_pegs", "Every ring peg clear of every port over the whole stroke?"),
                ),
            ),
        ),
        dimensions=(
            DimensionBlock(
                key="cylinder.{0}.{1}_opens",
                title="Cylinder {0}, {1} port opens",
                family=Family((*plan.each_cylinder.groups, ("exhaust", "transfer"))),
                through=("crank", "block", "cylinder.{0}", "piston.{0}"),
                sense="angular",
                condition="assembled",
                instrument=("degree wheel",),
                station=STATION,
                no_rule="the port maker's or tuner's figure decides",
            ),
        ),
    )
