"""Something that was recorded: by whom and when."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True)
class Deed:
    """Something recorded of a step or fastener: the entry, who did it, when (as the device says)."""

    entry: str
    seq: int
    person: str | None
    at: datetime | None
    words: str | None = None
