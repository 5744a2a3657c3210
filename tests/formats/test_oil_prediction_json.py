"""A prediction of the oil system as JSON: every figure in SI, with what it rests on."""

import json
from dataclasses import fields, replace

import pytest

from fitwright import __version__
from fitwright.assess.oil.results import Band, BearingState, PointState, Prediction, PumpState
from fitwright.assess.oil.what_if import WhatIf
from fitwright.formats.oil_prediction import RestsOn, oil_as_json, plain
from tests.support.oil_predictions import prediction

RESTS_ON = RestsOn("job", "current", "a" * 64, 12, "b" * 64)


def names(kind):
    return {each.name for each in fields(kind)}


@pytest.fixture
def document():
    found = oil_as_json(prediction(), RESTS_ON, WhatIf(shim=5e-4), prediction())
    return json.loads(json.dumps(found, allow_nan=False))


def test_nothing_that_is_predicted_is_left_out(document):
    assert names(Prediction) <= document.keys()
    idle = document["points"][0]
    assert idle.keys() == names(PointState)
    assert idle["bearings"][0].keys() == names(BearingState)
    assert idle["pumps"][0].keys() == names(PumpState)
    assert idle["gauge_pressure"] == {
        "best": 2.4e5,
        "low": pytest.approx(2.16e5),
        "high": pytest.approx(2.64e5),
    }


def test_it_names_what_it_rests_on(document):
    rests_on = document["rests_on"]
    assert (rests_on["build"], rests_on["sheet"], rests_on["entry"]) == ("job", "a" * 64, 12)
    assert rests_on["fitwright"] == __version__
    assert {"oil", "bearings", "pump", "network"} <= rests_on["models"].keys()
    assert "version" in rests_on["models"]["bearing tables"]
    assert document["unmeasured"] == ["Pump end clearance", "Main 1 clearance"]
    size = document["sizes"][1]
    assert (size["basis"], size["band"], size["critical"]) == ("limit band", [3e-5, 7e-5], True)


def test_what_did_not_converge_has_no_number_and_what_touches_no_film(document):
    top = document["points"][-1]
    assert (top["converged"], top["gauge_pressure"]["best"]) == (False, None)
    touching = [each for each in top["bearings"] if each["state"].startswith("touching")]
    assert touching[0]["film_thickness"]["best"] is None


def test_a_what_if_stands_beside_the_build_as_measured(document):
    assert document["what_if"]["shim"] == 5e-4
    assert [each["title"] for each in document["as_measured"]] == ["hot idle", "pull", "top"]
    alone = oil_as_json(prediction(), RESTS_ON, WhatIf())
    assert (alone["what_if"], alone["as_measured"]) == (None, None)


def test_what_is_no_number_is_null_and_what_has_no_place_in_json_is_refused():
    assert plain(Band(float("nan"), float("-inf"), 1.0)) == {"best": None, "low": None, "high": 1.0}
    with pytest.raises(TypeError, match="object has no place in JSON"):
        plain(object())
    broken = replace(prediction(), filling_limit=None, problem="Nothing is known.")
    assert oil_as_json(broken, RESTS_ON)["filling_limit"] is None
