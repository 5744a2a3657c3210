"""Oil on its way through a turning crank: what the column loses inwards and gains outwards."""

from __future__ import annotations

import math

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import KilogramPerCubicMetre, Metre, Pascal, RadianPerSecond


def centrifugal_pressure_change(
    density: KilogramPerCubicMetre,
    *,
    angular_speed: RadianPerSecond,
    from_radius: Metre,
    to_radius: Metre,
) -> Pascal:
    r"""Change of pressure along a full drilling that turns with the crank.

    Parameters
    ----------
    density : float [kg/m3]
        Of the oil.
    angular_speed : float [rad/s]
        Of the crank.
    from_radius : float [m]
        Distance from the crank's axis to where the oil comes from.
    to_radius : float [m]
        Distance to where it goes.

    Returns
    -------
    float [Pa]
        Positive outwards, negative inwards.

    Raises
    ------
    OutOfDomainError
        If the density is not positive or a radius negative.

    Notes
    -----
    .. math:: \Delta p = \tfrac{1}{2} \rho \omega^2 (r_2^2 - r_1^2)

    A column without gaps that turns like a solid, still in the drilling. What friction takes besides
    is small in drillings of usual size.

    References
    ----------
    [white2011] fluid in rigid-body rotation

    Examples
    --------
    >>> inwards = centrifugal_pressure_change(850.0, angular_speed=8000 * math.pi / 30.0,
    ...                                       from_radius=0.028, to_radius=0.0)
    >>> round(inwards / 1e5, 2)
    -2.34
    """
    if not density > 0.0:
        raise OutOfDomainError("density", density, "positive")
    for name, radius in (("from_radius", from_radius), ("to_radius", to_radius)):
        if not radius >= 0.0:
            raise OutOfDomainError(name, radius, "zero or more")
    return 0.5 * density * angular_speed**2 * (to_radius**2 - from_radius**2)


def speed_of_no_margin(
    density: KilogramPerCubicMetre, *, gauge_pressure: Pascal, from_radius: Metre, to_radius: Metre
) -> RadianPerSecond:
    r"""Speed of the crank at which a feed pressure just lifts the oil to its innermost place.

    Parameters
    ----------
    density : float [kg/m3]
        Of the oil.
    gauge_pressure : float [Pa]
        Where the oil enters the journal.
    from_radius : float [m]
        Distance from the crank's axis to there.
    to_radius : float [m]
        Smallest distance on its way.

    Returns
    -------
    float [rad/s]
        Infinite where the way does not lead inwards.

    Raises
    ------
    OutOfDomainError
        If the density is not positive or the pressure negative.

    Notes
    -----
    .. math:: \omega = \sqrt{\frac{2 p}{\rho (r_1^2 - r_2^2)}}

    References
    ----------
    [white2011] fluid in rigid-body rotation

    Examples
    --------
    >>> speed = speed_of_no_margin(850.0, gauge_pressure=2.34e5, from_radius=0.028, to_radius=0.0)
    >>> round(speed * 30.0 / math.pi)
    8003
    """
    if not (density > 0.0 and gauge_pressure >= 0.0):
        raise OutOfDomainError("gauge_pressure", gauge_pressure, "zero or more, and the density positive")
    lift = density * (from_radius**2 - to_radius**2)
    return math.sqrt(2.0 * gauge_pressure / lift) if lift > 0.0 else math.inf
