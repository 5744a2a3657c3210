"""What every test shares: how hard hypothesis tries, and the browser."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings
from playwright.sync_api import Browser
from xdist.remote import Producer

from tests.support.browser import chromium
from tests.support.order import Units, rank_of

# Shared machines stall, so no example has a deadline; the suite's own time is watched instead. The quick
# profile tries the same examples every time, so that a red run is about the change; the other one explores.
settings.register_profile(
    "quick",
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("thorough", max_examples=1000, deadline=None)
settings.load_profile(os.environ.get("FITWRIGHT_HYPOTHESIS", "quick"))


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put them in order; within a rank they stay as chance has them."""
    items.sort(key=rank_of)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Producer) -> Units | None:
    """Give out work in that order."""
    return Units(config, log) if config.getoption("dist") == "loadscope" else None


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Chromium for one module: while it is open an event loop runs, which other modules may not want."""
    with chromium() as opened:
        yield opened
