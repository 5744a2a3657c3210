"""Threads, loads and preloads that standards print."""

import math

import pytest

from fitwright.data.fasteners import property_class_of, usual_bearing
from fitwright.data.threads import thread_of
from fitwright.physics.fasteners.friction import Friction, tightening_torque
from fitwright.physics.fasteners.stress import preload_at_utilisation, utilisation
from fitwright.physics.fasteners.thread import coarsest_fit
from fitwright.physics.fasteners.wrench import STRONGEST_YIELD
from tests.support.compare import absolute, published
from tests.support.tables import rows

INCH = 0.0254


PRELOADS = rows("fasteners/vdi2230_preload_torque.csv")
LOADS = rows("fasteners/iso898_1_loads.csv")


def test_every_row_is_there():
    assert (len(PRELOADS), len(LOADS)) == (18, 21)


@pytest.mark.parametrize("row", PRELOADS, ids=lambda row: f"{row['thread']}-{row['mu_total']}-{row['class']}")
def test_preload_and_torque_at_nine_tenths_of_yield(row):
    thread, friction = thread_of(row["thread"]), float(row["mu_total"])
    held = property_class_of(row["class"], thread)
    assert held.strength.yield_strength == float(row["Rp02_MPa"]) * 1e6
    preload = preload_at_utilisation(thread, held.strength.yield_strength, friction, 0.9)
    place = f"tables A1 and A2, {row['thread']}, coefficient {row['mu_total']}, class {row['class']}"
    published(
        preload,
        float(row["FM_published_kN"]) * 1e3,
        source="vdi2230_1_2015",
        place=place,
        tolerance=0.005,
        why="printed to three figures",
    )
    bearing = usual_bearing(thread, "hexagon", "medium").bearing
    published(
        tightening_torque(thread, bearing, Friction(friction, friction), preload),
        float(row["MA_published_Nm"]),
        source="vdi2230_1_2015",
        place=place,
        tolerance=0.013,
        why="printed to two figures; the source does not print its bearing diameters",
    )
    assert math.isclose(utilisation(thread, held.strength, friction, preload).yield_utilisation, 0.9)


@pytest.mark.parametrize("row", LOADS, ids=lambda row: f"{row['thread']}-{row['class']}")
def test_proof_and_breaking_load(row):
    thread = thread_of(row["thread"])
    strength = property_class_of(row["class"], thread).strength
    place = f"tables of loads, coarse threads, {row['thread']}, class {row['class']}"
    for stress, load in (
        (strength.proof_stress, row["proof_load_N"]),
        (strength.tensile_strength, row["min_ultimate_load_N"]),
    ):
        published(
            thread.stress_area * stress,
            float(load),
            source="iso898_1_2013",
            place=place,
            tolerance=0.007,
            why="the standard multiplies areas of three figures and prints three",
        )


@pytest.mark.parametrize(
    "designation,pitch_diameter,minor_diameter",
    [
        ("M5", 4.480, 4.134),
        ("M6", 5.350, 4.917),
        ("M8", 7.188, 6.647),
        ("M8x1", 7.350, 6.917),
        ("M10", 9.026, 8.376),
        ("M10x1.25", 9.188, 8.647),
        ("M12", 10.863, 10.106),
        ("M16", 14.701, 13.835),
    ],
)
def test_basic_diameters(designation, pitch_diameter, minor_diameter):
    thread = thread_of(designation)
    published(
        [thread.pitch_diameter * 1e3, thread.internal_minor_diameter * 1e3],
        [pitch_diameter, minor_diameter],
        source="iso724_1993",
        place=f"table 1, {designation}, pitch and minor diameter",
        tolerance=absolute(0.00051),
        why="printed to 0.001 mm",
    )


@pytest.mark.parametrize(
    "designation,area",
    [
        ("1/4-20 UNC", 0.0318),
        ("1/4-28 UNF", 0.0364),
        ("5/16-18 UNC", 0.0524),
        ("3/8-16 UNC", 0.0775),
        ("3/8-24 UNF", 0.0878),
        ("7/16-14 UNC", 0.1063),
        ("7/16-20 UNF", 0.1187),
        ("1/2-13 UNC", 0.1419),
        ("1/2-20 UNF", 0.1599),
    ],
)
def test_stress_area_of_unified_threads(designation, area):
    published(
        thread_of(designation).stress_area / INCH**2,
        area,
        source="asme_b1_1_2003",
        place=f"tensile stress area of {designation}",
        tolerance=absolute(0.0001),
        why="printed to 0.0001 square inches, not always rounded",
    )


@pytest.mark.parametrize(
    "designation,effective,core",
    [
        ("1/4-20 BSW", 0.2180, 0.1860),
        ("3/8-16 BSW", 0.3350, 0.2950),
        ("1/2-12 BSW", 0.4466, 0.3933),
        ("3/8-20 BSF", 0.3430, 0.3110),
    ],
)
def test_whitworth_diameters(designation, effective, core):
    thread = thread_of(designation)
    published(
        [thread.pitch_diameter / INCH, thread.root_diameter / INCH],
        [effective, core],
        source="bs84_2007",
        place=f"basic effective and minor diameter of {designation}",
        tolerance=absolute(0.000051),
        why="printed to 0.0001 in",
    )


def test_limits_of_a_metric_thread():
    fit = coarsest_fit(thread_of("M10"))
    published(
        [
            fit.external_major_diameter * 1e3,
            fit.internal_pitch_diameter * 1e3,
            fit.internal_minor_diameter * 1e3,
        ],
        [9.732, 9.206, 8.676],
        source="iso965_1_2013",
        place="limits of M10, 6g and 6H",
        tolerance=absolute(0.012),
        why="the standard takes the mean diameter of a range and rounds tolerances to preferred numbers",
    )


def test_the_strongest_class_is_the_strongest():
    assert property_class_of("12.9", thread_of("M6")).strength.yield_strength == STRONGEST_YIELD
