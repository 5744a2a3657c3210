"""A body checked against its kind, in one sentence if it is not in order."""

from __future__ import annotations

import dataclasses

import pytest

from fitwright.records import kinds, registry
from fitwright.records.errors import BodyError, RecordError, UnknownKindError
from fitwright.records.ids import imported_id, is_entry_id, new_id
from fitwright.records.registry import KINDS, body_of, checked
from tests.support.record import new, reading, typed

THICK = {"title": "t", "kinematic_viscosity_40": typed(1e-4), "kinematic_viscosity_100": typed(0.0)}
FROZEN = {"angular_speed": typed(94.0), "oil_temperature": typed(0.0), "gauge_reading": typed(1e5)}


def test_every_kind_in_the_module_is_known_once():
    assert len(KINDS) == len({noun.__name__ for noun in KINDS.values()})
    assert KINDS["reading"] is kinds.Reading
    assert KINDS["blade set"] is kinds.BladeSet


def test_every_kind_has_its_book():
    books = (registry.SHOP_KINDS, registry.SHELF_KINDS, registry.BUILD_KINDS)
    assert len(frozenset().union(*books)) == sum(map(len, books))
    anywhere = {"note", "photo", "question answered"}
    assert frozenset().union(*books) | anywhere == set(KINDS)


def test_lists_stand_for_tuples_and_whole_numbers_for_floats():
    body, text = checked(new("state", code="R", change="rework", part="p", dimensions=["a", "b"], words="w"))
    assert body.dimensions == ("a", "b")
    assert '"dimensions":["a","b"]' in text
    assert body_of("reading", 1, reading(part_temperature=293).body).part_temperature == 293.0


@pytest.mark.parametrize(
    "kind, body, sentence",
    [
        ("note", {}, "note, text: it is missing; fill it in"),
        ("note", {"text": 7}, "note, text: input should be a valid string, not 7; correct it"),
        (
            "note",
            {"text": "t", "colour": "red"},
            "note, colour: there is no such field; use only: supersedes",
        ),
        ("reading", dict(reading().body) | {"origin": "dreamt"}, "reading, origin: input should be 'bench'"),
        ("oil chosen", {}, "oil chosen, body: exactly one of oil, data_sheet and grade is given"),
        ("oil chosen", {"oil": "o", "grade": "30"}, "oil chosen, body: exactly one of oil, data_sheet and"),
        ("oil chosen", {"grade": "10w40"}, "oil chosen, grade: a grade is written 10W-40, 30 or 10W"),
        (
            "oil chosen",
            {"data_sheet": THICK},
            "oil chosen, data_sheet: kinematic_viscosity_100 is above zero",
        ),
        ("pressure reading", FROZEN, "pressure reading, body: oil_temperature is above zero"),
        ("note", {"text": b"t"}, "note, body: it is no plain JSON"),
    ],
)
def test_a_body_that_is_not_in_order_gets_one_sentence(kind, body, sentence):
    with pytest.raises(BodyError) as caught:
        checked(new(kind, **body))
    assert str(caught.value).startswith(sentence)
    assert "\n" not in str(caught.value)
    assert isinstance(caught.value, RecordError)


def test_an_inner_field_is_named_with_its_way():
    body = dict(reading().body)
    body["observation"] = {"type": "value", "value": {"typed": "1", "unit": "mm", "decimals": 0, "si": "1"}}
    with pytest.raises(BodyError) as caught:
        checked(new("reading", **body))
    assert caught.value.field == "observation.value.value.si"


@pytest.mark.parametrize("si", [float("nan"), float("inf")])
def test_a_number_that_is_none_is_refused(si):
    with pytest.raises(BodyError):
        checked(reading(si=si))


def test_half_a_character_is_refused():
    with pytest.raises(BodyError, match="whole characters"):
        checked(dataclasses.replace(new("note", text="t"), person="\ud800"))


@pytest.mark.parametrize("entry_id", ["", "1", "G" * 32, "A" * 32, "a" * 33])
def test_an_id_is_32_hex_digits(entry_id):
    with pytest.raises(BodyError, match="32 hex digits"):
        checked(dataclasses.replace(new("note", text="t"), id=entry_id))


def test_some_kinds_need_a_build():
    with pytest.raises(BodyError, match=r"fitting, build: .* name the build"):
        checked(new("fitting", None, part="a", position="p"))


def test_unknown_kinds_and_versions_are_refused():
    with pytest.raises(UnknownKindError, match="'dream' is not known"):
        checked(new("dream"))
    with pytest.raises(UnknownKindError, match="up to version 1, not 2"):
        checked(dataclasses.replace(new("note", text="t"), kind_version=2))


def test_an_old_version_is_brought_up_step_by_step(monkeypatch):
    class Note(kinds.Note):
        version = 3

    monkeypatch.setattr(registry, "KINDS", {"note": Note})
    upgrades = {
        ("note", 1): lambda body: {"words": body["said"]},
        ("note", 2): lambda body: {"text": body["words"]},
    }
    assert body_of("note", 1, {"said": "hello"}, upgrades=upgrades).text == "hello"
    assert body_of("note", 2, {"words": "hello"}, upgrades=upgrades).text == "hello"
    assert body_of("note", 3, {"text": "hello"}, upgrades=upgrades).text == "hello"


def test_every_earlier_version_of_a_kind_has_its_step():
    needed = {(kind, version) for kind, noun in KINDS.items() for version in range(1, noun.version)}
    assert needed == set(registry.UPGRADES)


def test_ids():
    assert is_entry_id(new_id())
    assert new_id() != new_id()
    assert is_entry_id(imported_id("b1", "ab" * 32, 3))
    rows = [
        (build, digest * 32, row) for build in ("b1", "b2") for digest in ("ab", "cd") for row in range(9)
    ]
    assert len({imported_id(*each) for each in rows}) == len(rows)
