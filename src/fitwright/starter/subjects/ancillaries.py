"""Water pump, turbocharger, piston jets."""

from __future__ import annotations

from fitwright.starter.blocks import DimensionBlock, FitBlock, PartBlock, Section, StationBlock
from fitwright.starter.plan import Plan
from fitwright.starter.rules import drives as rules

STATION = "ancillaries"


def has_ancillaries(plan: Plan) -> bool:
    """Whether there is anything for this section."""
    return plan.cooling == "water" or plan.aspiration == "turbocharged" or plan.piston_jets


def ancillaries(plan: Plan) -> Section:
    """What is bolted on and has a fit of its own."""
    wanted = (
        (plan.cooling == "water", _water_pump()),
        (plan.aspiration == "turbocharged", _turbocharger()),
        (plan.piston_jets, _jets(plan)),
    )
    pieces = tuple(piece for has_it, piece in wanted if has_it)
    return Section(
        title="Ancillaries",
        stations=(
            StationBlock(
                id=STATION,
                title="Ancillaries",
                caution="Oil under pressure pierces skin: keep clear of jets, rated hoses only.",
                eye_checks=(("drain_falls", "Every drain falls all the way, no dip, no kink?"),),
            ),
        ),
        parts=tuple(part for piece in pieces for part in piece.parts),
        dimensions=tuple(dimension for piece in pieces for dimension in piece.dimensions),
        fits=tuple(fit for piece in pieces for fit in piece.fits),
    )


def _water_pump() -> Section:
    return Section(
        title="Water pump",
        parts=(PartBlock(key="water_pump", title="Water pump", material="cast_aluminium"),),
        dimensions=(
            DimensionBlock(
                key="water_pump.impeller_gap",
                title="Water pump, impeller to housing",
                part="water_pump",
                sense="axial",
                condition="assembled",
                instrument=("feeler blades",),
                station=STATION,
            ),
        ),
        fits=(
            FitBlock(
                key="water_pump.impeller_clearance",
                title="Water pump, impeller to housing",
                kind="gap",
                sense="axial",
                fitted="water_pump.impeller_gap",
                station=STATION,
                rules=(rules.WATER_PUMP.bounds(),),
            ),
        ),
    )


def _turbocharger() -> Section:
    return Section(
        title="Turbocharger",
        parts=(PartBlock(key="turbocharger", title="Turbocharger", material="cast_iron"),),
        dimensions=tuple(
            DimensionBlock(
                key=f"turbocharger.{sense}_movement",
                title=f"Turbocharger shaft, {sense} movement",
                part="turbocharger",
                sense=sense,
                condition="assembled",
                instrument=("dial indicator",),
                station=STATION,
                no_rule="its maker states it; do not open it, exchange it through a specialist",
            )
            for sense in ("axial", "radial")
        ),
    )


def _jets(plan: Plan) -> Section:
    return Section(
        title="Piston jets",
        parts=(
            PartBlock(key="jet.{0}", title="Piston jet {0}", material="steel", family=plan.each_cylinder),
        ),
        dimensions=(
            DimensionBlock(
                key="jet.{0}.flow",
                title="Piston jet {0}, flow at the pressure set",
                family=plan.each_cylinder,
                part="jet.{0}",
                sense="flow",
                condition="bare",
                instrument=("flow meter",),
                station=STATION,
                no_rule="within 10 % of the mean of the set",
            ),
        ),
    )
