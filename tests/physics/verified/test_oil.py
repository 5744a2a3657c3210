"""Oil against tables computed elsewhere, and against its equations solved another way."""

import math

import numpy as np
import pytest
from scipy.optimize import brentq

from fitwright.data.oils import generic_fuels, generic_oils, j300, viscosity_index_table
from fitwright.physics.numerics.errors import OutOfDomainError
from fitwright.physics.oil.dilution import blended_viscosity, diluted
from fitwright.physics.oil.grade_middle import grade_middle
from fitwright.physics.oil.grades import classified, grade_parts, winter_grades
from fitwright.physics.oil.kernels.viscosity import density_at, kinematic, viscosity, viscosity_and_slopes
from fitwright.physics.oil.oil import (
    Oil,
    density,
    dynamic_viscosity,
    kinematic_viscosity,
    oil_parameters,
)
from fitwright.physics.oil.pressure import usual_pressure_viscosity_coefficient
from fitwright.physics.oil.shear import with_usual_high_shear
from fitwright.physics.oil.viscosity_index import viscosity_index
from fitwright.physics.oil.walther import viscosity_on_line, walther_line, walther_line_from_slope
from tests.support.compare import absolute, verified
from tests.support.tables import columns, rows

TYPICALS = "oil/oil_typicals.csv"
LIMITS = j300()


def typical(row):
    return Oil(
        float(row["kv40_mm2_s"]) * 1e-6,
        float(row["kv100_mm2_s"]) * 1e-6,
        float(row["density15_kg_per_L"]) * 1e3,
        float(row["hths150_mPa_s"]) * 1e-3,
    )


@pytest.mark.parametrize("row", rows("oil/astm_d341_examples.csv"), ids=lambda row: row["oil"])
def test_viscosity_over_temperature(row):
    oil = Oil(float(row["kv40_mm2_s"]) * 1e-6, float(row["kv100_mm2_s"]) * 1e-6, 850.0)
    known = {int(name[2:-6]): float(row[name]) for name in row if name.startswith("kv")}
    found = kinematic_viscosity(oil, np.array(list(known)) + 273.15) * 1e6
    # The oil's own two points have three figures, the others seven.
    verified(found, list(known.values()), by="D341 computed elsewhere, table", tolerance=1e-4)
    line = [float(value) for value in walther_line(oil.kinematic_viscosity_40, oil.kinematic_viscosity_100)]
    verified(line, [float(row["A"]), float(row["B"])], by="A and B, table", tolerance=1e-6)


def test_viscosity_and_density_at_150_of_generic_oils():
    oils = [typical(row) for row in rows(TYPICALS)]
    nu, rho, eta = columns(
        TYPICALS, "kv150_calc_mm2_s", "rho150_calc_kg_per_L", "low_shear_visc150_calc_mPa_s"
    )
    by = "computed elsewhere, table of generic oils"
    found = [kinematic_viscosity(oil, 423.15) * 1e6 for oil in oils]
    verified(found, nu, by=f"{by}: kinematic viscosity", tolerance=2e-4)
    verified([density(oil, 423.15) * 1e-3 for oil in oils], rho, by=f"{by}: density", tolerance=1e-4)
    plain = [dynamic_viscosity(oil, 423.15) * 1e3 for oil in oils]
    verified(plain, eta, by=f"{by}: dynamic viscosity", tolerance=2e-4)


def test_thinning_meets_the_high_shear_point():
    thinning = [typical(row) for row in rows(TYPICALS) if float(row["hths_over_low_shear"]) < 1.0]
    assert len(thinning) == 10
    found = [float(dynamic_viscosity(oil, 423.15, 1e6)) for oil in thinning]
    wanted = [oil.high_shear_viscosity_150 for oil in thinning]
    verified(found, wanted, by="the data sheet itself", tolerance=1e-13)


def test_an_oil_thicker_at_high_shear_than_at_low_does_not_thin():
    thirty = typical(rows(TYPICALS)[-1])
    plain = dynamic_viscosity(thirty, 423.15)
    verified(dynamic_viscosity(thirty, 423.15, 1e7), plain, by="no thinning", tolerance=1e-15)


def test_the_usual_high_shear_viscosity_is_the_mean_of_the_generic_oils():
    shares = np.array(columns(TYPICALS, "hths_over_low_shear")[0])
    multigrade = with_usual_high_shear(Oil(98e-6, 14.7e-6, 868.0, 4.5e-3), "multigrade")
    monograde = with_usual_high_shear(Oil(93e-6, 10.8e-6, 889.0), "monograde")
    found = [
        float(dynamic_viscosity(each.oil, 423.15, 1e6) / dynamic_viscosity(each.oil, 423.15))
        for each in (multigrade, monograde)
    ]
    by = "mean of the table"
    verified(found, [shares[:-1].mean(), shares[-1]], by=by, tolerance=absolute(0.01))
    spread = multigrade.relative_standard_uncertainty
    verified(spread, shares[:-1].std(ddof=1), by="spread of the table", tolerance=absolute(0.01))
    assert "HTHS" in multigrade.caution


