"""Pages of a build with 2,000 readings: how soon they are answered, and what they weigh; sliders of Oil."""

from __future__ import annotations

import gzip
import re
import threading
import time
import urllib.request
from collections.abc import Iterator

from benchmarks.figure import Figure, quantile
from benchmarks.large_build import CODE

FIT = f"/builds/{CODE}/fits/main.4.running_clearance"
MEASURE = f"/builds/{CODE}/measure/mains"
OIL = f"/builds/{CODE}/oil"
PAGES = {
    "Builds": "/",
    "Engine": f"/builds/{CODE}",
    "Measure": MEASURE,
    "Fits": f"/builds/{CODE}/fits",
    "Fits, both states": f"/builds/{CODE}/fits?state=both",
    "Fits in inches": f"/builds/{CODE}/fits?units=inch",
    "a fit": FIT,
    "Parts": f"/builds/{CODE}/parts",
    "Sheet": f"/builds/{CODE}/sheet",
    "Paper": f"/builds/{CODE}/forms",
    "a bench form": f"/builds/{CODE}/forms/mains",
    "Record": f"/builds/{CODE}/record",
    "Shop": "/shop",
    "Quick sums": "/sums",
}


def figures(address: str) -> Iterator[Figure]:
    """Measure each page over HTTP, and the page of a fit with all that it loads."""
    for name, path in PAGES.items():
        found = [_seconds(address + path) for _ in range(43)][3:]
        yield Figure(f"page: {name}", 1e3 * quantile(found, 0.95), "ms", "p95 of 40, over HTTP", most=100.0)
    yield Figure(
        "weight of Measure",
        _weight(address, MEASURE) / 1e3,
        "kB",
        "in all, as sent",
        most=150.0,
    )
    weight = _weight(address, f"/builds/{CODE}/fits")
    yield Figure("weight of Fits", weight / 1e3, "kB", "in all, as sent")
    yield from _oil(address)


def _oil(address: str) -> Iterator[Figure]:
    """The page Oil once its bands are there, and its answer to a slider, each time to another place of it."""
    begun = time.perf_counter()
    while "oil-lead" not in (text := _got(address + OIL)[0].decode()) or "oil-waits" in text:
        time.sleep(0.5)
    how = f"p95 of 40, over HTTP; first there, with bands, after {time.perf_counter() - begun:.1f} s"
    found = [_seconds(address + OIL) for _ in range(43)][3:]
    yield Figure("page: Oil", 1e3 * quantile(found, 0.95), "ms", how, most=100.0)
    moved = (f"{OIL}/answer?units=mm&w.mains={at / 1000:.3f}" for at in range(1, 44))
    found = [_seconds(address + each) for each in moved][3:]
    what = "p95 of 40, over HTTP; best estimate, figures and curves"
    yield Figure("what-if in the page Oil", 1e3 * quantile(found, 0.95), "ms", what, most=100.0)
    yield Figure("weight of Oil", _weight(address, OIL) / 1e3, "kB", "in all, as sent")


def while_busy(address: str) -> Iterator[Figure]:
    """A page while another browser opens the large build for the first time; the server was just started."""
    opening = threading.Thread(target=_got, args=(address + PAGES["Fits, both states"],))
    _seconds(address + PAGES["Quick sums"])  # its templates are read once
    begun = time.perf_counter()
    opening.start()
    found = []
    while opening.is_alive():
        found.append(_seconds(address + PAGES["Quick sums"]))
        time.sleep(0.01)
    how = (
        f"p99 of {len(found)}, while the build was judged from nothing ({time.perf_counter() - begun:.1f} s)"
    )
    yield Figure("page: during a heavy computation", 1e3 * quantile(found, 0.99), "ms", how)


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
