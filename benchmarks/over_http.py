"""Readings over HTTP: 20 devices, durable and answered, at a bench's pace and one after the other."""

from __future__ import annotations

import http.client
import threading
import time
import uuid
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import cycle
from urllib.parse import urlencode, urlsplit

from benchmarks.figure import Figure, quantile
from benchmarks.large_build import CODE
from tests.support.serving import form_of

DEVICES, PAUSE = 20, 2.0
FORM = {"content-type": "application/x-www-form-urlencoded"}
BRIEF = FORM | {"accept": "application/json", "prefer": "return=minimal"}
ON_SCREEN = FORM | {"hx-request": "true"}


def figures(address: str, forms: Sequence[Mapping[str, str]]) -> Iterator[Figure]:
    """Measure against a server that is a program of its own; each reading goes to the next place."""
    places = _Places(forms)
    many = "20 devices, a reading each every 2 s"
    for name, headers, most in (
        (f"{many}: acknowledged", BRIEF, 50.0),
        (f"{many}, on Measure: kept and all of it answered", ON_SCREEN, 100.0),
    ):
        found = _all(address, places, lambda device, h=headers: _paced(device, h, seconds=18.0))
        yield Figure(name, 1e3 * quantile(found, 0.99), "ms", f"p99 of {len(found)}, durable", most=most)
    begun = time.perf_counter()
    found = _all(address, places, lambda device: _closed(device, 60))
    rate = len(found) / (time.perf_counter() - begun)
    name = "20 devices in a closed loop: acknowledged"
    how = f"p99 of {len(found)}; {rate:.0f} readings a second"
    yield Figure(name, 1e3 * quantile(found, 0.99), "ms", how, most=50.0)


class _Places:
    """Forms to send, one after the other, shared by the devices."""

    def __init__(self, forms: Sequence[Mapping[str, str]]) -> None:
        self._next = cycle(forms)
        self._lock = threading.Lock()

    def next(self) -> Mapping[str, str]:
        """The next form."""
        with self._lock:
            return next(self._next)


class Device:
    """One device with its connection."""

    def __init__(self, address: str, number: int, places: _Places) -> None:
        self.number, self.places = number, places
        self.connection = http.client.HTTPConnection(urlsplit(address).netloc, timeout=30)
        page = f"/builds/{CODE}/fits/main.1.running_clearance"
        self.token = form_of(self._asked("GET", page, "", {}).decode())["token"]

    def _asked(self, method: str, path: str, body: str, headers: dict[str, str]) -> bytes:
        self.connection.request(method, path, body, headers)
        answer = self.connection.getresponse()
        content = answer.read()
        if answer.status != http.client.OK:
            raise SystemExit(f"{path} was answered with {answer.status}: {content[:300]!r}")
        return content

    def send(self, headers: dict[str, str]) -> float:
        """Seconds until one reading more was answered."""
        form = self.places.next()
        own = {"token": self.token, "entry_id": uuid.uuid4().hex}
        if headers is ON_SCREEN:
            path = f"/builds/{CODE}/measure/{form['station']}"
            fields = own | {"at": form["place"], "text": form["value"], "sitting": form["sitting"]}
        else:
            path, fields = f"/builds/{CODE}/readings", {**form, **own}
        begun = time.perf_counter()
        answer = self._asked("POST", path, urlencode(fields), headers)
        taken = time.perf_counter() - begun
        if b"acknowledgement" not in answer and b"Kept as entr" not in answer:
            raise SystemExit(f"a reading was not kept: {answer[:300]!r}")
        return taken


def _all(address: str, places: _Places, work: Callable[[Device], list[float]]) -> list[float]:
    """What all devices measured, working at once."""
    devices = [Device(address, number, places) for number in range(DEVICES)]
    found: list[float] = []
    threads = [threading.Thread(target=lambda each=each: found.extend(work(each))) for each in devices]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return found


def _paced(device: Device, headers: dict[str, str], *, seconds: float) -> list[float]:
    """A reading every two seconds, the devices spread over them."""
    time.sleep(PAUSE * device.number / DEVICES)
    begun, found = time.perf_counter(), []
    for number in range(int(seconds / PAUSE)):
        time.sleep(max(0.0, begun + number * PAUSE - time.perf_counter()))
        found.append(device.send(headers))
    return found


def _closed(device: Device, readings: int) -> list[float]:
    """One reading after the other."""
    return [device.send(BRIEF) for _ in range(readings)]
