"""The sum of a journal bearing: its numbers by the published rows, and when it gives none."""

import math

import pytest

from fitwright.drawing.sum_pictures.bearing import JournalBearing, journal_bearing
from fitwright.sums import SUMS, SumError, run
from tests.support.compare import absolute, published, verified

EXAMPLE = SUMS["bearing"].example
OF_THE_FILM = (
    "eccentricity_ratio",
    "minimum_film_thickness",
    "film_parameter",
    "attitude_angle",
    "side_flow",
    "friction_torque",
    "friction_torque_film_only",
    "maximum_film_pressure",
)


def value(result, key):
    figure = result.results[key]
    return None if figure is None else figure.value


def test_half_as_long_as_wide_at_a_published_sommerfeld_number():
    """L/D 0.5 and S 0.0923: the table has an eccentricity ratio of 0.8."""
    diameter, clearance, viscosity, turns = 0.06, 30e-6, 0.012, 50.0
    load = viscosity * turns / 0.0923 * (0.5 * diameter / clearance) ** 2 * 0.5 * diameter**2
    result = run(
        "bearing",
        {
            "journal_diameter": diameter,
            "bearing_length": 0.5 * diameter,
            "radial_clearance": clearance,
            "dynamic_viscosity": viscosity,
            "rotational_speed": 2.0 * math.pi * turns,
            "load": load,
        },
    )
    place = {"source": "raimondi1958", "place": "Table 1, L/D 0.5, h0/c 0.2"}
    why = "the table has three figures from a coarse grid"
    published(value(result, "eccentricity_ratio"), 0.8, tolerance=absolute(0.004), why=why, **place)
    attitude = math.degrees(value(result, "attitude_angle"))
    published(attitude, 33.31, tolerance=absolute(1.0), why=why, **place)
    flow = value(result, "side_flow") / (0.5 * diameter * clearance * turns * 0.5 * diameter)
    published(flow, 5.41 * 0.874, tolerance=0.02, why=why, **place)
    friction = value(result, "friction_torque") / (load * clearance)
    published(friction, 3.26, tolerance=0.02, why=why, **place)
    assert value(result, "friction_torque_film_only") < value(result, "friction_torque")
    ratio = load / (0.5 * diameter**2) / value(result, "maximum_film_pressure")
    published(ratio, 0.267, tolerance=0.05, why=why, **place)
    verified(value(result, "sommerfeld_number"), 0.0923, by="the load that was chosen", tolerance=1e-12)


def test_thinner_than_three_times_the_roughness_has_no_number():
    film = value(run("bearing", EXAMPLE), "minimum_film_thickness")
    just = run("bearing", {**EXAMPLE, "combined_roughness": film / 3.0001})
    assert value(just, "film") == "full film"
    assert value(just, "film_parameter") == pytest.approx(3.0001)
    rough = run("bearing", {**EXAMPLE, "combined_roughness": film / 2.9999})
    assert value(rough, "film") == "touching: no film predicted"
    assert all(value(rough, key) is None for key in OF_THE_FILM)
    assert any("touch" in caution for caution in rough.cautions)


def test_beyond_the_tables_has_no_number():
    crushed = run("bearing", {**EXAMPLE, "load": "800 kN"})
    assert "no film predicted" in value(crushed, "film")
    assert all(value(crushed, key) is None for key in OF_THE_FILM)
    assert value(crushed, "sommerfeld_number") > 0.0
    with pytest.raises(SumError, match=r"bearing_length.*between 0\.15 and 1\.2"):
        run("bearing", {**EXAMPLE, "bearing_length": "80 mm"})


def test_without_roughness_it_says_so():
    smooth = run("bearing", {key: each for key, each in EXAMPLE.items() if key != "combined_roughness"})
    assert value(smooth, "film_parameter") is None
    assert value(smooth, "minimum_film_thickness") > 0.0
    assert any("roughness" in caution for caution in smooth.cautions)


@pytest.mark.parametrize("place", [(0.7, 0.6), (0.0, 1.5), (None, None)])
def test_picture(place):
    drawn = journal_bearing(
        JournalBearing(*place, "3 kN", "3000 rpm", "thinnest 7 µm", ("full film",)), "a bearing"
    )
    assert drawn.startswith("<svg")
    for words in ("3 kN", "3000 rpm", "full film"):
        assert words in drawn
    assert ("thinnest" in drawn) == (place[0] is not None)
