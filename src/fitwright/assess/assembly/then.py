"""A moment to look at, and what every condition of a step can be asked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from fitwright.assess.assembly.results import Condition
from fitwright.model.step import Step
from fitwright.records.entry import Entry
from fitwright.records.kinds import Body

Happened = tuple[int, Entry]
"""Where an entry stands in the order, and the entry."""


@dataclass(frozen=True, slots=True)
class Then:
    """A moment: after an entry of the record (`upto`, None: now), at a time.

    `heats_upto` is up to where heat cycles count; a later one asks for another pass, not for this one again.
    """

    upto: int | None = None
    at: datetime | None = None
    heats_upto: int | None = None

    def includes(self, order: int) -> bool:
        """Whether something at this place in the order had happened by then."""
        return self.upto is None or order <= self.upto


NOW = Then()


class Asks(Protocol):
    """A kind of condition."""

    def condition(self, step: Step, subject: str, then: Then) -> Condition:
        """The condition as it holds, or held."""
        ...

    def events(self, subject: str) -> list[Happened]:
        """The entries that may make or break it."""
        ...

    def rests_on(self, step: Step, subject: str, target: Body) -> bool:
        """Whether it rests on what an entry said that was withdrawn or corrected."""
        ...
