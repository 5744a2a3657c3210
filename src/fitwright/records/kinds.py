"""The body of every kind of entry.

A body is immutable and strict: unknown fields are refused. Everything that is referred to has a
short `code` of its own (`M3`, `S-014`, `shell-17`); a later entry of the same kind and code is the
newer state of that thing. A correction names the entry that it supersedes, with a reason.
Lengths and other amounts are SI; what was typed stands beside them (`Typed`).
"""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator, model_validator

from fitwright.records.fields import (
    Amount,
    BladeCode,
    Blades,
    BuildCode,
    Code,
    Decimals,
    DegreesOfFreedom,
    Expansion,
    Grade,
    Resolution,
    Size,
    Temperature,
    Thickness,
    Uncertainty,
    Words,
    require_above_zero,
    require_different,
    require_one,
    require_setting,
)


class Body(BaseModel):
    """What all bodies share: immutable, strict, and the entry that they correct, if any."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    kind: ClassVar[str]
    version: ClassVar[int] = 1
    supersedes: str | None = None
    reason: str | None = None


class Typed(BaseModel):
    """An amount as it was typed, parsed once at the edge; computation reads only `si`."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    typed: str
    unit: str
    decimals: Decimals
    si: Amount
    parser: int = 1


class Person(Body):
    """Somebody who measures, types, decides or signs. `drag` is the gap at which a blade drags."""

    kind: ClassVar[str] = "person"
    code: Code
    name: str
    role: str | None = None
    drag: Size = 3e-6
    drag_uncertainty: Uncertainty = 2e-6


class Instrument(Body):
    """A gauge: what it reads, how finely, and what it adds to each reading.

    `repeatability` per reading; `calibration_uncertainty` where no calibration is recorded
    (`typical` says that it is a typical value, not this gauge's own); `transfer_uncertainty` for a
    comparison gauge, per setting.
    """

    kind: ClassVar[str] = "instrument"
    code: Code
    title: str
    type: str
    unit: str
    resolution: Resolution
    repeatability: Uncertainty
    repeatability_degrees_of_freedom: DegreesOfFreedom | None = None
    calibration_uncertainty: Uncertainty = 0.0
    transfer_uncertainty: Uncertainty = 0.0
    comparison: bool = False
    range_low: Amount | None = None
    range_high: Amount | None = None
    zero_limit: Size | None = None
    expansion: Expansion = 11.5e-6
    typical: bool = False
    note: str | None = None


class Calibration(Body):
    """A calibration of an instrument; "never calibrated" is an accepted answer."""

    kind: ClassVar[str] = "calibration"
    code: Code
    instrument: Code
    standard_uncertainty: Uncertainty
    degrees_of_freedom: DegreesOfFreedom | None = None
    correction: Amount = 0.0
    date: str | None = None
    certificate: str | None = None
    never: bool = False


class Setting(Body):
    """A gauge set to zero: a micrometer on its standard, a comparison gauge in a master.

    `master` is the code of the instrument that it was set in; without one it was set in a ring or
    on a standard whose own uncertainty is part of `standard_uncertainty`. `zero` is what the gauge
    shows where it should show nothing: it is taken off each reading.
    """

    kind: ClassVar[str] = "setting"
    code: Code
    instrument: Code
    standard_uncertainty: Uncertainty = 0.0
    degrees_of_freedom: DegreesOfFreedom | None = None
    master: Code | None = None
    master_setting: Code | None = None
    against: str | None = None
    size: Typed | None = None
    zero: Typed | None = None
    sitting: Code | None = None


class CheckBack(Body):
    """The setting looked at again later: `drift` is what the gauge then showed too much."""

    kind: ClassVar[str] = "check-back"
    setting: Code
    drift: Typed
    sitting: Code | None = None


class BladeOnShelf(BaseModel):
    """One blade of a set: marked thickness, and the measured one where it was measured."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    marking: BladeCode
    thickness: Thickness
    standard_uncertainty: Uncertainty
    measured: bool = False
    available: bool = True


class BladeSet(Body):
    """A set of feeler blades (or of plugs), blade by blade."""

    kind: ClassVar[str] = "blade set"
    code: BladeCode
    title: str
    blades: tuple[BladeOnShelf, ...]
    plugs: bool = False

    @field_validator("blades")
    @classmethod
    def _markings_once(cls, blades: tuple[BladeOnShelf, ...]) -> tuple[BladeOnShelf, ...]:
        require_different([blade.marking for blade in blades])
        return blades


class StudyReading(BaseModel):
    """One reading of a gauge study: who took it, of which part, and what the gauge said."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    person: str
    part: str
    indication: Typed


class GaugeStudy(Body):
    """A gauge study: every person measured every part equally often with one instrument.

    `limit_band` is the width between the limits that the gauge is to judge.
    """

    kind: ClassVar[str] = "gauge study"
    code: Code
    instrument: Code
    readings: tuple[StudyReading, ...]
    limit_band: Typed | None = None
    note: Words | None = None


class Part(Body):
    """A physical part, with or without a position yet. `used` brings its wear limits in."""

    kind: ClassVar[str] = "part"
    code: Code
    title: str
    position: str | None = None
    serial: str | None = None
    used: bool = False
    origin: str | None = None


