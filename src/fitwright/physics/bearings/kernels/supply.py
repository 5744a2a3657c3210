"""What a fed bearing draws at a supply pressure, and how warm its film is; with exact derivatives."""

from __future__ import annotations

import math

from numba import njit

from fitwright.physics.bearings.kernels.curves import curve_values_and_slopes, eccentricity_for
from fitwright.physics.oil.kernels.viscosity import viscosity_and_slopes
from fitwright.quantity import (
    CubicMetrePerSecond,
    FloatArray,
    Kelvin,
    Metre,
    Newton,
    Number,
    Pascal,
    RadianPerSecond,
    Watt,
)

# Places in the vector of a bearing, `bearing_parameters` fills it.
JOURNAL_RADIUS, FILM_LENGTH, FILM_COUNT, LAND_LENGTH = 0, 1, 2, 3
FEED_KIND, HALF_ARC, FEED_ANGLE, SHAPE_FACTOR = 4, 5, 6, 7
CARRIED_SHARE, MEAN_WEIGHT, HEAT_CAPACITY, LARGEST_RISE = 8, 9, 10, 11
DRAG_SHARE = 12
PARAMETERS = 13
FULL_GROOVE, PARTIAL_GROOVE, LOCAL_FEED = 0.0, 1.0, 2.0
PRESSURE_ROUNDING = 1000.0  # Pa; half of it is left of a supply pressure of zero
DRAG_PRESSURE = 5000.0  # Pa; some of it has to press before the journal drags oil from the feed
TOLERANCE = 1e-12  # of the absolute film temperature
LARGEST_ITERATIONS = 60


