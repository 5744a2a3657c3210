"""Internal gear pumps with a crescent: displacement and ripple from gear data."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.pump.spur import FEW_IN_CONTACT, GearDisplacement, base_pitch, check_gear
from fitwright.quantity import Metre, Radian


@dataclass(frozen=True, slots=True)
class CrescentPair:
    """A gear inside a ring gear, with a crescent between their tips.

    Attributes
    ----------
    inner_teeth, outer_teeth : int
        Of the driving gear and of the ring.
    module : float [m]
        Pitch diameter over teeth, of the tool.
    pressure_angle : float [rad]
        Of the tool, 20 degrees for most.
    width : float [m]
        Of the gears.
    inner_tip_diameter : float [m]
        Over the tips of the driving gear.
    outer_tip_diameter : float [m]
        Through the tips of the ring.
    centre_distance : float [m]
        Between the axes as the gears run.
    """

    inner_teeth: int
    outer_teeth: int
    module: Metre
    pressure_angle: Radian
    width: Metre
    inner_tip_diameter: Metre
    outer_tip_diameter: Metre
    centre_distance: Metre

    def __post_init__(self) -> None:
        check_gear(self.inner_teeth, self.module, self.pressure_angle, self.width)
        if not self.outer_teeth > self.inner_teeth + 1:
            raise OutOfDomainError("outer_teeth", self.outer_teeth, "at least two more than the inner gear's")
        difference = (self.outer_teeth - self.inner_teeth) * self.module * math.cos(self.pressure_angle)
        if not self.centre_distance > 0.5 * difference:
            raise OutOfDomainError("centre_distance", self.centre_distance, f"above {0.5 * difference}")
        if not self.inner_tip_diameter > 2.0 * self.inner_working_radius:
            raise OutOfDomainError("inner_tip_diameter", self.inner_tip_diameter, "above its working circle")
        if not 0.0 < self.outer_tip_diameter < 2.0 * self.outer_working_radius:
            raise OutOfDomainError(
                "outer_tip_diameter", self.outer_tip_diameter, "positive and below the ring's working circle"
            )

    @property
    def inner_working_radius(self) -> Metre:
        """Radius at which the driving gear rolls on the ring."""
        return self.centre_distance * self.inner_teeth / (self.outer_teeth - self.inner_teeth)

    @property
    def outer_working_radius(self) -> Metre:
        """Radius at which the ring rolls on the driving gear."""
        return self.inner_working_radius + self.centre_distance

    @property
    def inner_base_radius(self) -> Metre:
        """Radius of the driving gear's base circle."""
        return 0.5 * self.inner_teeth * self.module * math.cos(self.pressure_angle)

    @property
    def outer_base_radius(self) -> Metre:
        """Radius of the ring's base circle."""
        return 0.5 * self.outer_teeth * self.module * math.cos(self.pressure_angle)


def crescent_displacement(pair: CrescentPair) -> GearDisplacement:
    r"""Displacement of a crescent pump for each revolution of the driving gear.

    Parameters
    ----------
    pair : CrescentPair
        Gear data.

    Returns
    -------
    GearDisplacement
        Displacement, ripple, contact ratio, and the usual estimate.

    Notes
    -----
    With the contact at a distance s from the pitch point along the line of action, and i = z1 / z2,

    .. math:: \frac{dV}{d\varphi} = \frac{b}{2} \left[r_{a1}^2 - r_{w1}^2 + i (r_{w2}^2 - r_{a2}^2)
              - (1 - i) s^2\right], \quad \overline{s^2} = \frac{p_b^2}{12}

    Trapped oil is taken to be relieved, as for external gears. A ring whose tips reach inside its base
    circle touches from there on only. The estimate is 2 pi m^2 z1 b.

    References
    ----------
    [manring2003] theoretical flow of an external gear pump; here for internal gears, derived alike

    Examples
    --------
    >>> gears = CrescentPair(19, 27, 3e-3, math.radians(20.0), 12e-3, 62.4e-3, 75.9e-3, 12e-3)
    >>> found = crescent_displacement(gears)
    >>> round(found.displacement * 1e6, 2), round(found.flow_ripple, 3)
    (11.31, 0.019)
    """
    tips = 0.5 * pair.inner_tip_diameter, 0.5 * pair.outer_tip_diameter
    works = pair.inner_working_radius, pair.outer_working_radius
    i = pair.inner_teeth / pair.outer_teeth
    pitch = base_pitch(pair.module, pair.pressure_angle)
    mean = tips[0] ** 2 - works[0] ** 2 + i * (works[1] ** 2 - tips[1] ** 2) - (1.0 - i) * pitch**2 / 12.0
    ratio = _contact_length(pair) / pitch
    return GearDisplacement(
        displacement=math.pi * pair.width * mean,
        estimate=2.0 * math.pi * pair.module**2 * pair.inner_teeth * pair.width,
        flow_ripple=(1.0 - i) * 0.25 * pitch**2 / mean,
        contact_ratio=ratio,
        cautions=(FEW_IN_CONTACT,) if ratio < 1.0 else (),
    )


def _contact_length(pair: CrescentPair) -> Metre:
    """Length of the line of action between the tip circles of gear and ring."""

    def along(radius: Metre, base: Metre) -> Metre:
        return math.sqrt(max(radius**2 - base**2, 0.0))

    gear = along(0.5 * pair.inner_tip_diameter, pair.inner_base_radius)
    ring = along(0.5 * pair.outer_tip_diameter, pair.outer_base_radius)
    between = along(pair.outer_working_radius, pair.outer_base_radius)
    between -= along(pair.inner_working_radius, pair.inner_base_radius)
    return gear + between - ring
