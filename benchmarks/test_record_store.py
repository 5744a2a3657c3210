"""How fast the record answers, durably: 20 devices in a closed loop within 50 ms (p99)."""

import itertools
import threading
import time

import pytest

from fitwright.records.chain import verified
from fitwright.records.projection import BuildState
from fitwright.store import rows
from fitwright.store.record import open_record
from tests.support.record import reading, sealed_chain


@pytest.fixture
def record(tmp_path):
    opened = open_record(tmp_path / "shop")
    yield opened
    opened.close()


def latencies(record, threads, entries):
    """Seconds per acknowledgement of so many threads, each writing so many entries one by one, and in all."""
    found = []

    def write(mine):
        for entry in mine:
            begun = time.perf_counter()
            record.append([entry])
            found.append(time.perf_counter() - begun)

    everything = [[reading() for _ in range(entries)] for _ in range(threads)]
    writers = [threading.Thread(target=write, args=(mine,)) for mine in everything]
    begun = time.perf_counter()
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    return sorted(found), time.perf_counter() - begun


@pytest.mark.parametrize("threads, entries", [(1, 2000), (20, 200), (50, 100)])
def test_durable_commits(benchmark, record, threads, entries):
    found, seconds = benchmark.pedantic(latencies, args=(record, threads, entries), rounds=1)
    p50, p99 = (found[int(len(found) * share)] * 1e3 for share in (0.5, 0.99))
    print(f"{threads} threads: {len(found) / seconds:.0f} entries/s, p50 {p50:.2f} ms, p99 {p99:.2f} ms")
    benchmark.extra_info.update(p50=p50, p99=p99, rate=len(found) / seconds)
    assert threads > 20 or p99 < 50.0


def test_following_the_chain(benchmark, record):
    record.append([reading() for _ in range(20_000)])
    report = benchmark(lambda: verified(map(rows.link_of, rows.in_pages(record.reader))))
    print(f"{20_000 / benchmark.stats.stats.median:.0f} entries/s")
    assert report.sound


def test_one_reading_more(benchmark):
    chain = iter(sealed_chain(reading() for _ in range(2000 + 500)))
    state = BuildState.replay("b1", itertools.islice(chain, 2000))
    benchmark.pedantic(lambda: state.apply(next(chain)), rounds=400)
    assert benchmark.stats.stats.median < 1e-4


def test_replaying_a_build_of_2000_readings(benchmark):
    chain = sealed_chain(reading() for _ in range(2000))
    benchmark(BuildState.replay, "b1", chain)