@njit(cache=True, nogil=True, error_model="numpy")
def bearing_supply(
    gauge_pressure: Pascal,
    supply_temperature: Kelvin,
    angular_speed: RadianPerSecond,
    load: Newton,
    radial_clearance: Metre,
    bearing: FloatArray,
    coefficients: FloatArray,
    oil: FloatArray,
    largest_iterations: int = LARGEST_ITERATIONS,
    guess: Kelvin = 0.0,
) -> tuple[
    CubicMetrePerSecond,
    float,
    float,
    Kelvin,
    Kelvin,
    Number,
    Metre,
    Watt,
    CubicMetrePerSecond,
    CubicMetrePerSecond,
    bool,
    bool,
    int,
]:
    """Flow, temperatures and film of a bearing at the pressure of its feed.

    Parameters
    ----------
    gauge_pressure : float [Pa]
        At the feed; may be negative.
    supply_temperature : float [K]
        Of the oil at the feed.
    angular_speed : float [rad/s]
        Of the journal against the bearing; zero at rest, the sense does not matter.
    load : float [N]
        Steady load.
    radial_clearance : float [m]
        Half of the diametral clearance.
    bearing : array (13,) [1]
        From `bearing_parameters`.
    coefficients : array (n, 14) [1]
        From `curve_coefficients`, at the length ratio of `film_length_ratio`.
    oil : array [1]
        From `oil_parameters`.
    largest_iterations : int
        Evaluations of the heat balance at most.
    guess : float [K]
        Film temperature of a case close by, which saves evaluations; at zero the search begins at the
        supply's. The result is the same to the tolerance.

    Returns
    -------
    tuple of 13 [m3/s] [K] [1] [m] [W]
        Flow drawn [m3/s]; its derivatives by the pressure [m3/(s Pa)] and by the radial clearance [m2/s];
        effective film temperature and outlet temperature [K]; eccentricity ratio; smallest film
        thickness [m]; friction power [W]; pressure flow and hydrodynamic demand [m3/s]; whether the load
        lies inside the curves; whether the heat balance closed; how often it was evaluated.

    References
    ----------
    [iso7902_1_2013] heat balance of a pressure-fed bearing
    """
    speed = abs(angular_speed)
    pressure, pressure_slope = _inflow_pressure(gauge_pressure)
    shear_rate = speed * bearing[JOURNAL_RADIUS] / radial_clearance
    weight = bearing[MEAN_WEIGHT]
    low, high = 0.0, weight * bearing[LARGEST_RISE]
    warmer, iterations, converged = min(max(guess - supply_temperature, low), high), 0, False
    before, last = math.inf, math.inf  # sizes of the moves before
    temperature = supply_temperature + warmer
    mu, by_temperature, by_shear = viscosity_and_slopes(oil, temperature, shear_rate)
    film = _film(mu, pressure, speed, load, radial_clearance, bearing, coefficients, 0.0, 0.0, 0.0)
    rise = _rise(film, bearing)
    while iterations < largest_iterations:
        iterations += 1
        if warmer > weight * rise[0]:
            high = warmer
        else:
            low = warmer
        following = _cooler(warmer, weight * rise[0], weight * rise[1] * by_temperature)
        # To and fro between two temperatures nothing would shrink: then the bracket is halved.
        if not low <= following <= high or abs(following - warmer) > 0.5 * before:
            following = 0.5 * (low + high)
        move = following - warmer
        before, last = last, abs(move)
        if abs(move) <= TOLERANCE * temperature:
            converged = True
            break
        warmer = following
        temperature = supply_temperature + warmer
        mu, by_temperature, by_shear = viscosity_and_slopes(oil, temperature, shear_rate)
        film = _film(
            mu,
            pressure,
            speed,
            load,
            radial_clearance,
            bearing,
            coefficients,
            film[7],
            film[11],
            film[12],
        )
        rise = _rise(film, bearing)
    # The implicit function theorem on the heat balance; a wider gap also shears the oil slower.
    shear_by_clearance = -by_shear * shear_rate / radial_clearance
    stiffness = 1.0 - weight * rise[1] * by_temperature
    warmer_by_pressure = weight * rise[3] * pressure_slope / stiffness
    warmer_by_clearance = weight * (rise[2] + rise[1] * shear_by_clearance) / stiffness
    flow, flow_by_viscosity, flow_by_clearance, flow_by_pressure = film[0], film[1], film[2], film[3]
    return (
        flow,
        flow_by_pressure * pressure_slope + flow_by_viscosity * by_temperature * warmer_by_pressure,
        flow_by_clearance + flow_by_viscosity * (shear_by_clearance + by_temperature * warmer_by_clearance),
        temperature,
        supply_temperature + rise[0],
        film[7],
        radial_clearance * (1.0 - film[7]),
        film[4],
        film[8],
        film[9],
        film[10] > 0.0,
        converged,
        iterations,
    )


@njit(cache=True, nogil=True, error_model="numpy")
def _inflow_pressure(gauge_pressure: float) -> tuple[float, float]:
    """Positive part of the supply pressure, rounded, and its slope."""
    root = math.sqrt(gauge_pressure * gauge_pressure + PRESSURE_ROUNDING * PRESSURE_ROUNDING)
    if gauge_pressure > 0.0:
        inflow = 0.5 * (gauge_pressure + root)
    else:
        inflow = 0.5 * PRESSURE_ROUNDING * PRESSURE_ROUNDING / (root - gauge_pressure)
    return inflow, inflow / root


@njit(cache=True, nogil=True, error_model="numpy")
def _cooler(warmer: float, rise: float, slope: float) -> float:
    """Warming that equals a mean rise which falls exponentially with it, from a point and a slope there."""
    if not rise > 0.0:
        return 0.0
    bend = slope / rise
    found = warmer - (warmer - rise) / (1.0 - slope)
    for _ in range(2):
        there = rise * math.exp(bend * (found - warmer))
        found -= (found - there) / (1.0 - bend * there)
    return found


