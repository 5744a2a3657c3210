"""Who made an entry and when, as a page says it: in the shop's time zone."""

from __future__ import annotations

from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from fitwright.records.entry import Entry
from fitwright.records.projection import ShopState
from fitwright.records.times import moment_of


def who_wrote(shop: ShopState, entry: Entry) -> str:
    """The name of whoever made an entry; `nobody named` where nobody is."""
    held = shop.people.get(entry.person or "")
    return held.body.name if held is not None else entry.person or "nobody named"


def when_written(shop: ShopState, entry: Entry) -> str:
    """The day and time of an entry; that of the client where it said one."""
    return at_the_shop(shop, entry.client_time or entry.committed_at)


def at_the_shop(shop: ShopState, text: str) -> str:
    """A moment of the record in the shop's time zone."""
    moment = moment_of(text.replace("Z", "+00:00"))
    return moment.astimezone(zone_of(shop)).strftime("%Y-%m-%d %H:%M")


def zone_of(shop: ShopState) -> ZoneInfo:
    """The time zone of the shop; UTC where it has set none that this machine knows."""
    try:
        return ZoneInfo(shop.shop_setting("time zone") or "UTC")
    except (ZoneInfoNotFoundError, ValueError):
        return ZoneInfo("UTC")
