"""Every engine that `new` describes with a circuit has a prediction on its first day."""

from __future__ import annotations

import pytest

from fitwright.assess.judging import Judge
from fitwright.assess.oil.desk import OilDesk, oil_case
from fitwright.assess.results import State
from fitwright.records.projection import BuildState, ShopState
from tests.support.engine_layouts import LAYOUTS, engine

WITH_CIRCUIT = [name for name in LAYOUTS if engine(name).circuit is not None]


def first_day(name):
    return OilDesk(oil_case(Judge(engine(name), ShopState(), BuildState("new"), State.CURRENT)))


@pytest.mark.parametrize("name", WITH_CIRCUIT)
def test_a_prediction_exists_before_anything_is_measured(name):
    told = first_day(name).best()
    assert told.problem == ""
    assert told.title.startswith("Oil of an engine of this sheet, while ")
    assert all(each.converged for each in told.points)
    assert all(band.best is not None for curve in told.curves for band in curve.gauge_pressure)
    idle = told.points[0]
    delivered = sum(each.delivered for each in idle.pumps)
    shares = sum(each.share for each in idle.budget)
    print(f"{name}: hot idle {idle.gauge_pressure.best / 1e5:.2f} bar of {delivered * 6e4:.1f} L/min")
    assert 0.0 < idle.gauge_pressure.best < 12e5
    assert shares == pytest.approx(1.0, abs=1e-6)


@pytest.mark.parametrize("name", [name for name in WITH_CIRCUIT if "dry sump" in name])
def test_a_dry_sump_says_what_its_scavenge_stages_displace(name):
    said = [
        each for each in first_day(name).best().cautions if each.startswith("The scavenge stages displace")
    ]
    assert len(said) == 1


@pytest.mark.parametrize("name", [name for name in LAYOUTS if name not in WITH_CIRCUIT])
def test_without_a_circuit_it_says_what_to_write(name):
    told = first_day(name).best()
    assert told.problem.startswith("The sheet describes no oil circuit")