@njit(cache=True, nogil=True, error_model="numpy")
def _film(
    mu: float,
    pressure: float,
    speed: float,
    load: float,
    clearance: float,
    bearing: FloatArray,
    coefficients: FloatArray,
    near: float,
    near_number: float,
    reach: float,
) -> tuple[float, float, float, float, float, float, float, float, float, float, float, float, float]:
    """Flow and friction of the film at a viscosity.

    Flow, its slopes by ln(viscosity), clearance and inflow pressure; friction power, its slopes by
    ln(viscosity) and clearance; eccentricity ratio, pressure flow, hydrodynamic demand, whether inside; 1/S
    and the slope of the eccentricity by its logarithm, from which (`near`) the next one is sought.
    """
    radius, length = bearing[JOURNAL_RADIUS], bearing[FILM_LENGTH]
    turns = speed / (2.0 * math.pi)
    end = coefficients[-1, 13]
    specific = load / (bearing[FILM_COUNT] * 2.0 * radius * length)
    number, number_slope = 0.0, 0.0  # 1/S and its slope by its logarithm, held below the end of the curves
    inside = 1.0
    if specific > 0.0:
        wanted = math.inf
        if turns > 0.0:
            wanted = specific * (clearance / radius) ** 2 / (mu * turns)
        inside = 1.0 if wanted <= end else 0.0
        number, slope, _ = _lesser(wanted, end)
        number_slope = slope * wanted if wanted < math.inf else 0.0
    if near_number > 0.0 and 0.8 * near_number < number < 1.25 * near_number:
        # The logarithm of the ratio, to third order.
        e = near + reach * 2.0 * (number - near_number) / (number + near_number)
    else:
        e, _ = eccentricity_for(coefficients, number)
    found = curve_values_and_slopes(coefficients, e)
    # What the step from the last place is still off vanishes as the heat balance closes.
    reach = found[0] / found[1]
    rest = (number - found[0]) / found[1] if near_number > 0.0 else 0.0
    e += rest
    attitude, side_flow, drag = (
        found[2] + rest * found[3],
        found[4] + rest * found[5],
        found[8] + rest * found[9],
    )
    moves = number_slope / found[1]  # slope of the eccentricity by ln(1/S) before the hold
    opening, opening_slope = _opening(bearing, e, attitude, found[3])
    pushed = opening * clearance**3 * pressure / mu
    demand = side_flow * radius * clearance * turns * length
    pushed_by_e, demand_by_e = (
        pushed * opening_slope / opening,
        found[5] * radius * clearance * turns * length,
    )
    # ln(1/S) falls with the viscosity and grows with the square of the clearance.
    pushed_by_mu = -pushed - moves * pushed_by_e
    pushed_by_c = (3.0 * pushed + 2.0 * moves * pushed_by_e) / clearance
    square = pressure * pressure + DRAG_PRESSURE * DRAG_PRESSURE
    open_share = bearing[DRAG_SHARE] * pressure / math.sqrt(square)
    open_by_pressure = bearing[DRAG_SHARE] * DRAG_PRESSURE * DRAG_PRESSURE / (square * math.sqrt(square))
    power = 4.0 * math.pi * bearing[FILM_COUNT] * mu * turns * turns * length * radius**3 / clearance
    friction, friction_by_e = power * drag, power * found[9]
    return (
        pushed + open_share * demand,
        pushed_by_mu - open_share * moves * demand_by_e,
        pushed_by_c + open_share * (demand + 2.0 * moves * demand_by_e) / clearance,
        pushed / pressure + open_by_pressure * demand,
        friction,
        friction - moves * friction_by_e,
        (2.0 * moves * friction_by_e - friction) / clearance,
        e,
        pushed,
        demand,
        inside,
        number,
        reach,
    )


