"""Pages of a build with 2,000 readings: how soon they are answered, and what they weigh."""

from __future__ import annotations

import gzip
import re
import time
import urllib.request
from collections.abc import Iterator

from benchmarks.figure import Figure, quantile
from benchmarks.large_build import CODE

FIT = f"/builds/{CODE}/fits/main.4.running_clearance"
PAGES = {
    "Builds": "/",
    "the build": f"/builds/{CODE}/fits",
    "the build, both states": f"/builds/{CODE}/fits?state=both",
    "the build in inches": f"/builds/{CODE}/fits?units=inch",
    "a fit": FIT,
}


def figures(address: str) -> Iterator[Figure]:
    """Measure each page over HTTP, and the page of a fit with all that it loads."""
    for name, path in PAGES.items():
        found = [_seconds(address + path) for _ in range(43)][3:]
        yield Figure(f"page: {name}", 1e3 * quantile(found, 0.95), "ms", "p95 of 40, over HTTP", most=100.0)
    yield Figure(
        "weight of the page where readings are taken",
        _weight(address, FIT) / 1e3,
        "kB",
        "in all, as sent",
        most=150.0,
    )
    yield Figure(
        "weight of the page of the build", _weight(address, f"/builds/{CODE}/fits") / 1e3, "kB", "in all, as sent"
    )


def _got(address: str) -> tuple[bytes, int]:
    """What is at an address, and how many bytes came."""
    request = urllib.request.Request(address, headers={"accept-encoding": "gzip"})
    with urllib.request.urlopen(request) as answer:
        sent = answer.read()
        plain = gzip.decompress(sent) if answer.headers["content-encoding"] == "gzip" else sent
    return plain, len(sent)


def _seconds(address: str) -> float:
    begun = time.perf_counter()
    _got(address)
    return time.perf_counter() - begun


def _weight(address: str, path: str) -> int:
    """Bytes of a page with its style, script, icon and fonts."""
    page, weight = _got(address + path)
    linked = set(re.findall(r'(?:src|href)="(/static/[^"]+)"', page.decode()))
    style = _got(address + "/static/bench.css")[0].decode()
    linked |= {f"/static/{each}" for each in re.findall(r'url\("([^"]+)"\)', style)}
    return weight + sum(_got(address + each)[1] for each in linked)
