"""Run as a program: many threads write readings to a record and say each acknowledgement at once.

`python -m tests.support.writers FOLDER THREADS ENTRIES`; one line `seq hash id` on standard output per
acknowledged entry, written without buffering, so that what was said survives a kill.
"""

from __future__ import annotations

import os
import sys
import threading
from pathlib import Path

from fitwright.records.ids import new_id
from fitwright.store.record import SqliteRecord, open_record
from tests.support.record import reading


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
