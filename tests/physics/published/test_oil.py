"""Oil against numbers that others published."""

import numpy as np
import pytest

from fitwright.data.oils import viscosity_index_table
from fitwright.physics.oil.oil import USUAL_PRESSURE_VISCOSITY_COEFFICIENT
from fitwright.physics.oil.pressure import usual_pressure_viscosity_coefficient
from fitwright.physics.oil.viscosity_index import viscosity_index
from tests.support.compare import published
from tests.support.tables import rows

MEASURED = "oil/pressure_viscosity.csv"


def test_viscosity_index_of_the_worked_example():
    row = rows("oil/viscosity_index_examples.csv")[0]
    found = viscosity_index(
        float(row["kv40_mm2_s"]) * 1e-6, float(row["kv100_mm2_s"]) * 1e-6, viscosity_index_table()
    )
    published(
        round(found),
        float(row["VI_reported"]),
        source="astm_d2270_2016",
        place="worked example of procedure A",
        tolerance=1e-12,
        why="a whole number",
    )


@pytest.mark.parametrize("group,tolerance", [("high VI", 0.17), ("medium VI", 0.27), ("low VI", 0.31)])
def test_pressure_viscosity_coefficient_of_mineral_oils(group, tolerance):
    known = [
        (float(row[f"visc{t}_mPa_s"]) * 1e-3, float(row[f"alpha{t}_1e-9_m2_N"]) * 1e-9)
        for row in rows(MEASURED)
        for t in (30, 60, 100)
        if row["group"] == group and row[f"alpha{t}_1e-9_m2_N"]
    ]
    viscosity, coefficient = np.array(known).T
    published(
        usual_pressure_viscosity_coefficient(viscosity),
        coefficient,
        source="stachowiak2005",
        place=f"table 2.3, oils of {group}, 30 to 100 C",
        tolerance=tolerance,
        why="a rule from viscosity alone; its spread over the table is what the documentation states",
    )


def test_the_usual_coefficient_is_the_mean_of_oils_as_thick_as_engine_oil():
    known = [
        float(row[f"alpha{t}_1e-9_m2_N"]) * 1e-9
        for row in rows(MEASURED)
        for t in (60, 100)
        if row["group"] == "high VI" and row["oil"] != "cylinder oil"
    ]
    published(
        USUAL_PRESSURE_VISCOSITY_COEFFICIENT,
        np.mean(known),
        source="stachowiak2005",
        place="table 2.3, machine oils of high VI at 60 and 100 C, mean of six",
        tolerance=0.05,
        why="six values between 13.4 and 21.3 stand behind the mean",
    )
    assert np.all(np.abs(np.array(known) / USUAL_PRESSURE_VISCOSITY_COEFFICIENT - 1.0) < 0.26)
