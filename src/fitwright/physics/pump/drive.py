"""What drives a pump: torque, stress on drive flats, free rock of flats in their slot."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.pump.trochoid import RotorPair
from fitwright.quantity import (
    CubicMetre,
    Metre,
    NewtonMetre,
    Number,
    Pascal,
    PascalSecond,
    Radian,
    RadianPerSecond,
)


@dataclass(frozen=True, slots=True)
class FlatStress:
    """Pressure between drive flats and their slot.

    Attributes
    ----------
    spread_pressure : float [Pa]
        Largest pressure where flats bear along half their length, rising evenly to their ends.
    edge_pressure : float [Pa]
        Largest pressure where flats have rocked and bear on their rounded corners alone.
    """

    spread_pressure: Pascal
    edge_pressure: Pascal


def drive_torque(
    displacement: CubicMetre, pressure_rise: Pascal, *, drag_torque: NewtonMetre = 0.0
) -> NewtonMetre:
    r"""Mean torque to drive a pump.

    Parameters
    ----------
    displacement : float [m3]
        For each revolution.
    pressure_rise : float [Pa]
        Outlet pressure less inlet pressure.
    drag_torque : float [N m]
        Of the oil sheared in the gaps, such as by `rotor_drag_torque`.

    Returns
    -------
    float [N m]
        Torque without friction of touching parts, the mean over a revolution.

    Notes
    -----
    .. math:: T = \frac{V \Delta p}{2 \pi} + T_{drag}

    A relief valve that stands at its stop on a cold start multiplies it.

    References
    ----------
    [ivantysyn2001] torque of displacement machines

    Examples
    --------
    >>> round(drive_torque(12e-6, 5e5), 3)
    0.955
    """
    return displacement * pressure_rise / (2.0 * math.pi) + drag_torque


def rotor_drag_torque(
    pair: RotorPair,
    *,
    outer_rotor_diameter: Metre,
    hub_diameter: Metre,
    end_clearance: Metre,
    body_radial_clearance: Metre,
    angular_speed: RadianPerSecond,
    dynamic_viscosity: PascalSecond,
) -> NewtonMetre:
    r"""Torque on the inner rotor from oil sheared at the side faces and round the outer rotor.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.
    outer_rotor_diameter : float [m]
        Outside of the outer rotor.
    hub_diameter : float [m]
        Where the side faces of the inner rotor end.
    end_clearance : float [m]
        Of both faces together, shared equally.
    body_radial_clearance : float [m]
        Of the outer rotor in the body, on the radius.
    angular_speed : float [rad/s]
        Of the inner rotor.
    dynamic_viscosity : float [Pa s]
        Of the oil in the gaps.

    Returns
    -------
    float [N m]
        Power lost over the speed of the inner rotor.

    Raises
    ------
    OutOfDomainError
        If a clearance is not positive.

    Notes
    -----
    Faces are whole rings, the inner rotor's up to the mean radius of the chambers, the outer rotor's from
    there on; chambers are taken for metal, which overstates the faces by a fifth to a third.

    .. math:: P = \frac{4 \mu}{h} \frac{\pi}{2} \left[\omega^2 (r_m^4 - r_h^4) + \omega_2^2 (R^4 - r_m^4)
              \right] + \frac{2 \pi \mu b \omega_2^2 R^3}{c}, \quad \omega_2 = \frac{N}{N+1} \omega

    References
    ----------
    [white2011] Couette flow

    Examples
    --------
    >>> torque = rotor_drag_torque(RotorPair(8, 2.5e-3, 30e-3, 6.5e-3, 12e-3), outer_rotor_diameter=66e-3,
    ...     hub_diameter=28e-3, end_clearance=60e-6, body_radial_clearance=70e-6, angular_speed=600.0,
    ...     dynamic_viscosity=0.012)
    >>> round(torque, 3)
    0.946
    """
    for name, value in (("end_clearance", end_clearance), ("body_radial_clearance", body_radial_clearance)):
        if not value > 0.0:
            raise OutOfDomainError(name, value, "greater than zero")
    outside, hub, mean = 0.5 * outer_rotor_diameter, 0.5 * hub_diameter, pair.outer_tip_radius
    ratio = pair.inner_lobes / pair.outer_teeth
    rings = mean**4 - hub**4 + ratio**2 * (outside**4 - mean**4)
    faces = 2.0 * math.pi * rings / end_clearance
    around = 2.0 * math.pi * pair.width * ratio**2 * outside**3 / body_radial_clearance
    return dynamic_viscosity * angular_speed * (faces + around)


def flat_stress(
    torque: NewtonMetre,
    *,
    flat_length: Metre,
    engagement: Metre,
    corner_radius: Metre,
    contact_modulus: Pascal,
) -> FlatStress:
    r"""Pressure on the flats of a two-flat drive.

    Parameters
    ----------
    torque : float [N m]
        Largest torque; torsional vibration of a crank nose multiplies the mean.
    flat_length : float [m]
        Length of a flat across the axis.
    engagement : float [m]
        How much of the flats lies in the slot, along the axis.
    corner_radius : float [m]
        Radius of the flats' ends.
    contact_modulus : float [Pa]
        By `contact_modulus` of both materials.

    Returns
    -------
    FlatStress
        Spread and edge pressure.

    Raises
    ------
    OutOfDomainError
        If a size is not positive.

    Notes
    -----
    Two flats, of each of which one half bears. Fitted, the pressure rises evenly from the axis to the end;
    rocked through their clearance they bear as lines on both corners, F = T / l (Hertz):

    .. math:: p = \frac{6 T}{b l^2}, \qquad p_0 = \sqrt{\frac{T E^*}{\pi b l r}}

    Real flats lie between. Beyond the yield strength corners flatten, and the radius grows. Cracks start at
    sharp corners of the slot, which no pressure shows.

    References
    ----------
    [johnson1985] line contact of cylinders; the spread pressure is equilibrium, derived here

    Examples
    --------
    >>> found = flat_stress(8.0, flat_length=14e-3, engagement=9e-3, corner_radius=0.5e-3,
    ...     contact_modulus=contact_modulus(210e9, 0.3, 140e9, 0.28))
    >>> round(found.spread_pressure / 1e6, 1), round(found.edge_pressure / 1e6)
    (27.2, 1924)
    """
    sizes = {"flat_length": flat_length, "engagement": engagement, "corner_radius": corner_radius}
    for name, value in {**sizes, "contact_modulus": contact_modulus}.items():
        if not value > 0.0:
            raise OutOfDomainError(name, value, "greater than zero")
    if not torque >= 0.0:
        raise OutOfDomainError("torque", torque, "zero or more")
    line = torque / flat_length / engagement
    return FlatStress(
        spread_pressure=6.0 * torque / (engagement * flat_length**2),
        edge_pressure=math.sqrt(line * contact_modulus / (math.pi * corner_radius)),
    )


def contact_modulus(
    first_modulus: Pascal, first_poisson_ratio: Number, second_modulus: Pascal, second_poisson_ratio: Number
) -> Pascal:
    r"""Modulus of two elastic bodies in contact.

    Parameters
    ----------
    first_modulus : float [Pa]
        Elastic modulus of one body.
    first_poisson_ratio : float [1]
        Its Poisson's ratio.
    second_modulus : float [Pa]
        Elastic modulus of the other.
    second_poisson_ratio : float [1]
        Its Poisson's ratio.

    Returns
    -------
    float [Pa]
        Contact modulus.

    Notes
    -----
    .. math:: \frac1{E^*} = \frac{1 - \nu_1^2}{E_1} + \frac{1 - \nu_2^2}{E_2}

    References
    ----------
    [johnson1985] Hertz contact

    Examples
    --------
    >>> round(contact_modulus(210e9, 0.3, 210e9, 0.3) / 1e9, 1)
    115.4
    """
    return 1.0 / (
        (1.0 - first_poisson_ratio**2) / first_modulus + (1.0 - second_poisson_ratio**2) / second_modulus
    )


def free_rock_angle(across_flats: Metre, *, flat_length: Metre, clearance: Metre) -> Radian:
    r"""How far flats turn in their slot from the middle until their corners touch.

    Parameters
    ----------
    across_flats : float [m]
        Of the tongue, shaft or crank.
    flat_length : float [m]
        Length of a flat across the axis.
    clearance : float [m]
        Slot across flats less that of the tongue, the whole play.

    Returns
    -------
    float [rad]
        Angle to either side; the whole free rock is twice that.

    Raises
    ------
    OutOfDomainError
        If there is no clearance, or so much that the flats turn right through.

    Notes
    -----
    .. math:: l \sin\delta + a \cos\delta = a + c, \quad \delta \approx c / l

    References
    ----------
    [iso286_1_2010] a clearance as the difference of sizes; the angle is geometry

    Examples
    --------
    >>> round(math.degrees(free_rock_angle(20e-3, flat_length=14e-3, clearance=0.095e-3)), 2)
    0.39
    """
    reach = math.hypot(flat_length, across_flats)
    if not (flat_length > 0.0 and across_flats > 0.0 and 0.0 <= clearance < reach - across_flats):
        raise OutOfDomainError("clearance", clearance, f"zero or more and below {reach - across_flats}")
    return math.asin((across_flats + clearance) / reach) - math.atan2(across_flats, flat_length)
