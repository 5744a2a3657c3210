"""The speed from which the chambers of a pump no longer fill."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from fitwright.physics.passages.edges import DEFAULT_AUTHOR, ENTRANCE_AUTHORS, EntranceAuthor
from fitwright.physics.pump.inlet import InletPath, inlet_gauge_pressure
from fitwright.physics.pump.trochoid import RotorPair
from fitwright.quantity import (
    CubicMetre,
    CubicMetrePerSecond,
    FloatArray,
    KilogramPerCubicMetre,
    Metre,
    Number,
    Pascal,
    PascalSecond,
    RadianPerSecond,
    SquareMetre,
)

_RELATIVE: Final = 1e-10


@dataclass(frozen=True, slots=True)
class Filling:
    """How the chambers of a pump take in oil.

    Attributes
    ----------
    release_pressure : float [Pa]
        Absolute pressure at which the oil gives off its air, or boils.
    port_area : float [m2]
        Of the inlet port where it opens to the chambers.
    discharge_coefficient : float [1]
        Of that port.
    centrifugal_area : float [m2]
        Half the difference of the squared radii of port and innermost chamber wall.
    surrounding_pressure : float [Pa]
        Absolute pressure on the oil in the sump or tank.
    """

    release_pressure: Pascal
    port_area: SquareMetre
    discharge_coefficient: Number = 0.6
    centrifugal_area: SquareMetre = 0.0
    surrounding_pressure: Pascal = 101325.0


@dataclass(frozen=True, slots=True)
class FillingLimit:
    """Where the flow of a pump starts to fall behind its speed.

    Attributes
    ----------
    angular_speed : float [rad/s]
        At which the shortfall is reached.
    flow : float [m3/s]
        What the pump takes in there.
    inlet_gauge_pressure : float [Pa]
        Before its port there.
    iterations : int
        Steps of the search.
    """

    angular_speed: RadianPerSecond
    flow: CubicMetrePerSecond
    inlet_gauge_pressure: Pascal
    iterations: int


@dataclass(frozen=True, slots=True)
class SpeedGain:
    """What rounding the inlet edge buys in speed.

    Attributes
    ----------
    sharp, rounded : FillingLimit
        The limits by the author chosen.
    speed : float [rad/s]
        By how much the limit rises.
    least, most : float [rad/s]
        The smallest and the largest gain by any one author.
    standard_uncertainty : float [rad/s]
        Of the gain, taken as even between least and most.
    """

    sharp: FillingLimit
    rounded: FillingLimit
    speed: RadianPerSecond
    least: RadianPerSecond
    most: RadianPerSecond
    standard_uncertainty: RadianPerSecond


def filling_parameters(filling: Filling) -> FloatArray:
    """What the compiled flow of a pump takes for its filling.

    Parameters
    ----------
    filling : Filling
        The inlet port and the oil.

    Returns
    -------
    ndarray, shape (3)
        Release gauge pressure [Pa], effective port area [m2], centrifugal area [m2].

    Raises
    ------
    OutOfDomainError
        If an area is not positive, or oil would release its air in the sump already.

    Notes
    -----
    Gauge pressure is counted from the surroundings.

    References
    ----------
    [ivantysyn2001] filling limit of the inlet

    Examples
    --------
    >>> filling_parameters(Filling(release_pressure=30e3, port_area=400e-6)).round(6).tolist()
    [-71325.0, 0.00024, 0.0]
    """
    if not 0.0 <= filling.release_pressure < filling.surrounding_pressure:
        raise OutOfDomainError("release_pressure", filling.release_pressure, "absolute and below the sump's")
    if not (filling.port_area > 0.0 and filling.discharge_coefficient > 0.0):
        raise OutOfDomainError("port_area", filling.port_area, "greater than zero, as its coefficient")
    gauge = filling.release_pressure - filling.surrounding_pressure
    area = filling.port_area * filling.discharge_coefficient
    return np.array([gauge, area, filling.centrifugal_area])


def centrifugal_area(pair: RotorPair) -> SquareMetre:
    r"""Half the difference of squared radii against which oil has to get into an internal rotor pump.

    Parameters
    ----------
    pair : RotorPair
        Tooth data.

    Returns
    -------
    float [m2]
        Times density and angular speed squared, the pressure that is missing at the roots.

    Notes
    -----
    The port is taken to feed at the mean radius of the chambers, turning with the inner rotor:

    .. math:: \frac{(G - \rho)^2 - r_{root}^2}{2}

    References
    ----------
    [white2011] pressure in a rotating fluid

    Examples
    --------
    >>> round(centrifugal_area(RotorPair(8, 2.5e-3, 30e-3, 6.5e-3, 12e-3)) * 1e6, 2)
    55.62
    """
    return 0.5 * (pair.outer_tip_radius**2 - pair.inner_root_radius**2)


def filling_limit(
    path: InletPath,
    filling: Filling,
    displacement: CubicMetre,
    *,
    density: KilogramPerCubicMetre,
    dynamic_viscosity: PascalSecond,
    shortfall: Number = 0.01,
    author: EntranceAuthor = DEFAULT_AUTHOR,
    most_iterations: int = 200,
) -> FillingLimit:
    r"""Speed at which the flow taken in falls short of the flow swept.

    Parameters
    ----------
    path : InletPath
        The way from the sump.
    filling : Filling
        The inlet port and the oil.
    displacement : float [m3]
        For each revolution.
    density : float [kg/m3]
        Of the oil.
    dynamic_viscosity : float [Pa s]
        Of the oil.
    shortfall : float [1]
        Share of the flow that is missing at the limit.
    author : str
        Whose loss coefficients of the inlet edge.
    most_iterations : int
        Bound on the steps of the search.

    Returns
    -------
    FillingLimit
        Speed, flow and inlet pressure.

    Raises
    ------
    OutOfDomainError
        If a size means nothing, or the pump does not fill at any speed.
    NotConvergedError
        If the search ended before the speed was found.

    Notes
    -----
    Bisection for the speed at which

    .. math:: Q_{filled}(p_{in}((1 - s) Q_{swept}), \omega) = (1 - s) Q_{swept}

    Oil that leaks back to the inlet is not counted: with leaks less is drawn, and the limit lies higher. Air
    drawn in at joints, foam and surge bring it down; the release pressure is a property of oil and its air,
    known to some tenths of a bar.

    References
    ----------
    [ivantysyn2001] filling limit of the inlet

    Examples
    --------
    >>> path = InletPath(pipe_diameter=16e-3, pipe_length=0.3, rise=0.1)
    >>> limit = filling_limit(path, Filling(40e3, 250e-6), 12e-6, density=850.0, dynamic_viscosity=0.012)
    >>> round(limit.angular_speed * 30.0 / math.pi, -1)  # revolutions per minute
    5630.0
    """
    from fitwright.physics.pump.kernels.pump import filled_flow

    if not (displacement > 0.0 and 0.0 < shortfall < 1.0):
        raise OutOfDomainError("displacement", displacement, "positive, with a shortfall between 0 and 1")
    parameters = filling_parameters(filling)
    oil = {"density": density, "dynamic_viscosity": dynamic_viscosity}
    at_rest = inlet_gauge_pressure(path, 0.0, author=author, **oil)
    if not at_rest > parameters[0]:
        raise OutOfDomainError("rise", path.rise, "low enough for the pump to fill at any speed")

    def inlet(speed: RadianPerSecond) -> tuple[float, float, float]:
        swept = displacement * speed / (2.0 * math.pi)
        drawn = (1.0 - shortfall) * swept
        return swept, drawn, inlet_gauge_pressure(path, drawn, author=author, **oil)

    def over(speed: RadianPerSecond) -> float:
        swept, drawn, pressure = inlet(speed)
        return float(filled_flow(pressure, swept, speed, density, parameters)[0]) / drawn - 1.0

    speed, iterations = _falling_zero(over, most_iterations)
    _, drawn, pressure = inlet(speed)
    return FillingLimit(speed, drawn, pressure, iterations)


def edge_speed_gain(
    path: InletPath,
    edge_radius: Metre,
    filling: Filling,
    displacement: CubicMetre,
    *,
    density: KilogramPerCubicMetre,
    dynamic_viscosity: PascalSecond,
    author: EntranceAuthor = DEFAULT_AUTHOR,
) -> SpeedGain:
    r"""By how much the filling limit rises when the inlet edge is rounded.

    Parameters
    ----------
    path : InletPath
        The way from the sump, with its edge as it is.
    edge_radius : float [m]
        Radius to be put on.
    filling : Filling
        The inlet port and the oil.
    displacement : float [m3]
        For each revolution.
    density : float [kg/m3]
        Of the oil.
    dynamic_viscosity : float [Pa s]
        Of the oil.
    author : str
        Whose loss coefficients.

    Returns
    -------
    SpeedGain
        Both limits, the gain, and its range over all authors.

    Raises
    ------
    OutOfDomainError
        If a size means nothing.
    NotConvergedError
        If a limit was not found.

    Notes
    -----
    Two filling limits, each by one and the same author:

    .. math:: \Delta\omega = \omega(K(r/d)) - \omega(K(0))

    References
    ----------
    [rennels2012] rounded entrance, comparison with older data

    Examples
    --------
    >>> path, oil = InletPath(16e-3, 0.3, rise=0.1), {"density": 850.0, "dynamic_viscosity": 0.012}
    >>> gain = edge_speed_gain(path, 3e-3, Filling(40e3, 250e-6), 12e-6, **oil)
    >>> round(gain.speed * 30.0 / math.pi, -1)
    300.0
    """
    rounded = replace(path, edge_radius=edge_radius)

    def limits(whose: EntranceAuthor) -> tuple[FillingLimit, FillingLimit]:
        before, after = (
            filling_limit(
                each,
                filling,
                displacement,
                density=density,
                dynamic_viscosity=dynamic_viscosity,
                author=whose,
            )
            for each in (path, rounded)
        )
        return before, after

    gains = [after.angular_speed - before.angular_speed for before, after in map(limits, ENTRANCE_AUTHORS)]
    before, after = limits(author)
    least, most = min(gains), max(gains)
    speed = after.angular_speed - before.angular_speed
    return SpeedGain(before, after, speed, least, most, (most - least) / math.sqrt(12.0))


def _falling_zero(function: Callable[[float], float], most_iterations: int) -> tuple[float, int]:
    """Positive zero of a function that is above zero for slow speeds and falls, by doubling and bisection."""
    low, high = 1e-3, 1.0
    for step in range(1, most_iterations + 1):
        if function(high) > 0.0:
            low, high = high, 2.0 * high
            continue
        middle = 0.5 * (low + high)
        low, high = (middle, high) if function(middle) > 0.0 else (low, middle)
        if high - low <= _RELATIVE * high:
            return 0.5 * (low + high), step
    raise NotConvergedError("speed of the filling limit", most_iterations, (high - low) / high, _RELATIVE)
