"""An oil of the sheet, or of the shop's choice, as physics takes it, with what it rests on in words."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from fitwright.assess.oil.results import OilUsed
from fitwright.data.oils import generic_fuels, j300
from fitwright.model.oil import Oil as OilOfSheet
from fitwright.model.oil import OilBasis
from fitwright.physics.oil.dilution import diluted
from fitwright.physics.oil.grade_middle import grade_middle
from fitwright.physics.oil.oil import Oil
from fitwright.physics.oil.shear import with_usual_high_shear
from fitwright.physics.oil.walther import (
    TEMPERATURE_40,
    TEMPERATURE_100,
    viscosity_on_line,
    walther_line_from_slope,
)

USUAL_DENSITY: Final = 865.0
"""Density at 15 °C of an engine oil whose sheet gives none [kg/m3]; it hardly matters."""

USUAL_SLOPE: Final = 3.0
"""Fall of viscosity with temperature of an engine oil of which one viscosity is known (ASTM D341, B)."""

FUEL: Final = "petrol"


@dataclass(frozen=True, slots=True)
class OilInUse:
    """An oil for the computation, and how it is told."""

    oil: Oil
    used: OilUsed

    def with_fuel(self, mass_fraction: float) -> OilInUse:
        """The same with fuel in it."""
        if mass_fraction == 0.0:
            return self
        thin = diluted(self.oil, generic_fuels()[FUEL].fuel, mass_fraction)
        return OilInUse(
            thin,
            replace(
                self.used,
                title=f"{self.used.title} with {100.0 * mass_fraction:.3g} % of fuel",
                kinematic_viscosity_40=thin.kinematic_viscosity_40,
                kinematic_viscosity_100=thin.kinematic_viscosity_100,
            ),
        )


def oil_in_use(given: OilOfSheet) -> OilInUse:
    """An oil of the sheet.

    Raises
    ------
    OutOfDomainError
        If its numbers are those of no oil.
    """
    if given.basis is OilBasis.DATA_SHEET:
        return _by_data_sheet(given)
    if given.basis is OilBasis.GRADE:
        middle = grade_middle(given.grade or "", j300())
        return _told(given, middle.middle, middle.cautions)
    return _by_one_viscosity(given)


def _by_data_sheet(given: OilOfSheet) -> OilInUse:
    assert given.kinematic_viscosity_40 is not None  # noqa: S101 - the basis says so
    assert given.kinematic_viscosity_100 is not None  # noqa: S101
    plain = Oil(
        given.kinematic_viscosity_40.si,
        given.kinematic_viscosity_100.si,
        given.density_15.si if given.density_15 is not None else USUAL_DENSITY,
        given.high_shear_viscosity_150.si if given.high_shear_viscosity_150 is not None else None,
    )
    if plain.high_shear_viscosity_150 is not None:
        return _told(given, plain, ())
    assumed = with_usual_high_shear(plain, "multigrade" if _many_grades(given) else "monograde")
    return _told(given, assumed.oil, (assumed.caution,))


def _many_grades(given: OilOfSheet) -> bool:
    """Whether its name has a W grade before another, as `5W-30`."""
    return any("W-" in word.upper() for word in f"{given.grade or ''} {given.title}".split())


def _by_one_viscosity(given: OilOfSheet) -> OilInUse:
    assert given.measured_viscosity is not None  # noqa: S101 - the basis says so
    assert given.measured_at is not None  # noqa: S101
    line = walther_line_from_slope(
        given.measured_viscosity.si, temperature=given.measured_at.si, slope=USUAL_SLOPE
    )
    at_40, at_100 = (float(viscosity_on_line(*line, each)) for each in (TEMPERATURE_40, TEMPERATURE_100))
    density = given.density_15.si if given.density_15 is not None else USUAL_DENSITY
    assumed = with_usual_high_shear(Oil(at_40, at_100, density), "multigrade")
    caution = "From one measured viscosity: how it falls with temperature is taken as usual for engine oils."
    return _told(given, assumed.oil, (caution, assumed.caution))


def _told(given: OilOfSheet, oil: Oil, cautions: tuple[str, ...]) -> OilInUse:
    used = OilUsed(
        id=given.id,
        title=given.title,
        basis=given.basis.value,
        kinematic_viscosity_40=oil.kinematic_viscosity_40,
        kinematic_viscosity_100=oil.kinematic_viscosity_100,
        cautions=cautions,
    )
    return OilInUse(oil, used)
