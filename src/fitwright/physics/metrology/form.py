"""Mean, taper and out-of-round of a dimension, beside what repeatability alone would show."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy import special

from fitwright.physics.metrology.unknowns import require_finite, require_uncertainty
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import FloatArray, Metre, Number, Probability

NODES, WEIGHTS = np.polynomial.legendre.leggauss(64)
REACH = 8.0
"""Standard deviations over which the distribution of a range is integrated."""

WIDEST = 14.0
"""Largest range, in standard deviations, that is told apart from certainty."""


@dataclass(frozen=True, slots=True)
class FormFigure:
    """One figure of form.

    Attributes
    ----------
    value : float [m]
        Largest less smallest reading of the set in which they differ most.
    where : str
        The plane or angle of that set.
    from_repeatability : float [m]
        What a perfect part would show on average, from the gauge's repeatability alone.
    from_repeatability_95 : float [m]
        What a perfect part would show at most, nineteen times in twenty.
    """

    value: Metre
    where: str
    from_repeatability: Metre
    from_repeatability_95: Metre

    @property
    def is_real(self) -> bool:
        """Whether the figure is more than repeatability shows nineteen times in twenty."""
        return self.value > self.from_repeatability_95


@dataclass(frozen=True, slots=True)
class Form:
    """Form of a dimension that was read in planes and at angles.

    Attributes
    ----------
    mean : float [m]
        Mean of the places.
    taper : FormFigure or None
        Largest difference between planes at one angle; None with one plane.
    out_of_round : FormFigure or None
        Largest difference between angles in one plane; None with one angle.
    """

    mean: Metre
    taper: FormFigure | None
    out_of_round: FormFigure | None


def form_of(values: Mapping[tuple[str, str], Metre], repeatability: Metre) -> Form:
    r"""Mean, taper and out-of-round of a dimension.

    Parameters
    ----------
    values : mapping of (str, str) to float [m]
        Size at each plane and angle.
    repeatability : float [m]
        Standard uncertainty of each size's own error; what they share does not change their differences.

    Returns
    -------
    Form
        The figures, each with what repeatability alone would show.

    Raises
    ------
    OutOfDomainError
        If there is no value.

    Notes
    -----
    Out-of-round here is the largest difference of diameters in one plane, taper that of one angle between
    planes. A two-point gauge cannot see lobes of odd number. The largest of k ranges of n equal sizes, each
    with its own normal error, is on average

    .. math:: s \int_0^\infty \left(1 - F_n(w)^k\right) dw

    with the distribution :math:`F_n` of the range of n normal values.

    References
    ----------
    [tippett1925]; [david2003] 2.3 (distribution of the range)

    Examples
    --------
    >>> form = form_of({("front", "0"): 50.010e-3, ("front", "90"): 50.004e-3}, 1e-6)
    >>> f"{form.out_of_round.value * 1e6:.1f} um, {form.out_of_round.from_repeatability * 1e6:.1f} by chance"
    '6.0 um, 1.1 by chance'
    """
    if not values:
        raise OutOfDomainError("values", 0, "one size or more")
    require_uncertainty("repeatability", repeatability)
    for place, value in values.items():
        require_finite(f"size at {place}", value)
    planes, angles = ({place[axis] for place in values} for axis in (0, 1))
    in_plane = {plane: [v for (p, _), v in sorted(values.items()) if p == plane] for plane in planes}
    at_angle = {angle: [v for (_, a), v in sorted(values.items()) if a == angle] for angle in angles}
    return Form(
        mean=float(np.mean([values[place] for place in sorted(values)])),
        taper=_figure(at_angle, repeatability),
        out_of_round=_figure(in_plane, repeatability),
    )


def range_distribution(sample_size: int, width: Number) -> Probability:
    r"""Probability that the range of normal values stays below a width.

    Parameters
    ----------
    sample_size : int
        How many values, two or more.
    width : float [1]
        Width over the standard deviation of one value.

    Returns
    -------
    float [1]
        Probability.

    Raises
    ------
    OutOfDomainError
        If there are fewer than two values.

    Notes
    -----
    .. math:: F_n(w) = n \int \varphi(x) \left[\Phi(x + w) - \Phi(x)\right]^{n-1} dx

    References
    ----------
    [david2003] 2.3

    Examples
    --------
    >>> round(range_distribution(3, 3.314), 3)
    0.95
    """
    if sample_size < 2:
        raise OutOfDomainError("sample size", sample_size, "two or more")
    return float(_range_distribution(sample_size, np.array([width]))[0])


def _figure(sets: Mapping[str, Sequence[Metre]], repeatability: Metre) -> FormFigure | None:
    several = {name: some for name, some in sets.items() if len(some) > 1}
    if not several:
        return None
    spreads = {name: max(some) - min(some) for name, some in several.items()}
    where = max(sorted(spreads), key=lambda name: spreads[name])
    mean, most = _largest_range(tuple(sorted(len(some) for some in several.values())))
    return FormFigure(spreads[where], where, mean * repeatability, most * repeatability)


@cache
def _largest_range(sizes: tuple[int, ...]) -> tuple[Number, Number]:
    """Mean and 95 % point of the largest of several ranges, in standard deviations."""
    width = 0.5 * WIDEST * (NODES + 1.0)
    mean = 0.5 * WIDEST * float(WEIGHTS @ (1.0 - _all_below(sizes, width)))
    low, high = 0.0, WIDEST
    for _ in range(48):
        middle = 0.5 * (low + high)
        if _all_below(sizes, np.array([middle]))[0] < 0.95:
            low = middle
        else:
            high = middle
    return mean, 0.5 * (low + high)


def _all_below(sizes: tuple[int, ...], width: FloatArray) -> FloatArray:
    result = np.ones(len(width))
    for size in sizes:
        result = result * _range_distribution(size, width)
    return result


def _range_distribution(sample_size: int, width: FloatArray) -> FloatArray:
    x = REACH * NODES
    density = REACH * WEIGHTS * np.exp(-0.5 * x * x) / np.sqrt(2.0 * np.pi)
    inside = special.ndtr(x + width[:, np.newaxis]) - special.ndtr(x)
    return np.asarray(sample_size * inside ** (sample_size - 1) @ density)
