"""A demo shop made once and copied for each test, an empty build, and clients for both."""

from __future__ import annotations

import shutil
from contextlib import ExitStack
from functools import partialmethod
from pathlib import Path

import httpx
import pytest

from fitwright.assess.oil.desk import OilDesk
from fitwright.demo import prepare_demo
from fitwright.records.kinds import BuildStarted
from fitwright.web import rendering
from fitwright.web.app import create_app
from fitwright.web.oil_work import OilWork
from fitwright.wiring import open_shop
from tests.support.contexts import rendered
from tests.support.oil_bands import banded_at_once
from tests.support.serving import serving

PATIENCE = 180
"""Seconds that a client waits: the first prediction on a machine is compiled."""

SMALL_SHEET = Path(__file__).parents[1] / "data" / "sheets" / "small.toml"


@pytest.fixture(scope="module", autouse=True)
def bands_at_once():
    """Pages wait for no band: what bands are is tested where they are made."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(OilDesk, "banded", banded_at_once)
        patched.setattr(OilWork, "answer", partialmethod(_waited_for, OilWork.answer))
        yield


def _waited_for(work, answer, desk, asked, *, wait):
    """However busy the machine is; tests of what is said while one waits have desks of their own."""
    return answer(work, desk, asked, wait=max(wait, 120.0) if isinstance(desk, OilDesk) else wait)


@pytest.fixture(scope="session")
def prepared(tmp_path_factory):
    folder = tmp_path_factory.mktemp("web") / "shop"
    prepare_demo(folder)
    return folder


@pytest.fixture
def folder(prepared, tmp_path):
    """The demo shop, this test's own copy."""
    return shutil.copytree(prepared, tmp_path / "shop")


@pytest.fixture
def opened():
    """Opens shops, and closes them all at the end."""
    shops = []

    def opener(directory):
        shops.append(open_shop(directory))
        return shops[-1]

    yield opener
    for shop in shops:
        shop.close()


@pytest.fixture
def shop(opened, folder):
    return opened(folder)


@pytest.fixture(scope="session")
def shown_shop(prepared):
    """The demo shop for tests that only look at it."""
    shop = open_shop(prepared)
    yield shop
    shop.close()


@pytest.fixture(scope="session")
def lasting_client(shown_shop):
    """A client of the demo shop, served once."""
    with (
        serving(create_app(shown_shop)) as address,
        httpx.Client(base_url=address, timeout=PATIENCE) as client,
    ):
        yield client


@pytest.fixture
def looking(lasting_client):
    """A client for tests that only look; it remembers nothing of the tests before."""
    lasting_client.cookies.clear()
    return lasting_client


@pytest.fixture
def empty_shop(opened, tmp_path):
    """A shop without a build."""
    return opened(tmp_path / "empty")


@pytest.fixture
def begun_shop(opened, tmp_path):
    """A shop with one build, of which nothing is measured."""
    shop = opened(tmp_path / "begun")
    started = BuildStarted(code="first", title="First job", sheet="")
    shop.start_build("first", SMALL_SHEET.read_text("utf-8"), started)
    return shop


@pytest.fixture
def asking():
    """Makes a client of a shop's pages, which are served by a thread of this process."""
    with ExitStack() as stack:

        def client(shop):
            address = stack.enter_context(serving(create_app(shop)))
            return stack.enter_context(httpx.Client(base_url=address, timeout=PATIENCE))

        yield client


@pytest.fixture
def client(asking, shop):
    return asking(shop)


@pytest.fixture
def read(monkeypatch):
    """The fields of parts that were read by the pages rendered in this test."""
    found = set()
    monkeypatch.setattr(rendering, "render", lambda context: rendered(context, found))
    return found
