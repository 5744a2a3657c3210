"""Where the browser for the tests lies, and how it is started."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Browser, sync_playwright

NAMES = ("chromium", "chromium-browser", "google-chrome")


def chromium_path() -> str:
    """Path of the system's Chromium, or of the one that FITWRIGHT_CHROMIUM names."""
    found = os.environ.get("FITWRIGHT_CHROMIUM") or next(filter(None, map(shutil.which, NAMES)), None)
    assert found, "the browser tests need Chromium: install the package chromium, or set FITWRIGHT_CHROMIUM"
    return found


@contextmanager
def chromium() -> Iterator[Browser]:
    """Chromium without a window. Its sandbox needs rights that a container or root does not give."""
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=chromium_path(), args=["--no-sandbox"])
        yield browser
        browser.close()
