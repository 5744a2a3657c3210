"""Dimensionless characteristics of a steadily loaded full journal bearing at one length ratio.

`SteadyCurves` is what tables, kernels and the circuit exchange. The closed form of the short bearing
gives one without any table; `BearingTables.curves` gives those of the finite bearing.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.numerics.splines import spline_slopes
from fitwright.quantity import FloatArray, Number, Numbers


@dataclass(frozen=True, slots=True, eq=False)
class SteadyCurves:
    """Characteristics over the eccentricity ratio; every array has the shape of `eccentricity_ratio`.

    Attributes
    ----------
    length_ratio : float [1]
        Bearing length over journal diameter.
    eccentricity_ratio : array (n,) [1]
        Ascending, above zero and below one.
    sommerfeld_number : array (n,) [1]
        (mu N / P)(R/c)^2 with N in revolutions per second and P = W / (L D); falls with the eccentricity.
    attitude_angle : array (n,) [rad]
        From the direction of the load to the line of centres, in the direction of rotation.
    side_flow : array (n,) [1]
        Hydrodynamic flow out of both ends, Qs / (R c N L).
    friction_variable : array (n,) [1]
        (R/c) f at the journal; the ruptured film counts by the share of the gap that it fills.
    friction_variable_full_film : array (n,) [1]
        The same in the convention of the published tables: shear over the whole circumference.
    pressure_ratio : array (n,) [1]
        P / pmax.
    """

    length_ratio: Number
    eccentricity_ratio: FloatArray
    sommerfeld_number: FloatArray
    attitude_angle: FloatArray
    side_flow: FloatArray
    friction_variable: FloatArray
    friction_variable_full_film: FloatArray
    pressure_ratio: FloatArray


def short_bearing_curves(length_ratio: Number, eccentricity_ratio: Numbers) -> SteadyCurves:
    r"""Characteristics of the short bearing, whose oil leaves along the axis only.

    Parameters
    ----------
    length_ratio : float [1]
        Bearing length over journal diameter.
    eccentricity_ratio : array (n,) [1]
        Ascending, above zero and below one.

    Returns
    -------
    SteadyCurves
        On the eccentricity ratios given.

    Raises
    ------
    OutOfDomainError
        If the length ratio is not positive or the eccentricity ratios do not ascend between zero and one.

    Notes
    -----
    With the film under pressure over the converging half only:

    .. math:: S \left(\frac{L}{D}\right)^2 = \frac{(1-\varepsilon^2)^2}
              {\pi \varepsilon \sqrt{\pi^2 (1-\varepsilon^2) + 16 \varepsilon^2}}, \quad
              \tan\varphi = \frac{\pi\sqrt{1-\varepsilon^2}}{4 \varepsilon}, \quad
              \frac{Q_s}{R c N L} = 2 \pi \varepsilon, \quad
              \frac{R}{c} f = \frac{2 \pi^2 S}{\sqrt{1-\varepsilon^2}}

    The last is shear over the whole circumference. With the film only, the diverging half is filled by the
    smallest film thickness, which the journal drags round: its shear is smaller by the share of the gap
    that is filled. Shear by the circumferential pressure gradient is left out, as all that the gradient
    does. The shorter the bearing, the better.

    References
    ----------
    [dubois1953] load number, attitude, flow and friction

    Examples
    --------
    >>> curves = short_bearing_curves(0.5, [0.3, 0.5, 0.7])
    >>> curves.sommerfeld_number.round(4)
    array([1.0887, 0.4242, 0.1319])
    """
    if not 0.0 < length_ratio < np.inf:
        raise OutOfDomainError("length_ratio", length_ratio, "positive")
    e = checked_eccentricity_ratios(eccentricity_ratio)
    root = np.sqrt(1.0 - e**2)
    capacity = e * np.sqrt(np.pi**2 * root**2 + 16.0 * e**2) / (4.0 * root**4)  # W c^2 / (mu omega R L^3)
    sommerfeld = 1.0 / (4.0 * np.pi * capacity * length_ratio**2)
    full = 2.0 * np.pi**2 * sommerfeld / root
    return SteadyCurves(
        length_ratio=length_ratio,
        eccentricity_ratio=e,
        sommerfeld_number=sommerfeld,
        attitude_angle=np.arctan2(np.pi * root, 4.0 * e),
        side_flow=2.0 * np.pi * e,
        friction_variable=full * 0.5 * (1.0 + 1.0 / (1.0 + e)),
        friction_variable_full_film=full,
        pressure_ratio=2.0 * capacity / (3.0 * _largest_pressure_shape(e)),
    )


def curve_coefficients(curves: SteadyCurves) -> FloatArray:
    r"""Curves in the form that the kernels read: smooth through every node, finite down to the centre.

    Parameters
    ----------
    curves : SteadyCurves
        At least four eccentricity ratios.

    Returns
    -------
    array (n, 14) [1]
        Eccentricity ratio, value and slope of six regular functions of it, and 1/S.

    Raises
    ------
    OutOfDomainError
        If there are fewer than four eccentricity ratios.

    Notes
    -----
    The `regular_functions` become cubic splines (not-a-knot) of the eccentricity ratio.

    References
    ----------
    [deboor2001] cubic spline with the not-a-knot end condition

    Examples
    --------
    >>> curve_coefficients(short_bearing_curves(0.5, [0.2, 0.4, 0.6, 0.8])).shape
    (4, 14)
    """
    e = curves.eccentricity_ratio
    if e.size < 4:
        raise OutOfDomainError("eccentricity_ratio", e, "four values or more")
    regular = regular_functions(curves)
    columns = np.empty((e.size, 14))
    columns[:, 0] = e
    columns[:, 1:13:2] = regular
    columns[:, 2:13:2] = spline_slopes(e, regular)
    columns[:, 13] = 1.0 / curves.sommerfeld_number
    return columns


def regular_functions(curves: SteadyCurves) -> FloatArray:
    r"""Curves freed of what makes them vanish or grow without bound at either end.

    Parameters
    ----------
    curves : SteadyCurves
        Any.

    Returns
    -------
    array (n, 6) [1]
        Six functions at the eccentricity ratios of the curves.

    Notes
    -----
    .. math:: \ln\frac{(1-\varepsilon^2)^2}{\varepsilon S}, \;
              \frac{\varphi}{\sqrt{1-\varepsilon^2}}, \; \frac{Q_s}{R c N L \varepsilon}, \;
              \frac{(R/c) f}{S} \sqrt{1-\varepsilon^2} \text{ (film, full)}, \;
              \frac{P/p_{max}}{\sqrt{1-\varepsilon^2}}

    References
    ----------
    [dubois1953] how the short bearing behaves at both ends

    Examples
    --------
    >>> regular_functions(short_bearing_curves(1.0, [0.001, 0.999]))[:, 2].round(4)
    array([6.2832, 6.2832])
    """
    e, root = curves.eccentricity_ratio, np.sqrt(1.0 - curves.eccentricity_ratio**2)
    return np.stack(
        (
            np.log(root**4 / (e * curves.sommerfeld_number)),
            curves.attitude_angle / root,
            curves.side_flow / e,
            curves.friction_variable / curves.sommerfeld_number * root,
            curves.friction_variable_full_film / curves.sommerfeld_number * root,
            curves.pressure_ratio / root,
        ),
        axis=-1,
    )


def curves_from_regular(
    length_ratio: Number, eccentricity_ratio: Numbers, regular: FloatArray
) -> SteadyCurves:
    """Curves whose regular functions these are.

    Parameters
    ----------
    length_ratio : float [1]
        Bearing length over journal diameter.
    eccentricity_ratio : array (n,) [1]
        Ascending, above zero and below one.
    regular : array (n, 6) [1]
        As `regular_functions` gives them.

    Returns
    -------
    SteadyCurves
        On the eccentricity ratios given.

    References
    ----------
    [dubois1953] how the short bearing behaves at both ends

    Examples
    --------
    >>> curves = short_bearing_curves(0.5, [0.3, 0.6])
    >>> again = curves_from_regular(0.5, [0.3, 0.6], regular_functions(curves))
    >>> bool(np.allclose(again.sommerfeld_number, curves.sommerfeld_number, rtol=1e-14))
    True
    """
    e = checked_eccentricity_ratios(eccentricity_ratio)
    root = np.sqrt(1.0 - e**2)
    sommerfeld = root**4 / (e * np.exp(regular[:, 0]))
    return SteadyCurves(
        length_ratio=length_ratio,
        eccentricity_ratio=e,
        sommerfeld_number=sommerfeld,
        attitude_angle=regular[:, 1] * root,
        side_flow=regular[:, 2] * e,
        friction_variable=regular[:, 3] * sommerfeld / root,
        friction_variable_full_film=regular[:, 4] * sommerfeld / root,
        pressure_ratio=regular[:, 5] * root,
    )


def _largest_pressure_shape(e: FloatArray) -> FloatArray:
    """Largest e sin t / (1 + e cos t)^3, where the pressure of a short bearing peaks."""
    # x = cos t, the negative root of 2 e x^2 - x - 3 e = 0, free of cancellation.
    cosine = -6.0 * e / (1.0 + np.sqrt(1.0 + 24.0 * e**2))
    shape: FloatArray = e * np.sqrt(1.0 - cosine**2) / (1.0 + e * cosine) ** 3
    return shape


def checked_eccentricity_ratios(eccentricity_ratio: Numbers) -> FloatArray:
    """Eccentricity ratios as an array, if they ascend between zero and one.

    Parameters
    ----------
    eccentricity_ratio : array (n,) [1]
        One or more.

    Returns
    -------
    array (n,) [1]
        The same numbers.

    Raises
    ------
    OutOfDomainError
        If they do not ascend or do not lie between zero and one.

    References
    ----------
    [pinkus1961] journal and bearing touch at one
    """
    e = np.atleast_1d(np.asarray(eccentricity_ratio, dtype=np.float64))
    if not (e.ndim == 1 and e.size and (np.diff(e) > 0.0).all() and e[0] > 0.0 and e[-1] < 1.0):
        raise OutOfDomainError("eccentricity_ratio", eccentricity_ratio, "ascending between zero and one")
    return e