def test_viscosity_grows_exponentially_with_pressure():
    oil = Oil(100e-6, 14e-6, 870.0, pressure_viscosity_coefficient=20e-9)
    found = dynamic_viscosity(oil, 373.15, 0.0, [0.0, 50e6])
    verified(found[1] / found[0], math.e, by="Barus: 20e-9 times 50e6 is one", tolerance=1e-14)


def test_compiled_and_plain_are_the_same():
    parameters = oil_parameters(Oil(61.7e-6, 11.0e-6, 855.0, 3.1e-3))
    for law, arguments in [(kinematic, (390.0,)), (density_at, (390.0,)), (viscosity, (390.0, 3e5))]:
        verified(
            law(parameters, *arguments), law.py_func(parameters, *arguments), by="Python", tolerance=1e-14
        )


@pytest.mark.parametrize("shear_rate", [0.0, 1e4, 3e6])
@pytest.mark.parametrize("temperature", [263.15, 330.0, 420.0])
def test_slopes_of_the_viscosity_are_those_of_the_viscosity(temperature, shear_rate):
    parameters = oil_parameters(Oil(61.7e-6, 11.0e-6, 855.0, 3.1e-3))
    found = viscosity_and_slopes(parameters, temperature, shear_rate)
    verified(found[0], viscosity(parameters, temperature, shear_rate), by="viscosity", tolerance=1e-14)

    def logarithm(warmer, faster):
        return math.log(viscosity(parameters, temperature + warmer, shear_rate + faster))

    def slope(step, along):
        return sum(
            weight * logarithm(*(each * step for each in along(times)))
            for times, weight in ((-2, 1.0), (-1, -8.0), (1, 8.0), (2, -1.0))
        ) / (12.0 * step)

    by_temperature = slope(0.1, lambda times: (times, 0.0))
    verified(found[1], by_temperature, by="differences of fourth order", tolerance=1e-8)
    if shear_rate:
        by_shear = slope(0.01 * shear_rate, lambda times: (0.0, times))
        verified(found[2], by_shear, by="differences of fourth order", tolerance=1e-6)


def test_one_viscosity_and_a_slope():
    a, b = walther_line(61.7e-6, 11.0e-6)
    again = walther_line_from_slope(float(viscosity_on_line(a, b, 353.15)), temperature=353.15, slope=b)
    verified(again[0], a, by="line through two points", tolerance=1e-12)


def test_thin_liquids_keep_their_own_points():
    a, b = walther_line(0.5e-6, 0.35e-6)
    found = viscosity_on_line(a, b, [313.15, 373.15]) * 1e6
    # The practice gives one approximation into Z and one back.
    verified(found, [0.5, 0.35], by="the points given", tolerance=0.01)


def test_viscosity_index_of_generic_oils():
    index = [
        viscosity_index(oil.kinematic_viscosity_40, oil.kinematic_viscosity_100, viscosity_index_table())
        for oil in map(typical, rows(TYPICALS))
    ]
    verified(index, columns(TYPICALS, "VI_calc_D2270")[0], by="computed elsewhere", tolerance=absolute(0.06))


def test_viscosity_index_of_the_examples():
    given = columns("oil/viscosity_index_examples.csv", "kv40_mm2_s", "kv100_mm2_s", "VI_unrounded")
    found = [
        viscosity_index(u * 1e-6, y * 1e-6, viscosity_index_table()) for u, y in zip(*given[:2], strict=True)
    ]
    verified(found, given[2], by="computed elsewhere with the same table", tolerance=1e-4)


def test_generic_oils_are_those_of_the_table():
    shipped = [each.oil for each in generic_oils().values()]
    verified(
        [oil_parameters(oil) for oil in shipped],
        [oil_parameters(typical(row)) for row in rows(TYPICALS)],
        by="the table that they were copied from",
        tolerance=1e-12,
    )


@pytest.mark.parametrize("name", generic_oils())
def test_a_generic_oil_has_the_grade_that_it_is_called(name):
    each = generic_oils()[name]
    winter, hot = grade_parts(each.grade, LIMITS)
    found = classified(
        each.oil.kinematic_viscosity_100, each.oil.high_shear_viscosity_150, LIMITS, winter_grade=winter
    )
    assert found.grades == (hot,)


