"""The sums about oil against numbers worked a second way."""

import math

import fluids
import pytest

from fitwright.sums import SumError, run
from tests.support.compare import absolute, verified
from tests.support.tables import rows

OIL = {"pressure_drop": "4 bar", "dynamic_viscosity": "10 mPa s"}


def value(result, key):
    figure = result.results[key]
    return None if figure is None else figure.value


@pytest.mark.parametrize("row", rows("oil/astm_d341_examples.csv"), ids=lambda row: row["oil"])
@pytest.mark.parametrize("celsius", [0, 20, 60, 80, 120, 150])
def test_viscosity(row, celsius):
    result = run(
        "viscosity",
        {
            "kinematic_viscosity_40": f"{row['kv40_mm2_s']} mm2/s",
            "kinematic_viscosity_100": f"{row['kv100_mm2_s']} mm2/s",
            "temperature": f"{celsius} degC",
        },
    )
    expected = float(row[f"kv{celsius}_mm2_s"]) * 1e-6
    verified(value(result, "kinematic_viscosity"), expected, by="computed elsewhere, table", tolerance=1e-4)
    assert value(result, "dynamic_viscosity") is None


@pytest.mark.parametrize("row", rows("oil/oil_typicals.csv"), ids=lambda row: row["oil_class"])
def test_viscosity_of_generic_oils(row):
    density = float(row["density15_kg_per_L"]) * 1e3
    result = run(
        "viscosity",
        {
            "kinematic_viscosity_40": float(row["kv40_mm2_s"]) * 1e-6,
            "kinematic_viscosity_100": float(row["kv100_mm2_s"]) * 1e-6,
            "temperature": "150 degC",
            "density_15": density,
        },
    )
    by = "computed elsewhere, table of generic oils"
    expected = float(row["low_shear_visc150_calc_mPa_s"]) * 1e-3
    verified(value(result, "dynamic_viscosity"), expected, by=by, tolerance=2e-4)
    verified(value(result, "viscosity_index"), float(row["VI_calc_D2270"]), by=by, tolerance=absolute(0.06))


def test_viscosity_says_where_the_line_ends():
    oil = {"kinematic_viscosity_40": "61.7 mm2/s", "kinematic_viscosity_100": "11 mm2/s"}
    assert any("0 °C" in said for said in run("viscosity", {**oil, "temperature": "-20 degC"}).cautions)
    assert any("150 °C" in said for said in run("viscosity", {**oil, "temperature": "160 degC"}).cautions)
    with pytest.raises(SumError, match="thins as it warms"):
        run("viscosity", {**oil, "kinematic_viscosity_100": "70 mm2/s", "temperature": "90 degC"})
    thin = run(
        "viscosity",
        {
            "kinematic_viscosity_40": "2.8 mm2/s",
            "kinematic_viscosity_100": "1.2 mm2/s",
            "temperature": "90 degC",
        },
    )
    assert (value(thin, "viscosity_index"), value(thin, "grades")) == (None, None)
    assert any("2 mm²/s" in said for said in thin.cautions)


def test_slot_leakage():
    inputs = {"gap": "0.06 mm", "width": "50 mm", "length": "8 mm", "wall_speed": "2 m/s", **OIL}
    result = run("slot-leakage", inputs)
    driven = 0.05 * 60e-6**3 * 4e5 / (12 * 0.01 * 0.008)
    dragged = 0.05 * 60e-6 * 2.0 / 2
    found = [value(result, key) for key in ("pressure_flow", "drag_flow", "leakage_flow")]
    verified(found, [driven, dragged, driven + dragged], by="by hand", tolerance=1e-12)
    wider = driven * (70 / 60) ** 3 + dragged * 70 / 60
    verified(value(result, "leakage_flow_a_hundredth_wider"), wider, by="the cube", tolerance=1e-12)
    assert len(result.cautions) == 2


def test_end_leakage():
    inputs = {"gap": "0.04 mm", "outer_diameter": "60 mm", "inner_diameter": "44 mm", "faces": 2, **OIL}
    result = run("end-leakage", {**inputs, "share_of_turn": 0.5})
    one = 0.5 * math.pi * 40e-6**3 * 4e5 / (6 * 0.01 * math.log(60 / 44))
    found = [value(result, key) for key in ("leakage_flow_of_a_face", "leakage_flow")]
    verified(found, [one, 2 * one], by="by hand", tolerance=1e-12)
    with pytest.raises(SumError, match="land lies between"):
        run("end-leakage", {**inputs, "inner_diameter": "60 mm"})


def test_a_wide_or_fast_gap_is_cautioned():
    fast = {"gap": "0.5 mm", "width": "50 mm", "length": "3 mm", **OIL}
    said = " ".join(run("slot-leakage", fast).cautions)
    assert "laminar" in said
    assert "edges count" in said


@pytest.mark.parametrize("author", ["rennels", "crane", "harris", "idelchik", "miller", "swamee"])
def test_inlet_edge_loss(author):
    inputs = {"diameter": "8 mm", "flow": "30 L/min", "edge_radius": "0.48 mm", "author": author}
    result = run("inlet-edge-loss", inputs)
    head = 0.5 * 850.0 * (30 / 6e4 / (0.25 * math.pi * 0.008**2)) ** 2
    losses = {
        each: fluids.entrance_rounded(1.0, 0.06, method=each.title())
        for each in ("rennels", "crane", "harris", "idelchik", "miller", "swamee")
    }
    by = "the library fluids 1.3.1"
    verified(value(result, "loss_coefficient"), losses[author], by=by, tolerance=absolute(0.003))
    verified(value(result, "pressure_drop"), losses[author] * head, by=by, tolerance=absolute(0.003 * head))
    ends = (min(losses.values()) * head, max(losses.values()) * head)
    verified(value(result, "pressure_drop_interval"), ends, by=by, tolerance=absolute(0.003 * head))
    sharp = fluids.entrance_rounded(1.0, 0.0, method=author.title())
    gain = (sharp - losses[author]) * head
    verified(value(result, "gained_by_rounding"), gain, by=by, tolerance=absolute(0.005 * head))
    gained = {row["author"].value: row["gained_by_rounding"].value for row in value(result, "authors")}
    verified(gained[author.title()], gain, by=by, tolerance=absolute(0.005 * head))


def test_an_inlet_edge_is_cautioned_where_it_is_laminar_or_very_round():
    inputs = {"diameter": "8 mm", "flow": "3 L/min", "dynamic_viscosity": "10 mPa s"}
    assert any("slower" in said for said in run("inlet-edge-loss", inputs).cautions)
    round_edge = run("inlet-edge-loss", {**inputs, "edge_radius": "4 mm"})
    assert any("rounder" in said for said in round_edge.cautions)
    assert value(run("inlet-edge-loss", inputs), "gained_by_rounding") == 0.0
