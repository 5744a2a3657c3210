"""A press fit as given: the sizes, both parts, and where their constants came from."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.sums.errors import InputError, MissingInputError
from fitwright.sums.forms import Given
from fitwright.sums.materials import Constant, constant, material_named

if TYPE_CHECKING:
    from fitwright.physics.fits.interference import ElasticMaterial, PressFit


@dataclass(frozen=True, slots=True)
class PressedPart:
    """Hub or shaft: its constants with where they came from, its roughness and strength."""

    elastic_modulus: Constant
    poisson_ratio: Constant
    expansion: Constant
    roughness: float
    strength: float | None
    temperature: float | None

    def elastic(self) -> ElasticMaterial:
        """The part as physics takes it."""
        from fitwright.physics.fits.interference import ElasticMaterial

        return ElasticMaterial(self.elastic_modulus.value, self.poisson_ratio.value, self.expansion.value)


@dataclass(frozen=True, slots=True)
class GivenFit:
    """The press fit as given: sizes, both parts, and the interference that is left after pressing."""

    given: Given
    hub: PressedPart
    shaft: PressedPart
    interference: float
    effective: float

    @property
    def diameter(self) -> float:
        """Diameter at which hub and shaft meet."""
        return float(self.given["shaft_diameter"])

    def at(self, interference: float) -> PressFit:
        """Pressure and stresses at an interference."""
        from fitwright.physics.fits.interference import press_fit

        return press_fit(
            interference,
            interface_diameter=self.diameter,
            hub_outer_diameter=self.given["hub_outer_diameter"],
            hub=self.hub.elastic(),
            shaft=self.shaft.elastic(),
            shaft_bore=self.given["shaft_bore_diameter"],
        )

    def holding(self, pressure: float) -> tuple[float | None, float | None]:
        """Holding force and torque; None without length or friction."""
        from fitwright.physics.fits.interference import holding_force, holding_torque

        length, friction = self.given["length"], self.given["friction_coefficient"]
        if length is None or friction is None:
            return None, None
        force = holding_force(
            pressure, interface_diameter=self.diameter, length=length, friction_coefficient=friction
        )
        return force, holding_torque(force, interface_diameter=self.diameter)


def given_fit(given: Given) -> GivenFit:
    """The press fit that inputs describe.

    Raises
    ------
    InputError
        If the interference is given twice or not at all, or a part's constants are missing.
    """
    from fitwright.physics.fits.interference import interference_after_pressing

    hub, shaft = _part(given, "hub"), _part(given, "shaft")
    if given["hub_bore_diameter"] is None and given["interference"] is None:
        raise MissingInputError("hub_bore_diameter", "give hub_bore_diameter or interference")
    if given["hub_bore_diameter"] is not None and given["interference"] is not None:
        raise InputError("hub_bore_diameter", "give either hub_bore_diameter or interference")
    interference = given["interference"]
    if interference is None:
        interference = given["shaft_diameter"] - given["hub_bore_diameter"]
    effective = interference_after_pressing(
        interference, hub_roughness=hub.roughness, shaft_roughness=shaft.roughness
    )
    return GivenFit(given, hub, shaft, interference, effective)


def _part(given: Given, name: str) -> PressedPart:
    named = given[f"{name}_material"]
    material = None if named is None else material_named(named, f"{name}_material")

    def of(field: str) -> Constant:
        key = f"{name}_{field}"
        return constant(given[key], material, field, key)

    return PressedPart(
        of("elastic_modulus"),
        of("poisson_ratio"),
        of("expansion_coefficient"),
        given[f"{name}_roughness"],
        given[f"{name}_yield_strength"],
        given[f"{name}_temperature"],
    )
