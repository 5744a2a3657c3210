"""The tables of the oil circuit's paths, one for each law of flow."""

from __future__ import annotations

from typing import Annotated, Final, Literal, TypeAlias, get_args

from pydantic import ConfigDict, Field

from fitwright.formats.sheet.fields import (
    Amount,
    Coefficient,
    Count,
    Number,
    Ratio,
    SizeAmount,
    Table,
    Text,
)
from fitwright.model.circuit import BearingFeed, PathKind


class PathTable(Table):
    """A way of the oil from one node to another; the kind says what lies in it."""

    kind: str = Field(description="What lies in the path.")
    title: Text = Field(description="Name of the path.")
    from_node: Text = Field(alias="from", description="Node where oil enters.", examples=["gallery"])
    to_node: Text = Field(alias="to", description="Node where it leaves; sump is at no pressure.")
    count: Count = Field(1, description="How many equal ones lie side by side.")
    group: Text | None = Field(
        None,
        description="Under what its flow is counted, as mains or jets; by default one that fits the kind.",
    )
    note: Text | None = Field(None, description="Free words.")


class AnyPathTable(PathTable):
    """A path whose kind is not known: only that is told."""

    model_config = ConfigDict(extra="ignore")

    kind: Annotated[PathKind, Field(strict=False)] = Field(description="What lies in the path.")


class PassageTable(PathTable):
    """A pipe or a drilling."""

    kind: Literal["pipe", "drilling"] = Field(description="What lies in the path.")
    diameter: SizeAmount = Field(description="Bore.")
    length: SizeAmount = Field(description="Length along the flow.")
    edge_radius: SizeAmount | None = Field(
        None, description="Radius of the edge where oil enters; without it the edge is sharp."
    )
    roughness: Amount | None = Field(None, description="Height of roughness of the wall.")
    loss_coefficient: Coefficient | None = Field(
        None, description="Loss of bends and fittings together, in velocity heads."
    )


class IntersectionTable(PathTable):
    """Where one drilling opens into another."""

    kind: Literal["drilled intersection"] = Field(description="What lies in the path.")
    diameter: SizeAmount = Field(description="Bore of the smaller drilling.")
    crossing_diameter: SizeAmount | None = Field(None, description="Bore of the drilling that it meets.")
    angle: Amount | None = Field(None, description="Angle by which the flow turns; a right angle without it.")
    edge_radius: SizeAmount | None = Field(
        None, description="Radius of the edge between them; without it the edge is sharp."
    )


class RestrictorTable(PathTable):
    """A metering hole."""

    kind: Literal["restrictor"] = Field(description="What lies in the path.")
    diameter: SizeAmount = Field(description="Bore.")
    length: SizeAmount | None = Field(None, description="Length of the hole; without it a thin plate.")
    edge_radius: SizeAmount | None = Field(None, description="Radius of the edge where oil enters.")
    discharge_coefficient: Coefficient | None = Field(None, description="Discharge coefficient, if known.")


class StrainerTable(PathTable):
    """A mesh before the pump."""

    kind: Literal["strainer"] = Field(description="What lies in the path.")
    open_area: SizeAmount = Field(description="Area that is open in the mesh.", examples=["1600 mm2"])
    discharge_coefficient: Coefficient | None = Field(None, description="Discharge coefficient, if known.")


class FilterTable(PathTable):
    """A filter with its bypass."""

    kind: Literal["filter"] = Field(description="What lies in the path.")
    rated_flow: Amount = Field(description="Flow for which its pressure drop is stated.")
    rated_pressure_drop: Amount = Field(description="Pressure drop at that flow.")
    rated_viscosity: Amount = Field(description="Kinematic viscosity of the oil at that flow.")
    bypass_opening_pressure: SizeAmount | None = Field(
        None, description="Pressure drop at which the bypass begins to open; none without it."
    )
    bypass_full_pressure: SizeAmount | None = Field(
        None, description="Pressure drop at which it is fully open."
    )
    bypass_diameter: SizeAmount | None = Field(None, description="Bore of the open bypass.")


class CoolerTable(PathTable):
    """A cooler behind a thermostat; one without a thermostat is a pipe."""

    kind: Literal["cooler"] = Field(description="What lies in the path.")
    tube_diameter: SizeAmount = Field(description="Bore of one tube of the core.")
    tube_length: SizeAmount = Field(description="Length of one tube.")
    tube_count: Count = Field(1, description="Tubes side by side.")
    loss_coefficient: Coefficient | None = Field(
        None, description="Loss of headers and hoses in one tube, in velocity heads."
    )
    bypass_diameter: SizeAmount = Field(description="Bore of the bypass while the thermostat is shut.")
    opening_temperature: Amount = Field(description="Temperature at which the thermostat begins to open.")
    full_temperature: Amount = Field(description="Temperature at which it is fully open.")


class JetTable(PathTable):
    """A spray jet, such as one under a piston."""

    kind: Literal["jet"] = Field(description="What lies in the path.")
    diameter: SizeAmount = Field(description="Bore of the nozzle.")
    length: SizeAmount | None = Field(None, description="Length of the nozzle.")
    opening_pressure: SizeAmount | None = Field(
        None, description="Pressure at which its valve begins to open; always open without it."
    )
    full_pressure: SizeAmount | None = Field(None, description="Pressure at which it is fully open.")
    discharge_coefficient: Coefficient | None = Field(None, description="Discharge coefficient, if known.")
    target_flow: Amount | None = Field(None, description="Flow that it should give.")
    target_pressure: Amount | None = Field(None, description="Pressure at which it should give that flow.")


