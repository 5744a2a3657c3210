"""What no entry may hold: nothing could be computed with it, or a reader would be deceived by it."""

from __future__ import annotations

import dataclasses

import pytest
from pydantic import ValidationError

from fitwright.records.errors import BodyError
from fitwright.records.kinds import BladeOnShelf, ShopSetting
from fitwright.records.registry import checked, refusal_of
from tests.support.record import new, reading, typed

GAUGE = {"code": "M", "title": "t", "type": "x", "unit": "mm", "resolution": 1e-6, "repeatability": 1e-6}
BLADE = {"marking": "0.05", "thickness": 5e-5, "standard_uncertainty": 1e-6}


def blades(*changes, code="F"):
    return {"code": code, "title": "t", "blades": [BLADE | change for change in changes]}


@pytest.mark.parametrize(
    "kind, body, field",
    [
        ("person", {"code": "p", "name": "n", "drag": -1e-6}, "drag"),
        ("instrument", GAUGE | {"repeatability": -1e-6}, "repeatability"),
        ("instrument", GAUGE | {"repeatability": 5e-324}, "repeatability"),
        ("instrument", GAUGE | {"resolution": 0.0}, "resolution"),
        ("instrument", GAUGE | {"repeatability_degrees_of_freedom": 0.0}, "repeatability_degrees_of_freedom"),
        (
            "calibration",
            {"code": "C", "instrument": "M", "standard_uncertainty": -1.0},
            "standard_uncertainty",
        ),
        ("blade set", blades({"thickness": 0.0}), "blades.0.thickness"),
        ("blade set", blades({}, {}), "blades"),
        ("blade set", blades({}, code="F:2"), "code"),
        ("blade set", blades({"marking": "0.05+0.02"}), "blades.0.marking"),
        ("sitting", {"code": "T", "measured_by": "p", "temperature": 0.0}, "temperature"),
        ("note", {"text": "55.0\u202e5"}, "text"),
        ("note", {"text": "a\x00b"}, "text"),
        ("note", {"text": "\x1b[2J"}, "text"),
        (
            "sitting",
            {"code": "T", "measured_by": "p", "part_temperatures": {"\x1b": 293.0}},
            "part_temperatures",
        ),
        ("person", {"code": "M3\u200b", "name": "n"}, "code"),
        ("person", {"code": " M3", "name": "n"}, "code"),
        ("shop setting", {"name": "decision rule critical", "value": "0.2"}, "value"),
        ("shop setting", {"name": "decision rule normal", "value": "soon"}, "value"),
        ("shop setting", {"name": "units", "value": "cubits"}, "value"),
    ],
)
def test_what_means_nothing_is_refused(kind, body, field):
    with pytest.raises(BodyError) as caught:
        checked(new(kind, **body))
    assert caught.value.field == field


@pytest.mark.parametrize(
    "observation",
    [
        {"type": "value", "value": typed(1e300)},
        {"type": "value", "value": typed(0.055) | {"decimals": 10**9}},
        {"type": "value", "value": typed(0.055) | {"decimals": -1}},
        {"type": "blade", "blades": [], "answer": "goes"},
        {"type": "blade", "blades": ["F:0.05", "F:0.05"], "answer": "goes"},
    ],
)
def test_an_observation_that_means_nothing_is_refused(observation):
    with pytest.raises(BodyError):
        checked(reading(observation=observation))


@pytest.mark.parametrize("code", [".", "..", "a/b", "a\\b", "a?b", "a#b", "a%2e", "", "x" * 81])
def test_the_code_of_a_build_can_stand_in_an_address(code):
    with pytest.raises(BodyError):
        checked(new("build started", code or "b", code=code, title="t", sheet="s"))


def test_a_build_is_started_under_its_own_code():
    with pytest.raises(BodyError, match="it starts a but is filed under b"):
        checked(new("build started", "b", code="a", title="t", sheet="s"))


@pytest.mark.parametrize("told", ["yesterday", "", "2031-13-01"])
def test_a_time_that_is_none_is_refused(told):
    with pytest.raises(BodyError, match=r"client_time: .* is no time"):
        checked(dataclasses.replace(new("note", text="t"), client_time=told))
    checked(dataclasses.replace(new("note", text="t"), client_time="2031-05-04T09:30:00.000+02:00"))


def test_words_in_any_writing_are_taken():
    for words in ("Größe 55,450 µm\nzweite Zeile\t.", "שלום", "ネジ"):
        checked(new("note", text=words))
    with pytest.raises(BodyError, match="nobody can see"):
        checked(dataclasses.replace(new("note", text="t"), person="build\u2066er"))


def test_a_body_that_cannot_be_made_is_said_in_one_sentence():
    with pytest.raises(ValidationError) as caught:
        ShopSetting(name="units", value="cubits")
    assert (
        str(refusal_of(caught.value)) == "shop setting, value: units are mm or inch, not 'cubits'; correct it"
    )
    with pytest.raises(ValidationError) as caught:
        BladeOnShelf(**BLADE | {"thickness": -1.0})
    assert str(refusal_of(caught.value)).startswith("blade on shelf, thickness: ")