def test_the_limits_are_those_of_the_table():
    table = rows("oil/sae_j300.csv")
    hot = [row for row in table if row["hths150_min_mPa_s"]]
    cells = ("kv100_min_mm2_s", "kv100_max_exclusive_mm2_s", "hths150_min_mPa_s")
    assert [row["grade"] for row in hot] == [row.grade for row in LIMITS.hot]
    verified(
        [
            (
                row.kinematic_viscosity_100_least * 1e6,
                row.kinematic_viscosity_100_below * 1e6,
                row.high_shear_viscosity_150_least * 1e3,
            )
            for row in LIMITS.hot
        ],
        [[float(row[cell]) for cell in cells] for row in hot],
        by="table of the limits",
        tolerance=1e-12,
    )
    winter = [row for row in table if row["ccs_max_mPa_s"]]
    cells = ("ccs_max_mPa_s", "ccs_temp_degC", "mrv_max_mPa_s", "mrv_temp_degC", "kv100_min_mm2_s")
    assert [row["grade"] for row in winter] == [row.grade for row in LIMITS.winter]
    verified(
        [
            (
                row.cranking_viscosity_most * 1e3,
                row.cranking_temperature - 273.15,
                row.pumping_viscosity_most * 1e3,
                row.pumping_temperature - 273.15,
                row.kinematic_viscosity_100_least * 1e6,
            )
            for row in LIMITS.winter
        ],
        [[float(row[cell]) for cell in cells] for row in winter],
        by="table of the limits",
        tolerance=1e-12,
    )


HOT = [row for row in rows("oil/sae_j300.csv") if row["hths150_min_mPa_s"]]


def by_hand(kv, hths, winter):
    """Grade by going through the table of the test, in the numbers of the table."""
    found = None
    for row in HOT:
        fits = float(row["kv100_min_mm2_s"]) <= kv < float(row["kv100_max_exclusive_mm2_s"])
        warm = row["note"] and winter in {"15W", "20W", "25W"}
        if warm and "0W-40" in row["note"].split():
            continue
        if fits and hths >= float(row["hths150_min_mPa_s"]):
            found = row["grade"]
    return found


@pytest.mark.parametrize("winter", ["", "0W", "10W", "15W", "25W"])
def test_grades_at_and_beside_every_limit(winter):
    lows = [float(row["kv100_min_mm2_s"]) for row in HOT]
    edges = {*lows, *(float(row["kv100_max_exclusive_mm2_s"]) for row in HOT)}
    thin = {float(row["hths150_min_mPa_s"]) for row in HOT}
    counted = 0
    for kv in sorted(edges):
        for beside in (-0.01, -0.001, 0.0, 0.001, 0.01):
            for hths in sorted(thin):
                for under in (-0.01, 0.0, 0.01):
                    at = (round(kv + beside, 3), round(hths + under, 2))
                    found = classified(at[0] * 1e-6, at[1] * 1e-3, LIMITS, winter_grade=winter)
                    expected = by_hand(*at, winter)
                    assert found.grades == ((expected,) if expected else ()), (at, winter)
                    counted += 1
    assert counted > 500


def test_without_high_shear_viscosity_all_candidates_are_named():
    found = classified(7.0e-6, None, LIMITS)
    assert found.grades == ("12", "16", "20")
    assert "high-shear" in found.cautions[0]
    assert classified(30e-6, None, LIMITS).grades == ()


def test_a_forty_that_is_thin_at_high_shear_says_as_what_it_holds():
    found = classified(13.5e-6, 3.6e-3, LIMITS)
    assert found.grades == ("40",)
    assert found.cautions == ("Thick enough at high shear as 0W-40, 5W-40, 10W-40 only.",)
    assert classified(13.5e-6, 3.6e-3, LIMITS, winter_grade="5W").cautions == ()
    assert classified(13.5e-6, 3.7e-3, LIMITS).cautions == ()


@pytest.mark.parametrize("row", LIMITS.winter, ids=lambda row: row.grade)
def test_winter_grades_at_and_beside_every_limit(row):
    thick = 10e-6
    cranking = {row.cranking_temperature: row.cranking_viscosity_most}
    pumping = {row.pumping_temperature: row.pumping_viscosity_most}
    assert winter_grades(thick, cranking, pumping, LIMITS) == (row.grade,)
    over = {row.cranking_temperature: row.cranking_viscosity_most + 0.001}
    assert winter_grades(thick, over, pumping, LIMITS) == ()
    over = {row.pumping_temperature: row.pumping_viscosity_most + 0.1}
    assert winter_grades(thick, cranking, over, LIMITS) == ()
    assert winter_grades(thick, cranking, {}, LIMITS) == ()
    least = row.kinematic_viscosity_100_least
    assert winter_grades(least, cranking, pumping, LIMITS) == (row.grade,)
    assert winter_grades(least - 1e-9, cranking, pumping, LIMITS) == ()