class BearingTable(PathTable):
    """A plain bearing that runs in its own oil; its load is stated or left out."""

    kind: Literal["bearing", "cam bearing"] = Field(description="What lies in the path.")
    diametral_clearance: SizeAmount = Field(description="Running clearance, on the diameter.")
    journal_diameter: SizeAmount = Field(description="Diameter of the journal.")
    length: SizeAmount = Field(description="Length of the bearing.")
    feed: Annotated[BearingFeed, Field(strict=False)] = Field(
        BearingFeed.HOLE, description="How oil reaches the film."
    )
    groove_width: SizeAmount | None = Field(None, description="Width of the groove, along the shaft.")
    groove_arc: Amount | None = Field(None, description="Part of a turn over which a partial groove runs.")
    hole_diameter: SizeAmount | None = Field(None, description="Bore of the feed hole at the film.")
    feed_angle: Amount | None = Field(
        None,
        description="Where the middle of the feed lies: from the side opposite the load, positive in the "
        "direction of rotation.",
    )
    speed_ratio: Ratio | None = Field(
        None, description="Speed of its shaft over that of the crank; 1, for a cam bearing 0.5, without it."
    )
    load: Amount | None = Field(None, description="Load at every speed.", examples=["2200 N"])
    inertia_load: Amount | None = Field(
        None, description="Load besides, which grows with the square of the speed."
    )
    inertia_load_speed: Amount | None = Field(None, description="Speed of the crank for which it is stated.")
    surface_roughness: Amount | None = Field(
        None, description="Combined Rq of both surfaces, where it is not that of the circuit."
    )


class BigEndFeedTable(PathTable):
    """The drilling in the crank from a main to a pin, where spin changes the pressure."""

    kind: Literal["big-end feed"] = Field(description="What lies in the path.")
    diameter: SizeAmount = Field(description="Bore.")
    length: SizeAmount = Field(description="Length along the flow.")
    inlet_radius: SizeAmount = Field(description="Distance from the crank's axis where oil enters.")
    outlet_radius: SizeAmount = Field(description="Distance from the crank's axis where it leaves.")
    innermost_radius: SizeAmount | None = Field(
        None,
        description="Least distance from the axis on its way (0 mm through the axis); by default where it "
        "enters.",
    )
    edge_radius: SizeAmount | None = Field(
        None, description="Radius of the edge where oil enters; without it the edge is sharp."
    )
    roughness: Amount | None = Field(None, description="Height of roughness of the wall.")
    loss_coefficient: Coefficient | None = Field(
        None, description="Loss of its corners and its end together, in velocity heads."
    )
    feed_arc: Amount | None = Field(
        None, description="Part of a turn over which the main's groove feeds it; the whole turn without it."
    )


class AnnularLeakTable(PathTable):
    """Oil that escapes along a round part in its bore: a follower, a plunger."""

    kind: Literal["follower", "annular leak"] = Field(description="What lies in the path.")
    diametral_clearance: SizeAmount = Field(description="Clearance, on the diameter.")
    diameter: SizeAmount = Field(description="Diameter of the part.")
    length: SizeAmount = Field(description="Length of the land on one side of the feed.")
    lands: Annotated[int, Field(ge=1, le=2)] = Field(2, description="Sides to which oil escapes.")
    feed_diameter: SizeAmount | None = Field(None, description="Bore of the feed hole before it.")
    eccentricity_ratio: Annotated[Number, Field(ge=0.0, le=1.0)] | None = Field(
        None, description="0 where the part lies in the middle of its bore, 1 against its wall."
    )


class SlotTable(PathTable):
    """A flat gap that leaks."""

    kind: Literal["slot"] = Field(description="What lies in the path.")
    clearance: SizeAmount = Field(description="Distance of its walls.")
    width: SizeAmount = Field(description="Width across the flow.")
    length: SizeAmount = Field(description="Length along the flow.")


class TensionerTable(PathTable):
    """A chain tensioner pressed by oil."""

    kind: Literal["tensioner"] = Field(description="What lies in the path.")
    diametral_clearance: SizeAmount = Field(description="Clearance of its plunger, on the diameter.")
    diameter: SizeAmount = Field(description="Diameter of the plunger.")
    length: SizeAmount = Field(description="Length of the plunger in its bore.")
    bleed_diameter: SizeAmount | None = Field(None, description="Bore of its bleed hole or chain jet.")


class TurbochargerTable(PathTable):
    """The feed of a turbocharger: line, restrictor, and the lands of its bushes."""

    kind: Literal["turbocharger feed"] = Field(description="What lies in the path.")
    restrictor_diameter: SizeAmount = Field(description="Bore of the restrictor.")
    line_diameter: SizeAmount = Field(description="Bore of the line.")
    line_length: SizeAmount = Field(description="Length of the line.")
    bush_diameter: SizeAmount | None = Field(None, description="Diameter of the floating bushes.")
    bush_clearance: SizeAmount | None = Field(None, description="Their clearance, on the diameter.")
    bush_length: SizeAmount | None = Field(None, description="Length of one land.")
    bush_count: Count | None = Field(None, description="Lands side by side.")


EachPath: TypeAlias = Annotated[
    PassageTable
    | IntersectionTable
    | RestrictorTable
    | StrainerTable
    | FilterTable
    | CoolerTable
    | JetTable
    | BearingTable
    | BigEndFeedTable
    | AnnularLeakTable
    | SlotTable
    | TensionerTable
    | TurbochargerTable,
    Field(discriminator="kind"),
]
"""The table of any kind, told by its kind."""

PATH_TABLES: Final[tuple[type[PathTable], ...]] = get_args(get_args(EachPath)[0])
"""The tables of all kinds of path."""
