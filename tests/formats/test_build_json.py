"""A whole build as JSON: every entry with its digest, and every change to the file found."""

from __future__ import annotations

import json

import pytest

from fitwright.bench.carrying import CannotCarryError, check_carrying, rested_on, without_readings
from fitwright.formats.build_json import BuildFileError, read_build, write_build
from fitwright.records import kinds
from fitwright.records.chain import digest_of
from tests.support.record import new, reading, sealed_chain


def chain():
    """Two builds on one shelf: the second reads with other things than the first."""
    gauge = {"type": "outside micrometer", "unit": "mm", "resolution": 1e-6, "repeatability": 1e-6}
    value = {"type": "value", "value": {"typed": "2", "unit": "mm", "decimals": 0, "si": 0.002}}
    return sealed_chain(
        [
            new("person", None, code="builder", name="Builder"),
            new("person", None, code="visitor", name="Visitor"),
            new("instrument", None, code="M1", title="M1", **gauge),
            new("instrument", None, code="M2", title="M2", **gauge),
            new("instrument", None, code="R1", title="Ring", **gauge),
            new("calibration", None, code="C-M1", instrument="M1", standard_uncertainty=1e-6),
            new("calibration", None, code="C-M2", instrument="M2", standard_uncertainty=1e-6),
            new("setting", None, code="S-1", instrument="M1", master="R1"),
            new("check-back", None, setting="S-1", drift=value["value"]),
            new("shop setting", None, name="decision rule critical", value="0.99"),
            new("shop setting", None, name="name", value="The shop"),
            new("build started", "b1", code="b1", title="One", sheet="0" * 64),
            new("build started", "b2", code="b2", title="Two", sheet="0" * 64),
            reading(build="b1", observation={**value, "instrument": "M1", "setting": "S-1"}, sitting=None),
            reading(build="b2", observation={**value, "instrument": "M2"}, sitting=None),
        ]
    )


@pytest.fixture
def entries():
    return chain()


def names(entries):
    return [(entry.kind, entry.body.get("code") or entry.body.get("name")) for entry in entries]


def test_a_build_takes_along_what_it_rests_on_and_nothing_else(entries):
    found = rested_on(entries, "b1")
    assert [entry.seq for entry in found] == sorted(entry.seq for entry in found)
    assert names(found) == [
        ("person", "builder"),
        ("instrument", "M1"),
        ("instrument", "R1"),
        ("calibration", "C-M1"),
        ("setting", "S-1"),
        ("check-back", None),
        ("shop setting", "decision rule critical"),
        ("build started", "b1"),
        ("reading", None),
    ]


def test_corrections_and_withdrawals_of_shop_things_go_along(entries):
    gauge = next(entry for entry in entries if entry.body.get("code") == "M1")
    more = sealed_chain(
        [new("withdrawal", None, entry=gauge.id)], previous_hash=entries[-1].hash, first_seq=len(entries) + 1
    )
    assert rested_on([*entries, *more], "b1")[-1].kind == "withdrawal"


def test_a_set_up_has_no_readings(entries):
    found = without_readings(rested_on(entries, "b1"))
    assert {entry.kind for entry in found}.isdisjoint({"reading", "choice", "readings moved"})
    assert len(found) == 8


@pytest.fixture
def text(entries):
    return write_build("b1", rested_on(entries, "b1"), {"0" * 64: "sheet"}, None)


def test_what_is_written_is_read_with_every_digest_worked_out_again(entries, text):
    found = read_build(text)
    there = rested_on(entries, "b1")
    assert found.build == "b1"
    assert [each["digest"] for each in json.loads(text)["entries"]] == [digest_of(each) for each in there]
    assert [(each.id, each.body, each.person) for each in found.new_entries()] == [
        (each.id, each.body, each.person) for each in there
    ]


def test_equal_builds_give_equal_files(entries, text):
    assert write_build("b1", rested_on(entries, "b1"), {"0" * 64: "sheet"}, None) == text


@pytest.mark.parametrize("field", ["seq", "person", "committed_at", "body"])
def test_a_changed_entry_is_found_at_exactly_that_entry(text, field):
    document = json.loads(text)
    entry = document["entries"][3]
    entry[field] = {
        "seq": 99,
        "person": "visitor",
        "committed_at": "2030-01-01T00:00:00.000000Z",
        "body": {**entry["body"], "standard_uncertainty": 2e-6},
    }[field]
    with pytest.raises(BuildFileError, match="entry 4 of the file: does not agree with its digest"):
        read_build(json.dumps(document))


@pytest.mark.parametrize(
    "change, said",
    [
        (lambda document: "not JSON", "is no JSON"),
        (lambda document: json.dumps([document]), 'is no "fitwright build"'),
        (lambda document: json.dumps({**document, "format": "another"}), 'is no "fitwright build"'),
        (lambda document: json.dumps({**document, "version": 2}), "read it with the fitwright that wrote it"),
        (lambda document: json.dumps({**document, "entries": {}}), "entries: is missing or of another kind"),
        (lambda document: json.dumps({**document, "entries": [1]}), "entry 1 of the file"),
        (lambda document: json.dumps({**document, "head": {"seq": "x"}}), "has no id, seq and hash"),
        (lambda document: json.dumps({**document, "sheets": {"a": 1}}), "something else than text"),
        (lambda document: "[" * 100_000, "is no JSON"),
    ],
)
def test_what_is_no_build_file_is_said_in_one_sentence(text, change, said):
    with pytest.raises(BuildFileError) as refused:
        read_build(change(json.loads(text)), file="b.json")
    assert said in str(refused.value)
    assert str(refused.value).startswith("b.json")