def test_blending_is_nearly_that_of_refutas():
    oil, fuel, x = 11.0, 0.5, np.array([0.01, 0.03, 0.05, 0.1])

    def index(nu):
        return 14.534 * np.log(np.log(nu + 0.8)) + 10.975

    both = (1 - x) * index(oil) + x * index(fuel)
    expected = np.exp(np.exp((both - 10.975) / 14.534)) - 0.8
    found = blended_viscosity(oil * 1e-6, fuel * 1e-6, x) * 1e6
    verified(found, expected, by="the blending number of Refutas", tolerance=0.06)


def test_blending_solves_its_own_equation():
    def z(nu):
        return nu + 0.7 + math.exp(-1.47 - 1.84 * nu - 0.51 * nu**2)

    def off(nu):
        sides = (math.log10(math.log10(z(each))) for each in (nu, 14.7, 2.8))
        blend, first, second = sides
        return blend - 0.9 * first - 0.1 * second

    expected = brentq(off, 2.8, 14.7)
    verified(blended_viscosity(14.7e-6, 2.8e-6, 0.1) * 1e6, expected, by="Brent's method", tolerance=1e-6)


@pytest.mark.parametrize("fuel", generic_fuels())
def test_fuel_thins_the_oil_and_keeps_its_high_shear_share(fuel):
    oil = generic_oils()["synthetic_5w_30"].oil
    thin = diluted(oil, generic_fuels()[fuel].fuel, 0.05)
    shares = [
        float(dynamic_viscosity(each, 423.15, 1e6) / dynamic_viscosity(each, 423.15)) for each in (oil, thin)
    ]
    verified(shares[1], shares[0], by="the oil without fuel", tolerance=1e-12)
    lost = classified(thin.kinematic_viscosity_100, thin.high_shear_viscosity_150, LIMITS)
    assert lost.grades != ("30",), "five per cent of fuel cost this oil its grade"
    same = diluted(oil, generic_fuels()[fuel].fuel, 0.0)
    verified(oil_parameters(same), oil_parameters(oil), by="no fuel", tolerance=1e-9)


@pytest.mark.parametrize(
    "grade", ["0W-16", "0w-20", "5W-30", "10W40", "SAE 30", "20W-50", "10W-60", "15W-40", "25W-40"]
)
def test_the_middle_of_a_grade_is_of_that_grade(grade):
    found = grade_middle(grade, LIMITS)
    winter, hot = grade_parts(grade, LIMITS)
    for oil in (found.thin, found.middle, found.thick):
        classes = classified(
            oil.kinematic_viscosity_100, oil.high_shear_viscosity_150, LIMITS, winter_grade=winter
        )
        assert classes.grades == (hot,)
    assert found.label.startswith("mid-range of ")
    assert found.label.endswith(", not a data sheet")


@pytest.mark.parametrize("name", generic_oils())
def test_the_middle_of_a_grade_is_near_the_generic_oils(name):
    each = generic_oils()[name]
    middle = grade_middle(each.grade, LIMITS).middle
    temperatures = [313.15, 353.15, 383.15]
    found, expected = (kinematic_viscosity(oil, temperatures) for oil in (middle, each.oil))
    verified(found, expected, by="a generic oil of the grade", tolerance=0.2)


@pytest.mark.parametrize(
    "call",
    [
        lambda: oil_parameters(Oil(10e-6, 11e-6, 850.0)),
        lambda: oil_parameters(Oil(60e-6, 11e-6, 0.85)),
        lambda: oil_parameters(Oil(60e-6, 11e-6, 850.0, 3.1)),
        lambda: oil_parameters(Oil(60e-6, 11e-6, 850.0, None, -1e-9)),
        lambda: oil_parameters(Oil(math.nan, 11e-6, 850.0)),
        lambda: kinematic_viscosity(Oil(60e-6, 11e-6, 850.0), -5.0),
        lambda: walther_line_from_slope(1e-5, temperature=373.15, slope=0.0),
        lambda: diluted(Oil(60e-6, 11e-6, 850.0), generic_fuels()["petrol"].fuel, 0.3),
        lambda: blended_viscosity(1e-5, 1e-6, 1.5),
        lambda: grade_parts("31", LIMITS),
        lambda: grade_parts("", LIMITS),
        lambda: grade_middle("5W", LIMITS),
        lambda: usual_pressure_viscosity_coefficient(1e-3),
        lambda: with_usual_high_shear(Oil(60e-6, 11e-6, 850.0), "synthetic"),
        lambda: viscosity_index(3e-6, 1.5e-6, viscosity_index_table()),
        lambda: viscosity_index(8e-6, 9e-6, viscosity_index_table()),
    ],
)
def test_what_is_no_oil_is_refused(call):
    with pytest.raises(OutOfDomainError):
        call()
