"""The hash chain finds a changed value at exactly that entry, and a lost tail against an anchor."""

from __future__ import annotations

import dataclasses
import hashlib
import json

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from fitwright.records.canonical import canonical_text, parsed
from fitwright.records.chain import GENESIS, Link, check_anchor, digest_of, hash_of, verified
from fitwright.records.entry import Acknowledgement, Entry
from fitwright.records.errors import ShorterThanAnchorError
from tests.support.record import reading, sealed_chain

JSON = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**53) + 1, 2**53 - 1)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(), inner, max_size=3),
    max_leaves=10,
)
BODIES = st.dictionaries(st.text(), JSON, max_size=4)
WORDS = st.none() | st.text()


def chain(length=6):
    return sealed_chain([reading(si=0.05 + number * 1e-6) for number in range(length)])


@given(BODIES)
def test_canonical_text_read_back_gives_the_same_text(body):
    text = canonical_text(body)
    assert canonical_text(parsed(text)) == text


@pytest.mark.parametrize("value", [float("nan"), float("inf"), 2**60, "\ud800", {1: 2}])
def test_what_json_cannot_carry_exactly_is_refused(value):
    with pytest.raises(ValueError, match=r"."):
        canonical_text({"value": value})


def test_a_body_is_one_object():
    with pytest.raises(ValueError, match="one JSON object"):
        parsed("[1]")


@given(BODIES, WORDS, WORDS, WORDS)
def test_the_digest_is_that_of_the_whole_entry_in_rfc_8785_form(body, build, person, device):
    entry = Entry(7, "0" * 32, build, "note", 1, person, device, "2031", None, body, GENESIS, "")
    whole = {
        name: getattr(entry, name)
        for name in ("seq", "id", "build", "kind", "kind_version", "person", "device")
    } | {"committed_at": "2031", "client_time": None, "body": body}
    assert digest_of(entry) == hashlib.sha256(rfc8785.dumps(whole)).hexdigest()
    assert digest_of(entry, canonical_text(body)) == digest_of(entry)


def test_the_hash_takes_the_hash_before_and_the_digest_as_bytes():
    digest = "ab" * 32
    assert hash_of(GENESIS, digest) == hashlib.sha256(bytes(32) + bytes.fromhex(digest)).hexdigest()


def test_the_head_follows_from_digests_alone():
    entries = chain()
    head = GENESIS
    for entry in entries:
        head = hash_of(head, digest_of(entry))
    assert head == entries[-1].hash


def test_a_sound_chain_has_no_faults():
    report = verified(chain())
    assert report.sound
    assert report.first is None
    assert (report.entries, report.head.seq) == (6, 6)


CHANGES = {
    "id": "f" * 32,
    "build": "b2",
    "kind": "note",
    "kind_version": 2,
    "person": "someone else",
    "device": "tablet",
    "committed_at": "2031-05-04T09:30:00.000001Z",
    "client_time": "2030",
    "body": {"changed": 1},
    "previous_hash": "1" * 64,
    "hash": "2" * 64,
}


@pytest.mark.parametrize("field", CHANGES)
@pytest.mark.parametrize("at", [0, 2, 5])
def test_one_changed_value_is_found_at_exactly_that_entry(field, at):
    entries = chain()
    entries[at] = dataclasses.replace(entries[at], **{field: CHANGES[field]})
    report = verified(entries)
    assert [fault.seq for fault in report.faults] == [at + 1]
    assert "changed" in str(report.first)


@given(st.data())
def test_any_byte_changed_in_a_stored_body_is_found_there(data):
    entries = chain(4)
    at = data.draw(st.integers(0, 3))
    text = canonical_text(entries[at].body)
    where = data.draw(st.integers(0, len(text) - 1))
    other = data.draw(st.characters(codec="ascii").filter(lambda letter: letter != text[where]))
    changed = text[:where] + other + text[where + 1 :]
    links = [Link(entry, canonical_text(entry.body)) for entry in entries]
    links[at] = Link(entries[at], changed)
    assert [fault.seq for fault in verified(links).faults] == [at + 1]


def test_all_faults_are_found_not_only_the_first():
    entries = chain()
    for at in (1, 4):
        entries[at] = dataclasses.replace(entries[at], person="x")
    assert [fault.seq for fault in verified(entries).faults] == [2, 5]


def test_an_entry_replaced_with_its_hash_shows_at_the_next():
    entries = chain()
    forged = dataclasses.replace(entries[2], person="x")
    entries[2] = dataclasses.replace(forged, hash=hash_of(forged.previous_hash, digest_of(forged)))
    report = verified(entries)
    assert [fault.seq for fault in report.faults] == [4]
    assert "replaced" in report.first.what


def test_a_deleted_entry_shows_as_a_gap():
    entries = chain()
    del entries[2:4]
    report = verified(entries)
    assert [fault.seq for fault in report.faults] == [5]
    assert "2 entries are missing" in report.first.what


def test_entries_out_of_order_are_found():
    entries = chain()
    assert not verified([*entries[:3], entries[4], entries[3], entries[5]]).sound


def test_a_tail_of_a_chain_can_be_followed_by_itself():
    entries = chain()
    assert verified(entries[3:], previous_hash=entries[2].hash, first_seq=4).sound


def test_a_lost_tail_shows_only_against_an_anchor():
    entries = chain()
    anchor = Acknowledgement(entries[5].id, 6, entries[5].hash)
    check_anchor(anchor, where="the head file", head=anchor, at_anchor=entries[5])
    short = verified(entries[:4])
    assert short.sound
    with pytest.raises(ShorterThanAnchorError, match="ends at entry 4") as caught:
        check_anchor(anchor, where="the head file", head=short.head, at_anchor=None)
    assert (caught.value.anchor_seq, caught.value.seq) == (6, 4)


def test_a_history_that_went_another_way_does_not_fit_the_anchor():
    mine, other = chain(), chain()
    anchor = Acknowledgement(mine[3].id, 4, mine[3].hash)
    with pytest.raises(ShorterThanAnchorError, match="entry 4 of the record is another one"):
        check_anchor(anchor, where="tablet", head=verified(other).head, at_anchor=other[3])


def test_hashes_are_hexadecimal():
    entries = chain()
    entries[1] = dataclasses.replace(entries[1], previous_hash="not a hash")
    assert [fault.seq for fault in verified(entries).faults] == [2]
    assert json.loads(canonical_text(entries[1].body))
