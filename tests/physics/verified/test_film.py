"""The film solver against closed forms, against itself on finer grids, and against what it must conserve."""

import numpy as np
import pytest

from fitwright.physics.bearings.curves import short_bearing_curves
from fitwright.physics.bearings.direct import direct_curves, direct_film, direct_mobility
from fitwright.physics.bearings.film import film_solution
from fitwright.physics.bearings.geometry import Bearing, Feed, JournalMotion, JournalPosition
from fitwright.physics.bearings.grids import FilmGrid
from fitwright.physics.numerics.errors import NotConvergedError, OutOfDomainError
from tests.support.compare import absolute, verified

CLEARANCE = 1e-3
LINE = (Feed(np.pi, half_width=np.inf),)
TURNING = JournalMotion(journal_speed=2.0 * np.pi)

# Eccentricity ratio, S, attitude in degrees, (R/c) f, Q / (R c N L), P / pmax, rupture in degrees: the
# one-dimensional equation, by quadrature apart from this project.
LONG = np.array(
    [
        (0.1, 0.24146, 69.030, 4.8370, 3.0301, 0.8256, 249.22),
        (0.2, 0.12373, 66.900, 2.5847, 2.8401, 0.8132, 241.33),
        (0.4, 0.06289, 61.638, 1.5305, 2.2778, 0.7623, 226.58),
        (0.6, 0.03895, 54.234, 1.2045, 1.5621, 0.6670, 213.08),
        (0.8, 0.02110, 42.181, 0.9629, 0.7825, 0.4983, 200.17),
        (0.9, 0.01151, 31.667, 0.7575, 0.3888, 0.3585, 193.20),
        (0.95, 0.00609, 23.177, 0.5718, 0.1936, 0.2546, 188.97),
        (0.97, 0.00375, 18.221, 0.4558, 0.1159, 0.1973, 186.83),
    ]
)
QUADRATURE = "quadrature of the one-dimensional equation apart from this project, four figures"


def long_film(e, steps=384):
    bearing = Bearing(2.0, 2.0, CLEARANCE, feeds=LINE, sealed_ends=True)
    grid = FilmGrid(steps, 4)
    return film_solution(bearing, JournalPosition(e), TURNING, dynamic_viscosity=1.0, grid=grid)


def sommerfeld(film):
    return 4.0 / film.load / CLEARANCE**2


def test_infinitely_long_bearing():
    films = [long_film(e) for e in LONG[:, 0]]
    verified([sommerfeld(film) for film in films], LONG[:, 1], by=QUADRATURE, tolerance=absolute(1e-5))
    attitudes = np.degrees([film.attitude_angle for film in films])
    verified(attitudes, LONG[:, 2], by=QUADRATURE, tolerance=absolute(0.1))
    friction = [film.friction_torque_full_film / film.load / CLEARANCE for film in films]
    verified(friction, LONG[:, 3], by=QUADRATURE, tolerance=1e-3)
    flow = [film.flow_around[np.argmax(film.film_thickness[:, 0])] / (2.0 * CLEARANCE) for film in films]
    verified(flow, LONG[:, 4], by=QUADRATURE, tolerance=1e-3)
    ratio = [film.load / 4.0 / film.maximum_pressure for film in films]
    verified(ratio, LONG[:, 5], by=QUADRATURE, tolerance=1e-3)
    ends = [np.degrees(film.angles[~film.ruptured[:, 0]].max()) + 180.0 for film in films]
    verified(ends, LONG[:, 6], by=QUADRATURE, tolerance=absolute(1.5))


