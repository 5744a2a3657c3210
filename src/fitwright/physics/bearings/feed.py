"""Oil that a feed pushes through the gap of a journal bearing: grooves, holes, pockets.

Pressure flow only, at a given viscosity and position of the journal; what the turning journal draws
besides, and how warm all that makes the film, is in `supply`. Angles are those of `SteadyCurves`: the
widest gap lies opposite the smallest, which lies behind the load by the attitude angle in the direction of
rotation. A feed angle of zero is opposite the load; it is positive in the direction of rotation.
"""

from __future__ import annotations

import math

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.quantity import (
    FloatArray,
    Metre,
    Metres,
    Number,
    Numbers,
    Pascals,
    PascalSeconds,
    Radians,
)


def groove_flow(
    gauge_pressure: Pascals,
    *,
    journal_diameter: Metres,
    radial_clearance: Metres,
    land_length: Metres,
    dynamic_viscosity: PascalSeconds,
    eccentricity_ratio: Numbers = 0.0,
) -> FloatArray:
    r"""Flow from a groove that runs all round, out of both lands.

    Parameters
    ----------
    gauge_pressure : array_like [Pa]
        Pressure in the groove.
    journal_diameter : array_like [m]
        Diameter of the journal.
    radial_clearance : array_like [m]
        Half of the diametral clearance.
    land_length : array_like [m]
        Length of one land, from the groove to the end of the bearing; both are alike.
    dynamic_viscosity : array_like [Pa s]
        Viscosity in the film.
    eccentricity_ratio : array_like [1]
        Displacement of the journal over the radial clearance.

    Returns
    -------
    array [m3/s]
        Flow through both lands together.

    Raises
    ------
    OutOfDomainError
        If a size or the viscosity is not positive, or the eccentricity ratio not between zero and one.

    Notes
    -----
    .. math:: Q = \frac{\pi D c^3 p}{6 \mu l'} (1 + 1.5\,\varepsilon^2)

    Laminar, one viscosity, gap full of oil all round, journal parallel to the bearing. The cube of the
    *radial* clearance: a diametral one put in its place gives eight times the flow.

    References
    ----------
    [neale1995] A11, flow through a bearing with a central circumferential groove
    [iso7902_2_1998] lubricant flow by feed pressure, groove of 360 degrees

    Examples
    --------
    >>> flow = groove_flow(3e5, journal_diameter=0.056, radial_clearance=27.5e-6, land_length=8e-3,
    ...                    dynamic_viscosity=0.012, eccentricity_ratio=0.5)
    >>> round(float(flow) * 6e4, 4)
    0.1572
    """
    _check(journal_diameter, radial_clearance, land_length, dynamic_viscosity, eccentricity_ratio)
    e = np.asarray(eccentricity_ratio, dtype=np.float64)
    conductance = math.pi * np.asarray(journal_diameter) * np.asarray(radial_clearance) ** 3
    conductance = conductance / (6.0 * np.asarray(dynamic_viscosity) * np.asarray(land_length))
    flow: FloatArray = conductance * np.asarray(gauge_pressure) * (1.0 + 1.5 * e**2)
    return flow


def partial_groove_flow(
    gauge_pressure: Pascals,
    *,
    journal_diameter: Metres,
    radial_clearance: Metres,
    land_length: Metres,
    groove_arc: Radians,
    dynamic_viscosity: PascalSeconds,
    eccentricity_ratio: Numbers = 0.0,
    angle_from_widest_gap: Radians = 0.0,
) -> FloatArray:
    r"""Flow from a groove that runs round a part of the bearing, out of both lands.

    Parameters
    ----------
    gauge_pressure : array_like [Pa]
        Pressure in the groove.
    journal_diameter : array_like [m]
        Diameter of the journal.
    radial_clearance : array_like [m]
        Half of the diametral clearance.
    land_length : array_like [m]
        Length of one land.
    groove_arc : array_like [rad]
        Angle over which the groove runs; pi for a grooved upper shell.
    dynamic_viscosity : array_like [Pa s]
        Viscosity in the film.
    eccentricity_ratio : array_like [1]
        Displacement of the journal over the radial clearance.
    angle_from_widest_gap : array_like [rad]
        From the widest gap to the middle of the groove.

    Returns
    -------
    array [m3/s]
        Flow through both lands together, along the groove only.

    Raises
    ------
    OutOfDomainError
        If a size or the viscosity is not positive, the arc is above a full turn, or the eccentricity ratio
        not between zero and one.

    Notes
    -----
    .. math:: Q = \frac{D c^3 p}{12 \mu l'} \int (1 + \varepsilon \cos\theta)^3 d\theta

    over the arc. A half groove about the widest gap is the published case, with the integral
    pi (1 + 1.5 e^2) + 6 e + 4 e^3 / 3. What leaves past the two ends of the groove comes on top
    (`groove_end_factor`).

    References
    ----------
    [iso7902_2_1998] lubricant flow by feed pressure, groove of 180 degrees

    Examples
    --------
    >>> flow = partial_groove_flow(3e5, journal_diameter=0.056, radial_clearance=27.5e-6, land_length=8e-3,
    ...                            groove_arc=math.pi, dynamic_viscosity=0.012)
    >>> round(float(flow) * 6e4, 4)
    0.0572
    """
    _check(journal_diameter, radial_clearance, land_length, dynamic_viscosity, eccentricity_ratio)
    arc, middle = np.asarray(groove_arc), np.asarray(angle_from_widest_gap)
    if not ((arc > 0.0) & (arc <= 2.0 * math.pi)).all():
        raise OutOfDomainError("groove_arc", groove_arc, "above zero, up to a full turn")
    e = np.asarray(eccentricity_ratio, dtype=np.float64)
    opening = _cube_integral(middle + 0.5 * arc, e) - _cube_integral(middle - 0.5 * arc, e)
    conductance = np.asarray(journal_diameter) * np.asarray(radial_clearance) ** 3
    conductance = conductance / (12.0 * np.asarray(dynamic_viscosity) * np.asarray(land_length))
    flow: FloatArray = conductance * np.asarray(gauge_pressure) * opening
    return flow


