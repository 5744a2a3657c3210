"""Run as a program: many threads write readings to a record and say each acknowledgement at once.

`python -m tests.support.writers FOLDER THREADS ENTRIES`; one line `seq hash id` on standard output per
acknowledged entry, written without buffering, so that what was said survives a kill.
`killed_while_writing` starts and kills that program.
"""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterable
from pathlib import Path

from fitwright.records.entry import Acknowledgement
from fitwright.records.ids import new_id
from fitwright.store.record import SqliteRecord, open_record
from tests.support.record import reading

ROOT = Path(__file__).resolve().parents[2]


def killed_while_writing(folder: Path, threads: int, entries: int, *, after: float) -> list[Acknowledgement]:
    """Start the writers, kill their process so many seconds after it opened the record; what it had said."""
    command = [sys.executable, "-m", "tests.support.writers", str(folder), str(threads), str(entries)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"open\n"
        time.sleep(after)
        process.kill()
        said = process.stdout.read().decode()
    whole = said[: said.rfind("\n") + 1]  # the kill may cut a line
    return [
        Acknowledgement(entry_id, int(seq), own) for seq, own, entry_id in map(str.split, whole.splitlines())
    ]


def lost_of(acknowledged: Iterable[Acknowledgement], record: SqliteRecord) -> list[Acknowledgement]:
    """Acknowledged entries that the record does not hold as acknowledged."""
    stored = {Acknowledgement(entry.id, entry.seq, entry.hash) for entry in record.entries()}
    return [answer for answer in acknowledged if answer not in stored]


def write(record: SqliteRecord, entries: int) -> None:
    """Append entries one by one, saying each acknowledgement."""
    for number in range(entries):
        entry = reading(si=0.05 + number * 1e-7, entry_id=new_id())
        [answer] = record.append([entry])
        os.write(1, f"{answer.seq} {answer.hash} {answer.id}\n".encode())


def main() -> None:
    """Open the record and let the threads write."""
    folder, threads, entries = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
    record = open_record(folder)
    os.write(1, b"open\n")
    writers = [threading.Thread(target=write, args=(record, entries)) for _ in range(threads)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    record.close()


if __name__ == "__main__":
    main()
