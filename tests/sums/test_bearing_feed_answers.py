"""The sums of bearings that are fed: a groove, and a crank at speed."""

import math

import pytest

from fitwright.sums import SumError, run
from tests.support.compare import absolute, verified

GROOVE = {
    "journal_diameter": "56 mm",
    "radial_clearance": "0.0275 mm",
    "land_length": "9 mm",
    "gauge_pressure": "3 bar",
    "dynamic_viscosity": "12 mPa s",
}


def value(result, key):
    figure = result.results[key]
    return None if figure is None else figure.value


def test_groove_flow():
    result = run("groove-flow", {**GROOVE, "eccentricity_ratio": 0.6})
    centred = math.pi * 0.056 * 27.5e-6**3 * 3e5 / (6 * 0.012 * 0.009)
    verified(value(result, "flow_centred"), centred, by="by hand", tolerance=1e-12)
    verified(value(result, "flow"), centred * 1.54, by="by hand", tolerance=1e-12)
    wider = centred * 1.54 * (32.5 / 27.5) ** 3
    verified(value(result, "flow_a_hundredth_wider"), wider, by="the cube", tolerance=1e-12)


def test_a_diametral_clearance_is_noticed():
    assert any(
        "diametral" in each for each in run("groove-flow", {**GROOVE, "radial_clearance": "0.3 mm"}).cautions
    )


@pytest.mark.parametrize(
    "diameter, speed, bar", [("56 mm", 8000, 2.3), ("50 mm", 6500, 1.2), ("50.8 mm", 4500, 0.6)]
)
def test_feed_margin_of_three_cranks(diameter, speed, bar):
    inputs = {
        "gauge_pressure": "3 bar",
        "main_journal_diameter": diameter,
        "rotational_speed": f"{speed} rpm",
    }
    result = run("feed-margin", inputs)
    lost = value(result, "centrifugal_pressure_change")
    verified(lost / 1e5, -bar, by="rounded figures worked elsewhere", tolerance=absolute(0.051))
    verified(value(result, "margin"), 3e5 + lost, by="by hand", tolerance=1e-12)
    omega = speed * math.pi / 30 * math.sqrt(3e5 / -lost)
    verified(value(result, "speed_of_no_margin"), omega, by="by hand", tolerance=1e-12)
    assert value(result, "big_end_pressure") is None


def test_the_column_gains_outwards_what_it_lost_and_more():
    inputs = {"gauge_pressure": "3 bar", "main_journal_diameter": "50 mm", "rotational_speed": "6000 rpm"}
    result = run("feed-margin", {**inputs, "innermost_radius": "10 mm", "big_end_feed_radius": "60 mm"})
    omega = 200 * math.pi
    by_hand = 3e5 + 410.0 * omega**2 * (0.06**2 - 0.025**2)
    verified(value(result, "big_end_pressure"), by_hand, by="both ends of the column", tolerance=1e-12)
    straight = run("feed-margin", {**inputs, "innermost_radius": "25 mm"})
    assert value(straight, "speed_of_no_margin") is None
    assert value(straight, "margin") == 3e5


def test_a_broken_column_is_said():
    inputs = {"gauge_pressure": "1 bar", "main_journal_diameter": "56 mm", "rotational_speed": "8000 rpm"}
    assert any("column breaks" in each for each in run("feed-margin", inputs).cautions)
    with pytest.raises(SumError, match="innermost_radius"):
        run("feed-margin", {**inputs, "innermost_radius": "40 mm"})
