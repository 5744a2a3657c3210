"""An oil of which only the grade is known: the middle of the grade, and how far the grade reaches."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.grades import J300, HotLimits, UsualBase, grade_parts
from fitwright.physics.oil.oil import HIGH_SHEAR_TEMPERATURE, Oil, dynamic_viscosity
from fitwright.physics.oil.walther import (
    TEMPERATURE_40,
    TEMPERATURE_100,
    viscosity_on_line,
    walther_line_from_slope,
)
from fitwright.quantity import PascalSecond, SquareMetrePerSecond

MARGIN = 0.02  # kept off the upper limit, which is not allowed
SLOPE_AT = 12e-6  # [m2/s] at 100 C, viscosity to which the usual slopes refer
STEPS = 51  # in which the thin end is looked for


@dataclass(frozen=True, slots=True)
class GradeMiddle:
    """What a grade alone says of an oil.

    Attributes
    ----------
    grade : str
        The grade, as it is written.
    label : str
        What the oil is, for whoever reads a figure that comes from it.
    middle : Oil
        The middle of the grade.
    thin, thick : Oil
        The ends of the grade's range at 100 C.
    cautions : tuple of str
        What was assumed.
    """

    grade: str
    label: str
    middle: Oil
    thin: Oil
    thick: Oil
    cautions: tuple[str, ...]


def grade_middle(grade: str, limits: J300) -> GradeMiddle:
    r"""The middle and the ends of a grade.

    Parameters
    ----------
    grade : str
        Such as `5W-30` or `SAE 40`.
    limits : J300
        The classification, with the usual bases of its W grades.

    Returns
    -------
    GradeMiddle
        Three oils, labelled as what they are.

    Raises
    ------
    OutOfDomainError
        If there is no such grade, or it has no part without W.

    Notes
    -----
    Viscosity at 100 C in the middle between the limits; at 40 C by the usual slope of the W grade, density
    and high-shear share likewise, the high-shear viscosity no lower than the grade's limit. Oils of one grade
    differ by some 15 % at 100 C either way, by more at 40 C; only a data sheet ends that.

    References
    ----------
    [sae_j300_2015] table 1

    Examples
    --------
    >>> forty = HotLimits("40", 12.5e-6, 16.3e-6, 3.5e-3)
    >>> limits = J300("", (forty,), (), {"": UsualBase(3.5, -0.4, 889.0, 1.0)})
    >>> round(grade_middle("SAE 40", limits).middle.kinematic_viscosity_100 * 1e6, 1)
    14.4
    """
    winter, hot = grade_parts(grade, limits)
    if not hot:
        raise OutOfDomainError("grade", repr(grade), "one with a part for warm oil, such as 5W-30 or 40")
    row = next(
        each
        for each in limits.hot
        if each.grade == hot and (not each.with_winter or winter in each.with_winter)
    )
    name = f"{winter}-{hot}" if winter else f"SAE {hot}"
    usual = limits.usual[winter]
    least, below = row.kinematic_viscosity_100_least, row.kinematic_viscosity_100_below
    thick_end = below - MARGIN * (below - least)
    thin, middle, thick = (
        _usual_oil(at_100, row, usual)
        for at_100 in (_thin_end(row, usual, thick_end), 0.5 * (least + below), thick_end)
    )
    return GradeMiddle(
        grade=name,
        label=f"mid-range of {name}, not a data sheet",
        middle=middle,
        thin=thin,
        thick=thick,
        cautions=(
            f"Only the grade {name} is known: the oil is the middle of its range, the rest is usual.",
            "Enter the data sheet of the oil in the engine.",
        ),
    )


def _thin_end(row: HotLimits, usual: UsualBase, thick_end: float) -> float:
    """The thinnest oil of the grade; one that does not thin under shear has to be thick enough there."""
    even = np.linspace(row.kinematic_viscosity_100_least, thick_end, STEPS)[1:]
    return next(
        float(at_100)
        for at_100 in even
        if _low_shear(_plain_oil(float(at_100), usual)) >= row.high_shear_viscosity_150_least
    )


def _usual_oil(at_100: SquareMetrePerSecond, row: HotLimits, usual: UsualBase) -> Oil:
    oil = _plain_oil(at_100, usual)
    low = _low_shear(oil)
    sheared = min(max(usual.high_shear_share * low, row.high_shear_viscosity_150_least), low)
    return replace(oil, high_shear_viscosity_150=sheared)


def _plain_oil(at_100: SquareMetrePerSecond, usual: UsualBase) -> Oil:
    slope = usual.slope + usual.slope_change * math.log(at_100 / SLOPE_AT)
    line = walther_line_from_slope(at_100, temperature=TEMPERATURE_100, slope=slope)
    return Oil(float(viscosity_on_line(*line, TEMPERATURE_40)), at_100, usual.density_15)


def _low_shear(oil: Oil) -> PascalSecond:
    return float(dynamic_viscosity(oil, HIGH_SHEAR_TEMPERATURE))
