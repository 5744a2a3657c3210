"""What a new entry may refer to."""

from __future__ import annotations

import pytest

from fitwright.records.errors import BodyError
from fitwright.records.registry import checked
from fitwright.records.rules import check_references
from tests.support.record import Before, new, numbered_id, reading, sealed_chain

KEPT = "a" * 64


def refusal(entry, *before):
    with pytest.raises(BodyError) as caught:
        check_references(entry, checked(entry)[0], Before(sealed_chain(before), sheets={KEPT}))
    return str(caught.value)


def accepted(entry, *before):
    check_references(entry, checked(entry)[0], Before(sealed_chain(before), sheets={KEPT}))


def test_a_correction_needs_a_reason_and_the_same_kind():
    first, note = reading(), new("note", text="t")
    accepted(reading(supersedes=first.id, reason="slipped"), first)
    assert "needs its reason" in refusal(reading(supersedes=first.id), first)
    assert "entry 1 is a note, not a reading" in refusal(reading(supersedes=note.id, reason="x"), note)


def test_what_is_named_must_be_there():
    gone = numbered_id(0)
    assert refusal(new("withdrawal", entry=gone)) == (
        f"withdrawal, entry: there is no entry {gone}; name an entry of this record"
    )
    assert "there is no entry" in refusal(reading(supersedes=gone, reason="x"))
    assert "there is no entry" in refusal(new("choice", choice="keep both", entries=[gone]))


def test_what_is_named_must_be_of_the_same_build_or_the_shop():
    other, shelf = reading(build="b2"), reading(build=None)
    person = new("person", None, code="builder", name="builder")
    assert "belongs to build b2; make this entry there" in refusal(new("withdrawal", entry=other.id), other)
    assert "belongs to no build" in refusal(new("withdrawal", entry=shelf.id), shelf)
    accepted(new("withdrawal", None, entry=shelf.id), shelf)
    accepted(new("withdrawal", "b1", entry=person.id), person)


def test_withdrawing_twice_is_refused_and_undoing_it_is_not():
    first = reading()
    undo = new("withdrawal", entry=first.id)
    assert "was withdrawn already, by entry 2; withdraw that withdrawal to bring it back" in refusal(
        new("withdrawal", entry=first.id), first, undo
    )
    redo = new("withdrawal", entry=undo.id)
    accepted(redo, first, undo)
    accepted(new("withdrawal", entry=first.id), first, undo, redo)


def test_only_readings_move():
    first, note = reading(), new("note", text="t")
    move = {"dimension": "d", "feature": "f", "place": "p", "members": {"a": "a"}}
    accepted(new("readings moved", moves=[move | {"entry": first.id}]), first)
    moved = new("readings moved", moves=[move | {"entry": first.id}, move | {"entry": note.id}])
    assert "moves.1.entry: entry 2 is a note" in refusal(moved, first, note)


def started(sheet=KEPT, **more):
    return new("build started", "b1", code="b1", title="t", sheet=sheet, **more)


def test_a_build_is_started_once():
    first = started()
    accepted(first)
    assert "build b1 was started already, by entry 1" in refusal(started(), first)
    gone = new("withdrawal", entry=first.id)
    assert "give the new one another name" in refusal(started(), first, gone)
    accepted(started(supersedes=first.id, reason="its title was mistyped"), first)


def test_a_sheet_that_is_not_kept_cannot_be_built_to():
    other = "b" * 64
    assert f"holds no sheet with digest {other}" in refusal(started(sheet=other))
    accepted(new("revision taken over", sheet=KEPT, previous_sheet=other))
    assert "keep the sheet first" in refusal(new("revision taken over", sheet=other, previous_sheet=KEPT))


SIGNED = {"granted_by": "builder", "because": "b"}


@pytest.mark.parametrize(
    "first",
    [
        new("step done", step="s"),
        new("step released", step="s", released_by="builder"),
        new("signature", subject="dossier", meaning="checked", signed_by="builder", seq=0, hash="0" * 64),
        new("PIN set", None, person="builder", salt="00" * 16, hardened="0" * 64, cost=2**15),
        new("dossier written", revision=1, depth="owner", paper="A4", seq=0, hash="0", data_digest="0"),
    ],
    ids=lambda entry: entry.kind,
)
def test_what_others_rest_on_is_withdrawn_and_not_corrected(first):
    body = dict(first.body) | {"supersedes": first.id, "reason": "mistyped"}
    assert "withdraw it, and enter it anew" in refusal(new(first.kind, first.build, **body), first)
    accepted(new("withdrawal", first.build, entry=first.id), first)


@pytest.mark.parametrize("kind", ["concession", "deviation permit"])
def test_a_permission_is_corrected_for_the_same_thing_by_the_same_person(kind):
    first = new(kind, code="C-1", subject="fit", **SIGNED)
    again = {"code": "C-1", "subject": "fit", **SIGNED, "supersedes": first.id, "reason": "said better"}
    accepted(new(kind, **again), first)
    for field, value in (("code", "C-2"), ("subject", "other"), ("granted_by", "second")):
        assert f"{field}: entry 1 says" in refusal(new(kind, **(again | {field: value})), first)


def test_a_look_after_rework_names_an_order_of_its_build():
    look = {"order": "R-1", "item": "fit", "answer": "holds"}
    order = new("rework order", code="R-1", part="crank", dimensions=["d"], words="w")
    assert "there is no rework order R-1 in b1; name one of its own" in refusal(new("rework checked", **look))
    assert "there is no rework order" in refusal(new("rework checked", "b2", **look), order)
    accepted(new("rework checked", **look), order)
    accepted(new("rework checked", **look), order, new("withdrawal", entry=order.id))
