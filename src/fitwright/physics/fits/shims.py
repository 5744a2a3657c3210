"""Shims that set a lash or a relief pressure, and what end float adds to a skew gear's backlash."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Metre, NewtonPerMetre, Pascal, Radian, SquareMetre

_TIE = 1e-9
"""Two steps this close to equally near, in steps, count as equally near."""


@dataclass(frozen=True, slots=True)
class LashShim:
    """A lash shim to fit.

    Attributes
    ----------
    exact : float [m]
        Thickness that would give the target lash.
    nearest : float [m]
        Nearest thickness that is made.
    predicted_lash : float [m]
        Lash that the nearest thickness will give.
    """

    exact: Metre
    nearest: Metre
    predicted_lash: Metre


def lash_shim(
    old_shim: Metre, *, measured_lash: Metre, target_lash: Metre, step: Metre, first_size: Metre = 0.0
) -> LashShim:
    r"""Shim that turns a measured valve lash into the target.

    Parameters
    ----------
    old_shim : float [m]
        Thickness of the shim that was in when the lash was read.
    measured_lash : float [m]
        Lash as read, cam on its base circle.
    target_lash : float [m]
        Lash wanted.
    step : float [m]
        Step in which shims are made.
    first_size : float [m]
        One thickness that is made, from which the steps count.

    Returns
    -------
    LashShim
        Exact and nearest thickness, and the lash that follows. Of two equally near the thinner, since
        more lash does not hold a valve open.

    Raises
    ------
    OutOfDomainError
        If the step is not positive or no positive thickness would do.

    Notes
    -----
    .. math:: t = t_{old} + \text{measured} - \text{target}

    References
    ----------
    [iso286_1_2010] a gap as the difference of sizes

    Examples
    --------
    >>> shim = lash_shim(2.95e-3, measured_lash=0.21e-3, target_lash=0.30e-3, step=0.05e-3)
    >>> [round(size * 1e3, 3) for size in (shim.exact, shim.nearest, shim.predicted_lash)]
    [2.86, 2.85, 0.31]
    """
    if not step > 0.0:
        raise OutOfDomainError("step", step, "greater than zero")
    exact = old_shim + measured_lash - target_lash
    if not exact > 0.0:
        raise OutOfDomainError("shim", exact, "positive; check which lash is the measured one")
    steps = (exact - first_size) / step
    nearest = first_size + math.ceil(steps - 0.5 - _TIE) * step
    if not nearest > _TIE * step:
        raise OutOfDomainError("shim", exact, f"half a step of {step} or more, so that one is made")
    return LashShim(exact=exact, nearest=nearest, predicted_lash=old_shim + measured_lash - nearest)


def relief_pressure(spring_rate: NewtonPerMetre, *, compression: Metre, seat_area: SquareMetre) -> Pascal:
    r"""Gauge pressure at which a spring-loaded relief valve starts to open.

    Parameters
    ----------
    spring_rate : float [N/m]
        Rate of the spring.
    compression : float [m]
        How far the spring is compressed with the valve shut.
    seat_area : float [m2]
        Area that the pressure acts on.

    Returns
    -------
    float [Pa]
        Opening pressure above that behind the valve.

    Raises
    ------
    OutOfDomainError
        If the area is not positive.

    Notes
    -----
    .. math:: p = k x / A

    References
    ----------
    [merritt1967] direct-acting relief valves

    Examples
    --------
    >>> round(relief_pressure(8000.0, compression=7.07e-3, seat_area=113.1e-6) / 1e5, 2)
    5.0
    """
    if not seat_area > 0.0:
        raise OutOfDomainError("seat_area", seat_area, "greater than zero")
    return spring_rate * compression / seat_area


def relief_shim(pressure_change: Pascal, *, spring_rate: NewtonPerMetre, seat_area: SquareMetre) -> Metre:
    r"""Shim under a relief spring that raises its opening pressure; negative means: take that much out.

    Parameters
    ----------
    pressure_change : float [Pa]
        Wanted change of the opening pressure.
    spring_rate : float [N/m]
        Rate of the spring.
    seat_area : float [m2]
        Area that the pressure acts on.

    Returns
    -------
    float [m]
        Thickness of the shim.

    Raises
    ------
    OutOfDomainError
        If the spring rate or the area is not positive.

    Notes
    -----
    .. math:: t = \Delta p A / k

    References
    ----------
    [merritt1967] direct-acting relief valves

    Examples
    --------
    >>> round(relief_shim(0.35e5, spring_rate=8000.0, seat_area=113.1e-6) * 1e3, 2)
    0.49
    """
    for name, value in (("spring_rate", spring_rate), ("seat_area", seat_area)):
        if not value > 0.0:
            raise OutOfDomainError(name, value, "greater than zero")
    return pressure_change * seat_area / spring_rate


def apparent_backlash(true_backlash: Metre, *, end_float: Metre, helix_angle: Radian) -> Metre:
    r"""Backlash felt at a skew gear whose shaft can move endwise.

    Parameters
    ----------
    true_backlash : float [m]
        Backlash between the teeth with the shaft held endwise.
    end_float : float [m]
        Endwise play of the shaft.
    helix_angle : float [rad]
        Helix angle of the gear on that shaft.

    Returns
    -------
    float [m]
        Backlash as felt at the pitch circle.

    Notes
    -----
    .. math:: j_{apparent} = j + f \tan\beta

    A shim takes away the share of the float only; the true backlash changes with the centre distance.

    References
    ----------
    [iso21771_2007] helical gears, axial and transverse displacement

    Examples
    --------
    >>> thou = 25.4e-6
    >>> round(apparent_backlash(2.7 * thou, end_float=7 * thou, helix_angle=math.radians(37)) / thou, 1)
    8.0
    """
    return true_backlash + end_float * math.tan(helix_angle)


def true_backlash(apparent: Metre, *, end_float: Metre, helix_angle: Radian) -> Metre:
    r"""Backlash between the teeth, from what is felt and the shaft's end float.

    Parameters
    ----------
    apparent : float [m]
        Backlash as felt at the pitch circle.
    end_float : float [m]
        Endwise play of the shaft.
    helix_angle : float [rad]
        Helix angle of the gear on that shaft.

    Returns
    -------
    float [m]
        True backlash.

    Notes
    -----
    .. math:: j = j_{apparent} - f \tan\beta

    References
    ----------
    [iso21771_2007] helical gears, axial and transverse displacement

    Examples
    --------
    >>> thou = 25.4e-6
    >>> round(true_backlash(8 * thou, end_float=7 * thou, helix_angle=math.radians(37)) / thou, 1)
    2.7
    """
    return apparent - end_float * math.tan(helix_angle)
