"""Verdicts of a build of 250 fits and 2,000 readings: all of them, and those after one reading more."""

from __future__ import annotations

import time
import uuid
from collections.abc import Iterator
from itertools import cycle

from benchmarks.figure import Figure, quantile, timed
from benchmarks.large_build import CODE
from fitwright.assess.assessment import Assessor
from fitwright.assess.results import State
from fitwright.records.entry import NewEntry
from fitwright.wiring import Shop


def figures(shop: Shop) -> Iterator[Figure]:
    """Measure both; the readings added are repeats of readings that count, dimension after dimension."""
    bench = shop.bench(CODE)
    fits = len(shop.assessment(CODE).verdicts)
    whole = timed(
        lambda: Assessor(bench.sheet, bench.shop, bench.build, State.CURRENT).assessment(), 7, warm_up=2
    )
    name = f"verdicts of a build of {fits} fits, {len(bench.build.readings)} readings"
    yield Figure(
        name, 1e3 * quantile(whole, 0.5), "ms", "median of 7, from its entries in memory", most=250.0
    )
    after = list(_after_one_reading(shop, 200))
    yield Figure(
        "verdicts after one reading more", 1e3 * quantile(after, 0.5), "ms", "median of 200", most=5.0
    )
    yield Figure("the same, one in a hundred", 1e3 * quantile(after, 0.99), "ms", "p99 of 200")


def _after_one_reading(shop: Shop, times: int) -> Iterator[float]:
    """Seconds from an entry in the record to the verdicts that it touches."""
    used = dict.fromkeys(name for each in shop.assessment(CODE).verdicts.values() for name in each.readings)
    known = shop.bench(CODE).build.readings
    first_of_each = {known[name].entry.body["dimension"]: known[name].entry for name in used}
    for _, entry in zip(range(times), cycle(first_of_each.values()), strict=False):
        again = NewEntry(uuid.uuid4().hex, CODE, entry.kind, entry.body, entry.person)
        shop.record.append([again])
        touched = shop.assessor(CODE).touched_by(again)
        begun = time.perf_counter()
        with shop.held():  # takes the entry up
            shop.verdicts(CODE, touched)
        yield time.perf_counter() - begun
