"""Tooth data of an internal rotor pump from sizes that can be measured."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.pump.chambers import rotor_displacement
from fitwright.physics.pump.trochoid import RotorPair, smallest_radius_of_curvature, tooth_root
from fitwright.quantity import Metre

_SAMPLES = 25


@dataclass(frozen=True, slots=True)
class ToothData:
    """What measured sizes say of a pair of rotors.

    Attributes
    ----------
    pair : RotorPair
        The tooth data.
    bore_difference : float [m]
        Bore measured through the outer rotor's teeth less the bore that tips and roots call for; what the
        tips of a meshed pair have for clearance; NaN without that measurement.
    smallest_tooth_radius, largest_tooth_radius : float [m]
        Tooth radii for which teeth, roots and flanks are possible.
    smallest_displacement, largest_displacement : float [m3]
        Displacement over the tooth radii that are possible; both that of the pair where it was measured.
    iterations : int
        Steps of the search for the largest tooth radius.
    cautions : tuple of str
        What to know before using the numbers.
    """

    pair: RotorPair
    bore_difference: Metre
    smallest_tooth_radius: Metre
    largest_tooth_radius: Metre
    smallest_displacement: float
    largest_displacement: float
    iterations: int
    cautions: tuple[str, ...]


def tooth_data(
    inner_lobes: int,
    *,
    inner_tip_diameter: Metre,
    inner_root_diameter: Metre,
    width: Metre,
    tooth_radius: Metre | None = None,
    outer_bore_diameter: Metre | None = None,
    most_iterations: int = 60,
) -> ToothData:
    r"""Tooth data from tip and root of the inner rotor, and the radius of the outer rotor's teeth.

    Parameters
    ----------
    inner_lobes : int
        Lobes of the inner rotor.
    inner_tip_diameter : float [m]
        Diameter over its tips. With an odd number of lobes: twice the radius.
    inner_root_diameter : float [m]
        Diameter over its roots, likewise.
    width : float [m]
        Height of the rotors.
    tooth_radius : float [m] or None
        Radius of the outer rotor's teeth, as by a radius gauge; None where it was not measured.
    outer_bore_diameter : float [m] or None
        Diameter through the tips of the outer rotor's teeth, as a check.
    most_iterations : int
        Bound on the search for the tooth radius that is just possible.

    Returns
    -------
    ToothData
        The tooth data; without a tooth radius with the middle of those possible, and the range of
        displacements that they leave.

    Raises
    ------
    OutOfDomainError
        If the tips do not lie outside the roots, or no tooth radius fits.
    NotConvergedError
        If the largest possible tooth radius was not found.

    Notes
    -----
    Tips and roots give the eccentricity and the outer rotor's bore, whatever the tooth radius is:

    .. math:: \epsilon = \frac{d_{tip} - d_{root}}{4}, \quad G - \rho = \frac{d_{tip} + d_{root}}{4}

    so the bore adds nothing but a check. The tooth radius moves the displacement by tenths of a per cent.
    Sizes without clearance are meant; clearance at the tips shows up in the check.

    References
    ----------
    [ivantysyn2001] trochoid gearing; the equations are derived here

    Examples
    --------
    >>> found = tooth_data(4, inner_tip_diameter=38e-3, inner_root_diameter=26e-3, width=10e-3,
    ...     tooth_radius=9e-3, outer_bore_diameter=32.1e-3)
    >>> pair = found.pair
    >>> [round(size * 1e3, 3) for size in (pair.eccentricity, pair.generating_radius, found.bore_difference)]
    [3.0, 25.0, 0.1]
    """
    if not inner_tip_diameter > inner_root_diameter > 0.0:
        raise OutOfDomainError("inner_tip_diameter", inner_tip_diameter, "above the root's, both positive")
    eccentricity = (inner_tip_diameter - inner_root_diameter) / 4.0
    reach = (inner_tip_diameter + inner_root_diameter) / 4.0

    def pair_of(radius: Metre) -> RotorPair:
        return RotorPair(inner_lobes, eccentricity, reach + radius, radius, width)

    low, high, iterations = _possible_radii(inner_lobes, eccentricity, reach, most_iterations)
    radius = 0.5 * (low + high) if tooth_radius is None else tooth_radius
    if not low <= radius < high:
        raise OutOfDomainError("tooth_radius", radius, f"from {low:.6g} to below {high:.6g}")
    tried = np.linspace(low, high, _SAMPLES + 2)[1:-1].tolist() if tooth_radius is None else [radius]
    displacements = [rotor_displacement(pair_of(each)).displacement for each in tried]
    difference = math.nan if outer_bore_diameter is None else outer_bore_diameter - 2.0 * reach
    return ToothData(
        pair=pair_of(radius),
        bore_difference=difference,
        smallest_tooth_radius=low,
        largest_tooth_radius=high,
        smallest_displacement=min(displacements),
        largest_displacement=max(displacements),
        iterations=iterations,
        cautions=_cautions(tooth_radius, difference),
    )


def _possible_radii(
    lobes: int, eccentricity: Metre, reach: Metre, most_iterations: int
) -> tuple[Metre, Metre, int]:
    """Least and largest tooth radius: teeth reach the roots, keep apart, and do not undercut."""
    teeth = lobes + 1
    root = reach + 2.0 * eccentricity
    # Teeth reach their roots where hypot(G, r) is beyond the root circle; trochoids have no loops.
    reaching = 0.5 * (math.sqrt(2.0 * root**2 - reach**2) - reach)
    low = max(reaching, teeth * eccentricity - reach, 0.0) * (1.0 + 1e-9) + 1e-9 * reach

    def possible(radius: Metre) -> bool:
        try:
            pair = RotorPair(lobes, eccentricity, reach + radius, radius, 1.0)
            tooth_root(pair)
        except OutOfDomainError:
            return False
        return radius < smallest_radius_of_curvature(pair)

    if not possible(low):
        raise OutOfDomainError("inner_root_diameter", 2.0 * (reach - eccentricity), "that of possible teeth")
    high = low
    while possible(high) and high < 100.0 * reach:
        high *= 1.25
    least, step = low, 0
    while high - least > 1e-9 * reach:
        step += 1
        if step > most_iterations:
            raise NotConvergedError("largest tooth radius", step - 1, (high - least) / reach, 1e-9)
        middle = 0.5 * (least + high)
        least, high = (middle, high) if possible(middle) else (least, middle)
    return low, least, step


def _cautions(tooth_radius: Metre | None, difference: Metre) -> tuple[str, ...]:
    said = []
    if tooth_radius is None:
        said.append("The tooth radius was not measured: the displacement is known as a range only.")
    if difference < 0.0:
        said.append("The outer rotor's bore is too small for these tips and roots: measure again.")
    return tuple(said)
