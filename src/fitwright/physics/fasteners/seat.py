"""Pressure under a head, against what its seat bears."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.physics.fasteners.friction import Bearing
from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.quantity import Newton, Number, Pascal


@dataclass(frozen=True, slots=True)
class SeatPressure:
    """Pressure under a head.

    Attributes
    ----------
    pressure : float [Pa]
        Preload over the area of the ring.
    utilisation : float [1]
        Pressure over the seat's limit; above 1 the head sinks in and preload is lost.
    """

    pressure: Pascal
    utilisation: Number


def seat_pressure(bearing: Bearing, preload: Newton, limit: Pascal) -> SeatPressure:
    r"""Pressure under a head and its share of the limit.

    Parameters
    ----------
    bearing : Bearing
        Ring under the head.
    preload : float [N]
        Largest preload: the upper end of its band.
    limit : float [Pa]
        Limiting pressure of the seat's metal.

    Returns
    -------
    SeatPressure
        Pressure and utilisation.

    Raises
    ------
    OutOfDomainError
        If the preload is negative or the limit is not above zero.

    Notes
    -----
    .. math:: p = \frac{4 F}{\pi (d_w^2 - d_h^2)}

    References
    ----------
    [vdi2230_1_2015] R10, surface pressure

    Examples
    --------
    >>> found = seat_pressure(Bearing(0.01463, 0.011), 40e3, 350e6)
    >>> round(found.pressure / 1e6), round(found.utilisation, 2)
    (547, 1.56)
    """
    require_within(preload=preload)
    require_above_zero(limit=limit)
    pressure = preload / bearing.area
    return SeatPressure(pressure, pressure / limit)
