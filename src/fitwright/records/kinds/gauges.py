"""Gauges, what they were set against, and what they are worth."""

from __future__ import annotations

from typing import ClassVar

from pydantic import BaseModel, ConfigDict, field_validator

from fitwright.records.fields import (
    Amount,
    BladeCode,
    Code,
    DegreesOfFreedom,
    Expansion,
    Resolution,
    Size,
    Thickness,
    Uncertainty,
    Words,
    require_different,
)
from fitwright.records.kinds.body import Body, Typed


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
