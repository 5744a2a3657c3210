"""Append, read, and what is refused."""

from __future__ import annotations

import dataclasses
import hashlib
import sqlite3
import threading
from contextlib import closing

import pytest

from fitwright.records.chain import verified
from fitwright.records.entry import Entry
from fitwright.records.errors import BodyError, IdReusedError, NotKeptError
from fitwright.records.protocol import Record
from fitwright.store import rows
from fitwright.store.errors import NewerRecordError, NoRecordError, UnreadableRecordError
from fitwright.store.record import SqliteRecord
from tests.support.record import new, reading


def test_it_is_a_record_as_the_protocol_wants_it(record):
    def takes(any_record: Record) -> Record:
        return any_record

    names = [name for name in vars(Record) if not name.startswith("_")]
    assert names
    assert all(hasattr(takes(record), name) for name in names)


def test_what_is_appended_is_read_back_in_order(record):
    news = [reading(si=0.05), new("note", text="Pläuel ½ µm ✓"), reading(si=0.06)]
    answers = record.append(news)
    assert [answer.seq for answer in answers] == [1, 2, 3]
    entries = list(record.entries())
    assert [entry.id for entry in entries] == [entry.id for entry in news]
    assert entries[1].body == {"text": "Pläuel ½ µm ✓"}
    assert entries[0].committed_at == "2031-05-04T09:30:00.001000Z"
    assert verified(entries).sound
    assert record.head() == answers[-1]
    assert record.entry(news[1].id) == entries[1]
    assert record.entry("0" * 32) is None


def test_an_empty_record_has_no_head(record):
    assert record.head() is None
    assert list(record.entries()) == []
    assert record.append([]) == []


def test_entries_of_a_build_come_with_those_of_the_shop(record):
    record.append([reading(), reading(build="b2"), new("person", None, code="p", name="builder")])
    assert [entry.seq for entry in record.entries(build="b1")] == [1, 3]
    assert [entry.seq for entry in record.entries(after=1)] == [2, 3]
    assert [entry.seq for entry in record.entries(limit=2)] == [1, 2]
    assert [entry.seq for entry in record.entries(build="b2", after=2, limit=1)] == [3]
    assert list(record.entries(limit=0)) == []


def test_reading_goes_on_across_pages(record):
    record.append([reading() for _ in range(2500)])
    assert [entry.seq for entry in record.entries()] == list(range(1, 2501))
    assert [entry.seq for entry in record.entries(after=1, limit=1500)] == list(range(2, 1502))


def test_the_same_entry_again_gets_the_first_answer_again(record):
    entry = reading()
    first = record.append([entry])
    record.append([reading()])
    assert record.append([entry]) == first
    assert record.append([dataclasses.replace(entry, device="another tablet")]) == first
    assert record.head().seq == 2


@pytest.mark.parametrize(
    "change",
    [
        {"body": {"text": "other"}},
        {"kind": "photo", "body": {"digest": "d", "media_type": "m"}},
        {"build": "b2"},
        {"person": "apprentice"},
    ],
)
def test_an_id_used_for_something_else_is_refused_and_nothing_stored(record, change):
    entry = new("note", text="first")
    record.append([entry])
    with pytest.raises(IdReusedError, match="already stands for entry 1"):
        record.append([reading(), dataclasses.replace(entry, **change)])
    assert record.head().seq == 1


def test_all_entries_of_one_append_or_none(record):
    with pytest.raises(BodyError):
        record.append([reading(), new("withdrawal", entry="0" * 32)])
    with pytest.raises(BodyError):
        record.append([reading(), new("note")])
    assert record.head() is None


def test_an_entry_may_name_one_of_the_same_append(record):
    first = reading()
    record.append([first, new("withdrawal", entry=first.id)])
    with pytest.raises(BodyError, match="withdrawn already, by entry 2"):
        record.append([new("withdrawal", entry=first.id)])


def test_an_undone_withdrawal_may_be_made_again(record):
    first = reading()
    undo = new("withdrawal", entry=first.id)
    record.append([first, undo, new("withdrawal", entry=undo.id)])
    record.append([new("withdrawal", entry=first.id)])
    assert record.head().seq == 4