def test_order_of_convergence_is_two():
    exact = LONG[3]
    steps = np.array([24, 48, 96, 192])
    error = np.array([np.abs(np.degrees(long_film(0.6, n).attitude_angle) - exact[2]) for n in steps])
    order = np.log2(error[0] / error[2]) / 2.0
    print(f"attitude at 24 to 192 steps off by {error.round(4)} degrees: order {order:.2f}")
    assert order > 1.6
    loads = [
        direct_curves(0.6, [0.7], grid=FilmGrid(n, n // 3)).sommerfeld_number[0] for n in (36, 72, 144, 288)
    ]
    step = np.abs(np.diff(loads))
    orders = np.log2(step[:-1] / step[1:]).round(2)
    print(f"S on grids of 36 to 288 steps: {np.round(loads, 7)}; orders {orders}")
    assert np.log2(step[0] / step[-1]) / 2.0 > 1.5


def test_short_bearing_is_the_limit():
    e = [0.1, 0.3, 0.5, 0.7, 0.9]
    narrow, short = direct_curves(0.03, e), short_bearing_curves(0.03, e)
    closed = "closed form of the short bearing, L/D 0.03"
    verified(narrow.sommerfeld_number, short.sommerfeld_number, by=closed, tolerance=0.01)
    off = np.degrees(narrow.attitude_angle - short.attitude_angle)
    verified(off, np.zeros(5), by=closed, tolerance=absolute(0.3))
    verified(narrow.side_flow, short.side_flow, by=closed, tolerance=0.005)
    full = narrow.friction_variable_full_film
    verified(full, short.friction_variable_full_film, by=closed, tolerance=0.01)
    verified(narrow.friction_variable, short.friction_variable, by=closed, tolerance=0.015)
    verified(narrow.pressure_ratio, short.pressure_ratio, by=closed, tolerance=0.01)


@pytest.mark.parametrize("e", [0.02, 0.5, 0.9, 0.99])
@pytest.mark.parametrize("length_ratio", [0.15, 1.2])
def test_mass_is_conserved_through_the_rupture(length_ratio, e):
    film = direct_film(length_ratio, e, grid=FilmGrid())
    print(f"L/D {length_ratio}, {e}: {film.iterations} iterations, residual {film.mass_residual:.1e}")
    assert film.mass_residual < 1e-10
    verified(film.supply_flow, film.side_flow, by="what enters leaves at the ends", tolerance=1e-9)
    # Behind the rupture nothing is added or lost: the flow round stays what it was there.
    behind = film.ruptured[:, :-1].all(axis=1)
    flow = film.flow_around[behind]
    verified(flow, np.full(flow.shape, flow[0]), by="one flow through the ruptured film", tolerance=1e-6)
    assert film.gauge_pressure.min() >= 0.0
    assert 0.0 < film.film_fraction.min() <= film.film_fraction.max() == 1.0


def test_film_forms_anew_only_where_oil_arrives():
    """A hole in the middle of the widest gap feeds less than a line across it."""
    hole = Feed(np.pi, 0.1, 0.0, 0.1, gauge_pressure=1e3, is_round=True)
    position = JournalPosition(0.7)
    starved = film_solution(
        Bearing(2.0, 1.0, CLEARANCE, feeds=(hole,)), position, TURNING, dynamic_viscosity=1.0
    )
    flooded = film_solution(
        Bearing(2.0, 1.0, CLEARANCE, feeds=LINE), position, TURNING, dynamic_viscosity=1.0
    )
    assert starved.mass_residual < 1e-10
    assert starved.load < flooded.load
    assert starved.side_flow < flooded.side_flow
    verified(starved.supply_flow, starved.side_flow, by="what enters leaves at the ends", tolerance=1e-9)


def test_only_the_speeds_seen_from_the_load_make_the_wedge():
    bearing = Bearing(0.05, 0.025, 25e-6, feeds=(Feed(np.pi, half_width=np.inf, gauge_pressure=2e5),))
    position = JournalPosition(0.6, 0.3)
    motions = [(300, 0, 0), (0, 300, 0), (200, 100, 0), (100, 0, -100), (900, 0, 300), (0, 0, -150)]
    films = [
        film_solution(bearing, position, JournalMotion(*speeds), dynamic_viscosity=0.01) for speeds in motions
    ]
    for name in ("load", "attitude_angle", "side_flow", "maximum_pressure"):
        got = [getattr(film, name) for film in films]
        verified(got, np.full(len(got), got[0]), by="the same journal + bearing - 2 load", tolerance=1e-12)
    turned_back = film_solution(
        bearing, JournalPosition(0.6, -0.3), JournalMotion(-300), dynamic_viscosity=0.01
    )
    verified(turned_back.load, films[0].load, by="mirror image", tolerance=2e-3)
    # A journal that turns with its bearing shears nothing; only the wedge holds it back.
    together = film_solution(bearing, position, JournalMotion(150, 150), dynamic_viscosity=0.01)
    verified(together.friction_torque, -together.bearing_torque, by="no shear", tolerance=1e-12)


def test_load_turning_at_half_speed_is_not_carried_by_a_wedge():
    feed = Feed(0.0, np.inf, 0.0, 0.001, gauge_pressure=2e5)
    bearing = Bearing(0.05, 0.025, 25e-6, feeds=(feed,))
    turning = film_solution(bearing, JournalPosition(0.5), JournalMotion(300, 0, 150), dynamic_viscosity=0.01)
    # The pressure of a full groove falls evenly over both lands whatever the gap: it carries nothing.
    assert abs(turning.load) < 2e-4 * 2e5 * 0.05 * 0.025
    assert (
        abs(film_solution(bearing, JournalPosition(0.5), JournalMotion(300), dynamic_viscosity=0.01).load)
        > 100
    )
    with pytest.raises(OutOfDomainError):
        film_solution(
            Bearing(0.05, 0.025, 25e-6),
            JournalPosition(0.5),
            JournalMotion(300, 0, 150),
            dynamic_viscosity=0.01,
        )


def test_whirl_is_a_squeeze_or_a_wedge():
    """Without rupture a whirling journal is the same film seen from outside or from the whirl."""
    feed = Feed(0.0, np.inf, 0.0, 0.001, gauge_pressure=5e7)
    bearing = Bearing(0.05, 0.025, 25e-6, feeds=(feed,))
    outside = film_solution(
        bearing, JournalPosition(0.4), JournalMotion(whirl_speed=100.0), dynamic_viscosity=0.01
    )
    within = film_solution(
        bearing, JournalPosition(0.4), JournalMotion(load_speed=100.0), dynamic_viscosity=0.01
    )
    assert not outside.ruptured.any()
    assert not within.ruptured.any()
    scale = absolute(1e-3 * np.ptp(outside.gauge_pressure))
    verified(outside.gauge_pressure, within.gauge_pressure, by="whirl as a wedge", tolerance=scale)
    verified(outside.load, within.load, by="whirl as a wedge", tolerance=2e-3)


@pytest.mark.parametrize("e", [0.0, 0.3, 0.6, 0.9])
def test_squeeze_of_the_short_bearing(e):
    """p = 6 mu c' cos t (L^2/4 - z^2) / h^3 over the half turn about the motion."""
    t = np.linspace(-0.5 * np.pi, 0.5 * np.pi, 20001)
    integral = np.trapezoid(np.cos(t) ** 2 / (1.0 - e * np.cos(t)) ** 3, t)
    along, across, ratio = direct_mobility(0.02, e, 0.0)
    verified(along * 0.02**2, 0.5 / integral, by="integral of the short bearing", tolerance=5e-3)
    assert abs(across) < 1e-9 * along
    # F = mu L^3 R c'/c^2 integral, pmax = 6 mu c' (L^2/4) / (c^2 (1 - e)^3).
    wanted = integral / 3.0 * (1.0 - e) ** 3
    verified(ratio, wanted, by="integral of the short bearing over its peak", tolerance=5e-3)


# Along and across the load, mobility (along, across) times (L/D)^2 of the short bearing.
MOBILITY = [
    (0.30, 0.30, 0.130778, -0.072554),
    (0.50, -0.50, 0.058342, 0.074851),
    (0.20, 0.60, 0.189758, -0.179340),
    (-0.30, 0.60, 0.638799, -0.363165),
    (0.00, 0.90, 0.343698, -0.380688),
    (-0.90, 0.0, 1.643396, 0.0),
]


@pytest.mark.parametrize("point", MOBILITY, ids=lambda point: f"{point[0]},{point[1]}")
def test_mobility_of_the_short_bearing(point):
    xi, eta, along, across = point
    got = direct_mobility(0.02, float(np.hypot(xi, eta)), -float(np.arctan2(eta, xi)))
    size = np.hypot(along, across)
    by = "numerical integration of the short bearing apart from this project"
    verified(
        np.array(got[:2]) * 0.02**2 / size, np.array([along, across]) / size, by=by, tolerance=absolute(3e-3)
    )


def test_full_groove_without_speed():
    feed = Feed(0.0, np.inf, 0.0, 0.002, gauge_pressure=3e5)
    bearing = Bearing(0.05, 0.024, 30e-6, feeds=(feed,))
    for e in (0.0, 0.5, 0.9):
        film = film_solution(bearing, JournalPosition(e), JournalMotion(), dynamic_viscosity=0.01)
        # Both lands, pi D c^3 p / (12 mu l) (1 + 1.5 e^2) each.
        flow = np.pi * 0.05 * (30e-6) ** 3 * 3e5 / (6.0 * 0.01 * 0.010) * (1.0 + 1.5 * e**2)
        verified(film.supply_flow, flow, by="plane flow through both lands", tolerance=2e-3)
        assert abs(film.friction_torque) < 1e-15


@pytest.mark.parametrize("taper, tilt, tilt_angle", [(3e-4, 0.0, 0.0), (0.0, 0.25, 0.0), (0.0, 0.3, 1.2)])
def test_taper_and_tilt_of_the_short_bearing(taper, tilt, tilt_angle):
    """Each section along the bearing by itself, integrated: d/dz (h^3 dp/dz) = 6 mu omega dh/dphi."""
    e, half, grid = 0.5, 0.02, FilmGrid(144, 32)
    bearing = Bearing(2.0, 2.0 * half, CLEARANCE, taper=taper, feeds=LINE)
    position = JournalPosition(e, 0.0, tilt, tilt_angle)
    film = film_solution(bearing, position, TURNING, dynamic_viscosity=1.0, grid=grid)
    z = np.linspace(-half, half, 401)
    angle = np.linspace(-np.pi, 0.0, 721)[:, np.newaxis]
    gap = (
        1.0 + taper / CLEARANCE * z / half - e * np.cos(angle) - tilt * z / half * np.cos(angle - tilt_angle)
    )
    slope = e * np.sin(angle) + tilt * z / half * np.sin(angle - tilt_angle)

    def along(values):
        steps = 0.5 * (values[:, 1:] + values[:, :-1]) * np.diff(z)
        return np.concatenate((np.zeros((values.shape[0], 1)), np.cumsum(steps, axis=1)), axis=1)

    first, second = along(along(slope) / gap**3), along(1.0 / gap**3)
    pressure = np.maximum(first - first[:, -1:] / second[:, -1:] * second, 0.0)
    unit = 6.0 * 2.0 * np.pi / CLEARANCE**2
    peak = np.array([unit * pressure.max()])
    verified([film.maximum_pressure], peak, by="each section by itself", tolerance=0.02)
    whole = np.trapezoid(np.trapezoid(pressure, z, axis=1) * np.sin(angle[:, 0]), angle[:, 0]) * unit
    across = film.load * np.sin(film.load_angle)
    verified(across, whole, by="each section by itself", tolerance=0.02)
    mirrored = film_solution(
        bearing if taper == 0.0 else Bearing(2.0, 2.0 * half, CLEARANCE, taper=-taper, feeds=LINE),
        JournalPosition(e, 0.0, -tilt, tilt_angle),
        TURNING,
        dynamic_viscosity=1.0,
        grid=grid,
    )
    verified(mirrored.end_flows, film.end_flows[::-1], by="the bearing turned round", tolerance=1e-9)
    verified(mirrored.load, film.load, by="the bearing turned round", tolerance=1e-9)


def test_half_of_a_symmetric_bearing_is_enough():
    bearing = Bearing(2.0, 1.0, CLEARANCE, feeds=LINE)
    half = film_solution(bearing, JournalPosition(0.7), TURNING, dynamic_viscosity=1.0)
    whole = film_solution(bearing, JournalPosition(0.7, tilt=1e-13), TURNING, dynamic_viscosity=1.0)
    assert half.places[0] == 0.0
    assert whole.places[0] == -whole.places[-1] == -0.5
    for name in ("side_flow", "supply_flow", "friction_torque", "maximum_pressure"):
        verified(getattr(half, name), getattr(whole, name), by="the whole bearing", tolerance=1e-9)
    verified(half.load, whole.load, by="the whole bearing", tolerance=2e-5)  # parabolas begin elsewhere


def test_a_film_nearby_saves_iterations():
    bearing = Bearing(2.0, 1.0, CLEARANCE, feeds=LINE)
    first = film_solution(bearing, JournalPosition(0.70), TURNING, dynamic_viscosity=1.0)
    cold = film_solution(bearing, JournalPosition(0.705), TURNING, dynamic_viscosity=1.0)
    warm = film_solution(bearing, JournalPosition(0.705), TURNING, dynamic_viscosity=1.0, start=first)
    verified(warm.load, cold.load, by="a cold start", tolerance=1e-12)
    assert warm.iterations < cold.iterations


def test_says_when_it_does_not_converge():
    bearing = Bearing(2.0, 1.0, CLEARANCE, feeds=LINE)
    with pytest.raises(NotConvergedError):
        film_solution(bearing, JournalPosition(0.7), TURNING, dynamic_viscosity=1.0, most_iterations=2)


@pytest.mark.parametrize(
    "bearing, position, motion, viscosity",
    [
        (Bearing(2.0, 1.0, 1e-3, feeds=LINE), JournalPosition(1.0), TURNING, 1.0),
        (Bearing(2.0, 1.0, 1e-3, feeds=LINE), JournalPosition(0.8, tilt=0.3), TURNING, 1.0),
        (Bearing(2.0, 1.0, 1e-3), JournalPosition(0.5), TURNING, 1.0),
        (Bearing(2.0, 1.0, 1e-3, feeds=LINE), JournalPosition(0.5), JournalMotion(), 1.0),
        (Bearing(2.0, 1.0, 1e-3, feeds=LINE), JournalPosition(0.5), TURNING, 0.0),
        (Bearing(2.0, 1.0, 1e-3, feeds=LINE), JournalPosition(0.5), JournalMotion(np.inf), 1.0),
        (Bearing(2.0, 1.0, 1e-3, feeds=(Feed(0.0, 4.0),)), JournalPosition(0.5), TURNING, 1.0),
    ],
    ids=["touching", "touching at one end", "unfed", "still", "no viscosity", "endless speed", "dry groove"],
)
def test_films_that_mean_nothing(bearing, position, motion, viscosity):
    with pytest.raises(OutOfDomainError):
        film_solution(bearing, position, motion, dynamic_viscosity=viscosity)


def test_sizes_that_mean_nothing():
    for sizes in ((0.0, 1.0, 1e-3), (1.0, -1.0, 1e-3), (1.0, 1.0, 0.0), (1.0, 1.0, 1e-3, 2e-3)):
        with pytest.raises(OutOfDomainError):
            Bearing(*sizes)
    for feed in ({"half_arc": -1.0}, {"gauge_pressure": -1.0}, {"is_round": True}):
        with pytest.raises(OutOfDomainError):
            Feed(0.0, **feed)
    for steps in ((4, 8), (48, 7), (48, 2)):
        with pytest.raises(OutOfDomainError):
            FilmGrid(*steps)


def test_a_small_hole_fills_a_wide_film_to_its_ends():
    """On the way there whole rings are ruptured and unfed; a grid too coarse for the hole leaves them dry."""
    hole = Feed(0.0, 0.1, 0.0, 0.03, gauge_pressure=1e4, is_round=True)
    bearing, position = Bearing(2.0, 1.95, CLEARANCE, feeds=(hole,)), JournalPosition(0.03, 1.0)
    coarse, middle, fine = (
        film_solution(bearing, position, TURNING, dynamic_viscosity=1.0, grid=FilmGrid(*steps))
        for steps in ((48, 8), (96, 32), (144, 32))
    )
    assert max(film.mass_residual for film in (coarse, middle, fine)) < 1e-9
    assert 0.0 <= coarse.film_fraction.min() <= coarse.film_fraction.max() <= 1.0
    assert min(middle.film_fraction.min(), fine.film_fraction.min()) > 0.9
    for film in (middle, fine):
        verified(film.supply_flow, film.side_flow, by="what enters leaves at the ends", tolerance=1e-6)
