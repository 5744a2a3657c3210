"""Preload by stretch: the one way of tightening that does not ask for friction."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from fitwright.physics.fasteners.band import PreloadBand
from fitwright.physics.fasteners.resilience import STEEL_MODULUS, ShankSection, grip_resilience
from fitwright.physics.fasteners.thread import Thread
from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.quantity import Kelvin, Metre, MetrePerNewton, Newton, Number, Pascal, PerKelvin

READING_SPREAD: Final[Metre] = 5e-6
"""Half-width of the 95 % interval of a stretch reading [m]: a gauge of both ends in a careful shop."""
RESILIENCE_SPREAD: Final[Number] = 0.03
"""Half-width of the 95 % interval of a grip's resilience: modulus, and where the thread begins to hold."""
STEEL_EXPANSION: Final[PerKelvin] = 11.5e-6
"""Mean linear expansion coefficient of fastener steel [1/K]."""


def stretch_from_preload(
    thread: Thread,
    sections: Sequence[ShankSection],
    preload: Newton,
    *,
    free_thread_length: Metre = 0.0,
    elastic_modulus: Pascal = STEEL_MODULUS,
) -> Metre:
    r"""Lengthening of a fastener's grip under a preload.

    Parameters
    ----------
    thread : Thread
        The thread.
    sections : sequence of ShankSection
        The plain lengths of the shank within the grip.
    preload : float [N]
        Tension.
    free_thread_length : float [m]
        Length of thread within the grip.
    elastic_modulus : float [Pa]
        Of the fastener.

    Returns
    -------
    float [m]
        Stretch, while it is elastic.

    Raises
    ------
    OutOfDomainError
        If there is no length, the modulus is not above zero or the preload is negative.

    Notes
    -----
    .. math:: \Delta l = F \delta = \frac{F}{E} \left(\sum \frac{l_i}{A_i} + \frac{l_t}{A_s}\right)

    References
    ----------
    [bickford1995] stretch of a bolt by its sections

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> stretch = stretch_from_preload(thread_by_sizes(0.009, 0.001), [ShankSection(0.026, 0.0078)], 39.4e3,
    ...                                free_thread_length=0.012)
    >>> round(stretch * 1e3, 3)
    0.15
    """
    require_within(preload=preload)
    return preload * grip_resilience(
        thread, sections, free_thread_length=free_thread_length, elastic_modulus=elastic_modulus
    )


def preload_from_stretch(
    stretch: Metre,
    resilience: MetrePerNewton,
    *,
    reading_spread: Metre = READING_SPREAD,
    resilience_spread: Number = RESILIENCE_SPREAD,
    length: Metre = 0.0,
    temperature_spread: Kelvin = 0.0,
    expansion_coefficient: PerKelvin = STEEL_EXPANSION,
) -> PreloadBand:
    r"""Preload of a stretched fastener, and its 95 % band.

    Parameters
    ----------
    stretch : float [m]
        Length tightened less length free.
    resilience : float [m/N]
        By `grip_resilience`.
    reading_spread : float [m]
        Half-width of the 95 % interval of the stretch.
    resilience_spread : float [1]
        Half-width of the 95 % interval of the resilience, over it.
    length : float [m]
        Length that is measured over, for its warming between both readings.
    temperature_spread : float [K]
        Half-width of the 95 % interval of how much warmer the fastener is at one reading than at the other.
    expansion_coefficient : float [1/K]
        Of the fastener.

    Returns
    -------
    PreloadBand
        Preload with both ends, the lower never below zero.

    Raises
    ------
    OutOfDomainError
        If the resilience is not above zero, or a stretch or a spread is negative.

    Notes
    -----
    .. math:: F = \frac{\Delta l}{\delta}, \quad \left(\frac{U_F}{F}\right)^2 =
              \left(\frac{U_{\Delta l}}{\Delta l}\right)^2 + \left(\frac{\alpha l U_T}{\Delta l}\right)^2
              + \left(\frac{U_\delta}{\delta}\right)^2

    Ten kelvin on 60 mm of steel are 0.007 mm. A fastener that has yielded carries less than this says.

    References
    ----------
    [jcgm100_2008] combined uncertainty of independent inputs
    [bickford1995] stretch control

    Examples
    --------
    >>> band = preload_from_stretch(0.150e-3, 3.805e-9, length=0.060, temperature_spread=2.0)
    >>> [round(force / 1e3, 1) for force in (band.preload_low, band.preload, band.preload_high)]
    [37.6, 39.4, 41.2]
    """
    require_above_zero(resilience=resilience)
    require_within(
        stretch=stretch,
        reading_spread=reading_spread,
        resilience_spread=resilience_spread,
        length=length,
        temperature_spread=temperature_spread,
    )
    preload = stretch / resilience
    warmed = expansion_coefficient * length * temperature_spread
    half = math.hypot(reading_spread / resilience, warmed / resilience, resilience_spread * preload)
    return PreloadBand(preload, max(preload - half, 0.0), preload + half)


def stretch_by_warming(
    length: Metre, warming: Kelvin, *, expansion_coefficient: PerKelvin = STEEL_EXPANSION
) -> Metre:
    r"""Lengthening by warmth that a stretch reading takes for preload.

    Parameters
    ----------
    length : float [m]
        Length that is measured over.
    warming : float [K]
        How much warmer the fastener is at the second reading.
    expansion_coefficient : float [1/K]
        Of the fastener.

    Returns
    -------
    float [m]
        To be taken off the stretch.

    Raises
    ------
    OutOfDomainError
        If the length is negative.

    Notes
    -----
    .. math:: \Delta l = \alpha l \Delta T

    References
    ----------
    [iso1_2022] reference temperature of lengths

    Examples
    --------
    >>> round(stretch_by_warming(0.060, 10.0) * 1e3, 3)
    0.007
    """
    require_within(length=length)
    return expansion_coefficient * length * warming


def permanent_set(
    free_length_before: Metre,
    free_length_after: Metre,
    *,
    warming: Kelvin = 0.0,
    expansion_coefficient: PerKelvin = STEEL_EXPANSION,
) -> Metre:
    r"""Length that a loosened fastener has kept.

    Parameters
    ----------
    free_length_before : float [m]
        Free length before it was ever tightened.
    free_length_after : float [m]
        Free length once loosened.
    warming : float [K]
        How much warmer it was at the second reading.
    expansion_coefficient : float [1/K]
        Of the fastener.

    Returns
    -------
    float [m]
        Set; above the maker's limit the fastener is scrap.

    Raises
    ------
    OutOfDomainError
        If a length is not above zero.

    Notes
    -----
    .. math:: s = l_2 - l_1 (1 + \alpha \Delta T)

    References
    ----------
    [bickford1995] permanent set after yield

    Examples
    --------
    >>> round(permanent_set(0.060000, 0.060014) * 1e6, 1)
    14.0
    """
    require_above_zero(free_length_before=free_length_before, free_length_after=free_length_after)
    return free_length_after - free_length_before * (1.0 + expansion_coefficient * warming)
