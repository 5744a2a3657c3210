"""The reference manual's own crossed study: 10 parts, 3 people, 3 repeats."""

import csv
from pathlib import Path

import pytest

from fitwright.physics.metrology.gauge_study import crossed_readings, study_by_ranges, study_by_variance
from fitwright.physics.metrology.range_constants import range_divisor
from tests.support.compare import absolute, published

DATA = Path(__file__).resolve().parents[2] / "data" / "aiag_msa_grr_data.csv"
SIX_FIGURES = "printed to six decimals"
FOUR_FIGURES = "printed to four decimals, computed in the manual from constants of four figures"


@pytest.fixture(scope="module")
def readings():
    lines = [line for line in DATA.read_text().splitlines() if not line.startswith("#")]
    rows = sorted(
        csv.DictReader(lines), key=lambda row: (row["appraiser"], int(row["part"]), int(row["trial"]))
    )
    return crossed_readings(
        [row["appraiser"] for row in rows],
        [row["part"] for row in rows],
        [float(row["value"]) for row in rows],
    )


def test_analysis_of_variance(readings):
    study = study_by_variance(readings)
    assert study.interaction_pooled
    got = [study.repeatability, study.reproducibility, study.gauge, study.parts, study.total]
    published(
        [share.standard_deviation for share in got],
        [0.199933, 0.226838, 0.302372, 1.042327, 1.085300],
        source="aiag_msa_2010",
        place="chapter III section B, analysis of variance report of the crossed example",
        tolerance=absolute(0.6e-6),
        why=SIX_FIGURES,
    )
    assert study.distinct_categories == 4


def test_average_and_range(readings):
    study = study_by_ranges(readings)
    published(
        [study.gauge.standard_deviation, study.total.standard_deviation],
        [0.3058, 1.1461],
        source="aiag_msa_2010",
        place="chapter III section B, average and range report of the crossed example",
        tolerance=absolute(1e-4),
        why=FOUR_FIGURES,
    )
    assert study.distinct_categories == 5


def test_constants_of_the_range_method():
    published(
        [1.0 / range_divisor(3, 30), 1.0 / range_divisor(3, 1), 1.0 / range_divisor(10, 1)],
        [0.5908, 0.5231, 0.3146],
        source="aiag_msa_2010",
        place="chapter III section B, K1, K2 and K3 for 3 repeats, 3 people and 10 parts",
        tolerance=absolute(0.51e-4),
        why="printed to four decimals",
    )
