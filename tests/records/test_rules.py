"""What a new entry may refer to."""

from __future__ import annotations

import pytest

from fitwright.records.errors import BodyError
from fitwright.records.registry import checked
from fitwright.records.rules import check_references
from tests.support.record import new, numbered_id, reading, sealed_chain


class Earlier:
    def __init__(self, *news):
        self.entries = sealed_chain(news)

    def entry(self, entry_id):
        return next((entry for entry in self.entries if entry.id == entry_id), None)

    def naming(self, entry_id):
        return [
            entry
            for entry in self.entries
            if entry_id in (entry.body.get("supersedes"), entry.kind == "withdrawal" and entry.body["entry"])
        ]


def refusal(entry, *before):
    with pytest.raises(BodyError) as caught:
        check_references(entry, checked(entry)[0], Earlier(*before))
    return str(caught.value)


def accepted(entry, *before):
    check_references(entry, checked(entry)[0], Earlier(*before))


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