def test_the_same_build_again_is_here_already(entries):
    incoming = rested_on(entries, "b1")
    assert check_carrying("b1", incoming, incoming) == {entry.id for entry in incoming}
    assert check_carrying("b1", incoming, []) == frozenset()


def test_another_build_of_that_name_is_refused(entries):
    other = sealed_chain([new("build started", "b1", code="b1", title="Other", sheet="1" * 64)])
    with pytest.raises(CannotCarryError, match="a build of that name is here"):
        check_carrying("b1", rested_on(entries, "b1"), other)


def test_a_gauge_that_is_another_one_here_is_refused(entries):
    other = kinds.Person(code="builder", name="Builder", drag=1e-6)
    there = sealed_chain([new("person", None, **other.model_dump(mode="json"))])
    with pytest.raises(CannotCarryError, match="person builder is another one here"):
        check_carrying("b1", rested_on(entries, "b1"), there)


def test_the_same_gauge_entered_here_too_is_no_obstacle(entries):
    there = sealed_chain([new("person", None, code="builder", name="Builder")])
    assert check_carrying("b1", rested_on(entries, "b1"), there) == frozenset()


@pytest.mark.parametrize(
    "amount, says",
    [
        ({"typed": "2", "unit": "mm", "decimals": 0, "si": 0.0021}, "reads as 0.002 and stands as 0.0021"),
        ({"typed": "2", "unit": "furlong", "decimals": 0, "si": 402.336}, "is no amount"),
        ({"typed": "two", "unit": "mm", "decimals": 0, "si": 0.002}, "'two' in 'mm' is no amount"),
    ],
)
def test_an_amount_that_is_not_what_was_typed_is_not_taken_in(amount, says):
    told = sealed_chain([reading(build="b1", observation={"type": "value", "value": amount})])
    with pytest.raises(CannotCarryError, match=says):
        check_carrying("b1", told, [])


@pytest.mark.parametrize("field", ["supersedes", "entry"])
def test_a_file_changes_no_entry_that_it_does_not_bring(entries, field):
    gauge = next(entry for entry in entries if entry.body.get("code") == "M1")
    corrected = dict(gauge.body) | {"supersedes": gauge.id, "reason": "finer"}
    changes = {
        "entry": new("withdrawal", None, entry=gauge.id),
        "supersedes": new("instrument", None, **corrected),
    }
    with pytest.raises(CannotCarryError, match="changes one that the file does not have"):
        check_carrying("b3", sealed_chain([changes[field]]), entries)


def test_a_file_brings_entries_of_its_own_build_only(entries):
    text = write_build("b1", [entry for entry in entries if entry.build == "b2"], {}, None)
    with pytest.raises(BuildFileError, match="entry 1 of the file: belongs to b2, not to b1"):
        read_build(text)


# What is secret, and what was done.


def pin(build=None, **more):
    secret = {"salt": "ab" * 16, "hardened": "cd" * 32, "cost": 2**15}
    return new("PIN set", build, person="builder", **(secret | more))


def more_of(entries, *news):
    return [*entries, *sealed_chain(news, previous_hash=entries[-1].hash, first_seq=len(entries) + 1)]


@pytest.mark.parametrize("build", [None, "b1", "b2"])
def test_a_pin_never_leaves_its_shop_whatever_it_is_filed_under(entries, build):
    secret = pin(build)
    every = more_of(entries, secret, new("withdrawal", build, entry=secret.id))
    found = rested_on(every, "b1")
    assert found == rested_on(entries, "b1")
    assert "cd" * 32 not in write_build("b1", found, {}, None)


def test_a_file_that_brings_a_pin_is_refused(entries):
    with pytest.raises(CannotCarryError, match="PINs never leave their shop"):
        check_carrying("b1", more_of(rested_on(entries, "b1"), pin("b1")), [])


def test_a_build_takes_along_who_worked_on_it_and_with_what(entries):
    tightening = new(
        "tightening",
        group="g",
        fasteners=["1"],
        number=1,
        torque={"typed": "9", "unit": "N m", "decimals": 0, "si": 9.0},
        wrench="M2",
        performed_by="visitor",
    )
    found = names(rested_on(more_of(entries, tightening), "b1"))
    for name in (("person", "visitor"), ("instrument", "M2"), ("calibration", "C-M2")):
        assert name in found


def test_a_set_up_has_no_work(entries):
    work = [
        new("step done", step="s"),
        new("heat cycle", words="w"),
        new("rework order", code="R-1", part="p", dimensions=["d"], words="w"),
    ]
    every = more_of(entries, *work, new("withdrawal", entry=work[0].id))
    assert without_readings(rested_on(every, "b1")) == without_readings(rested_on(entries, "b1"))
