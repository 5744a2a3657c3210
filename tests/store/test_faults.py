"""No acknowledged entry is lost, whatever happens; a refused one is said and can be entered again."""

from __future__ import annotations

import os
import random
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
from contextlib import suppress
from pathlib import Path

import pytest

from fitwright.records.chain import verified
from fitwright.records.errors import CannotWriteError
from fitwright.store.record import open_record
from fitwright.store.verify import verify
from tests.support.record import new, reading
from tests.support.writers import killed_while_writing, lost_of

ROOT = Path(__file__).resolve().parents[2]
KILLS = 4
THREADS, ENTRIES = 20, 200


def test_killed_while_20_devices_write_no_acknowledged_entry_is_lost(folder, opened):
    chance = random.Random(20310504)
    acknowledged = []
    cut_short = 0
    for _ in range(KILLS):
        said = killed_while_writing(folder, THREADS, ENTRIES, after=chance.uniform(0.05, 0.5))
        cut_short += len(said) < THREADS * ENTRIES
        acknowledged += said
        record = opened()
        assert record.read_only_because is None
        assert lost_of(acknowledged, record) == []
        assert verify(record).sound
        record.close()
    print(f"{KILLS} kills, {len(acknowledged)} acknowledged entries, 0 lost")
    assert cut_short, "no kill came while they wrote, so nothing was tested"
    assert acknowledged


def set_pragma(record, words):
    """Set a pragma on the writing connection; it lasts until that connection is made anew."""
    with record._writing_engine.connect() as connection:
        connection.connection.driver_connection.execute(f"PRAGMA {words}")


def fill_disk(record):
    """Let the database keep the pages it has and refuse each page more, as on a full disk."""
    set_pragma(record, "max_page_count=1")


def test_a_full_disk_is_said_and_the_record_works_again_without_a_restart(record):
    record.append([reading()])
    entry = new("note", text="x" * 100_000)
    for _ in range(3):
        fill_disk(record)
        with pytest.raises(CannotWriteError) as caught:
            record.append([entry])
        assert str(caught.value) == "not stored: the disk is full; free some space, then enter it again"
    assert [stored.seq for stored in record.entries()] == [1]
    assert record.append([entry])[0].seq == 2
    assert record.append([entry])[0].seq == 2
    assert verify(record).sound


def test_on_a_full_disk_all_entries_of_an_append_are_refused(record):
    record.append([reading()])
    fill_disk(record)
    with pytest.raises(CannotWriteError):
        record.append([new("note", text="small"), new("note", text="x" * 100_000)])
    assert record.head().seq == 1


def test_everybody_is_answered_when_a_commit_fails(record, monkeypatch):
    """All who share a failed transaction are refused, and nothing of theirs is stored."""
    answers = []
    entered = threading.Event()

    def slow_failure(connection):
        entered.set()
        time.sleep(0.05)
        raise OSError(5, "Input/output error", "record.db-wal")

    def write():
        try:
            answers.append(record.append([reading()]))
        except CannotWriteError as error:
            answers.append(str(error))

    monkeypatch.setattr(record._writer, "_note", slow_failure)
    threads = [threading.Thread(target=write) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert entered.is_set()
    reason, mend = "Input/output error (record.db-wal)", "check the disk and its folder"
    assert answers == [f"not stored: {reason}; {mend}, then enter it again"] * 8
    monkeypatch.undo()
    assert record.append([reading()])[0].seq == 1
    assert verified(record.entries()).entries == 1


def test_a_fault_of_the_program_reaches_its_own_caller_and_leaves_the_record_working(record):
    def faulty(connection):
        message = "a mistake of ours"
        raise ZeroDivisionError(message)

    with pytest.raises(ZeroDivisionError):
        record._writer.run(faulty)
    assert record.append([reading()])[0].seq == 1


def test_a_record_held_by_another_program_is_said(record, folder):
    set_pragma(record, "busy_timeout=20")
    other = sqlite3.connect(folder / "record.db", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(CannotWriteError, match="another program holds the record; let it finish"):
        record.append([reading()])
    other.execute("ROLLBACK")
    other.close()
    assert record.append([reading()])[0].seq == 1


def test_a_reader_does_not_hold_up_writers(record):
    record.append([reading() for _ in range(1500)])
    slow = record.entries()
    next(slow)
    record.append([reading()])
    assert len(list(slow)) == 1500  # it also sees what came meanwhile, in order


NOBODY = 65534

READ_ONLY = f"""
import os, sys
from pathlib import Path
from fitwright.records.errors import CannotWriteError
from fitwright.store.record import open_record
from tests.support.record import reading

folder, other = map(Path, sys.argv[1:])
warm = open_record(other)  # loads what is loaded late, while this user can still read it
warm.append([reading()])
warm.close()
if os.geteuid() == 0:  # the administrator may write anywhere
    os.setegid({NOBODY})
    os.seteuid({NOBODY})
record = open_record(folder)
print(len(list(record.entries())), record.head().seq, flush=True)
try:
    record.append([reading(entry_id="a" * 32)])
except CannotWriteError as error:
    print(error, flush=True)
sys.stdin.readline()
print(record.append([reading(entry_id="a" * 32)])[0].seq, record.head().seq, flush=True)
record.close()
"""


@pytest.fixture
def plain_folder():
    """A folder that a person without rights over others' files can be given; removed afterwards."""
    with tempfile.TemporaryDirectory(prefix="fitwright-") as folder:
        Path(folder).chmod(0o755)
        yield Path(folder)
        for path in (Path(folder), Path(folder) / "shop"):
            with suppress(FileNotFoundError):
                path.chmod(0o755)


def test_a_read_only_folder_is_read_said_and_written_once_it_is_writable(plain_folder):
    folder = plain_folder / "shop"
    record = open_record(folder)
    record.append([reading(), reading()])
    record.close()
    for path in (folder, *folder.iterdir()):
        if os.geteuid() == 0:
            os.chown(path, NOBODY, NOBODY)
        path.chmod(0o555 if path.is_dir() else 0o444)
    with subprocess.Popen(
        [sys.executable, "-c", READ_ONLY, str(folder), str(plain_folder / "other")],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdout.readline() == "2 2\n"
        assert process.stdout.readline() == (
            "not stored: the folder of the record is read-only; make it writable, then enter it again\n"
        )
        folder.chmod(0o755)
        for path in folder.iterdir():
            path.chmod(0o644)
        process.stdin.write("\n")
        process.stdin.flush()
        assert process.stdout.readline() == "3 3\n"
    assert process.returncode == 0


def test_a_record_cannot_be_begun_in_a_file(tmp_path, opened):
    (tmp_path / "file").touch()
    with pytest.raises(CannotWriteError, match="Not a directory"):
        opened(tmp_path / "file" / "shop")
