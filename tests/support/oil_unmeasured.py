"""Builds to the sheet of an example of which nothing is measured: as it is, or without a limit."""

from __future__ import annotations

import re
from importlib.resources import files

from fitwright.records.kinds import BuildStarted
from fitwright.wiring import Shop


def shop_not_measured(shop: Shop) -> Shop:
    """With a build "second" to the sheet of Corrie Five, of which nothing is measured."""
    return _started(shop, _sheet())


def shop_without_limits(shop: Shop) -> Shop:
    """The same, with a sheet that has no limit of one clearance of its pump."""
    return _started(shop, _without_limits(_sheet()))


def _sheet() -> str:
    return (files("fitwright.examples") / "corrie_five" / "sheet.toml").read_text("utf-8")


def _without_limits(text: str) -> str:
    start = text.index('[fits."pump.end_clearance"]')
    end = text.index("\n[fits", start + 1)
    return (
        text[:start]
        + re.sub(r"(?ms)^limits = \[.*?^\]\n|^limits = \[.*?\]\n", "", text[start:end])
        + text[end:]
    )


def _started(shop: Shop, text: str) -> Shop:
    shop.start_build("second", text, BuildStarted(code="second", title="Second job", sheet=""))
    return shop
