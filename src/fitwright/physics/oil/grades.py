"""Grades of SAE J300: which one an oil can be, and what the middle of one is.

The limits are data and come in as an argument; `fitwright.data.oils` reads the edition that is shipped.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import (
    Kelvin,
    KilogramPerCubicMetre,
    Number,
    PascalSecond,
    SquareMetrePerSecond,
)

_ROUNDING = 1e-12  # a number in m2/s may differ from the limit in mm2/s in its last digit


@dataclass(frozen=True, slots=True)
class HotLimits:
    """Limits of a grade without W; 40 has two, by the W grade that it goes with.

    Attributes
    ----------
    grade : str
        Such as `30`.
    kinematic_viscosity_100_least : float [m2/s]
        Allowed.
    kinematic_viscosity_100_below : float [m2/s]
        Not allowed.
    high_shear_viscosity_150_least : float [Pa s]
        Allowed.
    with_winter : tuple of str
        The W grades that the row is for; empty where it is for all.
    """

    grade: str
    kinematic_viscosity_100_least: SquareMetrePerSecond
    kinematic_viscosity_100_below: SquareMetrePerSecond
    high_shear_viscosity_150_least: PascalSecond
    with_winter: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WinterLimits:
    """Limits of a W grade, and the usual oil behind it.

    Attributes
    ----------
    grade : str
        Such as `5W`.
    cranking_viscosity_most : float [Pa s]
        In the cold cranking simulator, allowed.
    cranking_temperature : float [K]
        At which.
    pumping_viscosity_most : float [Pa s]
        In the mini-rotary viscometer without yield stress, allowed.
    pumping_temperature : float [K]
        At which.
    kinematic_viscosity_100_least : float [m2/s]
        Allowed.
    """

    grade: str
    cranking_viscosity_most: PascalSecond
    cranking_temperature: Kelvin
    pumping_viscosity_most: PascalSecond
    pumping_temperature: Kelvin
    kinematic_viscosity_100_least: SquareMetrePerSecond


@dataclass(frozen=True, slots=True)
class UsualBase:
    """What oils of one W grade usually have in common.

    Attributes
    ----------
    slope : float [1]
        B of the viscosity-temperature line of an oil of 12 mm2/s at 100 C.
    slope_change : float [1]
        Change of it with the natural logarithm of the viscosity at 100 C.
    density_15 : float [kg/m3]
        Density at 15 C.
    high_shear_share : float [1]
        High-shear viscosity at 150 C over that at low shear.
    """

    slope: Number
    slope_change: Number
    density_15: KilogramPerCubicMetre
    high_shear_share: Number


@dataclass(frozen=True, slots=True)
class J300:
    """An edition of the classification.

    Attributes
    ----------
    edition : str
        Which one.
    hot : tuple of HotLimits
        From thin to thick.
    winter : tuple of WinterLimits
        From the coldest on.
    usual : mapping of UsualBase
        By W grade; the oils without W under the empty name. Not part of the classification.
    """

    edition: str
    hot: tuple[HotLimits, ...]
    winter: tuple[WinterLimits, ...]
    usual: Mapping[str, UsualBase]


@dataclass(frozen=True, slots=True)
class Classified:
    """What an oil can be called.

    Attributes
    ----------
    grades : tuple of str
        Grades without W: one where the high-shear viscosity is known, all candidates where not, none where no
        grade fits.
    cautions : tuple of str
        What limits the answer.
    """

    grades: tuple[str, ...]
    cautions: tuple[str, ...] = ()


def grade_parts(grade: str, limits: J300) -> tuple[str, str]:
    """A grade as written, taken apart.

    Parameters
    ----------
    grade : str
        Such as `5W-30`, `SAE 40` or `10w40`.
    limits : J300
        The classification that knows the grades.

    Returns
    -------
    tuple of str
        The W grade and the grade without W; either may be empty.

    Raises
    ------
    OutOfDomainError
        If the classification has no such grade.

    References
    ----------
    [sae_j300_2015] labelling

    Examples
    --------
    >>> grade_parts("SAE 5w-30", J300("", (HotLimits("30", 0, 0, 0),), (WinterLimits("5W", *[0.0] * 5),), {}))
    ('5W', '30')
    """
    found = re.fullmatch(r"(?:SAE)?(?:(\d{1,2}W)-?)?(\d{1,2})?", re.sub(r"\s+", "", grade).upper())
    winter, hot = (found[1] or "", found[2] or "") if found else ("", "")
    known_winter = ["", *(row.grade for row in limits.winter)]
    known_hot = ["", *(row.grade for row in limits.hot)]
    if not (winter or hot) or winter not in known_winter or hot not in known_hot:
        every = ", ".join(dict.fromkeys([*known_winter[1:], *known_hot[1:]]))
        raise OutOfDomainError("grade", repr(grade), f"made of {every}, such as 5W-30 or 40")
    return winter, hot


def classified(
    kinematic_viscosity_100: SquareMetrePerSecond,
    high_shear_viscosity_150: PascalSecond | None,
    limits: J300,
    *,
    winter_grade: str = "",
) -> Classified:
    r"""Grades without W that an oil can be.

    Parameters
    ----------
    kinematic_viscosity_100 : float [m2/s]
        Kinematic viscosity at 100 C.
    high_shear_viscosity_150 : float or None [Pa s]
        High-shear viscosity at 150 C; None where it is not known.
    limits : J300
        The classification.
    winter_grade : str
        The W grade that is stated with it; empty where none is.

    Returns
    -------
    Classified
        The highest grade whose limits hold; without a high-shear viscosity all whose other limits hold.

    Notes
    -----
    A lower limit is allowed, an upper one is not. The W grade itself needs cold viscosities: `winter_grades`.

    References
    ----------
    [sae_j300_2015] table 1

    Examples
    --------
    >>> thirty = HotLimits("30", 9.3e-6, 12.5e-6, 2.9e-3)
    >>> classified(11.0e-6, 3.1e-3, J300("", (thirty,), (), {})).grades
    ('30',)
    """
    rows = [row for row in limits.hot if _within(kinematic_viscosity_100, row)]
    if high_shear_viscosity_150 is None:
        cautions = ("Without a high-shear viscosity (HTHS) every grade that fits is named.",) if rows else ()
        return Classified(tuple(dict.fromkeys(row.grade for row in rows)), cautions)
    fits = [
        row
        for row in rows
        if _at_least(high_shear_viscosity_150, row.high_shear_viscosity_150_least)
        and (not winter_grade or not row.with_winter or winter_grade in row.with_winter)
    ]
    if not fits:
        return Classified(())
    grade = fits[-1].grade
    same = [row for row in fits if row.grade == grade]
    # Both rows of 40 may hold; the row for oils without W or with a warm one is the stricter.
    if winter_grade or not same[0].with_winter or len(same) > 1:
        return Classified((grade,))
    names = ", ".join(f"{winter}-{grade}" for winter in same[0].with_winter if winter)
    return Classified((grade,), (f"Thick enough at high shear as {names} only.",))


def winter_grades(
    kinematic_viscosity_100: SquareMetrePerSecond,
    cranking_viscosity: Mapping[float, float],
    pumping_viscosity: Mapping[float, float],
    limits: J300,
) -> tuple[str, ...]:
    r"""W grade of an oil from its cold viscosities.

    Parameters
    ----------
    kinematic_viscosity_100 : float [m2/s]
        Kinematic viscosity at 100 C.
    cranking_viscosity : mapping of float
        Cranking viscosity [Pa s] by temperature [K].
    pumping_viscosity : mapping of float
        Pumping viscosity [Pa s] by temperature [K], without yield stress.
    limits : J300
        The classification.

    Returns
    -------
    tuple of str
        The coldest W grade for which both were measured and hold; none where none does.

    Notes
    -----
    Nothing follows from the viscosity at 40 C and 100 C: wax and polymer decide in the cold.

    References
    ----------
    [sae_j300_2015] table 1

    Examples
    --------
    >>> five = WinterLimits("5W", 6.6, 243.15, 60.0, 238.15, 3.8e-6)
    >>> winter_grades(11.0e-6, {243.15: 6.2}, {238.15: 31.0}, J300("", (), (five,), {}))
    ('5W',)
    """
    for row in limits.winter:
        cranking = cranking_viscosity.get(row.cranking_temperature)
        pumping = pumping_viscosity.get(row.pumping_temperature)
        if (
            cranking is not None
            and pumping is not None
            and _at_least(row.cranking_viscosity_most, cranking)
            and _at_least(row.pumping_viscosity_most, pumping)
            and _at_least(kinematic_viscosity_100, row.kinematic_viscosity_100_least)
        ):
            return (row.grade,)
    return ()


def _within(viscosity: float, row: HotLimits) -> bool:
    return _at_least(viscosity, row.kinematic_viscosity_100_least) and not _at_least(
        viscosity, row.kinematic_viscosity_100_below
    )


def _at_least(value: float, limit: float) -> bool:
    return value >= limit * (1.0 - _ROUNDING)
