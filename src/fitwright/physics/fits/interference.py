"""Press fits of a hub on a solid or hollow shaft: pressure, stress, holding force.

Elastic, axisymmetric, plane stress, hub and shaft equally long, both still. Beyond the elastic limit of
either part the pressure is lower than computed here; hold the equivalent stress against its yield strength.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import (
    Metre,
    Newton,
    NewtonMetre,
    Number,
    Pascal,
    PascalPerMetre,
    PerKelvin,
)

ROUGHNESS_LOSS_FACTOR: Number = 0.8
"""Share of both roughness heights by which pressing flattens the surfaces, on the diameter (DIN 7190)."""


@dataclass(frozen=True, slots=True)
class ElasticMaterial:
    """What a part is made of.

    Attributes
    ----------
    elastic_modulus : float [Pa]
        Young's modulus.
    poisson_ratio : float [1]
        Poisson's ratio.
    expansion_coefficient : float [1/K]
        Mean linear expansion coefficient.
    """

    elastic_modulus: Pascal
    poisson_ratio: Number
    expansion_coefficient: PerKelvin = 0.0


@dataclass(frozen=True, slots=True)
class PressFit:
    """A hub pressed on a shaft; tension is positive.

    Attributes
    ----------
    interference : float [m]
        Diametral interference that the pressure belongs to; not positive means that nothing grips.
    contact_pressure : float [Pa]
        Pressure between hub and shaft, zero without grip.
    pressure_per_interference : float [Pa/m]
        Derivative of the pressure by the diametral interference, where there is grip.
    hub_hoop_stress : float [Pa]
        Largest hoop stress of the hub, at its bore.
    hub_equivalent_stress : float [Pa]
        Von Mises stress at the hub's bore.
    hub_shear_equivalent_stress : float [Pa]
        Tresca stress at the hub's bore.
    shaft_hoop_stress : float [Pa]
        Hoop stress of the shaft where it is largest: at the bore of a hollow shaft, anywhere in a solid one.
    shaft_equivalent_stress : float [Pa]
        Von Mises stress there.
    shaft_shear_equivalent_stress : float [Pa]
        Tresca stress there.
    """

    interference: Metre
    contact_pressure: Pascal
    pressure_per_interference: PascalPerMetre
    hub_hoop_stress: Pascal
    hub_equivalent_stress: Pascal
    hub_shear_equivalent_stress: Pascal
    shaft_hoop_stress: Pascal
    shaft_equivalent_stress: Pascal
    shaft_shear_equivalent_stress: Pascal

    @property
    def grips(self) -> bool:
        """Whether any interference is left."""
        return self.interference > 0.0


def press_fit(
    interference: Metre,
    *,
    interface_diameter: Metre,
    hub_outer_diameter: Metre,
    hub: ElasticMaterial,
    shaft: ElasticMaterial,
    shaft_bore: Metre = 0.0,
) -> PressFit:
    r"""Pressure and stress of a press fit.

    Parameters
    ----------
    interference : float [m]
        Shaft diameter less hub bore, after what roughness and temperature take away.
    interface_diameter : float [m]
        Diameter at which hub and shaft meet.
    hub_outer_diameter : float [m]
        Outside diameter of the hub.
    hub : ElasticMaterial
        Material of the hub.
    shaft : ElasticMaterial
        Material of the shaft.
    shaft_bore : float [m]
        Bore of a hollow shaft; zero for a solid one.

    Returns
    -------
    PressFit
        Contact pressure, its derivative, and the largest stresses of both parts.

    Raises
    ------
    OutOfDomainError
        If the diameters do not lie one inside the other, or a material constant means nothing.

    Notes
    -----
    .. math:: p = \frac{\delta}{d} \left[\frac{1}{E_h}\left(\frac{D^2+d^2}{D^2-d^2}+\nu_h\right)
              + \frac{1}{E_s}\left(\frac{d^2+d_i^2}{d^2-d_i^2}-\nu_s\right)\right]^{-1}

    Hub bore: hoop p (D^2+d^2)/(D^2-d^2), radial -p. Bore of a hollow shaft: hoop -2 p d^2/(d^2-d_i^2);
    a solid shaft has -p in both directions.

    References
    ----------
    [timoshenko1956] shrink fit of thick-walled cylinders

    Examples
    --------
    >>> steel = ElasticMaterial(207e9, 0.3)
    >>> fit = press_fit(0.031711e-3, interface_diameter=0.040, hub_outer_diameter=0.060,
    ...                 hub=steel, shaft=steel, shaft_bore=0.020)
    >>> round(fit.contact_pressure / 1e6, 2), round(fit.hub_hoop_stress / 1e6, 1)
    (38.46, 100.0)
    """
    d, outer, inner = interface_diameter, hub_outer_diameter, shaft_bore
    if not 0.0 <= inner < d < outer:
        raise OutOfDomainError(
            "interface_diameter", d, f"between the shaft's bore ({inner}) and the hub's outside ({outer})"
        )
    _check_material("hub", hub)
    _check_material("shaft", shaft)
    wall = (outer**2 + d**2) / (outer**2 - d**2)
    core = (d**2 + inner**2) / (d**2 - inner**2)
    compliance = (wall + hub.poisson_ratio) / hub.elastic_modulus + (
        core - shaft.poisson_ratio
    ) / shaft.elastic_modulus
    stiffness = 1.0 / (d * compliance)
    pressure = max(interference, 0.0) * stiffness
    hub_hoop = pressure * wall
    shaft_hoop = -pressure * (core + 1.0 if inner > 0.0 else 1.0)
    return PressFit(
        interference=interference,
        contact_pressure=pressure,
        pressure_per_interference=stiffness,
        hub_hoop_stress=hub_hoop,
        hub_equivalent_stress=math.sqrt(hub_hoop**2 + hub_hoop * pressure + pressure**2),
        hub_shear_equivalent_stress=hub_hoop + pressure,
        shaft_hoop_stress=shaft_hoop,
        # One principal stress, or two alike: both hypotheses give its magnitude.
        shaft_equivalent_stress=-shaft_hoop,
        shaft_shear_equivalent_stress=-shaft_hoop,
    )


def interference_after_pressing(
    interference: Metre, *, hub_roughness: Metre, shaft_roughness: Metre
) -> Metre:
    r"""Interference that is left once pressing has flattened both surfaces.

    Parameters
    ----------
    interference : float [m]
        Diametral interference as measured.
    hub_roughness : float [m]
        Mean roughness depth Rz of the hub's bore.
    shaft_roughness : float [m]
        Mean roughness depth Rz of the shaft.

    Returns
    -------
    float [m]
        Effective diametral interference.

    Raises
    ------
    OutOfDomainError
        If a roughness is negative.

    Notes
    -----
    .. math:: \delta_w = \delta - 0.8 (R_{z,h} + R_{z,s})

    For parts pressed together; shrinking flattens less.

    References
    ----------
    [din7190_1_2017] effective interference

    Examples
    --------
    >>> round(interference_after_pressing(0.030e-3, hub_roughness=4e-6, shaft_roughness=2.5e-6) * 1e6, 1)
    24.8
    """
    if not (hub_roughness >= 0.0 and shaft_roughness >= 0.0):
        raise OutOfDomainError("roughness", min(hub_roughness, shaft_roughness), "zero or more")
    return interference - ROUGHNESS_LOSS_FACTOR * (hub_roughness + shaft_roughness)


def holding_force(
    contact_pressure: Pascal, *, interface_diameter: Metre, length: Metre, friction_coefficient: Number
) -> Newton:
    r"""Axial force at which a press fit starts to slip.

    Parameters
    ----------
    contact_pressure : float [Pa]
        Pressure between hub and shaft.
    interface_diameter : float [m]
        Diameter at which hub and shaft meet.
    length : float [m]
        Length over which they touch.
    friction_coefficient : float [1]
        Static friction coefficient.

    Returns
    -------
    float [N]
        Axial force.

    Raises
    ------
    OutOfDomainError
        If the friction coefficient is negative.

    Notes
    -----
    .. math:: F = \mu p \pi d L

    References
    ----------
    [din7190_1_2017] slipping resistance

    Examples
    --------
    >>> round(holding_force(38.46e6, interface_diameter=0.04, length=0.03, friction_coefficient=0.1))
    14499
    """
    if not friction_coefficient >= 0.0:
        raise OutOfDomainError("friction_coefficient", friction_coefficient, "zero or more")
    return friction_coefficient * contact_pressure * math.pi * interface_diameter * length


def holding_torque(force: Newton, *, interface_diameter: Metre) -> NewtonMetre:
    r"""Torque at which a press fit starts to turn, from its holding force.

    Parameters
    ----------
    force : float [N]
        Holding force in the direction of the circumference.
    interface_diameter : float [m]
        Diameter at which hub and shaft meet.

    Returns
    -------
    float [N m]
        Torque.

    Notes
    -----
    .. math:: T = F d / 2

    References
    ----------
    [din7190_1_2017] slipping resistance

    Examples
    --------
    >>> holding_torque(14_499.0, interface_diameter=0.04)
    289.98
    """
    return 0.5 * force * interface_diameter


def _check_material(argument: str, material: ElasticMaterial) -> None:
    if not (material.elastic_modulus > 0.0 and -1.0 < material.poisson_ratio <= 0.5):
        raise OutOfDomainError(
            f"{argument} material",
            f"E = {material.elastic_modulus} Pa, Poisson's ratio = {material.poisson_ratio}",
            "of positive modulus, with a ratio above -1 and up to 0.5",
        )