def local_feed_flow(
    gauge_pressure: Pascals,
    *,
    radial_clearance: Metres,
    shape_factor: Number,
    dynamic_viscosity: PascalSeconds,
    eccentricity_ratio: Numbers = 0.0,
    angle_from_widest_gap: Radians = 0.0,
) -> FloatArray:
    r"""Flow from a feed hole or an axial pocket, out of both ends of the bearing.

    Parameters
    ----------
    gauge_pressure : array_like [Pa]
        Pressure in the hole or pocket.
    radial_clearance : array_like [m]
        Half of the diametral clearance.
    shape_factor : float [1]
        From `hole_shape_factor` or `pocket_shape_factor`.
    dynamic_viscosity : array_like [Pa s]
        Viscosity in the film.
    eccentricity_ratio : array_like [1]
        Displacement of the journal over the radial clearance.
    angle_from_widest_gap : array_like [rad]
        From the widest gap to the feed.

    Returns
    -------
    array [m3/s]
        Flow.

    Raises
    ------
    OutOfDomainError
        If a size, the factor or the viscosity is not positive, or the eccentricity ratio not between zero
        and one.

    Notes
    -----
    .. math:: Q = F \frac{h^3 p}{12 \mu}, \quad h = c (1 + \varepsilon \cos\theta)

    The gap is taken as even over the surroundings of the feed.

    References
    ----------
    [iso7902_2_1998] lubricant flow by feed pressure, holes and pockets

    Examples
    --------
    >>> factor = hole_shape_factor(6e-3, bearing_length=20e-3)
    >>> flow = local_feed_flow(3e5, radial_clearance=27.5e-6, shape_factor=factor, dynamic_viscosity=0.012)
    >>> round(float(flow) * 6e4, 4)
    0.0113
    """
    _check(shape_factor, radial_clearance, 1.0, dynamic_viscosity, eccentricity_ratio)
    e = np.asarray(eccentricity_ratio, dtype=np.float64)
    gap = np.asarray(radial_clearance) * (1.0 + e * np.cos(angle_from_widest_gap))
    flow: FloatArray = (
        shape_factor * gap**3 * np.asarray(gauge_pressure) / (12.0 * np.asarray(dynamic_viscosity))
    )
    return flow


def hole_shape_factor(hole_diameter: Metre, *, bearing_length: Metre) -> Number:
    r"""Shape factor of a round hole midway between the ends of a bearing.

    Parameters
    ----------
    hole_diameter : float [m]
        Diameter of the hole where it meets the gap, over its chamfer.
    bearing_length : float [m]
        Length of the bearing.

    Returns
    -------
    float [1]
        Flow over h^3 p / (12 mu).

    Raises
    ------
    OutOfDomainError
        If the hole is not above zero and up to 0.6 of the length.

    Notes
    -----
    .. math:: F = \frac{2\pi}{\ln\left(\frac{4 L}{\pi d}\right)}

    Pressure in an even gap obeys Laplace's equation: a small source midway between two open edges, by
    images. Round the rim its pressure is even to 3 % at 0.3 of the length, to 20 % at 0.6. The fit of the
    standard, as recalled, gives some 5 to 10 % less between 0.1 and 0.3 of the length.

    References
    ----------
    [incropera2007] conduction shape factors, cylinder midway between two parallel planes

    Examples
    --------
    >>> round(hole_shape_factor(6e-3, bearing_length=20e-3), 3)
    4.347
    """
    share = hole_diameter / bearing_length
    if not 0.0 < share <= 0.6:
        raise OutOfDomainError(
            "hole_diameter", hole_diameter, "above zero, up to 0.6 of the bearing's length"
        )
    return 2.0 * math.pi / math.log(4.0 / (math.pi * share))


