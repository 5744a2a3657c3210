"""The tables of an engine sheet for oils and for the oil circuit as a whole."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from fitwright.formats.sheet.crank_tables import CrankTrainTable
from fitwright.formats.sheet.fields import Amount, Amounts, Table, Text
from fitwright.model.circuit import StopAction


class OilTable(Table):
    """An oil: by its data sheet, by its grade alone, or by one viscosity that was measured."""

    title: Text = Field(description="Name of the oil.")
    planned: bool = Field(
        default=False, description="Whether the engine is planned for it; one oil alone is the planned one."
    )
    kinematic_viscosity_40: Amount | None = Field(
        None, description="Kinematic viscosity at 40 degrees Celsius.", examples=["105 mm2/s"]
    )
    kinematic_viscosity_100: Amount | None = Field(
        None, description="Kinematic viscosity at 100 degrees Celsius.", examples=["11.4 mm2/s"]
    )
    high_shear_viscosity_150: Amount | None = Field(
        None, description="High-shear viscosity at 150 degrees Celsius.", examples=["3.7 mPa s"]
    )
    density_15: Amount | None = Field(
        None, description="Density at 15 degrees Celsius.", examples=["860 kg/m3"]
    )
    pressure_viscosity_coefficient: Amount | None = Field(
        None, description="Pressure coefficient of the viscosity.", examples=["18 /GPa"]
    )
    grade: Text | None = Field(
        None,
        description="SAE J300 grade, where there is no data sheet; values are then in the middle of its "
        "range.",
        examples=["10W-40"],
    )
    measured_viscosity: Amount | None = Field(
        None, description="One kinematic viscosity that was measured, where there is neither."
    )
    measured_at: Amount | None = Field(None, description="Temperature at which it was measured.")
    source: Text | None = Field(None, description="Where these values come from.")
    note: Text | None = Field(None, description="Free words.")


class OperatingPointTable(Table):
    """A speed and a temperature of the oil for which the circuit is looked at."""

    title: Text = Field(description="Name of the state.")
    speed: Amount = Field(description="Speed of the crank.", examples=["900 rpm"])
    oil_temperature: Amount = Field(description="Temperature of the oil in the gallery.")


class StopTable(Table):
    """A value at which one stops the engine or looks into it: only with who says so."""

    action: Annotated[StopAction, Field(strict=False)] = Field(
        StopAction.STOP, description="What one does below it."
    )
    lowest_pressure: Amount | None = Field(
        None, description="Lowest pressure at the gauge, at a speed and a temperature."
    )
    speed: Amount | None = Field(None, description="Speed of the crank for it.")
    oil_temperature: Amount | None = Field(None, description="Temperature of the oil for it.")
    first_pressure_within: Amount | None = Field(
        None, description="Instead: time within which the gauge first lifts.", examples=["12 s"]
    )
    source: Text | None = Field(
        None, description="Id of the source; it must be the engine's or a part's maker."
    )
    at: Text | None = Field(None, description="Place in the source.")
    person: Text | None = Field(None, description="Instead of a source: who answers for it, by name or role.")
    note: Text | None = Field(None, description="Free words.")


class CircuitTable(Table):
    """The oil circuit: where the gauge reads, and the states in which the engine is looked at."""

    gauge: Text = Field(description="Node where the gauge reads.")
    idle_speed: Amount = Field(description="Speed of the crank at idle.", examples=["900 rpm"])
    top_speed: Amount = Field(description="Highest speed of the crank.", examples=["8000 rpm"])
    oil_temperatures: Amounts = Field(description="Temperature of hot oil in the gallery, or a list of them.")
    fill: Amount | None = Field(None, description="How much oil is filled in.", examples=["5.6 L"])
    surface_roughness: Amount | None = Field(
        None, description="Combined Rq of journal and bearing, for bearings that give none of their own."
    )
    crank_train: CrankTrainTable | None = Field(
        None, description="What loads mains and big ends over the cycle; only stated loads without it."
    )
    operating_points: list[OperatingPointTable] = Field(
        default_factory=list, description="States that are looked at."
    )
    stops: list[StopTable] = Field(default_factory=list, description="Values at which one stops.")
    assumed: Text | None = Field(
        None, description="What in the circuit is assumed and has yet to be replaced; shown with each result."
    )
    note: Text | None = Field(None, description="Free words.")
