"""Days and times as somebody types them at the bench, and as the record keeps them."""

from __future__ import annotations

import calendar
import re
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import Final
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from fitwright.bench.errors import CannotEnterError
from fitwright.records.projection import ShopState

AHEAD: Final = timedelta(minutes=5)
"""By so much two clocks of one shop may differ."""
_CLOCK: Final = re.compile(r"(\d{1,2})[:.](\d{2})")
_MONTH: Final = re.compile(r"(\d{4})-(\d{2})|(\d{2})[/.](\d{4})")


def zone_of(shop: ShopState) -> tzinfo:
    """The time zone of the shop; UTC where it has none."""
    try:
        return ZoneInfo(shop.shop_setting("time zone") or "UTC")
    except (ZoneInfoNotFoundError, ValueError):
        return UTC


def moment_typed(text: str, shop: ShopState, now: datetime) -> str | None:
    """A moment with its offset, as the record keeps it: of today (`09:30`), or with its date.

    A time without an offset is that of the shop's time zone.

    Raises
    ------
    CannotEnterError
        If it is none, or lies ahead.
    """
    words = text.strip()
    if not words:
        return None
    zone, clock = zone_of(shop), _CLOCK.fullmatch(words)
    try:
        if clock is not None:
            today = now.astimezone(zone).date()
            found = datetime.combine(today, time(int(clock[1]), int(clock[2])), zone)
        else:
            found = datetime.fromisoformat(words)
    except ValueError:
        raise CannotEnterError(f'"{words}" is no time', "write it as 09:30 or 2031-05-04 09:30") from None
    found = found if found.tzinfo is not None else found.replace(tzinfo=zone)
    if found > now + AHEAD:
        raise CannotEnterError(f'"{words}" lies ahead', "say when it was")
    return found.isoformat()


def last_day(text: str) -> str | None:
    """A day until which something is good, as the record keeps it; of a month (`2031-05`), its last day.

    Raises
    ------
    CannotEnterError
        If it is none.

    Examples
    --------
    >>> last_day("05/2031"), last_day("2032-02"), last_day("2031-05-04")
    ('2031-05-31', '2032-02-29', '2031-05-04')
    """
    words = text.strip()
    if not words:
        return None
    month = _MONTH.fullmatch(words)
    try:
        if month is None:
            return date.fromisoformat(words).isoformat()
        year, number = int(month[1] or month[4]), int(month[2] or month[3])
        return date(year, number, calendar.monthrange(year, number)[1]).isoformat()
    except ValueError:
        wrong = f'"{words}" is no date'
        raise CannotEnterError(wrong, "write the day as 2031-05-04, or the month as 2031-05") from None