class Fitting(Body):
    """A part put into a position; who sat there before is out."""

    kind: ClassVar[str] = "fitting"
    part: Code
    position: str


class TakingOut(Body):
    """A part taken out of its position."""

    kind: ClassVar[str] = "taking out"
    part: Code
    position: str


class State(Body):
    """A part reworked, repaired or replaced: the readings of these dimensions are retired."""

    kind: ClassVar[str] = "state"
    code: Code
    change: Literal["rework", "repair", "replacement"]
    part: Code
    dimensions: tuple[str, ...]
    words: str


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
Origin = Literal["bench", "paper", "told", "file"]


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


class QuestionAnswered(Body):
    """A question that was asked about an entry, and what the person answered."""

    kind: ClassVar[str] = "question answered"
    question: str
    text: str
    answer: str
    dimension: str | None = None
    typed: str | None = None
    entry: str | None = None


class BuildStarted(Body):
    """A build to a sheet, with its job number, engine number and the owner's words."""

    kind: ClassVar[str] = "build started"
    code: BuildCode
    title: str
    sheet: str
    job_number: str | None = None
    engine_number: str | None = None
    owner_words: str | None = None
    duty: str | None = None


class RevisionTakenOver(Body):
    """A later revision of the sheet, taken over on purpose."""

    kind: ClassVar[str] = "revision taken over"
    sheet: str
    previous_sheet: str
    differences: tuple[str, ...] = ()


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


class Withdrawal(Body):
    """An entry taken back; it stays visible. Undo is such an entry, and may itself be withdrawn."""

    kind: ClassVar[str] = "withdrawal"
    entry: str


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


class LimitAdopted(Body):
    """A named person adopts a limit for a fit, with a reason; bounds may be stated anew."""

    kind: ClassVar[str] = "limit adopted"
    subject: str
    source: str
    lower: Typed | None = None
    upper: Typed | None = None
    adopted_by: Code


class Note(Body):
    """Words about anything; a note changes no digit."""

    kind: ClassVar[str] = "note"
    subject: str | None = None
    text: str


class Photo(Body):
    """A photo, kept as a file named by its digest."""

    kind: ClassVar[str] = "photo"
    digest: str
    media_type: str
    caption: str | None = None
    subject: str | None = None


class NotMeasured(Body):
    """Not measured, because."""

    kind: ClassVar[str] = "not measured"
    subject: str
    because: str


class NotInThisJob(Body):
    """Whatever begins with `subject` is no part of this job."""

    kind: ClassVar[str] = "not in this job"
    subject: str


class PressureReading(Body):
    """Oil pressure read off a gauge while the engine turns: as the needle showed it, and its zero.

    `zero` is what the gauge shows vented, None where nobody looked; `oil` is an oil of the sheet by its
    id, or words, where it is not the one that the build is filled with; `step` is what was being done.
    """

    kind: ClassVar[str] = "pressure reading"
    angular_speed: Typed
    oil_temperature: Typed
    gauge_reading: Typed
    zero: Typed | None = None
    seconds_to_pressure: Typed | None = None
    instrument: Code | None = None
    oil: Words | None = None
    step: Words | None = None
    measured_by: Code | None = None
    typed_by: Code | None = None
    taken_at: str | None = None
    origin: Origin = "bench"
    note: Words | None = None

    @model_validator(mode="after")
    def _possible(self) -> Self:
        require_above_zero(oil_temperature=self.oil_temperature.si)
        return self

    @property
    def gauge_pressure(self) -> float:
        """The pressure above that of the air [Pa]: the reading less the zero, where that was read."""
        return self.gauge_reading.si - (self.zero.si if self.zero is not None else 0.0)


class OilDataSheet(BaseModel):
    """An oil by its data sheet: viscosity at 40 and 100 degrees Celsius, what else it gives, its source."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
    title: str
    kinematic_viscosity_40: Typed
    kinematic_viscosity_100: Typed
    high_shear_viscosity_150: Typed | None = None
    density_15: Typed | None = None
    source: Words | None = None

    @model_validator(mode="after")
    def _possible(self) -> Self:
        names = (
            "kinematic_viscosity_40",
            "kinematic_viscosity_100",
            "high_shear_viscosity_150",
            "density_15",
        )
        given = {name: getattr(self, name) for name in names}
        require_above_zero(**{name: each.si for name, each in given.items() if each is not None})
        return self


class OilChosen(Body):
    """Which oil the build is filled with: one of the sheet by its id, by its data sheet, or by its grade.

    The latest counts; `reason` says why it was chosen, where somebody said so.
    """

    kind: ClassVar[str] = "oil chosen"
    oil: str | None = None
    data_sheet: OilDataSheet | None = None
    grade: Grade | None = None

    @model_validator(mode="after")
    def _one(self) -> Self:
        require_one(oil=self.oil, data_sheet=self.data_sheet, grade=self.grade)
        return self


class ShopSetting(Body):
    """How this shop decides and shows: decision rule per limit class, units, time zone."""

    kind: ClassVar[str] = "shop setting"
    name: Literal["decision rule critical", "decision rule normal", "units", "time zone", "name"]
    value: str

    @field_validator("value")
    @classmethod
    def _possible(cls, value: str, info: ValidationInfo) -> str:
        require_setting(info.data.get("name", ""), value)
        return value
