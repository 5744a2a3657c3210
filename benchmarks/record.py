"""The record by itself: durable commits, and following its chain."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from pathlib import Path

from benchmarks.figure import Figure, quantile, timed
from fitwright.records.chain import verified
from fitwright.store import rows
from fitwright.store.record import SqliteRecord, open_record
from tests.support.record import reading


def figures(folder: Path) -> Iterator[Figure]:
    """Measure one writer, 20 writers, and verification."""
    record = open_record(folder)
    found, seconds = _latencies(record, 1, 2000)
    yield Figure("durable commits, one writer", len(found) / seconds, "1/s", "2,000 entries one by one")
    yield Figure("one durable commit", 1e3 * quantile(found, 0.99), "ms", "p99 of 2,000", most=50.0)
    found, seconds = _latencies(record, 20, 200)
    yield Figure("durable commits, 20 writers", len(found) / seconds, "1/s", "4,000 entries one by one")
    yield Figure(
        "one durable commit among 20 writers", 1e3 * quantile(found, 0.99), "ms", "p99 of 4,000", most=50.0
    )
    record.append([reading() for _ in range(14_000)])
    follow = timed(lambda: verified(map(rows.link_of, rows.in_pages(record.reader))), 3)
    yield Figure("following the chain", 20_000 / quantile(follow, 0.5), "1/s", "20,000 entries, median of 3")
    record.close()


def _latencies(record: SqliteRecord, threads: int, entries: int) -> tuple[list[float], float]:
    """Seconds per acknowledgement of so many threads, each writing one by one, and in all."""
    found: list[float] = []

    def write(mine: list[object]) -> None:
        for entry in mine:
            begun = time.perf_counter()
            record.append([entry])
            found.append(time.perf_counter() - begun)

    writers = [
        threading.Thread(target=write, args=([reading() for _ in range(entries)],)) for _ in range(threads)
    ]
    begun = time.perf_counter()
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    return found, time.perf_counter() - begun
