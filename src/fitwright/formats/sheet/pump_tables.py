"""The tables of the oil circuit's pump stages and relief valves."""

from __future__ import annotations

from typing import Annotated, Final, Literal, TypeAlias, get_args

from pydantic import ConfigDict, Field

from fitwright.formats.sheet.fields import Amount, Coefficient, Count, Ratio, SizeAmount, Table, Text
from fitwright.model.circuit import PumpKind, ReliefPorts, StagePurpose

_Teeth: TypeAlias = Annotated[int, Field(ge=3, le=60)]


class PumpTable(Table):
    """A stage of the oil pump; the kind says what displaces the oil."""

    kind: str = Field(description="What displaces the oil.")
    title: Text = Field(description="Name of the stage.")
    purpose: Annotated[StagePurpose, Field(strict=False)] = Field(
        StagePurpose.PRESSURE,
        description="Whether it feeds the engine or empties the sump of a dry-sump engine.",
    )
    speed_ratio: Ratio = Field(description="Its speed over that of the crank.")
    from_node: Text | None = Field(
        None, alias="from", description="Node that it draws from; none for a scavenge stage."
    )
    to_node: Text | None = Field(
        None, alias="to", description="Node that it delivers to; none for a scavenge stage."
    )
    end_clearance: SizeAmount | None = Field(None, description="Clearance of both side faces together.")
    tip_clearance: SizeAmount | None = Field(
        None, description="Lobe to lobe, teeth to crescent, or gears to body, on one side."
    )
    body_clearance: SizeAmount | None = Field(
        None, description="Outer rotor or ring in the body, on the diameter."
    )
    shaft_clearance: SizeAmount | None = Field(None, description="Its shaft in the bush, on the diameter.")
    release_gauge_pressure: Amount | None = Field(
        None,
        description="Pressure at the inlet, below zero, at which oil gives off its air.",
        examples=["-0.4 bar"],
    )
    filling_area: Amount | None = Field(None, description="Effective area through which chambers fill.")
    without_relief: bool = Field(
        default=False, description="Says that on purpose no relief valve belongs to this stage."
    )
    note: Text | None = Field(None, description="Free words.")


class AnyPumpTable(PumpTable):
    """A stage whose kind is not known: only that is told."""

    model_config = ConfigDict(extra="ignore")

    kind: Annotated[PumpKind, Field(strict=False)] = Field(description="What displaces the oil.")


class InternalRotorTable(PumpTable):
    """An inner rotor in an outer one with one lobe more."""

    kind: Literal["internal rotor"] = Field(description="What displaces the oil.")
    inner_lobes: _Teeth = Field(description="Lobes of the inner rotor.")
    outer_lobes: _Teeth = Field(description="Lobes of the outer rotor.")
    width: SizeAmount = Field(description="Width of the rotors.")
    eccentricity: SizeAmount | None = Field(None, description="Distance of the two axes.")
    generating_radius: SizeAmount | None = Field(
        None, description="Distance of the outer lobes' centres from the outer rotor's axis."
    )
    tooth_radius: SizeAmount | None = Field(None, description="Radius of an outer lobe.")
    inner_tip_diameter: SizeAmount | None = Field(None, description="Inner rotor over its lobes.")
    inner_root_diameter: SizeAmount | None = Field(None, description="Inner rotor at its hollows.")
    outer_rotor_diameter: SizeAmount | None = Field(None, description="Outside of the outer rotor.")
    hub_diameter: SizeAmount | None = Field(
        None, description="Where the inner rotor's side face ends towards its shaft."
    )