def pocket_shape_factor(pocket_length: Metre, *, bearing_length: Metre) -> Number:
    r"""Shape factor of a narrow axial pocket midway between the ends of a bearing.

    Parameters
    ----------
    pocket_length : float [m]
        Length of the pocket along the axis.
    bearing_length : float [m]
        Length of the bearing.

    Returns
    -------
    float [1]
        Flow over h^3 p / (12 mu).

    Raises
    ------
    OutOfDomainError
        If the pocket is not above zero and shorter than the bearing.

    Notes
    -----
    .. math:: F = \frac{8 K(k)}{K(k')}, \quad k = \tan^2\frac{\pi a}{4 L}

    Exact for a slit without width in an even gap, by conformal mapping of the strip between the open
    edges on a disc; K(k') / K(k) by arithmetic-geometric means. A pocket with a width along the
    circumference passes a little more.

    References
    ----------
    [nehari1952] mapping of the slit disc, modulus of Groetzsch's ring

    Examples
    --------
    >>> round(pocket_shape_factor(10e-3, bearing_length=20e-3), 3)
    4.0
    """
    share = pocket_length / bearing_length
    if not 0.0 < share < 1.0:
        raise OutOfDomainError("pocket_length", pocket_length, "above zero and below the bearing's length")
    k = math.tan(0.25 * math.pi * share) ** 2
    # K(k) = pi / (2 agm(1, k')), so that the ratio of K is the inverse ratio of the means.
    return 8.0 * _mean(1.0, k) / _mean(1.0, math.sqrt((1.0 - k) * (1.0 + k)))


def groove_end_factor(groove_width: Metre, *, bearing_length: Metre) -> Number:
    r"""Shape factor of what leaves past one end of a partial groove.

    Parameters
    ----------
    groove_width : float [m]
        Width of the groove along the axis.
    bearing_length : float [m]
        Length of the bearing.

    Returns
    -------
    float [1]
        Flow over h^3 p / (12 mu), beyond that of the groove's length.

    Raises
    ------
    OutOfDomainError
        If the groove is not zero or more and narrower than the bearing is long.

    Notes
    -----
    .. math:: F = \frac{2}{\pi} \left[2 x \ln(x + 1) - (x - 1) \ln(x^2 - 1)\right], \quad
              x = \frac{L}{L - b}

    The fringing field of one edge of a strip midway between two planes, which obeys the same equation: exact
    for an end that is cut square, far from the other. A narrow groove gains 0.22 L at each end.

    References
    ----------
    [cohn1954] fringing capacitance of a shielded strip

    Examples
    --------
    >>> round(groove_end_factor(0.0, bearing_length=22e-3), 4)
    0.8825
    """
    if not 0.0 <= groove_width < bearing_length:
        raise OutOfDomainError("groove_width", groove_width, "zero or more and below the bearing's length")
    x = bearing_length / (bearing_length - groove_width)
    within = (x - 1.0) * math.log(x * x - 1.0) if x > 1.0 else 0.0
    return 2.0 / math.pi * (2.0 * x * math.log(x + 1.0) - within)


def _cube_integral(angle: FloatArray, e: FloatArray) -> FloatArray:
    """Integral of (1 + e cos t)^3 from zero."""
    s, c = np.sin(angle), np.cos(angle)
    total: FloatArray = angle + 3.0 * e * s + 1.5 * e**2 * (angle + s * c) + e**3 * (s - s**3 / 3.0)
    return total


def _mean(a: float, b: float) -> float:
    """Arithmetic-geometric mean of two positive numbers."""
    while abs(a - b) > 1e-15 * a:
        a, b = 0.5 * (a + b), math.sqrt(a * b)
    return a


def _check(size: Metres, clearance: Metres, land: Metres, viscosity: PascalSeconds, e: Numbers) -> None:
    for name, value in (
        ("size", size),
        ("radial_clearance", clearance),
        ("land_length", land),
        ("dynamic_viscosity", viscosity),
    ):
        if not (np.asarray(value) > 0.0).all():
            raise OutOfDomainError(name, value, "positive")
    ratio = np.asarray(e)
    if not ((ratio >= 0.0) & (ratio < 1.0)).all():
        raise OutOfDomainError("eccentricity_ratio", e, "zero or more and below one")
