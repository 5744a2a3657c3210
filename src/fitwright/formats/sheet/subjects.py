"""The tables of an engine sheet that are measured and judged: dimensions, fits, stations."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from fitwright.formats.sheet.fields import MOST_LIMITS, Amount, Number, RatioAmount, Table, Text, Texts
from fitwright.model.dimension import Judged, Sense
from fitwright.model.fit import FitKind, RouteName
from fitwright.model.limit import AppliesTo, LimitClass


class LimitTable(Table):
    """A limit: at least one bound, and who says so."""

    source: Text = Field(description="Id of the source.")
    at: Text | None = Field(None, description="Place in the source.", examples=["p. A-31"])
    lower: RatioAmount | None = Field(None, description="Lower bound.")
    upper: RatioAmount | None = Field(None, description="Upper bound.")
    governs: bool = Field(default=False, description="Whether verdicts rest on it.")
    applies_to: Annotated[AppliesTo, Field(strict=False)] = Field(
        AppliesTo.NEW, description="new parts, or used ones (the wear limit, for parts declared used)."
    )
    temperature_case: Text | None = Field(
        None, description="Id of the temperature case, where the source gives the limit hot."
    )
    depends_on: Text | None = Field(
        None, description="What a rule of thumb was derived from.", examples=["bore, boosted"]
    )
    note: Text | None = Field(None, description="Free words.")


class DimensionTable(Table):
    """A measurable size, on one part or taken through several."""

    title: Text = Field(description="Name of the dimension.")
    sense: Annotated[Sense, Field(strict=False)] = Field(
        description="How it is stated; diametral or radial is always said."
    )
    part: Text | None = Field(None, description="Id of the part that it lies on.")
    through: Texts = Field(
        default_factory=list,
        description="Instead of part: the parts it is taken through (the whole part counts), or dimensions "
        "(only that feature of their part counts).",
    )
    feature: Text | None = Field(
        None, description="Name by which the part carries it; by default the id without the part's own id."
    )
    nominal: RatioAmount | None = Field(None, description="Nominal size.")
    plausible: Annotated[list[RatioAmount], Field(min_length=2, max_length=2)] | None = Field(
        None, description="Smallest and largest reading that needs no question."
    )
    planes: list[Text] = Field(
        default_factory=list,
        description="Planes along the part where it is taken.",
        examples=[["front", "rear"]],
    )
    angles: list[Text] = Field(
        default_factory=list, description="Angles around the part where it is taken.", examples=[["0", "90"]]
    )
    places: list[Text] = Field(
        default_factory=list, description="Instead of planes and angles: names of the places."
    )
    condition: Text | None = Field(None, description="Id of the condition that it is valid in.")
    instrument: Texts = Field(default_factory=list, description="Kind of instrument, or a list of kinds.")
    station: Text | None = Field(None, description="Id of the station where it is taken.")
    limit_class: Annotated[LimitClass, Field(strict=False)] = Field(
        LimitClass.NORMAL, alias="class", description="How much hangs on it."
    )
    judged: Annotated[Judged, Field(strict=False)] = Field(
        Judged.WORST, description="Whether limits are held against the worst places or the mean."
    )
    limits: list[LimitTable] = Field(default_factory=list, max_length=MOST_LIMITS, description="Its limits.")
    note: Text | None = Field(None, description="Free words.")


class CompressionTable(Table):
    """Dimension ids of a compression ratio; a dish counts positive, a dome negative."""

    bore: Text = Field(description="Cylinder bore.")
    stroke: Text = Field(description="Stroke.")
    chamber_volume: Text = Field(description="Volume of the chamber in the head.")
    gasket_bore: Text = Field(description="Bore of the head gasket.")
    gasket_thickness: Text = Field(description="Thickness of the head gasket as crushed.")
    deck: Text = Field(description="Piston crown below the deck at the top of the stroke.")
    dish_volume: Text | None = Field(None, description="Volume of the dish in the crown.")
    crevice_volume: Text | None = Field(None, description="Volume above the top ring and in plugs.")


class PressTable(Table):
    """What an interference fit needs for its pressure and stress."""

    hub: Text = Field(description="Id of the outer part.")
    shaft: Text = Field(description="Id of the inner part.")
    hub_outer_diameter: Amount = Field(description="Outer diameter of the hub.")
    shaft_inner_diameter: Amount | None = Field(None, description="Bore of the shaft; none for a solid one.")
    length: Amount | None = Field(None, description="Length of the joint.")
    friction: Annotated[Number, Field(gt=0.0, le=2.0)] | None = Field(
        None, description="Friction coefficient of the joint, a plain number."
    )
    hub_yield: Amount | None = Field(None, description="Yield strength of the hub.")
    shaft_yield: Amount | None = Field(None, description="Yield strength of the shaft.")


class CentringTable(Table):
    """Gaps around a shaft that say how far it is off centre."""

    gaps: Text = Field(
        description="Id of the dimension whose places read gap@crank: top, right, bottom, left or degrees, "
        "then the crank angle in degrees, as top@0."
    )
    clearance: Text | None = Field(None, description="Id of the bearing fit in which the crank rests low.")
    face_heights: Text | None = Field(
        None, description="Id of the dimension with the heights of a joint face above its neighbour."
    )
    face_positions: dict[Text, Amount] = Field(
        default_factory=dict,
        description="How far to the right of the shaft each place of the heights lies.",
        examples=[{"left": "-60 mm", "right": "60 mm"}],
    )
    face_step: Amount | None = Field(
        None, description="How far the joint face may stand above or below its neighbour after the move."
    )


class FitTable(Table):
    """A clearance, interference, gap, height or ratio."""

    title: Text = Field(description="Name of the fit.")
    kind: Annotated[FitKind, Field(strict=False)] = Field(description="What kind of fit it is.")
    sense: Annotated[Sense, Field(strict=False)] = Field(
        description="How it is stated; diametral or radial is always said."
    )
    station: Text | None = Field(None, description="Id of the station where it is settled.")
    by_parts: Text | None = Field(
        None, description="Signed chain of dimension ids.", examples=["main.{}.bore - 2 * main.{}.wall"]
    )
    fitted: Text | None = Field(None, description="Signed chain of what is read on the assembled parts.")
    governing_route: Annotated[RouteName, Field(strict=False)] | None = Field(
        None, description="Which of two routes the verdict rests on."
    )
    limit_class: Annotated[LimitClass, Field(strict=False)] = Field(
        LimitClass.NORMAL, alias="class", description="How much hangs on it."
    )
    judged: Annotated[Judged, Field(strict=False)] = Field(
        Judged.WORST, description="Whether limits are held against the worst places or the mean."
    )
    limits: list[LimitTable] = Field(default_factory=list, max_length=MOST_LIMITS, description="Its limits.")
    growth: list[Text] = Field(
        default_factory=list,
        description="Lengths that grow into (+) or out of (-) the fit when hot, where its chain lacks them.",
        examples=[["+ 84 mm pump.body", "- 84 mm pump.outer_rotor"]],
    )
    compression: CompressionTable | None = Field(None, description="Members of a compression ratio.")
    press: PressTable | None = Field(None, description="Members of an interference fit.")
    centring: CentringTable | None = Field(None, description="Members of a centring.")
    form_of: Text | None = Field(None, description="Id of the dimension whose taper or out-of-round this is.")
    removes_metal: bool = Field(default=False, description="Whether its cure removes metal.")
    note: Text | None = Field(None, description="Free words.")


class EyeCheckTable(Table):
    """A yes / no question answered by looking or feeling."""

    id: Text = Field(description="Id of the check.")
    question: Text = Field(description="The question.")
    wanted: bool = Field(default=True, description="The answer that is wanted.")


class StationTable(Table):
    """A place of work: the readings taken there in one go."""

    title: Text = Field(description="Name of the station.")
    order: list[Text] = Field(
        default_factory=list,
        description="Dimension ids in measuring order; by default those that name this station.",
    )
    caution: Text | None = Field(None, description="Shown where the work can hurt someone.")
    eye_checks: list[EyeCheckTable] = Field(
        default_factory=list, description="Questions answered by looking or feeling."
    )
