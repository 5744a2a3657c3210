"""Where the pistons stand at the top, by parts and by dial."""

from __future__ import annotations

from fitwright.quantity import Metre
from fitwright.starter.blocks import DimensionBlock, FitBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import bottom_end as rules
from fitwright.starter.subjects.crank import TURN_BY_HAND

STATION = "deck"


def deck(plan: Plan) -> Section:
    """Where the pistons stand at the top, by parts and by dial."""
    return Section(
        title="Deck",
        stations=(
            StationBlock(
                id=STATION,
                title="Deck",
                caution=TURN_BY_HAND,
                eye_checks=(
                    ("deck_flat", "Deck flat and without marks under the straight-edge, both diagonals?"),
                ),
            ),
        ),
        dimensions=(*_deck_parts(plan), _piston_down(plan)),
        fits=(_deck_fit(plan),),
    )


def _deck_parts(plan: Plan) -> tuple[DimensionBlock, ...]:
    return (
        DimensionBlock(
            key="deck.{0}.height",
            title="Crank centre to the top face at cylinder {0}",
            family=plan.each_cylinder,
            part="block",
            sense="linear",
            condition="bare",
            instrument=("height gauge", "depth micrometer"),
            station=STATION,
        ),
        DimensionBlock(
            key="crank.stroke",
            title="Stroke",
            part="crank",
            sense="linear",
            nominal=plan.stroke,
            condition="bare",
            instrument=("dial indicator",),
            station=STATION,
        ),
        DimensionBlock(
            key="piston.{0}.compression_height",
            title="Piston {0} compression height",
            family=plan.each_cylinder,
            part="piston.{0}",
            sense="linear",
            nominal=plan.compression_height,
            nominal_guessed="compression_height" in plan.guessed,
            condition="bare",
            instrument=("height gauge",),
            station=STATION,
            comment=("Pin centre to crown; a dish or dome is counted in its volume.",),
        ),
    )


def _piston_down(plan: Plan) -> DimensionBlock:
    return DimensionBlock(
        key="cylinder.{0}.piston_down",
        title="Cylinder {0}, piston below the deck",
        family=plan.each_cylinder,
        through=("crank", "block", "rod.{0}", "piston.{0}"),
        sense="linear",
        places=("front", "rear"),
        condition="assembled",
        instrument=("dial indicator",),
        station=STATION,
        judged="mean",
        comment=("On the pin's axis at both sides, so that rock averages out. Above the deck is negative.",),
    )


def _deck_fit(plan: Plan) -> FitBlock:
    return FitBlock(
        key="cylinder.{0}.deck",
        title="Cylinder {0}, piston below the deck",
        family=plan.each_cylinder,
        kind="deck",
        sense="linear",
        by_parts="deck.{0}.height - 0.5 * crank.stroke - rod.{0}.length - piston.{0}.compression_height",
        fitted="cylinder.{0}.piston_down",
        governing="fitted",
        station=STATION,
        judged="mean",
        removes_metal=True,
        growth=growth_over_the_deck(plan),
        rules=(rules.DECK.bounds(),),
        comment=("Decking raises compression, takes squish and moves chain cam timing.",),
    )


def growth_over_the_deck(plan: Plan) -> tuple[tuple[str, Metre, str], ...]:
    """Lengths that grow out of the gap above a piston (block) and into it (throw, rod, piston)."""
    piston, rod, throw = plan.compression_height, plan.rod_length, plan.stroke / 2
    return (
        ("+", piston + rod + throw, "block"),
        ("-", throw, "crank"),
        ("-", rod, "rod.{0}"),
        ("-", piston, "piston.{0}"),
    )
