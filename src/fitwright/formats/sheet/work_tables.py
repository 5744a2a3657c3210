"""The tables of an engine sheet for its assembly: consumables, tightening groups, the order of work."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from fitwright.formats.sheet.fields import Amount, Amounts, Count, Table, Text, Texts
from fitwright.model.fastener import NOT_STATED, Locking, TighteningMethod
from fitwright.model.step import ConsumableKind, PointKind

Filled: TypeAlias = Literal["column by column", "row by row"]


class ConsumableTable(Table):
    """Something that is used up in assembly: sealant, threadlocker, lubricant."""

    title: Text = Field(description="Name of the product, or what it is.")
    kind: Annotated[ConsumableKind, Field(strict=False)] = Field(description="What it is for.")
    pot_life: Amount | None = Field(
        None, description="How long it can be worked once it is out.", examples=["10 min"]
    )
    cure_time: Amount | None = Field(None, description="How long it takes to cure.", examples=["24 h"])
    friction: Text | None = Field(
        None,
        description="The lubricant that it is on a thread, by its usual name, for sums of preload.",
        examples=["engine oil"],
    )
    batch_wanted: bool = Field(default=True, description="Whether its batch and its expiry are recorded.")
    not_on: Text | None = Field(
        None, description="Where it must not go.", examples=["joints that are tightened again"]
    )
    source: Text | None = Field(None, description="Id of the source of these values.")
    at: Text | None = Field(None, description="Place in the source.")
    note: Text | None = Field(None, description="Free words.")


class PatternTable(Table):
    """Where the fasteners sit, seen at the heads: on a circle, in rows, or each by itself."""

    circle: Amount | None = Field(
        None, description="Diameter of the circle on which they sit evenly, clockwise.", examples=["72 mm"]
    )
    first_at: Amount | None = Field(
        None,
        description="On a circle: the first one, clockwise from the top.",
        examples=["30 deg"],
    )
    columns: Count | None = Field(None, description="In rows: how many columns, from the left.")
    column_spacing: Amounts | None = Field(
        None, description="From each column to the next: one distance, or a list of all."
    )
    rows: Count | None = Field(None, description="In rows: how many rows, from the top.")
    row_spacing: Amounts | None = Field(
        None, description="From each row to the next: one distance, or a list of all."
    )
    filled: Filled = Field(
        "column by column", description="Which way the fasteners run through rows and columns, as listed."
    )
    x: Amounts | None = Field(None, description="Each by itself: how far to the right each one sits.")
    y: Amounts | None = Field(None, description="Each by itself: how far up each one sits.")


class PassTable(Table):
    """One round over all fasteners: to a torque, by a further angle, or to a stretch."""

    torque: Amount | None = Field(
        None, description="Torque; beside a stretch the lower end of its cross-check.", examples=["45 N m"]
    )
    upto: Amount | None = Field(
        None, description="Upper end, where the torque is a window.", examples=["50 N m"]
    )
    angle: Amount | None = Field(None, description="Further turn, without let-up.", examples=["90 deg"])
    stretch_low: Amount | None = Field(None, description="Least stretch.", examples=["0.140 mm"])
    stretch_high: Amount | None = Field(None, description="Most stretch.", examples=["0.160 mm"])
    after_heat: bool = Field(default=False, description="Whether it is done only after a heat cycle.")


class GripTable(Table):
    """A length of the grip: a shank of one diameter, or thread."""

    length: Amount = Field(description="Length of this piece.", examples=["26 mm"])
    diameter: Amount | None = Field(None, description="Its diameter; thread without it.", examples=["7.8 mm"])


class TighteningGroupTable(Table):
    """Fasteners that are tightened together."""

    title: Text = Field(description="Name of the joint.")
    thread: Text = Field(
        NOT_STATED,
        description="Thread as it is designated; a left-hand one ends in LH.",
        examples=["M10x1.25", "3/8 BSF"],
    )
    property_class: Text | None = Field(
        None, description="Property class or grade, as it is designated.", examples=["10.9"]
    )
    fasteners: Texts = Field(
        min_length=1,
        description="Ids of the fasteners; braces stand for families.",
        examples=[["main_cap.{1..6}.bolt.{a,b}"]],
    )
    pattern: PatternTable | None = Field(None, description="Where they sit.")
    order: Texts = Field(
        default_factory=list,
        description="Order of tightening: the fasteners by id, or `from the centre outwards` or `crosswise`, "
        "which come from the pattern; as listed without it.",
    )
    method: Annotated[TighteningMethod, Field(strict=False)] = Field(
        TighteningMethod.TORQUE, description="What says that one is tight."
    )
    passes: list[PassTable] = Field(
        default_factory=list, description="The rounds, in turn; without any, no value is stated yet."
    )
    lubricant: Text | None = Field(
        None, description="What the values are for: id of a consumable, or a usual name such as `engine oil`."
    )
    locking: Annotated[Locking, Field(strict=False)] | None = Field(
        None, description="What keeps it from turning back."
    )
    bearing_diameter_outer: Amount | None = Field(None, description="Outer diameter under the turned face.")
    bearing_diameter_hole: Amount | None = Field(None, description="Hole under the turned face.")
    grip: list[GripTable] = Field(default_factory=list, description="Pieces of the grip length.")
    clamped: Text | None = Field(None, description="Id of the material that is held together.")
    tapped_in: Text | None = Field(None, description="Id of the material that holds the thread.")
    engagement: Amount | None = Field(None, description="Length of thread in it.")
    thread_insert: bool = Field(default=False, description="Whether a thread insert is in.")
    blind: bool = Field(default=False, description="Whether holes are blind: first seen dry to the bottom.")
    permanent_set: Amount | None = Field(
        None, description="The most that one may stay longer once loosened.", examples=["0.010 mm"]
    )
    most_tightenings: Count | None = Field(None, description="How often one may be tightened.")
    one_time_use: bool = Field(default=False, description="Whether they are new each time.")
    critical: bool = Field(default=False, description="Whether each one is recorded by itself.")
    source: Text | None = Field(None, description="Id of the source of these values.")
    at: Text | None = Field(None, description="Place in the source.")
    caution: Text | None = Field(None, description="Shown where they are tightened or loosened.")
    note: Text | None = Field(None, description="Free words.")


class PhotoTable(Table):
    """A photo to be taken in a step."""

    id: Text = Field(description="Id of the photo within its step.")
    words: Text = Field(description="What is to be seen on it.")


class StepTable(Table):
    """One piece of work: what it waits for, what it leaves behind, what it hides."""

    title: Text = Field(description="What is done.")
    stage: Text = Field(description="The stage of the job that it belongs to.", examples=["bottom end"])
    after: Texts = Field(
        default_factory=list,
        description="Steps that are done first; hold points are released.",
    )
    fits: Texts = Field(
        default_factory=list, description="Fits and dimensions that are within, or under concession, first."
    )
    tightened: Texts = Field(default_factory=list, description="Tightening groups that are complete first.")
    cured: Texts = Field(default_factory=list, description="Consumables that must have cured before.")
    tightens: Texts = Field(default_factory=list, description="Tightening groups that it completes.")
    eye_checks: Texts = Field(
        default_factory=list,
        description="Eye checks that it answers, by id.",
        examples=[["mains.oil_holes"]],
    )
    replaces: Texts = Field(
        default_factory=list, description="One-time-use parts (or fasteners) that are new in it."
    )
    photos: list[PhotoTable] = Field(default_factory=list, description="Photos that are taken in it.")
    uses: Texts = Field(default_factory=list, description="Consumables that it uses.")
    hides: Texts = Field(
        default_factory=list,
        description="Fits, dimensions, parts and tightening groups that nobody sees again after it.",
    )
    point: Annotated[PointKind, Field(strict=False)] | None = Field(
        None, description="Whether somebody else looks; work must not go past a hold point."
    )
    invited: Text | None = Field(None, description="Who is called to a witness or hold point.")
    cautions: Texts = Field(
        default_factory=list, description="Keys of cautions of the trade.", examples=[["springs"]]
    )
    note: Text | None = Field(None, description="Free words.")
