"""The working of a press fit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.sums.declaration import PutIn, Step
from fitwright.sums.pressed_parts import GivenFit

if TYPE_CHECKING:
    from fitwright.physics.fits.interference import PressFit


def pressed_steps(
    fit: GivenFit, cold: PressFit, force: float | None, assembly: float, warm: PressFit | None
) -> tuple[Step, ...]:
    """The steps from sizes to pressure, stress, force and temperatures."""
    return (
        _lost(fit),
        _pressure(fit, cold),
        _stress(cold),
        *_forces(fit, cold, force),
        _assembling(fit, assembly),
        *_warm_steps(fit, warm),
    )


def _lost(fit: GivenFit) -> Step:
    from fitwright.physics.fits.interference import ROUGHNESS_LOSS_FACTOR

    bore = fit.given["hub_bore_diameter"]
    sizes = (
        (PutIn("interference", fit.interference, "length", "given"),)
        if bore is None
        else (
            PutIn("shaft diameter", fit.diameter, "length", "given"),
            PutIn("hub bore diameter", bore, "length", "given"),
        )
    )
    return Step(
        "Interference that is left after pressing",
        f"shaft − bore − {ROUGHNESS_LOSS_FACTOR:g} × (roughness of hub + roughness of shaft)",
        (
            *sizes,
            PutIn("roughness of the hub", fit.hub.roughness, "length", fit.given.origin("hub_roughness")),
            PutIn(
                "roughness of the shaft", fit.shaft.roughness, "length", fit.given.origin("shaft_roughness")
            ),
        ),
        PutIn("effective interference", fit.effective, "length"),
        "din7190_1_2017",
    )


def _pressure(fit: GivenFit, cold: PressFit) -> Step:
    constants = [
        PutIn(f"{quantity} of the {name}", each.value, dimension, each.origin)
        for name, part in (("hub", fit.hub), ("shaft", fit.shaft))
        for quantity, each, dimension in (
            ("elastic modulus", part.elastic_modulus, "pressure"),
            ("Poisson's ratio", part.poisson_ratio, "ratio"),
        )
    ]
    return Step(
        "Contact pressure",
        "interference / d / [((D² + d²)/(D² − d²) + ν_h)/E_h + ((d² + b²)/(d² − b²) − ν_s)/E_s]",
        (
            PutIn("d, shaft diameter", fit.diameter, "length", "given"),
            PutIn("D, outside of the hub", fit.given["hub_outer_diameter"], "length", "given"),
            PutIn(
                "b, bore of the shaft",
                fit.given["shaft_bore_diameter"],
                "length",
                fit.given.origin("shaft_bore_diameter"),
            ),
            *constants,
        ),
        PutIn("contact pressure", cold.contact_pressure, "pressure"),
        "timoshenko1956",
    )


def _stress(cold: PressFit) -> Step:
    return Step(
        "Stress at the bore of the hub",
        "hoop: pressure × (D² + d²)/(D² − d²); equivalent: √(hoop² + hoop × pressure + pressure²)",
        (
            PutIn("contact pressure", cold.contact_pressure, "pressure", "step before"),
            PutIn("hoop stress", cold.hub_hoop_stress, "pressure"),
        ),
        PutIn("equivalent stress", cold.hub_equivalent_stress, "pressure"),
        "timoshenko1956",
    )


def _forces(fit: GivenFit, cold: PressFit, force: float | None) -> tuple[Step, ...]:
    if force is None:
        return ()
    return (
        Step(
            "Holding force",
            "friction coefficient × pressure × π × d × length",
            (
                PutIn("friction coefficient", fit.given["friction_coefficient"], "ratio", "given"),
                PutIn("contact pressure", cold.contact_pressure, "pressure", "step before"),
                PutIn("length", fit.given["length"], "length", "given"),
            ),
            PutIn("holding force", force, "force"),
            "din7190_1_2017",
        ),
    )


def _assembling(fit: GivenFit, assembly: float) -> Step:
    given = fit.given
    return Step(
        "Temperature of the hub to assemble",
        "20 °C + (interference + clearance − shaft expansion × d × its cooling) / (hub expansion × d)",
        (
            PutIn(
                "clearance while assembling",
                given["assembly_clearance"],
                "length",
                given.origin("assembly_clearance"),
            ),
            PutIn(
                "expansion of the hub", fit.hub.expansion.value, "thermal_expansion", fit.hub.expansion.origin
            ),
            PutIn(
                "expansion of the shaft",
                fit.shaft.expansion.value,
                "thermal_expansion",
                fit.shaft.expansion.origin,
            ),
            PutIn(
                "temperature of the shaft",
                given["shaft_assembly_temperature"],
                "temperature",
                given.origin("shaft_assembly_temperature"),
            ),
        ),
        PutIn("temperature", assembly, "temperature"),
        "timoshenko1956",
    )


def _warm_steps(fit: GivenFit, warm: PressFit | None) -> tuple[Step, ...]:
    if warm is None:
        return ()
    temperatures = [
        PutIn(f"temperature of the {name}", part.temperature, "temperature", "given")
        for name, part in (("hub", fit.hub), ("shaft", fit.shaft))
        if part.temperature is not None
    ]
    return (
        Step(
            "Interference at temperature",
            "interference + d × (shaft expansion × its warming − hub expansion × its warming)",
            (PutIn("effective interference", fit.effective, "length", "step before"), *temperatures),
            PutIn("interference at temperature", warm.interference, "length"),
            "timoshenko1956",
        ),
    )
