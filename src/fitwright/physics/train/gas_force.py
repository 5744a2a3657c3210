"""A stated pressure curve of a cylinder over the cycle: a plausible load, not a model of combustion."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.train.kinematics import (
    CrankGeometry,
    heights_at_the_ends,
    piston_motion,
    top_angle,
)
from fitwright.quantity import (
    CubicMetres,
    FloatArray,
    Joule,
    Metre,
    Newtons,
    Number,
    Pascal,
    Pascals,
    Radian,
    Radians,
)

PEAK_WIDTH: Radian = math.radians(20.0)
"""Crank angle behind the peak over which expansion sets in [rad]."""

USUAL_COMBUSTION_START: Radian = math.radians(-15.0)
USUAL_EXHAUST_OPENING: Radian = math.radians(130.0)
USUAL_BLOWDOWN: Radian = math.radians(60.0)

AMBIENT_PRESSURE: Pascal = 101_325.0
"""Usual absolute pressure around an engine and in its crankcase [Pa]."""


@dataclass(frozen=True, slots=True)
class StatedCycle:
    """Pressure of a cylinder as stated by who asks; absolute pressures, angles from the firing top.

    Attributes
    ----------
    peak_pressure : float [Pa]
        Largest pressure.
    peak_angle : float [rad]
        Crank angle at which it is reached, after the firing top.
    compression_ratio : float [1]
        Largest volume over smallest.
    intake_pressure : float [Pa]
        While the cylinder fills, and at the beginning of compression.
    exhaust_pressure : float [Pa]
        While it empties.
    compression_exponent : float [1]
        Polytropic exponent of compression.
    expansion_exponent : float [1]
        Polytropic exponent of expansion.
    combustion_start : float [rad]
        Where the pressure leaves the compression line; negative is before the firing top.
    exhaust_opening : float [rad]
        Where it leaves the expansion line, after the firing top.
    blowdown : float [rad]
        Crank angle over which it falls to the exhaust's, and later from that to the intake's.
    strokes : int
        Four or two.
    """

    peak_pressure: Pascal
    peak_angle: Radian
    compression_ratio: Number
    intake_pressure: Pascal = AMBIENT_PRESSURE
    exhaust_pressure: Pascal = 1.05 * AMBIENT_PRESSURE
    compression_exponent: Number = 1.32
    expansion_exponent: Number = 1.27
    combustion_start: Radian = USUAL_COMBUSTION_START
    exhaust_opening: Radian = USUAL_EXHAUST_OPENING
    blowdown: Radian = USUAL_BLOWDOWN
    strokes: int = 4

    @property
    def cycle_angle(self) -> Radian:
        """Crank angle of one cycle."""
        return self.strokes * math.pi


def cylinder_volume(
    geometry: CrankGeometry, crank_angle: Radians, *, bore: Metre, compression_ratio: Number
) -> CubicMetres:
    r"""Volume of a cylinder.

    Parameters
    ----------
    geometry : CrankGeometry
        Sizes of the slider-crank.
    crank_angle : array_like [rad]
        From the throw along the cylinder.
    bore : float [m]
        Diameter of the cylinder.
    compression_ratio : float [1]
        Largest volume over smallest.

    Returns
    -------
    array [m3]
        Volume.

    Raises
    ------
    OutOfDomainError
        If a size or the ratio means nothing.

    Notes
    -----
    .. math:: V = \frac{\pi}{4} B^2 \left(\frac{s_1 - s_2}{\varepsilon - 1} + s_1 - s\right)

    References
    ----------
    [heywood1988] cylinder volume

    Examples
    --------
    >>> volume = cylinder_volume(CrankGeometry(0.045, 0.145), math.pi, bore=0.08, compression_ratio=10.0)
    >>> round(float(volume) * 1e6, 2)
    502.65
    """
    if not (bore > 0.0 and compression_ratio > 1.0):
        raise OutOfDomainError("compression_ratio", compression_ratio, "above one, and the bore positive")
    high, low = heights_at_the_ends(geometry)
    height = piston_motion(geometry, crank_angle, angular_speed=1.0).height
    volume: FloatArray = 0.25 * math.pi * bore**2 * ((high - low) / (compression_ratio - 1.0) + high - height)
    return volume


def stated_pressure(geometry: CrankGeometry, cycle: StatedCycle, crank_angle: Radians) -> FloatArray:
    r"""Absolute pressure of a cylinder over a stated cycle.

    Parameters
    ----------
    geometry : CrankGeometry
        Sizes of the slider-crank.
    cycle : StatedCycle
        What is stated.
    crank_angle : array_like [rad]
        From the throw along the cylinder at firing; the cycle repeats.

    Returns
    -------
    array [Pa]
        Absolute pressure.

    Raises
    ------
    OutOfDomainError
        If angles do not follow one another, a pressure means nothing, or the peak lies below the pressure
        of compression alone.

    Notes
    -----
    Polytropic lines p V^n of compression (from the largest volume of four strokes, from the closing ports
    of two) and expansion (through the stated peak); constant pressure while gas is changed. One line passes
    into the next by blending their logarithms with 10 t^3 - 15 t^4 + 6 t^5, so that pressure and slope are
    continuous. The rise ends level at the stated peak; expansion begins over the 20 degrees behind it. The
    work of such a cycle follows from what is stated; hold it against the known torque.

    References
    ----------
    [heywood1988] polytropic compression and expansion

    Examples
    --------
    >>> cycle = StatedCycle(7e6, math.radians(12.0), 10.0)
    >>> crank = CrankGeometry(0.045, 0.145)
    >>> stated_pressure(crank, cycle, np.radians([12.0, 540.0])).round(0).tolist()
    [7000000.0, 101325.0]
    """
    _check(cycle)
    around = np.mod(np.asarray(crank_angle, dtype=np.float64), cycle.cycle_angle)
    around = np.where(around > 0.5 * cycle.cycle_angle, around - cycle.cycle_angle, around)
    closing = _closing(geometry, cycle)
    volume = _log_volume(geometry, cycle, around)
    at_closing, at_peak, at_top = _log_volume(
        geometry, cycle, np.array([closing, cycle.peak_angle, top_angle(geometry)])
    )
    compressed = math.log(cycle.intake_pressure) + cycle.compression_exponent * (at_closing - volume)
    highest = math.log(cycle.intake_pressure) + cycle.compression_exponent * (at_closing - at_top)
    if not math.log(cycle.peak_pressure) > highest:
        raise OutOfDomainError("peak_pressure", cycle.peak_pressure, "above that of compression alone")
    begun = _smooth(around, cycle.peak_angle, cycle.peak_angle + PEAK_WIDTH)
    expanded = math.log(cycle.peak_pressure) - cycle.expansion_exponent * (volume - at_peak) * begun
    fired = _smooth(around, cycle.combustion_start, cycle.peak_angle)
    opened = _smooth(around, cycle.exhaust_opening, cycle.exhaust_opening + cycle.blowdown)
    inside = compressed * (1.0 - fired) + expanded * fired
    changing = (around < closing) | (around > cycle.exhaust_opening + cycle.blowdown)
    gas = _gas_exchange(cycle, around, closing)
    out = math.log(cycle.exhaust_pressure)
    return np.exp(np.where(changing, gas, inside * (1.0 - opened) + out * opened))


def _closing(geometry: CrankGeometry, cycle: StatedCycle) -> float:
    """Where compression begins: the largest volume of four strokes, the closing port of two."""
    if cycle.strokes == 2:
        return -cycle.exhaust_opening
    return -math.pi + math.asin(geometry.pin_offset / (geometry.rod_length - geometry.crank_radius))


def _log_volume(geometry: CrankGeometry, cycle: StatedCycle, crank_angle: FloatArray) -> FloatArray:
    volume = cylinder_volume(geometry, crank_angle, bore=1.0, compression_ratio=cycle.compression_ratio)
    logarithm: FloatArray = np.log(volume)  # only ratios of volumes enter, so that any bore does
    return logarithm


def _gas_exchange(cycle: StatedCycle, around: FloatArray, closing: float) -> FloatArray:
    """Logarithm of the pressure between blowdown and compression: from the exhaust's to the intake's."""
    if cycle.strokes == 4:  # about the top where gas is changed, a turn after firing
        theta = np.where(around < 0.0, around + cycle.cycle_angle, around)
        half = 0.5 * cycle.blowdown
        changed = _smooth(theta, 2.0 * math.pi - half, 2.0 * math.pi + half)
    else:
        changed = np.where(around > 0.0, 0.0, _smooth(around, -math.pi, closing))
    out, into = math.log(cycle.exhaust_pressure), math.log(cycle.intake_pressure)
    logarithm: FloatArray = out * (1.0 - changed) + into * changed
    return logarithm


def gas_force(pressure: Pascals, *, bore: Metre, crankcase_pressure: Pascal = AMBIENT_PRESSURE) -> Newtons:
    r"""Force of the gas on a piston, towards the crank.

    Parameters
    ----------
    pressure : array_like [Pa]
        Absolute pressure above the piston.
    bore : float [m]
        Diameter of the cylinder.
    crankcase_pressure : float [Pa]
        Absolute pressure below it.

    Returns
    -------
    array [N]
        Force.

    Notes
    -----
    .. math:: F = \frac{\pi}{4} B^2 (p - p_0)

    References
    ----------
    [heywood1988] gas force on the piston

    Examples
    --------
    >>> round(float(gas_force(7e6, bore=0.08)))
    34677
    """
    force: FloatArray = (
        0.25 * math.pi * bore**2 * (np.asarray(pressure, dtype=np.float64) - crankcase_pressure)
    )
    return force


def cycle_work(pressure: Pascals, volume: CubicMetres) -> Joule:
    r"""Work of the gas over a closed cycle.

    Parameters
    ----------
    pressure : array (n,) [Pa]
        Pressure at even crank angles over the cycle, the last one interval before its end.
    volume : array (n,) [m3]
        Volume at the same angles.

    Returns
    -------
    float [J]
        Work on the piston.

    Notes
    -----
    .. math:: W = \oint p \, dV

    by the derivative of the trigonometric interpolation of the volume, exact for smooth cycles.

    References
    ----------
    [heywood1988] indicated work

    Examples
    --------
    >>> angle = np.arange(360) * np.pi / 180.0
    >>> round(cycle_work(2.0 + np.sin(angle), 3.0 - np.cos(angle)), 6) == round(math.pi, 6)
    True
    """
    p, v = np.asarray(pressure, dtype=np.float64), np.asarray(volume, dtype=np.float64)
    n = len(p)
    order = np.fft.rfftfreq(n, 1.0 / n)
    slope = np.fft.irfft(1j * order * np.fft.rfft(v), n)
    return float((p * slope).mean() * 2.0 * math.pi)


def _smooth(x: FloatArray, first: float, last: float) -> FloatArray:
    """Zero before, one after, twice differentiable between."""
    t = np.clip((x - first) / (last - first), 0.0, 1.0)
    share: FloatArray = t**3 * (10.0 + t * (6.0 * t - 15.0))
    return share


def _check(cycle: StatedCycle) -> None:
    if cycle.strokes not in (2, 4):
        raise OutOfDomainError("strokes", cycle.strokes, "two or four")
    end = cycle.exhaust_opening + cycle.blowdown
    limit = 2.0 * math.pi - 0.5 * cycle.blowdown if cycle.strokes == 4 else math.pi
    if not (cycle.combustion_start < cycle.peak_angle < cycle.exhaust_opening and end <= limit):
        raise OutOfDomainError(
            "angles of the cycle",
            (cycle.combustion_start, cycle.peak_angle, cycle.exhaust_opening, cycle.blowdown),
            "in order: combustion start, peak, exhaust opening, end of blowdown before gas is changed",
        )
    for name in ("peak_pressure", "intake_pressure", "exhaust_pressure", "blowdown"):
        if not getattr(cycle, name) > 0.0:
            raise OutOfDomainError(name, getattr(cycle, name), "positive")
