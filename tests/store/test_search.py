"""Entries looked for, the newest first, each with what became of it; counted by kind."""

import pytest

from fitwright.records.search import Search
from tests.support.record import new, reading


@pytest.fixture
def filled(record):
    entries = [
        new("person", None, code="p", name="Person"),
        reading(dimension="main.4.journal", place="front/0"),
        reading(dimension="main.4.journal", place="rear/0"),
        new("note", text="Main 4 looks GREY", subject="main.4"),
        reading(build="b2"),
    ]
    entries[1] = entries[1].__class__(
        **{**{f: getattr(entries[1], f) for f in entries[1].__slots__}, "person": "p"}
    )
    record.append(entries)
    return record, entries


def seqs(record, **wanted):
    return [each.entry.seq for each in record.search(Search(**wanted))]


def test_the_newest_comes_first_and_pages_follow(filled):
    record, _ = filled
    assert seqs(record) == [5, 4, 3, 2, 1]
    assert seqs(record, limit=2) == [5, 4]
    assert seqs(record, limit=2, before=4) == [3, 2]
    assert seqs(record, after=3) == [5, 4]
    assert seqs(record, build="b1") == [4, 3, 2]
    assert seqs(record, build="nothing") == []


def test_it_is_narrowed_by_kind_person_names_and_words(filled):
    record, _ = filled
    assert seqs(record, kinds=("note", "person")) == [4, 1]
    assert seqs(record, person="p") == [2]
    assert seqs(record, names=("main.4.journal",)) == [3, 2]
    assert seqs(record, names=("main.4.journal", "front/0")) == [2]
    assert seqs(record, names=("main.4",)) == [4]  # whole values only: not main.4.journal
    assert seqs(record, words="grey") == [4]
    assert seqs(record, words="100%") == []
    assert seqs(record, words="_") == []  # an underscore is one, and not any character


def test_who_measured_counts_as_who(record):
    record.append([new("person", None, code="p", name="P"), reading(measured_by="p"), reading()])
    assert seqs(record, person="p") == [2]


@pytest.mark.parametrize("hostile", ['"', "\\", "%", "_", "';--", "\u00fc"])
def test_any_text_can_be_looked_for(filled, hostile):
    record, _ = filled
    record.append([new("note", text=f"x{hostile}y")])
    assert seqs(record, names=(f"x{hostile}y",)) == [6]
    assert 6 in seqs(record, words=hostile if hostile not in '"\\' else "x")


def test_each_entry_says_what_became_of_it(filled):
    record, entries = filled
    back = new("withdrawal", entry=entries[1].id, reason="slip")
    again = reading(dimension="main.4.journal", place="rear/0", supersedes=entries[2].id, reason="read again")
    record.append([back, again])
    found = {each.entry.seq: each for each in record.search(Search(build="b1"))}
    assert (found[2].withdrawn_by.seq, found[2].counts) == (6, False)
    assert (found[3].superseded_by.seq, found[3].counts) == (7, False)
    assert found[4].counts
    record.append([new("withdrawal", entry=back.id, reason="no slip")])
    assert {each.entry.seq: each for each in record.search(Search(build="b1"))}[2].counts


def test_entries_are_counted_by_kind_and_the_last_one_is_known(filled):
    record, _ = filled
    assert record.counts("b1") == {"reading": 2, "note": 1}
    assert record.counts("b1", after=3) == {"note": 1}
    assert record.counts("nothing") == {}
    assert record.last_of("b1").seq == 4
    assert record.last_of("nothing") is None
