"""A press fit: pressure, stresses, holding force, temperature to assemble, and the grip when warm."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sums.declaration import Computed, Found, Output, Sum
from fitwright.sums.forms import SIZE, Amount, Given, Input, Words
from fitwright.sums.pressed_parts import GivenFit, PressedPart, given_fit
from fitwright.sums.pressed_steps import pressed_steps

if TYPE_CHECKING:
    from fitwright.physics.fits.interference import PressFit


def _compute(given: Given) -> Found:
    fit = given_fit(given)
    cold = fit.at(fit.effective)
    force, torque = fit.holding(cold.contact_pressure)
    assembly, lost = _assembly_temperature(fit), _lost_temperature(fit)
    warm = _warm(fit)
    values: dict[str, Computed] = {
        "interference": fit.interference,
        "effective_interference": fit.effective,
        "contact_pressure": cold.contact_pressure,
        "hub_hoop_stress": cold.hub_hoop_stress,
        "hub_equivalent_stress": cold.hub_equivalent_stress,
        "shaft_hoop_stress": cold.shaft_hoop_stress,
        "shaft_equivalent_stress": cold.shaft_equivalent_stress,
        "hub_strength_share": _share(cold.hub_equivalent_stress, fit.hub),
        "shaft_strength_share": _share(cold.shaft_equivalent_stress, fit.shaft),
        "holding_force": force,
        "holding_torque": torque,
        "assembly_temperature": assembly,
        "temperature_without_grip": lost,
        **_warm_values(fit, warm),
    }
    return Found(values, pressed_steps(fit, cold, force, assembly, warm), tuple(_cautions(fit, cold, warm)))


def _reference() -> float:
    from fitwright.physics.metrology.temperature import REFERENCE_TEMPERATURE

    return REFERENCE_TEMPERATURE


def _assembly_temperature(fit: GivenFit) -> float:
    from fitwright.physics.fits.grip import warming_to_assemble

    reference = _reference()
    return reference + warming_to_assemble(
        fit.interference,
        clearance=fit.given["assembly_clearance"],
        interface_diameter=fit.diameter,
        hub_expansion=fit.hub.expansion.value,
        shaft_expansion=fit.shaft.expansion.value,
        shaft_cooling=reference - fit.given["shaft_assembly_temperature"],
    )


def _lost_temperature(fit: GivenFit) -> float | None:
    from fitwright.physics.fits.grip import warming_to_lose_grip

    if fit.effective <= 0.0:
        return None
    warming = warming_to_lose_grip(
        fit.effective,
        interface_diameter=fit.diameter,
        hub_expansion=fit.hub.expansion.value,
        shaft_expansion=fit.shaft.expansion.value,
    )
    return None if warming is None else _reference() + warming


def _warm(fit: GivenFit) -> PressFit | None:
    """The press fit at its temperatures; None where none is given."""
    from fitwright.physics.fits.grip import interference_at_temperature

    if fit.hub.temperature is None and fit.shaft.temperature is None:
        return None
    hub, shaft = fit.hub.temperature, fit.shaft.temperature
    left = interference_at_temperature(
        fit.effective,
        interface_diameter=fit.diameter,
        hub_expansion=fit.hub.expansion.value,
        shaft_expansion=fit.shaft.expansion.value,
        hub_temperature=shaft if hub is None else hub,  # type: ignore[arg-type]  # one of them is given
        shaft_temperature=hub if shaft is None else shaft,  # type: ignore[arg-type]
    )
    return fit.at(float(left))


def _warm_values(fit: GivenFit, warm: PressFit | None) -> dict[str, Computed]:
    force = None if warm is None else fit.holding(warm.contact_pressure)[0]
    return {
        "interference_at_temperature": None if warm is None else warm.interference,
        "contact_pressure_at_temperature": None if warm is None else warm.contact_pressure,
        "hub_equivalent_stress_at_temperature": None if warm is None else warm.hub_equivalent_stress,
        "holding_force_at_temperature": force,
        "grips_at_temperature": None if warm is None else warm.grips,
    }


def _share(stress: float, part: PressedPart) -> float | None:
    return None if part.strength is None else stress / part.strength


def _cautions(fit: GivenFit, cold: PressFit, warm: PressFit | None) -> list[str]:
    said = []
    if not cold.grips:
        said.append("Nothing grips: after pressing no interference is left.")
    if warm is not None and cold.grips and not warm.grips:
        said.append("The grip is lost at these temperatures.")
    for name, part, state in _stressed(fit, cold, warm):
        if part.strength is not None and state > part.strength:
            said.append(f"The {name} is beyond its yield strength: the pressure is lower than computed here.")
    return list(dict.fromkeys(said))


def _stressed(fit: GivenFit, cold: PressFit, warm: PressFit | None) -> list[tuple[str, PressedPart, float]]:
    states = [cold] if warm is None else [cold, warm]
    found = [("hub", fit.hub, state.hub_equivalent_stress) for state in states]
    return found + [("shaft", fit.shaft, state.shaft_equivalent_stress) for state in states]


_LENGTH = Amount("length", above=0.0, typed_in=SIZE)


def _part_inputs(name: str) -> tuple[Input, ...]:
    return (
        Input(
            f"{name}_material",
            Words(),
            f"material of the {name}, such as steel, cast_iron or cast_aluminium",
            usual=True,
        ),
        Input(
            f"{name}_elastic_modulus",
            Amount("pressure", above=0.0, typed_in=("GPa", "psi")),
            f"elastic modulus of the {name}",
        ),
        Input(
            f"{name}_poisson_ratio", Amount("ratio", above=-1.0, most=0.5), f"Poisson's ratio of the {name}"
        ),
        Input(
            f"{name}_expansion_coefficient",
            Amount("thermal_expansion", above=0.0),
            f"expansion coefficient of the {name}",
        ),
        Input(
            f"{name}_roughness",
            Amount("length", least=0.0),
            f"mean roughness depth Rz of the {name}",
            default=0,
        ),
        Input(
            f"{name}_yield_strength",
            Amount("pressure", above=0.0, typed_in=("MPa", "psi")),
            f"yield strength of the {name}",
        ),
        Input(
            f"{name}_temperature",
            Amount("temperature", above=0.0),
            f"temperature of the {name} in service; that of the other part where it is not given",
            usual=True,
        ),
    )


SUM = Sum(
    name="interference",
    words=(
        "press fit",
        "shrink fit",
        "crush",
        "bush",
        "bushing",
        "valve guide",
        "valve seat",
        "liner",
        "sleeve",
        "heat to fit",
    ),
    title="Press fit",
    text="Contact pressure, stresses, holding force, the temperature to assemble with, the grip when warm.",
    inputs=(
        Input("shaft_diameter", _LENGTH, "diameter of the shaft where it meets the hub", required=True),
        Input("hub_bore_diameter", _LENGTH, "bore of the hub; or give interference", usual=True),
        Input(
            "interference",
            Amount("length"),
            "shaft diameter less hub bore, in place of hub_bore_diameter",
            usual=True,
        ),
        Input("hub_outer_diameter", _LENGTH, "outside diameter of the hub", required=True),
        Input(
            "shaft_bore_diameter",
            Amount("length", least=0.0, typed_in=SIZE),
            "bore of a hollow shaft",
            default=0,
        ),
        Input("length", _LENGTH, "length over which they touch, for the holding force", usual=True),
        Input(
            "friction_coefficient",
            Amount("ratio", above=0.0, most=2.0),
            "static friction, for the holding force",
            usual=True,
        ),
        *_part_inputs("hub"),
        *_part_inputs("shaft"),
        Input(
            "assembly_clearance",
            Amount("length", least=0.0),
            "clearance wanted while assembling",
            default="0.03 mm",
        ),
        Input(
            "shaft_assembly_temperature",
            Amount("temperature", above=0.0),
            "temperature of the shaft while assembling; lower if it is cooled",
            default="20 degC",
        ),
    ),
    outputs=(
        Output("interference", "on diameter, as measured", "length"),
        Output("effective_interference", "what is left once pressing has flattened both surfaces", "length"),
        Output("contact_pressure", "between hub and shaft; zero if nothing grips", "pressure", leads=True),
        Output("hub_hoop_stress", "largest hoop stress of the hub, at its bore", "pressure"),
        Output("hub_equivalent_stress", "von Mises stress there", "pressure"),
        Output("shaft_hoop_stress", "largest hoop stress of the shaft; compression is negative", "pressure"),
        Output("shaft_equivalent_stress", "von Mises stress there", "pressure"),
        Output("hub_strength_share", "equivalent stress over yield strength of the hub", "ratio"),
        Output("shaft_strength_share", "equivalent stress over yield strength of the shaft", "ratio"),
        Output("holding_force", "axial force at which it starts to slip", "force", leads=True),
        Output("holding_torque", "torque at which it starts to turn", "torque"),
        Output(
            "assembly_temperature",
            "temperature of the hub to slip on with the clearance wanted",
            "temperature",
            leads=True,
        ),
        Output(
            "temperature_without_grip",
            "temperature of both parts at which the grip is gone; null where it never goes",
            "temperature",
        ),
        Output("interference_at_temperature", "at the temperatures in service", "length"),
        Output("contact_pressure_at_temperature", "at the temperatures in service", "pressure"),
        Output("hub_equivalent_stress_at_temperature", "at the temperatures in service", "pressure"),
        Output("holding_force_at_temperature", "at the temperatures in service", "force"),
        Output(
            "grips_at_temperature",
            "whether any interference is left at the temperatures in service",
            leads=True,
        ),
    ),
    compute=_compute,
    source="timoshenko1956",
    cautions=(
        "Heated parts burn and coatings give off fumes: control the temperature, wear gloves, ventilate.",
        "A part in a press can burst: guard it and stand clear.",
        "The maker's temperature, method and limits govern, and local rules; a qualified person decides.",
    ),
    example={
        "shaft_diameter": "35.100 mm",
        "hub_bore_diameter": "35.000 mm",
        "hub_outer_diameter": "60 mm",
        "length": "8 mm",
        "friction_coefficient": 0.12,
        "hub_material": "cast_aluminium",
        "shaft_material": "steel",
        "hub_temperature": "170 degC",
        "shaft_temperature": "170 degC",
    },
)
