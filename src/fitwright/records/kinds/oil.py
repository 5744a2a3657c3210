"""The oil that a build is filled with, and its pressure as the engine turned."""

from __future__ import annotations

from typing import ClassVar, Self

from pydantic import BaseModel, ConfigDict, model_validator

from fitwright.records.fields import Code, Grade, Words, require_above_zero, require_one
from fitwright.records.kinds.body import Body, Typed
from fitwright.records.kinds.readings import Origin


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
