"""Oils: the one that an engine is planned for, and others that it sees (for running in, say)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from fitwright.model.amount import Written


class OilBasis(StrEnum):
    """What is known of an oil: its data sheet, its grade only, or one viscosity that was measured."""

    DATA_SHEET = "data sheet"
    GRADE = "grade"
    MEASURED = "measured"


@dataclass(frozen=True, slots=True)
class Oil:
    """An oil, described in one of three ways (`basis`).

    Data sheet: kinematic viscosity at 40 and at 100 degrees Celsius, with the high-shear viscosity at
    150 degrees, the density at 15 degrees and the pressure coefficient of the viscosity where it gives
    them. Grade (SAE J300, as `10W-40`): values in the middle of its range, to be labelled so wherever
    they are shown. Measured: one kinematic viscosity at one temperature.
    """

    id: str
    title: str
    kinematic_viscosity_40: Written | None = None
    kinematic_viscosity_100: Written | None = None
    high_shear_viscosity_150: Written | None = None
    density_15: Written | None = None
    pressure_viscosity_coefficient: Written | None = None
    grade: str | None = None
    measured_viscosity: Written | None = None
    measured_at: Written | None = None
    source: str | None = None
    planned: bool = False
    note: str | None = None

    @property
    def basis(self) -> OilBasis:
        """What its viscosity rests on: the data sheet before the grade, the grade before one value."""
        if self.kinematic_viscosity_40 is not None and self.kinematic_viscosity_100 is not None:
            return OilBasis.DATA_SHEET
        return OilBasis.GRADE if self.grade is not None else OilBasis.MEASURED
