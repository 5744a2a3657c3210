"""Readings, and what people decide about them."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

from pydantic import BaseModel, ConfigDict, Field

from fitwright.records.fields import Blades, Code, Temperature, Uncertainty, Words
from fitwright.records.kinds.body import Body, Typed

Origin = Literal["bench", "paper", "told", "file"]


class Sitting(Body):
    """One person measuring: who, with what, at what temperature; readings inherit it."""

    kind: ClassVar[str] = "sitting"
    code: Code
    measured_by: Code
    typed_by: Code | None = None
    temperature: Temperature = 293.15
    temperature_uncertainty: Uncertainty = 0.5
    part_gauge_difference_uncertainty: Uncertainty = 0.2
    part_temperatures: dict[str, Temperature] = Field(default_factory=dict)
    instruments: dict[str, Code] = Field(default_factory=dict)
    settings: dict[str, Code] = Field(default_factory=dict)
    attitude: str | None = None
    crank: str | None = None
    words: str | None = None


class ValueObservation(BaseModel):
    """A value read off a gauge."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    type: Literal["value"] = "value"
    value: Typed
    instrument: Code | None = None
    setting: Code | None = None


class BladeObservation(BaseModel):
    """A blade, a stack of blades or a plug tried: `set:marking` for each, and what it did."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    type: Literal["blade"] = "blade"
    blades: Blades
    answer: Literal["goes", "goes freely", "drags", "does not go"]


Observation = Annotated[ValueObservation | BladeObservation, Field(discriminator="type")]


class Reading(Body):
    """One observation with one instrument at one place.

    `members` says through which physical parts it was taken (position -> part code); a reading on
    a part without a position has `members` {"": part code} and only a `feature`.
    """

    kind: ClassVar[str] = "reading"
    dimension: str | None
    feature: str
    place: str
    members: dict[str, str]
    observation: Observation
    sitting: Code | None = None
    condition: str | None = None
    part_temperature: Temperature | None = None
    measured_by: Code | None = None
    typed_by: Code | None = None
    taken_at: str | None = None
    origin: Origin = "bench"
    page_photo: str | None = None
    during_rework: bool = False
    note: Words | None = None


class Moved(BaseModel):
    """One reading's new place."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    entry: str
    dimension: str
    feature: str
    place: str
    members: dict[str, str]


class ReadingsMoved(Body):
    """Readings that belong one place on or back, or two places swapped; one entry, one undo."""

    kind: ClassVar[str] = "readings moved"
    moves: tuple[Moved, ...]


class Choice(Body):
    """A person's decision about entries: use them again, or use this reading instead of that."""

    kind: ClassVar[str] = "choice"
    choice: Literal["use again", "use instead", "keep both"]
    entries: tuple[str, ...]
    instead_of: tuple[str, ...] = ()
    dimension: str | None = None


class StatedSize(Body):
    """A size that somebody states (drawing, box label, certificate); never counted as a reading."""

    kind: ClassVar[str] = "stated size"
    dimension: str | None
    feature: str
    place: str = "whole"
    members: dict[str, str]
    size: Typed
    tolerance: Typed | None = None
    stated_by: str


class EyeCheck(Body):
    """A yes or no with words: turns by hand, blue pattern, no drag point."""

    kind: ClassVar[str] = "eye check"
    check: str
    answer: bool
    words: str | None = None
    photo: str | None = None


class NotMeasured(Body):
    """Not measured, because."""

    kind: ClassVar[str] = "not measured"
    subject: str
    because: str
