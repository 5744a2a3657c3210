"""The tables of an engine sheet around its dimensions and fits: engine, sources, parts, temperatures."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from fitwright.formats.sheet.fields import (
    Amount,
    Arrangement,
    Aspiration,
    Bearings,
    ConditionKind,
    Cooling,
    Number,
    Piston,
    Pump,
    Rotation,
    Table,
    Text,
    UnitFamily,
    ValveAdjustment,
    ValveTrain,
)
from fitwright.model.limit import SourceKind


class LayoutTable(Table):
    """How the engine is laid out: enough to draw it and to number what it has several of."""

    arrangement: Arrangement = Field(description="How the cylinders stand.")
    cylinders: int = Field(ge=1, le=64, description="Number of cylinders.")
    mains: int = Field(ge=0, le=64, description="Number of main bearings.")
    bank_angle: Amount | None = Field(None, description="Angle between the banks of a vee.")
    bore: Amount | None = Field(None, description="Cylinder bore.")
    stroke: Amount | None = Field(None, description="Stroke of the pistons.")
    rod_length: Amount | None = Field(None, description="Connecting rod, centre to centre.")
    compression_height: Amount | None = Field(None, description="Pin centre to piston crown.")
    firing_order: Text | None = Field(
        None, description="Cylinder numbers joined by hyphens.", examples=["1-2-4-5-3"]
    )
    bearings: Bearings = Field("plain", description="What the crank runs in.")
    valves_per_cylinder: int = Field(2, ge=0, le=8, description="Valves of one cylinder.")
    valve_train: ValveTrain | None = Field(None, description="What drives the valves.")
    valve_adjustment: ValveAdjustment | None = Field(None, description="What sets the lash.")
    pump: Pump | None = Field(None, description="What pumps the oil.")
    pump_stages: int = Field(0, ge=0, le=12, description="Scavenge stages of a dry sump pump.")
    rotation: Rotation = Field("clockwise from the nose", description="Which way the crank turns.")


class DirectionsTable(Table):
    """What one says in the shop for the four directions around the crank, seen from the nose."""

    top: Text = Field("deck", description="The side at 0 degrees.")
    right: Text = Field("right side", description="The side at 90 degrees, clockwise seen from the nose.")
    bottom: Text = Field("sump", description="The side at 180 degrees.")
    left: Text = Field("left side", description="The side at 270 degrees.")


class EngineTable(Table):
    """The engine type: its name, revision and duty, and how it is laid out."""

    id: Text = Field(description="Short name in lower case, for files and records.", examples=["corrie-five"])
    name: Text = Field(description="Name as people say it.")
    revision: Text = Field(description="Revision of this sheet.")
    units: UnitFamily = Field(description="What this shop reads; every amount still says its own unit.")
    duty: Text | None = Field(None, description="What the engine is for.")
    aspiration: Aspiration | None = Field(None, description="How it breathes.")
    cooling: Cooling | None = Field(None, description="What cools it.")
    piston: Piston | None = Field(None, description="How the pistons were made.")
    note: Text | None = Field(None, description="Free words.")
    layout: LayoutTable = Field(description="How the engine is laid out.")
    directions: DirectionsTable = Field(
        default_factory=lambda: DirectionsTable.model_validate({}),
        description="Names of the directions around the crank.",
    )
    facts: dict[str, str] = Field(
        default_factory=dict, description="Free words, shown and never computed with."
    )


class SourceTable(Table):
    """Where limits come from."""

    title: Text = Field(description="Title of the manual, leaflet or rule.")
    kind: Annotated[SourceKind, Field(strict=False)] = Field(description="Who stands behind it.")
    edition: Text | None = Field(None, description="Edition or date.")
    note: Text | None = Field(None, description="Free words.")


class MaterialTable(Table):
    """What a part is made of: how it expands, and how stiff it is where a fit needs that."""

    title: Text = Field(description="Name of the material.")
    expansion: Amount = Field(description="Expansion coefficient.", examples=["11e-6 /K"])
    expansion_uncertainty: Amount | None = Field(
        None, description="Its standard uncertainty; 1e-6 /K where it is not said."
    )
    youngs_modulus: Amount | None = Field(None, description="Modulus of elasticity, for interference fits.")
    poisson_ratio: Annotated[Number, Field(gt=-1.0, lt=0.5)] | None = Field(
        None, description="Poisson's ratio, a plain number, for interference fits."
    )
    source: Text | None = Field(None, description="Where these values come from.")


class PartTable(Table):
    """A position in the engine where one physical part sits."""

    title: Text = Field(description="Name of the part.")
    material: Text = Field(description="Id of its material.")
    one_time_use: bool = Field(default=False, description="Whether it is replaced each time.")
    note: Text | None = Field(None, description="Free words.")


class ConditionTable(Table):
    """What a dimension is valid in."""

    title: Text = Field(description="The condition in words.")
    kind: ConditionKind = Field(description="What sort of condition it is.")
    lubricant: Text | None = Field(None, description="Lubricant of the fasteners where they are tightened.")


class TemperatureCaseTable(Table):
    """A named state of temperature; sizes themselves are always stated at 20 degrees Celsius."""

    title: Text = Field(description="Name of the state.")
    default: Amount = Field(description="Temperature of all parts not named.", examples=["90 degC"])
    standard_uncertainty: Amount | None = Field(
        None, description="Standard uncertainty of each part's temperature; 5 K where it is not said."
    )
    parts: dict[str, Amount] = Field(
        default_factory=dict, description="Part id to temperature; families in braces may be named."
    )
