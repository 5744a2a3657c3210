"""The path of a journal under a load that turns and changes, cycle after cycle until it closes."""

from __future__ import annotations

import math

import numpy as np
from numba import njit

from fitwright.physics.bearings.kernels.mobility import mobility_at
from fitwright.quantity import FloatArray, Newton, Number, Radian

# The Dormand-Prince pair: the last row of weights is the step of fifth order.
TIMES = np.array([0.0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1.0, 1.0])
WEIGHTS = np.array(
    [
        [0.0, 0.0, 0.0, 0.0, 0.0, 0.0],
        [1 / 5, 0.0, 0.0, 0.0, 0.0, 0.0],
        [3 / 40, 9 / 40, 0.0, 0.0, 0.0, 0.0],
        [44 / 45, -56 / 15, 32 / 9, 0.0, 0.0, 0.0],
        [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729, 0.0, 0.0],
        [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656, 0.0],
        [35 / 384, 0.0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
    ]
)
DIFFERENCE = np.array(
    [71 / 57600, 0.0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40],
)
LARGEST_TRIES = 400  # in one interval of the load


@njit(cache=True, nogil=True, error_model="numpy")
def closed_orbit(
    load: FloatArray,
    turning: FloatArray,
    interval: Radian,
    pace: float,
    planes: FloatArray,
    largest_depth: Number,
    length_ratio: Number,
    tolerance: Number,
    closing: Number,
    largest_cycles: int,
    path: FloatArray,
) -> tuple[int, Number, bool, int]:
    """Path of the eccentricity ratio over a cycle, begun anew until it ends where it began.

    Parameters
    ----------
    load : array (n, 2) [N]
        Load on the journal at even crank angles over the cycle, in the frame of the bearing.
    turning : array (n,) [1]
        Half of the journal's speed against the bearing, over the speed of the crank.
    interval : float [rad]
        Crank angle between two of them.
    pace : float [1/N]
        (c/R)^2 / (mu L D omega): eccentricity ratio per radian at a mobility and a load of one.
    planes : array [1]
        Of the map.
    largest_depth : float [1]
        Of the map.
    length_ratio : float [1]
        Of the film.
    tolerance : float [1]
        Error of a step over the smallest film, as a share of the clearance.
    closing : float [1]
        Distance in eccentricity ratio at which the path counts as closed.
    largest_cycles : int
        Cycles at most.
    path : array (n, 2) [1]
        Is filled with the eccentricity ratio at the crank angles; its first row is where the path begins.

    Returns
    -------
    tuple of 4 [1]
        Cycles run; distance at the end; whether every step was within the tolerance; steps of the last
        cycle.

    References
    ----------
    [booker1971] mobility method
    [dormand1980] embedded Runge-Kutta pair of fifth and fourth order
    """
    n = load.shape[0]
    x, y = path[0, 0], path[0, 1]
    step = 0.25 * interval
    rates = np.empty((7, 2))
    sound, cycles, distance, steps = True, 0, math.inf, 0
    while cycles < largest_cycles and distance > closing:
        cycles += 1
        sound, steps = True, 0
        start_x, start_y = x, y
        for i in range(n):
            path[i, 0], path[i, 1] = x, y
            done, tries = 0.0, 0
            while done < interval:
                tries += 1
                trial = min(step, interval - done)
                new_x, new_y, error = _step(
                    load,
                    turning,
                    interval,
                    pace,
                    planes,
                    largest_depth,
                    length_ratio,
                    i,
                    done,
                    trial,
                    x,
                    y,
                    rates,
                )
                share = error / (tolerance * max(1.0 - math.hypot(new_x, new_y), 1e-4))
                if share <= 1.0:
                    done = interval if trial >= interval - done else done + trial
                    x, y = new_x, new_y
                    steps += 1
                elif tries > LARGEST_TRIES:
                    sound = False
                    break
                grown = trial * (5.0 if share < 1e-4 else max(0.2, 0.9 / share**0.2))
                # A step that was cut short by the end of an interval says little about the next.
                if share > 1.0 or trial == step or grown > step:
                    step = min(grown, interval)
        distance = math.hypot(x - start_x, y - start_y)
    return cycles, distance, sound, steps


@njit(cache=True, nogil=True, error_model="numpy")
def squeeze_along(
    load: FloatArray,
    path: FloatArray,
    planes: FloatArray,
    largest_depth: Number,
    length_ratio: Number,
    found: FloatArray,
) -> None:
    """Squeeze and pressure at every place of a path.

    Parameters
    ----------
    load : array (n, 2) [N]
        Load on the journal.
    path : array (n, 2) [1]
        Eccentricity ratio.
    planes : array [1]
        Of the map.
    largest_depth : float [1]
        Of the map.
    length_ratio : float [1]
        Of the film.
    found : array (n, 4)
        Is filled with what `squeeze` gives.

    References
    ----------
    [booker1971] mobility method
    """
    for i in range(path.shape[0]):
        found[i, 0], found[i, 1], found[i, 2], found[i, 3] = squeeze(
            load[i, 0], load[i, 1], planes, largest_depth, length_ratio, path[i, 0], path[i, 1]
        )


@njit(cache=True, nogil=True, error_model="numpy")
def squeeze(
    force_x: Newton,
    force_y: Newton,
    planes: FloatArray,
    largest_depth: Number,
    length_ratio: Number,
    x: Number,
    y: Number,
) -> tuple[Newton, Newton, Newton, Number]:
    """Mobility times load in the frame of the bearing, the part along the load, and P / pmax.

    Parameters
    ----------
    force_x : float [N]
        Load on the journal.
    force_y : float [N]
        Load on the journal.
    planes : array [1]
        Of the map.
    largest_depth : float [1]
        Of the map.
    length_ratio : float [1]
        Of the film.
    x : float [1]
        Eccentricity ratio.
    y : float [1]
        Eccentricity ratio.

    Returns
    -------
    tuple of 4 [N] [1]
        Both components of mobility times load [N]; mobility along the load times load [N]; P / pmax.

    References
    ----------
    [booker1971] mobility method
    """
    force = math.hypot(force_x, force_y)
    if not force > 0.0:
        return 0.0, 0.0, 0.0, 1.0
    c, s = force_x / force, force_y / force
    along, across, pressure = mobility_at(planes, largest_depth, length_ratio, x * c + y * s, y * c - x * s)
    return force * (along * c - across * s), force * (along * s + across * c), force * along, pressure


@njit(cache=True, nogil=True, error_model="numpy")
def _cubic(values: FloatArray, i: int, t: float) -> tuple[float, float]:
    """Both columns at a share of an interval, by a cubic through four neighbours' slopes, periodic."""
    n = values.shape[0]
    before, after, beyond = (i - 1) % n, (i + 1) % n, (i + 2) % n
    a = 0.5 * t * (-1.0 + t * (2.0 - t))
    b = 0.5 * (2.0 + t * t * (-5.0 + 3.0 * t))
    c = 0.5 * t * (1.0 + t * (4.0 - 3.0 * t))
    d = 0.5 * t * t * (t - 1.0)
    return (
        a * values[before, 0] + b * values[i, 0] + c * values[after, 0] + d * values[beyond, 0],
        a * values[before, 1] + b * values[i, 1] + c * values[after, 1] + d * values[beyond, 1],
    )


@njit(cache=True, nogil=True, error_model="numpy")
def _rate(
    load: FloatArray,
    turning: FloatArray,
    interval: float,
    pace: float,
    planes: FloatArray,
    largest_depth: float,
    length_ratio: float,
    i: int,
    done: float,
    x: float,
    y: float,
) -> tuple[float, float]:
    """Change of the eccentricity ratio by the crank angle."""
    t = done / interval
    force_x, force_y = _cubic(load, i, t)
    after = i + 1 if i + 1 < turning.shape[0] else 0
    turn = turning[i] + t * (turning[after] - turning[i])
    u, v, _, _ = squeeze(force_x, force_y, planes, largest_depth, length_ratio, x, y)
    return pace * u - turn * y, pace * v + turn * x


@njit(cache=True, nogil=True, error_model="numpy")
def _step(
    load: FloatArray,
    turning: FloatArray,
    interval: float,
    pace: float,
    planes: FloatArray,
    largest_depth: float,
    length_ratio: float,
    i: int,
    done: float,
    h: float,
    x: float,
    y: float,
    rates: FloatArray,
) -> tuple[float, float, float]:
    """One step of the Dormand-Prince pair: new place, and how far both orders differ."""
    new_x, new_y = x, y
    for stage in range(7):
        new_x, new_y = x, y
        for k in range(stage):
            new_x += h * WEIGHTS[stage, k] * rates[k, 0]
            new_y += h * WEIGHTS[stage, k] * rates[k, 1]
        rates[stage, 0], rates[stage, 1] = _rate(
            load,
            turning,
            interval,
            pace,
            planes,
            largest_depth,
            length_ratio,
            i,
            done + TIMES[stage] * h,
            new_x,
            new_y,
        )
    error_x, error_y = 0.0, 0.0
    for k in range(7):
        error_x += h * DIFFERENCE[k] * rates[k, 0]
        error_y += h * DIFFERENCE[k] * rates[k, 1]
    error = math.hypot(error_x, error_y)
    if not new_x * new_x + new_y * new_y < 1.0:
        error = math.inf  # a step across the wall is tried again, shorter
    return new_x, new_y, error
