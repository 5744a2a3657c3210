"""How long something still takes, as a page says it; a script may count on from there."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from math import ceil

MINUTE, HOUR, DAY = 60.0, 3600.0, 86400.0


@dataclass(frozen=True, slots=True)
class Timer:
    """What is left until a moment, the moment in words, and as a machine reads it."""

    left: str
    at: str
    until: str


def timer(now: datetime, until: datetime | None, at: str) -> Timer | None:
    """What is left of the time until a moment; nothing once it is over."""
    if until is None or until <= now:
        return None
    return Timer(left_words((until - now).total_seconds()), at, until.isoformat(timespec="seconds"))


def left_words(seconds: float) -> str:
    """A time left, in whole minutes, or in hours or days with what is over.

    >>> left_words(59), left_words(3600), left_words(12_000), left_words(200_000)
    ('1 min', '1 h', '3 h 20 min', '2 d 8 h')
    """
    minutes = ceil(seconds / MINUTE)
    hours, minutes = divmod(minutes, 60)
    if hours >= 24:
        days, hours = divmod(hours + (minutes > 0), 24)
        return f"{days} d {hours} h" if hours else f"{days} d"
    if not hours:
        return f"{minutes} min"
    return f"{hours} h {minutes} min" if minutes else f"{hours} h"
