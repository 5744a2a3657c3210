"""Lengths referred to 20 C from what was indicated at the temperatures of part and gauge."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.physics.metrology.unknowns import Shared, Unknown, require_finite
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import Kelvin, Metre, PerKelvin

REFERENCE_TEMPERATURE: Kelvin = 293.15
"""20 C, to which sizes of parts refer."""


@dataclass(frozen=True, slots=True)
class ReferredSize:
    """A size at 20 C with what it depends on.

    Attributes
    ----------
    size : float [m]
        Size of the part at 20 C.
    to_part_expansion, to_gauge_expansion : float [m K]
        Change of the size with each expansion coefficient.
    to_part_temperature : float [m/K]
        Change with the part's temperature, the gauge following it.
    to_temperature_difference : float [m/K]
        Change with the part's temperature less the gauge's.
    """

    size: Metre
    to_part_expansion: float
    to_gauge_expansion: float
    to_part_temperature: float
    to_temperature_difference: float

    def shared(
        self,
        part_expansion: Unknown,
        gauge_expansion: Unknown,
        part_temperature: Unknown,
        temperature_difference: Unknown,
    ) -> tuple[Shared, ...]:
        """The four unknowns as a reading names them, with their sensitivities."""
        return (
            Shared(part_expansion, self.to_part_expansion),
            Shared(gauge_expansion, self.to_gauge_expansion),
            Shared(part_temperature, self.to_part_temperature),
            Shared(temperature_difference, self.to_temperature_difference),
        )


def size_at_reference(
    indication: Metre,
    *,
    part_temperature: Kelvin,
    gauge_temperature: Kelvin,
    part_expansion: PerKelvin,
    gauge_expansion: PerKelvin,
) -> ReferredSize:
    r"""Refer an indication to 20 C.

    Parameters
    ----------
    indication : float [m]
        What the gauge showed, its scale being right at 20 C.
    part_temperature : float [K]
        Temperature of the part.
    gauge_temperature : float [K]
        Temperature of the gauge.
    part_expansion : float [1/K]
        Linear expansion coefficient of the part.
    gauge_expansion : float [1/K]
        Linear expansion coefficient of the gauge.

    Returns
    -------
    ReferredSize
        The size at 20 C, and its sensitivities.

    Raises
    ------
    OutOfDomainError
        If a number is not finite, or a temperature is not above absolute zero.

    Notes
    -----
    With :math:`\theta` counted from 20 C, :math:`\delta\theta = \theta_p - \theta_g` and the indication
    :math:`y`:

    .. math:: l = y\,\frac{1 + \alpha_g \theta_g}{1 + \alpha_p \theta_p}

    Part and gauge on one bench share their temperature, so that the part's temperature and the difference
    are the two independent unknowns; a change of the common one matters only as far as the coefficients
    differ.

    References
    ----------
    [jcgm100_2008] H.1.1, eq. H.2; [iso1_2022]

    Examples
    --------
    >>> hot = size_at_reference(
    ...     60e-3,
    ...     part_temperature=303.15,
    ...     gauge_temperature=293.15,
    ...     part_expansion=11.5e-6,
    ...     gauge_expansion=11.5e-6,
    ... )
    >>> f"{hot.size * 1e3:.4f} mm"
    '59.9931 mm'
    """
    for name, temperature in (
        ("part temperature", part_temperature),
        ("gauge temperature", gauge_temperature),
    ):
        require_finite(name, temperature)
        if temperature <= 0.0:
            raise OutOfDomainError(name, temperature, "above absolute zero, in kelvin")
    for name, number in (
        ("indication", indication),
        ("part's expansion", part_expansion),
        ("gauge's expansion", gauge_expansion),
    ):
        require_finite(name, number)
    part, gauge = part_temperature - REFERENCE_TEMPERATURE, gauge_temperature - REFERENCE_TEMPERATURE
    part_growth, gauge_growth = 1.0 + part_expansion * part, 1.0 + gauge_expansion * gauge
    size = indication * gauge_growth / part_growth
    return ReferredSize(
        size=size,
        to_part_expansion=-size * part / part_growth,
        to_gauge_expansion=size * gauge / gauge_growth,
        to_part_temperature=size * (gauge_expansion / gauge_growth - part_expansion / part_growth),
        to_temperature_difference=-size * gauge_expansion / gauge_growth,
    )
