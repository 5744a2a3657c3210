"""The people and settings of a shop."""

from __future__ import annotations

from typing import ClassVar, Literal

from pydantic import ValidationInfo, field_validator

from fitwright.records.fields import Code, Size, Uncertainty, require_setting
from fitwright.records.kinds.body import Body


class Person(Body):
    """Somebody who measures, types, decides or signs. `drag` is the gap at which a blade drags."""

    kind: ClassVar[str] = "person"
    code: Code
    name: str
    role: str | None = None
    drag: Size = 3e-6
    drag_uncertainty: Uncertainty = 2e-6


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