@njit(cache=True, nogil=True, error_model="numpy")
def _rise(
    film: tuple[float, float, float, float, float, float, float, float, float, float, float, float, float],
    bearing: FloatArray,
) -> tuple[float, float, float, float]:
    """Warming of the oil on its way, with slopes by ln(viscosity), clearance and inflow pressure."""
    flow, friction = film[0], film[4]
    if not friction > 0.0:
        return 0.0, 0.0, 0.0, 0.0
    wanted = bearing[CARRIED_SHARE] * friction / (bearing[HEAT_CAPACITY] * flow)
    rise, slope, _ = _lesser(wanted, bearing[LARGEST_RISE])
    scale = slope * wanted
    return (
        rise,
        scale * (film[5] / friction - film[1] / flow),
        scale * (film[6] / friction - film[2] / flow),
        -scale * film[3] / flow,
    )


@njit(cache=True, nogil=True, error_model="numpy")
def _opening(bearing: FloatArray, e: float, attitude: float, attitude_slope: float) -> tuple[float, float]:
    """Pressure flow over c^3 p / mu, and its slope by the eccentricity ratio."""
    kind = bearing[FEED_KIND]
    if kind == FULL_GROOVE:
        scale = math.pi * bearing[JOURNAL_RADIUS] / (3.0 * bearing[LAND_LENGTH])
        return scale * (1.0 + 1.5 * e * e), 3.0 * scale * e
    middle = bearing[FEED_ANGLE] - attitude
    if kind == LOCAL_FEED:
        scale = bearing[SHAPE_FACTOR] / 12.0
        return scale * (1.0 + e * math.cos(middle)) ** 3, scale * _cube_slope(middle, e, attitude_slope)
    scale = bearing[JOURNAL_RADIUS] / (6.0 * bearing[LAND_LENGTH])
    end = bearing[SHAPE_FACTOR] / 12.0
    ahead, behind = middle + bearing[HALF_ARC], middle - bearing[HALF_ARC]
    far, far_e, far_angle = _cube_integral(ahead, e)
    near, near_e, near_angle = _cube_integral(behind, e)
    past = far_angle + near_angle  # the gap cubed at both ends of the groove
    past_e = _cube_slope(ahead, e, attitude_slope) + _cube_slope(behind, e, attitude_slope)
    along_e = far_e - near_e - (far_angle - near_angle) * attitude_slope
    return scale * (far - near) + end * past, scale * along_e + end * past_e


@njit(cache=True, nogil=True, error_model="numpy")
def _cube_slope(angle: float, e: float, attitude_slope: float) -> float:
    """Slope of (1 + e cos t)^3 by e, at an angle that falls with the attitude."""
    gap = 1.0 + e * math.cos(angle)
    return 3.0 * gap * gap * (math.cos(angle) + e * math.sin(angle) * attitude_slope)


@njit(cache=True, nogil=True, error_model="numpy")
def _cube_integral(angle: float, e: float) -> tuple[float, float, float]:
    """Integral of (1 + e cos t)^3 from zero, and its slopes by e and by the angle."""
    s, c = math.sin(angle), math.cos(angle)
    second, third = 0.5 * (angle + s * c), s - s * s * s / 3.0
    return (
        angle + e * (3.0 * s + e * (3.0 * second + e * third)),
        3.0 * s + e * (6.0 * second + 3.0 * e * third),
        (1.0 + e * c) ** 3,
    )


@njit(cache=True, nogil=True, error_model="numpy")
def _lesser(first: float, second: float) -> tuple[float, float, float]:
    """Lesser of two numbers that are not negative, rounded where they meet, and its slopes by both."""
    if first <= second:
        share = first / second if second > 0.0 else 1.0
        fourth = share**4
        power = 1.0 / math.sqrt(math.sqrt(1.0 + fourth))
        steep = power / (1.0 + fourth)
        return first * power, steep, steep * fourth * share
    share = second / first
    fourth = share**4
    power = 1.0 / math.sqrt(math.sqrt(1.0 + fourth))
    steep = power / (1.0 + fourth)
    return second * power, steep * fourth * share, steep
