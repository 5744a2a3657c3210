"""Time enters through a clock that is handed in; the record holds UTC as text."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime

Clock = Callable[[], datetime]


def system_clock() -> datetime:
    """The computer's time, in UTC."""
    return datetime.now(UTC)


def utc_text(moment: datetime) -> str:
    """A moment as the record writes it: UTC, microseconds, `Z`.

    Raises
    ------
    ValueError
        If the moment has no time zone: it could be any of 24 hours.

    Examples
    --------
    >>> utc_text(datetime(2031, 5, 4, 9, 30, tzinfo=UTC))
    '2031-05-04T09:30:00.000000Z'
    """
    if moment.tzinfo is None:
        message = "a clock for the record gives moments with a time zone"
        raise ValueError(message)
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def is_moment(text: str) -> bool:
    """Whether a text is a date and time as ISO 8601 writes it.

    >>> is_moment("2031-05-04T09:30:00+02:00"), is_moment("yesterday")
    (True, False)
    """
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return True


def moment_of(text: str) -> datetime:
    """The moment that `utc_text` wrote."""
    return datetime.fromisoformat(text)


def minute_of(text: str) -> str:
    """A moment as people read it, to the minute and in UTC; a day or other words as they stand.

    >>> minute_of("2031-05-04T09:30:20.000000Z"), minute_of("2031-05-04")
    ('2031-05-04 09:30', '2031-05-04')
    >>> minute_of("2031-05-04T09:30:00+02:00")
    '2031-05-04 07:30'
    """
    try:
        found = moment_of(text)
    except ValueError:
        return text
    if len(text) <= len("2031-05-04"):
        return text
    return f"{found.astimezone(UTC) if found.tzinfo else found:%Y-%m-%d %H:%M}"
