"""External gear pumps: two equal involute gears, displacement and ripple from gear data."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import CubicMetre, Metre, Number, Radian

FEW_IN_CONTACT = (
    "The teeth lose contact before the next pair meets: outlet and inlet join once for each tooth."
)


@dataclass(frozen=True, slots=True)
class SpurPair:
    """Two equal external gears.

    Attributes
    ----------
    teeth : int
        Of each gear.
    module : float [m]
        Pitch diameter over teeth, of the tool.
    pressure_angle : float [rad]
        Of the tool, 20 degrees for most.
    width : float [m]
        Of the gears.
    outside_diameter : float [m]
        Over the tips.
    centre_distance : float [m]
        As the gears run.
    """

    teeth: int
    module: Metre
    pressure_angle: Radian
    width: Metre
    outside_diameter: Metre
    centre_distance: Metre

    def __post_init__(self) -> None:
        check_gear(self.teeth, self.module, self.pressure_angle, self.width)
        if not self.base_diameter < self.centre_distance < self.outside_diameter:
            raise OutOfDomainError(
                "centre_distance",
                self.centre_distance,
                f"above the base diameter {self.base_diameter} and below the outside diameter",
            )

    @property
    def base_diameter(self) -> Metre:
        """Diameter of the base circles."""
        return self.teeth * self.module * math.cos(self.pressure_angle)


@dataclass(frozen=True, slots=True)
class GearDisplacement:
    """What a gear pump displaces.

    Attributes
    ----------
    displacement : float [m3]
        For each revolution of the driving gear.
    estimate : float [m3]
        The usual estimate from module, teeth and width, for comparison.
    flow_ripple : float [1]
        Largest less least flow over the mean flow, trapped oil relieved to the right side.
    contact_ratio : float [1]
        Pairs of teeth in contact, on average.
    cautions : tuple of str
        What to know before using the numbers.
    """

    displacement: CubicMetre
    estimate: CubicMetre
    flow_ripple: Number
    contact_ratio: Number
    cautions: tuple[str, ...]


def spur_displacement(pair: SpurPair) -> GearDisplacement:
    r"""Displacement of a pair of equal external gears for each revolution.

    Parameters
    ----------
    pair : SpurPair
        Gear data.

    Returns
    -------
    GearDisplacement
        Displacement, ripple, contact ratio, and the usual estimate.

    Notes
    -----
    With the contact at a distance s from the pitch point along the line of action, both tips sealing,

    .. math:: \frac{dV}{d\varphi} = b \left(r_a^2 - \tfrac{a^2}{4} - s^2\right), \quad
              V = 2 \pi b \left(r_a^2 - \tfrac{a^2}{4} - \tfrac{p_b^2}{12}\right), \quad
              p_b = \pi m \cos\alpha

    where one pair of teeth after another seals over one base pitch; grooves lead trapped oil to the outlet
    until then, and to the inlet after. Without them the ripple is larger. The estimate is 2 pi m^2 z b.

    References
    ----------
    [manring2003] theoretical flow of an external gear pump

    Examples
    --------
    >>> gears = SpurPair(11, 3.5e-3, math.radians(20.0), 25e-3, 45.5e-3, 38.5e-3)
    >>> found = spur_displacement(gears)
    >>> round(found.displacement * 1e6, 2), round(found.estimate * 1e6, 2), round(found.flow_ripple, 3)
    (21.69, 21.17, 0.193)
    """
    tip, half = 0.5 * pair.outside_diameter, 0.5 * pair.centre_distance
    pitch = base_pitch(pair.module, pair.pressure_angle)
    mean = tip**2 - half**2 - pitch**2 / 12.0
    ratio = 2.0 * (_reach(tip, 0.5 * pair.base_diameter) - _reach(half, 0.5 * pair.base_diameter)) / pitch
    return GearDisplacement(
        displacement=2.0 * math.pi * pair.width * mean,
        estimate=2.0 * math.pi * pair.module**2 * pair.teeth * pair.width,
        flow_ripple=0.25 * pitch**2 / mean,
        contact_ratio=ratio,
        cautions=(FEW_IN_CONTACT,) if ratio < 1.0 else (),
    )


def base_pitch(module: Metre, pressure_angle: Radian) -> Metre:
    r"""Distance between like flanks of neighbouring teeth along the line of action.

    Parameters
    ----------
    module : float [m]
        Of the tool.
    pressure_angle : float [rad]
        Of the tool.

    Returns
    -------
    float [m]
        Base pitch.

    Notes
    -----
    .. math:: p_b = \pi m \cos\alpha

    References
    ----------
    [iso21771_2007] involute gears

    Examples
    --------
    >>> round(base_pitch(3.5e-3, math.radians(20.0)) * 1e3, 3)
    10.332
    """
    return math.pi * module * math.cos(pressure_angle)


def check_gear(teeth: int, module: Metre, pressure_angle: Radian, width: Metre) -> None:
    """Refuse gear data that mean nothing.

    Parameters
    ----------
    teeth : int
        Number of teeth.
    module : float [m]
        Of the tool.
    pressure_angle : float [rad]
        Of the tool.
    width : float [m]
        Of the gear.

    Raises
    ------
    OutOfDomainError
        If a size is not positive, there are fewer than five teeth, or the angle is none of a tooth.

    Examples
    --------
    >>> check_gear(11, 3.5e-3, math.radians(20.0), 25e-3)
    """
    if teeth < 5:
        raise OutOfDomainError("teeth", teeth, "5 or more")
    for name, value in (("module", module), ("width", width)):
        if not value > 0.0:
            raise OutOfDomainError(name, value, "greater than zero")
    if not 0.0 < pressure_angle < math.radians(45.0):
        raise OutOfDomainError(
            "pressure_angle", pressure_angle, "above zero and below 45 degrees, in radians"
        )


def _reach(radius: Metre, base: Metre) -> Metre:
    """Length along the line of action from the base circle to a radius."""
    return math.sqrt(radius**2 - base**2)
