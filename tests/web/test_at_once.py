"""What two devices do in the same instant: nothing is lost, and no code is given twice."""

from __future__ import annotations

import asyncio
import re
import threading
import time
from concurrent.futures import ThreadPoolExecutor

import httpx
import pytest

from fitwright.bench.sittings import begin_sitting, new_sitting_code, sitting_from
from fitwright.records.errors import CodeTakenError
from fitwright.records.ids import new_id
from fitwright.records.news import News
from fitwright.web.app import create_app
from fitwright.web.listeners import LOOK_EVERY, Listeners
from tests.support.serving import serving

CODE = "corrie-five"
MAINS = f"/builds/{CODE}/measure/mains"
DEVICES = 12


def token_of(client, address):
    return re.search('name="token" value="([^"]+)"', client.get(address).text)[1]


def begin(client, token, ready):
    """One device begins a sitting at the instant at which all do."""
    ready.wait()
    form = {"token": token, "temperature": "21", "entry_id": new_id()}
    return client.post(f"{MAINS}/sitting", data=form).status_code


@pytest.fixture
def two_programs(opened, folder):
    """Two programs that serve the same shop, each with its client and token."""
    with serving(create_app(opened(folder))) as first, serving(create_app(opened(folder))) as second:
        clients = [httpx.Client(base_url=each, timeout=30) for each in (first, second)]
        yield [(each, token_of(each, MAINS)) for each in clients]
        for each in clients:
            each.close()


def test_sittings_begun_in_the_same_instant_have_codes_of_their_own(two_programs, opened, folder):
    before = len(opened(folder).bench(CODE).build.sittings)
    ready = threading.Barrier(DEVICES)
    with ThreadPoolExecutor(DEVICES) as devices:
        begun = [devices.submit(begin, *two_programs[each % 2], ready) for each in range(DEVICES)]
        assert [each.result() for each in begun] == [303] * DEVICES
    sittings = opened(folder).bench(CODE).build.sittings
    assert len(sittings) == before + DEVICES


def test_a_code_that_somebody_took_meanwhile_is_not_given_again(shop, opened, folder):
    other = opened(folder)
    bench, since = shop.bench(CODE), shop.position
    mine, theirs = (sitting_from(each, measured_by="builder") for each in (bench, other.bench(CODE)))
    assert mine.code == theirs.code
    other.write([begin_sitting(other.bench(CODE), theirs)])
    with pytest.raises(CodeTakenError, match=f"sitting {mine.code} was entered by somebody else"):
        shop.write([begin_sitting(bench, mine)], since=since)
    with shop.held():
        assert new_sitting_code(shop.bench(CODE)) != mine.code


def test_pages_that_wait_for_a_long_computation_keep_nothing_else_waiting(client, shop):
    """Whoever computes holds the shop; static files, the stream of news and pages without it go on."""
    computing, done = threading.Event(), threading.Event()

    def compute():
        with shop.held():
            computing.set()
            done.wait(20)

    pages = [
        f"/builds/{CODE}/fits",
        f"/builds/{CODE}",
        MAINS,
        f"/builds/{CODE}/parts",
        f"/builds/{CODE}/labels",
    ]
    with ThreadPoolExecutor() as others:
        others.submit(compute)
        computing.wait()
        waiting = [others.submit(client.get, page) for page in pages]
        try:
            time.sleep(0.3)
            began = time.perf_counter()
            assert client.get("/static/page.js").status_code == 200
            took = time.perf_counter() - began
            assert not any(each.done() for each in waiting)
        finally:
            done.set()
        assert [each.result().status_code for each in waiting] == [200] * len(pages)
    print(f"a static file while {len(pages)} pages wait: {took * 1000:.0f} ms")
    assert took < 5


class FailingOnce:
    """A shop whose record fails once in a way that nobody foresaw, and then has news."""

    position, asked = 0, 0

    def news(self, after):
        self.asked += 1
        if self.asked == 1:
            raise OSError("nobody foresaw this")
        return News(after + 1, frozenset({CODE}))


async def heard_after_a_failure(listeners):
    with listeners.listening():
        await asyncio.sleep(3 * LOOK_EVERY)
    with listeners.listening() as queue:
        return await asyncio.wait_for(queue.get(), 10)


def test_who_listens_after_a_look_that_failed_hears_again():
    assert asyncio.run(heard_after_a_failure(Listeners(FailingOnce()))).seq == 1