class CrescentTable(PumpTable):
    """A gear in a ring gear, with a crescent between them."""

    kind: Literal["crescent"] = Field(description="What displaces the oil.")
    inner_teeth: _Teeth = Field(description="Teeth of the inner gear.")
    outer_teeth: _Teeth = Field(description="Teeth of the ring.")
    module: SizeAmount = Field(description="Module; an inch over the diametral pitch.")
    width: SizeAmount = Field(description="Width of the gears.")
    pressure_angle: Amount | None = Field(None, description="Pressure angle of the teeth.")
    centre_distance: SizeAmount | None = Field(None, description="Distance of the two axes.")
    inner_tip_diameter: SizeAmount | None = Field(None, description="Inner gear over its teeth.")
    outer_tip_diameter: SizeAmount | None = Field(None, description="Ring inside its teeth.")
    ring_diameter: SizeAmount | None = Field(None, description="Outside of the ring.")
    hub_diameter: SizeAmount | None = Field(
        None, description="Where the inner gear's side face ends towards its shaft."
    )


class SpurTable(PumpTable):
    """Two equal gears side by side."""

    kind: Literal["external spur"] = Field(description="What displaces the oil.")
    teeth: _Teeth = Field(description="Teeth of each gear.")
    module: SizeAmount = Field(description="Module; an inch over the diametral pitch.")
    width: SizeAmount = Field(description="Width of the gears.")
    pressure_angle: Amount | None = Field(None, description="Pressure angle of the teeth.")
    outside_diameter: SizeAmount | None = Field(None, description="Gears over their teeth.")
    centre_distance: SizeAmount | None = Field(None, description="Distance of the two axes.")
    shaft_diameter: SizeAmount | None = Field(None, description="Shaft at the side faces.")


class StatedDisplacementTable(PumpTable):
    """A pump of which only the displacement is known."""

    kind: Literal["stated displacement"] = Field(description="What displaces the oil.")
    displacement: SizeAmount = Field(
        description="Displacement of one turn of the pump.", examples=["12.4 cc/rev"]
    )


class ReliefTable(Table):
    """A relief valve."""

    title: Text = Field(description="Name of the valve.")
    from_node: Text = Field(alias="from", description="Node that it relieves.")
    to_node: Text = Field(alias="to", description="Node that it leads to: sump, or the pump's inlet.")
    spring_rate: SizeAmount = Field(description="Rate of its spring.", examples=["8.0 N/mm"])
    preload_length: SizeAmount = Field(
        description="How far the closed valve shortens its spring, without the shims."
    )
    shims: list[SizeAmount] = Field(default_factory=list, description="Thicknesses of the shims behind it.")
    seat_diameter: SizeAmount = Field(
        description="Diameter on which the pressure acts; the plunger's where it has no seat of its own."
    )
    full_lift: SizeAmount = Field(description="Lift at which the plunger stops.")
    ports: Annotated[ReliefPorts, Field(strict=False)] = Field(
        ReliefPorts.SEAT, description="Where oil leaves the open valve."
    )
    port_count: Count = Field(1, description="Round ports.")
    port_diameter: SizeAmount | None = Field(None, description="Bore of a round port.")
    port_lead: SizeAmount | None = Field(None, description="Lift before the ports begin to open.")
    plunger_diameter: SizeAmount | None = Field(None, description="Diameter of the plunger in its bore.")
    plunger_clearance: SizeAmount | None = Field(
        None, description="Clearance of the plunger, on the diameter."
    )
    land_length: SizeAmount | None = Field(None, description="Length along which oil creeps past it.")
    seat_leak_lift: SizeAmount | None = Field(
        None, description="How far the closed seat stands open; a tight one without it."
    )
    discharge_coefficient: Coefficient | None = Field(None, description="Discharge coefficient of the ports.")
    note: Text | None = Field(None, description="Free words.")


EachPump: TypeAlias = Annotated[
    InternalRotorTable | CrescentTable | SpurTable | StatedDisplacementTable, Field(discriminator="kind")
]
"""The table of any kind, told by its kind."""

PUMP_TABLES: Final[tuple[type[PumpTable], ...]] = get_args(get_args(EachPump)[0])
"""The tables of all kinds of pump."""
