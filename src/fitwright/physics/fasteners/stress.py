"""Tension with torsion: how near to yield and to proof load tightening comes, and the way back."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.fasteners.band import FrictionRange, PreloadBand
from fitwright.physics.fasteners.strength import Strength
from fitwright.physics.fasteners.thread import Thread
from fitwright.physics.numerics.domain import require_above_zero, require_within
from fitwright.quantity import Metre, Newton, Number, Pascal


@dataclass(frozen=True, slots=True)
class Utilisation:
    """Stress in a fastener while it is being tightened.

    Attributes
    ----------
    tension : float [Pa]
        Preload over the stress area, or over a thinner shank.
    torsion : float [Pa]
        Shear stress by the torque in the thread.
    equivalent_stress : float [Pa]
        Von Mises stress of both.
    yield_utilisation : float [1]
        Von Mises stress over yield strength.
    proof_utilisation : float [1]
        Tension over proof stress.
    """

    tension: Pascal
    torsion: Pascal
    equivalent_stress: Pascal
    yield_utilisation: Number
    proof_utilisation: Number


def utilisation(
    thread: Thread,
    strength: Strength,
    thread_friction: Number,
    preload: Newton,
    *,
    shank_diameter: Metre | None = None,
) -> Utilisation:
    r"""Stress in a fastener at the end of tightening, over its yield strength and its proof stress.

    Parameters
    ----------
    thread : Thread
        The thread.
    strength : Strength
        Of its property class.
    thread_friction : float [1]
        Coefficient of friction in the thread.
    preload : float [N]
        Preload.
    shank_diameter : float [m], optional
        Of a waisted shank; it counts where it is thinner than the stress area.

    Returns
    -------
    Utilisation
        Stresses and their shares.

    Raises
    ------
    OutOfDomainError
        If the preload is negative, or a size is not above zero.

    Notes
    -----
    With d0 the diameter of the stress area (or of the shank) and A0 its area:

    .. math:: \sigma = \frac{F}{A_0}, \quad
              \tau = \frac{12}{\pi d_0^3} F \frac{d_2}{2}
                     \left(\frac{p}{\pi d_2} + \frac{\mu_t}{\cos(\alpha/2)}\right), \quad
              \sigma_{red} = \sqrt{\sigma^2 + 3 \tau^2}

    The section modulus pi d0^3 / 12 is that of a section which yields throughout, as the source takes it for
    assembly; an elastic section has pi d0^3 / 16. After tightening a good part of the torsion relaxes.

    References
    ----------
    [vdi2230_1_2015] R7, assembly preload

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> found = utilisation(thread_by_sizes(0.010, 0.00125), Strength(1040e6, 940e6, 830e6), 0.12, 46.4e3)
    >>> round(found.yield_utilisation, 3), round(found.proof_utilisation, 3)
    (0.899, 0.913)
    """
    require_within(preload=preload, thread_friction=thread_friction)
    d0 = _carrying_diameter(thread, shank_diameter)
    tension = preload / (0.25 * math.pi * d0**2)
    torsion = tension * _torsion_ratio(thread, d0, thread_friction)
    equivalent = math.sqrt(tension**2 + 3.0 * torsion**2)
    return Utilisation(
        tension=tension,
        torsion=torsion,
        equivalent_stress=equivalent,
        yield_utilisation=equivalent / strength.yield_strength,
        proof_utilisation=tension / strength.proof_stress,
    )


def preload_at_utilisation(
    thread: Thread,
    yield_strength: Pascal,
    thread_friction: Number,
    yield_utilisation: Number,
    *,
    shank_diameter: Metre | None = None,
) -> Newton:
    r"""Preload at which tightening brings a fastener to a share of its yield strength.

    Parameters
    ----------
    thread : Thread
        The thread.
    yield_strength : float [Pa]
        Yield strength.
    thread_friction : float [1]
        Coefficient of friction in the thread.
    yield_utilisation : float [1]
        Von Mises stress over yield strength that is wanted.
    shank_diameter : float [m], optional
        Of a waisted shank.

    Returns
    -------
    float [N]
        Preload.

    Raises
    ------
    OutOfDomainError
        If the strength is not above zero, or friction or utilisation is negative.

    Notes
    -----
    .. math:: F = \frac{\nu R_{p0.2} A_0}{\sqrt{1 + 3 \left[\frac32 \frac{d_2}{d_0}
              \left(\frac{p}{\pi d_2} + \frac{\mu_t}{\cos(\alpha/2)}\right)\right]^2}}

    References
    ----------
    [vdi2230_1_2015] R7, assembly preload

    Examples
    --------
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> round(preload_at_utilisation(thread_by_sizes(0.010, 0.00125), 940e6, 0.12, 0.9) / 1e3, 1)
    46.5
    """
    require_above_zero(yield_strength=yield_strength)
    require_within(thread_friction=thread_friction, yield_utilisation=yield_utilisation)
    d0 = _carrying_diameter(thread, shank_diameter)
    area = 0.25 * math.pi * d0**2
    torsion = _torsion_ratio(thread, d0, thread_friction)
    return yield_utilisation * yield_strength * area / math.sqrt(1.0 + 3.0 * torsion**2)


def preload_at_onset_of_yield(
    thread: Thread,
    yield_strength: Pascal,
    friction: FrictionRange,
    *,
    largest_yield_strength: Pascal | None = None,
    shank_diameter: Metre | None = None,
) -> PreloadBand:
    r"""Preload at which a fastener starts to yield while it is turned, with its band.

    Parameters
    ----------
    thread : Thread
        The thread.
    yield_strength : float [Pa]
        Smallest yield strength of the class.
    friction : FrictionRange
        Friction and how far it may differ.
    largest_yield_strength : float [Pa], optional
        Upper end of the batch's yield strength; 1.2 times the smallest where it is not known.
    shank_diameter : float [m], optional
        Of a waisted shank.

    Returns
    -------
    PreloadBand
        At the smallest strength with the usual friction; the band spans both strengths and the friction.

    Raises
    ------
    OutOfDomainError
        If a strength is not above zero.

    Notes
    -----
    `preload_at_utilisation` of 1. To be recorded beside a tightening to yield, never to be set by a torque.
    The band is from the weakest bolt with most friction to the strongest with least.

    References
    ----------
    [vdi2230_1_2015] yield-controlled tightening

    Examples
    --------
    >>> from fitwright.physics.fasteners.friction import Friction
    >>> from fitwright.physics.fasteners.thread import thread_by_sizes
    >>> band = preload_at_onset_of_yield(thread_by_sizes(0.010, 0.00125), 940e6,
    ...                                  FrictionRange(Friction(0.12, 0.12)))
    >>> [round(force / 1e3, 1) for force in (band.preload_low, band.preload, band.preload_high)]
    [50.4, 51.6, 63.3]
    """
    strongest = 1.2 * yield_strength if largest_yield_strength is None else largest_yield_strength

    def at(strength: Pascal, thread_friction: Number) -> Newton:
        return preload_at_utilisation(thread, strength, thread_friction, 1.0, shank_diameter=shank_diameter)

    return PreloadBand(
        preload=at(yield_strength, friction.usual.thread),
        preload_low=at(yield_strength, friction.most.thread),
        preload_high=at(strongest, friction.least.thread),
    )


def _carrying_diameter(thread: Thread, shank_diameter: Metre | None) -> Metre:
    if shank_diameter is None:
        return thread.stress_diameter
    require_above_zero(shank_diameter=shank_diameter)
    return min(shank_diameter, thread.stress_diameter)


def _torsion_ratio(thread: Thread, d0: Metre, thread_friction: Number) -> Number:
    """Shear stress over tension, of a section that yields throughout."""
    climb = thread.pitch / (math.pi * thread.pitch_diameter) + thread_friction / math.cos(thread.flank_angle)
    return 1.5 * thread.pitch_diameter / d0 * climb
