"""Moments and days as the record writes them."""

from __future__ import annotations

from calendar import monthrange
from datetime import UTC, date, datetime
from functools import lru_cache

from fitwright.records.entry import Entry


@lru_cache(maxsize=4096)
def moment(text: str | None) -> datetime | None:
    """A moment as ISO 8601 writes it, in UTC where it names no zone; None where it is none.

    >>> moment("2031-05-04T09:30:00Z").hour, moment("after lunch")
    (9, None)
    """
    if not text:
        return None
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        return None
    return found.replace(tzinfo=UTC) if found.tzinfo is None else found.astimezone(UTC)


def when(entry: Entry) -> datetime | None:
    """When something was entered, as the device says it: an import years later is not when it was done."""
    return moment(entry.client_time) or moment(entry.committed_at)


def last_day(text: str | None) -> date | None:
    """The last day that a date names: a day, or the last of a month; None where it is no date.

    >>> last_day("2031-02"), last_day("the first strip-down")
    (datetime.date(2031, 2, 28), None)
    """
    words = (text or "").strip()
    try:
        if len(words) == 7:
            first = date.fromisoformat(f"{words}-01")
            return first.replace(day=monthrange(first.year, first.month)[1])
        return date.fromisoformat(words[:10])
    except ValueError:
        return None


def is_over(until: str | None, now: datetime | None) -> bool:
    """Whether the day that a text names has passed; words that name no day never do.

    >>> is_over("2031-05-04", moment("2031-05-05T00:00:00Z")), is_over("the first strip-down", None)
    (True, False)
    """
    day = last_day(until)
    return day is not None and now is not None and now.date() > day