def test_a_refused_entry_does_not_harm_those_written_at_the_same_moment(record):
    refused, written = [], []

    def write(number):
        try:
            written.extend(record.append([reading() if number % 2 else new("withdrawal", entry="0" * 32)]))
        except BodyError as error:
            refused.append(error)

    threads = [threading.Thread(target=write, args=(number,)) for number in range(40)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(refused) == len(written) == 20
    assert sorted(answer.seq for answer in written) == list(range(1, 21))
    assert verified(record.entries()).sound


def test_sheets_are_kept_once_under_their_digest(record):
    text = 'name = "Sechszylinder ½"\n'
    digest = record.keep_sheet(text)
    assert digest == hashlib.sha256(text.encode()).hexdigest() == record.keep_sheet(text)
    assert record.sheet_text(digest) == text
    with pytest.raises(NotKeptError, match="no sheet"):
        record.sheet_text("0" * 64)


def test_everything_is_there_after_opening_again(record, opened):
    answers = record.append([reading(), reading()])
    digest = record.keep_sheet("x = 1")
    record.close()
    again = opened()
    assert again.head() == answers[-1]
    assert again.sheet_text(digest) == "x = 1"
    assert again.append([reading()])[0].seq == 3


def test_two_openings_of_one_record_write_to_one_chain(record, opened):
    other = opened()
    for writer in (record, other, record, other):
        writer.append([reading()])
    assert verified(record.entries()).entries == 4
    assert verified(other.entries()).sound


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE entries SET person = 'x' WHERE seq = 1",
        "DELETE FROM entries WHERE seq = 2",
        "INSERT OR REPLACE INTO entries SELECT * FROM entries WHERE seq = 1",
        """REPLACE INTO entries SELECT 9, id, build, kind, kind_version, person, device, committed_at,
        client_time, body, previous_hash, hash FROM entries WHERE seq = 1""",
        "UPDATE sheet_texts SET text = 'x'",
        "DELETE FROM sheet_texts",
        "REPLACE INTO sheet_texts SELECT digest, 'x' FROM sheet_texts",
    ],
)
def test_the_database_itself_refuses_to_change_or_delete(record, folder, statement):
    record.append([reading(), reading()])
    record.keep_sheet("x = 1")
    with (
        closing(sqlite3.connect(folder / "record.db", isolation_level=None)) as other,
        pytest.raises(sqlite3.IntegrityError, match=r"never|only added|once"),
    ):
        other.execute(statement)
    assert verified(record.entries()).entries == 2


@pytest.mark.parametrize("engine", ["_writing_engine", "_reader"])
def test_pragmas_are_set_and_read_back(record, engine):
    with getattr(record, engine).connect() as connection:
        found = {
            name: connection.exec_driver_sql(f"PRAGMA {name}").scalar_one()
            for name in ("journal_mode", "synchronous", "query_only", "wal_autocheckpoint")
        }
    assert found["journal_mode"] == "wal"
    if engine == "_writing_engine":
        assert (found["synchronous"], found["wal_autocheckpoint"]) == (2, 1000)
    else:
        assert (found["query_only"], found["wal_autocheckpoint"]) == (1, 0)


def test_a_pragma_that_does_not_hold_is_refused(folder, monkeypatch, opened):
    from fitwright.store import dialect

    monkeypatch.setattr(dialect, "WRITER_PRAGMAS", dict(dialect.WRITER_PRAGMAS) | {"synchronous": 9})
    with pytest.raises(UnreadableRecordError, match="does not keep synchronous at 9"):
        opened()


def test_the_log_stays_short(record, folder):
    for _ in range(30):
        record.append([new("note", text="x" * 2000) for _ in range(100)])
    log = (folder / "record.db-wal").stat().st_size
    print(f"log after 6 MB of notes: {log} bytes")
    assert log < 6_000_000


def test_nothing_is_begun_where_nothing_is_to_be_created(folder, opened):
    with pytest.raises(NoRecordError, match="no record here"):
        opened(create=False)
    assert not folder.exists()


def test_a_file_that_is_no_database_is_left_alone(folder, opened):
    folder.mkdir()
    (folder / "record.db").write_bytes(b"something else entirely, and long enough to be read " * 100)
    with pytest.raises(UnreadableRecordError, match="it is no database; keep the file"):
        opened()
    assert (folder / "record.db").read_bytes().startswith(b"something else")


def test_the_database_of_something_else_is_left_alone(folder, opened):
    folder.mkdir()
    with closing(sqlite3.connect(folder / "record.db")) as other:
        other.execute("CREATE TABLE recipes (name TEXT)")
    with pytest.raises(UnreadableRecordError, match=r"something else .it holds recipes"):
        opened()


def test_a_record_of_a_later_version_is_left_alone(record, folder, opened):
    record.close()
    with closing(sqlite3.connect(folder / "record.db", isolation_level=None)) as other:
        other.execute("UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(NewerRecordError, match="later version of fitwright"):
        opened()


def test_closing_leaves_one_database_file(record, folder):
    record.append([reading()])
    record.close()
    assert not list(folder.glob("record.db-*"))
    assert isinstance(record, SqliteRecord)


def test_the_columns_stand_in_the_order_of_an_entry():
    assert tuple(field.name for field in dataclasses.fields(Entry)) == rows.COLUMNS
