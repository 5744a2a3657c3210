"""The tables of an engine sheet for what loads mains and big ends over the cycle."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import Field

from fitwright.formats.sheet.fields import Amount, Amounts, RatioAmount, SizeAmount, Table, Text, Texts

_Exponent: TypeAlias = Annotated[float, Field(gt=1.0, lt=1.67, allow_inf_nan=False)]


class GasPressureTable(Table):
    """Pressure in a cylinder at one speed: stated, not modelled; all pressures absolute."""

    speed: Amount = Field(description="Speed of the crank that it is stated for.", examples=["6000 rpm"])
    peak_pressure: Amount = Field(description="Highest pressure of the cycle.", examples=["85 bar"])
    peak_angle: Amount = Field(
        description="Crank angle after the firing top at which it is reached.", examples=["14 deg"]
    )
    intake_pressure: Amount | None = Field(
        None, description="Pressure while the cylinder fills; that of the air without it."
    )
    exhaust_pressure: Amount | None = Field(
        None, description="Pressure while it empties; a little above that of the air without it."
    )


class CrankTrainTable(Table):
    """What loads mains and big ends over the cycle: slider-crank, masses, gas pressure as stated."""

    mains: Texts = Field(
        description="Paths through the main bearings from the nose, by id.", examples=["main.{1..5}.bearing"]
    )
    big_ends: Texts = Field(
        description="Paths through the big ends, by cylinder.", examples=["pin.{1..4}.bearing"]
    )
    reciprocating_mass: SizeAmount = Field(
        description="Piston, rings, pin, clips and small end of one cylinder.", examples=["640 g"]
    )
    rotating_mass: SizeAmount = Field(
        description="Big end of one rod as weighed, with cap, bolts and shells.", examples=["430 g"]
    )
    compression_ratio: RatioAmount = Field(
        description="Compression ratio: a plain number, or the id of the fit that it is measured as."
    )
    gas_pressures: list[GasPressureTable] = Field(
        min_length=1,
        description="Pressure in a cylinder at one speed or several; interpolated between them.",
    )
    bore: SizeAmount | None = Field(None, description="Bore of the cylinders; that of the layout without it.")
    stroke: SizeAmount | None = Field(
        None, description="Stroke, twice the crank radius; that of the layout without it."
    )
    rod_length: SizeAmount | None = Field(
        None, description="Rod, centre to centre; that of the layout without it."
    )
    pin_offset: Amount | None = Field(
        None,
        description="Offset of the piston pin from the crank's axis, positive towards the side that the "
        "throw turns to from the top.",
    )
    counterweight_share: Annotated[float, Field(ge=0.0, le=2.0, allow_inf_nan=False)] = Field(
        0.0, description="Share of the rotating mass that counterweights balance besides pins and webs."
    )
    firing_angles: Amounts = Field(
        default_factory=list,
        description="Crank angles at which the cylinders fire, by cylinder; even, in the firing order of the "
        "layout, without them.",
    )
    compression_exponent: _Exponent | None = Field(
        None, description="Polytropic exponent of compression; 1.32 without it."
    )
    expansion_exponent: _Exponent | None = Field(
        None, description="Polytropic exponent of expansion; 1.27 without it."
    )
    note: Text | None = Field(None, description="Free words.")
